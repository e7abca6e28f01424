//! What `reglet calendar --json` writes.

use schemars::JsonSchema;
use serde::Serialize;
use trade::calendar::DayRange;

/// Days, reigns or countries; what was not asked for is an empty list.
#[derive(Debug, Clone, Default, Serialize, JsonSchema)]
pub(in crate::cmd) struct CalendarRecord {
    /// Days: the one that was converted, or feasts, in order.
    pub(super) days: Vec<DayFound>,
    /// Stretches of days: terms, years of a reign.
    pub(super) stretches: Vec<StretchFound>,
    /// Reigns.
    pub(super) reigns: Vec<ReignFound>,
    /// When countries took the New Style.
    pub(super) adoptions: Vec<AdoptionFound>,
    /// The program and its version.
    pub(super) program: String,
}

impl CalendarRecord {
    pub(super) fn is_empty(&self) -> bool {
        self.days.is_empty()
            && self.stretches.is_empty()
            && self.reigns.is_empty()
            && self.adoptions.is_empty()
    }
}

/// A day.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub(super) struct DayFound {
    /// What falls on it; null for a day that was asked for by its date.
    pub(super) name: Option<String>,
    /// Its Julian day number.
    pub(super) day_number: i32,
    /// Its weekday.
    pub(super) weekday: String,
    /// Its date in the Old Style, year-month-day, the year from 1 January; 0 is 1 BC.
    pub(super) old_style: String,
    /// The same in the New Style.
    pub(super) new_style: String,
    /// The number of the legal year in England, from Lady Day to 1751.
    pub(super) legal_year_in_england: i32,
    /// The date of the French Republic; null outside it.
    pub(super) republican: Option<String>,
    /// The years of the reigns in England and Scotland in which it lies, as statutes cite them.
    pub(super) reigns: Vec<String>,
}

/// Days without a gap.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub(in crate::cmd) struct Stretch {
    /// The Julian day number of the first day.
    pub(in crate::cmd) from_day_number: i32,
    /// That of the last.
    pub(in crate::cmd) to_day_number: i32,
    /// In words.
    pub(in crate::cmd) words: String,
}

impl Stretch {
    pub(in crate::cmd) fn of(days: DayRange, words: String) -> Self {
        Self { from_day_number: days.first.number(), to_day_number: days.last.number(), words }
    }
}

/// A stretch of days that has a name: a term, a year of a reign.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub(super) struct StretchFound {
    /// What it is.
    pub(super) name: String,
    /// Its days.
    #[serde(flatten)]
    pub(super) days: Stretch,
}

/// A reign.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub(super) struct ReignFound {
    /// Who reigned.
    pub(super) name: String,
    /// How statutes cite it.
    pub(super) abbreviation: String,
    /// Whether it is counted so in Scotland only.
    pub(super) is_of_scotland: bool,
    /// The Julian day number of its first day.
    pub(super) from_day_number: i32,
    /// That of its last.
    pub(super) to_day_number: i32,
    /// The number of its last year.
    pub(super) last_year: u32,
    /// What else must be known.
    pub(super) note: String,
}

/// A country and its New Style.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub(super) struct AdoptionFound {
    /// The country.
    pub(super) place: String,
    /// Its last day in the Old Style, year-month-day.
    pub(super) last_old_style: String,
    /// Its first in the New Style.
    pub(super) first_new_style: String,
    /// What else must be known.
    pub(super) note: String,
    /// Where this was seen.
    pub(super) source: String,
}
