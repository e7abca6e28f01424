//! The chain that knows only order: no damage a year, but which came before which.
//!
//! **Wear as a clock without hours.** Each impression stands at a place u in 0..1, and a damage comes in a gap with the chance
//! that is the gap's length. Places are even and independent before the table is looked at: so printing and damage both fall
//! anywhere in the block's life, and the lengths of the gaps are Dirichlet(1, ..., 1). That is weaker than it seems and
//! matters: had every gap the same chance instead (which would let orders be counted out in closed form), a gap in which
//! sixty damages could have come but one cell differs would be as good as any other, and one cell read wrongly would put two
//! impressions in order at odds of 17 to 1 where their gap is likelier to be short (at ten impressions, and errors of 3 in
//! 100 either way, it is 3 to 1). Gaps of unknown length learn from all rows how short they are.
//!
//! The order is not free up to reversal: damage only comes, so a reversed order makes nearly every cell an error.
//!
//! **Years**, where asked for, are a second clock that runs in the same order and at no known speed: before the table is
//! looked at a year is even within its window, and any two impressions stand in one order on both clocks. So a dated sheet
//! bounds its neighbours, and nothing is said of how much damage a year brings.

use crate::chains::Chain;
use crate::chance::Chance;
use crate::wear::{Cells, Rates, Wear};

/// Years within which an impression lies, as points of time: from, to.
pub(crate) type Window = [f64; 2];

/// The chain. It follows the place of each impression from 0, then each year where there are windows, then both rates.
#[derive(Debug)]
pub(crate) struct ByOrder<'c> {
    wear: Wear<'c>,
    windows: Option<&'c [Window]>,
    place: Vec<f64>,
    year: Vec<f64>,
    order: Vec<usize>,
    gaps: Vec<f64>,
    rates: Rates,
    worth: f64,
}

/// Whether a step is taken that multiplies the chance by this much, given as its log.
pub(crate) fn is_taken(gain: f64, chance: &mut Chance) -> bool {
    gain >= 0.0 || libm::log(1.0 - chance.unit()) < gain
}

/// Where an impression of this share of damage may start: near its share in half of the chains, anywhere in the others.
pub(crate) fn start_of(number: usize, share: f64, chance: &mut Chance) -> f64 {
    if number.is_multiple_of(2) { (share + 0.05 * chance.normal()).clamp(0.0, 1.0) } else { chance.unit() }
}

impl<'c> ByOrder<'c> {
    /// Chain `number` from a start of its own.
    pub(crate) fn new(
        cells: &'c Cells,
        windows: Option<&'c [Window]>,
        number: usize,
        chance: &mut Chance,
    ) -> Self {
        let n = cells.impressions();
        let at: Vec<f64> = (0..n).map(|i| start_of(number, cells.share_present(i), chance)).collect();
        // Any year in a window will do, for the order is then that of the years.
        let year: Vec<f64> = windows.map_or_else(Vec::new, |windows| {
            windows.iter().zip(&at).map(|([from, to], share)| from + (to - from) * share).collect()
        });
        let mut order: Vec<usize> = (0..n).collect();
        let by = if windows.is_some() { &year } else { &at };
        order.sort_by(|&a, &b| by[a].total_cmp(&by[b]));
        let mut places: Vec<f64> = (0..n).map(|_| chance.unit()).collect();
        places.sort_by(f64::total_cmp);
        let mut place = vec![0.0; n];
        for (&i, at) in order.iter().zip(places) {
            place[i] = at;
        }
        let gaps = gaps(&order, &place);
        let mut wear = Wear::new(cells, Rates::START);
        let worth = wear.ln_worth(&order, &gaps);
        Self { wear, windows, place, year, order, gaps, rates: Rates::START, worth }
    }

    /// The years that an impression can have between those that stand about position `at` of `order` without it.
    fn room(&self, i: usize, order: &[usize], at: usize) -> Option<Window> {
        let [from, to] = self.windows?[i];
        let before = at.checked_sub(1).map_or(from, |b| self.year[order[b]].max(from));
        let after = order.get(at).map_or(to, |&a| self.year[a].min(to));
        (before < after).then_some([before, after])
    }

