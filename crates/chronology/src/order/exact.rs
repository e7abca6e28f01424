//! Small tables counted out: every order, every gap of every damage, both rates at nodes of their priors.
//!
//! The lengths of the gaps (`by_order`) are integrated in closed form: with Dirichlet(1, ..., 1) lengths the chance that the
//! damages of a table came c_0, ..., c_n times in the gaps, one after the other, is Pólya's urn: the next comes in gap g with
//! the chance (c_g + 1) / (damages so far + n + 1). So the sum over all ways to deal the damages into the gaps runs over
//! counts alone, a damage at a time, and is exact.

use crate::wear::{Cells, Rates, Wear};

use super::Posterior;

/// Nodes of the prior of either rate. Twice as many move no chance by more than 0.005 (tested).
pub(super) const NODES: usize = 10;
/// Most sums and products that are "quick": about half a second.
const MOST: f64 = 1.5e8;

/// Whether counting out is quick.
pub(super) fn is_quick(impressions: usize, damages: usize) -> bool {
    let orders: f64 = (1..=impressions).map(|k| k as f64).product();
    let steps = states(damages, impressions + 1) * (impressions + 1) as f64;
    orders * steps * (NODES * NODES) as f64 <= MOST
}

/// How many ways there are to have at most `most` things in `kinds` kinds: (most + kinds) choose kinds.
fn states(most: usize, kinds: usize) -> f64 {
    (1..=kinds).map(|k| (most + k) as f64 / k as f64).product()
}

/// Counts it out.
pub(super) fn posterior(cells: &Cells, nodes: usize) -> Posterior {
    let (n, m) = (cells.impressions(), cells.damages());
    let counts = Counts::new(m, n);
    let mut orders = Vec::new();
    permute(&mut (0..n).collect(), 0, &mut orders);
    let nodes = Rates::nodes(nodes);
    let mut found: Vec<(f64, usize, Rates)> = Vec::new();
    let (mut row, mut repaired) = (Vec::new(), Vec::new());
    let mut room = Vec::new();
    for (&(missed, share), &(false_sight, other)) in
        nodes.iter().flat_map(|a| nodes.iter().map(move |b| (a, b)))
    {
        let rates = Rates { missed, false_sight };
        let wear = Wear::new(cells, rates);
        for (number, order) in orders.iter().enumerate() {
            let rows: Vec<Vec<f64>> = (0..m)
                .map(|d| {
                    wear.by_gap(d, order, &mut row, &mut repaired);
                    row.clone()
                })
                .collect();
            let ln = counts.ln_sum(&rows, &mut room) + libm::log(share * other);
            found.push((ln, number, rates));
        }
    }
    let best = found.iter().map(|f| f.0).fold(f64::MIN, f64::max);
    let mut out = Posterior::empty(n);
    for (ln, number, rates) in found {
        out.add(&orders[number], rates, libm::exp(ln - best));
    }
    out.whole();
    out
}

/// Every order of what stands from `from` on.
fn permute(order: &mut Vec<usize>, from: usize, out: &mut Vec<Vec<usize>>) {
    if from == order.len() {
        out.push(order.clone());
        return;
    }
    for i in from..order.len() {
        order.swap(from, i);
        permute(order, from + 1, out);
        order.swap(from, i);
    }
}

/// The ways damages can be counted by gap; the last gap has what the others leave.
struct Counts {
    /// Counts of all gaps but the last, those of few damages first.
    of: Vec<Vec<u16>>,
    /// For each, and each of its gaps, the one with a damage less there (itself where there is none).
    less: Vec<Vec<usize>>,
    /// For each number of damages, how many there are of at most so many.
    up_to: Vec<usize>,
}

impl Counts {
    fn new(damages: usize, gaps: usize) -> Self {
        let mut of: Vec<Vec<u16>> = vec![vec![0; gaps]];
        let mut up_to = vec![1];
        let mut from = 0;
        for _ in 0..damages {
            let end = of.len();
            for at in from..end {
                // A damage more only in the last gap used or a later one, so that each comes once.
                let last = of[at].iter().rposition(|&c| c > 0).unwrap_or(0);
                for gap in last..gaps {
                    let mut more = of[at].clone();
                    more[gap] += 1;
                    of.push(more);
                }
            }
            from = end;
            up_to.push(of.len());
        }
        let number: std::collections::BTreeMap<&[u16], usize> =
            of.iter().enumerate().map(|(i, c)| (c.as_slice(), i)).collect();
        let less_of = |(at, counts): (usize, &Vec<u16>)| -> Vec<usize> {
            (0..gaps)
                .map(|gap| {
                    let mut less = counts.clone();
                    less[gap] = less[gap].saturating_sub(1);
                    number.get(less.as_slice()).copied().unwrap_or(at)
                })
                .collect()
        };
        let less = of.iter().enumerate().map(less_of).collect();
        Self { of, less, up_to }
    }

