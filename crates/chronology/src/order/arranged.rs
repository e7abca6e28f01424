//! The order as a picture wants it: impressions from left to right, damages from top to bottom.
//!
//! Impressions stand by their mean place over all orders, which is the arrangement nearest to all of them in the sum of
//! squares. Where each damage came is told given that arrangement and the mean rates of error, with the lengths of the gaps
//! found from the rows themselves (expectation and maximisation: Dempster, Laird & Rubin, *J. R. Stat. Soc. B* 39, 1977).

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Posterior;
use crate::table::{Sighting, Table};
use crate::wear::{Cells, Rates, Wear};

/// Two impressions are of one rank unless one of them is the earlier at odds of two to one: less is no order to be shown. It
/// is a choice of words, not a measurement; every chance is in `Order::before`.
const IN_ORDER: f64 = 2.0 / 3.0;
/// Steps of expectation and maximisation; after thirty the shares stand still to four digits (they are sums of whole rows).
const STEPS: usize = 50;

/// Impressions and damages in the order in which they are drawn.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Arrangement {
    /// From the earliest.
    pub impressions: Vec<PlacedImpression>,
    /// From the first that came.
    pub damages: Vec<PlacedDamage>,
}

/// An impression in its place.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PlacedImpression {
    /// Its number in the table, from 0.
    pub impression: usize,
    /// Its rank, from 1. Impressions that nothing parts, or not at odds of two to one, are of one rank.
    pub rank: usize,
    /// The mean of its place over all orders, from 1.
    pub mean_place: f64,
    /// The places between which it lies with 95 percent, from 1.
    pub interval_95_place: [usize; 2],
}

/// A damage in its place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PlacedDamage {
    /// Its number in the table, from 0.
    pub damage: usize,
    /// How many impressions of the arrangement were most likely printed before it came: 0 if it was there from the first,
    /// as many as there are if it is on none and what was seen is an error.
    pub came_after: usize,
    /// How likely it came just there, 0 to 1, given the arrangement.
    pub chance: f64,
    /// The mean over all places in which it can have come.
    pub mean_came_after: f64,
    /// How likely it was made good again, so that later impressions lack it, 0 to 1, given the arrangement.
    pub repaired: f64,
    /// Where that is likelier than not: how many impressions of the arrangement were printed before it was made good.
    pub gone_after: Option<usize>,
    /// Cells that stand against it.
    pub odd: Vec<Odd>,
}

/// A cell that stands against the arrangement.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Odd {
    /// The impression's number in the table, from 0.
    pub impression: usize,
    /// What was seen; the other is likelier.
    pub seen: Sighting,
}

pub(super) fn arrangement(
    table: &Table,
    damages: &[usize],
    cells: &Cells,
    posterior: &Posterior,
) -> Arrangement {
    let impressions = impressions(posterior);
    let order: Vec<usize> = impressions.iter().map(|p| p.impression).collect();
    let rates = Rates { missed: posterior.missed.mean, false_sight: posterior.false_sight.mean };
    let wear = Wear::new(cells, rates);
    let (mut row, mut repaired) = (Vec::new(), Vec::new());
    let by_gap: Vec<(Vec<f64>, Vec<f64>)> = (0..cells.damages())
        .map(|d| {
            wear.by_gap(d, &order, &mut row, &mut repaired);
            (row.clone(), repaired.clone())
        })
        .collect();
    let gaps = gaps(&by_gap, order.len() + 1);
    let placed = |(&damage, (row, repaired)): (&usize, &(Vec<f64>, Vec<f64>))| {
        place(table, damage, &order, &shares(row, &gaps), row, repaired)
    };
    let mut damages: Vec<PlacedDamage> = damages.iter().zip(&by_gap).map(placed).collect();
    damages.sort_by(|a, b| {
        (a.came_after.cmp(&b.came_after))
            .then(a.mean_came_after.total_cmp(&b.mean_came_after))
            .then(a.damage.cmp(&b.damage))
    });
    Arrangement { impressions, damages }
}

