//! From what is seen of a word to what happened to it, and how surely.

use super::{Around, WordAtHand, WordDifference};
use crate::record::ChangeClass;
use sheet::Rect;

/// Everything that speaks for or against a word having changed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Signs {
    /// The word, pixels of A.
    pub(super) word: Rect,
    /// Where its ink differs most, pixels of A.
    pub(super) place: Rect,
    /// Heaviest place of ink in the first only, square x-heights.
    pub(super) lost: f64,
    /// Heaviest place of ink in the second only, square x-heights.
    pub(super) gained: f64,
    /// Correlation of the whole word less what is usual on the page.
    pub(super) likeness: f64,
    /// Least correlation of a letter's breadth, less what is usual on the page.
    pub(super) least_part: f64,
    /// Differing ink below which three words in four of the page stay, square x-heights.
    pub(super) noise: f64,
    /// Log ratio of the second's ink to the first's in the word, against its surroundings.
    pub(super) ink: f64,
    /// The same of the surroundings against the page.
    pub(super) ink_around: f64,
    /// Drift along the line, in standard deviations, and in x-heights; 0 where not known.
    pub(super) drift_sds: f64,
    /// The drift in x-heights.
    pub(super) drift: f64,
    /// Samples to an x-height.
    pub(super) detail: f64,
    /// Whether the word was found at all.
    pub(super) found: bool,
}

/// Drift, in x-heights and in standard deviations, from which a word has moved.
const MOVED: f64 = 0.07;
const MOVED_SDS: f64 = 5.0;
/// A word has no more room than this between its neighbours, in x-heights: twice the common space of
/// a third of the em (common practice, no source). What seems to move further was taken for another.
const ROOM: f64 = 1.2;

/// Mass, in square x-heights, from which a place is a sort and no speck: the point of an i is about
/// 0.03, an e against a c differs by about 0.06; and multiples of the page's own noise.
const LEAST_MASS: f64 = 0.05;
const NOISES: f64 = 2.5;
/// How fast the score rises with the mass.
const STEEP: f64 = 6.0;

impl Signs {
    pub(super) fn of(word: &WordAtHand, d: &WordDifference, around: Around, x_height: f64) -> Self {
        let ratio = super::ink_ratio(d);
        Self {
            word: word.bounds,
            place: d.place,
            lost: d.lost,
            gained: d.gained,
            likeness: d.likeness - around.likeness,
            least_part: d.least_part - around.least_part,
            noise: around.noise,
            ink: ratio - around.ink_ratio,
            ink_around: around.ink_ratio - around.page_ink_ratio,
            drift_sds: word.drift_along.map_or(0.0, |v| v / word.drift_sd),
            drift: word.drift_along.map_or(0.0, |v| v / x_height),
            detail: d.detail,
            found: word.is_found,
        }
    }

    /// The box to show: the whole word if it moved, else the differing ink and what is about it.
    pub(super) fn place_of(&self, class: ChangeClass) -> Rect {
        if class == ChangeClass::SortMoved { self.word } else { self.place.grown(0.15 * self.word.h) }
    }

    /// What happened to the word, and how surely (0 to 1).
    pub(super) fn judge(&self) -> (ChangeClass, f64) {
        if self.found && (MOVED..ROOM).contains(&self.drift.abs()) && self.drift_sds.abs() > MOVED_SDS {
            return (ChangeClass::SortMoved, logistic(40.0 * (self.drift.abs() - MOVED)));
        }
        let heaviest = self.lost.max(self.gained) / (LEAST_MASS + NOISES * self.noise);
        let score =
            logistic(STEEP * (heaviest - 1.0) - 5.0 * (self.least_part + 0.15) - 6.0 * self.ink_around.abs());
        let class = match (self.lost > 0.03, self.gained > 0.03) {
            (true, true) => ChangeClass::SortChanged,
            (true, false) => ChangeClass::SortLost,
            _ => ChangeClass::SortAdded,
        };
        (class, score)
    }
}

fn logistic(x: f64) -> f64 {
    1.0 / (1.0 + (-x).exp())
}
