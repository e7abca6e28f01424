//! How large the type is.

use super::ridge::{Fineness, Grid};
use super::runs::{Component, Pieces};

/// Sizes are tried in steps of this ratio.
const STEP: f64 = 1.189_207_115; // the fourth root of 2
/// Crests fainter than this are not counted, in coverage 0 to 1.
pub(super) const FAINTEST: f32 = 0.06;
/// The smallest x-height that can be followed, in pixels of the level.
pub(super) const SMALLEST: f64 = 4.0;

/// Sizes looked for after the main one, in its x-heights; larger letters are chained (see `chain`).
const LEAST: f64 = 0.2;
const MOST: f64 = 3.0;

/// Whether a component can be a letter, a part or a row of touching letters of this x-height.
///
/// From a hyphen's thickness up to a letter with ascender and descender touched by one of the next
/// line; no wider than a long word.
pub(super) fn suits(part: &Component, x_height: f64) -> bool {
    let (w, h) = (part.width(), part.height());
    h <= 3.6 * x_height && w <= 16.0 * x_height && (h >= 0.3 * x_height || w >= 0.3 * x_height)
}

/// The x-height in which most ink falls into bands, within a range of sizes; `None` when nothing falls
/// into bands.
pub(super) fn main_size(pieces: &Pieces, fall: f64, range: std::ops::RangeInclusive<f64>) -> Option<f64> {
    let size = |i: usize| range.start() * STEP.powi(i as i32);
    let last = (range.end() / range.start()).ln() / STEP.ln();
    if last < 0.0 {
        return None;
    }
    let weight = |i: usize| {
        let x_height = size(i);
        let body = |part: usize| {
            let c = &pieces.parts[part];
            suits(c, x_height) && c.height() >= 0.6 * x_height
        };
        Grid::of(pieces, x_height, fall, Fineness::Weigh, body).weight(FAINTEST)
    };
    // Every second size, then those beside the heaviest: bands show over more than one step.
    let last = last as usize;
    let mut weights = vec![None; last + 1];
    let mut known = |i: usize| *weights[i].get_or_insert_with(|| weight(i));
    let mut heaviest = |sizes: &mut dyn Iterator<Item = usize>| {
        sizes.map(|i| (i, known(i))).max_by(|a, b| a.1.total_cmp(&b.1))
    };
    let (near, _) = heaviest(&mut (0..=last).step_by(2))?;
    let (best, top) = heaviest(&mut (near.saturating_sub(1)..=(near + 1).min(last)))?;
    if top <= 0.0 {
        return None;
    }
    // The top of a parabola through the best and its neighbours, on the logarithm of size.
    let off = if best == 0 || best == last {
        0.0
    } else {
        let (a, c) = (known(best - 1), known(best + 1));
        let bend = a - 2.0 * top + c;
        if bend < 0.0 { 0.5 * (a - c) / bend } else { 0.0 }
    };
    Some(size(best) * STEP.powf(off))
}

/// The size, among those not yet tried, that most of the free components could be letters of, by their
/// widths; `None` when hardly any could.
pub(super) fn next_size(pieces: &Pieces, main: f64, tried: &[f64], free: &[bool]) -> Option<f64> {
    let mut best: Option<(f64, f64)> = None;
    let mut x_height = (LEAST * main).max(SMALLEST);
    while x_height <= MOST * main {
        let is_new = tried.iter().all(|t| (x_height / t).ln().abs() > 0.75 * STEP.ln());
        if is_new {
            let letters = pieces.parts.iter().zip(free).filter(|(c, free)| {
                **free && suits(c, x_height) && (0.85 * x_height..1.7 * x_height).contains(&c.height())
            });
            let width: f64 = letters.map(|(c, _)| c.width()).sum();
            if width >= 2.0 * x_height && best.is_none_or(|b| width > b.0) {
                best = Some((width, x_height));
            }
        }
        x_height *= STEP;
    }
    best.map(|b| b.1)
}
