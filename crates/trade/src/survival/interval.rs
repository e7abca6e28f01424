//! An estimate of how many there were, and how far it may be off.

use schemars::JsonSchema;
use serde::Serialize;

/// Two bounds between which the truth lies in 95 of 100 cases, if what is assumed holds.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Interval {
    /// The lower bound.
    pub low: f64,
    /// The upper bound; null where the data set none.
    pub high: Option<f64>,
}

/// How many items there were, those without a copy among them.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Estimate {
    /// All items; null where the data give no finite number.
    pub total: Option<f64>,
    /// The standard error of it.
    pub standard_error: Option<f64>,
    /// The interval of 95 percent.
    pub interval_95: Interval,
}

/// The quantile of the normal law for 95 percent, both sides, to the digits the published intervals were made with.
const NORMAL_95: f64 = 1.96;

impl Estimate {
    /// An estimate with an interval that never reaches below what is known: log-normal in the number that is unseen, S +
    /// f̂₀/C to S + f̂₀·C with C = exp(1.96 √ln(1 + var/f̂₀²)) (Chao 1987, *Biometrics* 43; the formula seen in a manual of a
    /// program for counts of species).
    pub(crate) fn of_unseen(known: u64, unseen: f64, variance: f64) -> Self {
        let known = known as f64;
        if unseen <= 0.0 || !unseen.is_finite() {
            let total = (unseen <= 0.0).then_some(known);
            return Self { total, standard_error: None, interval_95: Interval { low: known, high: None } };
        }
        let variance = variance.max(0.0);
        let factor = libm::exp(NORMAL_95 * libm::log1p(variance / (unseen * unseen)).sqrt());
        Self {
            total: Some(known + unseen),
            standard_error: Some(variance.sqrt()),
            interval_95: Interval { low: known + unseen / factor, high: Some(known + unseen * factor) },
        }
    }
}
