//! Steps by the counts of the gaps, with their intensities summed out, and these drawn anew.

use super::ByRate;
use crate::by_order::is_taken;
use crate::chance::Chance;

/// Burst is not told smaller: Poisson to four digits.
pub(super) const LEAST_BURST: f64 = 1e-4;
/// Steps of rate and burst in a sweep.
const LAW_STEPS: usize = 6;
/// Steps of each year between its neighbours in a sweep.
const YEAR_STEPS: usize = 3;

impl ByRate<'_> {
    /// Log of the chance of the count of a gap that is this long, up to what depends on the count alone.
    fn ln_count(&self, gap: usize, years: f64, rate: f64, burst: f64) -> f64 {
        let count = self.came[gap] as f64;
        let shape = (rate * years / burst).max(1e-12);
        libm::lgamma(shape + count) - libm::lgamma(shape) + count * libm::log(burst)
            - (shape + count) * libm::log1p(burst * self.listed(gap))
    }

    /// Steps of rate and burst, with the intensities summed out.
    pub(super) fn law(&mut self, chance: &mut Chance) {
        let n = self.order.len();
        let lengths: Vec<f64> = (1..n).map(|gap| self.length(gap)).collect();
        let ln = |s: &Self, rate: f64, burst: f64| -> f64 {
            let counts: f64 =
                lengths.iter().enumerate().map(|(g, &t)| s.ln_count(g + 1, t, rate, burst)).sum();
            let share = 1.0 / (1.0 + burst);
            // The priors, told for the logarithm of the rate and the logit of the share.
            counts + s.priors.shape * libm::log(rate) - s.priors.years * rate
                + libm::log(share * (1.0 - share))
        };
        let mut now = ln(self, self.rate, self.burst);
        for step in 0..LAW_STEPS {
            let width = [0.2, 0.6, 1.5][step % 3];
            let rate = self.rate * libm::exp(width * chance.normal());
            let burst = match self.priors.burst {
                Some(burst) => burst,
                None => self.burst * libm::exp(2.0 * width * chance.normal()),
            };
            if !(LEAST_BURST..1e6).contains(&burst) || !(1e-9..1e9).contains(&rate) {
                continue;
            }
            let to = ln(self, rate, burst);
            if is_taken(to - now, chance) {
                (self.rate, self.burst, now) = (rate, burst, to);
            }
        }
    }

    /// Steps of each year between its neighbours, with the intensities summed out.
    pub(super) fn years(&mut self, chance: &mut Chance) {
        let n = self.order.len();
        for at in 0..n {
            let i = self.order[at];
            let [mut from, mut to] = self.known.windows[i];
            let before = at.checked_sub(1).map(|b| self.year[self.order[b]]);
            let next = self.order.get(at + 1).map(|&a| self.year[a]);
            from = from.max(before.unwrap_or(from));
            to = to.min(next.unwrap_or(to));
            let ln = |s: &Self, year: f64| -> f64 {
                let gap = |gap: usize, years: f64| s.ln_count(gap, years, s.rate, s.burst);
                let counts =
                    before.map_or(0.0, |b| gap(at, year - b)) + next.map_or(0.0, |a| gap(at + 1, a - year));
                // Only the first and the last move the range.
                let first = if at == 0 { year } else { s.year[s.order[0]] };
                let last = if at == n - 1 { year } else { s.year[s.order[n - 1]] };
                counts + s.known.ln_prior(last - first)
            };
            let mut now = ln(self, self.year[i]);
            for step in 0..YEAR_STEPS {
                let year = if step == 0 {
                    chance.between(from, to)
                } else {
                    self.year[i] + (to - from) * chance.normal() * libm::exp(chance.between(-4.0, -1.0))
                };
                if year <= from || year >= to {
                    continue;
                }
                let new = ln(self, year);
                if is_taken(new - now, chance) {
                    (self.year[i], now) = (year, new);
                }
            }
        }
    }

    /// Draws the intensities anew.
    pub(super) fn intensities(&mut self, chance: &mut Chance, damages: usize) {
        let n = self.order.len();
        for gap in 0..=n {
            let shape = self.rate * self.length(gap) / self.burst;
            self.stretch[gap] = if gap == 0 || gap == n {
                chance.gamma(shape, self.burst)
            } else {
                let scale = self.burst / (1.0 + self.burst * self.listed(gap));
                chance.gamma(shape + self.came[gap] as f64, scale)
            };
        }
        // Damages by the first impression: free, an exponential law as wide as the table. Of listed ones that are none, one.
        let scale = 1.0 / (1.0 / (damages as f64).max(1.0) + self.listed(0));
        self.at_first = chance.gamma(1.0 + self.came[0] as f64, scale);
        self.none = chance.gamma(1.0 + self.came[n] as f64, 0.5);
        self.worth = self.worth_of(&self.order.clone(), &self.stretch.clone());
    }
}
