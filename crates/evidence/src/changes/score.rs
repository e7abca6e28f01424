//! From what is seen of a place to what happened there, and how surely.

use super::PageOfWords;
use super::around::Surroundings;
use super::letters::Letter;
use super::word::{DifferingPlace, WordDifference};
use crate::record::ChangeClass;

/// Everything that speaks for or against a place having changed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Signs {
    place: DifferingPlace,
    around: Surroundings,
    /// Height of the place, in x-heights.
    height: f64,
    /// Correlation of the whole word less what is usual on the page.
    likeness: f64,
    /// Least correlation of a letter's breadth in the word, less what is usual on the page.
    least_part: f64,
    /// How far short of full likeness, where it fits best, the letter of the first falls that the place takes ink
    /// from; and how far the page's letters commonly fall.
    own_letter: f64,
    usual_letter: f64,
    /// The same of the letters beside: of the one least like itself, and of all of them.
    next_letters: [f64; 2],
    /// Differing ink below which nine words in ten of the page stay, square x-heights.
    noise: f64,
}

/// A place has ink in one only, or in either, if the lesser part is this share of the greater.
const TWO_SIDED: f64 = 0.25;
/// A little mass, square x-heights, so that none has a logarithm.
const LITTLE: f64 = 0.01;
/// Letters are beside a place within this distance, in x-heights.
const BESIDE: f64 = 2.0;
/// Likeness of letters to themselves where a page has too few to tell.
const COMMON_LIKENESS: f64 = 0.9;

impl Signs {
    pub(super) fn of(
        place: &DifferingPlace,
        word: &WordDifference,
        page: &PageOfWords,
        x_height: f64,
    ) -> Self {
        let (own, others): (Vec<&Letter>, Vec<&Letter>) =
            word.letters.iter().partition(|l| l.bounds.shared(place.bounds).is_some());
        let near = place.bounds.grown(BESIDE * x_height);
        let beside: Vec<f64> = others
            .iter()
            .filter(|l| l.bounds.x < near.right() && l.bounds.right() > near.x)
            .map(|l| l.likeness())
            .collect();
        let mean = match beside.len() {
            0 => COMMON_LIKENESS,
            n => beside.iter().sum::<f64>() / n as f64,
        };
        Self {
            place: *place,
            around: page.grid.about(place.bounds, x_height, x_height * x_height),
            height: place.bounds.h / x_height,
            likeness: word.likeness - page.likeness,
            least_part: word.least_part - page.least_part,
            own_letter: short_of(own.iter().map(|l| l.likeness()).fold(1.0, f64::min)),
            usual_letter: short_of(page.letters.map_or(COMMON_LIKENESS, |u| u.likeness())),
            next_letters: [short_of(beside.iter().copied().fold(1.0, f64::min)), short_of(mean)],
            noise: page.noise,
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

    /// Log odds that sorts were exchanged where either impression has ink that the other lacks.
    ///
    /// Two logistic regressions, this and [`Self::taken`], on the 19,842 places of 200 simulated pairs of one setting,
    /// with and without differences, of which 225 were changed; what each leaves out was dropped by a penalty on the
    /// sum of the coefficients. The constants are raised, by 0.6 and 0.35, to where hardly a page without
    /// differences has a place (docs/benchmarks.md).
    fn exchanged(&self) -> f64 {
        let c = self.common();
        -5.419 + 0.581 * c.above_noise
            - 3.488 * c.whole
            - 6.932 * c.about
            - 7.075 * c.beside
            - 0.367 * self.least_part.max(-1.0)
            + 0.234 * self.around.ink.min(3.0)
            + 5.093 * self.place.tone
            - 2.659 * c.up
            + 0.757 * self.own_letter
            - 1.439 * self.usual_letter
            - 2.687 * self.place.alike
    }

    /// Log odds that a sort was taken or added where one impression has ink and the other has none.
    fn taken(&self) -> f64 {
        let c = self.common();
        -14.557 - 1.503 * (c.greater + 2.5).max(0.0)
            + 0.804 * c.lesser
            + 0.548 * c.above_noise
            + 11.514 * (c.whole - 0.85).max(0.0)
            - 7.475 * c.about
            - 4.152 * c.about_other
            - 6.379 * c.beside
            - 1.469 * self.least_part.max(-1.0)
            + 1.689 * self.likeness.max(-0.6)
            + 16.233 * self.place.tone
            - 14.869 * (self.place.tone - 0.8).max(0.0)
            - 1.476 * c.up
            + 0.340 * self.own_letter
            - 0.285 * self.next_letters[0]
            - 0.375 * self.next_letters[1]
            - 0.798 * self.usual_letter
            + 0.940 * self.height.ln()
            + 2.076 * self.place.alike
    }

    fn common(&self) -> Common {
        let p = &self.place;
        let (more, less) = (p.lost.max(p.gained), p.lost.min(p.gained));
        let greater = (more + LITTLE).ln();
        let (about, about_other) = if p.lost >= p.gained {
            (self.around.lost, self.around.gained)
        } else {
            (self.around.gained, self.around.lost)
        };
        Common {
            greater,
            lesser: (less + LITTLE).ln(),
            above_noise: greater - (self.noise + LITTLE).ln(),
            whole: (p.whole[0] * p.lost + p.whole[1] * p.gained) / (p.lost + p.gained).max(1e-9),
            about: about.min(0.4),
            about_other: about_other.min(0.4),
            beside: p.beside.min(0.3),
            up: self.around.up.clamp(-0.05, 0.3),
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
    /// Ink that goes the same way about the place, and the other way: missing ink does, and a fold.
    about: f64,
    about_other: f64,
    /// Ink of the other impression in the same box.
    beside: f64,
    /// Ink in one only straight above and below.
    up: f64,
}

/// How far short of full likeness, as a logarithm: 0.9 and 0.95 are as far apart as 0.6 and 0.8.
pub(super) fn short_of(likeness: f64) -> f64 {
    (1.03 - likeness.clamp(0.0, 1.0)).ln()
}

pub(crate) fn logistic(x: f64) -> f64 {
    1.0 / (1.0 + (-x).exp())
}
