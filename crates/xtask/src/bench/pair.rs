//! A pair of photographs to be judged, and what is known of it.

use std::path::{Path, PathBuf};

use anyhow::Context as _;
use evidence::Verdict;
use serde::{Deserialize, Serialize};

/// A pair as it stands in a set's `pairs.json`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct Pair {
    /// Its number in the set, from 0.
    pub number: usize,
    /// What it is, in a few words.
    pub name: String,
    /// The first photograph; a path that is not absolute starts at the folder of the set.
    pub a: PathBuf,
    /// The second photograph.
    pub b: PathBuf,
    /// Resolution of the first, pixels to the inch, when it is known. Given to the yardstick, never to Reglet.
    pub ppi_a: Option<f64>,
    /// Resolution of the second.
    pub ppi_b: Option<f64>,
    /// What it is counted as in the tables.
    pub verdict: Verdict,
    /// All verdicts that are right; anything else but *undetermined* is wrong.
    pub right: Vec<Verdict>,
    /// The kind under which real pairs are counted, or the press's name for it.
    pub kind: String,
    /// Rung of the ladder of difficulty, for simulated pairs.
    pub level: Option<u8>,
    /// Whether both are sound photographs (DESIGN §5); `None` when nobody measured.
    pub sound: Option<bool>,
    /// What is known of every place, for simulated pairs.
    pub truth: Option<PathBuf>,
}

impl Pair {
    /// Whether a verdict contradicts what is known. *Undetermined* never does.
    pub(crate) fn is_wrong(&self, told: Verdict) -> bool {
        told != Verdict::Undetermined && !self.right.contains(&told)
    }

    /// Whether the two stand from one setting throughout.
    pub(crate) fn one_setting(&self) -> bool {
        self.verdict.is_one_setting()
    }

    /// The lower resolution of the two, where both are known.
    pub(crate) fn lower_ppi(&self) -> Option<f64> {
        Some(self.ppi_a?.min(self.ppi_b?))
    }
}

/// A true change of a setting, with the boxes of the printed word it lies in, pixels.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct TrueChange {
    /// What was done.
    pub class: String,
    /// x, y, w, h on the first photograph; `None` when it is off it.
    pub box_a_px: Option<[f64; 4]>,
    /// x, y, w, h on the second photograph.
    pub box_b_px: Option<[f64; 4]>,
    /// The box of what was changed itself on the first photograph: a sort, a point, a word; `None` where it is not.
    pub own_a_px: Option<[f64; 4]>,
    /// The same on the second photograph.
    pub own_b_px: Option<[f64; 4]>,
    /// Whether both photographs show it well enough to be judged.
    pub judgeable: bool,
}

/// A true line of type.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct TrueLine {
    /// x, y, w, h on the first photograph.
    pub box_a_px: [f64; 4],
    /// Whether it was set again.
    pub reset: bool,
    /// Along-line drift of each word's middle: place and drift, pixels of the first photograph, for
    /// a line that was respaced; empty otherwise.
    pub drift_px: Vec<[f64; 2]>,
}

/// What is known of a simulated pair.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Truth {
    /// Changes between the two, at the level of printed words.
    pub changes: Vec<TrueChange>,
    /// Lines of the first photograph.
    pub lines: Vec<TrueLine>,
    /// Sealed points, the middles of printed sorts on both photographs: ax, ay, bx, by in pixels.
    pub points: Vec<[f64; 4]>,
}

/// Reads a JSON file.
pub(crate) fn read_json<T: for<'de> Deserialize<'de>>(path: &Path) -> anyhow::Result<T> {
    let bytes = std::fs::read(path).with_context(|| format!("cannot read {}", path.display()))?;
    serde_json::from_slice(&bytes)
        .with_context(|| format!("{} is not what the benchmark writes", path.display()))
}

/// Writes a JSON file by way of a neighbour, so that it is whole or not there.
pub(crate) fn write_json<T: Serialize>(path: &Path, value: &T) -> anyhow::Result<()> {
    let part = path.with_extension("part");
    let text = serde_json::to_vec(value)?;
    std::fs::write(&part, text).with_context(|| format!("cannot write {}", part.display()))?;
    std::fs::rename(&part, path).with_context(|| format!("cannot write {}", path.display()))
}
