//! The tables.

use std::fmt::Write as _;

use super::Outcome;
use super::incidents::{curve, recall_at};
use crate::bench::set::Set;

/// What must be reached (issue and DESIGN §5): twenty lines to 0.2 mm, skew to 0.05 degrees.
const TWENTY_MM: f64 = 0.2;
const SKEW_DEGREES: f64 = 0.05;
/// A height is right within this, mm (common practice, no source).
const HEIGHT_MM: f64 = 0.1;
/// So many lines that follow each other are half a twenty-line measure.
const LONG: usize = 10;
/// Precisions at which recall is told.
const PRECISIONS: [f64; 3] = [0.95, 0.9, 0.8];

/// All tables of a set.
pub(super) fn tables(set: Set, outcomes: &[Outcome], made_by: &str) -> String {
    let mut out = format!("{}, {} sheets; {made_by}.\n\n", set.label(), outcomes.len());
    out += &figures(outcomes);
    out += &of_incidents(outcomes);
    out
}

fn figures(outcomes: &[Outcome]) -> String {
    let mut out = String::from(
        "| sheets | how many | twenty lines: within 0.2 mm | median off, mm | worst | doubt holds (95 percent) | skew: within 0.05° | body is among those told, of type without leads |\n|---|---|---|---|---|---|---|---|\n",
    );
    for level in 0..5u8 {
        let of_level: Vec<&Outcome> = outcomes.iter().filter(|o| o.planned.level == level).collect();
        out += &row(&format!("level {level}"), &of_level);
    }
    out += &row("all", &outcomes.iter().collect::<Vec<_>>());
    let long: Vec<&Outcome> = outcomes.iter().filter(|o| o.lines.longest_run >= LONG).collect();
    out += &row(&format!("all with {LONG} lines or more that follow each other"), &long);
    for (what, off) in [
        ("capitals", outcomes.iter().filter_map(|o| o.lines.capitals_off_mm).collect::<Vec<f64>>()),
        ("ascenders", outcomes.iter().filter_map(|o| o.lines.ascenders_off_mm).collect()),
    ] {
        let mut far: Vec<f64> = off.iter().map(|v| v.abs()).collect();
        far.sort_by(f64::total_cmp);
        let within = far.iter().filter(|v| **v <= HEIGHT_MM).count();
        let _ = writeln!(
            out,
            "\nHeight of the {what} of the text: told of {} sheets, within {HEIGHT_MM} mm of the face of the type on {within}, half within {:.2} mm, on \
             the whole {:.2} mm too high (ink is squeezed out about the face).",
            far.len(),
            far.get(far.len() / 2).copied().unwrap_or(f64::NAN),
            off.iter().sum::<f64>() / off.len() as f64,
        );
    }
    let leaded: Vec<bool> =
        outcomes.iter().filter(|o| !o.lines.is_solid).filter_map(|o| o.lines.body_is_right).collect();
    let solid: Vec<&Outcome> =
        outcomes.iter().filter(|o| o.lines.is_solid && o.lines.body_is_right.is_some()).collect();
    let _ = writeln!(
        out,
        "\nOf {} texts with leads (0.35 to 0.71 mm) the body with such a lead is told of {}. Of {} without, no leads are thought of for {}.",
        leaded.len(),
        leaded.iter().filter(|b| **b).count(),
        solid.len(),
        solid.iter().filter(|o| o.lines.with_leads == 0).count(),
    );
    let mut seconds: Vec<f64> = outcomes.iter().map(|o| o.seconds / o.megapixels * 8.0).collect();
    seconds.sort_by(f64::total_cmp);
    let _ = writeln!(
        out,
        "\nA side of 8 megapixels, decoded, is measured in {:.2} s in the median, {:.2} s at worst (two cores).\n",
        seconds[seconds.len() / 2],
        seconds[seconds.len() - 1]
    );
    out
}

fn row(name: &str, rows: &[&Outcome]) -> String {
    let mut twenty: Vec<[f64; 2]> = rows.iter().filter_map(|o| o.lines.twenty_off_mm).collect();
    twenty.sort_by(|p, q| p[0].abs().total_cmp(&q[0].abs()));
    let skew: Vec<f64> = rows.iter().filter_map(|o| o.lines.skew_off_degrees).collect();
    let bodies: Vec<bool> =
        rows.iter().filter(|o| o.lines.is_solid).filter_map(|o| o.lines.body_is_right).collect();
    let held = twenty.iter().filter(|[off, sd]| off.abs() <= 1.96 * sd).count();
    let off = |of: Option<&[f64; 2]>| of.map_or_else(|| "none".to_owned(), |t| format!("{:.2}", t[0].abs()));
    format!(
        "| {name} | {} | {} of {} | {} | {} | {held} | {} of {} | {} of {} |\n",
        rows.len(),
        twenty.iter().filter(|t| t[0].abs() <= TWENTY_MM).count(),
        twenty.len(),
        off(twenty.get(twenty.len() / 2)),
        off(twenty.last()),
        skew.iter().filter(|s| s.abs() <= SKEW_DEGREES).count(),
        skew.len(),
        bodies.iter().filter(|b| **b).count(),
        bodies.len(),
    )
}

fn of_incidents(outcomes: &[Outcome]) -> String {
    let mut out = String::from(
        "| incident | can be seen | recall at precision 0.95 | at 0.9 | at 0.8 | all told: precision | recall |\n|---|---|---|---|---|---|---|\n",
    );
    let classes = outcomes.first().map_or(0, |o| o.incidents.len());
    for k in 0..classes {
        let name = &outcomes[0].incidents[k].class;
        let (there, curve) = curve(outcomes.iter().map(|o| &o.incidents[k]));
        let at = PRECISIONS.map(|p| {
            recall_at(&curve, p)
                .map_or_else(|| "none".to_owned(), |a| format!("{:.3} (from {:.2})", a.recall, a.least))
        });
        let [precision, recall] = curve.last().map_or([f64::NAN; 2], |last| [last.precision, last.recall]);
        let _ = writeln!(out, "| {name} | {there} | {} | {precision:.3} | {recall:.3} |", at.join(" | "));
    }
    out + "\n"
}
