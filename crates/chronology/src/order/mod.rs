//! The order of the impressions, from wear alone.
//!
//! [`order`] takes a [`Table`] and gives an [`Order`]: what the table alone allows ([`Pair`]), how likely each impression is
//! to have been printed before each other, the arrangement for a picture, and what stands against every order. No year is
//! used here: so an order can be held against the years, and the years against it.
//!
//! The model is that of `wear` (errors, repairs) and `by_order` (how likely each gap is). Small tables are counted out
//! (`exact`); larger ones are drawn by chains, and then the answer says how far the chains agree.

mod arranged;
mod exact;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::by_order::ByOrder;
use crate::chains::{Draws, run};
use crate::contradictions::{Contradictions, contradictions};
use crate::convergence::Convergence;
use crate::relation::{Pair, relations};
use crate::table::Table;
use crate::wear::{Cells, Rates};

pub use arranged::{Arrangement, Odd, PlacedDamage, PlacedImpression};

/// Draws kept of each chain in the first round.
const DRAWS: usize = 1000;

/// The order of the impressions of one block.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Order {
    /// Every two impressions, by what the table alone allows.
    pub pairs: Vec<Pair>,
    /// The chance, 0 to 1, that the impression of the row was printed before that of the column, both as in the table. Two
    /// that nothing parts have one half; so has an impression with itself.
    pub before: Vec<Vec<f64>>,
    /// The impressions from left to right and the damages from top to bottom, as for a picture.
    pub arrangement: Arrangement,
    /// How often a damage that is there was not seen.
    pub missed: ErrorRate,
    /// How often a damage was seen that is not there.
    pub false_sight: ErrorRate,
    /// How the chances were found.
    pub method: OrderMethod,
    /// What no order explains.
    pub contradictions: Contradictions,
    /// What the reader should know, in sentences.
    pub warnings: Vec<String>,
    /// What was taken for likely before the table was looked at, in sentences.
    pub priors: Vec<String>,
}

/// How often cells are read wrongly, learnt from the table.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ErrorRate {
    /// The mean, 0 to 1.
    pub mean: f64,
    /// The standard deviation.
    pub sd: f64,
}

/// How chances were found.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case", tag = "by")]
pub enum OrderMethod {
    /// Every order was counted out: there is no chance in it.
    Counted,
    /// Chains of chance, which agree so far.
    Chains(Convergence),
}

/// Puts the impressions of a table in order. The same table and seed give the same answer on every machine.
///
/// Cost: 30 impressions and 60 damages take about a second of one core; impressions squared times damages.
pub fn order(table: &Table, seed: u64) -> Order {
    let damages = table.seen_damages();
    let cells = Cells::new(table, &damages);
    let (posterior, method) = if exact::is_quick(cells.impressions(), cells.damages()) {
        (exact::posterior(&cells, exact::NODES), OrderMethod::Counted)
    } else {
        let draws = run(seed, DRAWS, |number, chance| ByOrder::new(&cells, None, number, chance));
        (Posterior::of(&draws, cells.impressions()), OrderMethod::Chains(draws.convergence))
    };
    let arrangement = arranged::arrangement(table, &damages, &cells, &posterior);
    let contradictions = contradictions(table, &arrangement, &posterior.before);
    let warnings = warnings(table, &damages, &method, &contradictions);
    Order {
        pairs: relations(table),
        arrangement,
        missed: posterior.missed.told(),
        false_sight: posterior.false_sight.told(),
        before: posterior.before,
        method,
        contradictions,
        warnings,
        priors: PRIORS.map(str::to_owned).into(),
    }
}

/// What is said of the priors.
pub(crate) const PRIORS: [&str; 3] = [
    "Each rate of error: Beta(1, 19), with its mean at 0.05, from the finding and the truth of 95 breaks in 100 that are asked of a reader of blocks.",
    "One damage in a hundred is made good again, at any later impression alike (common practice, no source).",
    "Impressions and damages fall anywhere in the life of the block, evenly and each by itself, so that the gaps between impressions are of unknown lengths, Dirichlet(1, ..., 1).",
];

