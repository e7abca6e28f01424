//! Pairs of real impressions of cuts, as they are listed with the photographs: of one block, or that look alike.

use std::path::Path;
use std::time::Instant;

use anyhow::Context as _;
use evidence::block::{BlockComparison, BlockVerdict, Cut, compare_cuts};
use rayon::prelude::*;
use serde::{Deserialize, Serialize};
use sheet::Rect;
use sheet::decode::{DecodeRequest, decode};

use super::look;
use super::rows::Windows;
use super::wandered::{DrawnAs, drawn};
use crate::bench::boxed::Read;
use crate::bench::pair::read_json;
use crate::bench::report::table::Table;

/// Listed as close copies, but looked at as pictures they seem to be of one block, badly inked (64 and 65) or cut down (95).
const DOUBTED: [usize; 3] = [64, 65, 95];

/// Where a cut is on a photograph.
#[derive(Debug, Deserialize)]
struct Found {
    file: String,
    #[serde(rename = "box")]
    place: [f64; 4],
}

/// An entry of the list.
#[derive(Debug, Deserialize)]
struct Listed {
    id: usize,
    kind: String,
    closeness: String,
    a: Found,
    b: Found,
}

/// A real pair and what was said of it.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub(super) struct RealOutcome {
    /// Its number in the list.
    pub id: usize,
    /// What it is listed as.
    pub kind: String,
    pub said: BlockComparison,
    /// Seconds that comparing took, laying included.
    pub seconds: f64,
}

/// Numbers of pairs whose second impression was drawn anew: so much is added for each way.
const DRAWN: usize = 1000;
/// The ways.
const WAYS: [(DrawnAs, &str); 4] = [
    (DrawnAs::ItWas, "drawn as it was"),
    (DrawnAs::ACopy, "drawn as a copy"),
    (DrawnAs::ItWas, "drawn as it was"),
    (DrawnAs::ACopy, "drawn as a copy"),
];

impl RealOutcome {
    /// Whether the second impression was drawn anew: no real pair, but what the weight is fitted to beside them.
    pub(super) fn is_drawn(&self) -> bool {
        self.id >= DRAWN
    }
}

/// Compares the listed pairs that have one of these numbers, or all; and those of one block once more with the second impression
/// drawn anew, as it was and as a copy.
pub(super) fn compared(
    real: &Path,
    wanted: impl Fn(usize) -> bool + Sync,
    to: Option<&Path>,
) -> anyhow::Result<Vec<(RealOutcome, Windows)>> {
    let listed: Vec<Listed> = read_json(&real.join("pairs.json"))?;
    let of_each = listed
        .par_iter()
        .filter(|l| wanted(l.id))
        .filter_map(|l| Some((l, kind(l)?)))
        .map(|(l, kind)| {
            let (a, second) = (cut(&read(real, &l.a)?, &l.a)?, read(real, &l.b)?);
            let outcome = |id: usize, kind: &str, b: &Cut| {
                let started = Instant::now();
                let mut compared = compare_cuts(&a, b);
                let seconds = started.elapsed().as_secs_f64();
                if let Some(to) = to {
                    look::together(&a, &compared, &to.join(format!("real-{id:04}.png")))?;
                }
                let windows = Windows::of(id, &mut compared);
                let said = compared.comparison;
                anyhow::Ok((RealOutcome { id, kind: kind.to_owned(), said, seconds }, windows))
            };
            let mut all = vec![outcome(l.id, kind, &cut(&second, &l.b)?)?];
            if kind == "one block" {
                for (k, (what, name)) in WAYS.into_iter().enumerate() {
                    let id = DRAWN * (k + 1) + l.id;
                    let anew = drawn(&second.ink, l.b.place(), what, id as u64)
                        .context("the box is off its photograph")?;
                    all.push(outcome(id, name, &anew)?);
                }
            }
            Ok(all)
        })
        .collect::<anyhow::Result<Vec<_>>>()?;
    Ok(of_each.into_iter().flatten().collect())
}

/// Under what a pair is counted; `None` of what is no cut, or was undecided.
fn kind(l: &Listed) -> Option<&'static str> {
    match (l.kind.as_str(), l.closeness.as_str()) {
        ("same-block", _) => Some("one block"),
        ("different-block-lookalike", "close copy") => Some("close copy"),
        ("different-block-lookalike", _) => Some("same letter or subject"),
        _ => None,
    }
}

impl Found {
    fn place(&self) -> Rect {
        let [x, y, w, h] = self.place;
        Rect::new(x, y, w, h)
    }
}

fn read(real: &Path, found: &Found) -> anyhow::Result<Read> {
    let path = real.join(&found.file);
    let bytes = std::fs::read(&path).with_context(|| format!("cannot read {}", path.display()))?;
    let photograph = decode(&bytes, &DecodeRequest::default())
        .with_context(|| format!("cannot decode {}", path.display()))?;
    Ok(Read::of(&photograph.luminance))
}

fn cut(read: &Read, found: &Found) -> anyhow::Result<Cut> {
    read.cut(found.place(), None).with_context(|| format!("the box of {} is off it", found.file))
}

/// The table, with the doubted pairs and without.
pub(super) fn table(outcomes: &[RealOutcome]) -> String {
    let mut table =
        Table::new(["listed as", "one block", "altered", "cut again", "other design", "undetermined"]);
    for kind in ["one block", "close copy", "same letter or subject"] {
        for without in [false, true] {
            let of: Vec<&RealOutcome> =
                outcomes.iter().filter(|o| o.kind == kind && !(without && DOUBTED.contains(&o.id))).collect();
            if without && of.len() == outcomes.iter().filter(|o| o.kind == kind).count() {
                continue;
            }
            let name = if without { format!("{kind}, without {DOUBTED:?}") } else { kind.to_owned() };
            let told = |v: BlockVerdict| of.iter().filter(|o| o.said.verdict == v).count().to_string();
            table.row([format!("{name} ({})", of.len())].into_iter().chain(BlockVerdict::ALL.map(told)));
        }
    }
    table.markdown()
}

/// A line on the terminal.
pub(super) fn line(o: &RealOutcome) -> String {
    let signs = o.said.signs.as_ref().map_or_else(String::new, |s| {
        format!(
            "n {} like {:.2} found {:.2} drift {:.2} say {:.2} sight {:.2} {:.2}",
            s.windows,
            s.likeness,
            s.found,
            s.drift_px.unwrap_or(-1.0),
            s.windows_say,
            s.sight,
            s.sight_poorest
        )
    });
    format!(
        "{:>4} {:<22} {:<18} weight {:?} design {:.2} comp {:.2} {signs} pieces {:?} altered {} mirrored {} {:.2} s",
        o.id,
        o.kind,
        o.said.verdict.code(),
        o.said.weight_log10.map(|w| (w * 100.0).round() / 100.0),
        o.said.design_log10,
        o.said.composition,
        o.said.pieces.iter().map(|p| (p.verdict.code(), p.box_a_px.map(f64::round))).collect::<Vec<_>>(),
        o.said.altered.len(),
        o.said.is_mirrored,
        o.seconds
    )
}
