//! From the lines' likelihoods to a calibrated weight.

use crate::record::WeightBasis;

/// Independent pairs that the weight was calibrated on, counted by edition: simulated, and real.
pub(super) const PAIRS_BEHIND: [usize; 2] = [0, 0];

/// The raw sum of the lines' weights counts words as if each were a witness of its own. Neighbours
/// lean on each other, so the sum is drawn in: weight = SLOPE * asinh(raw) + OFFSET, by logistic
/// regression on the development set (docs/benchmarks.md).
const SLOPE: f64 = 0.5;
const OFFSET: f64 = 0.0;

/// The largest weight, either way, that so many independent pairs can support: with n pairs and no
/// error seen among them, a ratio above n + 1 has never been tested (after the rule of succession;
/// compare the empirical bound of Vergeer et al., *Science & Justice* 56 (2016), 482-491, from memory).
pub(super) fn largest_weight(pairs: usize) -> f64 {
    (pairs as f64 + 1.0).log10()
}

/// The calibrated weight of a raw sum of line weights (log10), and what it rests on.
pub(super) fn calibrated(raw: f64) -> (f64, WeightBasis) {
    let largest = largest_weight(PAIRS_BEHIND[0] + PAIRS_BEHIND[1]).max(1.0);
    let weight = (SLOPE * raw.asinh() + OFFSET).clamp(-largest, largest);
    let basis = WeightBasis {
        simulated_pairs: PAIRS_BEHIND[0],
        real_pairs: PAIRS_BEHIND[1],
        largest,
        resembles: true,
    };
    ((weight * 1000.0).round() / 1000.0, basis)
}
