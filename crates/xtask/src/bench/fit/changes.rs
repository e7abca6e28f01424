//! The places and the letters that were weighed, with what is true of them.

use std::fmt::Write as _;
use std::path::Path;

use evidence::{Compared, Verdict};
use serde::Serialize;
use sheet::Rect;

use crate::bench::pair::{Pair, Truth, read_json};

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

/// What one pair tells: places and letters, a line of JSON each; and the views of the places, in their order.
#[derive(Debug, Default)]
pub(super) struct OfPair {
    pub(super) places: String,
    pub(super) letters: String,
    pub(super) views: Vec<u8>,
}

/// Weighs the places and the letters of a pair against what is true of it, if the verdict is one of `of`: of what is
/// called two settings, places and letters are not spoken of.
pub(super) fn told(pair: &Pair, folder: &Path, compared: Compared, of: &[Verdict]) -> anyhow::Result<OfPair> {
    let truth: Truth = match &pair.truth {
        Some(file) => read_json(&folder.join(file))?,
        None => Truth::default(),
    };
    let mut out = OfPair::default();
    if !of.contains(&compared.comparison.verdict) {
        return Ok(out);
    }
    let weighed = compared.weighed;
    for p in weighed.places {
        let told = truly(pair, &truth, [p.bounds, p.there], p.mass, p.score, p.signs);
        p.view.samples().into_iter().for_each(|s| out.views.extend_from_slice(s));
        writeln!(out.places, "{}", serde_json::to_string(&told)?)?;
    }
    for l in weighed.letters {
        let boxes = [l.bounds, l.there];
        let mut told = truly(pair, &truth, boxes, 0.0, l.score, l.signs);
        if let Some(change) = told.change.filter(|_| told.own).map(|i| &truth.changes[i]) {
            told.mass = [change.own_a_px, change.own_b_px]
                .into_iter()
                .zip(boxes)
                .filter_map(|(t, b)| rect(t?).shared(b).map(Rect::area))
                .fold(0.0, f64::max);
        }
        writeln!(out.letters, "{}", serde_json::to_string(&told)?)?;
    }
    Ok(out)
}

/// What is true of what was weighed.
fn truly<'t, S>(
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
