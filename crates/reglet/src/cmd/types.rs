//! `reglet type`: a measure of twenty lines in; which bodies of type it may be.

use super::lengths::millimetres;
use super::told::Json;
use crate::say::list;
use anyhow::Result;
use clap::Args;
use publish::record::PROGRAM;
use schemars::JsonSchema;
use serde::Serialize;
use std::process::ExitCode;
use trade::bodies::{self, Body, DOUBT, Fit, Fits, Measured, Tongue, bodies, cautions};
use trade::lengths::Mm;

/// Tell which bodies of type a measure of twenty lines may be: pica, English, cicéro, Mittel and so on.
///
/// Measure on the sheet, or on a photograph of known scale, from the foot of a short letter in the first line to the foot of a
/// short letter twenty lines below. A name is a band, not a number: founders differed, and paper shrinks by up to 2.5 per
/// cent; so more than one name may fit.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  reglet type 83.5
      an order of the magistrates of Merrin measures 83.5 mm over twenty lines: pica, or cicéro
  reglet type 47.9 --lines 10 --gap 0.8
      ten lines of a ballad of Hallow, and the gap between them

Exit codes: 0 a body fits, 1 none does, 2 the work could not be done.")]
pub struct Type {
    /// What was measured, millimetres.
    #[arg(value_name = "MM", value_parser = millimetres, required_unless_present = "list", conflicts_with = "list")]
    measure: Option<Mm>,
    /// Over how many lines it was measured, from 5 to 100.
    #[arg(long, value_name = "N", default_value_t = 20, conflicts_with_all = ["proctor", "list"])]
    lines: u16,
    /// The measure is Proctor's: from the top of short letters in line 1 to the foot of short letters in line 20. Give the
    /// height of an x, millimetres.
    #[arg(long, value_name = "X_MM", value_parser = millimetres, conflicts_with = "list")]
    proctor: Option<Mm>,
    /// How far the measure of twenty lines may be out, either way, millimetres; 1 unless given.
    #[arg(long, value_name = "MM", value_parser = millimetres, allow_negative_numbers = true)]
    doubt: Option<Mm>,
    /// The gap between the foot of a long letter (g, p) and the head of a tall one (d, l) in the line below, millimetres.
    #[arg(long, value_name = "MM", value_parser = millimetres, conflicts_with = "list", allow_negative_numbers = true)]
    gap: Option<Mm>,
    /// Print the table of all bodies instead.
    #[arg(long)]
    list: bool,
    #[command(flatten)]
    json: Json,
}

/// What `reglet type --json` writes.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct TypeRecord {
    /// What fits the measure; null where the table is asked for.
    found: Option<Fits>,
    /// The table of bodies, where it is asked for.
    bodies: Vec<Body>,
    /// What can mislead.
    cautions: Vec<String>,
    /// The program and its version.
    program: String,
}

impl Type {
    /// Finds the bodies and says them.
    ///
    /// # Errors
    /// A measure that is none.
    pub fn run(&self) -> Result<ExitCode> {
        self.json.check(None, None)?;
        let mut record =
            TypeRecord { found: None, bodies: Vec::new(), cautions: Vec::new(), program: PROGRAM.into() };
        let Some(measure) = self.measure else {
            record.bodies = bodies();
            self.json.tell(&record, &table(&record.bodies))?;
            return Ok(ExitCode::SUCCESS);
        };
        let twenty_lines_mm = match self.proctor {
            Some(x) => bodies::twenty_of_proctor(measure, x)?,
            None => bodies::twenty_of_lines(measure, self.lines)?,
        };
        let measured = Measured { twenty_lines_mm, doubt_mm: self.doubt.unwrap_or(DOUBT), gap_mm: self.gap };
        let found = bodies::fitting(measured)?;
        record.cautions = cautions(&found);
        let fits = found.solid.iter().any(|f| f.fits) || !found.leaded.is_empty();
        let said = words(&found, &record.cautions);
        record.found = Some(found);
        self.json.tell(&record, &said)?;
        Ok(if fits { ExitCode::SUCCESS } else { ExitCode::from(1) })
    }
}