    /// Log of the sum over all ways to deal the damages into the gaps, given the chance of each row by gap.
    fn ln_sum(&self, rows: &[Vec<f64>], room: &mut Vec<f64>) -> f64 {
        room.clear();
        room.resize(self.of.len(), 0.0);
        room[0] = 1.0;
        let gaps = self.of[0].len();
        let mut ln = 0.0;
        for (dealt, row) in rows.iter().enumerate() {
            // From many to few: what a sum is made of is not yet this damage's.
            let mut largest: f64 = 0.0;
            for at in (0..self.up_to[dealt + 1]).rev() {
                let counts = &self.of[at];
                let in_these: usize = counts.iter().map(|&c| usize::from(c)).sum();
                // The last gap: it has had what the others left.
                let in_last = (dealt + 1).saturating_sub(in_these);
                let mut sum = if in_these <= dealt { room[at] * in_last as f64 * row[gaps] } else { 0.0 };
                for gap in 0..gaps {
                    if counts[gap] > 0 {
                        // The urn: one more than it had before.
                        sum += room[self.less[at][gap]] * f64::from(counts[gap]) * row[gap];
                    }
                }
                let sum = sum / (dealt + gaps + 1) as f64;
                room[at] = sum;
                largest = largest.max(sum);
            }
            let largest = largest.max(f64::MIN_POSITIVE);
            for value in &mut room[..self.up_to[dealt + 1]] {
                *value /= largest;
            }
            ln += libm::log(largest);
        }
        ln + libm::log(room.iter().sum::<f64>())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::table::tests::table;

    #[test]
    fn dealing_by_counts_is_dealing_every_damage() {
        let rows = [vec![0.3, 0.5, 0.1], vec![0.2, 0.2, 0.9], vec![0.7, 0.1, 0.4], vec![0.6, 0.3, 0.2]];
        let got = Counts::new(4, 2).ln_sum(&rows, &mut Vec::new());
        // Every deal, by the closed form n! prod c_g! / (n + m)! for n + 1 gaps.
        let factorial = |k: usize| (1..=k).map(|i| i as f64).product::<f64>();
        let mut sum = 0.0;
        for code in 0..3_usize.pow(4) {
            let deal: Vec<usize> = (0..4).map(|d| code / 3_usize.pow(d) % 3).collect();
            let count = |g| deal.iter().filter(|&&d| d == g).count();
            let urn = (0..3).map(|g| factorial(count(g))).product::<f64>() * factorial(2) / factorial(6);
            sum += urn * deal.iter().zip(&rows).map(|(&g, row)| row[g]).product::<f64>();
        }
        assert!((got - libm::log(sum)).abs() < 1e-12);
    }

    #[test]
    fn twice_as_many_nodes_of_the_prior_change_little() {
        for rows in [&["001", "011", "010", "011"][..], &["0011", "0111", "0101"], &["01", "01", "10"]] {
            let table = table(rows);
            let cells = Cells::new(&table, &table.seen_damages());
            let (few, many) = (posterior(&cells, NODES), posterior(&cells, 2 * NODES));
            let pairs = few.before.iter().flatten().zip(many.before.iter().flatten());
            let worst = pairs.map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
            assert!(worst < 0.005, "{rows:?}: {worst}");
        }
    }

    #[test]
    fn what_cannot_be_parted_is_exactly_one_half() {
        let table = table(&["0011", "0011", "0111"]);
        let told = posterior(&Cells::new(&table, &[0, 1, 2]), NODES);
        assert!((told.before[2][3] - 0.5).abs() < 1e-12);
        assert!(told.before[0][2] > 0.9 && told.before[0][1] > 0.6);
    }

    #[test]
    fn only_small_tables_are_counted_out() {
        assert!(is_quick(2, 60) && is_quick(3, 25) && is_quick(4, 10) && is_quick(5, 6));
        assert!(!is_quick(6, 10) && !is_quick(30, 60));
    }
}
