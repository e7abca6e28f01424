//! Keeps strokes within the wood: beyond its edge there is nothing to print.

use sheet::{Point, Rect};

use super::stroke::{Knot, Path, Stroke};

/// The parts of strokes that lie within a box; numbers stay those of the whole strokes.
pub(super) fn within(strokes: Vec<Stroke>, r: Rect) -> Vec<Stroke> {
    let mut out = Vec::with_capacity(strokes.len());
    for stroke in strokes {
        match &stroke.path {
            Path::Line(knots) if knots.iter().all(|k| r.holds(k.at)) => out.push(stroke),
            Path::Line(knots) => {
                for part in knots.split(|k| !r.holds(k.at)).filter(|p| p.len() > 1) {
                    let knots: Vec<Knot> = part.to_vec();
                    out.push(Stroke { path: Path::Line(knots), ..stroke.clone() });
                }
            }
            Path::Area(lines) => {
                let cut: Vec<Vec<Point>> =
                    lines.iter().map(|l| clipped(l, r)).filter(|l| l.len() > 2).collect();
                if !cut.is_empty() {
                    out.push(Stroke { path: Path::Area(cut), ..stroke });
                }
            }
        }
    }
    out
}

/// A closed line cut off at the sides of a box (Sutherland & Hodgman 1974).
fn clipped(line: &[Point], r: Rect) -> Vec<Point> {
    let sides: [fn(Point, Rect) -> f64; 4] =
        [|p, r| p.x - r.x, |p, r| r.right() - p.x, |p, r| p.y - r.y, |p, r| r.bottom() - p.y];
    sides.iter().fold(line.to_vec(), |ring, side| {
        let mut out = Vec::with_capacity(ring.len() + 4);
        for (i, &p) in ring.iter().enumerate() {
            let q = ring[(i + 1) % ring.len()];
            let (a, b) = (side(p, r), side(q, r));
            if a >= 0.0 {
                out.push(p);
            }
            if (a >= 0.0) != (b >= 0.0) {
                out.push(p + (q - p) * (a / (a - b)));
            }
        }
        out
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_square_that_hangs_over_the_edge_is_cut_off_there() {
        let ring = Rect::new(-2.0, 1.0, 4.0, 4.0).corners();
        let cut = clipped(&ring, Rect::new(0.0, 0.0, 10.0, 10.0));
        let bounds = Rect::around(cut).unwrap();
        assert_eq!(bounds, Rect::new(0.0, 1.0, 2.0, 4.0));
        assert!(clipped(&ring, Rect::new(5.0, 0.0, 4.0, 10.0)).is_empty());
    }
}
