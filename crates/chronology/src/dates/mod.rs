//! Years for undated impressions: by the order alone, and by the rate at which damage grew.
//!
//! [`dates`] always gives both, because scholars do not agree about the second: three books are behind the finding that
//! damage grows evenly with time (Hedges, *Proc. R. Soc. A* 462, 2006), and how a block was scrubbed, kept and used matters as
//! well (Belanger 2006). Whoever does not believe in a rate has bounds from the dated neighbours and a distribution that knows
//! no more than the order (`by_order`). Whoever does has the rate of this block, learnt from its own dated sheets
//! (`by_rate`); its doubt, bursts included, is in the intervals. The plain straight line (`line`) stands beside for comparison.
//!
//! **Years as points of time.** The year 1590 is anywhere between 1589.5 and 1590.5, so that it is 1590.0 in the middle, and
//! two sheets of one year stand in no order. A side that nothing is known of reaches [`DatesOptions::beyond_years`] past the
//! outermost year known: an even prior needs an end, and with one dated sheet, or none on one side, the answer rests on where
//! it is put; such answers say so ([`YearTold::rests_on_window`]).

mod bounds;
mod checks;
mod plain;
mod warnings;
mod windows;

use rayon::prelude::*;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::by_order::{ByOrder, Known};
use crate::by_rate::{ByRate, Priors, at};
use crate::chains::{Draws, run};
use crate::convergence::Convergence;
use crate::order::{Order, PRIORS};
use crate::quantile::{quantile, sorted};
use crate::table::Table;
use crate::wear::Cells;

pub use bounds::{Bound, Bounds};
pub use checks::{Checks, HeldOut};
pub use plain::PlainLine;
pub use warnings::DateWarning;

use windows::Windows;

/// Draws kept of each chain in the first round: ends of 95 percent intervals want more than chances do.
const DRAWS: usize = 1500;
/// The same for a dated sheet that is held out, of which only the interval is told.
const DRAWS_HELD_OUT: usize = 750;

/// What is asked beside the table.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct DatesOptions {
    /// Seed of the chains.
    pub seed: u64,
    /// How many years past the outermost known year an impression may lie of which nothing is known on that side. A hundred
    /// unless said otherwise: blocks were printed from for a century and more (common practice, no source). From 1 to 1000.
    pub beyond_years: f64,
    /// How many dated impressions are in turn taken for undated and compared with their year; each costs a run of the
    /// chains. The first so many, in the order of the table.
    pub hold_out: usize,
}

impl Default for DatesOptions {
    fn default() -> Self {
        Self { seed: 1, beyond_years: 100.0, hold_out: 12 }
    }
}

/// The years of the impressions of one block.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Dates {
    /// Every impression whose year is not known exactly, in the order of the table.
    pub impressions: Vec<ImpressionDate>,
    /// How far the chains of the order-only answer agree; null where there is none, for no impression is dated.
    pub by_order: Option<Convergence>,
    /// The rate of damage, or why there is none.
    pub rate: RateTold,
    /// How the model fares against the table and the dated sheets; null without a rate.
    pub checks: Option<Checks>,
    /// What the reader should know.
    pub warnings: Vec<DateWarning>,
    /// What was taken for likely before the table was looked at, in sentences.
    pub priors: Vec<String>,
}

/// The year of one impression.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ImpressionDate {
    /// Its number in the table, from 0.
    pub impression: usize,
    /// The dated impressions between which the order puts it.
    pub bounds: Bounds,
    /// By the order and the dated neighbours alone. Null where no impression is dated.
    pub by_order: Option<YearTold>,
    /// By the rate as well. Null where there is no rate.
    pub with_rate: Option<YearTold>,
    /// By the plain straight line, for comparison. Null of fewer than three exactly dated sheets.
    pub plain_line: Option<PlainLine>,
}

/// What is told of a year. Years are points of time: 1590.0 is the middle of 1590.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct YearTold {
    /// As likely earlier as later.
    pub median_year: f64,
    /// Between these with 50 percent.
    pub interval_50_year: [f64; 2],
    /// Between these with 95 percent.
    pub interval_95_year: [f64; 2],
    /// For a drawing: the years below which it lies with 0, 1/40, 2/40 ... 1.
    pub quantiles_year: Vec<f64>,
    /// How likely it is earlier than the first dated impression or later than the last, 0 to 1: beyond them nothing holds the
    /// rate.
    pub beyond_dated: f64,
    /// Whether an end of the 95 percent interval is within a tenth of an assumed end ([`DatesOptions::beyond_years`]), so that
    /// another assumption would give another answer.
    pub rests_on_window: bool,
}

