//! Poisson: every item had the same chance, and many copies that each could be lost.

use super::search::root;
use super::{Law, Parameter};
use crate::survival::Counts;

/// The zero-truncated Poisson law, of one number λ: the copies left of an item on average, those of no copy among them.
/// λ/(1 − e^−λ) = n/S; N̂ = S/(1 − e^−λ) (David & Johnson 1952, *Biometrics* 8; from memory).
#[derive(Debug, Clone, Copy)]
pub struct Poisson;

impl Law for Poisson {
    fn name(&self) -> &'static str {
        "Poisson"
    }

    fn caution(&self) -> &'static str {
        "Takes every edition to have been printed in equal numbers and kept alike; they were not, so it tells too few lost"
    }

    fn parameters(&self) -> u32 {
        1
    }

    fn fit(&self, counts: &Counts) -> Option<Vec<Parameter>> {
        let mean = counts.copies() as f64 / counts.items() as f64;
        // Of items in one copy alone the best λ is 0, with no end to the items.
        if mean <= 1.0 {
            return None;
        }
        // λ/(1 − e^−λ) rises from 1 and stays above λ.
        let rate = root(f64::MIN_POSITIVE, mean, |x| x / -libm::expm1(-x) - mean);
        Some(vec![Parameter::new("lambda", rate)])
    }

    fn ln_chance(&self, fitted: &[Parameter], copies: u32) -> f64 {
        let rate = Parameter::value(fitted, 0);
        let k = f64::from(copies);
        let ln_power = if copies == 0 { 0.0 } else { k * libm::log(rate) };
        ln_power - rate - libm::lgamma(k + 1.0)
    }

    fn fit_of_all(&self, counts: &Counts, all: f64) -> Vec<Parameter> {
        vec![Parameter::new("lambda", counts.copies() as f64 / all)]
    }
}
