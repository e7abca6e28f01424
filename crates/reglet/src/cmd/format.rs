//! `reglet format`: a leaf in, with its chain-lines and watermark; which formats and papers it may come from. Or a sheet in;
//! its leaf in every format.

use super::told::Json;
use crate::say::list;
use anyhow::{Result, bail};
use clap::{Args, ValueEnum};
use publish::record::PROGRAM;
use schemars::JsonSchema;
use serde::Serialize;
use std::process::ExitCode;
use trade::format::{
    Agreement, Candidate, ChainLines, Evidence, Found, Place, Way, cautions, fitting, watermark_places,
};
use trade::lengths::{Band, Mm};
use trade::paper::{self, Paper, Sheet};

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
    #[arg(long, value_name = "HxW", value_parser = two_lengths)]
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

/// What `reglet format --json` writes.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct FormatRecord {
    /// What was seen of the leaf; null where a sheet was given.
    evidence: Option<Evidence>,
    /// What it may come from; null where a sheet was given.
    found: Option<Found>,
    /// What can mislead.
    cautions: Vec<String>,
    /// The sheets that were asked for, and what they make.
    sheets: Vec<SheetMakes>,
    /// The program and its version.
    program: String,
}

/// A sheet and its leaves.
#[derive(Debug, Serialize, JsonSchema)]
struct SheetMakes {
    /// The paper, where it was named.
    paper: Option<Paper>,
    /// The sheet.
    sheet: Sheet,
    /// Its leaf in every format.
    leaves: Vec<LeafOf>,
}

/// A leaf of a sheet, before trimming.
#[derive(Debug, Serialize, JsonSchema)]
struct LeafOf {
    /// The format.
    format: &'static str,
    /// How it is folded.
    folds: &'static str,
    /// Its height.
    height: Band,
    /// Its width.
    width: Band,
    /// How chain-lines run.
    chain_lines: ChainLines,
    /// Where the watermark may fall.
    watermark: Vec<Place>,
}

/// Two lengths with an x between.
fn two_lengths(text: &str) -> Result<(Mm, Mm), String> {
    let parts = text.split_once(['x', 'X', '×']);
    let length = |t: &str| t.trim().trim_end_matches("mm").trim().parse::<f64>().ok().map(Mm);
    parts.and_then(|(a, b)| Some((length(a)?, length(b)?))).ok_or_else(|| {
        format!("\"{text}\" is no pair of lengths; give millimetres with an x between, as 172x108")
    })
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
        self.json.tell(&record, &words(&evidence, &found, &record.cautions, self.all))?;
        Ok(if is_told { ExitCode::SUCCESS } else { ExitCode::from(1) })
    }

    /// What a sheet makes.
    fn of_sheet(&self, text: &str) -> Result<ExitCode> {
        let sheets: Vec<(Option<Paper>, Sheet)> = match two_lengths(text) {
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
        let makes = |(paper, sheet): (Option<Paper>, Sheet)| SheetMakes {
            paper,
            sheet,
            leaves: Way::all().map(|way| leaf_of(way, &sheet)).collect(),
        };
        let record = FormatRecord {
            evidence: None,
            found: None,
            cautions: vec![
                "Leaves are given untrimmed; each binding may have taken 3 to 12 mm from an edge.".to_owned(),
                "In 12° and smaller shops differed in how they cut and folded; the watermark may fall otherwise.".to_owned(),
            ],
            sheets: sheets.into_iter().map(makes).collect(),
            program: PROGRAM.into(),
        };
        self.json.tell(&record, &of_sheets(&record))?;
        Ok(ExitCode::SUCCESS)
    }
}

fn leaf_of(way: Way, sheet: &Sheet) -> LeafOf {
    let (height, width) = way.leaf(sheet);
    LeafOf {
        format: way.name(),
        folds: way.folds(),
        height,
        width,
        chain_lines: way.chain_lines(),
        watermark: watermark_places(way),
    }
}

/// A band in whole millimetres.
fn band(b: Band) -> String {
    let (least, most) = (b.least_mm.0.round(), b.most_mm.0.round());
    if (least - most).abs() < 0.5 { format!("{least}") } else { format!("{least}-{most}") }
}

/// A paper by its name, with its period.
fn paper_name(p: &Paper) -> String {
    format!("{} ({})", p.name, p.period)
}

/// Papers listed for each format.
const LISTED: usize = 3;

