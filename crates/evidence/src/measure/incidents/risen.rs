//! Spaces and quads that have risen, and print.
//!
//! They print as boxes of one grey, of the height of the body or less, between letters or where the white is.

use super::Candidate;
use super::seen::{KINDS, Seen};
use super::strip::Strip;
use crate::measure::record::IncidentClass;

/// Which of the kinds that are seen it is.
const KIND: usize = 0;
/// Places less likely than this are not told.
const LEAST: f64 = 0.1;

/// Candidates on a line; `seen` is what is seen of its places. Places beside each other that are likely are one, as the likeliest of them has it.
pub(super) fn risen(strip: &Strip, seen: &[[Seen; KINDS]]) -> Vec<Candidate> {
    let parts = seen.chunk_by(|p, q| (p[KIND].chance >= LEAST) == (q[KIND].chance >= LEAST));
    let likeliest = |part: &[[Seen; KINDS]]| {
        part.iter()
            .map(|s| s[KIND])
            .max_by(|p, q| p.chance.total_cmp(&q.chance))
            .filter(|s| s.chance >= LEAST)
    };
    parts
        .filter_map(likeliest)
        .map(|s| Candidate {
            class: IncidentClass::RisenSpace,
            score: s.chance,
            bounds: strip.box_at(s.bounds),
            ends: None,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::side::of_one_line;
    use crate::measure::strips;
    use sheet::{Plane, Point, Rect};

    #[test]
    fn likely_places_beside_each_other_are_one_candidate_as_the_likeliest_has_it() {
        let baseline = vec![Point::new(100.0, 150.0), Point::new(500.0, 150.0)];
        let side = of_one_line(Plane::filled(600, 300, 0u8), baseline, 20.0);
        let strip = &strips(&side)[0];
        let none = Seen { chance: 0.01, bounds: Rect::new(0.0, 0.0, 1.0, 1.0) };
        let mut seen = vec![[none; KINDS]; strip.cells()];
        let box_at = |x: f64| Rect::new(x, 8.0, 6.0, 14.0);
        for (at, chance) in [(4, 0.3), (5, 0.8), (9, 0.2), (12, 0.09)] {
            seen[at][KIND] = Seen { chance, bounds: box_at(8.0 * at as f64) };
        }
        let found = risen(strip, &seen);
        assert_eq!(found.iter().map(|c| c.score).collect::<Vec<_>>(), [0.8, 0.2]);
        assert_eq!(found[0].bounds, strip.box_at(box_at(40.0)));
    }
}
