//! Studies of many copies with known settings, states and places: how well copies are grouped.

mod make;
mod score;
mod tables;
mod truth;

use std::ops::Range;
use std::path::PathBuf;

use anyhow::Context as _;
use serde::Deserialize;

use super::report::write_between_marks;
use super::run::reglet::Reglet;
use super::run::{commit, machine};
use super::set::Set;
use evidence::many::Variant;
use score::Counts;

/// What to run.
#[derive(Debug)]
pub(crate) struct Wanted {
    /// The set.
    pub set: Set,
    /// Only studies with these numbers.
    pub only: Option<Range<usize>>,
    /// Print all copies again.
    pub again: bool,
    /// The folder of the benchmark.
    pub out: PathBuf,
}

/// What is read of the record of many copies.
#[derive(Debug, Clone, Default, Deserialize)]
struct Said {
    /// Copies by setting.
    settings: Vec<Vec<usize>>,
    /// Copies of each setting that agree everywhere.
    groups_within: Vec<Vec<Vec<usize>>>,
    /// Places that differ.
    variants: Vec<Variant>,
}

/// One study, what was said of it, and how that fared.
#[derive(Debug)]
struct Outcome {
    number: usize,
    name: String,
    counts: Counts,
    seconds: f64,
    peak_bytes: Option<u64>,
}

/// Prints what is not there, compares, and tells.
pub(crate) fn run(wanted: &Wanted) -> anyhow::Result<()> {
    anyhow::ensure!(
        matches!(wanted.set, Set::Dev | Set::Sealed),
        "there are studies for dev and sealed alone"
    );
    let folder = wanted.out.join(format!("studies-{}", wanted.set.name()));
    let plan = make::plan(wanted.set);
    let studies: Vec<_> = plan
        .iter()
        .filter(|planned| wanted.only.as_ref().is_none_or(|only| only.contains(&planned.number)))
        .collect();
    anyhow::ensure!(!studies.is_empty(), "no study of the set is wanted");
    let reglet = Reglet::build(&folder.join("said"))?;
    let mut outcomes = Vec::new();
    for planned in &studies {
        let (photographs, truth) = make::study(planned, &folder, wanted.again)?;
        let ran = reglet.compare(planned.number, &photographs)?;
        let said: Said = serde_json::from_slice(&ran.output)
            .with_context(|| format!("study {}: no record; {}", planned.number, ran.errors))?;
        let outcome = Outcome {
            number: planned.number,
            name: planned.name(),
            counts: score::count(&truth, &said),
            seconds: ran.seconds,
            peak_bytes: ran.peak_bytes,
        };
        eprintln!("{}", tables::line(&outcome));
        outcomes.push(outcome);
    }
    let text =
        tables::tables(wanted.set, &outcomes, &format!("Reglet of commit {}; {}", commit(), machine()));
    println!("{text}");
    if studies.len() == plan.len() {
        write_between_marks(&format!("studies-{}", wanted.set.name()), &text)?;
    }
    Ok(())
}
