//! From the lines' likelihoods to a calibrated weight.

use super::calibration::{
    LIKE_SET_AGAIN, LIKE_STANDING, OF_THE_RARER_KIND, OFFSET, PAIRS, SLOPE, TELLING_LINES,
};
use crate::record::{WeightBasis, to_thousandths};
use crate::standing::{MANNERS, manner_share};

/// Pairs of real editions that the weight was calibrated on.
const REAL_PAIRS: usize = 0;

/// The largest weight, either way, that so many pairs of the rarer kind can support: with n pairs and no
/// error seen among them, a ratio above n + 1 has never been tested (after the rule of succession;
/// compare the empirical bound of Vergeer et al., *Science & Justice* 56 (2016), 482-491, from memory).
fn largest_weight(pairs: usize) -> f64 {
    (pairs as f64 + 1.0).log10()
}

/// The largest weight that the pairs behind it can support.
fn largest() -> f64 {
    to_thousandths(largest_weight(OF_THE_RARER_KIND))
}

/// What the lines say together of one setting against two, log10 and not calibrated, by what each says against every manner
/// of setting again.
///
/// Whoever sets a page again is about as careful in one line as in the next, and his type as evenly cast, so that both
/// are weighed for the whole page: on a photograph that cannot tell the most careful resetting from standing type the lines say no more than how
/// rare such care is, however many they are. And no line alone says more than it is rare that in one setting a line
/// looks set again ([`LIKE_SET_AGAIN`]: corrected, or spoilt by the paper), and that in two settings one looks as if it
/// stood ([`LIKE_STANDING`]).
pub(super) fn together(lines: impl Iterator<Item = [f64; MANNERS]>) -> f64 {
    let mut sums = [0.0; MANNERS];
    for line in lines {
        for (sum, log10) in sums.iter_mut().zip(line) {
            *sum += of_line(log10);
        }
    }
    // The mean of the likelihoods if set again, each manner counted as it is likely.
    let least = sums.into_iter().fold(f64::INFINITY, f64::min);
    let counted = |(manner, sum): (usize, &f64)| manner_share(manner) * 10f64.powf(least - sum);
    let mean: f64 = sums.iter().enumerate().map(counted).sum();
    least - mean.log10()
}

/// What a line that is so much likelier if it stands than if it was set again (log10) adds to the sum.
fn of_line(log10: f64) -> f64 {
    // Beyond this nothing changes any more.
    let ratio = 10f64.powf(log10.clamp(-30.0, 30.0));
    let in_one = (1.0 - LIKE_SET_AGAIN) * ratio + LIKE_SET_AGAIN;
    let in_two = LIKE_STANDING * ratio + 1.0 - LIKE_STANDING;
    (in_one / in_two).log10()
}

/// The calibrated weight of a raw sum of line weights (log10), of so many lines that could be judged.
///
/// The raw sum counts words as if each were a witness of its own. Neighbours lean on each other, so the sum is drawn
/// in, by logistic regression on its inverse hyperbolic sine, over simulated pairs of one setting and of the same text
/// set twice with the same line-ends, both kinds counted alike (docs/benchmarks.md). That little speaks for two settings
/// is because a line that was set again can hardly look as if it stood, and a line on bad paper can look set again.
///
/// From fewer than [`TELLING_LINES`] lines it is not given whole: what they say may be bad paper's doing, so each counts
/// for its part. On the simulated pairs of numbers 0 to 719 that brought the cost from 0.039 to 0.033.
pub(super) fn calibrated(raw: f64, lines: usize) -> f64 {
    let whole = (SLOPE * raw.asinh() + OFFSET).clamp(-largest(), largest());
    to_thousandths(whole * (lines as f64 / TELLING_LINES).min(1.0))
}

/// The weight of words that stand elsewhere in the lines: as much for two settings as can be said.
pub(super) fn of_other_line_ends() -> f64 {
    -largest()
}

/// What a weight rests on; `resembles`: whether the pair is like those.
pub(super) fn basis(resembles: bool) -> WeightBasis {
    WeightBasis { simulated_pairs: PAIRS, real_pairs: REAL_PAIRS, largest: largest(), resembles }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_weight_never_says_more_than_the_pairs_behind_it() {
        for raw in [-1e9, -50.0, 0.0, 50.0, 1e9] {
            let (weight, largest) = (calibrated(raw, 40), basis(true).largest);
            let rarer = (OF_THE_RARER_KIND as f64 + 1.0).log10();
            assert!(weight.abs() <= largest && largest <= rarer + 0.001, "{raw}: {weight}");
        }
    }

    #[test]
    fn one_line_says_no_more_than_such_lines_are_rare() {
        let told: Vec<f64> = (-400..400).map(|v| of_line(f64::from(v))).collect();
        assert!(told.windows(2).all(|w| w[0] <= w[1]));
        assert!((told[0] - (LIKE_SET_AGAIN / (1.0 - LIKE_STANDING)).log10()).abs() < 1e-9);
        assert!((told[799] - ((1.0 - LIKE_SET_AGAIN) / LIKE_STANDING).log10()).abs() < 1e-9);
        assert!(of_line(0.0).abs() < 1e-9);
    }

    #[test]
    fn a_manner_that_cannot_be_told_from_standing_is_not_ruled_out() {
        let line = std::array::from_fn(|manner| if manner == 0 { 0.0 } else { 1.0 });
        let told = together(std::iter::repeat_n(line, 100));
        assert!((told + manner_share(0).log10()).abs() < 1e-6, "{told}");
        let told = together(std::iter::repeat_n([1.0; MANNERS], 100));
        assert!((told - 100.0 * of_line(1.0)).abs() < 1e-6, "{told}");
    }

    #[test]
    fn few_lines_say_less() {
        assert!((calibrated(-50.0, 2) - 0.4 * calibrated(-50.0, 5)).abs() < 1e-3);
        assert!(calibrated(50.0, 0).abs() < 1e-9);
    }

    #[test]
    fn more_for_one_setting_is_never_less_weight() {
        let weights: Vec<f64> = (-100..100).map(|v| calibrated(f64::from(v), 40)).collect();
        assert!(weights.windows(2).all(|w| w[0] <= w[1]));
        assert!(weights[0] < -1.9 && weights[199] > 1.9);
    }
}
