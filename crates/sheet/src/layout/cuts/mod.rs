//! Cuts: what was printed from wood, or from metal cut like it, as against type, rules, dirt and the page's edge.
//!
//! What the lines of type leave over is gathered where it lies close together, the many small pieces of a head-piece as well
//! as the one large piece of a portrait (`ground`). What is left then is told by how it fills its place, and by how often
//! its rows and columns pass from paper to ink (`shape`). A frame about a band is a cut whatever is traced within (`frame`);
//! a photograph may be of nothing but a cut (`only`). The black about a page is no ink (`margin`).
//!
//! A coat of arms and a printer's device are told as pictures: their place on a page is that of any other picture, and
//! no sign that would tell them by their shape was looked for.

mod frame;
mod ground;
mod hole;
mod kind;
mod margin;
mod only;
mod shape;

use super::columns::Inked;
use super::runs::{Component, Pieces};
use crate::{Plane, Rect};
use ground::{Ground, Group};
pub use hole::hole;
pub(super) use only::only;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What a cut seems to be, from its shape and from where it stands. A proposal; how often it is right is told in
/// docs/benchmarks.md.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum CutKind {
    /// A letter or a small square cut at the beginning of lines of type. One that stands elsewhere is told as a picture.
    Initial,
    /// A frame or ornament with a square hole, and a letter of type in it.
    Factotum,
    /// A band of ornament over the text.
    HeadPiece,
    /// A cut without a frame, wider than high, under the text, with no text beneath.
    TailPiece,
    /// A picture, a coat of arms, a device.
    Picture,
}

/// A cut found on a side, in pixels of the photograph.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FoundCut {
    /// What it seems to be.
    pub kind: CutKind,
    /// Its box.
    pub bounds: Rect,
    /// The hole of a factotum, in which a letter of type stands that is no part of the cut; `None` of every other kind.
    pub hole: Option<Rect>,
}

/// Pieces shorter than this, x-heights, are specks: they join no cut to another.
const SPECK: f64 = 0.25;
/// Pieces of a cut lie no farther apart, x-heights.
const APART: f64 = 0.9;
/// A cut's shorter side, and its area, x-heights and square x-heights: two lines of type high.
const LEAST_SIDE: f64 = 2.6;
const LEAST_AREA: f64 = 12.0;
/// Share of a cut's cells that hold ink, and share of its box that is ink.
const LEAST_CELLS: f64 = 0.5;
const LEAST_INK: f64 = 0.1;
/// The same of a large cut: garlands, ships at sea, and others with much white in them; and its shorter side, x-heights.
const OPEN_CELLS: f64 = 0.25;
const OPEN_INK: f64 = 0.035;
const OPEN_SIDE: f64 = 6.0;
/// Lines of type fill less than this share of a cut's height: a motto, a title.
const TYPE_IN: f64 = 0.3;
/// Of a thin piece, its length against its breadth, and its breadth in x-heights: a rule.
const RULE: (f64, f64) = (8.0, 1.0);
/// A scroll with a motto: its least width and most height; and its distance from what it belongs to, x-heights.
const SCROLL: (f64, f64) = (3.6, 5.0);
const NEAR: f64 = 1.2;
/// Groups whose boxes share this much of the smaller are of one cut.
const SHARED: f64 = 0.2;
/// Cuts whose boxes lie over each other by more than this both ways, x-heights, are pieces of one; less is what a photograph taken askew
/// makes of neighbours.
const OVER: f64 = 0.25;

/// The side that cuts are looked for on.
pub(super) struct Side<'a> {
    /// The level worked on, and its pieces.
    pub(super) level: &'a Plane<u8>,
    pub(super) pieces: &'a Pieces,
    /// The main x-height, in pixels of the level.
    pub(super) x_height: f64,
    /// Rows its lines fall for every column.
    pub(super) fall: f64,
    /// The lines of type.
    pub(super) lines: &'a [Inked],
}

