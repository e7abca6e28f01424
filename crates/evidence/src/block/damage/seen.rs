//! The network that sees a place: three layers of convolutions, each followed by the greatest of four neighbours, and of what comes
//! out and what was measured two full layers.

use super::signs::SIGNS;
use super::view::{PLANES, SIDE, View};
use crate::eye::{Eye, numbers};
use std::sync::LazyLock;

/// Planes after each layer of convolutions, and values between the full layers.
const SEES: [usize; 3] = [16, 24, 32];
const HIDDEN: usize = 48;
/// Samples of a side that come out of the convolutions.
const LAST: usize = SIDE / 8;

/// The fitted weights (`cargo xtask bench fit damage`): the convolutions; then the full layer by sample and plane, by sign, and its
/// offsets; then the last.
static FITTED: &[u8] = include_bytes!("seen.f32");

#[derive(Debug)]
struct Net {
    eye: Eye<PLANES, { SEES[0] }, { SEES[1] }, { SEES[2] }>,
    full: Vec<[f32; HIDDEN]>,
    signs: Vec<[f32; HIDDEN]>,
    offsets: [f32; HIDDEN],
    last: [f32; HIDDEN],
    last_offset: f32,
}

static NET: LazyLock<Net> = LazyLock::new(|| {
    let mut read = numbers(FITTED);
    Net {
        eye: Eye::read(&mut read),
        full: (0..LAST * LAST * SEES[2]).map(|_| std::array::from_fn(|_| read())).collect(),
        signs: (0..SIGNS).map(|_| std::array::from_fn(|_| read())).collect(),
        offsets: std::array::from_fn(|_| read()),
        last: std::array::from_fn(|_| read()),
        last_offset: read(),
    }
});

/// The chance, 0 to 1, that the wood of a place is gone.
pub(super) fn chance(view: &View, signs: &[f32; SIGNS]) -> f64 {
    let net = &*NET;
    let picture: Vec<[f32; PLANES]> =
        view.samples().as_chunks::<PLANES>().0.iter().map(|s| s.map(|v| f32::from(v) / 255.0)).collect();
    let seen = net.eye.sees(&picture, SIDE);
    let mut hidden = net.offsets;
    let said = seen.as_flattened().iter().zip(&net.full).chain(signs.iter().zip(&net.signs));
    for (v, weights) in said {
        for (h, w) in hidden.iter_mut().zip(weights) {
            *h += v * w;
        }
    }
    let odds = hidden.iter().zip(&net.last).fold(net.last_offset, |sum, (h, w)| sum + h.max(0.0) * w);
    1.0 / (1.0 + f64::from(-odds).exp())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_weights_fill_the_net() {
        type Sees = Eye<PLANES, { SEES[0] }, { SEES[1] }, { SEES[2] }>;
        let full = (LAST * LAST * SEES[2] + SIGNS + 1) * HIDDEN;
        assert_eq!(FITTED.len(), 4 * (Sees::NUMBERS + full + HIDDEN + 1));
    }
}
