//! Cuts: what was printed from wood, or from metal cut like it, as against type, rules, dirt and the page's edge.
//!
//! What the lines of type leave over is gathered where it lies close together, the many small pieces of a head-piece as well
//! as the one large piece of a portrait. What is left then is told by how it fills its place.

use super::columns::Inked;
use super::runs::{Component, Pieces};
use crate::{Plane, Rect};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What a cut seems to be, from its shape and from where it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum CutKind {
    /// A letter or a small square cut at the beginning of lines of type.
    Initial,
    /// A band of ornament over the text.
    HeadPiece,
    /// A cut under the text, with no text beneath.
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
/// Of a thin piece, its length against its breadth, and its breadth in x-heights: a rule.
const RULE: (f64, f64) = (8.0, 1.0);
/// An initial is no larger, x-heights, and no longer than this against its breadth.
const LARGEST_INITIAL: f64 = 18.0;
const SQUARE: f64 = 1.8;
/// A band of ornament is so much wider than high.
const BAND: f64 = 2.5;

/// A cut in pixels of the level.
pub(super) struct Rough {
    kind: CutKind,
    bounds: Rect,
}

impl Rough {
    /// The same in pixels of the photograph.
    pub(super) fn scaled(&self, reduction: f64) -> FoundCut {
        FoundCut { kind: self.kind, bounds: self.bounds.scaled(reduction) }
    }
}

/// The cuts among the pieces that no line has taken, the largest first.
pub(super) fn cuts(pieces: &Pieces, x_height: f64, free: &[bool], lines: &[Inked]) -> Vec<Rough> {
    let page = (pieces.width as f64, pieces.height as f64);
    let is_of_one: Vec<bool> = pieces
        .parts
        .iter()
        .zip(free)
        .map(|(c, free)| {
            *free
                && c.width().max(c.height()) >= SPECK * x_height
                && !is_rule(c, x_height)
                && !is_edge(c, page)
        })
        .collect();
    let cell = (APART * x_height).max(2.0);
    let ground = Ground::of(pieces, &is_of_one, cell);
    let mut out: Vec<Rough> = ground
        .groups()
        .into_iter()
        .filter(|g| g.is_cut(x_height, cell))
        .map(|g| Rough { kind: kind(g.bounds, x_height, lines), bounds: g.bounds })
        .collect();
    out.sort_by(|p, q| q.bounds.area().total_cmp(&p.bounds.area()));
    out
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

/// What lies in each cell of a grid: ink pixels, and the extent of what they belong to.
struct Ground {
    ink: Plane<u32>,
    /// Extents of ink in a cell: left, top, right, bottom.
    extent: Vec<[f64; 4]>,
}

/// Cells that hang together.
struct Group {
    bounds: Rect,
    cells: usize,
    ink: f64,
}

impl Ground {
    fn of(pieces: &Pieces, is_of_one: &[bool], cell: f64) -> Self {
        let across = (pieces.width as f64 / cell).ceil().max(1.0) as usize;
        let down = (pieces.height as f64 / cell).ceil().max(1.0) as usize;
        let mut ink = Plane::filled(across, down, 0u32);
        let none = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
        let mut extent = vec![none; across * down];
        for run in pieces.runs.iter().filter(|r| is_of_one[r.part as usize]) {
            let row = (f64::from(run.y) / cell) as usize;
            let (from, to) = (f64::from(run.from), f64::from(run.to));
            for column in (from / cell) as usize..=(((to - 1.0) / cell) as usize).min(across - 1) {
                let (left, right) = (from.max(column as f64 * cell), to.min((column + 1) as f64 * cell));
                ink.row_mut(row)[column] += (right - left).max(0.0).round() as u32;
                let e = &mut extent[row * across + column];
                *e = [
                    e[0].min(left),
                    e[1].min(f64::from(run.y)),
                    e[2].max(right),
                    e[3].max(f64::from(run.y) + 1.0),
                ];
            }
        }
        Self { ink, extent }
    }

    fn groups(&self) -> Vec<Group> {
        let (across, down) = (self.ink.width(), self.ink.height());
        let mut seen = Plane::filled(across, down, false);
        let mut out = Vec::new();
        for start in (0..down).flat_map(|y| (0..across).map(move |x| (x, y))) {
            if seen.at(start.0, start.1) || self.ink.at(start.0, start.1) == 0 {
                continue;
            }
            seen.row_mut(start.1)[start.0] = true;
            let (mut open, mut cells, mut ink) = (vec![start], 0, 0.0);
            let mut e = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
            while let Some((x, y)) = open.pop() {
                cells += 1;
                ink += f64::from(self.ink.at(x, y));
                let c = self.extent[y * across + x];
                e = [e[0].min(c[0]), e[1].min(c[1]), e[2].max(c[2]), e[3].max(c[3])];
                for (i, j) in (y.saturating_sub(1)..=(y + 1).min(down - 1))
                    .flat_map(|j| (x.saturating_sub(1)..=(x + 1).min(across - 1)).map(move |i| (i, j)))
                {
                    if !seen.at(i, j) && self.ink.at(i, j) > 0 {
                        seen.row_mut(j)[i] = true;
                        open.push((i, j));
                    }
                }
            }
            out.push(Group { bounds: Rect::new(e[0], e[1], e[2] - e[0], e[3] - e[1]), cells, ink });
        }
        out
    }
}

impl Group {
    fn is_cut(&self, x_height: f64, cell: f64) -> bool {
        let r = self.bounds;
        let cells = ((r.w / cell).ceil() * (r.h / cell).ceil()).max(1.0);
        r.w.min(r.h) >= LEAST_SIDE * x_height
            && r.area() >= LEAST_AREA * x_height * x_height
            && self.cells as f64 >= LEAST_CELLS * cells
            && self.ink >= LEAST_INK * r.area()
    }
}

/// What a cut seems to be.
fn kind(r: Rect, x_height: f64, lines: &[Inked]) -> CutKind {
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
    let under = |l: &&Inked| {
        let y = l.line.baseline(l.line.left);
        y > r.bottom() && l.line.left < r.right() && l.line.right > r.x
    };
    let over = |l: &&Inked| {
        let y = l.line.baseline(l.line.left);
        y < r.y && l.line.left < r.right() && l.line.right > r.x
    };
    match (lines.iter().any(|l| over(&l)), lines.iter().any(|l| under(&l))) {
        (_, true) if r.w >= BAND * r.h => CutKind::HeadPiece,
        (true, false) => CutKind::TailPiece,
        _ => CutKind::Picture,
    }
}
