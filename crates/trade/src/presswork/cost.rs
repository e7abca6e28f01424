//! What a plan costs: paper, composing, press work, correcting, and the master's share.

use schemars::JsonSchema;
use serde::Serialize;

use super::sums::Sums;
use super::{Pence, Plan, Prices};

/// The bill.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Cost {
    /// Paper, waste counted in.
    pub paper: Pence,
    /// Composing, once for each setting.
    pub composing: Pence,
    /// Press work, by the token, parts of a token in proportion.
    pub presswork: Pence,
    /// Correcting.
    pub correcting: Pence,
    /// Overhead and profit.
    pub overhead: Pence,
    /// All together.
    pub total: Pence,
    /// Of one copy.
    pub per_copy: Pence,
    /// Paper's share of all; 0 to 1.
    pub paper_share: f64,
}

/// The bill of a plan; a half-sheet is composed for half the price of a sheet.
pub fn cost(plan: &Plan, sums: &Sums, prices: &Prices) -> Cost {
    let sheets = f64::from(plan.sheets) + f64::from(plan.half_sheets) / 2.0;
    let paper = prices.ream.0 * sums.reams;
    let composing = prices.composing.0 * sheets * f64::from(plan.settings);
    let presswork = prices.token.0 * sums.tokens;
    let correcting = composing * prices.correction;
    let overhead = (composing + presswork + correcting) * prices.overhead;
    let total = paper + composing + presswork + correcting + overhead;
    Cost {
        paper: Pence(paper),
        composing: Pence(composing),
        presswork: Pence(presswork),
        correcting: Pence(correcting),
        overhead: Pence(overhead),
        total: Pence(total),
        per_copy: Pence(total / f64::from(plan.copies)),
        paper_share: if total > 0.0 { paper / total } else { 0.0 },
    }
}
