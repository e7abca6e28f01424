//! `reglet imposition`: how the pages of a format lie on the stone, in words, characters, and as a picture.

use super::told::Answers;
use crate::say::list;
use anyhow::{Result, anyhow};
use clap::Args;
use publish::record::PROGRAM;
use schemars::JsonSchema;
use serde::Serialize;
use std::process::ExitCode;
use trade::format::{OnLeaf, Way, watermark};
use trade::imposition::{Extent, Imposition as Imposed, in_characters, scheme, schemes, svg, turning};

/// Show which pages lie in which forme, and where on the stone, so that the folded sheet reads in order.
///
/// A forme is shown as the compositor sees it who stands before the stone; the print is its looking-glass image. ^ is a page
/// whose head lies away from him, v one whose head lies towards him. Below each page its leaf: A5r is the front of the
/// fifth leaf.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  reglet imposition 8
      the sheet of octavo on which the Hallow press printed its almanacs
  reglet imposition 12 --half --picture twelves.svg
      a half-sheet of twelves, also drawn

Exit codes: 0 done, 2 the work could not be done.")]
pub struct Imposition {
    /// The format: 8, 8°, 8vo, octavo; 1, 2, 4, 8, 12, 16, 18, 24, 32 or 64.
    #[arg(value_name = "FORMAT", value_parser = number)]
    format: u16,
    /// Which way of a format that has several: common, long, broad, across.
    #[arg(long, value_name = "WAY")]
    way: Option<String>,
    /// Half a sheet instead of a whole one.
    #[arg(long)]
    half: bool,
    /// How many leaves each gathering of the sheet has, where there is a choice: 12, or 8,4.
    #[arg(long, value_name = "N[,N...]", value_delimiter = ',')]
    gathered: Option<Vec<u16>>,
    #[command(flatten)]
    results: Answers,
}

/// What `reglet imposition --json` writes.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct ImpositionRecord {
    /// The scheme.
    #[serde(flatten)]
    imposed: Imposed,
    /// Where the watermark falls: one list for each half of the whole sheet that it may lie in; none for a half-sheet.
    watermark: Vec<Vec<OnLeaf>>,
    /// Other ways of this format, as they are asked for.
    others: Vec<String>,
    /// What can mislead.
    cautions: Vec<String>,
    /// The program and its version.
    program: String,
}

/// A format by its number or name.
fn number(text: &str) -> Result<u16, String> {
    let small = text.trim().to_lowercase();
    let digits: String = small.chars().take_while(char::is_ascii_digit).collect();
    let rest = &small[digits.len()..];
    let by_name = match small.as_str() {
        "broadside" => Some(1),
        "folio" | "fol." | "fol" => Some(2),
        "quarto" => Some(4),
        "octavo" => Some(8),
        "duodecimo" | "twelves" => Some(12),
        "sixteens" => Some(16),
        "eighteens" => Some(18),
        "twenty-fours" => Some(24),
        _ if ["", "°", "º", "o", "to", "vo", "mo"].contains(&rest) => digits.parse().ok(),
        _ => None,
    };
    by_name.filter(|n| Way::numbers().contains(n)).ok_or_else(|| {
        format!(
            "\"{text}\" is no format; known are 1, 2, 4, 8, 12, 16, 18, 24, 32 and 64 leaves to the sheet"
        )
    })
}

const CAUTIONS: [&str; 2] = [
    "Shops differed, above all in 12° and smaller: these are schemes that fold right, not the only ones. Point-holes, the \
     watermark and offset ink tell what was done in one book.",
    "A half-sheet printed from one forme and a whole sheet cut in two look alike when folded.",
];

impl Imposition {
    /// Lays out the scheme, and says and draws it.
    ///
    /// # Errors
    /// A way or gathering that is not known, a file that cannot be written.
    pub fn run(&self) -> Result<ExitCode> {
        self.results.check(None)?;
        let way = self.way()?;
        let extent = if self.half { Extent::Half } else { Extent::Whole };
        let imposed = scheme(way, extent, self.gathered.as_deref()).ok_or_else(|| Self::none(way, extent))?;
        let record = ImpositionRecord {
            watermark: if self.half { Vec::new() } else { fallen(&imposed) },
            others: self.others(&imposed),
            cautions: CAUTIONS.map(str::to_owned).to_vec(),
            program: PROGRAM.into(),
            imposed,
        };
        let drawn = self.results.wants_picture().then(|| svg(&record.imposed));
        self.results.tell(&record, &Self::words(&record), drawn.as_deref())?;
        Ok(ExitCode::SUCCESS)
    }