fn words(evidence: &Evidence, found: &Found, cautions: &[String], all: bool) -> String {
    let chains_alone = evidence.leaf.is_none() && evidence.watermark.is_none();
    let mut out = vec![match found.formats.as_slice() {
        [] => "No format and paper known here agree with all of the evidence.".to_owned(),
        many if chains_alone => {
            format!("The format cannot be told: chain-lines that run so are found in {}.", many.join(", "))
        }
        [one] => format!("The evidence agrees with one format: {one}."),
        many => format!("The evidence agrees with {} formats: {}.", many.len(), many.join(", ")),
    }];
    if let Some((height, width)) = evidence.leaf {
        for &format in &found.formats {
            let these: Vec<&Candidate> =
                found.candidates.iter().filter(|c| c.format == format && !c.contradicts()).collect();
            listed(&mut out, &format!("{format}, leaf of {} by {} mm", height.0, width.0), &these, all);
        }
    }
    let against: Vec<&Candidate> = found.candidates.iter().filter(|c| c.contradicts()).collect();
    if all && evidence.leaf.is_some() {
        listed(&mut out, "Against the chain-lines or the watermark", &against, true);
    } else if evidence.leaf.is_some() {
        let mut formats: Vec<String> = against.iter().map(|c| speaks_against(c)).collect();
        formats.sort();
        formats.dedup();
        list(&mut out, "Of the size would also be, but for what speaks against it", &formats);
    }
    list(&mut out, "Cautions", cautions);
    out.join("\n")
}

/// Why a format is not among those that agree.
fn speaks_against(c: &Candidate) -> String {
    let what = if c.chain_lines == Agreement::Contradicts { "the chain-lines" } else { "the watermark" };
    format!("{}: {what}", c.format)
}

fn listed(out: &mut Vec<String>, title: &str, these: &[&Candidate], all: bool) {
    let shown = if all { these.len() } else { LISTED };
    let mut rows: Vec<String> = these.iter().take(shown).map(|c| row(c)).collect();
    if these.len() > shown {
        rows.push(format!("and {} more papers; --all lists them", these.len() - shown));
    }
    list(out, title, &rows);
}

/// One candidate in words.
fn row(c: &Candidate) -> String {
    let (Some(paper), Some(height), Some(width), Some(trim)) =
        (&c.paper, c.untrimmed_height, c.untrimmed_width, c.trim)
    else {
        return c.format.to_owned();
    };
    let mut said = format!(
        "{}: untrimmed {} by {} mm, so cut by {} mm in height and {} in width",
        paper_name(paper),
        band(height),
        band(width),
        cut(trim.height),
        cut(trim.width)
    );
    if c.distance_mm.0 > 0.0 {
        said.push_str("; more than one binding takes, or the leaf is a little large");
    }
    if c.watermark == Agreement::Nearly {
        said.push_str("; the watermark lies next to where it should");
    }
    if c.year == Agreement::Contradicts {
        said.push_str("; the list is of another time");
    }
    said
}

/// What was cut off, never less than nothing.
fn cut(b: Band) -> String {
    band(Band::new(b.least_mm.0.max(0.0), b.most_mm.0.max(0.0)))
}

fn of_sheets(record: &FormatRecord) -> String {
    let mut out = Vec::new();
    for made in &record.sheets {
        let name = made.paper.as_ref().map_or_else(|| "A sheet".to_owned(), paper_name);
        let (long, short) = (band(made.sheet.long), band(made.sheet.short));
        let rows = made.leaves.iter().map(|l| {
            let places: Vec<String> = l.watermark.iter().map(Place::to_string).collect();
            format!(
                "{}: leaf {} by {} mm; chain-lines {}; watermark {}",
                l.format,
                band(l.height),
                band(l.width),
                l.chain_lines,
                places.join(", or ")
            )
        });
        if !out.is_empty() {
            out.push(String::new());
        }
        out.push(format!("{name}, {long} by {short} mm. Leaves, height by width, untrimmed:"));
        out.extend(rows.map(|r| format!("  - {r}")));
        out.extend(made.paper.map(|p| {
            let seen = if p.standing == paper::Standing::Seen { "seen" } else { "from memory" };
            format!("  Source of the size: {} ({seen})", p.source)
        }));
    }
    list(&mut out, "Cautions", &record.cautions);
    out.join("\n")
}
