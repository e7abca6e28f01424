//! The same plan in very many shops, each with rates drawn from their ranges.
//!
//! A shop keeps its rates through the whole job: what is not known is how fast this shop was, not from hour to hour. Rates are
//! drawn independently of each other; a quick compositor does not mean a quick press.

use rayon::prelude::*;
use schemars::JsonSchema;
use serde::Serialize;

use super::chance::Chance;
use super::places::leaves;
use super::questions::Deadline;
use super::shop::{Run, Shop};
use super::{Moment, Plan};

/// Shops drawn one after the other from one stream of chance: the answer does not hang on how many threads there are.
const TOGETHER: u64 = 512;
/// The most shops that are drawn.
pub const MOST_RUNS: u32 = 1_000_000;

/// Moments before which this share of shops is ready.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Quantiles {
    /// 5 percent.
    pub percent_5: Moment,
    /// 25 percent.
    pub percent_25: Moment,
    /// Half.
    pub percent_50: Moment,
    /// 75 percent.
    pub percent_75: Moment,
    /// 95 percent.
    pub percent_95: Moment,
}

/// What very many shops tell.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Many {
    /// Shops.
    pub runs: u32,
    /// The seed.
    pub seed: u64,
    /// When all copies are printed and dry.
    pub out: Quantiles,
    /// The share of shops that are out by the time asked for; null where none was.
    pub out_in_time: Option<f64>,
    /// When each place has its copies.
    pub arrivals: Vec<Quantiles>,
}

/// Draws so many shops (at least 1, at most [`MOST_RUNS`]).
pub fn many(plan: &Plan, runs: u32, seed: u64, by: Option<Deadline>) -> Many {
    let runs = runs.clamp(1, MOST_RUNS);
    let shop = Shop::new(plan);
    let kept = 1 + plan.places.len();
    let chunks = u64::from(runs).div_ceil(TOGETHER);
    let drawn: Vec<f64> = (0..chunks)
        .into_par_iter()
        .flat_map_iter(|chunk| {
            let here = (u64::from(runs) - chunk * TOGETHER).min(TOGETHER);
            some(plan, &shop, here, Chance::new(seed, chunk))
        })
        .collect();
    let column = |place: usize| {
        let mut of: Vec<f64> = drawn.iter().skip(place).step_by(kept).copied().collect();
        of.par_sort_unstable_by(f64::total_cmp);
        of
    };
    let out = column(0);
    let in_time = by.map(|by| {
        let until = by.clock(&plan.day);
        out.partition_point(|&x| x <= until + 1e-9) as f64 / f64::from(runs)
    });
    let arrivals = (1..kept).map(|place| quantiles(&column(place), &shop)).collect();
    Many { runs, seed, out: quantiles(&out, &shop), out_in_time: in_time, arrivals }
}

/// For each shop the clock when all is out, and when each place has its copies.
fn some(plan: &Plan, shop: &Shop, shops: u64, mut chance: Chance) -> Vec<f64> {
    let mut run = Run::default();
    let mut told = Vec::with_capacity(shops as usize * (1 + plan.places.len()));
    for _ in 0..shops {
        let rates = plan.rates.draw(|| chance.unit());
        shop.run(&rates, &mut run);
        told.push(shop.out(&run));
        let mut sent = 0.0;
        for place in &plan.places {
            let leaves = leaves(shop, &run, &mut sent, place);
            told.push(leaves + 24.0 * place.days.at(chance.unit()));
        }
    }
    told
}

fn quantiles(sorted: &[f64], shop: &Shop) -> Quantiles {
    let at = |share: f64| {
        let place = (share * (sorted.len() - 1) as f64).round() as usize;
        shop.day.at_clock(sorted[place])
    };
    Quantiles {
        percent_5: at(0.05),
        percent_25: at(0.25),
        percent_50: at(0.5),
        percent_75: at(0.75),
        percent_95: at(0.95),
    }
}
