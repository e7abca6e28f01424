//! What one window of strokes says of whether one block printed it twice.
//!
//! How far strokes lie beside each other means more where they are sharp and well inked, and nothing where they are not. A small
//! network weighs, for each window by itself, what was measured of it; it was shown windows of pairs of known truth, and its
//! log odds tell where a cut falls into parts that do not go together.

use super::calibration::{BIAS, HIDDEN, MIDDLE, OUT, SPREAD, WEIGHTS};
use super::drift::Beside;
use sheet::Point;

/// What is weighed of a window.
pub(super) const TOLD: usize = 11;

/// A window of strokes and what was weighed of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StrokeWindow {
    /// Its middle, pixels of the first cut's ink.
    pub at: Point,
    /// Its column and row.
    pub cell: (usize, usize),
    /// What was measured of it, as the network takes it.
    pub told: [f64; TOLD],
    /// By how much each edge of the first's strokes stands farther out than the second's, pixels of the coarser photograph.
    pub bolder_px: f64,
    /// Log odds (natural) that one block printed it twice, by itself.
    pub says: f64,
}

impl StrokeWindow {
    /// Of a window; `coarser` is the pixels of the coarser photograph to one of the first, `unit` pixels of the first to the
    /// unit of the placement.
    pub(super) fn of(w: &Beside, coarser: f64, unit: f64) -> Self {
        let [a, b] = w.contrast;
        let told = [
            (coarser * w.across.abs() + 0.02).min(3.0).ln(),
            (coarser * w.sd + 0.003).min(1.0).ln(),
            w.likeness[0].max(0.0),
            w.likeness[1].max(0.0),
            a.min(b),
            (a / b).ln(),
            (coarser * w.bolder[1].abs() + 0.02).min(3.0).ln(),
            w.round,
            w.ink[0] + w.ink[1],
            (coarser * unit).ln(),
            (coarser * coarser * w.steepest + 1.0).ln(),
        ];
        Self { at: w.at, cell: w.cell, told, bolder_px: coarser * w.bolder[0], says: says(&told) }
    }
}

/// The network: one layer of [`HIDDEN`] units that rise from zero, and their sum.
fn says(told: &[f64; TOLD]) -> f64 {
    let scaled: [f64; TOLD] = std::array::from_fn(|i| (told[i] - MIDDLE[i]) / SPREAD[i]);
    let unit = |k: usize| (WEIGHTS[k].iter().zip(scaled).map(|(w, t)| w * t).sum::<f64>() + BIAS[k]).max(0.0);
    (0..HIDDEN).map(|k| OUT[k] * unit(k)).sum::<f64>() + OUT[HIDDEN]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A window whose strokes lie so far beside each other, pixels, as sharp as they come or blurred.
    fn window(across: f64, sd: f64, likeness: f64) -> StrokeWindow {
        let w = Beside {
            at: Point::new(0.0, 0.0),
            cell: (0, 0),
            across,
            sd,
            steepest: 30.0,
            round: 0.2,
            bolder: [0.05; 2],
            likeness: [likeness; 2],
            contrast: [0.38; 2],
            ink: [0.35; 2],
        };
        StrokeWindow::of(&w, 1.0, 8.0)
    }

    #[test]
    fn strokes_that_lie_on_each_other_speak_for_one_block_and_those_beside_each_other_against_it() {
        assert!(window(0.02, 0.01, 0.96).says > 0.5, "{:?}", window(0.02, 0.01, 0.96));
        assert!(window(0.8, 0.03, 0.7).says < -0.5, "{:?}", window(0.8, 0.03, 0.7));
    }
}
