//! What `reglet date --json` writes.

use crate::cmd::calendar::Stretch;
use schemars::JsonSchema;
use serde::Serialize;

/// What one date says, or whether several agree.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub(in crate::cmd) struct DateRecord {
    /// Whether the date can be, or the dates agree.
    pub(super) can_be: bool,
    /// The dates as they were given.
    pub(super) dates: Vec<GivenDate>,
    /// How a single numeral can be read; null of anything else.
    pub(super) numeral: Option<NumeralFound>,
    /// What a single chronogram adds up to; null of anything else.
    pub(super) chronogram: Option<ChronogramFound>,
    /// The days on which all dates are true, one entry for each way of reckoning; empty where there is none.
    pub(super) days: Vec<DaysFound>,
    /// Parts that cannot all be true together, though any fewer of them can: their words.
    pub(super) conflicts: Vec<Vec<String>>,
    /// The fewest slips by which they could be made to agree, the likeliest first.
    pub(super) remedies: Vec<RemedyFound>,
    /// Parts that must be left out for the rest to agree, where no slips explain them.
    pub(super) left_out: Vec<String>,
    /// The date as cataloguers write it, where something must be added.
    pub(super) catalogued: Vec<String>,
    /// Reasons for which this could be wrong.
    pub(super) cautions: Vec<String>,
    /// The program and its version.
    pub(super) program: String,
}

/// A date as it was given.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub(super) struct GivenDate {
    /// What it is: imprint, text, licence, event, not before, not after.
    pub(super) role: String,
    /// Its text.
    pub(super) text: String,
    /// The parts that were read.
    pub(super) parts: Vec<PartFound>,
    /// Words that were not read.
    pub(super) unread: Vec<String>,
}

/// A part of a date.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub(super) struct PartFound {
    /// Its words.
    pub(super) words: String,
    /// The place of its first character in the date, from 0.
    pub(super) from_character: usize,
    /// The place after its last.
    pub(super) to_character: usize,
    /// What it was read as.
    pub(super) read_as: String,
}

/// A numeral.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub(super) struct NumeralFound {
    /// What it strictly says.
    pub(super) strictly: u32,
    /// Every number that it can be read as, the strict one first.
    pub(super) readings: Vec<ReadingFound>,
    /// What it may have been meant to say, the likeliest first.
    pub(super) meant: Vec<MeantFound>,
    /// The first year that was thought possible.
    pub(super) between_from: i32,
    /// The last.
    pub(super) between_to: i32,
}

/// One reading of a numeral.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub(super) struct ReadingFound {
    /// The number.
    pub(super) value: u32,
    /// How it was counted.
    pub(super) how: String,
}

/// One thing a numeral may have been meant to say.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub(super) struct MeantFound {
    /// The year.
    pub(super) year: i32,
    /// How it would have been set.
    pub(super) as_set: String,
    /// The kind of slip: wrong sort, foul case, dropped, doubled, added, transposed, turned; null where there was none.
    pub(super) slip: Option<String>,
    /// The reason in words.
    pub(super) reason: String,
    /// Its share of belief, from 0 to 1.
    pub(super) plausibility: f64,
}

/// A chronogram.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub(super) struct ChronogramFound {
    /// The sum.
    pub(super) year: u32,
    /// The letters that count, in order, each with its place in characters from 0.
    pub(super) letters: Vec<(String, u32, usize)>,
}

/// Days, and the reckoning that yields them.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub(super) struct DaysFound {
    /// How the year and the days were reckoned.
    pub(super) reckonings: Vec<String>,
    /// What else was taken for granted, as how a reign is counted.
    pub(super) taken_for_granted: Vec<String>,
    /// How many days.
    pub(super) count: usize,
    /// The days, as stretches without a gap; at most a hundred.
    pub(super) stretches: Vec<Stretch>,
}

/// One way of making dates agree.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub(super) struct RemedyFound {
    /// The slips.
    pub(super) slips: Vec<SlipFound>,
    /// The days on which the sheet can then have been printed.
    pub(super) days: DaysFound,
    /// Its share of belief among remedies of as few slips, from 0 to 1.
    pub(super) plausibility: f64,
}

/// One slip.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub(super) struct SlipFound {
    /// The words as they stand.
    pub(super) set: String,
    /// What may have been meant.
    pub(super) meant: String,
    /// The slip in words.
    pub(super) reason: String,
}
