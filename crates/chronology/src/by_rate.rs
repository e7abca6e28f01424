//! The chain that also knows how fast damage grew.
//!
//! Breaks grow about evenly with the age of a block, by time and not by sheets printed (Hedges, *Proc. R. Soc. A* 462, 2006),
//! at a rate that differs from block to block and is not known; and wood that dries cracks in several places at once. So
//! damages come as a point process in time whose intensity is itself uneven: in any stretch of t years it is gamma with mean
//! rate times t and scale *burst*, independent of other stretches. Counts are then negative binomial, with variance 1 + burst
//! times their mean, and however the years are cut into stretches the law is the same (a gamma process; Poisson at no burst).
//! So adding an undated impression changes nothing that is said of the others, and a burst may fall into a single year.
//!
//! Which damage came in which gap is not settled by counts: the rows are worth under the order what `wear` says, with the
//! intensity of each gap for its weight, so that order and counts come from one table and cannot disagree.
//!
//! **What is not known of the ends.** When the block was cut is unknown, so how many damages it had by the first impression
//! says nothing of the rate: their number is free. (Who knows the year of cutting adds an impression of that year on which
//! every damage is absent.) What came after the last impression nobody saw. A damage that only few impressions can show may
//! be missed on all and never listed; the intensity of its gap counts by the chance that it was listed.
//!
//! **Priors.** Rate: Gamma(1/2, 0.1 years), the shape of Jeffreys' prior for a Poisson rate, drawn in so that it has an end:
//! from 0.005 to 25 damages a year with 95 percent. Burst: 1 / (1 + burst) even in 0..1, the share of the variance of a count
//! that is no burst. Years: as [`Known`] has them.
//!
//! **How it is drawn.** (1) An impression is lifted out, its two stretches become one, and set in at another year, which cuts
//! a stretch by a beta deviate, the law of the process: so only the worth of the table decides. (2) Errors of reading. (3) Each
//! damage gets a gap. (4) Given these, intensities are summed out: rate, burst, and each year between its neighbours. (5) The
//! intensities are drawn anew from their gamma laws. Steps 4 and 5 are one draw, and so are 1 to 3 with the gaps summed out
//! (van Dyk & Park, *J. Am. Stat. Assoc.* 103, 2008).

mod unevenness;
mod with_counts;
mod with_table;

use crate::by_order::{Known, Window, start_of};
use crate::chains::Chain;
use crate::chance::Chance;
use crate::wear::{Cells, Rates, Wear};
use unevenness::Unevenness;

/// What is taken for likely beforehand. All but [`Priors::HOUSE`] are for checks.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Priors {
    /// Shape of the gamma prior of the rate, and its years.
    pub(crate) shape: f64,
    pub(crate) years: f64,
    /// Burst, where it is known.
    pub(crate) burst: Option<f64>,
    /// Rates of error, where they are known.
    pub(crate) errors: Option<Rates>,
}

impl Priors {
    pub(crate) const HOUSE: Self = Self { shape: 0.5, years: 0.1, burst: None, errors: None };
}

/// The chain. It follows the place of each impression from 0, each year, the unevenness of counts and of counts drawn anew
/// (see [`Unevenness`]), rate and burst, then both rates of error.
#[derive(Debug)]
pub(crate) struct ByRate<'c> {
    wear: Wear<'c>,
    priors: Priors,
    known: Known<'c>,
    /// The earliest and latest year of all windows.
    span: Window,
    year: Vec<f64>,
    order: Vec<usize>,
    /// Intensity of each stretch between `span` and the years; the first and last are seen by nobody.
    stretch: Vec<f64>,
    /// Damages by the first impression, and listed ones that are none.
    at_first: f64,
    none: f64,
    rates: Rates,
    rate: f64,
    burst: f64,
    worth: f64,
    came: Vec<usize>,
    unevenness: Unevenness,
}

