//! What the reader of dates should know.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Checks, ImpressionDate, RateTold, Windows};
use crate::convergence::Convergence;
use crate::order::Order;
use crate::table::Table;

/// Dated sheets from which a rate is given without a warning: with three a straight line has one degree of freedom to be
/// checked by, with four two (common practice, no source).
const ENOUGH_DATED: usize = 4;
/// Dates and wear contradict each other from here on.
const SURE: f64 = 0.95;
/// A check is failed beyond this, either way.
const FAILED: f64 = 0.05;

/// A warning about dates.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case", tag = "about")]
pub enum DateWarning {
    /// The rate rests on few dated sheets.
    FewDated {
        /// How many.
        dated: usize,
        /// From how many on there is no warning.
        enough: usize,
    },
    /// An answer lies beyond the dated sheets more likely than between them.
    Beyond {
        /// The impression.
        impression: String,
        /// How likely it lies beyond, 0 to 1.
        chance: f64,
        /// Whether that is the answer with the rate; else that by the order alone.
        with_rate: bool,
    },
    /// An answer rests on how far back or forward one allows.
    RestsOnWindow {
        /// The impression.
        impression: String,
        /// Whether that is the answer with the rate; else that by the order alone.
        with_rate: bool,
    },
    /// A sheet that is dated earlier surely has damage that came later.
    DatesAgainstWear {
        /// The impression that its date makes the earlier.
        earlier_by_date: String,
        /// The one that it makes the later.
        later_by_date: String,
        /// How likely the wear alone makes it the other way round, 0 to 1.
        chance: f64,
        /// The damages that the one shows and the other lacks.
        damages: Vec<String>,
    },
    /// A dated sheet that was taken for undated is not found where its date puts it.
    HeldOutMissed {
        /// The impression.
        impression: String,
        /// Its year.
        known_year: f64,
        /// Where the others put it, with 95 percent.
        interval_95_year: [f64; 2],
    },
    /// Damage came more unevenly, or with another rate early and late, than the model has it.
    ModelDoubtful {
        /// What is doubtful, in a sentence.
        what: String,
    },
    /// Chains do not agree.
    NotConverged {
        /// Whether of the answer with the rate; else of that by the order alone.
        with_rate: bool,
        /// The largest R-hat.
        worst_r_hat: Option<f64>,
    },
}

impl DateWarning {
    /// The warning as a sentence for a reader.
    pub fn sentence(&self) -> String {
        let by = |with_rate: bool| if with_rate { "with the rate" } else { "by the order alone" };
        match self {
            Self::FewDated { dated, enough } => format!(
                "{dated} dated impressions are few: from {enough} on a rate can be checked against itself"
            ),
            Self::Beyond { impression, chance, with_rate } => format!(
                "{impression} lies beyond the dated impressions ({:.0} percent, {}): there nothing holds the answer",
                100.0 * chance,
                by(*with_rate)
            ),
            Self::RestsOnWindow { impression, with_rate } => format!(
                "The year of {impression} ({}) rests on how far past the known years it is allowed to lie",
                by(*with_rate)
            ),
            Self::DatesAgainstWear { earlier_by_date, later_by_date, chance, damages } => format!(
                "{earlier_by_date} is dated earlier than {later_by_date}, but its wear makes it the later ({:.0} percent): it shows {}",
                100.0 * chance,
                damages.join(", ")
            ),
            Self::HeldOutMissed { impression, known_year, interval_95_year: [from, to] } => format!(
                "{impression} is dated {known_year:.0}, but the others put it between {from:.0} and {to:.0} (95 percent)"
            ),
            Self::ModelDoubtful { what } => what.clone(),
            Self::NotConverged { with_rate, worst_r_hat } => format!(
                "The chains of the answer {} do not agree{}: take it for rough",
                by(*with_rate),
                worst_r_hat.map_or_else(String::new, |r| format!(" (R-hat {:.2})", r.min(99.0)))
            ),
        }
    }
}

/// Every warning that there is cause for.
pub(super) fn warnings(
    table: &Table,
    order: &Order,
    windows: &Windows,
    impressions: &[ImpressionDate],
    by_order: Option<&Convergence>,
    rate: &RateTold,
    checks: Option<&Checks>,
) -> Vec<DateWarning> {
    let mut out = against_wear(table, order, windows);
    let dated = windows.dated.len();
    if dated < ENOUGH_DATED {
        out.push(DateWarning::FewDated { dated, enough: ENOUGH_DATED });
    }
    for date in impressions {
        for (told, with_rate) in [(&date.by_order, false), (&date.with_rate, true)] {
            let impression = || table.name(date.impression).to_owned();
            let Some(told) = told else { continue };
            if told.beyond_dated > 0.5 {
                let chance = told.beyond_dated;
                out.push(DateWarning::Beyond { impression: impression(), chance, with_rate });
            }
            if told.rests_on_window {
                out.push(DateWarning::RestsOnWindow { impression: impression(), with_rate });
            }
        }
    }
    let of_rate = match rate {
        RateTold::Found { convergence, .. } => Some(convergence),
        RateTold::None { .. } => None,
    };
    for (convergence, with_rate) in [(by_order, false), (of_rate, true)] {
        if let Some(Convergence { is_reached: false, worst_r_hat, .. }) = convergence {
            out.push(DateWarning::NotConverged { with_rate, worst_r_hat: *worst_r_hat });
        }
    }
    if let Some(checks) = checks {
        out.extend(doubts(checks));
        for held in
            checks.held_out.iter().filter(|h| !(FAILED / 2.0..=1.0 - FAILED / 2.0).contains(&h.earlier))
        {
            out.push(DateWarning::HeldOutMissed {
                impression: table.name(held.impression).to_owned(),
                known_year: held.known_year,
                interval_95_year: held.interval_95_year,
            });
        }
    }
    out
}

/// Sheets whose years and whose wear stand the other way round.
fn against_wear(table: &Table, order: &Order, windows: &Windows) -> Vec<DateWarning> {
    let mut out = Vec::new();
    for pair in &order.pairs {
        for (earlier, later, damages) in
            [(pair.first, pair.second, &pair.only_first), (pair.second, pair.first, &pair.only_second)]
        {
            let is_dated = !windows.is_assumed[earlier][1] && !windows.is_assumed[later][0];
            let chance = order.before[later][earlier];
            if is_dated && windows.of[earlier][1] <= windows.of[later][0] && chance >= SURE {
                out.push(DateWarning::DatesAgainstWear {
                    earlier_by_date: table.name(earlier).to_owned(),
                    later_by_date: table.name(later).to_owned(),
                    chance,
                    damages: damages.iter().map(|&d| table.damages()[d].name.clone()).collect(),
                });
            }
        }
    }
    out
}

fn doubts(checks: &Checks) -> Vec<DateWarning> {
    let mut out = Vec::new();
    let mut say = |what: &str| out.push(DateWarning::ModelDoubtful { what: what.to_owned() });
    if checks.as_uneven < FAILED {
        say(
            "Damage came more unevenly than even bursts explain: the intervals with the rate may be too narrow",
        );
    }
    if checks.as_early > 1.0 - FAILED {
        say("Damage grew faster late than early: the rate is none for years beyond the dated ones");
    }
    if checks.as_early < FAILED {
        say("Damage grew faster early than late: the rate is none for years beyond the dated ones");
    }
    out
}
