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
    let mut weights = Vec::new();
    let mut x_height = *range.start();
    while x_height <= *range.end() {
        let body = |part: usize| {
            let c = &pieces.parts[part];
            suits(c, x_height) && c.height() >= 0.6 * x_height
        };
        let grid = Grid::of(pieces, x_height, fall, Fineness::Weigh, body);
        weights.push((x_height, grid.weight(FAINTEST)));
        x_height *= STEP;
    }
    let best = weights.iter().enumerate().max_by(|a, b| a.1.1.total_cmp(&b.1.1))?.0;
    if weights[best].1 <= 0.0 {
        return None;
    }
    // The top of a parabola through the best and its neighbours, on the logarithm of size.
    let off = match (best.checked_sub(1).map(|i| weights[i].1), weights.get(best + 1).map(|w| w.1)) {
        (Some(a), Some(c)) if a - 2.0 * weights[best].1 + c < 0.0 => {
            0.5 * (a - c) / (a - 2.0 * weights[best].1 + c)
        }
        _ => 0.0,
    };
    Some(weights[best].0 * STEP.powf(off))
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
