//! What a table is worth under an order: the one error model that order and dates share.
//!
//! Each damage comes once, in one of the gaps of the order (before the first impression, between two, after the last), and
//! stays. A cell is then read wrongly at two rates: a damage that is there is missed, and one is seen where there is none.
//! A cell that is unclear is left out. One damage in a hundred is made good again: plugged, or the line cut afresh
//! ([`REPAIRED`]), at any of the impressions that follow its coming, the last of which leaves no trace. Without that a single
//! plugged wormhole would have to be as many errors of reading as there are impressions after it, and could turn the order.
//!
//! In which gap a damage came is summed over, never settled. How likely each gap is before the table is looked at is the
//! matter of those who ask (`order`, `dates`): it is given here as a weight for each gap.
//!
//! **The rates** are not fixed: they are learnt with everything else, from a prior that says what the house asks of whoever
//! reads blocks (DESIGN: 95 of 100 breaks found, 95 of 100 of those found true). Beta(1, 19) has its mean at 0.05, is
//! highest at none, and lies under 0.15 with 95 in 100; a table with more errors than that can still say so.

use crate::chance::Chance;
use crate::table::{Sighting, Table};

/// Chance that a damage is made good again. Common practice, no source: plugs and recutting are seen, and are rare.
pub(crate) const REPAIRED: f64 = 0.01;
/// The second number of the Beta(1, b) prior of either rate.
const PRIOR: f64 = 19.0;
/// A row is never worth less: what no order explains at all should not end a chain.
const LEAST: f64 = 1e-290;

/// How often a cell is read wrongly.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Rates {
    /// A damage that is there is not seen.
    pub(crate) missed: f64,
    /// A damage is seen that is not there.
    pub(crate) false_sight: f64,
}

impl Rates {
    /// Where chains start.
    pub(crate) const START: Self = Self { missed: 0.05, false_sight: 0.05 };

    /// Log of the prior, up to a constant.
    pub(crate) fn ln_prior(self) -> f64 {
        (PRIOR - 1.0) * (libm::log1p(-self.missed) + libm::log1p(-self.false_sight))
    }

    /// Rates at which to sum over the prior of one of them, each with its share: even steps of the root of the rate, up to
    /// one half, so that they stand closest where the prior is highest and still reach far.
    pub(crate) fn nodes(n: usize) -> Vec<(f64, f64)> {
        let step = 1.0 / n as f64;
        (0..n)
            .map(|i| {
                let root = (i as f64 + 0.5) * step;
                let rate = 0.5 * root * root;
                let density = PRIOR * libm::exp((PRIOR - 1.0) * libm::log1p(-rate));
                (rate, density * root * step)
            })
            .collect()
    }

    /// Other rates near by, and the log of what the step adds to the acceptance: steps are even on the logit.
    pub(crate) fn step(self, chance: &mut Chance) -> (Self, f64) {
        let width = 0.8;
        let mut moved = |p: f64| {
            let logit = libm::log(p / (1.0 - p)) + width * chance.normal();
            // Nearer to 0 than this no table can tell.
            (1.0 / (1.0 + libm::exp(-logit))).clamp(1e-7, 1.0 - 1e-7)
        };
        let to = Self { missed: moved(self.missed), false_sight: moved(self.false_sight) };
        let spread = |r: Self| {
            libm::log(r.missed * (1.0 - r.missed)) + libm::log(r.false_sight * (1.0 - r.false_sight))
        };
        (to, spread(to) - spread(self))
    }
}

/// The cells of the damages that are seen at all, by impression.
#[derive(Debug, Clone)]
pub(crate) struct Cells {
    /// For each impression its cells, one a damage.
    columns: Vec<Vec<Sighting>>,
    damages: usize,
}

impl Cells {
    /// Those of these damages.
    pub(crate) fn new(table: &Table, damages: &[usize]) -> Self {
        let column = |i| damages.iter().map(|&d| table.cell(d, i)).collect();
        Self { columns: (0..table.impressions().len()).map(column).collect(), damages: damages.len() }
    }

    /// Impressions.
    pub(crate) fn impressions(&self) -> usize {
        self.columns.len()
    }

    /// Damages.
    pub(crate) fn damages(&self) -> usize {
        self.damages
    }

