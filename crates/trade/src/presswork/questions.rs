//! The reckoning turned round: how many presses were needed, when setting twice pays, what edition fits what is known.

use schemars::JsonSchema;
use serde::Serialize;

use super::shop::{Run, Shop};
use super::sums::sums;
use super::{Day, Drawn, MOST_COPIES, Moment, Pence, Plan, Spread};

/// A time that is asked about.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "unit", content = "number", rename_all = "kebab-case")]
pub enum Deadline {
    /// The end of so many days by the calendar, the first day of work counted in.
    Days(f64),
    /// So many hours of work.
    Hours(f64),
}

/// Why a time is not taken.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("\"{found}\" is no time; write days (3 days, 3d) or hours of work (12 hours, 12h)")]
pub struct DeadlineError {
    /// What was given.
    pub found: String,
}

impl Deadline {
    /// Reads `3 days`, `3d`, `12 hours`, `12h`.
    ///
    /// # Errors
    /// What is no time, or less than nothing.
    pub fn parse(text: &str) -> Result<Self, DeadlineError> {
        let wrong = || DeadlineError { found: text.chars().take(24).collect() };
        let text = text.trim();
        let end = text.find(|c: char| !(c.is_ascii_digit() || c == '.')).ok_or_else(wrong)?;
        let number: f64 = text[..end].parse().map_err(|_| wrong())?;
        // A century is longer than any job.
        if !(number > 0.0 && number <= 1e6) {
            return Err(wrong());
        }
        match text[end..].trim() {
            "d" | "day" | "days" => Ok(Self::Days(number)),
            "h" | "hour" | "hours" => Ok(Self::Hours(number)),
            _ => Err(wrong()),
        }
    }

    /// The clock until which it lasts.
    pub(super) fn clock(self, day: &Day) -> f64 {
        match self {
            Self::Days(days) => 24.0 * days,
            Self::Hours(hours) => day.clock(hours),
        }
    }
}

/// The most presses, and the most compositors, that are tried.
const MOST_TRIED: u32 = 24;
/// The most settings that are tried.
const SETTINGS_TRIED: u32 = 4;

/// The least that has a plan out in time with the text set so many times.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Needed {
    /// Settings of the text.
    pub settings: u32,
    /// Presses with their crews; null where even 24 are too few.
    pub presses: Option<u32>,
    /// Compositors: those planned, or more where those are too few.
    pub compositors: u32,
    /// When the copies are out; null where they are not in time.
    pub out: Option<Moment>,
}

/// What is needed to be out in time, for the text set once to four times, with every rate at its middle. No more presses than
/// the presses are asked for if fewer do.
pub fn needed(plan: &Plan, by: Deadline) -> Vec<Needed> {
    let until = by.clock(&plan.day);
    (1..=SETTINGS_TRIED)
        .filter(|&n| plan.formes().saturating_mul(n) <= super::MOST_FORMES)
        .map(|settings| {
            let with = |compositors: u32, presses: u32| {
                let plan = Plan { settings, compositors, presses, crews: presses, ..plan.clone() };
                let out = out(&plan, &plan.rates.middle());
                (out <= until + 1e-9).then(|| plan.day.at_clock(out))
            };
            let most = MOST_TRIED.max(plan.compositors);
            let enough = (plan.compositors..=most).find(|&c| with(c, MOST_TRIED).is_some());
            let compositors = enough.unwrap_or(plan.compositors);
            let presses = (1..=MOST_TRIED).find(|&p| with(compositors, p).is_some());
            Needed { settings, presses, compositors, out: presses.and_then(|p| with(compositors, p)) }
        })
        .collect()
}

/// Setting the text twice beside setting it once, with the same men.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Twice {
    /// The last sheet off the press, the text set once.
    pub once: Moment,
    /// The same, set twice.
    pub twice: Moment,
    /// The fewest copies with which setting twice is quicker; null where it never is, as with one press.
    pub pays_from: Option<u32>,
    /// What the second setting costs more, where prices are known.
    pub costs_more: Option<Pence>,
}

