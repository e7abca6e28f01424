//! Histories of blocks with known damage: what is found of it, and what is told that is not.

mod cells;
mod look;
mod plan;
mod table;
mod truth;

use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Instant;

use anyhow::Context as _;
use chronology::Sighting;
use evidence::block::{Cut, Damage, Impressed, Looked, SHAPES, Shows, best_of, lay};
use press::Founts;
use press::block::BlockPull;
use rayon::prelude::*;
use register::Laid;
use serde::{Deserialize, Serialize};
use sheet::decode::{DecodeRequest, decode};
use sheet::scale::{ScaleRequest, scale_from};
use sheet::{Plane, Ppi, Rect};

use super::boxed::Read;
use super::pair::write_json;
use super::report::write_between_marks;
use super::run::{commit, machine};
use super::set::Set;
use cells::Known;
use plan::{Planned, plan};
use truth::{Lies, TrueDamage, altered, lies};

/// What to run.
#[derive(Debug)]
pub(crate) struct Wanted {
    /// The set.
    pub set: Set,
    /// How many histories.
    pub histories: usize,
    /// Only those with these numbers.
    pub only: Option<Range<usize>>,
    /// The folder of the benchmark.
    pub out: PathBuf,
    /// A folder for pictures of what was missed and of what is not there.
    pub look: Option<PathBuf>,
}

/// A history, what is true of it and what was told.
#[derive(Debug, Clone, Serialize, Deserialize)]
struct Outcome {
    planned: Planned,
    /// Which impressions could be laid on the frame.
    laid: Vec<bool>,
    frame: usize,
    truth: Vec<TrueDamage>,
    told: Vec<Damage>,
    /// What was measured of the shape of each told one.
    shapes: Vec<[f32; SHAPES]>,
    /// Of each told one the true damage that it lies on.
    on: Vec<Option<usize>>,
    /// Whether it lies where the block was cut anew.
    on_altered: Vec<bool>,
    /// Kendall's tau of the order by the damage that was told against the years; none where nothing was told.
    tau: Option<f64>,
    /// Seconds that laying and looking took.
    seconds: f64,
}

/// Quality of the JPEGs (common practice, no source).
const QUALITY: u8 = 88;

/// Prints the histories, looks for damage, and tells how it fares.
pub(crate) fn run(wanted: &Wanted) -> anyhow::Result<()> {
    let founts = Founts::open().context("the founts of the press do not open")?;
    let planned: Vec<Planned> = plan(wanted.set, wanted.histories)
        .into_iter()
        .filter(|p| wanted.only.as_ref().is_none_or(|only| only.contains(&p.number)))
        .collect();
    let folder = wanted.out.join(format!("damage-{}", wanted.set.name()));
    std::fs::create_dir_all(&folder).with_context(|| format!("cannot make {}", folder.display()))?;
    let cells = folder.join("cells");
    cells::emptied(&cells)?;
    let done = AtomicUsize::new(0);
    let outcomes = planned
        .par_iter()
        .map(|p| {
            let out = outcome(p, &founts, wanted, &cells);
            eprint!("\r{} of {}", done.fetch_add(1, Ordering::Relaxed) + 1, planned.len());
            out
        })
        .collect::<anyhow::Result<Vec<Outcome>>>()?;
    eprintln!();
    write_json(&folder.join("told.json"), &outcomes)?;
    let made_by = format!("Reglet of commit {}; {}", commit(), machine());
    let text = table::tables(&outcomes, wanted.set.label(), &made_by);
    println!("{text}");
    if wanted.only.is_none() && wanted.set != Set::Fit {
        write_between_marks(&format!("damage-{}", wanted.set.name()), &text)?;
    }
    Ok(())
}

