//! `reglet figures`: press figures of a book in; who worked how much and when, and what runs side by side.

use super::told::{Answers, chance, of, tenth};
use crate::files::read_text;
use crate::say::list;
use anyhow::{Context as _, Result};
use clap::Args;
use publish::record::PROGRAM;
use schemars::JsonSchema;
use serde::Serialize;
use std::path::PathBuf;
use std::process::ExitCode;
use trade::figures::{Figured, Pair, Standing, Table, picture, read};

/// Read the press figures of a book: who worked how much, and when, and what copies disagree.
///
/// The table is CSV with a line for each figure: copy,sheet,forme,figure. Sheets stand in the order of printing as far as it is
/// known. A forme is outer or inner (o, i). A forme without a figure has a line with an empty figure; one with two figures has
/// two lines. Any two figures are asked whether they share sheets, or follow each other, more than chance would have it.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples, from an invented shop:
  reglet figures sermon-of-hallow.csv
  reglet figures --picture figures.svg --json figures.json sermon-of-hallow.csv

where sermon-of-hallow.csv begins
  copy,sheet,forme,figure
  Hallow,B,outer,3
  Hallow,B,inner,5
  Hallow,C,outer,

Exit codes: 0 done, 2 the work could not be done.")]
pub struct Figures {
    /// The table, in CSV.
    #[arg(value_name = "TABLE.csv")]
    table: PathBuf,
    #[command(flatten)]
    results: Answers,
}

/// What `reglet figures` writes.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct FiguresRecord {
    /// What was found.
    #[serde(flatten)]
    figured: Figured,
    /// The program and its version.
    program: String,
}

impl Figures {
    /// Reads, writes and says the result.
    ///
    /// # Errors
    /// A table that cannot be read, a file that cannot be written; with the name and the remedy.
    pub fn run(&self) -> Result<ExitCode> {
        self.results.check(Some(&self.table))?;
        let table =
            Table::from_csv(&read_text(&self.table)?).with_context(|| self.table.display().to_string())?;
        let figured = read(&table);
        let drawn = self.results.wants_picture().then(|| picture(&figured));
        let words = words(&figured);
        let record = FiguresRecord { figured, program: PROGRAM.to_owned() };
        self.results.tell(&record, &words, drawn.as_deref())?;
        Ok(ExitCode::SUCCESS)
    }
}

/// Figures, runs and formes that are listed on a terminal; the JSON has all.
const MOST_LISTED: usize = 12;

fn words(told: &Figured) -> String {
    let mut out = Vec::new();
    let f = told.formes;
    out.push(format!("{} in {}.", of(f.sheets, "sheet", "sheets"), of(told.copies, "copy", "copies")));
    out.push(format!(
        "Sheets with one figure in both formes {}, with two different ones {}, with one in one forme only {}, with none {}.",
        f.same, f.different, f.one_only, f.none
    ));
    let shares: Vec<String> = told
        .work
        .iter()
        .take(MOST_LISTED)
        .map(|w| {
            let runs: Vec<String> = w
                .runs
                .iter()
                .take(MOST_LISTED)
                .map(|r| if r.from == r.to { r.from.clone() } else { format!("{}-{}", r.from, r.to) })
                .collect();
            let more = if w.runs.len() > MOST_LISTED { ", …" } else { "" };
            format!(
                "{}: {} formes, {:.0} in 100 of those with a figure ({:.0} to {:.0}); found in {}{more}",
                w.figure,
                tenth(w.formes),
                w.share * 100.0,
                w.share_95[0] * 100.0,
                w.share_95[1] * 100.0,
                runs.join(", ")
            )
        })
        .collect();
    list(&mut out, "Who worked, and when:", &shares);
    let parted: Vec<String> = told
        .parted
        .iter()
        .take(MOST_LISTED)
        .map(|p| format!("{} {}: {}", p.sheet, p.forme.name(), p.figures.join(" and ")))
        .collect();
    list(&mut out, "Formes with two figures (worked in two parts, or imposed anew):", &parted);
    let differ: Vec<String> = told
        .disagreements
        .iter()
        .take(MOST_LISTED)
        .map(|d| {
            let readings: Vec<String> = d
                .readings
                .iter()
                .map(|r| {
                    let shown =
                        if r.figures.is_empty() { "none".to_owned() } else { r.figures.join(" and ") };
                    format!("{shown} in {}", r.copies.join(", "))
                })
                .collect();
            format!("{} {}: {}", d.sheet, d.forme.name(), readings.join("; "))
        })
        .collect();
    list(
        &mut out,
        "Copies disagree (perhaps printed at two times, or from two settings; compare the type):",
        &differ,
    );
    let pairs: Vec<String> = told.pairs.iter().take(MOST_LISTED).flat_map(pair).collect();
    list(&mut out, "Two and two, against chance:", &pairs);
    list(&mut out, "Mind:", &told.warnings);
    list(&mut out, "Why this could be wrong:", &told.cautions);
    out.join("\n")
}

fn pair(pair: &Pair) -> Vec<String> {
    let (a, b) = (&pair.first, &pair.second);
    let is = |s: Standing| pair.standing.contains(&s);
    let mut out = Vec::new();
    if let Some(t) = pair.mixed {
        let (verdict, odds) = if is(Standing::SideBySide) {
            ("they run side by side, as two at work at one time would", t.chance_of_more)
        } else if is(Standing::SheetsApart) {
            ("each keeps to whole sheets of its own", t.chance_of_fewer)
        } else {
            (
                "no more and no less than chance, as far as this can tell",
                t.chance_of_more.min(t.chance_of_fewer),
            )
        };
        out.push(format!(
            "{a} and {b} share {} of the {} that have them alone, where chance brings {}: {verdict} (chance {})",
            t.observed,
            of(t.of, "sheet", "sheets"),
            tenth(t.expected),
            chance(odds)
        ));
    }
    if let Some(t) = pair.runs {
        let (verdict, odds) = if is(Standing::InTurns) {
            ("they take turns", t.chance_of_more)
        } else if is(Standing::InBlocks) {
            ("each keeps to stretches of its own", t.chance_of_fewer)
        } else {
            (
                "no order that chance would not bring, as far as this can tell",
                t.chance_of_more.min(t.chance_of_fewer),
            )
        };
        out.push(format!(
            "{a} and {b} change places so often that {} of one or the other make {} runs, where chance brings {}: {verdict} \
             (chance {})",
            of(t.of, "sheet", "sheets"),
            t.observed,
            tenth(t.expected),
            chance(odds)
        ));
    }
    out
}
