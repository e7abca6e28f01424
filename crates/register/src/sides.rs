//! Near a crease the paper moves otherwise on its two sides: asking the neighbours on one side only.

use crate::smooth::{Agreed, Sample, agreed};
use sheet::Point;

/// The neighbours as a whole are at odds when they scatter this many times as much as is usual.
const AT_ODDS: f64 = 2.0;
/// Neighbours on one side are at one when they scatter no more than this many times the usual.
const AT_ONE: f64 = 1.4;
/// Fewest neighbours on a side that are asked.
const FEWEST: usize = 12;
/// Directions in which a side is looked for.
const SIDES: usize = 8;

/// What the neighbours say of a print found at `at` with displacement `shift`.
///
/// All neighbours are heard unless they are at odds (`usual` is the scatter that neighbourhoods of this
/// side commonly have). Then each half of them is asked that lies to one side of the place; of the halves
/// that are at one with themselves the one is believed that explains the print best. Among lines that
/// were set again no half is at one, so that a resetting cannot be explained away as a crease.
pub(crate) fn heard(at: Point, shift: Point, near: &[Sample], width: f64, usual: f64) -> Option<Agreed> {
    let whole = agreed(at, near, width)?;
    if whole.scatter <= AT_ODDS * usual {
        return Some(whole);
    }
    let mut half = Vec::with_capacity(near.len());
    let mut best: Option<Agreed> = None;
    for k in 0..SIDES {
        let (sin, cos) = (k as f64 / SIDES as f64 * std::f64::consts::TAU).sin_cos();
        half.clear();
        half.extend(near.iter().filter(|s| {
            let d = s.at - at;
            d.x * cos + d.y * sin > 0.0
        }));
        if half.len() < FEWEST {
            continue;
        }
        if let Some(side) = agreed(at, &half, width).filter(|s| s.scatter <= AT_ONE * usual)
            && best.is_none_or(|b| side.shift.distance(shift) < b.shift.distance(shift))
        {
            best = Some(side);
        }
    }
    best.or(Some(whole))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A grid of print, 10 apart, each displaced as told of its place, with a little noise.
    fn print(motion: impl Fn(f64, f64) -> f64) -> Vec<Sample> {
        (0..225)
            .map(|i| {
                let (x, y) = (f64::from(i % 15) * 10.0, f64::from(i / 15) * 10.0);
                let noise = f64::from((i * 37 % 11) - 5) * 0.02;
                Sample { at: Point::new(x, y), shift: Point::new(motion(x, y) + noise, noise), weight: 1.0 }
            })
            .collect()
    }

    #[test]
    fn beside_a_crease_the_own_side_is_heard() {
        // A jump of 4 across the slanted line x + y = 140.
        let jump = |x: f64, y: f64| if x + y > 140.0 { 4.0 } else { 0.0 };
        let all = print(jump);
        for (x, y, own) in [(62.0, 66.0, 0.0), (74.0, 78.0, 4.0)] {
            let near: Vec<Sample> = all.iter().filter(|s| (s.at.y - y).abs() > 5.0).copied().collect();
            let told = heard(Point::new(x, y), Point::new(own, 0.0), &near, 40.0, 0.1).unwrap();
            assert_ne!(Some(told), agreed(Point::new(x, y), &near, 40.0), "all were heard");
            assert!((told.shift.x - own).abs() < 0.2, "{told:?}");
        }
    }

    #[test]
    fn among_lines_set_again_no_side_is_believed() {
        // Every row wanders on its own along x, as lines set again do.
        let rows = |x: f64, y: f64| (x * 0.13 + y * 1.7).sin() * 3.0 + (y * 0.9).cos() * 2.0;
        let (at, all) = (Point::new(70.0, 72.0), print(rows));
        assert_eq!(heard(at, Point::new(2.0, 0.0), &all, 40.0, 0.1), agreed(at, &all, 40.0));
    }
}
