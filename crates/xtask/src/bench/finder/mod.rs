//! Sheets with cuts on them, and without: how well these are found, and told from type and its ornaments.

mod make;
mod pictures;
mod plan;
mod score;
mod tables;

use std::ops::Range;
use std::path::PathBuf;
use std::time::Instant;

use anyhow::Context as _;
use press::Founts;
use rayon::prelude::*;
use sheet::decode::{DecodeRequest, decode};
use sheet::{FoundCut, Plane};

use super::pair::write_json;
use super::report::write_between_marks;
use super::run::{commit, machine};
use super::set::Set;
use plan::{Planned, plan};

/// What to run.
#[derive(Debug)]
pub(crate) struct Wanted {
    /// The set.
    pub set: Set,
    /// How many sheets.
    pub sheets: usize,
    /// Only sheets with these numbers.
    pub only: Option<Range<usize>>,
    /// A folder for pictures of the sheets that did not fare well.
    pub look: Option<PathBuf>,
    /// The folder of the benchmark.
    pub out: PathBuf,
}

/// The level that is laid out has a longer side of at most so many samples, as in the program.
const LAID_OUT_AT: usize = 2600;

/// Prints the sheets, unless they are there, finds their cuts, and tells; of a whole run also in docs/benchmarks.md.
pub(crate) fn run(wanted: &Wanted) -> anyhow::Result<()> {
    let founts = Founts::open().context("the founts of the press do not open")?;
    let folder = wanted.out.join(format!("finder-{}", wanted.set.name()));
    for folder in [Some(&folder), wanted.look.as_ref()].into_iter().flatten() {
        std::fs::create_dir_all(folder).with_context(|| format!("cannot make {}", folder.display()))?;
    }
    let planned: Vec<Planned> = plan(wanted.set, wanted.sheets)
        .into_iter()
        .filter(|p| wanted.only.as_ref().is_none_or(|only| only.contains(&p.number)))
        .collect();
    let made = planned
        .par_iter()
        .map(|p| make::made(p, &founts, &folder))
        .collect::<anyhow::Result<Vec<(PathBuf, make::SheetTruth)>>>()?;
    let mut outcomes = Vec::with_capacity(planned.len());
    // One at a time, for the seconds.
    for (planned, (photograph, truth)) in planned.iter().zip(&made) {
        let bytes =
            std::fs::read(photograph).with_context(|| format!("cannot read {}", photograph.display()))?;
        let mut luminance = decode(&bytes, &DecodeRequest::default())?.luminance;
        if let Some(p) = truth.part {
            luminance = luminance.crop(p.x as usize, p.y as usize, p.w as usize, p.h as usize);
        }
        let (found, seconds) = found(&luminance);
        let outcome = score::score(planned, truth, &found, seconds);
        if let Some(line) = tables::line(&outcome) {
            eprintln!("{line}");
            if let Some(folder) = &wanted.look {
                pictures::draw(
                    &luminance,
                    truth,
                    &found,
                    &folder.join(format!("{:04}.png", planned.number)),
                )?;
            }
        }
        outcomes.push(outcome);
    }
    anyhow::ensure!(!outcomes.is_empty(), "there is no sheet of these numbers");
    write_json(&folder.join("said.json"), &outcomes)?;
    let made_by = format!("Reglet of commit {}; {}", commit(), machine());
    let text = tables::tables(wanted.set, &outcomes, &made_by);
    println!("{text}");
    if wanted.only.is_none() {
        write_between_marks(&format!("finder-{}", wanted.set.name()), &text)?;
    }
    Ok(())
}

/// The cuts of a photograph, in its pixels, and the seconds that laying it out took.
fn found(luminance: &Plane<u8>) -> (Vec<FoundCut>, f64) {
    let mut ink = sheet::ink(luminance).darkness;
    let mut reduction = 1.0;
    while ink.width().max(ink.height()) > LAID_OUT_AT {
        (ink, reduction) = (ink.halved(), 2.0 * reduction);
    }
    let started = Instant::now();
    let layout = sheet::layout(&ink, reduction);
    (layout.cuts, started.elapsed().as_secs_f64())
}