/// The rate at which damage grew.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case", tag = "is")]
pub enum RateTold {
    /// It was learnt.
    Found {
        /// Damages a year: the median.
        per_year: f64,
        /// Between these with 95 percent.
        interval_95_per_year: [f64; 2],
        /// How bursty: counts of a stretch of time vary by 1 + burst times their mean; the median.
        burst: f64,
        /// Between these with 95 percent.
        interval_95_burst: [f64; 2],
        /// Dated impressions that it rests on.
        dated: usize,
        /// How far the chains agree.
        convergence: Convergence,
    },
    /// The dated impressions do not allow one.
    None {
        /// Dated impressions there are.
        dated: usize,
        /// Why there is no rate, in a sentence.
        reason: String,
    },
}

/// Gives years to the impressions of a table whose order is known. The same table, order and options give the same answer on
/// every machine.
pub fn dates(table: &Table, order: &Order, options: &DatesOptions) -> Dates {
    let windows = Windows::of(table, options.beyond_years);
    let damages = table.seen_damages();
    let cells = Cells::new(table, &damages);
    let n = table.impressions().len();
    let by_order = (windows.dated.len() + windows.half_dated > 0 && !damages.is_empty()).then(|| {
        run(options.seed, DRAWS, |number, chance| ByOrder::new(&cells, Some(windows.known()), number, chance))
    });
    let reason = windows.no_rate(damages.len());
    let with_rate = reason.is_none().then(|| by_rate(&cells, windows.known(), options.seed, DRAWS));
    let asked = (0..n).filter(|&i| !windows.is_exact(i));
    let impressions: Vec<ImpressionDate> = asked
        .map(|i| ImpressionDate {
            impression: i,
            bounds: bounds::bounds(table, order, i),
            by_order: by_order.as_ref().and_then(|draws| windows.told(i, draws.of(n + i))),
            with_rate: with_rate.as_ref().and_then(|draws| windows.told(i, draws.of(n + i))),
            plain_line: plain::plain(table, i),
        })
        .collect();
    let rate = match (&with_rate, reason) {
        (Some(draws), _) => rate(draws, n, windows.dated.len()),
        (None, reason) => RateTold::None { dated: windows.dated.len(), reason: reason.unwrap_or_default() },
    };
    let checks =
        with_rate.as_ref().map(|draws| checks::checks(draws, n, held_out(&cells, &windows, options)));
    let by_order = by_order.map(|draws| draws.convergence);
    let warnings =
        warnings::warnings(table, order, &windows, &impressions, by_order.as_ref(), &rate, checks.as_ref());
    Dates { impressions, by_order, rate, checks, warnings, priors: priors(options) }
}

fn by_rate(cells: &Cells, known: Known<'_>, seed: u64, draws: usize) -> Draws {
    run(seed, draws, |number, chance| ByRate::new(cells, known, Priors::HOUSE, number, chance))
}

/// Takes dated impressions for undated, one at a time.
fn held_out(cells: &Cells, windows: &Windows, options: &DatesOptions) -> Vec<HeldOut> {
    let held: Vec<usize> = windows.dated.iter().copied().take(options.hold_out).collect();
    held.into_par_iter()
        .filter_map(|i| {
            let without = windows.without(i)?;
            let draws = by_rate(cells, without.known(), options.seed, DRAWS_HELD_OUT);
            HeldOut::of(
                i,
                windows.of[i],
                &without.told(i, draws.of(cells.impressions() + i))?,
                draws.of(cells.impressions() + i),
            )
        })
        .collect()
}

fn rate(draws: &Draws, n: usize, dated: usize) -> RateTold {
    let of = |what: usize| {
        let all = sorted(draws.of(2 * n + what).iter().copied());
        let at = |share| quantile(&all, share).unwrap_or_default();
        (at(0.5), [at(0.025), at(0.975)])
    };
    let ((per_year, interval_95_per_year), (burst, interval_95_burst)) = (of(at::RATE), of(at::BURST));
    let convergence = draws.convergence;
    RateTold::Found { per_year, interval_95_per_year, burst, interval_95_burst, dated, convergence }
}

fn priors(options: &DatesOptions) -> Vec<String> {
    let own = [
        "Rate: Gamma(1/2, 0.1 years), from 0.005 to 25 damages a year with 95 percent.".to_owned(),
        "Burst: 1 / (1 + burst) even in 0..1, the share of the variance of a count that is no burst."
            .to_owned(),
        format!(
            "Years: even within a life in print of unknown beginning and length (1 / length), sheets dated alike as one edition, and within what is known of them; where nothing is known on one side, up to {} years past the outermost known year.",
            options.beyond_years
        ),
        "Damages by the first impression: free, as the year of cutting is not known.".to_owned(),
    ];
    PRIORS[..2].iter().map(|&p| p.to_owned()).chain(own).collect()
}

#[cfg(test)]
mod tests;
