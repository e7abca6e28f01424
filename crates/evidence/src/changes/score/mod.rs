//! From what is seen of a place or a letter to what happened there, and how surely.

mod exchanged;
mod off_line;
mod regression;
mod taken;

use super::letters::LetterSigns;
use super::signs::Signs;
use super::word::DifferingPlace;
use crate::record::ChangeClass;
pub(crate) use regression::logistic;

/// A place that is a point by itself at least so nearly is weighed as one: few of these are false.
const POINTED: f64 = 0.6;
/// A page is clean if nine in ten of its words have less ink in one only than e to this power, square x-heights: about
/// a full point and a half. On clean pages what is found is seldom false.
const CLEAN: f64 = -2.5;
/// Mass from which ink in one only is a part of what happened, square x-heights.
const HEAVY: f64 = 0.03;

/// What happened to a place, and how surely (0 to 1).
///
/// Two logistic regressions, of places that have ink in either impression that the other lacks, and of those where one
/// has ink and the other has none. Each sign enters as a broken line, and what the regressions leave out was dropped by
/// a penalty on the sum of the coefficients (`cargo xtask bench fit changes` fits them; docs/benchmarks.md). Where the
/// odds are even is told for each kind of place, and for clean pages and others: of some kinds hardly one is false.
pub(super) fn judge(place: &DifferingPlace, signs: &Signs) -> (ChangeClass, f64) {
    let (regression, even) = if signs.two_sided {
        (&exchanged::EXCHANGED, exchanged::EVEN)
    } else {
        let even = if signs.point > POINTED { taken::EVEN_OF_POINTS } else { taken::EVEN };
        (&taken::TAKEN, even)
    };
    let score = regression.probability(signs, on(even, signs.noise));
    if is_speck(signs) {
        return (ChangeClass::InkExtra, score);
    }
    let class = match (place.lost > HEAVY, place.gained > HEAVY) {
        _ if place.letter.is_some() => ChangeClass::SortChanged,
        (true, true) => ChangeClass::SortChanged,
        (true, false) => ChangeClass::SortLost,
        _ => ChangeClass::SortAdded,
    };
    (class, score)
}

/// How surely (0 to 1) a sort stands off its line or leans that stood upright on it; the same kind of regression.
pub(super) fn judge_letter(signs: &LetterSigns) -> f64 {
    off_line::OFF_LINE.probability(signs, on(off_line::EVEN, signs.noise))
}

/// Of what holds on a clean page and on others, what holds on a page of so much noise.
fn on(of_pages: [f64; 2], noise: f64) -> f64 {
    of_pages[usize::from(noise >= CLEAN)]
}

/// Length below which a mark may be a speck, x-heights, and a little: a full point is a third of one wide, a comma half
/// of one high.
const SPECK: f64 = 0.65;
/// Share of a mark's ink that is in one only, at least, if it stands by itself; what sticks to a letter is a speck if
/// it is lighter than this, as a logarithm of square x-heights (a full point has twice as much), and the letter is no
/// other than it was.
const BY_ITSELF: f64 = 0.9;
const LIGHT: f64 = -3.3;
const OTHER_LETTER: f64 = 0.3;
/// What stands on the baseline reaches down to this far above it or lower, and up to more than this, x-heights.
const ON_BASELINE: [f64; 2] = [0.25, 0.05];
/// A hyphen stands between these heights above the baseline, x-heights, and is longer than high by this factor.
const HYPHEN: [f64; 2] = [0.15, 0.85];
const HYPHEN_LONGER: f64 = 1.3;

/// Whether a place is a mark of the size of a point, in one only, where no point stands: on paper that lay
/// about in a printing house specks of ink are common. Common practice, no source.
fn is_speck(signs: &Signs) -> bool {
    let [height, breadth] = [signs.height.exp(), signs.breadth.exp()];
    let sticks = signs.greater < LIGHT && signs.rather_there.max(signs.rather_here) < OTHER_LETTER;
    if signs.two_sided || height > SPECK || breadth > SPECK || !(sticks || signs.whole >= BY_ITSELF) {
        return false;
    }
    let on_baseline = signs.foot > -ON_BASELINE[0] && signs.top > ON_BASELINE[1];
    let as_hyphen = -signs.foot > HYPHEN[0] && signs.top < HYPHEN[1] && breadth > HYPHEN_LONGER * height;
    !on_baseline && !as_hyphen
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mark_off_the_baseline_is_a_speck_and_a_point_is_none() {
        let point = Signs {
            greater: -2.8,
            whole: 1.0,
            height: -1.0,
            breadth: -1.0,
            foot: 0.02,
            top: 0.3,
            ..Signs::default()
        };
        assert!(!is_speck(&point));
        assert!(!is_speck(&Signs { foot: 0.4, ..point }), "a comma");
        assert!(!is_speck(&Signs { foot: -0.4, top: 0.6, breadth: -0.6, ..point }), "a hyphen");
        let above = Signs { foot: -1.3, top: 1.6, ..point };
        assert!(is_speck(&above));
        assert!(is_speck(&Signs { foot: 0.6, top: -0.3, ..point }));
        assert!(!is_speck(&Signs { two_sided: true, ..above }));
        let on_a_letter = Signs { whole: 0.1, ..above };
        assert!(!is_speck(&on_a_letter));
        assert!(is_speck(&Signs { greater: -3.5, ..on_a_letter }));
        assert!(!is_speck(&Signs { greater: -3.5, rather_there: 1.5, ..on_a_letter }));
    }
}
