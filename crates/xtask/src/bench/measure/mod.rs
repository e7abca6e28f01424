//! Sheets of known truth, measured one by one: lines and sizes of type, and what went wrong at press.

mod creases;
mod fit;
mod incidents;
mod lines;
mod look;
mod make;
mod plan;
mod real;
mod tables;

use std::ops::Range;
use std::path::PathBuf;
use std::time::Instant;

use anyhow::Context as _;
use evidence::measure::{Side, measures, type_sizes};
use press::{Founts, Truth};
use rayon::prelude::*;
use serde::Serialize;
use sheet::decode::{DecodeRequest, decode};
use sheet::scale::{STATED_RELATIVE_SD, Scale, ScaleSource};

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
    /// A folder for pictures of what did not fare well.
    pub look: Option<PathBuf>,
    /// The folder of the benchmark.
    pub out: PathBuf,
}

/// What came of one sheet.
#[derive(Debug, Serialize)]
struct Outcome {
    planned: Planned,
    lines: lines::Lines,
    incidents: Vec<incidents::OfClass>,
    seconds: f64,
    megapixels: f64,
}

/// Prints the sheets, unless they are there, measures them, and tells; of a whole run also in docs/benchmarks.md.
pub(crate) fn run(wanted: &Wanted) -> anyhow::Result<()> {
    if wanted.set == Set::Real {
        let text = format!("{}\nReglet of commit {}; {}.\n\n", real::table()?, commit(), machine());
        println!("{text}");
        return write_between_marks("measure-real", &text);
    }
    let founts = Founts::open().context("the founts of the press do not open")?;
    let folder = wanted.out.join(format!("measure-{}", wanted.set.name()));
    for folder in [Some(&folder), wanted.look.as_ref()].into_iter().flatten() {
        std::fs::create_dir_all(folder).with_context(|| format!("cannot make {}", folder.display()))?;
    }
    let planned: Vec<Planned> = plan(wanted.set, wanted.sheets)
        .into_iter()
        .filter(|p| wanted.only.as_ref().is_none_or(|only| only.contains(&p.number)))
        .collect();
    planned.par_iter().try_for_each(|p| make::made(p, &founts, &folder).map(|_| ()))?;
    if wanted.set == Set::Fit {
        return fit::write(&planned, &founts, &folder);
    }
    let mut outcomes = Vec::with_capacity(planned.len());
    // One at a time, for the seconds.
    for planned in &planned {
        let (photograph, truth) = make::made(planned, &founts, &folder)?;
        let bytes =
            std::fs::read(&photograph).with_context(|| format!("cannot read {}", photograph.display()))?;
        let luminance = decode(&bytes, &DecodeRequest::default())?.luminance;
        let scale = scale_of(&truth);
        let started = Instant::now();
        let side = Side::of(&luminance, Some(scale));
        let measures = measures(&side);
        let seconds = started.elapsed().as_secs_f64();
        let outcome = Outcome {
            planned: *planned,
            lines: lines::against(&truth, &side, &type_sizes(&side.layout), &measures, &founts),
            incidents: incidents::against(&truth, &side, &measures.incidents),
            seconds,
            megapixels: luminance.data().len() as f64 / 1e6,
        };
        if let Some(folder) = &wanted.look {
            look::draw(&photograph, planned.number, &outcome.incidents, folder)?;
        }
        outcomes.push(outcome);
    }
    anyhow::ensure!(!outcomes.is_empty(), "there is no sheet of these numbers");
    write_json(&folder.join("said.json"), &outcomes)?;
    let made_by = format!("Reglet of commit {}; {}", commit(), machine());
    let text = tables::tables(wanted.set, &outcomes, &made_by);
    println!("{text}");
    if wanted.only.is_none() {
        write_between_marks(&format!("measure-{}", wanted.set.name()), &text)?;
    }
    Ok(())
}

/// The scale of a photograph, stated as it is.
fn scale_of(truth: &Truth) -> Scale {
    Scale { ppi: truth.ppi, relative_sd: STATED_RELATIVE_SD, source: ScaleSource::StatedPpi }
}
