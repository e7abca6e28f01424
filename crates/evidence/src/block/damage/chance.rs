//! How likely the wood is gone at a place, by what an impression shows of it.

use super::net::{HIDDEN, HIDDEN_OFFSETS, LAST, LAST_OFFSET};
use super::signs::SIGNS;

/// The chance, 0 to 1, that the block had lost the wood of a place when this impression was pulled.
///
/// A network of one hidden layer (fitted by `cargo xtask bench fit damage` to simulated histories of blocks).
pub(super) fn of(signs: &[f32; SIGNS]) -> f64 {
    let hidden = HIDDEN.iter().zip(HIDDEN_OFFSETS).map(|(weights, offset)| {
        let sum: f32 = weights.iter().zip(signs).map(|(w, s)| w * s).sum();
        (sum + offset).max(0.0)
    });
    let odds: f32 = hidden.zip(LAST).map(|(h, w)| h * w).sum::<f32>() + LAST_OFFSET;
    1.0 / (1.0 + f64::from(-odds).exp())
}