    /// Lifts one impression out and sets it in elsewhere.
    fn move_one(&mut self, chance: &mut Chance, heat: f64) {
        let i = chance.below(self.order.len());
        let to = if chance.happens(0.5) {
            chance.unit()
        } else {
            // Near or far, for what is near differs from table to table.
            let to = self.place[i] + chance.normal() * libm::exp(chance.between(-6.0, -1.0));
            if !(0.0..1.0).contains(&to) {
                return;
            }
            to
        };
        let mut others: Vec<usize> = self.order.iter().copied().filter(|&o| o != i).collect();
        let stood = self.order.iter().position(|&o| o == i).unwrap_or(0);
        let at = others.partition_point(|&o| self.place[o] < to);
        let mut gain = 0.0;
        let mut year = None;
        if self.windows.is_some() {
            let (Some(old), Some(new)) = (self.room(i, &others, stood), self.room(i, &others, at)) else {
                return;
            };
            // Drawn evenly in the room that there is: so the wider room gains.
            gain += libm::log((new[1] - new[0]) / (old[1] - old[0]));
            year = Some(chance.between(new[0], new[1]));
        }
        others.insert(at, i);
        let was = std::mem::replace(&mut self.place[i], to);
        let gaps = gaps(&others, &self.place);
        let worth = self.wear.ln_worth(&others, &gaps);
        if is_taken(gain + (worth - self.worth) / heat, chance) {
            (self.order, self.gaps, self.worth) = (others, gaps, worth);
            if let Some(year) = year {
                self.year[i] = year;
            }
        } else {
            self.place[i] = was;
        }
    }

    /// Exchanges two neighbours, their years with them.
    fn exchange(&mut self, chance: &mut Chance, heat: f64) {
        let at = chance.below(self.order.len() - 1);
        let (a, b) = (self.order[at], self.order[at + 1]);
        if let Some(windows) = self.windows {
            let holds = |w: Window, year: f64| w[0] <= year && year <= w[1];
            if !holds(windows[a], self.year[b]) || !holds(windows[b], self.year[a]) {
                return;
            }
        }
        self.order.swap(at, at + 1);
        let worth = self.wear.ln_worth(&self.order, &self.gaps);
        if is_taken((worth - self.worth) / heat, chance) {
            self.worth = worth;
            self.place.swap(a, b);
            if self.windows.is_some() {
                self.year.swap(a, b);
            }
        } else {
            self.order.swap(at, at + 1);
        }
    }

    /// Draws every year anew between its neighbours.
    fn years(&mut self, chance: &mut Chance) {
        for at in 0..self.order.len() {
            let i = self.order[at];
            let Some(windows) = self.windows else { return };
            let [mut from, mut to] = windows[i];
            if at > 0 {
                from = from.max(self.year[self.order[at - 1]]);
            }
            if let Some(&next) = self.order.get(at + 1) {
                to = to.min(self.year[next]);
            }
            self.year[i] = chance.between(from, to.max(from));
        }
    }

    fn errors(&mut self, chance: &mut Chance, heat: f64) {
        let (rates, stretch) = self.rates.step(chance);
        self.wear.set(rates);
        let worth = self.wear.ln_worth(&self.order, &self.gaps);
        let prior = rates.ln_prior() - self.rates.ln_prior();
        if is_taken(stretch + prior + (worth - self.worth) / heat, chance) {
            (self.rates, self.worth) = (rates, worth);
        } else {
            self.wear.set(self.rates);
        }
    }
}

/// The lengths of the gaps between the places of an order, with those before and after.
fn gaps(order: &[usize], place: &[f64]) -> Vec<f64> {
    let mut last = 0.0;
    let ends = order.iter().map(|&i| place[i]).chain(std::iter::once(1.0));
    ends.map(|at| at - std::mem::replace(&mut last, at)).collect()
}

impl Chain for ByOrder<'_> {
    fn sweep(&mut self, chance: &mut Chance, heat: f64) {
        let n = self.order.len();
        // Worths are remembered over steps at one heat and another: they are not divided by it.
        for _ in 0..n {
            self.move_one(chance, heat);
        }
        for _ in 0..n.div_ceil(2) {
            self.exchange(chance, heat);
        }
        for _ in 0..2 {
            self.errors(chance, heat);
        }
        if self.windows.is_some() {
            self.years(chance);
        }
    }

    fn quantities(&self) -> Vec<f64> {
        let n = self.order.len();
        let mut out = vec![0.0; n];
        for (at, &i) in self.order.iter().enumerate() {
            out[i] = at as f64;
        }
        out.extend(&self.year);
        out.extend([self.rates.missed, self.rates.false_sight]);
        out
    }
}
