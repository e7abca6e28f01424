//! What may have gone wrong at press, or befallen the sheet since.

mod creases;
mod risen;
mod seen;
mod strip;

pub use strip::{STRIP_CELL, STRIP_ROWS, Strip, strips};

use super::record::{Incident, IncidentClass};
use super::{Length, Side};
use crate::record::{box_px, to_thousandths};
use rayon::prelude::*;
use sheet::{Layout, PatchKind, Point, Rect};

/// A place that may be an incident, on the side set upright.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Candidate {
    class: IncidentClass,
    score: f64,
    bounds: Rect,
    /// Of a crease, the ends of its line.
    ends: Option<[Point; 2]>,
}

/// How surely the edges of a candidate are known, pixels (common practice, no source).
const EDGE_SD: f64 = 1.0;

/// All incidents of a side, the surest first.
pub(super) fn incidents(side: &Side) -> Vec<Incident> {
    let of_lines: Vec<Vec<Candidate>> =
        strips(side).par_iter().map(|strip| risen::risen(strip, &seen::seen(strip))).collect();
    let mut of_lines = of_lines.concat();
    of_lines.retain(|c| !is_among_ornament(side, c.bounds.centre()));
    surest_first(&mut of_lines);
    // Strips overlap: a place is told once, as it is surest.
    let mut all: Vec<Candidate> = Vec::new();
    for one in of_lines {
        if !all.iter().any(|k| k.class == one.class && overlap(k.bounds, one.bounds)) {
            all.push(one);
        }
    }
    all.extend(creases::creases(side));
    surest_first(&mut all);
    all.iter().map(|c| told(side, c)).collect()
}

/// Whether a place lies in a cut, an initial, a border or on a rule: no line of type is there, though its strip may reach so far.
fn is_among_ornament(side: &Side, p: Point) -> bool {
    let Layout { not_type, cuts, lines, .. } = &side.layout;
    let patches = not_type.iter().filter(|patch| patch.kind != PatchKind::Unknown).map(|patch| patch.bounds);
    // The box of a frame holds the text within it, too.
    let holds_text = |r: Rect| lines.iter().any(|l| l.words.len() > 1 && r.holds(l.bounds.centre()));
    patches.chain(cuts.iter().map(|c| c.bounds)).any(|r| r.holds(p) && !holds_text(r))
}

fn surest_first(all: &mut [Candidate]) {
    all.sort_by(|p, q| q.score.total_cmp(&p.score).then(p.bounds.y.total_cmp(&q.bounds.y)));
}

/// Whether two boxes share more than half of the smaller.
fn overlap(p: Rect, q: Rect) -> bool {
    p.shared(q).is_some_and(|s| s.area() > 0.5 * p.area().min(q.area()))
}

fn told(side: &Side, of: &Candidate) -> Incident {
    let there = side.turned.box_on_photograph(of.bounds);
    let mm = |px: f64| Some(Length { value: px, sd: EDGE_SD }.in_mm(side.scale.as_ref()?).rounded());
    let middle = of.bounds.centre();
    let on_photograph = |p: Point| {
        let p = side.turned.on_photograph(p);
        [p.x, p.y].map(to_thousandths)
    };
    Incident {
        class: of.class,
        score: to_thousandths(of.score),
        box_px: box_px(there),
        ends_px: of.ends.map(|e| e.map(on_photograph)),
        size_mm: mm(there.w).zip(mm(there.h)).map(|(w, h)| [w, h]),
        line: side.layout.lines.iter().position(|l| l.bounds.holds(middle)).filter(|_| of.ends.is_none()),
    }
}
