//! What the network of damage is fitted to: places as they are seen in an impression, with what is true of them.

use std::io::{BufWriter, Write as _};
use std::path::Path;

use anyhow::Context as _;
use evidence::block::Looked;
use press::block::DamageClass;
use serde::Serialize;
use sheet::Rect;

use super::truth::{Lies, TrueDamage, Truly, lies};

/// What is true of a history.
#[derive(Debug, Clone, Copy)]
pub(super) struct Known<'h> {
    pub(super) truth: &'h [TrueDamage],
    /// Where the block was cut anew, on each photograph.
    pub(super) altered: &'h [Vec<Rect>],
    /// The impressions that were looked at.
    pub(super) numbers: &'h [usize],
}

/// A place in one impression. Its picture stands in the file beside, in the same order.
#[derive(Debug, Serialize)]
struct Cell<'c> {
    history: usize,
    /// The number of the place in its history.
    place: usize,
    /// The damage that it lies on.
    damage: Option<usize>,
    class: Option<DamageClass>,
    narrow_mm: Option<f64>,
    /// The impression, and the one that lacks ink there, counted along those that were looked at.
    impression: usize,
    by: usize,
    /// Whether the wood is gone.
    gone: bool,
    /// Whether the place was likely enough, by its signs, to be looked at.
    likely: bool,
    /// For so many like it.
    counts: usize,
    /// How likely it is in each impression that the wood is gone, as the program has it.
    chances: &'c [Option<f64>],
    signs: &'c [f32],
}

/// Of places that are nowhere on a damage, and that the program is so sure of, one in so many is written and counts for all.
const SURE: f64 = 0.003;
const ONE_IN: usize = 4;

/// So near to what was cut anew, px, nothing is asked.
const ALTERED: f64 = 4.0;

/// Makes the folder, with nothing in it.
pub(super) fn emptied(folder: &Path) -> anyhow::Result<()> {
    if folder.exists() {
        std::fs::remove_dir_all(folder).with_context(|| format!("cannot empty {}", folder.display()))?;
    }
    std::fs::create_dir_all(folder).with_context(|| format!("cannot make {}", folder.display()))
}

/// Writes the cells of a history, and their pictures if they are wanted.
pub(super) fn write(
    looked: &Looked<'_>,
    known: &Known<'_>,
    history: usize,
    per_mm: impl Fn(usize) -> f64,
    folder: &Path,
    with_views: bool,
) -> anyhow::Result<()> {
    let file = |ending: &str| {
        let file = folder.join(format!("{history:04}.{ending}"));
        std::fs::File::create(&file)
            .map(BufWriter::new)
            .with_context(|| format!("cannot write {}", file.display()))
    };
    let mut lines = file("jsonl")?;
    let mut views = if with_views { Some(file("u8")?) } else { None };
    for (place, w) in looked.weighed().iter().enumerate() {
        let by = known.numbers[w.by];
        let Some(on_by) = w.boxes[w.by] else { continue };
        if w.is_folded || known.altered[by].iter().any(|a| a.grown(ALTERED).shared(on_by).is_some()) {
            continue;
        }
        let damage = match lies(on_by, by, per_mm(by), known.truth) {
            Lies::On(i) => Some(i),
            Lies::Beside => continue,
            Lies::Nowhere => None,
        };
        let of = damage.map(|i| &known.truth[i]);
        let truly = |i: usize| of.map_or(Truly::Absent, |d| d.truly[known.numbers[i]]);
        let is_sure = of.is_none() && w.chances[w.by].is_none_or(|c| c < SURE);
        let counts = if is_sure { ONE_IN } else { 1 };
        if !place.is_multiple_of(counts) {
            continue;
        }
        // What one impression lacks where a damage is that it cannot have is want of ink; of damage that fills its box loosely a
        // piece in one impression says little of another. Where nothing was done the wood stands in all: one other is asked.
        let is_loose = of.is_some_and(|d| {
            matches!(d.class, DamageClass::Crack | DamageClass::Chip | DamageClass::LostCorner)
        });
        let another = (w.by + 1 + place) % w.signs.len();
        let is_asked = |i: usize| match of {
            _ if i == w.by => true,
            Some(_) => !is_loose && truly(w.by) == Truly::Present,
            None => i == another,
        };
        for (i, signs) in w.signs.iter().enumerate().filter(|(i, _)| is_asked(*i)) {
            let (Some(signs), Truly::Present | Truly::Absent) = (signs, truly(i)) else { continue };
            let cell = Cell {
                history,
                place,
                damage,
                class: of.map(|d| d.class),
                narrow_mm: of.map(|d| d.narrow_mm),
                impression: i,
                by: w.by,
                gone: truly(i) == Truly::Present,
                likely: w.is_likely,
                counts,
                chances: &w.chances,
                signs,
            };
            serde_json::to_writer(&mut lines, &cell)?;
            lines.write_all(b"\n")?;
            if let Some(views) = &mut views {
                views.write_all(looked.view(place, i).samples())?;
            }
        }
    }
    Ok(())
}
