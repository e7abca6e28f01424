//! A photograph of nothing but a cut.

use super::super::runs::{Component, Pieces};
use super::ground::Ground;
use super::margin::Margin;
use super::{Rough, SPECK, Side, is_edge, kind};
use crate::{Plane, Rect};

/// Parts of a cut lie no farther apart than its ink is long divided by this.
const PARTS: f64 = 30.0;
/// What hangs together holds this share of all ink.
const NEARLY_ALL: f64 = 0.8;
/// And its shorter side is this share of its longer one at least: less is a line of letters.
const BAND: f64 = 0.1;

/// The one cut of a side on which no text is found, where nearly all ink hangs together; `None` of a side with more on it.
///
/// The size of type is of no help here: what falls into bands is hatching.
pub(in super::super) fn only(level: &Plane<u8>, pieces: &Pieces, fall: f64) -> Option<Rough> {
    let page = (pieces.width as f64, pieces.height as f64);
    let largest = pieces.parts.iter().filter(|c| !is_table(c, page)).max_by_key(|c| c.area)?;
    let mut unit = largest.width().max(largest.height()) / PARTS;
    let mut best: Option<(Rect, f64)> = None;
    // The largest piece shows how large the cut may be; what is found with it, better.
    for _ in 0..2 {
        let is_of_one: Vec<bool> = pieces
            .parts
            .iter()
            .map(|c| c.width().max(c.height()) >= (SPECK * unit).max(2.0) && !is_table(c, page))
            .collect();
        let cell = unit.max(2.0);
        let ground = Ground::of(pieces, &is_of_one, cell, &Margin::none());
        let groups = ground.groups();
        let all: f64 = groups.iter().map(|g| g.ink).sum();
        let group = groups.into_iter().max_by(|p, q| p.ink.total_cmp(&q.ink))?;
        best = Some((group.bounds, group.ink / all.max(1.0)));
        unit = group.bounds.w.max(group.bounds.h) / PARTS;
    }
    let (bounds, share) = best?;
    let side = Side { level, pieces, x_height: unit, fall, lines: &[] };
    let is_one = share >= NEARLY_ALL && bounds.w.min(bounds.h) >= BAND * bounds.w.max(bounds.h);
    (is_one && super::shape::is_cut(&side, bounds)).then(|| kind::told(&side, bounds))
}

/// Whether a piece is the table at one edge of the photograph, or two: a cut may fill it from edge to edge.
fn is_table(c: &Component, (width, height): (f64, f64)) -> bool {
    let reaches =
        [c.left < 2, c.top < 2, f64::from(c.right) > width - 2.0, f64::from(c.bottom) > height - 2.0];
    reaches.iter().filter(|r| **r).count() < 3 && is_edge(c, (width, height))
}
