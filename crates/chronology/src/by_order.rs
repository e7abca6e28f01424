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
//! looked at years are as [`Known`] has them, and any two impressions stand in one order on both clocks. So a dated sheet
//! bounds its neighbours, and nothing is said of how much damage a year brings.

use crate::chains::Chain;
use crate::chance::Chance;
use crate::wear::{Cells, Rates, Wear};

/// Steps of the first and the last year in a sweep.
const END_STEPS: usize = 6;

/// Years within which an impression lies, as points of time: from, to.
pub(crate) type Window = [f64; 2];

/// What is taken for likely of the years before the table is looked at.
///
/// A block is printed from during a life in print of unknown beginning and end, and every edition falls anywhere within it.
/// With the scale-free prior of beginning and length (1 / length; the right Haar measure, Jaynes, *IEEE Trans. Syst. Sci.
/// Cybern.* 4, 1968) both integrate out, and what is left is the range of all years to the power of 1 less than there are
/// editions. So an undated impression is drawn to lie among the dated ones or not far beyond them, the more so the more there
/// are; even years within a window of a century would put it, for want of knowledge, half a century beyond (over invented
/// histories of 30 to 90 years such intervals of 95 percent held the truth in 71 of 100 cases). It takes for granted that
/// the dated and the undated are of one life alike. Copies of one edition are not printed each by itself: sheets dated alike
/// count once. Undated copies of one edition cannot be told from others, and count each; so beyond the dated sheets intervals
/// are still too narrow where editions left many copies.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Known<'c> {
    /// What each year must lie within.
    pub(crate) windows: &'c [Window],
    /// How many editions the impressions are of; 1 for no prior but the windows.
    pub(crate) editions: usize,
}

impl Known<'_> {
    /// Log of the prior of years that reach so far. Under a year it is all one, for a year is all that is told.
    pub(crate) fn ln_prior(&self, range: f64) -> f64 {
        -(self.editions.max(1) as f64 - 1.0) * libm::log(range.max(1.0))
    }
}

/// The chain. It follows the place of each impression from 0, then each year where there are windows, then both rates.
#[derive(Debug)]
pub(crate) struct ByOrder<'c> {
    wear: Wear<'c>,
    known: Option<Known<'c>>,
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
        known: Option<Known<'c>>,
        number: usize,
        chance: &mut Chance,
    ) -> Self {
        let n = cells.impressions();
        let at: Vec<f64> = (0..n).map(|i| start_of(number, cells.share_present(i), chance)).collect();
        // Any year in a window will do, for the order is then that of the years.
        let year: Vec<f64> = known.map_or_else(Vec::new, |known| {
            known.windows.iter().zip(&at).map(|([from, to], share)| from + (to - from) * share).collect()
        });
        let mut order: Vec<usize> = (0..n).collect();
        let by = if known.is_some() { &year } else { &at };
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
        Self { wear, known, place, year, order, gaps, rates: Rates::START, worth }
    }

    /// The years that an impression can have between those that stand about position `at` of `order` without it.
    fn room(&self, i: usize, order: &[usize], at: usize) -> Option<Window> {
        let [from, to] = self.known?.windows[i];
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
        if let Some(known) = self.known {
            let (Some(old), Some(new)) = (self.room(i, &others, stood), self.room(i, &others, at)) else {
                return;
            };
            // Drawn evenly in the room that there is: so the wider room gains.
            gain += libm::log((new[1] - new[0]) / (old[1] - old[0]));
            let to = chance.between(new[0], new[1]);
            let ends = [others[0], others[others.len() - 1]].map(|i| self.year[i]);
            let range = |year: f64| ends[1].max(year) - ends[0].min(year);
            gain += known.ln_prior(range(to)) - known.ln_prior(range(self.year[i]));
            year = Some(to);
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
        if let Some(Known { windows, .. }) = self.known {
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
            if self.known.is_some() {
                self.year.swap(a, b);
            }
        } else {
            self.order.swap(at, at + 1);
        }
    }

    /// Draws every year anew between its neighbours; the first and last, which the prior draws in, by steps.
    fn years(&mut self, known: Known<'_>, chance: &mut Chance) {
        let last = self.order.len() - 1;
        for at in 0..=last {
            let i = self.order[at];
            let [mut from, mut to] = known.windows[i];
            if at > 0 {
                from = from.max(self.year[self.order[at - 1]]);
            }
            if at < last {
                to = to.min(self.year[self.order[at + 1]]);
            }
            if at > 0 && at < last {
                self.year[i] = chance.between(from, to.max(from));
                continue;
            }
            let other = self.year[self.order[last - at]];
            for _ in 0..END_STEPS {
                let year =
                    self.year[i] + (to - from) * chance.normal() * libm::exp(chance.between(-5.0, 0.0));
                let gain =
                    known.ln_prior((year - other).abs()) - known.ln_prior((self.year[i] - other).abs());
                if from < year && year < to && is_taken(gain, chance) {
                    self.year[i] = year;
                }
            }
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
        if let Some(known) = self.known {
            self.years(known, chance);
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
