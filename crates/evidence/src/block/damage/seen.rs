//! What is seen of a place: the chance that its wood is gone.

use super::signs::SIGNS;
use super::view::{PLANES, View};
use crate::eye::Seer;
use std::sync::LazyLock;

/// The fitted weights (`cargo xtask bench fit damage`).
static FITTED: &[u8] = include_bytes!("seen.f32");

static NET: LazyLock<Seer<PLANES, SIGNS>> = LazyLock::new(|| Seer::read(FITTED));

/// The chance, 0 to 1, that the wood of a place is gone.
pub(super) fn chance(view: &View, signs: &[f32; SIGNS]) -> f64 {
    1.0 / (1.0 + (-NET.log_odds(view.samples(), signs)).exp())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_weights_fill_the_net() {
        assert_eq!(FITTED.len(), 4 * Seer::<PLANES, SIGNS>::NUMBERS);
    }
}
