//! The weight of what was measured of two impressions of a cut.

use super::BlockSigns;
use super::calibration::{OF_THE_RARER_KIND, OFFSET, PAIRS, SLOPES};
use crate::WeightBasis;

/// Weight, either way, from which a verdict is given: five to one. Of pairs fitted to, by cross-validation, 7 of 286 were told
/// wrongly so and none of the 146 of sound photographs.
pub(super) const ENOUGH: f64 = 0.7;
/// What a sign that could not be measured counts as: what says nothing either way in the pairs it was fitted to.
const NO_SD: f64 = 3.0;
const NO_DRIFT: f64 = 0.18;

/// log10 of how many times likelier the signs are of one block than of a design cut again, no larger than so many pairs can
/// support.
pub(super) fn weigh(signs: &BlockSigns) -> f64 {
    let sum: f64 = told(signs).iter().zip(SLOPES).map(|(t, s)| t * s).sum();
    (sum + OFFSET).clamp(-largest(), largest())
}

/// What is weighed.
fn told(s: &BlockSigns) -> [f64; 7] {
    [
        s.likeness,
        s.poorest,
        (s.wandering_px + 0.05).ln(),
        (s.wandering_sd.unwrap_or(NO_SD) + 0.2).ln(),
        (s.drift_px.unwrap_or(NO_DRIFT) + 0.02).ln(),
        s.shown,
        s.found,
    ]
}

/// The largest weight that the pairs can support: of so many of the rarer kind none is known to be of the other.
fn largest() -> f64 {
    (OF_THE_RARER_KIND as f64 + 1.0).log10()
}

/// What it rests on.
pub(super) fn basis() -> WeightBasis {
    WeightBasis { simulated_pairs: PAIRS, real_pairs: 0, largest: largest(), resembles: true }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_lies_well_weighs_for_one_block_and_what_wanders_against_it() {
        let well = BlockSigns {
            windows: 900,
            likeness: 0.95,
            poorest: 0.9,
            found: 0.98,
            wandering_px: 0.2,
            wandering_sd: Some(0.9),
            drift_px: Some(0.04),
            shown: 0.97,
        };
        let wanders = BlockSigns {
            likeness: 0.6,
            poorest: 0.3,
            found: 0.75,
            wandering_px: 2.0,
            wandering_sd: Some(6.0),
            drift_px: Some(0.4),
            ..well
        };
        assert!(weigh(&well) > ENOUGH && weigh(&well) <= largest());
        assert!(weigh(&wanders) < -ENOUGH);
    }
}