    /// The way that is asked for, or the first of the format.
    fn way(&self) -> Result<Way> {
        let ways: Vec<Way> = Way::of(self.format).collect();
        let Some(wanted) = &self.way else {
            // The common way is the first to be meant.
            let common = ways.iter().find(|w| w.name().ends_with("common"));
            return common
                .or(ways.first())
                .copied()
                .ok_or_else(|| anyhow!("no format of {} leaves", self.format));
        };
        ways.iter().find(|w| kind(**w) == wanted.to_lowercase()).copied().ok_or_else(|| {
            let names: Vec<&str> = ways.iter().map(|w| kind(*w)).filter(|k| !k.is_empty()).collect();
            if names.is_empty() {
                anyhow!("{}° has one way only; leave --way away", self.format)
            } else {
                anyhow!("\"{wanted}\" is no way of {}°; it has {}", self.format, names.join(", "))
            }
        })
    }

    /// Why there is no such scheme.
    fn none(way: Way, extent: Extent) -> anyhow::Error {
        let known: Vec<String> = schemes()
            .iter()
            .filter(|s| s.way == way && s.extent == extent)
            .map(|s| gathered(&s.gatherings))
            .collect();
        if !known.is_empty() {
            return anyhow!("{way} is not known here gathered so; --gathered may be {}", known.join(" or "));
        }
        anyhow!(
            "half a sheet of {way} is a single leaf of half the size, printed from one page; there is nothing to lay out"
        )
    }

    /// Other schemes of the format, as options.
    fn others(&self, shown: &Imposed) -> Vec<String> {
        let mut others: Vec<String> = schemes()
            .iter()
            .filter(|s| s.way.leaves() == self.format && *s != shown)
            .map(|s| {
                let kind = kind(s.way);
                let way = if kind.is_empty() { String::new() } else { format!(" --way {kind}") };
                let half = if s.extent == Extent::Half { " --half" } else { "" };
                let several = schemes().iter().filter(|o| o.way == s.way && o.extent == s.extent).count() > 1;
                let gathered =
                    if several { format!(" --gathered {}", gathered(&s.gatherings)) } else { String::new() };
                format!("reglet imposition {}{way}{half}{gathered}", self.format)
            })
            .collect();
        others.dedup();
        others
    }

    fn words(record: &ImpositionRecord) -> String {
        let imposed = &record.imposed;
        let sheet = match imposed.extent {
            Extent::Whole => "a whole sheet",
            Extent::Half => "a half-sheet",
        };
        let n = imposed.gatherings.len();
        let mut out = vec![
            format!("{}, {sheet}: {}, {} pages.", imposed.format, imposed.in_gatherings(), imposed.pages()),
            "The formes as they lie on the stone; you stand below. ^ head away from you, v head towards you."
                .to_owned(),
            String::new(),
            in_characters(imposed).trim_end().to_owned(),
            String::new(),
            turning(imposed).to_owned(),
            format!("Then: {}.", imposed.making_up),
        ];
        let fallen: Vec<String> = record.watermark.iter().map(|half| marks(half, n > 1)).collect();
        list(&mut out, "The watermark, by the half of the sheet that it lies in", &fallen);
        list(&mut out, "Other ways of this format", &record.others);
        list(&mut out, "Cautions", &record.cautions);
        out.join("\n")
    }
}

/// The part of a way's name that tells it from others of its format: "long".
fn kind(way: Way) -> &'static str {
    way.name().split_once(' ').map_or("", |(_, kind)| kind)
}

/// Leaves of gatherings as they are typed: 8,4.
fn gathered(leaves: &[u16]) -> String {
    leaves.iter().map(u16::to_string).collect::<Vec<_>>().join(",")
}

/// Where the watermark falls in this very scheme.
fn fallen(imposed: &Imposed) -> Vec<Vec<OnLeaf>> {
    let all = schemes();
    let same_way = all.iter().filter(|s| s.way == imposed.way && s.extent == Extent::Whole);
    // `watermark` has two lists for every scheme of the way, in the order of the schemes.
    let nth = same_way.clone().position(|s| s == imposed).unwrap_or(0);
    watermark(imposed.way).into_iter().skip(2 * nth).take(2).collect()
}

/// One half's leaves in words.
fn marks(half: &[OnLeaf], several: bool) -> String {
    let leaves: Vec<String> = half
        .iter()
        .map(|on| {
            let gathering =
                if several { format!(" of gathering {}", on.gathering + 1) } else { String::new() };
            format!("leaf {}{gathering} {}", on.leaf, on.place)
        })
        .collect();
    leaves.join("; ")
}
