//! Pairs of impressions of blocks with known relations: one block, altered, cut again, or another design.

mod kept;
mod look;
mod plan;
mod real;
mod tables;
mod yardstick;

use std::ops::Range;
use std::path::{Path, PathBuf};
use std::time::Instant;

use anyhow::Context as _;
use evidence::block::{BlockComparison, StrokeWindow, compare_cuts};
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
        .collect::<anyhow::Result<Vec<(Outcome, Vec<StrokeWindow>)>>>()?;
    let (mut outcomes, strokes): (Vec<Outcome>, Vec<Vec<StrokeWindow>>) = outcomes.into_iter().unzip();
    if wanted.yardstick {
        yardstick::measure(&mut outcomes, &photographs)?;
    }
    write_json(&folder.join("said.json"), &outcomes)?;
    let rows: Vec<u8> =
        outcomes.iter().zip(&strokes).flat_map(|(o, s)| rows(o.kept.planned.number, s)).collect();
    let path = folder.join("strokes.f32");
    std::fs::write(&path, rows).with_context(|| format!("cannot write {}", path.display()))?;
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
    let outcomes = real::compared(&real_photographs(), only, wanted.look.as_deref())?;
    for o in &outcomes {
        println!("{}", real::line(o));
    }
    let folder = wanted.out.join("blocks-real");
    std::fs::create_dir_all(&folder).with_context(|| format!("cannot make {}", folder.display()))?;
    write_json(&folder.join("said.json"), &outcomes)?;
    let text = format!("### Blocks: real photographs\n\n{made_by}.\n\n{}", real::table(&outcomes));
    println!("{text}");
    if wanted.only.is_none() {
        write_between_marks("blocks-real", &text)?;
    }
    Ok(())
}

/// Windows of strokes of a pair as rows for `fit`: the pair's number, place, column and row, and what was weighed.
fn rows(pair: usize, strokes: &[StrokeWindow]) -> Vec<u8> {
    let row = |w: &StrokeWindow| {
        let place = [pair as f64, w.at.x, w.at.y, w.cell.0 as f64, w.cell.1 as f64, w.bolder_px];
        place.into_iter().chain(w.told).flat_map(|v| (v as f32).to_le_bytes()).collect::<Vec<u8>>()
    };
    strokes.iter().flat_map(row).collect()
}

fn outcome(kept: Kept, folder: &Path, look: Option<&Path>) -> anyhow::Result<(Outcome, Vec<StrokeWindow>)> {
    let (a, b) = (kept.cut(folder, 0)?, kept.cut(folder, 1)?);
    let started = Instant::now();
    let compared = compare_cuts(&a, &b);
    let seconds = started.elapsed().as_secs_f64();
    if let Some(look) = look {
        look::together(&a, &compared, &look.join(format!("{:04}.png", kept.planned.number)))?;
    }
    let least = a.longer().min(b.longer());
    let truth = kept.truth().to_owned();
    let said = compared.comparison;
    let outcome = Outcome { truth, kept, said, least_px: least, seconds, yardstick: None };
    Ok((outcome, compared.strokes))
}

fn line(o: &Outcome) -> String {
    let p = &o.kept.planned.pair;
    let signs = o.said.signs.as_ref().map_or_else(String::new, |s| {
        format!(
            "n {} like {:.2} poorest {:.2} found {:.2} wander {:.2} px {} drift {:.2} say {:.2} shown {:.2}",
            s.windows,
            s.likeness,
            s.poorest,
            s.found,
            s.wandering_px,
            s.wandering_sd.map_or_else(|| "-".to_owned(), |v| format!("{v:.2} sd")),
            s.drift_px.unwrap_or(-1.0),
            s.windows_say,
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
