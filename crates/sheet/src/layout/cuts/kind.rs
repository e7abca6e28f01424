//! What a cut seems to be.

use super::super::columns::Inked;
use super::hole::hole;
use super::{CutKind, Rough, Side, shape};
use crate::{Point, Rect};

/// An initial is no larger, x-heights, and no longer than this against its breadth.
const LARGEST_INITIAL: f64 = 18.0;
const SQUARE: f64 = 1.8;
/// A band of ornament is so much wider than high.
const BAND: f64 = 2.5;
/// A tail-piece is wider than high.
const WIDE: f64 = 1.05;
/// A cut with what it seems to be.
pub(super) fn told(side: &Side<'_>, bounds: Rect) -> Rough {
    let cut = side.level.crop(
        bounds.x as usize,
        bounds.y as usize,
        bounds.w.ceil() as usize,
        bounds.h.ceil() as usize,
    );
    let whole = Rect::new(0.0, 0.0, cut.width() as f64, cut.height() as f64);
    let at = Point::new(bounds.x.floor(), bounds.y.floor());
    match hole(&cut, whole) {
        Some(hole) => Rough { kind: CutKind::Factotum, bounds, hole: Some(hole.moved(at)) },
        None => Rough { kind: kind(side, bounds), bounds, hole: None },
    }
}

fn kind(side: &Side<'_>, r: Rect) -> CutKind {
    let x_height = side.x_height;
    let lines = side.lines;
    let beside = lines.iter().filter(|l| {
        let y = l.line.baseline(l.line.left) - l.line.x_height / 2.0;
        let gap = l.line.left - r.right();
        y > r.y && y < r.bottom() && gap > -x_height && gap < 5.0 * x_height
    });
    if r.w.max(r.h) <= LARGEST_INITIAL * x_height
        && r.w.max(r.h) <= SQUARE * r.w.min(r.h)
        && beside.count() > 0
    {
        return CutKind::Initial;
    }
    let meets = |l: &Inked| l.line.left < r.right() && l.line.right > r.x;
    let under = lines.iter().any(|l| meets(l) && l.line.baseline(l.line.left) > r.bottom());
    let over = lines.iter().any(|l| meets(l) && l.line.baseline(l.line.left) < r.y);
    if under && r.w >= BAND * r.h {
        return CutKind::HeadPiece;
    }
    if over && !under && r.w >= WIDE * r.h && !shape::is_framed(side, r) {
        return CutKind::TailPiece;
    }
    CutKind::Picture
}
