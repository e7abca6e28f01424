//! Places that were seen more than once, or belong together.

use crate::record::{Change, ChangeClass, box_px, rect};

/// The places without those that a neighbouring word, or the next line, saw more surely.
pub(super) fn without_doubles(mut found: Vec<Change>) -> Vec<Change> {
    found.sort_by(|p, q| q.score.total_cmp(&p.score));
    let mut kept: Vec<Change> = Vec::new();
    for c in found {
        let r = rect(c.box_a_px);
        let seen = kept
            .iter()
            .map(|k| rect(k.box_a_px))
            .any(|k| k.shared(r).is_some_and(|s| s.area() > 0.5 * r.area().min(k.area())));
        if !seen {
            kept.push(c);
        }
    }
    kept.sort_by(|p, q| p.line.cmp(&q.line).then(p.box_a_px[0].total_cmp(&q.box_a_px[0])));
    kept
}

/// Places of one line that lie no farther apart than this, x-heights, are of one sort, or of two that stand together.
const OF_ONE_SORT: f64 = 0.5;

/// Neighbouring moved words of one line become one place, and so do places of one sort: of a letter exchanged for another
/// one stroke may stand in the first alone, and two in the second.
pub(super) fn joined(changes: Vec<Change>, x_height: f64) -> Vec<Change> {
    let mut out: Vec<Change> = Vec::new();
    for mut c in changes {
        // What is joined may bridge two that were apart.
        while let Some(i) = out.iter().position(|p| p.line == c.line && belong_together(p, &c, x_height)) {
            let p = out.remove(i);
            c = Change {
                class: if p.class == c.class { c.class } else { ChangeClass::SortChanged },
                score: p.score.max(c.score),
                box_a_px: united(p.box_a_px, c.box_a_px),
                box_b_px: united(p.box_b_px, c.box_b_px),
                ..c
            };
        }
        out.push(c);
    }
    out
}

/// Whether two places of one line are one.
fn belong_together(p: &Change, q: &Change, x_height: f64) -> bool {
    let moved = [p, q].map(|c| c.class == ChangeClass::SortMoved);
    let ink_differs = |c: &Change| {
        matches!(c.class, ChangeClass::SortChanged | ChangeClass::SortAdded | ChangeClass::SortLost)
    };
    let near = || rect(p.box_a_px).grown(OF_ONE_SORT * x_height).shared(rect(q.box_a_px)).is_some();
    moved == [true, true] || ink_differs(p) && ink_differs(q) && near()
}

fn united(p: [f64; 4], q: [f64; 4]) -> [f64; 4] {
    box_px(rect(p).united(rect(q)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn place(class: ChangeClass, line: usize, [x, y, w, h]: [f64; 4], score: f64) -> Change {
        let at = [x, y, w, h];
        let line = Some(line);
        Change { class, score, box_a_px: at, box_b_px: at, size_mm: None, size_x_heights: None, line }
    }

    #[test]
    fn strokes_of_one_letter_are_one_place_and_the_next_word_is_another() {
        use ChangeClass::{SortAdded, SortChanged, SortLost};
        // As of a d exchanged for an h, where letters are 33 pixels high.
        let found = joined(
            vec![
                place(SortAdded, 27, [313.0, 2312.0, 19.0, 15.0], 0.98),
                place(SortAdded, 27, [315.0, 2267.0, 22.0, 32.0], 0.9),
                place(SortLost, 27, [336.0, 2266.0, 21.0, 29.0], 0.6),
                place(SortLost, 27, [420.0, 2266.0, 21.0, 29.0], 0.7),
                place(SortLost, 28, [340.0, 2290.0, 21.0, 29.0], 0.8),
            ],
            33.0,
        );
        let told: Vec<_> = found.iter().map(|c| (c.class, c.line, c.box_a_px, c.score)).collect();
        assert_eq!(
            told,
            [
                (SortChanged, Some(27), [313.0, 2266.0, 44.0, 61.0], 0.98),
                (SortLost, Some(27), [420.0, 2266.0, 21.0, 29.0], 0.7),
                (SortLost, Some(28), [340.0, 2290.0, 21.0, 29.0], 0.8),
            ]
        );
    }

    #[test]
    fn words_that_moved_are_one_place_and_no_other_sort() {
        use ChangeClass::{SortAdded, SortMoved};
        let found = joined(
            vec![
                place(SortMoved, 3, [100.0, 0.0, 80.0, 30.0], 0.6),
                place(SortMoved, 3, [300.0, 0.0, 80.0, 30.0], 0.9),
                place(SortAdded, 3, [385.0, 0.0, 10.0, 30.0], 0.9),
            ],
            20.0,
        );
        let told: Vec<_> = found.iter().map(|c| (c.class, c.box_a_px)).collect();
        assert_eq!(told, [(SortMoved, [100.0, 0.0, 280.0, 30.0]), (SortAdded, [385.0, 0.0, 10.0, 30.0])]);
    }
}
