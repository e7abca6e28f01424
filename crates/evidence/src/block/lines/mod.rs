//! What a connoisseur looks at: where lines end and meet, and how many hatch a field.
//!
//! Both inks are thinned to lines a pixel wide, and their ends and forks are looked for on each other; fields of hatching are
//! found by their slopes, and their lines are counted across. A block keeps all of these, but for what breaks off or takes no
//! ink; a copyist moves them (number of hatching lines, topology of ends and crossings: common
//! connoisseurship, no source).

mod hatching;
mod thin;

use super::signs::STROKES;
use crate::rank::median;
use hatching::{Fields, fields};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use sheet::{Plane, Point, Rect};
use std::borrow::Cow;
use thin::{Places, places};

/// Longest side at which lines are thinned, pixels: finer tells no more and takes longer.
const LONGEST: usize = 1300;
/// A place is kept if its like lies within this share of the unit of the placement, but no fewer pixels than the second: the
/// most that paper moves unevenly and ink spreads (chosen on the fitting set's pairs of one block).
const KEPT: f64 = 0.2;
const KEPT_PX: f64 = 1.6;
/// It has moved if its like lies within so many times that.
const MOVED: f64 = 4.0;

/// How many places are kept.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct PlacesKept {
    /// Of the first's places those that the second has where the paper's motion puts them.
    pub kept: usize,
    /// Those of which the like stands a little off.
    pub moved: usize,
    /// Those that the second has nowhere near, though it shows strokes there.
    pub gone: usize,
}

/// What lines tell of two impressions laid on each other.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct LineSigns {
    /// Forks and crossings of lines.
    pub forks: PlacesKept,
    /// Ends of lines.
    pub ends: PlacesKept,
    /// Fields of hatching that both show clearly.
    pub fields: usize,
    /// Of these, those in which both have as many lines.
    pub fields_equal: usize,
}

/// What lines tell; both planes are ink on one frame, `body` is the cut on them, `unit` pixels the unit of the placement.
pub(super) fn lines(a: &Plane<u8>, b: &Plane<u8>, body: Rect, unit: f64) -> LineSigns {
    let (mut a, mut b, mut k) = (Cow::Borrowed(a), Cow::Borrowed(b), 1.0);
    while a.width().max(a.height()) > LONGEST {
        (a, b, k) = (Cow::Owned(a.halved()), Cow::Owned(b.halved()), k * 2.0);
    }
    let (body, unit) = (body.scaled(1.0 / k), unit / k);
    let [of_a, of_b]: [Places; 2] = [&a, &b].map(|ink| places(ink, body, unit));
    let reach = (KEPT * unit).max(KEPT_PX);
    let Fields { all, equal } = fields(&a, &b, body, unit);
    LineSigns {
        forks: kept(&of_a.forks, &of_b.forks, &b, unit, reach),
        ends: kept(&of_a.ends, &of_b.ends, &b, unit, reach),
        fields: all,
        fields_equal: equal,
    }
}

/// How many places of the first have their like on the second, where that shows strokes at all.
fn kept(a: &[Point], b: &[Point], second: &Plane<u8>, unit: f64, reach: f64) -> PlacesKept {
    let mut out = PlacesKept::default();
    for &p in a {
        let about = Rect::new(p.x - unit, p.y - unit, 2.0 * unit, 2.0 * unit);
        if super::windows::contrast(second, about) <= STROKES {
            continue;
        }
        let nearest = b.iter().map(|q| q.distance(p)).fold(f64::INFINITY, f64::min);
        if nearest <= reach {
            out.kept += 1;
        } else if nearest <= MOVED * reach {
            out.moved += 1;
        } else {
            out.gone += 1;
        }
    }
    out
}

impl PlacesKept {
    /// How many were looked for.
    pub fn all(self) -> usize {
        self.kept + self.moved + self.gone
    }
}

/// The distance, pixels of the first, within which the places of windows still lie off their neighbours' motion alike: where
/// the correlation of what is left of their places falls under a half; `None` of few windows, or where it nowhere does.
pub(super) fn alike_within(residuals: &[(Point, Point)], step: f64) -> Option<f64> {
    /// Fewest windows, and farthest distance in steps.
    const FEWEST: usize = 30;
    const FARTHEST: usize = 8;
    if residuals.len() < FEWEST {
        return None;
    }
    // A window that was found wrongly counts as no more than one that was found.
    let most = 4.0 * median(residuals.iter().map(|r| r.1.length()).collect());
    let held = |r: Point| if r.length() > most { r * (most / r.length()) } else { r };
    let first = residuals[0].0;
    let cell = |p: Point| (((p.x - first.x) / step).round() as i64, ((p.y - first.y) / step).round() as i64);
    let by_cell: std::collections::BTreeMap<(i64, i64), Point> =
        residuals.iter().map(|(at, r)| (cell(*at), held(*r))).collect();
    let dot = |p: Point, q: Point| p.x * q.x + p.y * q.y;
    let power = by_cell.values().map(|r| dot(*r, *r)).sum::<f64>() / by_cell.len() as f64;
    let at = |lag: i64| {
        let pairs = by_cell.iter().flat_map(|((x, y), r)| {
            [(x + lag, *y), (*x, y + lag)].into_iter().filter_map(|c| by_cell.get(&c)).map(|s| dot(*r, *s))
        });
        let (n, sum) = pairs.fold((0.0f64, 0.0), |(n, sum), v| (n + 1.0, sum + v));
        sum / n.max(1.0) / power.max(1e-12)
    };
    let mut before = 1.0;
    for lag in 1..=FARTHEST as i64 {
        let now = at(lag);
        if now < 0.5 {
            let part = (before - 0.5) / (before - now).max(1e-9);
            return Some((lag as f64 - 1.0 + part) * step);
        }
        before = now;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_is_kept_moved_or_gone_and_bare_paper_is_not_asked() {
        let mut second = Plane::filled(120, 60, 0u8);
        for y in 0..60 {
            for x in 0..60 {
                second.row_mut(y)[x] = if (x / 4) % 2 == 0 { 255 } else { 0 };
            }
        }
        let at = |x: f64| Point::new(x, 30.0);
        let told =
            kept(&[at(12.0), at(24.0), at(44.0), at(100.0)], &[at(13.0), at(28.0)], &second, 10.0, 2.0);
        assert_eq!(told, PlacesKept { kept: 1, moved: 1, gone: 1 });
    }

    #[test]
    fn what_wanders_slowly_stays_alike_farther() {
        let grid = || (0..400).map(|i| (f64::from(i % 20), f64::from(i / 20)));
        let slow: Vec<(Point, Point)> = grid()
            .map(|(x, y)| (Point::new(10.0 * x, 10.0 * y), Point::new((x / 3.0).sin(), (y / 3.0).cos())))
            .collect();
        let quick: Vec<(Point, Point)> = grid()
            .map(|(x, y)| {
                let k = (x as u64 * 7919 + y as u64 * 104_729).wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 40;
                (Point::new(10.0 * x, 10.0 * y), Point::new((k % 97) as f64 - 48.0, (k % 89) as f64 - 44.0))
            })
            .collect();
        // The slow way falls to a half where cos(l / 3) is 0, for one of its two parts stays alike: l is 4.7 steps.
        let [slow, quick] = [slow, quick].map(|r| alike_within(&r, 10.0));
        assert!(slow.is_some_and(|d| (44.0..50.0).contains(&d)), "{slow:?}");
        assert!(quick.is_some_and(|d| d < 8.0), "{quick:?}");
    }
}
