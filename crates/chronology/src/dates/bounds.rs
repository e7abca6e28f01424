//! The dated impressions between which the order puts another: no rate, no distribution, two neighbours.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::order::Order;
use crate::table::Table;

/// An order is sure from here on.
const SURE: f64 = 0.95;

/// The dated impressions between which one lies.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Bounds {
    /// The latest year from which it must follow; null where no dated impression surely precedes it.
    pub not_before: Option<Bound>,
    /// The earliest year that it must precede; null where no dated impression surely follows it.
    pub not_after: Option<Bound>,
}

/// One of the two.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Bound {
    /// The year: of `not_before` the first that the neighbour can be of, of `not_after` the last.
    pub year: i32,
    /// The neighbour, counted from 0 in the table; the impression itself where its own year is the closer bound.
    pub impression: usize,
    /// How likely the order of the two is so, 0 to 1; at least 0.95.
    pub chance: f64,
}

/// The bounds of an impression, from itself and from all that surely come before or after.
pub(super) fn bounds(table: &Table, order: &Order, asked: usize) -> Bounds {
    let mut out = Bounds { not_before: None, not_after: None };
    for (i, impression) in table.impressions().iter().enumerate() {
        let (from, to) = impression.years();
        let chance = |before: f64| if i == asked { 1.0 } else { before };
        let (earlier, later) = (chance(order.before[i][asked]), chance(order.before[asked][i]));
        if let Some(year) = from.filter(|&y| earlier >= SURE && out.not_before.is_none_or(|b| y > b.year)) {
            out.not_before = Some(Bound { year, impression: i, chance: earlier });
        }
        if let Some(year) = to.filter(|&y| later >= SURE && out.not_after.is_none_or(|b| y < b.year)) {
            out.not_after = Some(Bound { year, impression: i, chance: later });
        }
    }
    out
}
