//! The weight of what was measured of two impressions of a cut.

use super::BlockSigns;
use super::calibration::{OF_THE_RARER_KIND, OFFSET, PAIRS, REAL_PAIRS, SLOPES};
use crate::WeightBasis;

/// Weight, either way, from which a verdict is given: five to one. By cross-validation 36 of 1348 simulated pairs were told
/// wrongly so, one of the 688 of sound photographs, and one of 65 real ones.
pub(super) const ENOUGH: f64 = 0.7;
/// What a sign that could not be measured counts as: what says nothing either way in the pairs it was fitted to.
const NO_DRIFT: f64 = 0.18;
const NO_DRIFT_SD: f64 = 4.0;

/// log10 of how many times likelier the signs are of one block than of a design cut again, no larger than so many pairs can
/// support.
pub(super) fn weigh(signs: &BlockSigns) -> f64 {
    let sum: f64 = told(signs).iter().zip(SLOPES).map(|(t, s)| t * s).sum();
    (sum + OFFSET).clamp(-largest(), largest())
}

/// What is weighed: how far strokes lie beside each other, how large the cut is, and what is seen of its windows. The rest of what
/// was measured adds nothing to these.
fn told(s: &BlockSigns) -> [f64; 5] {
    [
        (s.drift_px.unwrap_or(NO_DRIFT) + 0.02).ln(),
        (s.drift_sd.unwrap_or(NO_DRIFT_SD) + 0.2).ln(),
        s.longer_px.max(1.0).ln(),
        s.sight,
        s.sight_poorest,
    ]
}

/// The largest weight that the pairs can support: of so many of the rarer kind none is known to be of the other.
fn largest() -> f64 {
    (OF_THE_RARER_KIND as f64 + 1.0).log10()
}

/// What it rests on.
pub(super) fn basis() -> WeightBasis {
    WeightBasis { simulated_pairs: PAIRS, real_pairs: REAL_PAIRS, largest: largest(), resembles: true }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::block::{LineSigns, PlacesKept};

    fn of_lines(forks: [usize; 3], ends: [usize; 3], [fields, fields_equal]: [usize; 2]) -> LineSigns {
        let places = |[kept, moved, gone]: [usize; 3]| PlacesKept { kept, moved, gone };
        LineSigns { forks: places(forks), ends: places(ends), fields, fields_equal }
    }

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
            drift_sd: Some(1.5),
            bolder_px: Some(0.05),
            windows_say: 1.5,
            sight: 3.0,
            sight_poorest: 1.5,
            longer_px: 500.0,
            lines: of_lines([60, 5, 3], [40, 6, 6], [30, 29]),
            shown: 0.97,
        };
        let wanders = BlockSigns {
            likeness: 0.6,
            poorest: 0.3,
            found: 0.75,
            wandering_px: 2.0,
            wandering_sd: Some(6.0),
            drift_px: Some(0.4),
            drift_sd: Some(12.0),
            bolder_px: Some(0.2),
            windows_say: -1.5,
            sight: -2.0,
            sight_poorest: -3.0,
            lines: of_lines([12, 30, 20], [8, 25, 20], [30, 9]),
            ..well
        };
        assert!(weigh(&well) > ENOUGH && weigh(&well) <= largest());
        assert!(weigh(&wanders) < -ENOUGH);
    }
}
