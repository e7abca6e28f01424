//! From what is seen of a place to what happened there, and how surely.

use super::PageOfWords;
use super::around::Surroundings;
use super::word::{DifferingPlace, WordDifference};
use crate::record::ChangeClass;

/// Everything that speaks for or against a place having changed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Signs {
    place: DifferingPlace,
    around: Surroundings,
    /// Correlation of the whole word less what is usual on the page.
    likeness: f64,
    /// Least correlation of a letter's breadth in the word, less what is usual on the page.
    least_part: f64,
    /// What is usual on the page for that.
    usual_part: f64,
    /// Correlation at the place against the page's letters, in their lower spread.
    alike: f64,
    /// Differing ink below which three words in four of the page stay, and nine in ten; square x-heights.
    noise: [f64; 2],
    /// Samples to an x-height.
    detail: f64,
}

/// A place has ink in one only, or in either, if the lesser part is this share of the greater.
const TWO_SIDED: f64 = 0.25;
/// A little mass, square x-heights, so that none has a logarithm.
const LITTLE: f64 = 0.01;
/// Spread of the page's letters below which none is believed, correlation.
const LEAST_SPREAD: f64 = 0.03;

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
            usual_part: page.least_part,
            alike: (place.alike - page.least_part) / (page.least_part - page.lower_part + LEAST_SPREAD),
            noise: [page.noise, page.noise_of_nine],
            detail: word.detail,
        }
    }

    /// What happened to the place, and how surely (0 to 1).
    pub(super) fn judge(&self) -> (ChangeClass, f64) {
        let (lost, gained) = (self.place.lost, self.place.gained);
        let class = match (lost > 0.03, gained > 0.03) {
            (true, true) => ChangeClass::SortChanged,
            (true, false) => ChangeClass::SortLost,
            _ => ChangeClass::SortAdded,
        };
        let two_sided = lost.min(gained) > TWO_SIDED * lost.max(gained);
        (class, logistic(if two_sided { self.exchanged() } else { self.taken() }))
    }

    /// Log odds that sorts were exchanged where either impression has ink that the other lacks. Two logistic
    /// regressions, this and [`Self::taken`], on the places of 200 simulated pairs of one setting, with and
    /// without differences; what each leaves out did not help on pairs it had not seen (docs/benchmarks.md).
    fn exchanged(&self) -> f64 {
        let c = self.common();
        -9.921 + 0.328 * c.lesser + 0.268 * (self.noise[0] + LITTLE).ln() + 16.707 * c.whole
            - 4.856 * c.about
            - 7.004 * self.around.up.clamp(-0.05, 0.3)
            + 5.841 * self.place.tone
            - 3.821 * c.beside
            + 1.510 * c.least_part
            - 0.049 * c.detail
            + 6.552 * self.usual_part
            - 0.376 * self.alike
            + 0.184 * c.above_noise
            + 0.321 * c.ink
    }

    /// Log odds that a sort was taken or added where one impression has ink and the other has none.
    fn taken(&self) -> f64 {
        let c = self.common();
        let tone = self.place.tone;
        -12.469 - 0.852 * (c.greater + 2.5).max(0.0) + 0.495 * c.lesser + 9.667 * c.whole
            - 6.983 * c.about
            - 1.672 * self.around.ratio.abs().min(0.8)
            - 0.788 * self.place.fill
            + 11.560 * tone
            - 10.021 * (tone - 0.8).max(0.0)
            - 7.788 * c.beside
            + 4.120 * self.likeness.max(-0.6)
            - 1.134 * c.least_part
            - 0.036 * c.detail
            + 5.427 * self.usual_part
            + 0.432 * c.above_noise
            + 0.297 * c.ink
    }

    fn common(&self) -> Common {
        let p = &self.place;
        let (more, less) = (p.lost.max(p.gained), p.lost.min(p.gained));
        let whole = (p.whole[0] * p.lost + p.whole[1] * p.gained) / (p.lost + p.gained).max(1e-9);
        let greater = (more + LITTLE).ln();
        Common {
            greater,
            lesser: (less + LITTLE).ln(),
            above_noise: greater - (self.noise[1] + LITTLE).ln(),
            whole: (whole - 0.85).max(0.0),
            about: (if p.lost >= p.gained { self.around.lost } else { self.around.gained }).min(0.4),
            beside: p.beside.min(0.3),
            least_part: self.least_part.max(-1.0),
            detail: self.detail.min(28.0),
            ink: self.around.ink.min(3.0),
        }
    }
}

/// Signs that both regressions use, as they use them.
struct Common {
    /// Logarithm of the mass of ink in one only, the greater and the lesser part.
    greater: f64,
    lesser: f64,
    /// The greater against the page's noise.
    above_noise: f64,
    /// How nearly whole letters are gone: missing ink seldom keeps to letters.
    whole: f64,
    /// Ink that goes the same way about the place: missing ink does.
    about: f64,
    /// Ink of the other impression in the same box.
    beside: f64,
    least_part: f64,
    detail: f64,
    ink: f64,
}

pub(crate) fn logistic(x: f64) -> f64 {
    1.0 / (1.0 + (-x).exp())
}
