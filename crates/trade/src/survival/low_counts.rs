//! Zelterman's estimate: a Poisson law fitted to the items in one copy and in two alone.

use super::{Counts, Estimate};

/// Zelterman's estimate S/(1 − e^−λ) with λ = 2f₂/f₁ (Zelterman 1988, *Journal of Statistical Planning and Inference* 18);
/// variance S·G(1 + S·G·λ²(1/f₁ + 1/f₂)), G = e^−λ/(1 − e^−λ)² (Böhning 2008, *Statistical Methodology* 5; from memory).
/// `None` without items in one copy, or without items in two.
///
/// Items in many copies have no say, so that a few famous ones do not spoil it; but it can come out far too high where
/// copies were told apart wrongly, so that pairs pass for single copies.
pub fn zelterman(counts: &Counts) -> Option<Estimate> {
    let (f1, f2) = (counts.of(1) as f64, counts.of(2) as f64);
    if f1 <= 0.0 || f2 <= 0.0 {
        return None;
    }
    let known = counts.items();
    let s = known as f64;
    let rate = 2.0 * f2 / f1;
    let seen = -libm::expm1(-rate);
    let g = libm::exp(-rate) / (seen * seen);
    let variance = s * g * (1.0 + s * g * rate * rate * (1.0 / f1 + 1.0 / f2));
    Some(Estimate::of_unseen(known, s / seen - s, variance))
}
