//! A smooth displacement over a photograph, kept at the nodes of a grid.

use crate::crease::{Crease, side_of};
use sheet::{Point, Rect};

/// Displacements at the nodes of a square grid over a photograph, with Catmull-Rom cubics between
/// them; beyond the grid the edge is held. Creases cut it into parts, each with nodes of its own, so that it
/// jumps there. Pixels of the photograph it lies on.
#[derive(Debug, Clone, PartialEq)]
pub struct Field {
    across: usize,
    down: usize,
    spacing: f64,
    creases: Vec<Crease>,
    /// The nodes of each part, row by row.
    parts: Vec<Vec<Point>>,
    /// By the sides of the creases on which a place lies, the part it belongs to.
    part_of: Vec<Option<usize>>,
}

impl Field {
    /// No displacement anywhere.
    pub fn still() -> Self {
        Self {
            across: 1,
            down: 1,
            spacing: 1.0,
            creases: Vec::new(),
            parts: vec![vec![Point::new(0.0, 0.0)]],
            part_of: vec![Some(0)],
        }
    }

    /// A grid of `across` by `down` nodes, the first at the origin, `spacing` pixels apart, each
    /// displaced as `shift` says of its place.
    pub fn from_nodes(across: usize, down: usize, spacing: f64, shifts: Vec<Point>) -> Option<Self> {
        Self::cut((across, down), spacing, &[], vec![(0, shifts)])
    }

    /// As [`Self::from_nodes`], cut by creases: each part has the sides that it lies on, and its nodes; places on
    /// sides that no part has follow the first. `None` where the numbers do not fit.
    pub(crate) fn cut(
        (across, down): (usize, usize),
        spacing: f64,
        creases: &[Crease],
        parts: Vec<(usize, Vec<Point>)>,
    ) -> Option<Self> {
        let fits = spacing > 0.0
            && across * down > 0
            && !parts.is_empty()
            && parts.iter().all(|p| p.1.len() == across * down);
        let mut part_of = vec![None; 1 << creases.len()];
        for (i, (sides, _)) in parts.iter().enumerate() {
            *part_of.get_mut(*sides)? = Some(i);
        }
        let parts = parts.into_iter().map(|p| p.1).collect();
        fits.then(|| Self { across, down, spacing, creases: creases.to_vec(), parts, part_of })
    }

    /// The creases that cut it.
    pub fn creases(&self) -> &[Crease] {
        &self.creases
    }

    /// Whether a place lies in the strip that a crease hides or opens, or within `margin` of it.
    pub fn in_crease(&self, p: Point, margin: f64) -> bool {
        self.creases.iter().any(|c| {
            let jump = c.jump_beside(p).abs();
            jump > 0.0 && c.beyond(p).abs() < jump + margin
        })
    }

    /// Whether a crease runs through a box, or within `margin` of it.
    pub fn cuts(&self, r: Rect, margin: f64) -> bool {
        self.creases.iter().any(|c| {
            let far = r.corners().map(|p| c.beyond(p));
            let (least, most) = far.iter().fold((f64::MAX, f64::MIN), |(l, m), &v| (l.min(v), m.max(v)));
            let jump = c.jump_beside(r.centre()).abs();
            jump > 0.0 && least < jump + margin && most > -jump - margin
        })
    }

    /// The displacement at a place, and its slope: [[dsx/dx, dsx/dy], [dsy/dx, dsy/dy]].
    pub fn at(&self, p: Point) -> (Point, [[f64; 2]; 2]) {
        self.of_part(self.part_of[side_of(&self.creases, p)].unwrap_or(0), p)
    }

    /// The same as if the place lay on these sides of the creases; `None` if no part does.
    pub(crate) fn at_on(&self, sides: usize, p: Point) -> Option<(Point, [[f64; 2]; 2])> {
        Some(self.of_part((*self.part_of.get(sides)?)?, p))
    }

    fn of_part(&self, part: usize, p: Point) -> (Point, [[f64; 2]; 2]) {
        let gx = (p.x / self.spacing).clamp(0.0, (self.across - 1) as f64);
        let gy = (p.y / self.spacing).clamp(0.0, (self.down - 1) as f64);
        let (ix, iy) = (gx.floor() as isize, gy.floor() as isize);
        let shifts = &self.parts[part];
        let (wx, dx) = cubic(gx - ix as f64);
        let (wy, dy) = cubic(gy - iy as f64);
        let node = |i: isize, j: isize| {
            let x = (ix + i).clamp(0, self.across as isize - 1) as usize;
            let y = (iy + j).clamp(0, self.down as isize - 1) as usize;
            shifts[y * self.across + x]
        };
        let mut shift = Point::new(0.0, 0.0);
        let (mut by_x, mut by_y) = (shift, shift);
        for j in 0..4 {
            for i in 0..4 {
                let s = node(i as isize - 1, j as isize - 1);
                shift = shift + s * (wx[i] * wy[j]);
                by_x = by_x + s * (dx[i] * wy[j] / self.spacing);
                by_y = by_y + s * (wx[i] * dy[j] / self.spacing);
            }
        }
        (shift, [[by_x.x, by_y.x], [by_x.y, by_y.y]])
    }
}

/// Catmull-Rom weights of the four nodes about a place `t` of the way from the second to the third,
/// and their slopes (Catmull & Rom 1974; tension one half).
fn cubic(t: f64) -> ([f64; 4], [f64; 4]) {
    let (t2, t3) = (t * t, t * t * t);
    (
        [
            -0.5 * t3 + t2 - 0.5 * t,
            1.5 * t3 - 2.5 * t2 + 1.0,
            -1.5 * t3 + 2.0 * t2 + 0.5 * t,
            0.5 * t3 - 0.5 * t2,
        ],
        [-1.5 * t2 + 2.0 * t - 0.5, 4.5 * t2 - 5.0 * t, -4.5 * t2 + 4.0 * t + 0.5, 1.5 * t2 - t],
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_straight_slope_is_kept_exactly() {
        let shifts = (0..30).map(|i| Point::new(f64::from(i % 6) * 2.0, -f64::from(i / 6))).collect();
        let f = Field::from_nodes(6, 5, 10.0, shifts).unwrap();
        let (s, d) = f.at(Point::new(23.0, 17.0));
        assert!((s.x - 4.6).abs() < 1e-9 && (s.y + 1.7).abs() < 1e-9);
        assert!((d[0][0] - 0.2).abs() < 1e-9 && (d[1][1] + 0.1).abs() < 1e-9);
    }
}
