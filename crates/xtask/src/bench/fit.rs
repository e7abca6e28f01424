//! Fits the regressions that weigh places and letters which differ, on the pairs of a set that stand from one setting.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::atomic::{AtomicUsize, Ordering};

use anyhow::Context as _;
use evidence::{Reading, Verdict};
use rayon::prelude::*;
use serde::Serialize;
use sheet::Rect;
use sheet::decode::{DecodeRequest, decode};
use sheet::scale::{ScaleRequest, scale_from};

use super::pair::{Pair, Truth, read_json};
use super::set::{Set, python, root};

/// A place or a letter that was weighed, with what is true of it; one line of a file that is fitted to.
#[derive(Debug, Serialize)]
struct Told<'t, S> {
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
    /// Of several that lie on one change the one with most is meant: ink in one only, square x-heights, of a place; the
    /// area that it shares with what was changed, square pixels, of a letter.
    mass: f64,
    score: f64,
    signs: S,
}

/// What is fitted to: the files of places and of letters, and the scripts that fit.
const FITTED: [&str; 2] = ["places", "letters"];

/// Weighs the places and letters of all pairs of one setting, writes them beside the set, and fits.
pub(crate) fn fit(set: Set, out: &Path, dry: bool) -> anyhow::Result<()> {
    let folder = set.folder(out);
    let pairs: Vec<Pair> = read_json(&folder.join("pairs.json"))
        .with_context(|| format!("make the set first: cargo xtask bench make --set {}", set.name()))?;
    let wanted: Vec<&Pair> = pairs.iter().filter(|p| p.one_setting() && p.truth.is_some()).collect();
    let done = AtomicUsize::new(0);
    let told: Vec<[String; 2]> = wanted
        .par_iter()
        .map(|pair| {
            let told = weighed(pair, &folder).with_context(|| format!("pair {}", pair.number))?;
            let n = done.fetch_add(1, Ordering::Relaxed) + 1;
            if n.is_multiple_of(20) {
                println!("{n} of {} pairs", wanted.len());
            }
            Ok(told)
        })
        .collect::<anyhow::Result<_>>()?;
    for (k, what) in FITTED.iter().enumerate() {
        let file = folder.join(format!("{what}.jsonl"));
        let all: String = told.iter().map(|t| t[k].as_str()).collect();
        std::fs::write(&file, all).with_context(|| format!("cannot write {}", file.display()))?;
        let mut command = Command::new(python(&root()));
        command.arg(root().join(format!("crates/xtask/fit/{what}.py"))).arg(&folder);
        if !dry {
            command.arg(root().join("crates/evidence/src/changes/score"));
        }
        let fitted = command.status().context("cannot start Python")?;
        anyhow::ensure!(
            fitted.success(),
            "the {what} could not be fitted (Python needs numpy and scikit-learn)"
        );
    }
    Ok(())
}

/// The places and the letters of one pair, a line of JSON each.
fn weighed(pair: &Pair, folder: &Path) -> anyhow::Result<[String; 2]> {
    let truth: Truth = match &pair.truth {
        Some(file) => read_json(&folder.join(file))?,
        None => Truth::default(),
    };
    let (a, b) = (reading(&folder.join(&pair.a))?, reading(&folder.join(&pair.b))?);
    let mut out = [String::new(), String::new()];
    let compared = evidence::compare(&a, &b);
    // Of what is said to be two settings, places and letters are not spoken of.
    if !matches!(compared.comparison.verdict, Verdict::SameSetting | Verdict::SameSettingWithDifferences) {
        return Ok(out);
    }
    let weighed = compared.weighed;
    for p in weighed.places {
        let told = told(pair, &truth, [p.bounds, p.there], p.mass, p.score, p.signs);
        writeln!(out[0], "{}", serde_json::to_string(&told)?)?;
    }
    for l in weighed.letters {
        let boxes = [l.bounds, l.there];
        let mut told = told(pair, &truth, boxes, 0.0, l.score, l.signs);
        if let Some(change) = told.change.filter(|_| told.own).map(|i| &truth.changes[i]) {
            told.mass = [change.own_a_px, change.own_b_px]
                .into_iter()
                .zip(boxes)
                .filter_map(|(t, b)| rect(t?).shared(b).map(Rect::area))
                .fold(0.0, f64::max);
        }
        writeln!(out[1], "{}", serde_json::to_string(&told)?)?;
    }
    Ok(out)
}

/// What is true of what was weighed.
fn told<'t, S>(
    pair: &Pair,
    truth: &'t Truth,
    boxes: [Rect; 2],
    mass: f64,
    score: f64,
    signs: S,
) -> Told<'t, S> {
    let own = truth.changes.iter().position(|c| touches([c.own_a_px, c.own_b_px], boxes));
    let in_word = || truth.changes.iter().position(|c| touches([c.box_a_px, c.box_b_px], boxes));
    let change = own.or_else(in_word);
    let true_change = change.map(|i| &truth.changes[i]);
    Told {
        pair: pair.number,
        level: pair.level,
        change,
        own: own.is_some(),
        class: true_change.map(|c| c.class.as_str()),
        judgeable: true_change.is_some_and(|c| c.judgeable),
        box_a: numbers(boxes[0]),
        box_b: numbers(boxes[1]),
        mass,
        score,
        signs,
    }
}

/// Boxes are given to whole pixels.
const SLACK: f64 = 2.0;

/// Whether what was weighed touches what is true, on either photograph.
fn touches(truth: [Option<[f64; 4]>; 2], boxes: [Rect; 2]) -> bool {
    truth.into_iter().zip(boxes).any(|(t, b)| t.is_some_and(|t| rect(t).grown(SLACK).shared(b).is_some()))
}

fn rect([x, y, w, h]: [f64; 4]) -> Rect {
    Rect::new(x, y, w, h)
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
