//! Binomial: every item was printed in so many copies, each of which had the same chance to be left.

use super::search::root;
use super::{Law, Parameter};
use crate::survival::Counts;

/// The zero-truncated binomial law of a known size of edition R, of one number p: the chance of a copy to be left.
/// With R large and p small it is the Poisson law of λ = Rp (Burrell's point, as told in notes of J. Green).
#[derive(Debug, Clone, Copy)]
pub struct Binomial {
    /// Copies printed of each edition.
    edition: u32,
}

impl Binomial {
    /// Of editions of this size; `None` if it is smaller than the most copies of one item, or 0.
    pub fn new(edition: u32, counts: &Counts) -> Option<Self> {
        (edition >= counts.most_copies() && edition > 0).then_some(Self { edition })
    }
}

impl Law for Binomial {
    fn name(&self) -> &'static str {
        "Binomial"
    }

    fn caution(&self) -> &'static str {
        "Takes every edition to have been of the size given, and each copy to have had the same chance; tells too few lost"
    }

    fn parameters(&self) -> u32 {
        1
    }

    fn fit(&self, counts: &Counts) -> Option<Vec<Parameter>> {
        let mean = counts.copies() as f64 / counts.items() as f64;
        let edition = f64::from(self.edition);
        if mean <= 1.0 {
            return None;
        }
        let seen = |p: f64| -libm::expm1(edition * libm::log1p(-p));
        // Rp/(1 − (1−p)ᴿ) rises from 1 to R.
        let p = root(f64::MIN_POSITIVE, 1.0, |p| edition * p / seen(p) - mean);
        Some(vec![Parameter::new("p", p)])
    }

    fn ln_chance(&self, fitted: &[Parameter], copies: u32) -> f64 {
        let (p, edition) = (Parameter::value(fitted, 0), f64::from(self.edition));
        let k = f64::from(copies);
        let kept = if copies == 0 { 0.0 } else { k * libm::log(p) };
        let lost = if copies == self.edition { 0.0 } else { (edition - k) * libm::log1p(-p) };
        super::ln_falling(edition, k) - libm::lgamma(k + 1.0) + kept + lost
    }

    fn fit_of_all(&self, counts: &Counts, all: f64) -> Vec<Parameter> {
        vec![Parameter::new("p", (counts.copies() as f64 / (all * f64::from(self.edition))).min(1.0))]
    }
}
