//! From the lines' likelihoods to a calibrated weight.

use super::calibration::{OF_THE_RARER_KIND, OFFSET, PAIRS, SLOPE, TELLING_LINES};
use crate::record::WeightBasis;

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

fn to_thousandths(weight: f64) -> f64 {
    (weight * 1000.0).round() / 1000.0
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