    /// The share of the damages judged on an impression that it shows, of one more seen and one more not: a first order.
    pub(crate) fn share_present(&self, impression: usize) -> f64 {
        let count = |s| self.columns[impression].iter().filter(|&&c| c == s).count() as f64;
        let (present, absent) = (count(Sighting::Present), count(Sighting::Absent));
        (present + 1.0) / (present + absent + 2.0)
    }
}

/// The worth of a table under orders, with room to work in.
#[derive(Debug, Clone)]
pub(crate) struct Wear<'c> {
    cells: &'c Cells,
    /// For each impression and damage: the chance of the cell where the damage is not there, and where it is.
    whole: Vec<f64>,
    worn: Vec<f64>,
    room: Room,
}

/// Sums under way, one a damage each.
#[derive(Debug, Clone, Default)]
struct Room {
    /// Not come yet.
    not_yet: Vec<f64>,
    /// Come and there.
    there: Vec<f64>,
    /// Come and there, by the chance of each later impression to be the first after a repair.
    to_be_repaired: Vec<f64>,
    /// Made good.
    repaired: Vec<f64>,
}

impl<'c> Wear<'c> {
    pub(crate) fn new(cells: &'c Cells, rates: Rates) -> Self {
        let size = cells.impressions() * cells.damages();
        let mut out = Self { cells, whole: vec![1.0; size], worn: vec![1.0; size], room: Room::default() };
        out.set(rates);
        out
    }

    /// Damages.
    pub(crate) fn damages(&self) -> usize {
        self.cells.damages
    }

    /// Takes other rates.
    pub(crate) fn set(&mut self, rates: Rates) {
        let all = self.cells.columns.iter().flatten();
        for ((cell, whole), worn) in all.zip(&mut self.whole).zip(&mut self.worn) {
            (*whole, *worn) = match cell {
                Sighting::Present => (rates.false_sight, 1.0 - rates.missed),
                Sighting::Absent => (1.0 - rates.false_sight, rates.missed),
                Sighting::Unclear => (1.0, 1.0),
            };
        }
    }

    /// Log of the product over damages of the sum over gaps of the gap's weight times the chance of the row.
    ///
    /// `order` holds every impression once, the earliest first; `weights` one more. Cost: impressions times damages.
    pub(crate) fn ln_worth(&mut self, order: &[usize], weights: &[f64]) -> f64 {
        let (n, m) = (order.len(), self.cells.damages);
        let Room { not_yet, there, to_be_repaired, repaired } = &mut self.room;
        for (sums, start) in [(&mut *not_yet, 1.0), (there, 0.0), (to_be_repaired, 0.0), (repaired, 0.0)] {
            sums.clear();
            sums.resize(m, start);
        }
        let Room { not_yet, there, to_be_repaired, repaired } = &mut self.room;
        for (gap, &i) in order.iter().enumerate() {
            let (weight, shared) = (weights[gap], weights[gap] / (n - gap) as f64);
            let (whole, worn) = (&self.whole[i * m..][..m], &self.worn[i * m..][..m]);
            let sums = not_yet
                .iter_mut()
                .zip(there.iter_mut())
                .zip(to_be_repaired.iter_mut().zip(repaired.iter_mut()));
            for (((not_yet, there), (to_be, repaired)), (whole, worn)) in sums.zip(whole.iter().zip(worn)) {
                *repaired = (*repaired + *to_be) * whole;
                *there = (*there + weight * *not_yet) * worn;
                *to_be = (*to_be + shared * *not_yet) * worn;
                *not_yet *= whole;
            }
        }
        let (mut sum, mut product) = (0.0, 1.0);
        for d in 0..m {
            let after = weights[n] * not_yet[d];
            let row =
                (1.0 - REPAIRED) * (there[d] + after) + REPAIRED * (repaired[d] + to_be_repaired[d] + after);
            // One logarithm for many rows: they cost more than all the rest.
            product *= row.max(LEAST);
            if !(1e-15..1e15).contains(&product) {
                sum += libm::log(product);
                product = 1.0;
            }
        }
        sum + libm::log(product)
    }

