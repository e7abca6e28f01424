//! Pairs of photographs with a known verdict, up a ladder of difficulty.

pub(crate) mod conditions;
mod judging;
mod settings;
mod single;
mod study;

use serde::{Deserialize, Serialize};
use sheet::{Ppi, Rect};

use crate::chance::Chance;
use crate::compose::Care;
use crate::error::PressError;
use crate::fount::Founts;
use crate::pull::{Pull, pull};
use crate::setting::Setting;
use crate::truth::Truth;
use crate::variant::Change;
use judging::JUDGEABLE_INK;
pub use judging::can_be_judged;
use settings::{Pair, settings};
pub use single::Sheet;
pub use study::{State, Stock, Study};

/// What the two copies are to each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ScenarioKind {
    /// Two copies of one setting.
    SameSetting,
    /// Two states of one setting, corrected at press.
    SameSettingWithDifferences,
    /// Two states of one setting, corrected in every third word: more than is ever found, to learn from many
    /// differences.
    MuchCorrected,
    /// Some lines set again, the others left standing.
    PartlyReset,
    /// The same text set twice, line for line.
    DifferentSetting,
    /// The same text set twice with other line-ends.
    OtherLineEnds,
    /// Another text in the same layout and type, with the same headings and formulas.
    DifferentText,
    /// Two details that share too little to be judged.
    TooLittleShared,
    /// One copy, photographed twice.
    OneCopy,
}

impl ScenarioKind {
    /// The six kinds that can be judged.
    pub const JUDGEABLE: [Self; 6] = [
        Self::SameSetting,
        Self::SameSettingWithDifferences,
        Self::PartlyReset,
        Self::DifferentSetting,
        Self::OtherLineEnds,
        Self::DifferentText,
    ];

    /// The verdict that is right for it.
    pub fn verdict(self) -> &'static str {
        match self {
            Self::SameSetting | Self::OneCopy => "same-setting",
            Self::SameSettingWithDifferences | Self::MuchCorrected => "same-setting-with-differences",
            Self::PartlyReset => "partly-reset",
            Self::DifferentSetting | Self::OtherLineEnds => "different-setting",
            Self::DifferentText => "different-text",
            Self::TooLittleShared => "undetermined",
        }
    }
}

/// A pair asked for.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Scenario {
    /// What the copies are to each other.
    pub kind: ScenarioKind,
    /// Difficulty: 0 clean, well-lit, carelessly reset; to 4, with up to a quarter of the ink missing,
    /// creases, curl, cockle, worn type, very careful resetting, half-turns, a detail against a whole.
    pub level: u8,
    /// Resolution of the first photograph.
    pub ppi_a: Ppi,
    /// Resolution of the second photograph.
    pub ppi_b: Ppi,
    /// Everything else.
    pub seed: u64,
}

/// What is true of a pair.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PairTruth {
    /// What the copies are to each other.
    pub kind: ScenarioKind,
    /// The right verdict, as the program words it.
    pub verdict: String,
    /// Changes of the setting from the first to the second, boxes in mm in each forme.
    pub changes: Vec<Change>,
    /// Boxes of the changes on the two photographs, in px: `None` where there is nothing on that one.
    pub boxes_px: Vec<[Option<Rect>; 2]>,
    /// How carefully it was set again, where it was.
    pub care: Option<Care>,
}

/// Two photographs with their truths.
#[derive(Debug, Clone, PartialEq)]
pub struct PrintedPair {
    /// The first copy.
    pub a: Pull,
    /// The second copy.
    pub b: Pull,
    /// What they are to each other.
    pub truth: PairTruth,
}

impl Scenario {
    /// Prints and photographs the pair.
    ///
    /// Where chance hides all that was changed (a detail, missed ink), the copies are pulled again under
    /// milder conditions, so that the verdict is one that the photographs bear out.
    ///
    /// # Errors
    /// [`PressError`], when a photograph would be too large for the resolution asked for.
    pub fn print(&self, founts: &Founts) -> Result<PrintedPair, PressError> {
        let mut chance = Chance::new(self.seed, "scenario");
        let level = self.level.min(4);
        let mut pair = settings(founts, self.kind, level, self.ppi_a.0.max(self.ppi_b.0), &mut chance)?;
        let mut seeds = [chance.seed(), chance.seed(), chance.seed()];
        if self.kind == ScenarioKind::OneCopy {
            seeds[2] = seeds[1];
        }
        let mut printed = None;
        for mildness in 0..=u8::from(level > 0) * 2 {
            let conditions = conditions::of_pair(self, level, mildness, seeds[0]);
            let a = pull(founts, &pair.a, Some(&pair.back), &conditions[0], seeds[1])?;
            let b = pull(founts, &pair.b, Some(&pair.back), &conditions[1], seeds[2])?;
            judge(&mut pair.changes, &a.truth, &b.truth);
            let enough = self.bears_out(&pair, &a.truth, &b.truth);
            printed = Some((a, b));
            if enough {
                break;
            }
        }
        // The loop runs at least once, at mildness 0.
        let Some((a, b)) = printed else { unreachable!("the first round always prints") };
        let Pair { changes, care, .. } = pair;
        let boxes_px = changes
            .iter()
            .map(|c| [c.before.map(|r| a.truth.box_px(r)), c.after.map(|r| b.truth.box_px(r))])
            .collect();
        let truth =
            PairTruth { kind: self.kind, verdict: self.kind.verdict().to_owned(), changes, boxes_px, care };
        Ok(PrintedPair { a, b, truth })
    }

    /// Whether the photographs show what the verdict rests on.
    fn bears_out(&self, pair: &Pair, a: &Truth, b: &Truth) -> bool {
        if self.kind == ScenarioKind::TooLittleShared {
            return true;
        }
        let shared = shared_words(a, b);
        let seen = pair.changes.iter().filter(|c| c.judgeable).count();
        shared >= 25
            && match self.kind {
                ScenarioKind::SameSettingWithDifferences | ScenarioKind::MuchCorrected => seen > 0,
                ScenarioKind::PartlyReset => 2 * seen >= pair.changes.len() && seen > 0,
                _ => true,
            }
    }
}

/// Words of the text that can be read on both photographs.
fn shared_words(a: &Truth, b: &Truth) -> usize {
    let read = |t: &Truth| -> std::collections::BTreeSet<(u32, u8)> {
        let lines = t.setting.lines.iter().zip(&t.legible);
        lines
            .flat_map(|(line, inks)| line.words.iter().zip(inks))
            .filter(|(_, ink)| **ink >= JUDGEABLE_INK)
            .map(|(word, _)| (word.token, word.part))
            .collect()
    };
    read(a).intersection(&read(b)).count()
}

/// Marks which changes can be seen on both photographs.
fn judge(changes: &mut [Change], a: &Truth, b: &Truth) {
    for change in changes {
        change.judgeable = can_be_judged(change, a) && can_be_judged(change, b);
    }
}

/// The two settings of a pair and what differs, before anything is printed: for tests and catalogues.
///
/// # Errors
/// [`PressError`] when a text does not go with its layout.
pub fn settings_of(
    scenario: &Scenario,
    founts: &Founts,
) -> Result<(Setting, Setting, Vec<Change>), PressError> {
    let mut chance = Chance::new(scenario.seed, "scenario");
    let ppi = scenario.ppi_a.0.max(scenario.ppi_b.0);
    let pair = settings(founts, scenario.kind, scenario.level.min(4), ppi, &mut chance)?;
    Ok((pair.a, pair.b, pair.changes))
}

#[cfg(test)]
mod tests;
