//! `reglet format`: a leaf in, with its chain-lines and watermark; which formats and papers it may come from. Or a sheet in;
//! its leaf in every format.

mod record;
mod words;

use super::lengths;
use super::told::Json;
use anyhow::{Result, bail};
use clap::{Args, ValueEnum};
use publish::record::PROGRAM;
use std::process::ExitCode;
use trade::format::{ChainLines, Evidence, Place, cautions, fitting};
use trade::lengths::Mm;
use trade::paper::{self, Paper, Sheet};

pub(super) use record::FormatRecord;
use record::SheetMakes;

/// Tell which formats and papers a leaf may come from; or what leaves a sheet makes.
///
/// Give what you can see of the leaf: its height and width, which way the chain-lines run, where the watermark lies. Each
/// format folds the sheet differently, and puts both in its own place. One piece of evidence is rarely enough, and the
/// answer may be two formats.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  reglet format --leaf 166x104 --chains vertical --watermark spine-head --year 1690
      a leaf of a book of the Hallow press: octavo, on foolscap
  reglet format --sheet foolscap
      every leaf that a sheet of foolscap makes, and where its watermark falls

Places of the watermark: centre, head, upper, lower, foot (midway across the leaf); spine, spine-head, spine-upper,
spine-lower, spine-foot (in the fold of the spine); edge, edge-head, edge-upper, edge-lower, edge-foot (at the fore-edge).

Exit codes: 0 a format agrees with the evidence, 1 none does or it cannot be told, 2 the work could not be done.")]
pub struct Format {
    /// Height and width of the leaf, millimetres, the height first.
    #[arg(long, value_name = "HxW", value_parser = lengths::by)]
    leaf: Option<(Mm, Mm)>,
    /// How chain-lines run in the upright leaf.
    #[arg(long, value_name = "DIRECTION")]
    chains: Option<Direction>,
    /// Where the watermark lies on the leaf: one of the places below.
    #[arg(long, value_name = "PLACE", value_parser = str::parse::<Place>)]
    watermark: Option<Place>,
    /// The year of printing, about: papers of its time are put first.
    #[arg(long, value_name = "YEAR", value_parser = clap::value_parser!(i32).range(1400..=1900))]
    year: Option<i32>,
    /// The edges are uncut.
    #[arg(long)]
    uncut: bool,
    /// List every paper, also those that speak against the evidence.
    #[arg(long)]
    all: bool,
    /// A sheet instead, by the name of its paper or its sides in millimetres (432x343).
    #[arg(long, value_name = "NAME|LxS", conflicts_with_all = ["leaf", "chains", "watermark", "uncut", "all"])]
    sheet: Option<String>,
    #[command(flatten)]
    json: Json,
}

/// How chain-lines run, as it is typed.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum Direction {
    /// Up and down.
    Vertical,
    /// Across, as the lines of type.
    Horizontal,
}

impl Format {
    /// Finds the formats and says them.
    ///
    /// # Errors
    /// Nothing to go by, a leaf that is none, a paper that is not known.
    pub fn run(&self) -> Result<ExitCode> {
        self.json.check(None, None)?;
        if let Some(sheet) = &self.sheet {
            return self.of_sheet(sheet);
        }
        let evidence = Evidence {
            leaf: self.leaf,
            chain_lines: self.chains.map(|d| match d {
                Direction::Vertical => ChainLines::Vertical,
                Direction::Horizontal => ChainLines::Horizontal,
            }),
            watermark: self.watermark,
            year: self.year,
            is_uncut: self.uncut,
        };
        if evidence.leaf.is_none() && evidence.chain_lines.is_none() && evidence.watermark.is_none() {
            bail!(
                "nothing to go by; give --leaf HxW, --chains and --watermark, as far as you can see them, or --sheet for \
                 what a sheet makes"
            );
        }
        let found = fitting(&evidence)?;
        let cautions = cautions(&evidence, &found);
        let chains_alone = evidence.leaf.is_none() && evidence.watermark.is_none();
        let is_told = !found.formats.is_empty() && !chains_alone;
        let record = FormatRecord {
            evidence: Some(evidence),
            found: Some(found.clone()),
            cautions,
            sheets: Vec::new(),
            program: PROGRAM.into(),
        };
        self.json.tell(&record, &words::of_leaf(&evidence, &found, &record.cautions, self.all))?;
        Ok(if is_told { ExitCode::SUCCESS } else { ExitCode::from(1) })
    }

    /// What a sheet makes.
    fn of_sheet(&self, text: &str) -> Result<ExitCode> {
        let sheets: Vec<(Option<Paper>, Sheet)> = match lengths::by(text) {
            Ok((a, b)) => vec![(None, Sheet::new(a, b)?)],
            Err(_) => paper::named(text)?
                .into_iter()
                .filter(|p| self.year.is_none_or(|y| p.is_of(y)))
                .map(|p| (Some(*p), p.sheet))
                .collect(),
        };
        if sheets.is_empty() {
            bail!("no list of {text} is of that year; leave --year away to see the others");
        }
        let record = FormatRecord {
            evidence: None,
            found: None,
            cautions: vec![
                "Leaves are given untrimmed; each binding may have taken 3 to 12 mm from an edge.".to_owned(),
                "In 12° and smaller shops differed in how they cut and folded; the watermark may fall otherwise.".to_owned(),
            ],
            sheets: sheets.into_iter().map(|(paper, sheet)| SheetMakes::of(paper, sheet)).collect(),
            program: PROGRAM.into(),
        };
        self.json.tell(&record, &words::of_sheets(&record))?;
        Ok(ExitCode::SUCCESS)
    }
}
