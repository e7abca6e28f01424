//! One sheet by itself.

use serde::{Deserialize, Serialize};
use sheet::Ppi;

use super::ScenarioKind;
use super::conditions::of_one;
use super::settings::settings;
use crate::chance::Chance;
use crate::error::PressError;
use crate::fount::Founts;
use crate::pull::{Conditions, Pull, pull};

/// A sheet to be printed and photographed, whatever is on it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Sheet {
    /// Difficulty, 0 (as good as it gets) to 4.
    pub level: u8,
    /// Resolution of the photograph.
    pub ppi: Ppi,
    /// Everything else.
    pub seed: u64,
}

impl Sheet {
    /// How it is inked, on what paper, and how it is photographed, as its level has it.
    pub fn conditions(&self) -> Conditions {
        of_one(self.ppi, self.level.min(4), &mut Chance::new(self.seed, "conditions of a sheet"))
    }

    /// Prints and photographs it under such conditions.
    ///
    /// # Errors
    /// [`PressError`], when the photograph would be too large.
    pub fn print(&self, founts: &Founts, conditions: &Conditions) -> Result<Pull, PressError> {
        let mut chance = Chance::new(self.seed, "sheet");
        let pair = settings(founts, ScenarioKind::SameSetting, self.level.min(4), self.ppi.0, &mut chance)?;
        Ok(pull(founts, &pair.a, Some(&pair.back), conditions, chance.seed())?)
    }
}
