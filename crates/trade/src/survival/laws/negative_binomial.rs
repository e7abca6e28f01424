//! Negative binomial: items had chances of their own, spread as a gamma law.

use super::search::root;
use super::{Law, Parameter, highest};
use crate::survival::Counts;

/// The zero-truncated negative binomial law P(k) = Γ(k+r)/(k! Γ(r)) (1−q)ʳ qᵏ, of two numbers; N̂ = S/(1 − (1−q)ʳ). The law
/// that Green, McIntyre & Needham took for editions of the fifteenth century (*Papers of the Bibliographical Society of
/// America* 105, 2011). The smaller r, the more unlike were the chances; a very large r is Poisson's law.
#[derive(Debug, Clone, Copy)]
pub struct NegativeBinomial;

/// Bounds of ln r that are searched. Below the lower one the law is the logarithmic series, of which no number of items follows;
/// above the upper one it is Poisson's to every printed digit.
const LEAST_LN_R: f64 = -7.0;
const MOST_LN_R: f64 = 12.0;
/// Up to so many copies rising factorials are summed, and beyond taken from gamma functions.
const SUMMED: u32 = 64;

impl Law for NegativeBinomial {
    fn name(&self) -> &'static str {
        "Negative binomial"
    }

    fn caution(&self) -> &'static str {
        "Lets editions have unlike chances, but hangs on the few that left one copy or two; with a small r the number of lost \
         ones is little more than a guess"
    }

    fn parameters(&self) -> u32 {
        2
    }

    fn fit(&self, counts: &Counts) -> Option<Vec<Parameter>> {
        if counts.copies() == counts.items() {
            return None;
        }
        let worth = |ln_r: f64| {
            let fitted = given(libm::exp(ln_r), counts);
            let seen = -libm::expm1(self.ln_chance(&fitted, 0));
            self.ln_chance_of_all(&fitted, counts) - counts.items() as f64 * libm::log(seen)
        };
        let (ln_r, _) = highest(LEAST_LN_R, MOST_LN_R, worth);
        // At the lower end the likelihood still rises: no number of items is best.
        (ln_r > LEAST_LN_R + 0.01).then(|| given(libm::exp(ln_r), counts))
    }

    fn ln_chance(&self, fitted: &[Parameter], copies: u32) -> f64 {
        let (r, q) = (Parameter::value(fitted, 0), Parameter::value(fitted, 1));
        let k = f64::from(copies);
        let power = if copies == 0 { 0.0 } else { k * libm::log(q) };
        ln_rising(r, copies) - libm::lgamma(k + 1.0) + r * libm::log1p(-q) + power
    }

    fn ln_chance_of_all(&self, fitted: &[Parameter], counts: &Counts) -> f64 {
        let (r, q) = (Parameter::value(fitted, 0), Parameter::value(fitted, 1));
        let (ln_q, ln_rest) = (libm::log(q), r * libm::log1p(-q));
        // Counts rise, so the rising factorial of one goes on from that of the last.
        let (mut rising, mut reached, mut sum) = (0.0, 0, 0.0);
        for c in counts.each() {
            if c.copies <= SUMMED {
                rising += (reached..c.copies).map(|i| libm::log(r + f64::from(i))).sum::<f64>();
                reached = c.copies;
            } else {
                rising = ln_rising(r, c.copies);
            }
            let k = f64::from(c.copies);
            sum += c.items as f64 * (rising - libm::lgamma(k + 1.0) + ln_rest + k * ln_q);
        }
        sum
    }

    fn fit_of_all(&self, counts: &Counts, all: f64) -> Vec<Parameter> {
        let mean = counts.copies() as f64 / all;
        let of = |r: f64| vec![Parameter::new("r", r), Parameter::new("q", mean / (mean + r))];
        let worth = |ln_r: f64| {
            let fitted = of(libm::exp(ln_r));
            let unseen = (all - counts.items() as f64).max(0.0) * self.ln_chance(&fitted, 0);
            unseen + self.ln_chance_of_all(&fitted, counts)
        };
        of(libm::exp(highest(LEAST_LN_R - 9.0, MOST_LN_R, worth).0))
    }
}

/// The best q of a given r, for the items seen: the mean r q/((1−q)(1 − (1−q)ʳ)) rises with q.
fn given(r: f64, counts: &Counts) -> Vec<Parameter> {
    let mean = counts.copies() as f64 / counts.items() as f64;
    // By the odds q/(1−q), which the mean is below even where none is unseen.
    let odds = root(f64::MIN_POSITIVE, mean / r, |odds| {
        let seen = -libm::expm1(-r * libm::log1p(odds));
        r * odds / seen - mean
    });
    vec![Parameter::new("r", r), Parameter::new("q", odds / (1.0 + odds))]
}

/// ln Γ(k+r)/Γ(r) = Σ ln(r+i): exact for few copies, where the gamma functions of a large r would cancel.
fn ln_rising(r: f64, copies: u32) -> f64 {
    if copies <= SUMMED {
        return (0..copies).map(|i| libm::log(r + f64::from(i))).sum();
    }
    libm::lgamma(r + f64::from(copies)) - libm::lgamma(r)
}
