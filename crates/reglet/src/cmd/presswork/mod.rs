//! `reglet presswork`: how long it takes to set and print so many copies, with how many men, how much paper, at what cost.

mod asked;
mod file;
mod resolved;
mod words;

use super::told::Answers;
use crate::files::read_text;
use anyhow::{Context as _, Result};
use asked::{known_paper, place, typed_ens};
use clap::{Args, ValueEnum};
use file::PlanFile;
use publish::record::PROGRAM;
use schemars::JsonSchema;
use serde::Serialize;
use std::path::PathBuf;
use std::process::ExitCode;
use trade::presswork::many::MOST_RUNS;
use trade::presswork::questions::{Deadline, Known};
use trade::presswork::{Asked, Crew, Pence, Place, Report, SetBy, Sides, Spread, gantt, report};

/// Reckon press work: time, tokens, reams, men and cost of an edition, and what follows from them.
///
/// A plan is a file in TOML, options, or both; options go first. Rates are ranges: 200, 150..250, or 150..200..250 with the
/// most likely in the middle. What is not given is taken from a usual shop, and is a model, not a fact: one compositor, one
/// press with two men, ten hours a day, six days a week, 150..200..250 impressions an hour, half an hour to an hour and a half
/// to make a forme ready.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples, from an invented shop:
  An order that is wanted in a day: 3,000 copies of one side, two presses. Should it be set twice?
    reglet presswork --copies 3000 --sheets 1 --one-side --ens 4000 --presses 2 --compositors 2 --drying 0 --by 1day \\
      --to Hallow=1200@1 --to Merrin=800@2..3
  An octavo of thirteen sheets and a half, with a bill and a picture:
    reglet presswork --copies 750 --sheets 13 --half-sheets 1 --ens 36x44x16 --compositors 2 \\
      --ream-price 10s --composing-price 8s --token-price 14d --picture octavo.svg

A plan file has the same names (see --example-plan).

Exit codes: 0 done, 2 the work could not be done.")]
pub struct Presswork {
    /// A plan, in TOML. What options say goes before what it says.
    #[arg(value_name = "PLAN.toml")]
    plan: Option<PathBuf>,
    /// Print a plan to begin with, and do nothing else.
    #[arg(long, exclusive = true)]
    example_plan: bool,

    /// Copies wanted.
    #[arg(long, value_name = "N", help_heading = "The job")]
    copies: Option<u32>,
    /// Whole sheets of paper in one copy.
    #[arg(long, value_name = "N", help_heading = "The job")]
    sheets: Option<u32>,
    /// Half-sheets in one copy, printed by work and turn.
    #[arg(long, value_name = "N", help_heading = "The job")]
    half_sheets: Option<u32>,
    /// Printed on one side only.
    #[arg(long, help_heading = "The job")]
    one_side: bool,
    /// How often the text is set: 2 for two settings at one time.
    #[arg(long, value_name = "N", help_heading = "The job")]
    settings: Option<u32>,
    /// Ens of type in a sheet: a number, a range, or LINESxENSxPAGES of a page, as 36x44x16. Without it composing is left out.
    #[arg(long, value_name = "ENS", value_parser = typed_ens, help_heading = "The job")]
    ens: Option<Spread>,
    /// Where copies go: NAME=COPIES@DAYS of carriage, as Hallow=200@2..3. Once for each place, in the order they are sent.
    #[arg(long = "to", value_name = "PLACE", value_parser = place, help_heading = "The job")]
    places: Vec<Place>,

    /// Compositors.
    #[arg(long, value_name = "N", help_heading = "The shop")]
    compositors: Option<u32>,
    /// Presses.
    #[arg(long, value_name = "N", help_heading = "The shop")]
    presses: Option<u32>,
    /// Crews, if fewer than presses.
    #[arg(long, value_name = "N", help_heading = "The shop")]
    crews: Option<u32>,
    /// One man to a press in place of two.
    #[arg(long, help_heading = "The shop")]
    half_press: bool,
    /// Whether the compositor sets page after page, or forme after forme from cast-off copy.
    #[arg(long, value_name = "WAY", help_heading = "The shop")]
    set_by: Option<Way>,
    /// Hours worked in a day.
    #[arg(long, value_name = "HOURS", help_heading = "The shop")]
    day: Option<f64>,
    /// The hour work begins.
    #[arg(long, value_name = "HOUR", help_heading = "The shop")]
    begins: Option<f64>,
    /// Days worked in a week.
    #[arg(long, value_name = "N", help_heading = "The shop")]
    days_a_week: Option<u32>,