/// Whether setting twice pays, with every rate at its middle. `None` where twice the formes are more than are taken.
pub fn twice(plan: &Plan) -> Option<Twice> {
    if plan.formes().saturating_mul(2) > super::MOST_FORMES {
        return None;
    }
    let rates = plan.rates.middle();
    let of = |settings: u32, copies: u32| Plan { settings, copies, places: Vec::new(), ..plan.clone() };
    let hours = |settings: u32, copies: u32| printed(&of(settings, copies), &rates);
    let pays = |copies: u32| hours(2, copies) < hours(1, copies) - 1e-9;
    let mut pays_from = None;
    if plan.working_presses() > 1 {
        // By doubling up to an edition in which it pays, and between that and the last in which it does not.
        let mut high = 2;
        while high < MOST_COPIES && !pays(high) {
            high = (high * 2).min(MOST_COPIES);
        }
        if pays(high) {
            let mut low = (high / 2).max(1);
            while high - low > 1 {
                let middle = low + (high - low) / 2;
                if pays(middle) {
                    high = middle;
                } else {
                    low = middle;
                }
            }
            pays_from = Some(high);
        }
    }
    let cost = |settings: u32| {
        let plan = of(settings, plan.copies);
        plan.prices.map(|prices| super::cost::cost(&plan, &sums(&plan, &rates), &prices).total.0)
    };
    Some(Twice {
        once: plan.day.moment(hours(1, plan.copies)),
        twice: plan.day.moment(hours(2, plan.copies)),
        pays_from,
        costs_more: cost(2).zip(cost(1)).map(|(two, one)| Pence(two - one)),
    })
}

/// What is known of an edition whose size is not.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Known {
    /// The time it took, until the last sheet was dry.
    pub time: Option<Deadline>,
    /// The reams that went into it.
    pub reams: Option<Spread>,
}

/// Editions that fit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Edition {
    /// The most copies that fit the time with every rate at its slow end, its middle, its quick end; null where no time is
    /// known.
    pub by_time: Option<[u32; 3]>,
    /// The fewest and the most copies that the paper makes; null where no paper is known.
    pub by_paper: Option<[u32; 2]>,
    /// Copies that both allow: null where both are known and contradict each other, or only one is known.
    pub by_both: Option<[u32; 2]>,
}

/// The size of edition that fits what is known. A time only sets a bound from above: a shop with other work takes longer than
/// the work.
pub fn edition(plan: &Plan, known: &Known) -> Edition {
    let rates = [plan.rates.slow(), plan.rates.middle(), plan.rates.quick()];
    let by_time = known.time.map(|time| rates.map(|r| most_copies(plan, time, &r)));
    let by_paper = known.reams.map(|reams| {
        let sheets = f64::from(plan.sheets) + f64::from(plan.half_sheets) / 2.0;
        let copies = |reams: f64| {
            let all = reams * f64::from(plan.paper.ream) / ((1.0 + plan.paper.waste) * sheets);
            // A hair above a whole number is that number.
            (all + 1e-6).clamp(0.0, f64::from(MOST_COPIES)) as u32
        };
        [copies(reams.low), copies(reams.high)]
    });
    let by_both = by_time.zip(by_paper).and_then(|([_, _, quick], [fewest, most])| {
        let most = most.min(quick);
        (fewest <= most).then_some([fewest, most])
    });
    Edition { by_time, by_paper, by_both }
}

/// The most copies that are out in time at these rates; 0 where not even one is.
pub fn most_copies(plan: &Plan, by: Deadline, rates: &Drawn) -> u32 {
    let until = by.clock(&plan.day);
    let is_in_time = |copies: u32| {
        let plan = Plan { copies, places: Vec::new(), ..plan.clone() };
        out(&plan, rates) <= until + 1e-9
    };
    let (mut low, mut high) = (0, 1);
    while high < MOST_COPIES && is_in_time(high) {
        low = high;
        high = (high * 2).min(MOST_COPIES);
    }
    if is_in_time(high) {
        return high;
    }
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        if is_in_time(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

/// The clock when a plan is out.
fn out(plan: &Plan, rates: &Drawn) -> f64 {
    let shop = Shop::new(plan);
    let mut run = Run::default();
    shop.run(rates, &mut run);
    shop.out(&run)
}

/// The hours of work until the last sheet of a plan.
fn printed(plan: &Plan, rates: &Drawn) -> f64 {
    let shop = Shop::new(plan);
    let mut run = Run::default();
    shop.run(rates, &mut run);
    run.finished
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_read() {
        assert_eq!(Deadline::parse("3 days"), Ok(Deadline::Days(3.0)));
        assert_eq!(Deadline::parse("12h"), Ok(Deadline::Hours(12.0)));
        for wrong in ["", "3", "days", "-1d", "0h", "1e9 d", "3 weeks"] {
            assert!(Deadline::parse(wrong).unwrap_err().to_string().contains("is no time"), "{wrong}");
        }
    }
}
