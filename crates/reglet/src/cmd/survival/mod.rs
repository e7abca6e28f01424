//! `reglet survival`: from how many copies are left of each edition, how many editions are lost.

mod words;

use super::told::Answers;
use crate::files::read_text;
use anyhow::{Context as _, Result, bail};
use clap::Args;
use publish::record::PROGRAM;
use schemars::JsonSchema;
use serde::Serialize;
use std::path::PathBuf;
use std::process::ExitCode;
use trade::survival::sorts::{Recapture, at_least_once, recapture, seen_after};
use trade::survival::{Counts, Options, picture, study};

/// Reckon what is lost: how many editions there were, from how many copies are left of each.
///
/// Give the counts: how many editions are known in 1 copy, in 2, in 3 and so on. Or a table in CSV, with a line for each edition
/// (item,copies; 0 copies for one known from references alone) or for each copy (item,copy). Every usual estimator is told
/// beside the others, with what it takes for granted. Three small sums for damaged type and ornaments are here too.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples, from an invented shop:
  Of Hallow's ballads 30 are known in one copy, 12 in two, 5 in three, 2 in four and 1 in five:
    reglet survival --counts 30,12,5,2,1 --picture ballads.svg
  A table of its orders and where copies lie, each printed in 500; and what half as much searching again would bring:
    reglet survival --edition-size 500 --further 0.5 orders.csv
  18 damaged sorts in one book of the shop, 15 in another, 9 in both; how many has the fount?
    reglet survival --recapture 18,15,9

Exit codes: 0 done, 2 the work could not be done.")]
pub struct Survival {
    /// A table of items and copies, in CSV.
    #[arg(value_name = "TABLE.csv", conflicts_with = "counts")]
    table: Option<PathBuf>,
    /// Items known in 1 copy, in 2, in 3 and so on.
    #[arg(long, value_name = "N,N,...", value_parser = Counts::parse)]
    counts: Option<Counts>,
    /// Copies printed of each edition, if known: adds the binomial law.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=1_000_000))]
    edition_size: Option<u32>,
    /// What further searching would bring: its size as a share of all searching so far, above 0 and up to 1.
    #[arg(long, value_name = "SHARE[,SHARE...]", value_delimiter = ',', value_parser = share)]
    further: Vec<f64>,
    /// Damaged sorts (or blocks) found in one book, in another, and in both: how many are there?
    #[arg(long, value_name = "FIRST,SECOND,BOTH", value_parser = Three::parse)]
    recapture: Option<Three>,
    /// Chance that one damaged sort looks like another by accident, and how many were compared: is one likeness anything?
    #[arg(long, value_name = "CHANCE,COMPARED", value_parser = Likeness::parse)]
    likeness: Option<Likeness>,
    /// Damaged sorts in a fount, the chance of seeing one on a page, and pages looked at: how many are seen by then?
    #[arg(long, value_name = "SORTS,CHANCE,PAGES", value_parser = Sorts::parse)]
    sorts: Option<Sorts>,
    #[command(flatten)]
    results: Answers,
}

/// What `reglet survival` writes.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct SurvivalRecord {
    /// What the counts say; null where none were given.
    pub(super) study: Option<trade::survival::Survival>,
    /// How many sorts there are, from two books; null where it was not asked.
    pub(super) recapture: Option<Recapture>,
    /// The chance that unrelated founts share a sort that looks alike; null where it was not asked.
    pub(super) likeness: Option<f64>,
    /// Different sorts expected to have been seen; null where it was not asked.
    pub(super) sorts_seen: Option<f64>,
    /// The program and its version.
    pub(super) program: String,
}

impl Survival {
    /// Reckons, writes and says the result.
    ///
    /// # Errors
    /// A table that cannot be read, numbers that cannot be, a file that cannot be written; with the name and the remedy.
    pub fn run(&self) -> Result<ExitCode> {
        self.results.check(self.table.as_deref())?;
        let counts = match (&self.counts, &self.table) {
            (Some(counts), _) => Some(counts.clone()),
            (None, Some(path)) => {
                Some(Counts::from_csv(&read_text(path)?).with_context(|| path.display().to_string())?)
            }
            (None, None) => None,
        };
        let asks_sums = self.recapture.is_some() || self.likeness.is_some() || self.sorts.is_some();
        if counts.is_none() && !asks_sums {
            bail!(
                "what is known? Give --counts 30,12,5 (editions in one copy, in two, in three), or a table in CSV"
            );
        }
        if counts.is_none() && self.results.wants_picture() {
            bail!("there is nothing to draw without counts; give --counts or a table");
        }
        let options = Options { edition_size: self.edition_size, further: self.further.clone() };
        let study = counts.map(|c| study(&c, &options));
        let drawn = study.as_ref().filter(|_| self.results.wants_picture()).map(picture);
        let record = SurvivalRecord {
            study,
            recapture: self.recapture.map(|Three([a, b, both])| recapture(a, b, both)).transpose()?,
            likeness: self.likeness.map(|l| at_least_once(l.chance, l.compared)).transpose()?,
            sorts_seen: self.sorts.map(|s| seen_after(s.number, s.chance, s.pages)).transpose()?,
            program: PROGRAM.to_owned(),
        };
        self.results.tell(&record, &words::of(&record), drawn.as_deref())?;
        Ok(ExitCode::SUCCESS)
    }
}

fn share(text: &str) -> Result<f64> {
    match text.trim().parse::<f64>() {
        Ok(x) if x > 0.0 && x <= 1.0 => Ok(x),
        _ => bail!(
            "\"{text}\" is not above 0 and up to 1; beyond as much searching again, counts tell nothing"
        ),
    }
}

/// Three whole numbers.
#[derive(Debug, Clone, Copy)]
struct Three([u64; 3]);

impl Three {
    fn parse(text: &str) -> Result<Self> {
        let [a, b, both] = cells(text, "18,15,9")?;
        Ok(Self([number(a)?, number(b)?, number(both)?]))
    }
}

/// A chance and how often it was tried.
#[derive(Debug, Clone, Copy)]
struct Likeness {
    chance: f64,
    compared: u32,
}

impl Likeness {
    fn parse(text: &str) -> Result<Self> {
        let [chance, compared] = cells(text, "0.002,200")?;
        Ok(Self { chance: a_chance(chance)?, compared: number(compared)? as u32 })
    }
}

/// Sorts, the chance of each on a page, and pages.
#[derive(Debug, Clone, Copy)]
struct Sorts {
    number: u64,
    chance: f64,
    pages: u32,
}

impl Sorts {
    fn parse(text: &str) -> Result<Self> {
        let [sorts, chance, pages] = cells(text, "40,0.05,20")?;
        Ok(Self { number: number(sorts)?, chance: a_chance(chance)?, pages: number(pages)? as u32 })
    }
}

/// As many parts as are wanted.
fn cells<'t, const N: usize>(text: &'t str, example: &str) -> Result<[&'t str; N]> {
    let parts: Vec<&str> = text.split(',').map(str::trim).collect();
    parts.try_into().or_else(|_| bail!("\"{text}\" is not {N} numbers parted by commas, as {example}"))
}

fn number(text: &str) -> Result<u64> {
    let number = text.parse::<u64>().ok().filter(|&n| n <= 1_000_000_000);
    number.with_context(|| format!("\"{text}\" is no whole number up to a thousand million"))
}

fn a_chance(text: &str) -> Result<f64> {
    let chance = text.parse::<f64>().ok().filter(|c| (0.0..=1.0).contains(c));
    chance.with_context(|| format!("\"{text}\" is no chance between 0 and 1, as 0.002 for two in a thousand"))
}
