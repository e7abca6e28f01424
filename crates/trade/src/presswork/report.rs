//! Everything that is told of a plan.

use schemars::JsonSchema;
use serde::Serialize;

use super::cost::{Cost, cost};
use super::many::{Many, many};
use super::questions::{Deadline, Edition, Known, Needed, Twice, edition, needed, twice};
use super::sums::{Sums, sums};
use super::{Arrival, Crew, Plan, PlanError, Schedule, SetBy, arrivals, schedule};

/// What is asked beyond what is always told.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked {
    /// Shops that are drawn.
    pub runs: u32,
    /// The seed.
    pub seed: u64,
    /// A time by which the copies are to be out.
    pub by: Option<Deadline>,
    /// What is known of an edition whose size is asked.
    pub known: Known,
}

impl Default for Asked {
    fn default() -> Self {
        Self { runs: 10_000, seed: 1, by: None, known: Known::default() }
    }
}

/// A plan, reckoned through.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Report {
    /// The plan.
    pub plan: Plan,
    /// Impressions, tokens, reams, hours, men, with every rate at its middle.
    pub sums: Sums,
    /// The bill; null without prices.
    pub cost: Option<Cost>,
    /// When everything was done, with every rate at its middle.
    pub schedule: Schedule,
    /// The same with every rate drawn from its range, very often.
    pub many: Many,
    /// When each place has its copies, with every rate at its middle.
    pub arrivals: Vec<Arrival>,
    /// The time that was asked about; null where none was.
    pub by: Option<Deadline>,
    /// What is needed to be out by then; null where no time was asked about.
    pub needed: Option<Vec<Needed>>,
    /// Whether setting the text twice pays; null where the job is too large to set twice.
    pub twice: Option<Twice>,
    /// The edition that fits what is known; null where nothing was said to be.
    pub edition: Option<Edition>,
    /// What the user should know of this plan.
    pub warnings: Vec<String>,
    /// Reasons for which all this could be wrong.
    pub cautions: Vec<String>,
}

const CAUTIONS: [&str; 4] = [
    "This is a model of the work, not a record of a shop. Shops worked on several jobs at once, so a book took longer than its \
     hours of work, often many times.",
    "Most rates that are printed anywhere deserve distrust: they hang on the work, the quality asked for and the press. Give \
     your own where you have them.",
    "Type is taken to suffice for every forme that stands, and paper to be wetted when it is wanted.",
    "It says what was possible. That the text was set twice, or by whom, only the copies can show.",
];

/// Reckons a plan through.
///
/// # Errors
/// A plan that cannot be.
pub fn report(plan: Plan, asked: &Asked) -> Result<Report, PlanError> {
    let plan = plan.checked()?;
    let rates = plan.rates.middle();
    let sums = sums(&plan, &rates);
    let schedule = schedule(&plan, &rates);
    let is_known = asked.known.time.is_some() || asked.known.reams.is_some();
    Ok(Report {
        cost: plan.prices.map(|prices| cost(&plan, &sums, &prices)),
        many: many(&plan, asked.runs, asked.seed, asked.by),
        arrivals: arrivals(&plan, &rates),
        by: asked.by,
        needed: asked.by.map(|by| needed(&plan, by)),
        twice: twice(&plan),
        edition: is_known.then(|| edition(&plan, &asked.known)),
        warnings: warnings(&plan, &sums, &schedule),
        cautions: CAUTIONS.iter().map(|&c| c.to_owned()).collect(),
        sums,
        schedule,
        plan,
    })
}

fn warnings(plan: &Plan, sums: &Sums, schedule: &Schedule) -> Vec<String> {
    let mut out = Vec::new();
    let idle = plan.presses.saturating_sub(plan.crews);
    if idle > 0 {
        out.push(format!("{idle} of {} presses stand still: there are {} crews.", plan.presses, plan.crews));
    }
    if plan.rates.ens_per_sheet.is_none() {
        out.push(
            "The ens in a sheet are not given, so composing is left out, as if the type stood ready. Give them for the whole time."
                .to_owned(),
        );
        if plan.settings > 1 {
            out.push("So the settings cost no time here, only press work is shared between them.".to_owned());
        }
    }
    if plan.settings > plan.working_presses() {
        out.push(format!(
            "The text is set {} times for {} press{}: a setting more than there are presses saves nothing.",
            plan.settings,
            plan.working_presses(),
            if plan.working_presses() == 1 { "" } else { "es" }
        ));
    }
    if plan.copies < plan.settings * plan.token {
        out.push(format!(
            "Each setting prints less than a token ({} impressions), an hour's work: making ready weighs as much as printing.",
            plan.token
        ));
    }
    if sums.formes < plan.working_presses() {
        out.push(format!(
            "There are {} presses for {} forme{}: the others stand still, unless the text is set more often.",
            plan.working_presses(),
            sums.formes,
            if sums.formes == 1 { "" } else { "s" }
        ));
    } else if sums.composing_hours > 0.0 && schedule.presses_busy < 0.5 {
        out.push(format!(
            "The presses wait for the compositors: they have work for {:.0} percent of the time. Such a shop printed other work \
             between.",
            schedule.presses_busy * 100.0
        ));
    } else if sums.composing_hours > 0.0 && schedule.compositors_busy < 0.5 {
        out.push(format!(
            "The compositors wait for the presses: they have work for {:.0} percent of the time.",
            schedule.compositors_busy * 100.0
        ));
    }
    if plan.crew == Crew::Half {
        out.push("One man to a press: half the rate of two.".to_owned());
    }
    if plan.set_by == SetBy::Formes {
        out.push("Set by formes: the copy is taken to be cast off, and one forme to go to press while the other is set.".to_owned());
    }
    out
}