/// Leaded bodies listed; the JSON has all.
const LISTED: usize = 5;

fn words(found: &Fits, cautions: &[String]) -> String {
    let Measured { twenty_lines_mm: mm, doubt_mm: doubt, .. } = found.measured;
    let (fits, near): (Vec<&Fit>, Vec<&Fit>) = found.solid.iter().partition(|f| f.fits);
    let answer = match fits.len() {
        0 => "no body fits, set solid".to_owned(),
        1 => format!("{} fits, set solid", fits[0].name),
        n => format!("{n} names fit, set solid"),
    };
    let mut out = vec![format!("Twenty lines of {:.1} mm, give or take {} mm: {answer}.", mm.0, doubt.0)];
    out.extend(found.gap_says.map(|says| format!("The gap: {says}.")));
    let said = |fits: &[&Fit]| fits.iter().map(|f| fit(f)).collect::<Vec<_>>();
    list(
        &mut out,
        "Fits (what twenty lines of it measure today, paper having shrunk by 0 to 2.5 per cent)",
        &said(&fits),
    );
    list(&mut out, "Near", &said(&near));
    let mut leaded: Vec<String> = found
        .leaded
        .iter()
        .take(LISTED)
        .map(|l| {
            format!(
                "{} with leads {} ({:.2} mm): {:.1} to {:.1} mm",
                l.name, l.lead.name, l.lead.thick_mm.0, l.today.least_mm.0, l.today.most_mm.0
            )
        })
        .collect();
    if found.leaded.len() > LISTED {
        leaded.push(format!("and {} more; --json lists all", found.leaded.len() - LISTED));
    }
    list(&mut out, "Or, with leads between the lines", &leaded);
    list(&mut out, "Cautions", cautions);
    out.join("\n")
}

fn fit(f: &Fit) -> String {
    let apart = match f.distance_mm.0 {
        0.0 => format!("{:+.1} mm from the usual", f.from_usual_mm.0),
        d => format!("{:.1} mm too {}", d.abs(), if d > 0.0 { "large for it" } else { "small for it" }),
    };
    let points = f.fournier_points.map(|p| format!(", {p} points of Fournier")).unwrap_or_default();
    format!(
        "{} ({}{points}): {:.1} to {:.1} mm; {apart}",
        f.name,
        tongue(f.tongue),
        f.today.least_mm.0,
        f.today.most_mm.0
    )
}

fn tongue(tongue: Tongue) -> &'static str {
    match tongue {
        Tongue::English => "English name",
        Tongue::French => "French name",
        Tongue::German => "German name",
    }
}

fn table(bodies: &[Body]) -> String {
    let mut out = vec!["Twenty lines set solid, millimetres, of new type before paper shrinks".to_owned()];
    for of in [Tongue::English, Tongue::French, Tongue::German] {
        let rows = bodies.iter().filter(|b| b.tongue == of).map(|b| {
            let band = format!("{:.1} to {:.1}", b.twenty_lines.least_mm.0, b.twenty_lines.most_mm.0);
            let founders: Vec<String> =
                b.founders.iter().map(|f| format!("{} {:.1}", f.who, f.twenty_lines_mm.0)).collect();
            let points = b.fournier_points.map(|p| format!("{p} points"));
            let english = b.english_neighbour.map(|e| format!("near {e}"));
            let more: Vec<String> = points.into_iter().chain(english).chain(founders).collect();
            format!("{}: {band} ({})", b.name, more.join("; "))
        });
        list(&mut out, tongue(of), &rows.collect::<Vec<_>>());
        let source = bodies.iter().find(|b| b.tongue == of).map(|b| format!("  Source: {}", b.source));
        out.extend(source);
    }
    out.join("\n")
}