fn warnings(table: &Table, damages: &[usize], method: &OrderMethod, against: &Contradictions) -> Vec<String> {
    let mut out = Vec::new();
    let unseen = table.damages().len() - damages.len();
    if unseen > 0 {
        let what = if unseen == 1 { "1 damage is" } else { &format!("{unseen} damages are") };
        out.push(format!("{what} seen on no impression and left out"));
    }
    if damages.is_empty() {
        out.push("No impression shows any damage: there is no order to be found".to_owned());
    }
    if let OrderMethod::Chains(Convergence { is_reached: false, worst_r_hat, .. }) = method {
        let r_hat = worst_r_hat.map_or_else(String::new, |r| format!(" (R-hat {:.2})", r.min(99.0)));
        out.push(format!(
            "The chains that look for the order do not agree{r_hat}: several orders explain the table about as well, or it is of two blocks"
        ));
    }
    if let Some(two) = &against.two_blocks {
        let [first, second] = two.impressions.each_ref().map(|f| names(table, f));
        out.push(format!(
            "Perhaps two blocks under one name: {first} and {second} each have damage that the others lack, throughout; put them in order apart"
        ));
    }
    for repair in &against.repairs {
        out.push(format!(
            "Perhaps repaired or plugged: {} is shown by {} and lacked by {}, which are later ({:.0} percent by the order)",
            table.damages()[repair.damage].name,
            names(table, &repair.shown_by),
            names(table, &repair.lacked_by),
            100.0 * repair.order_chance
        ));
    }
    out
}

/// Impressions by their names.
fn names(table: &Table, impressions: &[usize]) -> String {
    let names: Vec<&str> = impressions.iter().map(|&i| table.name(i)).collect();
    names.join(", ")
}

/// The chances of orders.
#[derive(Debug, Clone)]
pub(crate) struct Posterior {
    /// Of the row before the column.
    pub(crate) before: Vec<Vec<f64>>,
    /// Of each impression at each place of the order, from 0.
    pub(crate) at: Vec<Vec<f64>>,
    pub(crate) missed: Sums,
    pub(crate) false_sight: Sums,
    weight: f64,
}

/// The sums of a rate and of its square, then their means.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Sums {
    pub(crate) mean: f64,
    square: f64,
}

impl Sums {
    fn add(&mut self, x: f64, weight: f64) {
        self.mean += weight * x;
        self.square += weight * x * x;
    }

    fn told(self) -> ErrorRate {
        ErrorRate { mean: self.mean, sd: (self.square - self.mean * self.mean).max(0.0).sqrt() }
    }
}

impl Posterior {
    fn empty(n: usize) -> Self {
        let none = || vec![vec![0.0; n]; n];
        Self {
            before: none(),
            at: none(),
            missed: Sums::default(),
            false_sight: Sums::default(),
            weight: 0.0,
        }
    }

    /// Adds an order with a weight.
    fn add(&mut self, order: &[usize], rates: Rates, weight: f64) {
        for (place, &a) in order.iter().enumerate() {
            self.at[a][place] += weight;
            for &b in &order[place + 1..] {
                self.before[a][b] += weight;
            }
        }
        self.missed.add(rates.missed, weight);
        self.false_sight.add(rates.false_sight, weight);
        self.weight += weight;
    }

    /// Makes chances of the sums.
    fn whole(&mut self) {
        let rates =
            [&mut self.missed, &mut self.false_sight].into_iter().flat_map(|s| [&mut s.mean, &mut s.square]);
        for sum in self.before.iter_mut().chain(&mut self.at).flatten().chain(rates) {
            *sum /= self.weight;
        }
        for (i, row) in self.before.iter_mut().enumerate() {
            row[i] = 0.5;
        }
    }

    /// Those of draws that begin with the places of the impressions and end with both rates.
    pub(crate) fn of(draws: &Draws, n: usize) -> Self {
        let mut out = Self::empty(n);
        let mut order = vec![0; n];
        let rates = draws.quantities() - 2;
        for draw in 0..draws.count() {
            for i in 0..n {
                order[draws.of(i)[draw] as usize] = i;
            }
            let rates = Rates { missed: draws.of(rates)[draw], false_sight: draws.of(rates + 1)[draw] };
            out.add(&order, rates, 1.0);
        }
        out.whole();
        out
    }
}

#[cfg(test)]
mod tests;
