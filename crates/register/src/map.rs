//! The whole map from one photograph to the other: a plane view, then the paper's own motion.

use crate::Field;
use sheet::{Homography, Point, Rect};

/// Steepest slope of the paper's own motion, against the plane view. Paper shrinks by 1 to 2.5 percent (DESIGN §4),
/// most of it evenly, and cockles by less; windows beside creases are found best so (docs/benchmarks.md).
const STEEPEST: f64 = 0.02;

/// Where each place of photograph A lies on photograph B.
///
/// The paper's motion is kept in A's pixels and comes first: B = homography(A + field(A)).
#[derive(Debug, Clone, PartialEq)]
pub struct PaperMap {
    /// The camera's part.
    pub view: Homography,
    /// The paper's part.
    pub paper: Field,
}

impl PaperMap {
    /// A map without any motion of the paper.
    pub fn flat(view: Homography) -> Self {
        Self { view, paper: Field::still() }
    }

    /// The place on B (pixels) of a place on A (pixels).
    pub fn to_b(&self, p: Point) -> Point {
        let (shift, _) = self.paper.at(p);
        self.view.map(p + shift)
    }

    /// The place on B and the slope of the map there, as far as paper slopes: a crease is a jump, and a window
    /// beside it lies as the paper on its own side does.
    pub fn to_b_with_slope(&self, p: Point) -> (Point, [[f64; 2]; 2]) {
        self.with_slope(p, self.paper.at(p))
    }

    /// The same as if the place lay on these sides of the creases; `None` if no part of the paper does.
    pub(crate) fn to_b_on(&self, sides: usize, p: Point) -> Option<(Point, [[f64; 2]; 2])> {
        Some(self.with_slope(p, self.paper.at_on(sides, p)?))
    }

    fn with_slope(&self, p: Point, (shift, d): (Point, [[f64; 2]; 2])) -> (Point, [[f64; 2]; 2]) {
        let d = d.map(|row| row.map(|v| v.clamp(-STEEPEST, STEEPEST)));
        let q = p + shift;
        let j = self.view.jacobian(q);
        let f = [[1.0 + d[0][0], d[0][1]], [d[1][0], 1.0 + d[1][1]]];
        let slope = std::array::from_fn(|r| std::array::from_fn(|c| j[r][0] * f[0][c] + j[r][1] * f[1][c]));
        (self.view.map(q), slope)
    }

    /// The box on B that holds a box of A.
    pub fn box_on_b(&self, place: Rect) -> Rect {
        // A crease jumps, and cockled paper bulges over the edges of a box: it is asked along a grid.
        const STEPS: usize = 4;
        let share = |i: usize| i as f64 / STEPS as f64;
        let all = (0..=STEPS).flat_map(|j| (0..=STEPS).map(move |i| (i, j)));
        let at = |(i, j)| self.to_b(Point::new(place.x + place.w * share(i), place.y + place.h * share(j)));
        Rect::around(all.map(at)).unwrap_or(place)
    }

    /// The place on A of a place on B, by fixed-point steps from the plane view; `None` where that
    /// does not settle to a thousandth of a pixel.
    pub fn to_a(&self, q: Point) -> Option<Point> {
        let flat = self.view.inverse()?.map(q);
        let mut p = flat;
        for _ in 0..20 {
            let next = flat - self.paper.at(p).0;
            if next.distance(p) < 1e-3 {
                return Some(next);
            }
            p = next;
        }
        None
    }

    /// Pixels of B to one pixel of A, about a place.
    pub fn scale_at(&self, p: Point) -> f64 {
        let (_, j) = self.to_b_with_slope(p);
        (j[0][0] * j[1][1] - j[0][1] * j[1][0]).abs().sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_and_back() {
        let shifts = (0..25).map(|i| Point::new(f64::from(i % 5), f64::from(i / 5) * 0.5)).collect();
        let map = PaperMap {
            view: Homography::from_rows([[1.02, 0.1, 5.0], [-0.1, 0.98, 9.0], [1e-5, 2e-5, 1.0]]),
            paper: Field::from_nodes(5, 5, 50.0, shifts).unwrap(),
        };
        let p = Point::new(77.0, 131.0);
        assert!(map.to_a(map.to_b(p)).unwrap().distance(p) < 0.01);
    }
}
