//! How large the type is.

use super::ridge::Grid;
use super::runs::{Component, Pieces};

/// Sizes are tried in steps of this ratio.
const STEP: f64 = 1.189_207_115; // the fourth root of 2
/// Crests fainter than this are not counted, in coverage 0 to 1.
pub(super) const FAINTEST: f32 = 0.06;
/// The smallest x-height that can be followed, in pixels of the level.
pub(super) const SMALLEST: f64 = 4.0;

/// Whether a component can be a letter, a part or a row of touching letters of this x-height.
///
/// From a hyphen's thickness up to a letter with ascender and descender touched by one of the next
/// line; no wider than a long word.
pub(super) fn suits(part: &Component, x_height: f64) -> bool {
    let (w, h) = (part.width(), part.height());
    h <= 3.6 * x_height && w <= 16.0 * x_height && (h >= 0.3 * x_height || w >= 0.3 * x_height)
}

/// The x-height in which most ink falls into bands, among the components that are `free`, within a
/// range of sizes and more than a step from those `tried`; `None` when nothing falls into bands.
pub(super) fn main_size(
    pieces: &Pieces,
    fall: f64,
    range: std::ops::RangeInclusive<f64>,
    tried: &[f64],
    free: impl Fn(usize) -> bool,
) -> Option<f64> {
    let mut weights = Vec::new();
    let mut x_height = *range.start();
    while x_height <= *range.end() {
        if tried.iter().any(|t| (x_height / t).ln().abs() < STEP.ln() / 2.0) {
            x_height *= STEP;
            continue;
        }
        let body = |part: usize| {
            let c = &pieces.parts[part];
            free(part) && suits(c, x_height) && c.height() >= 0.6 * x_height
        };
        let grid = Grid::of(pieces, x_height, fall, body);
        weights.push((x_height, grid.weight(x_height, FAINTEST)));
        x_height *= STEP;
    }
    let best = weights.iter().enumerate().max_by(|a, b| a.1.1.total_cmp(&b.1.1))?.0;
    if weights[best].1 <= 0.0 {
        return None;
    }
    // The top of a parabola through the best and its neighbours, on the logarithm of size.
    let off = match (best.checked_sub(1).map(|i| weights[i].1), weights.get(best + 1).map(|w| w.1)) {
        (Some(a), Some(c)) if tried.is_empty() && a - 2.0 * weights[best].1 + c < 0.0 => {
            0.5 * (a - c) / (a - 2.0 * weights[best].1 + c)
        }
        _ => 0.0,
    };
    Some(weights[best].0 * STEP.powf(off))
}
