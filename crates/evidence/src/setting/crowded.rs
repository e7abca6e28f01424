//! Words found where another word stands: no two can.
//!
//! A short word that took no ink is easily found in part of a longer one beside it.

use super::drift::{Line, Word};
use register::{Followed, Laid};

/// Two words stand in one place if they share this much of the narrower one's breadth.
const SHARED: f64 = 0.4;
/// The one that went farther was found in the other, if that went less than this share of its way.
const LESS: f64 = 0.5;

/// Takes back what was found where another word of the line stands nearer to its own place.
pub(super) fn take_back(laid: &Laid, lines: &[Line], words: &mut [Vec<Word>]) {
    for (words, line) in words.iter_mut().zip(lines) {
        let spans: Vec<Option<[f64; 3]>> = words
            .iter()
            .map(|w| {
                let went = line.along(&w.found.filter(|_| w.is_placed())?, laid);
                Some([w.bounds.x + went, w.bounds.right() + went, went])
            })
            .collect();
        for (k, word) in words.iter_mut().enumerate() {
            if spans[k].is_some_and(|own| spans.iter().flatten().any(|other| is_in(own, *other))) {
                // It was looked for, and is not where it ought to be.
                word.found =
                    word.found.map(|f| Followed { shift: laid.map.paper.at(f.at).0, score: 0.0, ..f });
            }
        }
    }
}

/// Whether a word, given by where it begins and ends on the line and how far it went, was found in another.
fn is_in([from, to, went]: [f64; 3], [other_from, other_to, other_went]: [f64; 3]) -> bool {
    let shared = to.min(other_to) - from.max(other_from);
    other_went.abs() < LESS * went.abs() && shared > SHARED * (to - from).min(other_to - other_from)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_found_in_its_neighbour_was_not_found() {
        // "it" at the end of a line, found in the end of the word before, which stands.
        let (before, it) = ([100.0, 160.0, -0.1], [135.0, 155.0, -44.0]);
        assert!(is_in(it, before) && !is_in(before, it));
        // Both pushed along: they stand beside each other as they did.
        let (pushed, next) = ([180.0, 220.0, 31.0], [235.0, 260.0, 30.5]);
        assert!(!is_in(pushed, next) && !is_in(next, pushed));
        // A word that moved a little towards its neighbour.
        assert!(!is_in([150.0, 190.0, -8.0], [100.0, 152.0, 0.0]));
    }
}
