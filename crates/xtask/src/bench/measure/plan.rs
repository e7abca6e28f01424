//! Which sheets are printed.

use press::Conditions;
use press::scenario::Sheet;
use rand::{RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use serde::{Deserialize, Serialize};
use sheet::Ppi;

use crate::bench::set::Set;

/// A sheet to be printed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub(super) struct Planned {
    /// Its number in the set, from 0.
    pub(super) number: usize,
    /// Resolution.
    pub(super) ppi: Ppi,
    /// Difficulty, 0 to 4.
    pub(super) level: u8,
    /// Everything else.
    pub(super) seed: u64,
    /// Whether more goes wrong than at any press, to learn from.
    pub(super) is_botched: bool,
}

/// Share of the spaces that rise on a sheet to learn from.
const BOTCHED: f64 = 0.03;

impl Planned {
    /// The sheet, and the conditions that it is printed under.
    pub(super) fn sheet(&self) -> (Sheet, Conditions) {
        let sheet = Sheet { level: self.level, ppi: self.ppi, seed: self.seed };
        let mut conditions = sheet.conditions();
        if self.is_botched {
            conditions.ink.risen_spaces = BOTCHED;
        }
        (sheet, conditions)
    }
}

/// Resolutions: what libraries deliver.
const PPI: [f64; 5] = [300.0, 200.0, 400.0, 300.0, 250.0];

/// The sheets of a set; the sets share no seed.
pub(super) fn plan(set: Set, count: usize) -> Vec<Planned> {
    let first_seed: u64 = match set {
        Set::Sealed => 0x5EA1_3EA5_0000_0000,
        Set::Fit => 0x0F17_3EA5_0000_0000,
        _ => 0x0DE7_3EA5_0000_0000,
    };
    (0..count)
        .map(|number| {
            let seed = first_seed + number as u64;
            let mut chance = ChaCha8Rng::seed_from_u64(seed);
            let ppi = Ppi(PPI[chance.random_range(0..PPI.len())]);
            Planned { number, ppi, level: (number % 5) as u8, seed, is_botched: set == Set::Fit }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_level_comes_as_often_and_the_sets_share_no_seed() {
        let (dev, sealed) = (plan(Set::Dev, 50), plan(Set::Sealed, 50));
        assert!(dev.iter().all(|d| sealed.iter().all(|s| s.seed != d.seed)));
        assert!((0..5).all(|level| dev.iter().filter(|d| d.level == level).count() == 10));
    }
}
