//! The fewest cells that would have to be otherwise.
//!
//! To make a table of zeros and ones a staircase with the fewest changes is hard in general (it is the editing of a bipartite
//! graph to a chain graph: Yannakakis, *SIAM J. Algebr. Discrete Methods* 2, 1981). So it is searched: from the arrangement, by
//! lifting impressions to better places, then by trying orders from the front and leaving a beginning as soon as it must cost
//! as much as the best that is known (branch and bound), up to a number of steps. What was found is compared with what any
//! order must cost: two damages and two impressions that contradict each other need a change among their four cells, so as
//! many such squares as share no cell need as many changes.

use super::OddCell;
use crate::table::{Sighting, Table};

/// Beginnings tried: about a tenth of a second for sixty damages.
const STEPS: usize = 60_000;

/// The fewest found.
#[derive(Debug, PartialEq)]
pub(super) struct Fewest {
    pub(super) cells: Vec<OddCell>,
    pub(super) fewest_possible: usize,
}

/// Looks for the fewest, beginning with this order.
pub(super) fn fewest(table: &Table, order: &[usize]) -> Fewest {
    let rows: Vec<&[Sighting]> = table.damages().iter().map(|d| d.seen.as_slice()).collect();
    let order = lifted(&rows, order.to_vec());
    let squares = squares_apart(&rows);
    let mut search = Search { rows: &rows, best: cost(&rows, &order), order, steps: 0, least: squares };
    search.try_orders();
    let is_proven = search.steps < STEPS;
    let cells = odd(&rows, &search.order);
    let fewest_possible = if is_proven { cells.len() } else { squares };
    Fewest { cells, fewest_possible }
}

/// Where a row costs least in an order: the gap, and how many cells stand against it.
fn best_gap(row: &[Sighting], order: &[usize]) -> (usize, usize) {
    // All worn, then each impression in turn taken for whole.
    let mut against = order.iter().filter(|&&i| row[i] == Sighting::Absent).count();
    let mut best = (0, against);
    for (at, &i) in order.iter().enumerate() {
        match row[i] {
            Sighting::Present => against += 1,
            Sighting::Absent => against -= 1,
            Sighting::Unclear => {}
        }
        if against < best.1 {
            best = (at + 1, against);
        }
    }
    best
}

pub(super) fn cost(rows: &[&[Sighting]], order: &[usize]) -> usize {
    rows.iter().map(|row| best_gap(row, order).1).sum()
}

/// Lifts impressions to better places until none gets better.
pub(super) fn lifted(rows: &[&[Sighting]], mut order: Vec<usize>) -> Vec<usize> {
    let mut best = cost(rows, &order);
    let mut is_better = best > 0;
    while is_better {
        is_better = false;
        for from in 0..order.len() {
            for to in 0..order.len() {
                let mut tried = order.clone();
                let i = tried.remove(from);
                tried.insert(to, i);
                let costs = cost(rows, &tried);
                if costs < best {
                    (best, order, is_better) = (costs, tried, true);
                }
            }
        }
    }
    order
}

/// The cells that stand against an order.
fn odd(rows: &[&[Sighting]], order: &[usize]) -> Vec<OddCell> {
    let mut out = Vec::new();
    for (damage, row) in rows.iter().enumerate() {
        let (gap, _) = best_gap(row, order);
        for (at, &impression) in order.iter().enumerate() {
            let wrong = if at < gap { Sighting::Present } else { Sighting::Absent };
            if row[impression] == wrong {
                out.push(OddCell { damage, impression, seen: wrong });
            }
        }
    }
    out
}

/// How many squares of two damages and two impressions contradict themselves and share no cell, as many as come first.
fn squares_apart(rows: &[&[Sighting]]) -> usize {
    let n = rows.first().map_or(0, |r| r.len());
    let mut used = vec![false; rows.len() * n];
    let mut count = 0;
    for a in 0..n {
        for b in a + 1..n {
            let of = |first: Sighting, second: Sighting, used: &[bool]| -> Vec<usize> {
                let fits = |d: &usize| {
                    rows[*d][a] == first && rows[*d][b] == second && !used[d * n + a] && !used[d * n + b]
                };
                (0..rows.len()).filter(fits).collect()
            };
            let only_a = of(Sighting::Present, Sighting::Absent, &used);
            let only_b = of(Sighting::Absent, Sighting::Present, &used);
            for (&d, &e) in only_a.iter().zip(&only_b) {
                for at in [d * n + a, d * n + b, e * n + a, e * n + b] {
                    used[at] = true;
                }
                count += 1;
            }
        }
    }
    count
}

/// Tries orders from the front.
struct Search<'r> {
    rows: &'r [&'r [Sighting]],
    best: usize,
    order: Vec<usize>,
    steps: usize,
    /// No order costs less.
    least: usize,
}

