//! How many new items further searching would bring (Good & Toulmin).

use super::Counts;
use schemars::JsonSchema;
use serde::Serialize;

/// What so much more searching would bring.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Further {
    /// The further search as a share of all that was searched so far: 1 is as much again.
    pub share: f64,
    /// New items expected.
    pub new_items: f64,
    /// The standard deviation of that.
    pub standard_deviation: f64,
}

/// Good–Toulmin: Σ (−1)^(k+1) tᵏ fₖ for a further search of t times the size of what was searched (Good & Toulmin 1956,
/// *Biometrika* 43), with the standard deviation √Σ t²ᵏ fₖ. `None` outside 0 < t ≤ 1, where the sum runs wild.
pub fn further(counts: &Counts, share: f64) -> Option<Further> {
    if !(share > 0.0 && share <= 1.0) {
        return None;
    }
    let (mut new_items, mut variance) = (0.0, 0.0);
    for c in counts.each() {
        let power = libm::pow(share, f64::from(c.copies));
        let sign = if c.copies % 2 == 1 { 1.0 } else { -1.0 };
        new_items += sign * power * c.items as f64;
        variance += power * power * c.items as f64;
    }
    Some(Further { share, new_items, standard_deviation: variance.sqrt() })
}