    /// The chance of a damage's row for each gap it can have come in, and the part of it that is owed to a repair that
    /// shows. Cost: the impressions.
    pub(crate) fn by_gap(&self, damage: usize, order: &[usize], row: &mut Vec<f64>, repaired: &mut Vec<f64>) {
        let (n, m) = (order.len(), self.cells.damages);
        row.clear();
        row.resize(n + 1, 0.0);
        repaired.clear();
        repaired.resize(n + 1, 0.0);
        // From the last impression backwards: the rest of the row all worn, all whole, and worn until some repair.
        let (mut worn_rest, mut whole_rest, mut mended) = (1.0, 1.0, 1.0);
        row[n] = 1.0;
        for gap in (0..n).rev() {
            let at = order[gap] * m + damage;
            let after = mended * self.worn[at] / (n - gap) as f64;
            worn_rest *= self.worn[at];
            let shown = after - worn_rest / (n - gap) as f64;
            row[gap] = (1.0 - REPAIRED) * worn_rest + REPAIRED * after;
            repaired[gap] = REPAIRED * shown.max(0.0);
            whole_rest *= self.whole[at];
            mended = self.worn[at] * mended + whole_rest;
        }
        let mut before = 1.0;
        for gap in 0..=n {
            row[gap] = row[gap] * before + f64::MIN_POSITIVE;
            repaired[gap] *= before;
            if gap < n {
                before *= self.whole[order[gap] * m + damage];
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::table::tests::table;

    /// The slow, plain way: every gap and every repair, cell by cell.
    fn plainly(row: &str, order: &[usize], weights: &[f64], rates: Rates) -> f64 {
        let cells: Vec<char> = row.chars().collect();
        let n = order.len();
        let chance = |is_there: &dyn Fn(usize) -> bool| -> f64 {
            order
                .iter()
                .enumerate()
                .map(|(at, &i)| match (cells[i], is_there(at)) {
                    ('1', true) => 1.0 - rates.missed,
                    ('1', false) => rates.false_sight,
                    ('0', true) => rates.missed,
                    ('0', false) => 1.0 - rates.false_sight,
                    _ => 1.0,
                })
                .product()
        };
        let mut sum = 0.0;
        for (gap, weight) in weights.iter().enumerate() {
            let stays = chance(&|at| at >= gap);
            let repairs = if gap == n {
                stays
            } else {
                (gap + 1..=n).map(|end| chance(&|at| at >= gap && at < end)).sum::<f64>() / (n - gap) as f64
            };
            sum += weight * ((1.0 - REPAIRED) * stays + REPAIRED * repairs);
        }
        libm::log(sum)
    }

    #[test]
    fn the_running_sums_are_the_plain_sum_over_gaps_and_repairs() {
        let rates = Rates { missed: 0.08, false_sight: 0.03 };
        let rows = ["01101", "00?11", "11100", "1?0?1", "01011"];
        let (order, weights) = ([3, 0, 4, 1, 2], [0.1, 0.4, 0.05, 0.2, 0.15, 0.1]);
        let cells = Cells::new(&table(&rows), &[0, 1, 2, 3, 4]);
        let mut wear = Wear::new(&cells, rates);
        let wanted: f64 = rows.iter().map(|row| plainly(row, &order, &weights, rates)).sum();
        assert!((wear.ln_worth(&order, &weights) - wanted).abs() < 1e-12);
        let (mut by_gap, mut repaired) = (Vec::new(), Vec::new());
        for (d, row) in rows.iter().enumerate() {
            wear.by_gap(d, &order, &mut by_gap, &mut repaired);
            let sum: f64 = by_gap.iter().zip(weights).map(|(l, w)| l * w).sum();
            assert!((libm::log(sum) - plainly(row, &order, &weights, rates)).abs() < 1e-12);
            assert!(by_gap.iter().zip(&repaired).all(|(all, part)| part <= all));
        }
    }

    #[test]
    fn a_plugged_hole_is_rather_a_repair_than_four_errors() {
        let table = table(&["0111100000"]);
        let cells = Cells::new(&table, &[0]);
        let wear = Wear::new(&cells, Rates::START);
        let (mut row, mut repaired) = (Vec::new(), Vec::new());
        let order: Vec<usize> = (0..10).collect();
        wear.by_gap(0, &order, &mut row, &mut repaired);
        assert!(repaired.iter().sum::<f64>() > 0.9 * row.iter().sum::<f64>());
    }

    #[test]
    fn the_nodes_of_the_prior_have_its_moments() {
        let sum =
            |power: i32| Rates::nodes(10).iter().map(|(rate, share)| share * rate.powi(power)).sum::<f64>();
        assert!((sum(0) - 1.0).abs() < 0.01 && (sum(1) - 1.0 / (1.0 + PRIOR)).abs() < 5e-4);
    }
}
