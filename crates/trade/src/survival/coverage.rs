//! Which share of all copies there were belongs to items that are known (Good & Turing).

use super::Counts;
use schemars::JsonSchema;
use serde::Serialize;

/// The chance that a copy found next is of an item that is known already.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Coverage {
    /// The share, 0 to 1.
    pub share: f64,
    /// Its standard error.
    pub standard_error: f64,
    /// The interval of 95 percent, kept within 0 and 1.
    pub interval_95: [f64; 2],
}

/// Good–Turing coverage 1 − f₁/n (Good 1953, *Biometrika* 40), with the standard error √(f₁ + 2f₂ − f₁²/n)/n (Esty 1983,
/// *Annals of Statistics* 11; from memory).
///
/// The share of *copies*, not of items: a few items in hundreds of copies can cover much while most items are unknown.
pub fn coverage(counts: &Counts) -> Coverage {
    let (f1, f2, n) = (counts.of(1) as f64, counts.of(2) as f64, counts.copies() as f64);
    let share = 1.0 - f1 / n;
    let standard_error = (f1 + 2.0 * f2 - f1 * f1 / n).max(0.0).sqrt() / n;
    let within = |x: f64| x.clamp(0.0, 1.0);
    let interval_95 = [within(share - 1.96 * standard_error), within(share + 1.96 * standard_error)];
    Coverage { share, standard_error, interval_95 }
}
