//! Many copies of one sheet, as a study has them: corrected at press again and again, and set a second time for a second
//! press.

use serde::{Deserialize, Serialize};
use sheet::Ppi;

use super::settings::settings;
use super::{Scenario, ScenarioKind, conditions};
use crate::chance::Chance;
use crate::error::PressError;
use crate::fount::Founts;
use crate::pull::{Pull, pull};
use crate::setting::Setting;
use crate::variant::{Change, ChangeClass, Reset};

/// A study asked for.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Study {
    /// How many copies survive.
    pub copies: usize,
    /// Difficulty, as of a [`Scenario`].
    pub level: u8,
    /// Resolutions of the photographs, one and the other in turn.
    pub ppi: [Ppi; 2],
    /// Everything else.
    pub seed: u64,
}

/// One state of one setting.
#[derive(Debug, Clone, PartialEq)]
pub struct State {
    /// The setting, from 0.
    pub setting: usize,
    /// The state of it, from 0.
    pub state: usize,
    /// What was done at press since the state before.
    pub changes: Vec<Change>,
    forme: Setting,
}

/// The states of a study, and which of them each copy is of.
#[derive(Debug, Clone, PartialEq)]
pub struct Stock {
    /// All states, those of the first setting first.
    pub states: Vec<State>,
    /// The state that each copy is of, as its place in `states`.
    pub of_copy: Vec<usize>,
    back: Setting,
    seeds: Vec<[u64; 2]>,
}

/// States of the first setting, and of the second.
const STATES: [usize; 2] = [3, 2];
/// Changes from one state to the next, at least and at most.
const CHANGES: [usize; 2] = [2, 4];

impl Study {
    /// Composes the settings and their states, and settles which copy is of which. Where there are copies enough each state
    /// survives in one at least.
    ///
    /// # Errors
    /// [`PressError`], when no text drawn goes with its layout.
    pub fn compose(&self, founts: &Founts) -> Result<Stock, PressError> {
        let mut chance = Chance::new(self.seed, "study");
        // Pages with lines enough to correct; what is corrected is settled here.
        let kind = ScenarioKind::SameSettingWithDifferences;
        let drawn = settings(founts, kind, self.level, self.ppi[0].0.max(self.ppi[1].0), &mut chance)?;
        let care = crate::compose::Care::ALL[usize::from(self.level.min(4)) / 2];
        let how = Reset { care, respelt: 0.1, new_skeleton: true };
        let second = drawn.a.reset(founts, how, chance.seed())?;
        let mut states = Vec::new();
        for (setting, (first, count)) in [drawn.a, second].into_iter().zip(STATES).enumerate() {
            let mut forme = first;
            for state in 0..count {
                let mut changes = Vec::new();
                if state > 0 {
                    let wishes: Vec<ChangeClass> = (0..chance.whole(CHANGES[0], CHANGES[1]))
                        .map(|_| *chance.pick(&ChangeClass::OF_SORTS))
                        .collect();
                    (forme, changes) = forme.corrected(founts, &wishes, chance.seed())?;
                }
                states.push(State { setting, state, changes, forme: forme.clone() });
            }
        }
        // The first setting was printed off in twice as many copies: it stood longer.
        let lots: Vec<usize> = states.iter().enumerate().flat_map(|(i, s)| vec![i; 2 - s.setting]).collect();
        let mut of_copy: Vec<usize> = (0..states.len()).collect();
        while of_copy.len() < self.copies {
            of_copy.push(*chance.pick(&lots));
        }
        of_copy.truncate(self.copies);
        chance.shuffle(&mut of_copy);
        let seeds = (0..self.copies).map(|_| [chance.seed(), chance.seed()]).collect();
        Ok(Stock { states, of_copy, back: drawn.back, seeds })
    }

    /// The resolution of a copy's photograph.
    pub fn ppi_of(&self, copy: usize) -> Ppi {
        self.ppi[copy % 2]
    }

    /// Pulls and photographs one copy.
    ///
    /// # Errors
    /// [`PressError`], when the photograph would be too large for the resolution asked for.
    ///
    /// # Panics
    /// When the study has no such copy.
    pub fn pull(&self, founts: &Founts, stock: &Stock, copy: usize) -> Result<Pull, PressError> {
        let [conditions, seed] = stock.seeds[copy];
        let alone = Scenario {
            kind: ScenarioKind::SameSetting,
            level: self.level.min(4),
            ppi_a: self.ppi_of(copy),
            ppi_b: self.ppi_of(copy),
            seed: self.seed,
        };
        let [conditions, _] = conditions::of_pair(&alone, alone.level, 0, conditions);
        let forme = &stock.states[stock.of_copy[copy]].forme;
        Ok(pull(founts, forme, Some(&stock.back), &conditions, seed)?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_state_survives_and_states_of_a_setting_differ_by_what_was_done() {
        let founts = Founts::open().unwrap();
        let study = Study { copies: 9, level: 1, ppi: [Ppi(80.0); 2], seed: 3 };
        let stock = study.compose(&founts).unwrap();
        let mut there = stock.of_copy.clone();
        there.sort_unstable();
        there.dedup();
        assert_eq!(there, [0, 1, 2, 3, 4]);
        assert_eq!(stock.states.iter().map(|s| s.setting).collect::<Vec<_>>(), [0, 0, 0, 1, 1]);
        for state in &stock.states {
            assert_eq!(state.changes.is_empty(), state.state == 0);
        }
        assert_eq!(stock.states[0].forme.id, stock.states[2].forme.id);
        assert_ne!(stock.states[0].forme.id, stock.states[3].forme.id);
        assert_eq!(study.compose(&founts).unwrap(), stock, "the same seed gives the same copies");
        let photograph = study.pull(&founts, &stock, 8).unwrap();
        assert!(photograph.truth.legible.iter().flatten().count() > 20);
    }
}
