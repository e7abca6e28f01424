//! Pairs of impressions of blocks with known relations: one block, altered, cut again, or another design.

mod plan;

use std::ops::Range;
use std::path::PathBuf;
use std::time::Instant;

use anyhow::Context as _;
use evidence::block::{BlockComparison, Cut, compare_cuts};
use press::Founts;
use press::block::BlockPull;
use rayon::prelude::*;
use serde::{Deserialize, Serialize};
use sheet::decode::{DecodeRequest, decode};
use sheet::{Plane, Rect};

use super::pair::write_json;
use super::set::Set;
use plan::{Planned, plan};

/// What to run.
#[derive(Debug)]
pub(crate) struct Wanted {
    /// The set.
    pub set: Set,
    /// How many pairs.
    pub pairs: usize,
    /// Only pairs with these numbers.
    pub only: Option<Range<usize>>,
    /// The folder of the benchmark.
    pub out: PathBuf,
}

/// A pair, what is true of it and what was said.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub(super) struct Outcome {
    planned: Planned,
    /// The right verdict.
    pub(super) truth: String,
    pub(super) said: BlockComparison,
    /// Least width of the cut on either photograph, pixels.
    pub(super) least_px: f64,
    /// Seconds that comparing took, laying included.
    pub(super) seconds: f64,
}

/// Prints the pairs, compares, and tells.
pub(crate) fn run(wanted: &Wanted) -> anyhow::Result<()> {
    let founts = Founts::open().context("the founts of the press do not open")?;
    let planned: Vec<Planned> = plan(wanted.set, wanted.pairs)
        .into_iter()
        .filter(|p| wanted.only.as_ref().is_none_or(|only| only.contains(&p.number)))
        .collect();
    let outcomes =
        planned.par_iter().map(|p| outcome(p, &founts)).collect::<anyhow::Result<Vec<Outcome>>>()?;
    let folder = wanted.out.join(format!("blocks-{}", wanted.set.name()));
    std::fs::create_dir_all(&folder).with_context(|| format!("cannot make {}", folder.display()))?;
    write_json(&folder.join("said.json"), &outcomes)?;
    for o in &outcomes {
        println!("{}", line(o));
    }
    Ok(())
}

fn outcome(planned: &Planned, founts: &Founts) -> anyhow::Result<Outcome> {
    let printed = planned.pair.print(founts).with_context(|| format!("pair {}", planned.number))?;
    let [(a, place_a), (b, place_b)] = [photographed(&printed.a)?, photographed(&printed.b)?];
    let started = Instant::now();
    let cut =
        |ink: &Plane<u8>, place| Cut::of(ink, place, None).context("the block is not on its photograph");
    let (a, b) = (cut(&a, place_a)?, cut(&b, place_b)?);
    let said = compare_cuts(&a, &b).comparison;
    let odd = printed.pieces.iter().find(|p| p.verdict != "same-block");
    let truth = odd.map_or("same-block", |p| &p.verdict).to_owned();
    let truth = if printed.pieces.len() > 1 && truth != "same-block" {
        "same-block-altered".to_owned()
    } else {
        truth
    };
    let least = |r: Rect| r.w.max(r.h);
    Ok(Outcome {
        planned: *planned,
        truth,
        said,
        least_px: least(place_a).min(least(place_b)),
        seconds: started.elapsed().as_secs_f64(),
    })
}

/// The ink of a photograph as it is read from its file, and the box of all its blocks, pixels.
fn photographed(pull: &BlockPull) -> anyhow::Result<(Plane<u8>, Rect)> {
    let bytes = pull.picture.to_jpeg(QUALITY, None)?;
    let photograph = decode(&bytes, &DecodeRequest::default())?;
    let boxes = pull.truth.cuts.iter().flat_map(|c| c.box_px.corners());
    let place = Rect::around(boxes).context("no block was printed")?;
    Ok((sheet::ink(&photograph.luminance).darkness, place))
}

/// Quality of the JPEGs (common practice, no source).
const QUALITY: u8 = 88;

fn line(o: &Outcome) -> String {
    let p = &o.planned.pair;
    let signs = o.said.signs.as_ref().map_or_else(String::new, |s| {
        format!(
            "n {} like {:.2} poorest {:.2} found {:.2} wander {:.2} px {} drift {:.2} shown {:.2}",
            s.windows,
            s.likeness,
            s.poorest,
            s.found,
            s.wandering_px,
            s.wandering_sd.map_or_else(|| "-".to_owned(), |v| format!("{v:.2} sd")),
            s.drift_px.unwrap_or(-1.0),
            s.shown
        )
    });
    format!(
        "{:>4} {:<18} {:<18} {:?} {:?} {:.0} mm {:.0}/{:.0} ppi level {} {:.0} px: weight {:?} comp {:.2} {signs} pieces {} altered {} {:.2} s",
        o.planned.number,
        o.truth,
        o.said.verdict.code(),
        p.relation,
        p.cut,
        p.size.0,
        p.ppi_a.0,
        p.ppi_b.0,
        p.level,
        o.least_px,
        o.said.weight_log10.map(|w| (w * 100.0).round() / 100.0),
        o.said.composition,
        o.said.pieces.len(),
        o.said.altered.len(),
        o.seconds
    )
}
