//! Creases that were told, against those of the sheet: lines, not boxes.

use evidence::measure::Incident;
use press::{Crease, Truth};
use sheet::{Point, Rect};

use super::incidents::{OfClass, Told};

/// A line told lies nowhere farther than this from the true one, mm, where both are in the picture.
const NEAR: f64 = 2.5;
/// A crease is seen if so much of it is in the picture, as a share of the picture's longer side.
const SEEN: f64 = 0.25;
/// Steps along a crease, mm.
const STEP: f64 = 2.0;

/// Scores the creases of a sheet, whenever they came.
pub(super) fn against(truth: &Truth, found: &[Incident]) -> OfClass {
    let lines = truth.warp.creases.iter().map(|c| line(truth, c));
    let there: Vec<Vec<Point>> = lines.filter(|l| is_seen(truth, l)).collect();
    let mut is_found = vec![false; there.len()];
    let (mut told, mut wrong) = (Vec::new(), Vec::new());
    for (one, ends) in found.iter().filter_map(|i| Some((i, i.ends_px?))) {
        let hit = (0..there.len()).find(|&k| lies_on(truth, ends, &there[k]));
        match hit {
            // One crease may show as two lines.
            Some(k) if is_found[k] => continue,
            Some(k) => is_found[k] = true,
            None => {
                let [x, y, w, h] = one.box_px;
                wrong.push(Rect::new(x, y, w, h));
            }
        }
        told.push(Told { score: one.score, is_true: hit.is_some() });
    }
    let missed = there.iter().zip(&is_found).filter(|(_, found)| !**found);
    let missed = missed.filter_map(|(l, _)| Rect::around(l.iter().copied())).collect();
    OfClass { class: "creases through the text".to_owned(), there: there.len(), told, missed, wrong }
}

/// A crease on the photograph, as far as that holds it.
fn line(truth: &Truth, crease: &Crease) -> Vec<Point> {
    let (s, c) = crease.normal.radians().sin_cos();
    let picture = Rect::new(0.0, 0.0, f64::from(truth.width), f64::from(truth.height));
    let way = truth.warp.way();
    let at = |k: i32| crease.through + Point::new(-s, c) * (STEP * f64::from(k));
    (-300..=300).map(|k| way.lying_to_photograph(at(k))).filter(|p| picture.holds(*p)).collect()
}

fn is_seen(truth: &Truth, line: &[Point]) -> bool {
    let longer = f64::from(truth.width.max(truth.height));
    line.first().zip(line.last()).is_some_and(|(p, q)| p.distance(*q) >= SEEN * longer)
}

/// Whether a straight line through `ends` runs along a true one.
fn lies_on(truth: &Truth, [p, q]: [[f64; 2]; 2], line: &[Point]) -> bool {
    let (p, q) = (Point::new(p[0], p[1]), Point::new(q[0], q[1]));
    let along = q - p;
    let far = |r: &Point| ((along.x * (r.y - p.y) - along.y * (r.x - p.x)) / along.length().max(1e-9)).abs();
    line.iter().all(|r| far(r) <= NEAR * truth.ppi.px_per_mm())
}
