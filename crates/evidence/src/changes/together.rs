//! Places that were seen more than once, or belong together.

use crate::record::{Change, ChangeClass, box_px};
use sheet::Rect;

/// The places without those that a neighbouring word, or the next line, saw more surely.
pub(super) fn without_doubles(mut found: Vec<Change>) -> Vec<Change> {
    found.sort_by(|p, q| q.score.total_cmp(&p.score));
    let rect = |c: &Change| Rect::new(c.box_a_px[0], c.box_a_px[1], c.box_a_px[2], c.box_a_px[3]);
    let mut kept: Vec<Change> = Vec::new();
    for c in found {
        let r = rect(&c);
        let seen = kept
            .iter()
            .any(|k| rect(k).shared(r).is_some_and(|s| s.area() > 0.5 * r.area().min(rect(k).area())));
        if !seen {
            kept.push(c);
        }
    }
    kept.sort_by(|p, q| p.line.cmp(&q.line).then(p.box_a_px[0].total_cmp(&q.box_a_px[0])));
    kept
}

/// Neighbouring moved words of one line become one place.
pub(super) fn joined(changes: Vec<Change>) -> Vec<Change> {
    let mut out: Vec<Change> = Vec::new();
    for c in changes {
        if let Some(last) = out.last_mut()
            && last.class == ChangeClass::SortMoved
            && c.class == ChangeClass::SortMoved
            && last.line == c.line
        {
            last.box_a_px = united(last.box_a_px, c.box_a_px);
            last.box_b_px = united(last.box_b_px, c.box_b_px);
            last.score = last.score.max(c.score);
            continue;
        }
        out.push(c);
    }
    out
}

fn united(p: [f64; 4], q: [f64; 4]) -> [f64; 4] {
    box_px(Rect::new(p[0], p[1], p[2], p[3]).united(Rect::new(q[0], q[1], q[2], q[3])))
}