/// What a row has cost in a beginning.
#[derive(Clone, Copy)]
struct Begun {
    /// Cells against it if it has not come yet.
    not_yet: usize,
    /// The fewest cells against it if it has.
    come: usize,
    /// Cells not in the beginning that are absent.
    absent_left: usize,
}

impl Search<'_> {
    fn try_orders(&mut self) {
        let count = |row: &&[Sighting]| row.iter().filter(|&&c| c == Sighting::Absent).count();
        let begun: Vec<Begun> =
            self.rows.iter().map(|row| Begun { not_yet: 0, come: 0, absent_left: count(row) }).collect();
        // In the order that is best so far, so that good ends come first.
        let left = self.order.clone();
        self.go_on(&mut Vec::new(), &left, &begun);
    }

    fn go_on(&mut self, beginning: &mut Vec<usize>, left: &[usize], begun: &[Begun]) {
        let must: usize = begun.iter().map(|b| b.not_yet.min(b.come + b.absent_left)).sum();
        if must >= self.best || self.best <= self.least || self.steps >= STEPS {
            return;
        }
        self.steps += 1;
        if left.is_empty() {
            (self.best, self.order) = (must, beginning.clone());
            return;
        }
        for (at, &i) in left.iter().enumerate() {
            // Of impressions whose cells are all the same, only the first that is left.
            let is_alike = |other: usize| self.rows.iter().all(|row| row[other] == row[i]);
            if left[..at].iter().any(|&other| is_alike(other)) {
                continue;
            }
            let next: Vec<Begun> = begun.iter().zip(self.rows).map(|(b, row)| b.with(row[i])).collect();
            let rest: Vec<usize> = left.iter().copied().filter(|&o| o != i).collect();
            beginning.push(i);
            self.go_on(beginning, &rest, &next);
            beginning.pop();
        }
    }
}

impl Begun {
    /// With one impression more.
    fn with(self, cell: Sighting) -> Self {
        let came = self.come.min(self.not_yet);
        match cell {
            Sighting::Present => Self { not_yet: self.not_yet + 1, come: came, ..self },
            Sighting::Absent => {
                Self { not_yet: self.not_yet, come: came + 1, absent_left: self.absent_left - 1 }
            }
            Sighting::Unclear => Self { come: came, ..self },
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::table::tests::table;

    #[test]
    fn a_staircase_needs_nothing_else() {
        let told = fewest(&table(&["0111", "0011", "?001"]), &[2, 0, 3, 1]);
        assert_eq!(told, Fewest { cells: vec![], fewest_possible: 0 });
    }

    #[test]
    fn one_wrong_cell_among_many_is_named() {
        let rows = ["01111", "01111", "00111", "00111", "00011", "00011", "00001", "00001", "00110"];
        let told = fewest(&table(&rows), &[0, 1, 2, 3, 4]);
        assert_eq!(told.cells, [OddCell { damage: 8, impression: 4, seen: Sighting::Absent }]);
        assert_eq!(told.fewest_possible, 1);
    }

    #[test]
    fn a_large_table_is_told_in_good_time() {
        // Thirty impressions, sixty damages, one cell in 17 wrong.
        let row = |d: usize| -> String {
            (0..30)
                .map(|i| if (i * 2 >= d) == (d * 31 + i * 17).is_multiple_of(17) { '0' } else { '1' })
                .collect()
        };
        let rows: Vec<String> = (0..60).map(row).collect();
        let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
        let order: Vec<usize> = (0..30).collect();
        let told = fewest(&table(&rows), &order);
        assert!(told.fewest_possible > 20 && told.cells.len() >= told.fewest_possible);
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]
        #[test]
        fn no_order_of_five_costs_less(cells in proptest::collection::vec(0..3_u8, 35)) {
            let rows: Vec<String> = cells.chunks(5).map(|r| r.iter().map(|c| ['0', '1', '?'][*c as usize]).collect()).collect();
            let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
            let table = table(&rows);
            let told = fewest(&table, &[0, 1, 2, 3, 4]);
            let rows: Vec<&[Sighting]> = table.damages().iter().map(|d| d.seen.as_slice()).collect();
            let mut least = usize::MAX;
            for code in 0..5_usize.pow(5) {
                let order: Vec<usize> = (0..5).map(|k| code / 5_usize.pow(k) % 5).collect();
                if (0..5).all(|i| order.contains(&i)) {
                    least = least.min(cost(&rows, &order));
                }
            }
            prop_assert_eq!(told.cells.len(), least);
            prop_assert_eq!(told.fewest_possible, least);
            prop_assert!(squares_apart(&rows) <= least);
        }
    }
}
