//! Pairs of impressions of blocks with known relations: one block, altered, cut again, or another design.

mod kept;
mod look;
mod plan;
mod real;
mod rows;
mod tables;
mod wandered;
mod yardstick;

use std::ops::Range;
use std::path::{Path, PathBuf};
use std::time::Instant;

use anyhow::Context as _;
use evidence::block::{BlockComparison, compare_cuts};
use press::Founts;
use rayon::prelude::*;
use serde::{Deserialize, Serialize};

use super::pair::write_json;
use super::press_tree::press_tree;
use super::report::write_between_marks;
use super::run::{commit, machine};
use super::set::{Set, real_photographs};
use kept::{Kept, kept};
use plan::{Planned, plan};
use rows::Windows;

/// What to run.
#[derive(Debug)]
pub(crate) struct Wanted {
    /// The set.
    pub set: Set,
    /// How many pairs.
    pub pairs: usize,
    /// Only pairs with these numbers.
    pub only: Option<Range<usize>>,
    /// Where pictures of both inks together go, if they are wanted.
    pub look: Option<PathBuf>,
    /// Whether the yardstick is asked about the same pairs.
    pub yardstick: bool,
    /// The folder of the benchmark.
    pub out: PathBuf,
}

/// A pair, what is true of it and what was said.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub(super) struct Outcome {
    kept: Kept,
    /// The right verdict.
    pub(super) truth: String,
    pub(super) said: BlockComparison,
    /// Least width of the cut on either photograph, pixels.
    pub(super) least_px: f64,
    /// Seconds that comparing took, laying included.
    pub(super) seconds: f64,
    /// What the yardstick made of it, where it was asked.
    yardstick: Option<yardstick::Measured>,
}

/// Prints the pairs, unless they are there, compares, and tells.
pub(crate) fn run(wanted: &Wanted) -> anyhow::Result<()> {
    let made_by = format!("Reglet of commit {}; {}", commit(), machine());
    if wanted.set == Set::Real {
        return run_real(wanted, &made_by);
    }
    let founts = Founts::open().context("the founts of the press do not open")?;
    let planned: Vec<Planned> = plan(wanted.set, wanted.pairs)
        .into_iter()
        .filter(|p| wanted.only.as_ref().is_none_or(|only| only.contains(&p.number)))
        .collect();
    let folder = wanted.out.join(format!("blocks-{}", wanted.set.name()));
    let photographs = folder.join("photographs");
    for folder in [Some(&photographs), wanted.look.as_ref()].into_iter().flatten() {
        std::fs::create_dir_all(folder).with_context(|| format!("cannot make {}", folder.display()))?;
    }
    let press = press_tree();
    let outcomes = planned
        .par_iter()
        .map(|p| {
            let kept = kept(p, &photographs, &press, &founts)?;
            outcome(kept, &photographs, wanted.look.as_deref()).with_context(|| format!("pair {}", p.number))
        })
        .collect::<anyhow::Result<Vec<(Outcome, Windows)>>>()?;
    let (mut outcomes, windows): (Vec<Outcome>, Vec<Windows>) = outcomes.into_iter().unzip();
    if wanted.yardstick {
        yardstick::measure(&mut outcomes, &photographs)?;
    }
    write_json(&folder.join("said.json"), &outcomes)?;
    rows::write(&windows, &folder)?;
    for o in &outcomes {
        println!("{}", line(o));
    }
    let text = tables::tables(&outcomes, wanted.set.label(), &made_by);
    println!("{text}");
    if wanted.only.is_none() && wanted.set != Set::Fit {
        write_between_marks(&format!("blocks-{}", wanted.set.name()), &text)?;
    }
    Ok(())
}

/// Compares the real pairs, where the photographs are.
fn run_real(wanted: &Wanted, made_by: &str) -> anyhow::Result<()> {
    let only = |id: usize| wanted.only.as_ref().is_none_or(|only| only.contains(&id));
    if let Some(look) = &wanted.look {
        std::fs::create_dir_all(look).with_context(|| format!("cannot make {}", look.display()))?;
    }
    let compared = real::compared(&real_photographs(), only, wanted.look.as_deref())?;
    let (all, windows): (Vec<real::RealOutcome>, Vec<Windows>) = compared.into_iter().unzip();
    for o in &all {
        println!("{}", real::line(o));
    }
    let folder = wanted.out.join("blocks-real");
    std::fs::create_dir_all(&folder).with_context(|| format!("cannot make {}", folder.display()))?;
    write_json(&folder.join("said.json"), &all)?;
    rows::write(&windows, &folder)?;
    let outcomes: Vec<real::RealOutcome> = all.into_iter().filter(|o| !o.is_drawn()).collect();
    let text = format!("### Blocks: real photographs\n\n{made_by}.\n\n{}", real::table(&outcomes));
    println!("{text}");
    if wanted.only.is_none() {
        write_between_marks("blocks-real", &text)?;
    }
    Ok(())
}

fn outcome(kept: Kept, folder: &Path, look: Option<&Path>) -> anyhow::Result<(Outcome, Windows)> {
    let (a, b) = (kept.cut(folder, 0)?, kept.cut(folder, 1)?);
    let started = Instant::now();
    let mut compared = compare_cuts(&a, &b);
    let seconds = started.elapsed().as_secs_f64();
    if let Some(look) = look {
        look::together(&a, &compared, &look.join(format!("{:04}.png", kept.planned.number)))?;
    }
    let least = a.longer().min(b.longer());
    let truth = kept.truth().to_owned();
    let windows = Windows::of(kept.planned.number, &mut compared);
    let said = compared.comparison;
    let outcome = Outcome { truth, kept, said, least_px: least, seconds, yardstick: None };
    Ok((outcome, windows))
}

fn line(o: &Outcome) -> String {
    let p = &o.kept.planned.pair;
    let signs = o.said.signs.as_ref().map_or_else(String::new, |s| {
        format!(
            "n {} like {:.2} poorest {:.2} found {:.2} wander {:.2} px {} drift {:.2} say {:.2} sight {:.2} {:.2} shown {:.2}",
            s.windows,
            s.likeness,
            s.poorest,
            s.found,
            s.wandering_px,
            s.wandering_sd.map_or_else(|| "-".to_owned(), |v| format!("{v:.2} sd")),
            s.drift_px.unwrap_or(-1.0),
            s.windows_say,
            s.sight,
            s.sight_poorest,
            s.shown
        )
    });
    format!(
        "{:>4} {:<18} {:<18} {:?} {:?} {:.0} mm {:.0}/{:.0} ppi level {} {:.0} px: weight {:?} design {:.2} comp {:.2} {signs} pieces {} altered {:?} edges {:?} {:.2} s",
        o.kept.planned.number,
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
        o.said.design_log10,
        o.said.composition,
        o.said.pieces.len(),
        o.said.altered.iter().map(|a| a.what).collect::<Vec<_>>(),
        o.said.edges_per_mille.map(|e| e.map(f64::round)),
        o.seconds
    )
}
