//! How likely the wood is gone at a place, by what an impression shows of it.

use super::net::{HIDDEN, HIDDEN_OFFSETS, LAST, LAST_OFFSET};
use super::seen;
use super::signs::SIGNS;
use super::view::View;

/// What is less likely, by the signs of the impression that lacks ink, is not looked at: most places are want of ink.
const LITTLE: f64 = 0.01;

/// Whether a place is likely enough to be looked at, by the signs of the impression that lacks ink there.
pub(super) fn is_likely(signs: Option<&[f32; SIGNS]>) -> bool {
    signs.is_some_and(|s| by_signs(s) >= LITTLE)
}

/// The chances, 0 to 1, that the block had lost the wood of a place when each impression was pulled; `view` draws the place in an
/// impression, which is looked at where it [`is_likely`].
///
/// Two networks, fitted one after the other (`cargo xtask bench fit damage`) to simulated histories of blocks: one of the signs, and one
/// that sees the place too (`seen`), of what the first finds likely enough.
pub(super) fn of(
    signs: &[Option<[f32; SIGNS]>],
    is_likely: bool,
    view: impl Fn(usize) -> View,
) -> Vec<Option<f64>> {
    let one = |(i, s): (usize, &Option<[f32; SIGNS]>)| {
        let signs = s.as_ref()?;
        Some(if is_likely { seen::chance(&view(i), signs) } else { by_signs(signs) })
    };
    signs.iter().enumerate().map(one).collect()
}

/// By the signs alone.
///
/// A network of one hidden layer.
fn by_signs(signs: &[f32; SIGNS]) -> f64 {
    let hidden = HIDDEN.iter().zip(HIDDEN_OFFSETS).map(|(weights, offset)| {
        let sum: f32 = weights.iter().zip(signs).map(|(w, s)| w * s).sum();
        (sum + offset).max(0.0)
    });
    let odds: f32 = hidden.zip(LAST).map(|(h, w)| h * w).sum::<f32>() + LAST_OFFSET;
    1.0 / (1.0 + f64::from(-odds).exp())
}