impl<'c> ByRate<'c> {
    /// Chain `number` from a start of its own.
    pub(crate) fn new(
        cells: &'c Cells,
        known: Known<'c>,
        priors: Priors,
        number: usize,
        chance: &mut Chance,
    ) -> Self {
        let n = cells.impressions();
        let windows = known.windows;
        let span = windows.iter().fold([f64::MAX, f64::MIN], |s, w| [s[0].min(w[0]), s[1].max(w[1])]);
        let at = |(i, [from, to]): (usize, &Window)| {
            from + (to - from) * start_of(number, cells.share_present(i), chance).clamp(0.001, 0.999)
        };
        let year: Vec<f64> = windows.iter().enumerate().map(at).collect();
        let mut order: Vec<usize> = (0..n).collect();
        order.sort_by(|&a, &b| year[a].total_cmp(&year[b]));
        let rates = priors.errors.unwrap_or(Rates::START);
        let m = cells.damages() as f64;
        let mut out = Self {
            wear: Wear::new(cells, rates),
            priors,
            known,
            span,
            year,
            order,
            stretch: Vec::new(),
            at_first: 1.0 + m / n as f64,
            none: 1.0,
            rates,
            rate: (1.0 + m) / (span[1] - span[0]).max(1.0) * libm::exp(chance.normal()),
            burst: priors.burst.unwrap_or(1.0),
            worth: 0.0,
            came: vec![0; n + 1],
            unevenness: Unevenness::default(),
        };
        out.stretch = (0..=n).map(|gap| out.rate * out.length(gap) + 1e-3).collect();
        out.worth = out.worth_of(&out.order.clone(), &out.stretch.clone());
        out
    }

    /// Years between the impressions about a gap, or to the end of all windows.
    fn length(&self, gap: usize) -> f64 {
        let from = gap.checked_sub(1).map_or(self.span[0], |b| self.year[self.order[b]]);
        let to = self.order.get(gap).map_or(self.span[1], |&a| self.year[a]);
        (to - from).max(0.0)
    }

    /// How far the years of an order reach.
    fn range(&self, order: &[usize]) -> f64 {
        self.year[order[order.len() - 1]] - self.year[order[0]]
    }

    /// The chance that a damage that came in a gap is seen on any impression after it.
    fn listed(&self, gap: usize) -> f64 {
        let mut all_missed = 1.0;
        for _ in gap..self.order.len() {
            all_missed *= self.rates.missed;
        }
        1.0 - all_missed
    }

    /// Log of the worth of an order with these intensities.
    fn worth_of(&mut self, order: &[usize], stretch: &[f64]) -> f64 {
        let n = order.len();
        let mut weights = stretch.to_vec();
        (weights[0], weights[n]) = (self.at_first, self.none);
        let expected: f64 =
            weights.iter().enumerate().map(|(gap, w)| if gap < n { w * self.listed(gap) } else { *w }).sum();
        self.wear.ln_worth(order, &weights) - expected
    }

    /// Gives each damage a gap.
    fn deal(&mut self, chance: &mut Chance, damages: usize) {
        let n = self.order.len();
        let (mut row, mut repaired) = (Vec::new(), Vec::new());
        self.came.fill(0);
        for d in 0..damages {
            self.wear.by_gap(d, &self.order, &mut row, &mut repaired);
            for (gap, value) in row.iter_mut().enumerate() {
                *value *= if gap == 0 {
                    self.at_first
                } else if gap == n {
                    self.none
                } else {
                    self.stretch[gap]
                };
            }
            self.came[chance.weighed(&row)] += 1;
        }
    }
}

impl Chain for ByRate<'_> {
    fn sweep(&mut self, chance: &mut Chance, heat: f64) {
        let (n, damages) = (self.order.len(), self.wear.damages());
        for _ in 0..n {
            self.move_one(chance, heat);
        }
        for _ in 0..n.div_ceil(4) {
            self.exchange(chance, heat);
        }
        self.errors(chance, heat);
        self.deal(chance, damages);
        self.law(chance);
        self.years(chance);
        self.intensities(chance, damages);
        self.unevenness = self.unevenness_of_counts(chance);
    }

    fn quantities(&self) -> Vec<f64> {
        let n = self.order.len();
        let mut out = vec![0.0; n];
        for (at, &i) in self.order.iter().enumerate() {
            out[i] = at as f64;
        }
        out.extend(&self.year);
        let Unevenness { counts, drawn, steady, late, drawn_late } = self.unevenness;
        let flag = |is: bool| f64::from(u8::from(is));
        out.extend([flag(drawn >= counts), flag(steady >= counts), flag(drawn_late <= late)]);
        out.extend([self.rate, self.burst, self.rates.missed, self.rates.false_sight]);
        out
    }
}

/// Where [`ByRate`] has what, after the `n` places and `n` years.
pub(crate) mod at {
    /// Whether counts drawn from the model are as uneven as those of the table.
    pub(crate) const AS_UNEVEN: usize = 0;
    /// The same without bursts.
    pub(crate) const AS_UNEVEN_STEADY: usize = 1;
    /// Whether drawn counts lie as early as those of the table, or earlier.
    pub(crate) const AS_EARLY: usize = 2;
    /// Damages a year.
    pub(crate) const RATE: usize = 3;
    /// Burst.
    pub(crate) const BURST: usize = 4;
}

#[cfg(test)]
mod tests;
