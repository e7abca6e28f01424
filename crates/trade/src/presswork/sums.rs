//! Impressions, tokens, reams, hours and men of a plan.
//!
//! A whole sheet takes an impression on each side that is printed; a half-sheet, imposed for work and turn, takes one a copy:
//! half as many sheets, on both sides. So half-sheets are half sheets of paper and one impression a copy.

use schemars::JsonSchema;
use serde::Serialize;

use super::{Crew, Drawn, Plan, Sides};

/// What a plan comes to, with every rate at its middle.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Sums {
    /// Formes, of all settings.
    pub formes: u32,
    /// Impressions.
    pub impressions: u64,
    /// Tokens.
    pub tokens: f64,
    /// Sheets of paper, waste not counted.
    pub sheets: f64,
    /// Reams, with waste.
    pub reams: f64,
    /// Hours of composing, of all settings.
    pub composing_hours: f64,
    /// Hours of correcting.
    pub correcting_hours: f64,
    /// Hours at press, make-ready counted in, of all presses together.
    pub press_hours: f64,
    /// Compositors that keep one press busy: the hours of composing a sheet over those of printing it; null without composing.
    pub compositors_to_a_press: Option<f64>,
    /// The edition with which one compositor and one press are in balance: with fewer copies the press waits for the
    /// compositor. Null without composing. Make-ready is left out of it.
    pub edition_in_balance: Option<f64>,
    /// Compositors.
    pub compositors: u32,
    /// Men at the presses that have a crew.
    pub pressmen: u32,
}

/// Impressions of so many sheets, half-sheets as halves, on both sides: 2 · sheets · copies.
pub fn impressions(sheets: f64, copies: u32) -> f64 {
    2.0 * sheets * f64::from(copies)
}

/// Sums up a plan at these rates.
pub fn sums(plan: &Plan, rates: &Drawn) -> Sums {
    let copies = u64::from(plan.copies);
    // Each setting prints its share of the copies, so all together print every forme for every copy.
    let impressions = u64::from(plan.formes()) * copies;
    let sheets = (f64::from(plan.sheets) + f64::from(plan.half_sheets) / 2.0) * f64::from(plan.copies);
    let formes = plan.formes() * plan.settings;
    let press = press_rate(plan, rates);
    let per_setting = composing_hours(plan, rates);
    let composing_hours = per_setting * f64::from(plan.settings);
    let per_sheet = rates.ens_per_sheet / rates.ens_per_hour;
    let sides = match plan.sides {
        Sides::Both => 2.0,
        Sides::One => 1.0,
    };
    let has_composing = per_sheet > 0.0;
    Sums {
        formes,
        impressions,
        tokens: impressions as f64 / f64::from(plan.token),
        sheets,
        reams: sheets * (1.0 + plan.paper.waste) / f64::from(plan.paper.ream),
        composing_hours,
        correcting_hours: composing_hours * rates.correction,
        press_hours: impressions as f64 / press + rates.make_ready * f64::from(formes),
        compositors_to_a_press: has_composing.then(|| per_sheet * press / (sides * f64::from(plan.copies))),
        edition_in_balance: has_composing.then(|| per_sheet * press / sides),
        compositors: plan.compositors,
        pressmen: plan.working_presses()
            * match plan.crew {
                Crew::Full => 2,
                Crew::Half => 1,
            },
    }
}

/// Hours of composing one setting.
pub(super) fn composing_hours(plan: &Plan, rates: &Drawn) -> f64 {
    let sheets = f64::from(plan.sheets) + f64::from(plan.half_sheets) / 2.0;
    sheets * rates.ens_per_sheet / rates.ens_per_hour
}

/// Impressions an hour of a press with its crew.
pub(super) fn press_rate(plan: &Plan, rates: &Drawn) -> f64 {
    match plan.crew {
        Crew::Full => rates.impressions_per_hour,
        Crew::Half => rates.impressions_per_hour / 2.0,
    }
}
