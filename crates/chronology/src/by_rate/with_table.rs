//! Steps that the worth of the table decides: impressions set in at other years, neighbours exchanged, errors of reading.

use super::ByRate;
use crate::by_order::{Window, is_taken};
use crate::chance::Chance;

impl ByRate<'_> {
    /// Lifts one impression out and sets it in at another year.
    pub(super) fn move_one(&mut self, chance: &mut Chance, heat: f64) {
        let n = self.order.len();
        let i = chance.below(n);
        let [from, to] = self.known.windows[i];
        let year = if chance.happens(0.5) {
            chance.between(from, to)
        } else {
            let year = self.year[i] + (to - from) * chance.normal() * libm::exp(chance.between(-6.0, -1.0));
            if year <= from || year >= to {
                return;
            }
            year
        };
        let stood = self.order.iter().position(|&o| o == i).unwrap_or(0);
        let mut order = self.order.clone();
        order.remove(stood);
        let mut stretch = self.stretch.clone();
        let after = stretch.remove(stood + 1);
        stretch[stood] += after;
        let at = order.partition_point(|&o| self.year[o] < year);
        let before = at.checked_sub(1).map_or(self.span[0], |b| self.year[order[b]]);
        let next = order.get(at).map_or(self.span[1], |&a| self.year[a]);
        let shape = |years: f64| self.rate * years.max(0.0) / self.burst;
        let share = chance.beta(shape(year - before), shape(next - year));
        let whole = stretch[at];
        stretch[at] = (whole * share).max(f64::MIN_POSITIVE);
        stretch.insert(at + 1, (whole * (1.0 - share)).max(f64::MIN_POSITIVE));
        order.insert(at, i);
        let worth = self.worth_of(&order, &stretch);
        let was = std::mem::replace(&mut self.year[i], year);
        let prior = self.known.ln_prior(self.range(&order));
        self.year[i] = was;
        let prior = prior - self.known.ln_prior(self.range(&self.order));
        if is_taken(prior + (worth - self.worth) / heat, chance) {
            (self.order, self.stretch, self.worth) = (order, stretch, worth);
            self.year[i] = year;
        }
    }

    /// Exchanges two neighbours and their years.
    pub(super) fn exchange(&mut self, chance: &mut Chance, heat: f64) {
        let at = chance.below(self.order.len() - 1);
        let (a, b) = (self.order[at], self.order[at + 1]);
        let holds = |w: Window, year: f64| w[0] <= year && year <= w[1];
        if !holds(self.known.windows[a], self.year[b]) || !holds(self.known.windows[b], self.year[a]) {
            return;
        }
        let mut order = self.order.clone();
        order.swap(at, at + 1);
        let worth = self.worth_of(&order, &self.stretch.clone());
        if is_taken((worth - self.worth) / heat, chance) {
            (self.order, self.worth) = (order, worth);
            self.year.swap(a, b);
        }
    }

    /// Steps of the errors of reading.
    pub(super) fn errors(&mut self, chance: &mut Chance, heat: f64) {
        if self.priors.errors.is_some() {
            return;
        }
        let (to, gain) = self.rates.step(chance);
        let was = std::mem::replace(&mut self.rates, to);
        self.wear.set(to);
        let worth = self.worth_of(&self.order.clone(), &self.stretch.clone());
        if is_taken(gain + to.ln_prior() - was.ln_prior() + (worth - self.worth) / heat, chance) {
            self.worth = worth;
        } else {
            self.rates = was;
            self.wear.set(was);
        }
    }
}
