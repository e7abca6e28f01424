//! Two blocks under one name: a table that falls into two families which contradict each other throughout.
//!
//! A copy of a block has none of the damage of the block it was cut after, and damage of its own (common connoisseurship). So
//! the impressions part into two families, each with its own damages that the other lacks. Both explanations are priced in the
//! cells that they leave unexplained, at [`CELL`] each; that there are two blocks costs besides a choice of one of two for every
//! impression and every damage (the length of the description: Rissanen, *Automatica* 14, 1978).

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::cells::lifted;
use crate::relation::{Relation, relations};
use crate::table::{Sighting, Table};

/// What a cell read wrongly costs against one read rightly, in natural logs: ln(0.95 / 0.05), the rates of `wear`.
const CELL: f64 = 2.944;
/// What one of two costs.
const CHOICE: f64 = std::f64::consts::LN_2;
/// Damages that each family must have of its own: a single one may be anything.
const OWN: usize = 2;
/// Rounds in which impressions go to the family that explains them better.
const ROUNDS: usize = 20;

/// Two families that contradict each other.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TwoBlocks {
    /// The impressions of each.
    pub impressions: [Vec<usize>; 2],
    /// The damages that only each has.
    pub damages: [Vec<usize>; 2],
    /// How much better two blocks explain the table than one, as a log10 of a ratio of likelihoods.
    pub weight_log10: f64,
    /// Share of the pairs of one impression of each that contradict each other, 0 to 1.
    pub contradicted: f64,
    /// Cells that even two blocks leave unexplained.
    pub cells_left: usize,
}

/// Looks for two families; `cells_of_one` is how many cells one block leaves unexplained.
pub(super) fn two_blocks(table: &Table, cells_of_one: usize) -> Option<TwoBlocks> {
    let n = table.impressions().len();
    let choices = CHOICE * (n + table.damages().len()) as f64;
    if (cells_of_one as f64) * CELL <= choices {
        return None;
    }
    let pairs = relations(table);
    // The two that contradict each other most begin the families.
    let strength = |p: &crate::Pair| p.only_first.len().min(p.only_second.len());
    let seeds = pairs.iter().max_by_key(|p| (strength(p), std::cmp::Reverse((p.first, p.second))))?;
    let against = |i: usize, seed: usize| {
        let is_pair = |p: &&crate::Pair| (p.first, p.second) == (i.min(seed), i.max(seed));
        pairs.iter().find(is_pair).map_or(0, strength)
    };
    let is_second = |i: usize| {
        i != seeds.first && (i == seeds.second || against(i, seeds.first) > against(i, seeds.second))
    };
    let mut family: Vec<bool> = (0..n).map(is_second).collect();
    let mut best = left_over(table, &family);
    for _ in 0..ROUNDS {
        let mut is_better = false;
        for i in 0..n {
            family[i] = !family[i];
            let left = left_over(table, &family);
            if left < best {
                (best, is_better) = (left, true);
            } else {
                family[i] = !family[i];
            }
        }
        if !is_better {
            break;
        }
    }
    let gain = (cells_of_one as f64 - best as f64) * CELL - choices;
    let of = |second: bool| -> Vec<usize> { (0..n).filter(|&i| family[i] == second).collect() };
    let impressions = [of(false), of(true)];
    let owned = |second: bool| {
        (0..table.damages().len()).filter(|&d| owner(table, d, &family) == Some(second)).collect::<Vec<_>>()
    };
    let damages = [owned(false), owned(true)];
    let across: Vec<_> = pairs.iter().filter(|p| family[p.first] != family[p.second]).collect();
    let contradict = across.iter().filter(|p| p.relation == Relation::Contradicted).count();
    let is_two =
        gain > 0.0 && impressions.iter().all(|f| !f.is_empty()) && damages.iter().all(|d| d.len() >= OWN);
    is_two.then(|| TwoBlocks {
        impressions,
        damages,
        weight_log10: gain / std::f64::consts::LN_10,
        contradicted: contradict as f64 / across.len().max(1) as f64,
        cells_left: best,
    })
}

/// In which family a damage is seen more, by the share of its judged impressions; `None` where it is seen in neither.
fn owner(table: &Table, damage: usize, family: &[bool]) -> Option<bool> {
    let count = |second: bool| {
        let cells = table.damages()[damage].seen.iter().zip(family);
        cells.filter(|&(&c, &f)| f == second && c == Sighting::Present).count()
    };
    let (first, second) = (count(false), count(true));
    (first + second > 0).then_some(second > first)
}

/// Cells that two blocks leave unexplained: each damage on one of them alone, each block in its best order.
fn left_over(table: &Table, family: &[bool]) -> usize {
    let mut left = 0;
    for second in [false, true] {
        let own: Vec<usize> = (0..family.len()).filter(|&i| family[i] == second).collect();
        let mut rows: Vec<Vec<Sighting>> = Vec::new();
        for d in 0..table.damages().len() {
            let cells: Vec<Sighting> = own.iter().map(|&i| table.cell(d, i)).collect();
            if owner(table, d, family) == Some(second) {
                rows.push(cells);
            } else {
                left += cells.iter().filter(|&&c| c == Sighting::Present).count();
            }
        }
        let rows: Vec<&[Sighting]> = rows.iter().map(Vec::as_slice).collect();
        let mut order: Vec<usize> = (0..own.len()).collect();
        let shown = |i: usize| rows.iter().filter(|r| r[i] == Sighting::Present).count();
        order.sort_by_key(|&i| shown(i));
        let order = lifted(&rows, order);
        left += super::cells::cost(&rows, &order);
    }
    left
}

/// Cells that one block leaves unexplained, from the order of how much each impression shows.
#[cfg(test)]
fn of_one(table: &Table) -> usize {
    let order: Vec<usize> = (0..table.impressions().len()).collect();
    super::cells::fewest(table, &order).cells.len()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::table::tests::table;

    #[test]
    fn two_blocks_under_one_name_are_parted() {
        // Impressions 0 to 3 of the one, 4 to 7 of the other, each in order.
        let rows = [
            "11110000", "01110000", "01110000", "00110000", "00110000", "00010000", "11110000", "00110000",
            "00000111", "00000111", "00001111", "00000011", "00000001", "00001111", "00000011", "00000111",
        ];
        let table = table(&rows);
        let told = two_blocks(&table, of_one(&table)).unwrap();
        let mut families = told.impressions.clone();
        families.sort();
        assert_eq!(families, [vec![0, 1, 2, 3], vec![4, 5, 6, 7]]);
        assert_eq!(told.cells_left, 0);
        assert!(told.contradicted > 0.9 && told.weight_log10 > 1.0);
    }

    #[test]
    fn one_block_with_some_errors_is_not_parted() {
        let rows =
            ["01111111", "00111101", "00011111", "10001111", "00000111", "00100011", "00000001", "00111111"];
        let table = table(&rows);
        assert_eq!(two_blocks(&table, of_one(&table)), None);
    }
}
