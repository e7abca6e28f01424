//! A smooth displacement over a photograph, kept at the nodes of a grid.

use sheet::Point;

/// Displacements at the nodes of a square grid over a photograph, with Catmull-Rom cubics between
/// them; beyond the grid the edge is held. Pixels of the photograph it lies on.
#[derive(Debug, Clone, PartialEq)]
pub struct Field {
    across: usize,
    down: usize,
    spacing: f64,
    shifts: Vec<Point>,
}

impl Field {
    /// No displacement anywhere.
    pub fn still() -> Self {
        Self { across: 1, down: 1, spacing: 1.0, shifts: vec![Point::new(0.0, 0.0)] }
    }

    /// A grid of `across` by `down` nodes, the first at the origin, `spacing` pixels apart, each
    /// displaced as `shift` says of its place.
    pub fn from_nodes(across: usize, down: usize, spacing: f64, shifts: Vec<Point>) -> Option<Self> {
        (across * down == shifts.len() && !shifts.is_empty() && spacing > 0.0).then_some(Self {
            across,
            down,
            spacing,
            shifts,
        })
    }

    /// The displacement at a place, and its slope: [[dsx/dx, dsx/dy], [dsy/dx, dsy/dy]].
    pub fn at(&self, p: Point) -> (Point, [[f64; 2]; 2]) {
        let gx = (p.x / self.spacing).clamp(0.0, (self.across - 1) as f64);
        let gy = (p.y / self.spacing).clamp(0.0, (self.down - 1) as f64);
        let (ix, iy) = (gx.floor() as isize, gy.floor() as isize);
        let (wx, dx) = cubic(gx - ix as f64);
        let (wy, dy) = cubic(gy - iy as f64);
        let node = |i: isize, j: isize| {
            let x = (ix + i).clamp(0, self.across as isize - 1) as usize;
            let y = (iy + j).clamp(0, self.down as isize - 1) as usize;
            self.shifts[y * self.across + x]
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