fn impressions(posterior: &Posterior) -> Vec<PlacedImpression> {
    let n = posterior.at.len();
    let mean = |i: usize| posterior.at[i].iter().enumerate().map(|(place, p)| (place + 1) as f64 * p).sum();
    let mut by_place: Vec<(f64, usize)> = (0..n).map(|i| (mean(i), i)).collect();
    // Those that nothing parts keep the order of the table, though chains have not quite the same mean for them.
    by_place.sort_by(|a, b| (a.0 * 50.0).round().total_cmp(&(b.0 * 50.0).round()).then(a.1.cmp(&b.1)));
    let mut rank_from = 0;
    let mut rank = 1;
    let mut out = Vec::new();
    for (place, &(mean_place, impression)) in by_place.iter().enumerate() {
        let of_rank = &by_place[rank_from..place];
        if of_rank.iter().any(|&(_, other)| posterior.before[other][impression] >= IN_ORDER) {
            rank += 1;
            rank_from = place;
        }
        let until = |share: f64| {
            let mut sum = 0.0;
            let reached = posterior.at[impression].iter().position(|p| {
                sum += p;
                sum >= share
            });
            reached.map_or(n, |place| place + 1)
        };
        let interval_95_place = [until(0.025), until(0.975)];
        out.push(PlacedImpression { impression, rank, mean_place, interval_95_place });
    }
    out
}

/// The chance of each gap of one damage.
fn shares(row: &[f64], gaps: &[f64]) -> Vec<f64> {
    let sum: f64 = row.iter().zip(gaps).map(|(l, w)| l * w).sum();
    row.iter().zip(gaps).map(|(l, w)| l * w / sum).collect()
}

/// The lengths of the gaps that the rows speak for, with one damage in each before they are looked at.
fn gaps(by_gap: &[(Vec<f64>, Vec<f64>)], count: usize) -> Vec<f64> {
    let mut gaps = vec![1.0 / count as f64; count];
    for _ in 0..STEPS {
        let mut sums = vec![1.0; count];
        for (row, _) in by_gap {
            for (sum, share) in sums.iter_mut().zip(shares(row, &gaps)) {
                *sum += share;
            }
        }
        let all: f64 = sums.iter().sum();
        gaps = sums.iter().map(|s| s / all).collect();
    }
    gaps
}

fn place(
    table: &Table,
    damage: usize,
    order: &[usize],
    shares: &[f64],
    row: &[f64],
    repaired: &[f64],
) -> PlacedDamage {
    let best = |list: &[f64]| {
        let better = |best: usize, at: usize| if list[at] > list[best] { at } else { best };
        (0..list.len()).fold(0, better)
    };
    let is_mended: f64 =
        shares.iter().zip(row.iter().zip(repaired)).map(|(s, (all, part))| s * part / all).sum();
    let mean_came_after = shares.iter().enumerate().map(|(gap, s)| gap as f64 * s).sum();
    let seen = |at: usize| table.cell(damage, order[at]);
    let mut came_after = best(shares);
    let mut gone_after = None;
    if is_mended > 0.5 {
        let mended: Vec<f64> =
            shares.iter().zip(row.iter().zip(repaired)).map(|(s, (all, part))| s * part / all).collect();
        came_after = best(&mended);
        // The end that leaves the fewest cells against it; of ends alike the first.
        let against = |end: usize| {
            let is_there = |at: usize| at < end;
            (came_after..order.len())
                .filter(|&at| seen(at) == if is_there(at) { Sighting::Absent } else { Sighting::Present })
                .count()
        };
        gone_after = (came_after + 1..order.len()).min_by_key(|&end| against(end));
    }
    let is_there = |at: usize| at >= came_after && gone_after.is_none_or(|end| at < end);
    let odd = (0..order.len())
        .filter(|&at| seen(at) == if is_there(at) { Sighting::Absent } else { Sighting::Present });
    let odd = odd.map(|at| Odd { impression: order[at], seen: seen(at) }).collect();
    PlacedDamage {
        damage,
        came_after,
        chance: shares[came_after],
        mean_came_after,
        repaired: is_mended,
        gone_after,
        odd,
    }
}