/// A cut in pixels of the level.
pub(super) struct Rough {
    kind: CutKind,
    bounds: Rect,
    hole: Option<Rect>,
}

impl Rough {
    /// The same in pixels of the photograph.
    pub(super) fn scaled(&self, reduction: f64) -> FoundCut {
        FoundCut {
            kind: self.kind,
            bounds: self.bounds.scaled(reduction),
            hole: self.hole.map(|h| h.scaled(reduction)),
        }
    }
}

/// The cuts among the pieces that no line has taken, the largest first.
pub(super) fn cuts(side: &Side<'_>, free: &[bool]) -> Vec<Rough> {
    let (pieces, x_height) = (side.pieces, side.x_height);
    let cell = (APART * x_height).max(2.0);
    let margin = margin::Margin::of(pieces, x_height / 2.0);
    let is_of_one = side.of_cuts(free);
    let groups = Ground::of(pieces, &is_of_one, cell, &margin).groups();
    let mut groups = joined(groups, &frame::frames(side));
    groups.retain(|g| if g.is_framed { !shape::is_stain(side, g.bounds) } else { is_cut(side, g, cell) });
    for g in groups.iter_mut().filter(|g| !g.is_framed) {
        g.bounds = with_scrolls(side, &is_of_one, g.bounds);
    }
    let mut groups = united(groups, x_height);
    groups.sort_by(|p, q| q.bounds.area().total_cmp(&p.bounds.area()));
    let mut out: Vec<Rough> = Vec::new();
    for g in &groups {
        // What lies in a larger cut is a part of it.
        if out.iter().all(|o| o.bounds.shared(g.bounds).map_or(0.0, Rect::area) < 0.5 * g.bounds.area()) {
            out.push(kind::told(side, g.bounds));
        }
    }
    out
}

/// A cut's box with the scrolls that stand just over or under it: the motto in them is taken for a line of type.
fn with_scrolls(side: &Side<'_>, is_of_one: &[bool], mut r: Rect) -> Rect {
    let x_height = side.x_height;
    let scrolls = side.pieces.parts.iter().zip(is_of_one).filter(|(c, is_of_one)| {
        **is_of_one
            && c.width() >= SCROLL.0 * x_height
            && (x_height..=SCROLL.1 * x_height).contains(&c.height())
    });
    for (c, _) in scrolls {
        let place = Rect::new(f64::from(c.left), f64::from(c.top), c.width(), c.height());
        let gap = (place.y - r.bottom()).max(r.y - place.bottom());
        let is_within = place.x >= r.x - x_height && place.right() <= r.right() + x_height;
        if is_within && gap > 0.0 && gap <= NEAR * x_height {
            r = r.united(place);
        }
    }
    r
}

/// Groups and frames of which one lies in another or over it, as one.
fn joined(groups: Vec<Group>, frames: &[Rect]) -> Vec<Group> {
    let mut out: Vec<Group> = Vec::new();
    let framed = frames.iter().map(|&bounds| Group { bounds, cells: 0, ink: 0.0, is_framed: true });
    // Frames come first, and take in what stands in them, but do not grow.
    for g in framed.chain(groups) {
        let by_frame = |o: &Group| {
            o.is_framed && o.bounds.shared(g.bounds).map_or(0.0, Rect::area) > 0.5 * g.bounds.area()
        };
        if out.iter().any(by_frame) {
            continue;
        }
        let meets = |o: Rect, g: Rect| o.shared(g).map_or(0.0, Rect::area) > SHARED * o.area().min(g.area());
        put(&mut out, g, meets);
    }
    out
}

/// Cuts without a frame that lie over each other, as one: no two blocks stand in one place of a forme, and a cut whose ink failed in
/// part falls into pieces.
fn united(cuts: Vec<Group>, x_height: f64) -> Vec<Group> {
    let lies_over = |o: Rect, g: Rect| o.shared(g).is_some_and(|s| s.w.min(s.h) > OVER * x_height);
    let mut out: Vec<Group> = Vec::new();
    for g in cuts {
        put(&mut out, g, lies_over);
    }
    out
}

