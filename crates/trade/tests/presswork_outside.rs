//! The schedule against SimPy: the same shop told as processes that wait for each other.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use serde_json::json;
use trade::presswork::{Day, Plan, Rates, SetBy, Spread, Stage, schedule};

/// When every forme was begun and ended, by SimPy and by us; sheet, setting, place in the sheet, begin, end.
fn compared(plan: &Plan) {
    let Some(python) = outside::python_with("simpy") else { return };
    let r = plan.rates.middle();
    let asked = json!({
        "copies": plan.copies, "sheets": plan.sheets, "half_sheets": plan.half_sheets, "settings": plan.settings,
        "compositors": plan.compositors, "presses": plan.working_presses(), "by_formes": plan.set_by == SetBy::Formes,
        "compose": r.ens_per_sheet / r.ens_per_hour, "correct": r.correction, "rate": r.impressions_per_hour,
        "ready": r.make_ready, "between": r.between_sides,
        "day": [plan.day.hours, plan.day.begins, plan.day.days_a_week],
    });
    let answer = outside::script(&python, "presswork.py", &[], asked.to_string().as_bytes());
    let theirs: Vec<(u32, u32, u32, f64, f64)> = serde_json::from_slice(&answer).unwrap();
    let told = schedule(plan, &r);
    let mut ours: Vec<(u32, u32, u32, f64, f64)> = told
        .bars
        .iter()
        .filter_map(|b| {
            let place = match b.stage {
                Stage::WhitePaper | Stage::OneSide | Stage::WorkAndTurn => 0,
                Stage::Perfecting => 1,
                _ => return None,
            };
            Some((b.sheet, b.setting, place, b.from.work_hours, b.to.work_hours))
        })
        .collect();
    ours.sort_by_key(|b| (b.0, b.1, b.2));
    assert_eq!(ours.len(), theirs.len());
    for (one, other) in ours.iter().zip(&theirs) {
        assert_eq!((one.0, one.1, one.2), (other.0, other.1, other.2));
        assert!((one.3 - other.3).abs() < 1e-6 && (one.4 - other.4).abs() < 1e-6, "{one:?} and {other:?}");
    }
}

fn rates(ens: f64, between: f64) -> Rates {
    Rates {
        ens_per_sheet: Some(Spread::exactly(ens)),
        ens_per_hour: Spread::exactly(937.0),
        correction: Spread::exactly(0.17),
        impressions_per_hour: Spread::exactly(213.0),
        make_ready: Spread::exactly(0.83),
        between_sides: Spread::exactly(between),
        drying: Spread::exactly(24.0),
    }
}

#[test]
fn three_sheets_and_a_half_with_two_compositors_and_two_presses() {
    let mut plan = Plan::new(1100, 3);
    (plan.half_sheets, plan.compositors, plan.presses, plan.crews) = (1, 2, 2, 2);
    plan.rates = rates(9311.0, 7.3);
    compared(&plan);
}

#[test]
fn two_sheets_set_twice_by_formes_with_three_presses_and_short_weeks() {
    let mut plan = Plan::new(2501, 2);
    (plan.settings, plan.compositors, plan.presses, plan.crews) = (2, 3, 3, 3);
    (plan.set_by, plan.rates) = (SetBy::Formes, rates(15_007.0, 11.9));
    plan.day = Day { hours: 8.7, begins: 5.3, days_a_week: 2 };
    compared(&plan);
}
