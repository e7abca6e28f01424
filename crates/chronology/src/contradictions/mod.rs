//! What no order explains: the fewest cells that would have to be otherwise, damages made good, and two blocks under one name.

mod cells;
mod two_blocks;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::order::{Arrangement, Odd};
use crate::table::{Sighting, Table};

pub use two_blocks::TwoBlocks;

/// What stands against every order of a table.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Contradictions {
    /// The fewest cells found that would have to be otherwise for some order to explain the whole table; empty where an order
    /// explains it as it is.
    pub cells: Vec<OddCell>,
    /// No fewer can do: proven. Where it equals the number of `cells`, these are a smallest set (there may be others as small).
    pub fewest_possible: usize,
    /// Damages that were perhaps made good: plugged, or the line cut afresh.
    pub repairs: Vec<PerhapsRepaired>,
    /// Said when the table rather is of two blocks.
    pub two_blocks: Option<TwoBlocks>,
}

/// A cell that would have to be otherwise.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct OddCell {
    /// The damage, counted from 0.
    pub damage: usize,
    /// The impression, counted from 0.
    pub impression: usize,
    /// What was seen.
    pub seen: Sighting,
}

/// A damage that early impressions show and later ones lack.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PerhapsRepaired {
    /// The damage, counted from 0.
    pub damage: usize,
    /// How likely it was made good, 0 to 1, given the arrangement. Errors of reading are the other explanation.
    pub chance: f64,
    /// Impressions that show it, the earliest first.
    pub shown_by: Vec<usize>,
    /// Later impressions that lack it, the earliest first.
    pub lacked_by: Vec<usize>,
    /// How likely it is that every one of those that show it came before every one of those that lack it: the smallest chance
    /// of a pair. The order is well supported where this is high.
    pub order_chance: f64,
}

/// A repair is named from here on: less is more likely an error of reading.
const NAMED: f64 = 0.5;

/// Looks for all of it.
pub(crate) fn contradictions(
    table: &Table,
    arrangement: &Arrangement,
    before: &[Vec<f64>],
) -> Contradictions {
    let order: Vec<usize> = arrangement.impressions.iter().map(|p| p.impression).collect();
    let found = cells::fewest(table, &order);
    let repairs = arrangement.damages.iter().filter(|d| d.repaired > NAMED);
    let repairs = repairs.filter_map(|d| {
        let gone = d.gone_after?;
        let is_odd = |i: usize| d.odd.iter().any(|odd: &Odd| odd.impression == i);
        let of = |from: usize, to: usize, wanted: Sighting| -> Vec<usize> {
            let those = order[from..to].iter().copied();
            those.filter(|&i| !is_odd(i) && table.cell(d.damage, i) == wanted).collect()
        };
        let shown_by = of(d.came_after, gone, Sighting::Present);
        let lacked_by = of(gone, order.len(), Sighting::Absent);
        let pairs = shown_by.iter().flat_map(|&a| lacked_by.iter().map(move |&b| before[a][b]));
        let order_chance = pairs.fold(1.0, f64::min);
        let is_shown = !shown_by.is_empty() && !lacked_by.is_empty();
        is_shown.then_some(PerhapsRepaired {
            damage: d.damage,
            chance: d.repaired,
            shown_by,
            lacked_by,
            order_chance,
        })
    });
    let repairs = repairs.collect();
    let two_blocks = two_blocks::two_blocks(table, found.cells.len());
    Contradictions { cells: found.cells, fewest_possible: found.fewest_possible, repairs, two_blocks }
}
