//! How far the edges of one cut lie within those of another: a block that was sawn smaller ends sooner on one side.

use super::{Cut, LaidCut};
use crate::rank::median;
use sheet::{Plane, Point, Rect};

/// Places along a side of which the middle one counts.
const PLACES: usize = 9;

/// How far the second's left, top, right and bottom edge, as it lies on the first, are within the first's, thousandths of the
/// first's shorter side; less than 0 where they lie beyond.
pub(super) fn edges(a: &Cut, laid: &LaidCut) -> Option<[f64; 4]> {
    let b = laid.second.body;
    let along = |i: usize| (i as f64 + 0.5) / PLACES as f64;
    let side = |k: usize| -> Option<Point> {
        let on_b = |i: usize| match k {
            0 => Point::new(b.x, b.y + b.h * along(i)),
            1 => Point::new(b.x + b.w * along(i), b.y),
            2 => Point::new(b.right(), b.y + b.h * along(i)),
            _ => Point::new(b.x + b.w * along(i), b.bottom()),
        };
        let places: Vec<Point> = (0..PLACES).filter_map(|i| laid.laid.map.to_a(on_b(i))).collect();
        let middle = |of: fn(&Point) -> f64| median(places.iter().map(of).collect());
        (!places.is_empty()).then(|| Point::new(middle(|p| p.x), middle(|p| p.y)))
    };
    let sides = [side(0)?, side(1)?, side(2)?, side(3)?];
    // A photograph that is turned against the other has its left edge where that has its top: the outermost is meant.
    let least = |of: fn(&Point) -> f64| sides.iter().map(of).fold(f64::INFINITY, f64::min);
    let most = |of: fn(&Point) -> f64| sides.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
    let within = [
        least(|p| p.x) - a.body.x,
        least(|p| p.y) - a.body.y,
        a.body.right() - most(|p| p.x),
        a.body.bottom() - most(|p| p.y),
    ];
    Some(within.map(|px| 1000.0 * px / a.body.w.min(a.body.h)))
}

/// Each crop is drawn to its cut, so that both are as large but for paper, a strip sawn off, and how they were boxed: beyond these
/// bounds of the second's width or height by the first's, laid on it, the placement is an accident.
const AS_LARGE: std::ops::RangeInclusive<f64> = 0.66..=1.5;

/// Whether the second, as it is laid, is about as large as the first.
pub(super) fn as_large(a: &Cut, edges: [f64; 4]) -> bool {
    let short = a.body.w.min(a.body.h) / 1000.0;
    let [left, top, right, low] = edges;
    let of = |side: f64, lost: f64| (side - lost * short) / side;
    AS_LARGE.contains(&of(a.body.w, left + right)) && AS_LARGE.contains(&of(a.body.h, top + low))
}

/// A side that one of two impressions lacks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Sawn {
    /// The strip, pixels of the first.
    pub(super) place: Rect,
    /// Whether the second lacks it, not the first.
    pub(super) of_second: bool,
}

/// Such a strip is so deep, and the other three sides agree so nearly, thousandths of the shorter side. Boxes are drawn to the
/// print, which may end a little sooner for want of ink.
const LEAST: f64 = 35.0;
const AGREE: f64 = 25.0;
/// Share of the contrast of the whole that the strip has in the impression that shows it: what was sawn off held lines.
const INKED: f64 = 0.35;

/// The strip that was sawn off between the two; `second` is the second's ink on the frame of the first.
pub(super) fn sawn(a: &Cut, second: &Plane<u8>, edges: [f64; 4]) -> Option<Sawn> {
    let far: Vec<usize> = (0..4).filter(|&k| edges[k].abs() > AGREE).collect();
    let &[side] = &far[..] else { return None };
    let depth = edges[side];
    if depth.abs() < LEAST {
        return None;
    }
    let of_second = depth > 0.0;
    let deep = depth.abs() / 1000.0 * a.body.w.min(a.body.h);
    let body = a.body;
    // Within the first where the second ends sooner, beyond it where the first does.
    let inward = if of_second { 0.0 } else { -deep };
    let place = match side {
        0 => Rect::new(body.x + inward, body.y, deep, body.h),
        1 => Rect::new(body.x, body.y + inward, body.w, deep),
        2 => Rect::new(body.right() - deep - inward, body.y, deep, body.h),
        _ => Rect::new(body.x, body.bottom() - deep - inward, body.w, deep),
    };
    let contrast = |r: Rect| super::windows::contrast(if of_second { a.ink.full() } else { second }, r);
    // The other must have taken ink where it ends, or it may only seem to.
    let last = place.moved(match side {
        0 => Point::new(deep, 0.0),
        1 => Point::new(0.0, deep),
        2 => Point::new(-deep, 0.0),
        _ => Point::new(0.0, -deep),
    });
    let other = if of_second { second } else { a.ink.full() };
    let taken = |r: Rect| super::windows::contrast(other, r);
    if taken(last) < INKED * taken(body) {
        return None;
    }
    // Beyond the first's picture there is nothing to be seen of the second.
    let whole = Rect::new(0.0, 0.0, second.width() as f64, second.height() as f64);
    let seen = place.shared(whole)?;
    (contrast(seen) >= INKED * contrast(body)).then_some(Sawn { place, of_second })
}