/// Puts a group to the others; those that meet it, none of them a frame, become one with it.
fn put(out: &mut Vec<Group>, mut g: Group, meets: impl Fn(Rect, Rect) -> bool) {
    while let Some(i) = out.iter().position(|o| !o.is_framed && !g.is_framed && meets(o.bounds, g.bounds)) {
        g = g.and(&out.swap_remove(i));
    }
    out.push(g);
}

fn is_rule(c: &Component, x_height: f64) -> bool {
    let (long, thin) = (c.width().max(c.height()), c.width().min(c.height()));
    // The mean breadth of its strokes tells a rule that runs askew.
    let stroke = f64::from(c.area) / long;
    (thin < RULE.1 * x_height && long > RULE.0 * thin)
        || (stroke < 0.35 * x_height && long > 8.0 * x_height && thin < 0.12 * long)
}

/// Whether a piece runs along the photograph's own edge: the table, the binding, another page.
fn is_edge(c: &Component, (width, height): (f64, f64)) -> bool {
    const NEAR: f64 = 2.0;
    let [left, right] = [f64::from(c.left) < NEAR, f64::from(c.right) > width - NEAR];
    let [top, bottom] = [f64::from(c.top) < NEAR, f64::from(c.bottom) > height - NEAR];
    ((left || right) && c.height() > 2.0 * c.width()) || ((top || bottom) && c.width() > 2.0 * c.height())
}

/// Whether what lies together is a cut.
fn is_cut(side: &Side<'_>, g: &Group, cell: f64) -> bool {
    let (r, x_height) = (g.bounds, side.x_height);
    if r.w.min(r.h) < LEAST_SIDE * x_height || r.area() < LEAST_AREA * x_height * x_height {
        return false;
    }
    let is_open = r.w.min(r.h) >= OPEN_SIDE * x_height
        && g.cells_inked(cell) >= OPEN_CELLS
        && g.ink >= OPEN_INK * r.area();
    (is_full(g, cell, x_height) || is_open && side.type_in(r) < TYPE_IN) && shape::is_cut(side, r)
}

/// Whether what lies together is two lines of type high, and fills its place.
fn is_full(g: &Group, cell: f64, x_height: f64) -> bool {
    g.bounds.w.min(g.bounds.h) >= LEAST_SIDE * x_height
        && g.cells_inked(cell) >= LEAST_CELLS
        && g.ink >= LEAST_INK * g.bounds.area()
}

impl Side<'_> {
    /// Which free pieces may be of a cut: no specks, rules, or edges of the page.
    fn of_cuts(&self, free: &[bool]) -> Vec<bool> {
        let page = (self.pieces.width as f64, self.pieces.height as f64);
        let may_be = |c: &Component| {
            c.width().max(c.height()) >= SPECK * self.x_height
                && !is_rule(c, self.x_height)
                && !is_edge(c, page)
        };
        self.pieces.parts.iter().zip(free).map(|(c, free)| *free && may_be(c)).collect()
    }

    /// Share of the height of a box that lines of the size of the text fill, as if each ran all across.
    fn type_in(&self, r: Rect) -> f64 {
        let within = self.lines.iter().map(|l| &l.line).filter(|l| {
            let middle = f64::midpoint(l.left, l.right);
            let y = l.baseline(middle) - l.x_height / 2.0;
            let across = r.right().min(l.right) - r.x.max(l.left);
            y > r.y && y < r.bottom() && across > 0.7 * l.width() && is_of_text(l.x_height / self.x_height)
        });
        within.map(|l| 2.0 * l.x_height * l.width() / r.w).sum::<f64>() / r.h
    }
}

/// Whether a size of type, in main x-heights, is that of the text: what is traced in ornament is mostly larger or smaller.
fn is_of_text(size: f64) -> bool {
    (0.7..1.4).contains(&size)
}

#[cfg(test)]
mod tests;