    /// Ens a compositor sets in an hour.
    #[arg(long, value_name = "RANGE", value_parser = Spread::parse, help_heading = "Rates, as ranges")]
    ens_an_hour: Option<Spread>,
    /// Correcting, as a share of composing.
    #[arg(long, value_name = "RANGE", value_parser = Spread::parse, help_heading = "Rates, as ranges")]
    correction: Option<Spread>,
    /// Impressions in an hour of a press with two men.
    #[arg(long, value_name = "RANGE", value_parser = Spread::parse, help_heading = "Rates, as ranges")]
    impressions: Option<Spread>,
    /// Hours to make a forme ready.
    #[arg(long, value_name = "RANGE", value_parser = Spread::parse, help_heading = "Rates, as ranges")]
    make_ready: Option<Spread>,
    /// Hours that a heap lies between its two sides.
    #[arg(long, value_name = "RANGE", value_parser = Spread::parse, help_heading = "Rates, as ranges")]
    between: Option<Spread>,
    /// Hours that sheets dry before they go out.
    #[arg(long, value_name = "RANGE", value_parser = Spread::parse, help_heading = "Rates, as ranges")]
    drying: Option<Spread>,

    /// Sheets wasted or given over, as a share: 0.03.
    #[arg(long, value_name = "SHARE", help_heading = "Paper and money")]
    waste: Option<f64>,
    /// Sheets to the ream: 480, 500 or 516.
    #[arg(long, value_name = "N", help_heading = "Paper and money")]
    ream: Option<u32>,
    /// Impressions to the token: 240, 250 or 258.
    #[arg(long, value_name = "N", help_heading = "Paper and money")]
    token: Option<u32>,
    /// Price of a ream, as 10s 6d. With the next two, a bill is made.
    #[arg(long, value_name = "MONEY", value_parser = Pence::parse, help_heading = "Paper and money")]
    ream_price: Option<Pence>,
    /// Price of composing a sheet.
    #[arg(long, value_name = "MONEY", value_parser = Pence::parse, help_heading = "Paper and money")]
    composing_price: Option<Pence>,
    /// Price of a token of press work.
    #[arg(long, value_name = "MONEY", value_parser = Pence::parse, help_heading = "Paper and money")]
    token_price: Option<Pence>,
    /// Correcting, as a share of the price of composing; a sixth by default.
    #[arg(long, value_name = "SHARE", help_heading = "Paper and money")]
    correction_share: Option<f64>,
    /// The master's overhead and profit, as a share of all labour; half by default.
    #[arg(long, value_name = "SHARE", help_heading = "Paper and money")]
    overhead_share: Option<f64>,

    /// When they are to be out, as 3days or 12hours of work: how likely is that, and what would it need?
    #[arg(long, value_name = "TIME", value_parser = Deadline::parse, help_heading = "Questions")]
    by: Option<Deadline>,
    /// It is known to have taken so long: what edition fits? (--copies may then be left out.)
    #[arg(long, value_name = "TIME", value_parser = Deadline::parse, help_heading = "Questions")]
    known_time: Option<Deadline>,
    /// It is known to have taken so much paper, as 20reams, 18..22reams, or what was paid for it, as '£10': what edition fits?
    #[arg(long, value_name = "PAPER", help_heading = "Questions")]
    known_paper: Option<String>,
    /// Shops that are drawn with rates from their ranges.
    #[arg(long, value_name = "N", default_value_t = 10_000, value_parser = clap::value_parser!(u32).range(1..=i64::from(MOST_RUNS)), help_heading = "Questions")]
    runs: u32,
    /// The seed of the draws.
    #[arg(long, value_name = "N", default_value_t = 1, help_heading = "Questions")]
    seed: u64,

    #[command(flatten)]
    results: Answers,
}

/// How the text is set.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum Way {
    /// Page after page.
    Pages,
    /// Forme after forme.
    Formes,
}

/// What `reglet presswork` writes.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct PressworkRecord {
    /// The reckoning.
    #[serde(flatten)]
    report: Report,
    /// The program and its version.
    program: String,
}

