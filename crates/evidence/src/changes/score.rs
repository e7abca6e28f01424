//! From what is seen of a place to what happened there, and how surely.

use super::around::Surroundings;
use super::word::{DifferingPlace, WordDifference};
use super::{PageOfWords, WordAtHand};
use crate::record::ChangeClass;

/// Everything that speaks for or against a place having changed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Signs {
    pub(super) place: DifferingPlace,
    pub(super) around: Surroundings,
    /// Correlation of the whole word less what is usual on the page.
    pub(super) likeness: f64,
    /// Least correlation of a letter's breadth, less what is usual on the page.
    pub(super) least_part: f64,
    /// Differing ink below which three words in four of the page stay, square x-heights.
    pub(super) noise: f64,
    /// Samples to an x-height.
    pub(super) detail: f64,
    noise90: f64,
    part10: f64,
    part25: f64,
    pm: f64,
    wl: f64,
    wg: f64,
}

/// Drift, in x-heights and in standard deviations, from which a word has moved.
const MOVED: f64 = 0.07;
const MOVED_SDS: f64 = 5.0;
/// A word has no more room than this between its neighbours, in x-heights: twice the common space of
/// a third of the em (common practice, no source). What seems to move further was taken for another.
const ROOM: f64 = 1.2;

/// Whether a word moved along its line, and how surely.
pub(super) fn moved(word: &WordAtHand, x_height: f64) -> Option<(ChangeClass, f64)> {
    let drift = word.drift_along?;
    let far = drift.abs() / x_height;
    let moved = word.is_found && (MOVED..ROOM).contains(&far) && drift.abs() > MOVED_SDS * word.drift_sd;
    moved.then(|| (ChangeClass::SortMoved, logistic(40.0 * (far - MOVED))))
}

/// Mass, in square x-heights, from which a place is a sort and no speck: the point of an i is about
/// 0.03, an e against a c differs by about 0.06; and multiples of the page's own noise.
const LEAST_MASS: f64 = 0.05;
const NOISES: f64 = 2.5;
/// How fast the score rises with the mass.
const STEEP: f64 = 6.0;

impl Signs {
    pub(super) fn of(
        place: &DifferingPlace,
        word: &WordDifference,
        page: &PageOfWords,
        x_height: f64,
    ) -> Self {
        Self {
            place: *place,
            around: page.grid.about(place.bounds, x_height, x_height * x_height),
            likeness: word.likeness - page.likeness,
            least_part: word.least_part - page.least_part,
            noise: page.noise,
            detail: word.detail,
            noise90: page.noise90,
            part10: page.part10,
            part25: page.part25,
            pm: page.least_part,
            wl: word.places.iter().map(|p| p.lost).sum::<f64>() / (word.ink[0] + 0.05),
            wg: word.places.iter().map(|p| p.gained).sum::<f64>() / (word.ink[1] + 0.05),
        }
    }

    /// What happened to the place, and how surely (0 to 1).
    pub(super) fn judge(&self) -> (ChangeClass, f64) {
        let (lost, gained) = (self.place.lost, self.place.gained);
        let heaviest = lost.max(gained) / (LEAST_MASS + NOISES * self.noise);
        let score = logistic(
            STEEP * (heaviest - 1.0) - 5.0 * (self.least_part + 0.15) - 6.0 * self.around.ratio.abs(),
        );
        let class = match (lost > 0.03, gained > 0.03) {
            (true, true) => ChangeClass::SortChanged,
            (true, false) => ChangeClass::SortLost,
            _ => ChangeClass::SortAdded,
        };
        if std::env::var_os("SIGNS").is_some() {
            eprintln!("SIGN {self:?} {class:?} {score}");
        }
        (class, score)
    }
}

fn logistic(x: f64) -> f64 {
    1.0 / (1.0 + (-x).exp())
}