fn outcome(planned: &Planned, founts: &Founts, wanted: &Wanted, cells: &Path) -> anyhow::Result<Outcome> {
    let printed = planned.history.print(founts).with_context(|| format!("history {}", planned.number))?;
    let truth = truth::damages(&printed);
    let altered = altered(&printed);
    let cuts = printed
        .pulls
        .iter()
        .enumerate()
        .map(|(i, pull)| impression(pull, planned.history.ppi[i % 2]))
        .collect::<anyhow::Result<Vec<Cut>>>()?;
    let started = Instant::now();
    let frame = best_of(&cuts, &(0..cuts.len()).collect::<Vec<_>>());
    let others: Vec<usize> = (0..cuts.len()).filter(|&i| i != frame).collect();
    let laid: Vec<Option<Laid>> =
        others.iter().map(|&i| lay(&cuts[frame], &cuts[i]).ok()?.as_given(&cuts[i])).collect();
    let mut impressed = vec![Impressed { number: frame, cut: &cuts[frame], laid: None }];
    impressed.extend(
        others.iter().zip(&laid).filter_map(|(&i, laid)| {
            Some(Impressed { number: i, cut: &cuts[i], laid: Some(laid.as_ref()?) })
        }),
    );
    let looked = Looked::at(&impressed).context("nothing to look at")?;
    let per_mm = |i: usize| planned.history.ppi[i % 2].px_per_mm();
    let numbers: Vec<usize> = impressed.iter().map(|i| i.number).collect();
    let known = Known { truth: &truth, altered: &altered, numbers: &numbers };
    let with_views = wanted.set == Set::Fit;
    cells::write(&looked, &known, planned.number, per_mm, cells, with_views)?;
    let (unit_px, inks) = looked.alike();
    let alike: Option<Vec<Plane<u8>>> = wanted.look.as_ref().map(|_| inks.cloned().collect());
    let (damages, shapes): (Vec<Damage>, Vec<[f32; SHAPES]>) = looked.told().into_iter().unzip();
    let seconds = started.elapsed().as_secs_f64();
    let place = |i: usize, d: &Damage| {
        let seen = d.seen.iter().find(|s| s.impression == i)?;
        let [x, y, w, h] = seen.box_px?;
        Some(Rect::new(x, y, w, h))
    };
    // A crack has grown since the frame was printed: it is asked where it is seen.
    let on: Vec<Option<usize>> = damages
        .iter()
        .map(|d| {
            let shown = d.present.iter().copied().chain(std::iter::once(frame));
            let lies = shown.map(|i| place(i, d).map(|place| lies(place, i, per_mm(i), &truth)));
            lies.flatten().find_map(|l| if let Lies::On(i) = l { Some(i) } else { None })
        })
        .collect();
    let on_altered = damages
        .iter()
        .map(|d| {
            place(frame, d).is_some_and(|p| altered[frame].iter().any(|a| a.grown(4.0).shared(p).is_some()))
        })
        .collect();
    let outcome = Outcome {
        planned: *planned,
        laid: (0..cuts.len()).map(|i| numbers.contains(&i)).collect(),
        frame,
        truth,
        tau: tau(&damages, &printed.years),
        told: damages,
        shapes,
        on,
        on_altered,
        seconds,
    };
    if let (Some(folder), Some(alike)) = (&wanted.look, &alike) {
        let on_frame = look::OnFrame { corner: cuts[frame].corner, unit_px, numbers: &numbers, alike };
        look::look(&outcome, &printed.pulls, &on_frame, folder)?;
    }
    Ok(outcome)
}

/// Kendall's tau of the order of impressions by damage that was told, against their years.
fn tau(told: &[Damage], years: &[f64]) -> Option<f64> {
    let impressions = (0..years.len())
        .map(|i| chronology::Impression { name: i.to_string(), dated: chronology::Dated::Unknown });
    let rows = told.iter().enumerate().map(|(i, d)| {
        let cell = |i: usize| match d.seen.iter().find(|s| s.impression == i).map(|s| s.shows) {
            Some(Shows::Present) => Sighting::Present,
            Some(Shows::Absent) => Sighting::Absent,
            _ => Sighting::Unclear,
        };
        chronology::Damage { name: i.to_string(), seen: (0..years.len()).map(cell).collect() }
    });
    let table = chronology::Table::new(impressions.collect(), rows.collect()).ok()?;
    let order = chronology::order(&table, 1);
    let mut ranks = vec![0.0; years.len()];
    for placed in &order.arrangement.impressions {
        ranks[placed.impression] = placed.rank as f64;
    }
    chronology::tau_b(&ranks, years)
}

/// The cut of a photograph as it is read from its file, boxed truly.
fn impression(pull: &BlockPull, ppi: Ppi) -> anyhow::Result<Cut> {
    let bytes = pull.picture.to_jpeg(QUALITY, None)?;
    let photograph = decode(&bytes, &DecodeRequest::default())?;
    let place = pull.truth.cuts.first().context("no block was printed")?.box_px;
    let (scale, _) = scale_from(&[], &ScaleRequest::Ppi(ppi));
    Read::of(&photograph.luminance).cut(place, scale).context("the block is not on its photograph")
}