impl Presswork {
    /// Reckons, writes and says the result.
    ///
    /// # Errors
    /// A plan that cannot be read or cannot be, a file that cannot be written; with the name and the remedy.
    pub fn run(&self) -> Result<ExitCode> {
        if self.example_plan {
            crate::say::result(file::EXAMPLE.trim_end())?;
            return Ok(ExitCode::SUCCESS);
        }
        self.results.check(self.plan.as_deref())?;
        let mut plan = match &self.plan {
            Some(path) => file::parse(&read_text(path)?).with_context(|| path.display().to_string())?,
            None => PlanFile::default(),
        };
        self.put_into(&mut plan);
        let known = known_paper(self.known_paper.as_deref(), plan.ream_price())?;
        let asks_size = self.known_time.is_some() || known.is_some();
        let asked = Asked {
            runs: self.runs,
            seed: self.seed,
            by: self.by,
            known: Known { time: self.known_time, reams: known },
        };
        if asks_size && plan.copies.is_none() {
            // The edition is what is asked; the rest is told for the most that fits.
            plan.copies = Some(1);
            let likely = fitting(&report(plan.plan()?, &Asked { runs: 1, ..asked.clone() })?);
            plan.copies = Some(likely.max(1));
        }
        let report = report(plan.plan()?, &asked)?;
        let picture = self.results.wants_picture().then(|| gantt(&report));
        let words = words::of_report(&report);
        let record = PressworkRecord { report, program: PROGRAM.to_owned() };
        self.results.tell(&record, &words, picture.as_deref())?;
        Ok(ExitCode::SUCCESS)
    }

    /// What was typed goes before what the file says.
    fn put_into(&self, plan: &mut PlanFile) {
        fn over<T: Clone>(place: &mut Option<T>, typed: Option<&T>) {
            if typed.is_some() {
                *place = typed.cloned();
            }
        }
        over(&mut plan.copies, self.copies.as_ref());
        over(&mut plan.sheets, self.sheets.as_ref());
        over(&mut plan.half_sheets, self.half_sheets.as_ref());
        over(&mut plan.sides, self.one_side.then_some(file::Sided(Sides::One)).as_ref());
        over(&mut plan.settings, self.settings.as_ref());
        over(&mut plan.compositors, self.compositors.as_ref());
        over(&mut plan.presses, self.presses.as_ref());
        over(&mut plan.crews, self.crews.as_ref());
        over(&mut plan.crew, self.half_press.then_some(file::Manned(Crew::Half)).as_ref());
        let way = self.set_by.map(|w| match w {
            Way::Pages => file::Set(SetBy::Pages),
            Way::Formes => file::Set(SetBy::Formes),
        });
        over(&mut plan.set_by, way.as_ref());
        over(&mut plan.token, self.token.as_ref());
        over(&mut plan.day.hours, self.day.as_ref());
        over(&mut plan.day.begins, self.begins.as_ref());
        over(&mut plan.day.days_a_week, self.days_a_week.as_ref());
        over(&mut plan.paper.waste, self.waste.as_ref());
        over(&mut plan.paper.ream, self.ream.as_ref());
        let ranges = [
            (&mut plan.rates.ens, self.ens),
            (&mut plan.rates.ens_an_hour, self.ens_an_hour),
            (&mut plan.rates.correction, self.correction),
            (&mut plan.rates.impressions, self.impressions),
            (&mut plan.rates.make_ready, self.make_ready),
            (&mut plan.rates.between, self.between),
            (&mut plan.rates.drying, self.drying),
        ];
        for (place, typed) in ranges {
            over(place, typed.map(file::Range).as_ref());
        }
        let money = [
            (&mut plan.prices.ream, self.ream_price),
            (&mut plan.prices.composing, self.composing_price),
            (&mut plan.prices.token, self.token_price),
        ];
        for (place, typed) in money {
            over(place, typed.map(file::Money).as_ref());
        }
        over(&mut plan.prices.correction, self.correction_share.as_ref());
        over(&mut plan.prices.overhead, self.overhead_share.as_ref());
        if !self.places.is_empty() {
            plan.places.clear();
            plan.typed_places.clone_from(&self.places);
        }
    }
}

/// The largest edition that fits what is known, or that one of two allows.
fn fitting(report: &Report) -> u32 {
    let Some(edition) = report.edition else { return 1 };
    let by_time = edition.by_time.map(|[_, middle, _]| middle);
    let by_paper = edition.by_paper.map(|[_, most]| most);
    by_time.into_iter().chain(by_paper).min().unwrap_or(1)
}
