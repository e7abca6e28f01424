//! Fits the regressions that weigh places which differ, on the pairs of a set that stand from one setting.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::atomic::{AtomicUsize, Ordering};

use anyhow::Context as _;
use evidence::{Reading, Signs};
use rayon::prelude::*;
use serde::Serialize;
use sheet::Rect;
use sheet::decode::{DecodeRequest, decode};
use sheet::scale::{ScaleRequest, scale_from};

use super::pair::{Pair, Truth, read_json};
use super::set::{Set, python, root};

/// A place that was weighed, with what is true of it; one line of the file that is fitted to.
#[derive(Debug, Serialize)]
struct Told<'t> {
    pair: usize,
    level: Option<u8>,
    /// Number of the true change in whose word it lies.
    change: Option<usize>,
    /// Whether it lies on what was changed itself.
    own: bool,
    class: Option<&'t str>,
    judgeable: bool,
    /// Its box on the first photograph, and the same on the second: x, y, w, h in pixels.
    box_a: [f64; 4],
    box_b: [f64; 4],
    /// Ink in one only, square x-heights.
    mass: f64,
    score: f64,
    signs: Signs,
}

/// Weighs the places of all pairs of one setting, writes them beside the set, and fits.
pub(crate) fn fit(set: Set, out: &Path, dry: bool) -> anyhow::Result<()> {
    let folder = set.folder(out);
    let pairs: Vec<Pair> = read_json(&folder.join("pairs.json"))
        .with_context(|| format!("make the set first: cargo xtask bench make --set {}", set.name()))?;
    let wanted: Vec<&Pair> = pairs.iter().filter(|p| p.one_setting() && p.truth.is_some()).collect();
    let done = AtomicUsize::new(0);
    let lines: Vec<String> = wanted
        .par_iter()
        .map(|pair| {
            let lines = weighed(pair, &folder).with_context(|| format!("pair {}", pair.number))?;
            let n = done.fetch_add(1, Ordering::Relaxed) + 1;
            if n.is_multiple_of(20) {
                println!("{n} of {} pairs", wanted.len());
            }
            Ok(lines)
        })
        .collect::<anyhow::Result<_>>()?;
    let file = folder.join("places.jsonl");
    std::fs::write(&file, lines.concat()).with_context(|| format!("cannot write {}", file.display()))?;
    let mut command = Command::new(python(&root()));
    command.arg(root().join("crates/xtask/fit/places.py")).arg(&folder);
    if !dry {
        command.arg(root().join("crates/evidence/src/changes/score"));
    }
    let fitted = command.status().context("cannot start Python")?;
    anyhow::ensure!(fitted.success(), "the places could not be fitted (Python needs numpy and scikit-learn)");
    Ok(())
}

/// The places of one pair, a line of JSON each.
fn weighed(pair: &Pair, folder: &Path) -> anyhow::Result<String> {
    let truth: Truth = match &pair.truth {
        Some(file) => read_json(&folder.join(file))?,
        None => Truth::default(),
    };
    let (a, b) = (reading(&folder.join(&pair.a))?, reading(&folder.join(&pair.b))?);
    let mut out = String::new();
    for place in evidence::compare(&a, &b).weighed {
        let boxes = [place.bounds, place.there];
        let own = truth.changes.iter().position(|c| touches([c.own_a_px, c.own_b_px], boxes));
        let in_word = || truth.changes.iter().position(|c| touches([c.box_a_px, c.box_b_px], boxes));
        let change = own.or_else(in_word);
        let true_change = change.map(|i| &truth.changes[i]);
        let told = Told {
            pair: pair.number,
            level: pair.level,
            change,
            own: own.is_some(),
            class: true_change.map(|c| c.class.as_str()),
            judgeable: true_change.is_some_and(|c| c.judgeable),
            box_a: numbers(place.bounds),
            box_b: numbers(place.there),
            mass: place.mass,
            score: place.score,
            signs: place.signs,
        };
        writeln!(out, "{}", serde_json::to_string(&told)?)?;
    }
    Ok(out)
}

/// Boxes are given to whole pixels.
const SLACK: f64 = 2.0;

/// Whether what was weighed touches what is true, on either photograph.
fn touches(truth: [Option<[f64; 4]>; 2], boxes: [Rect; 2]) -> bool {
    truth
        .into_iter()
        .zip(boxes)
        .any(|(t, b)| t.is_some_and(|[x, y, w, h]| Rect::new(x, y, w, h).grown(SLACK).shared(b).is_some()))
}

fn numbers(r: Rect) -> [f64; 4] {
    [r.x, r.y, r.w, r.h].map(|v| (v * 10.0).round() / 10.0)
}

fn reading(path: &PathBuf) -> anyhow::Result<Reading> {
    let bytes = std::fs::read(path).with_context(|| format!("cannot read {}", path.display()))?;
    let photograph = decode(&bytes, &DecodeRequest::default())
        .with_context(|| format!("cannot decode {}", path.display()))?;
    let (scale, _) = scale_from(&photograph.file.resolution_tags, &ScaleRequest::FromFile);
    Ok(Reading::of(&photograph.luminance, scale))
}
