//! A network that sees a small picture and is told what was measured of it: three layers of convolutions, each followed by the
//! greatest of four neighbours, and of what comes out and what was measured two full layers.

use super::{Eye, numbers};

/// Samples of a side of the picture.
pub(crate) const SIDE: usize = 32;
/// Planes after each layer of convolutions, and values between the full layers.
const SEES: [usize; 3] = [16, 24, 32];
const HIDDEN: usize = 48;
/// Samples of a side that come out of the convolutions.
const LAST: usize = SIDE / 8;

/// A fitted network for pictures of `I` planes beside which `S` values were measured.
#[derive(Debug)]
pub(crate) struct Seer<const I: usize, const S: usize> {
    eye: Eye<I, { SEES[0] }, { SEES[1] }, { SEES[2] }>,
    full: Vec<[f32; HIDDEN]>,
    signs: Vec<[f32; HIDDEN]>,
    offsets: [f32; HIDDEN],
    last: [f32; HIDDEN],
    last_offset: f32,
}

impl<const I: usize, const S: usize> Seer<I, S> {
    /// How many numbers it is made of.
    #[cfg(test)]
    pub(crate) const NUMBERS: usize = Eye::<I, { SEES[0] }, { SEES[1] }, { SEES[2] }>::NUMBERS
        + (LAST * LAST * SEES[2] + S + 1) * HIDDEN
        + HIDDEN
        + 1;

    /// From its fitted weights, as `crates/xtask/fit/seeing.py` writes them: the convolutions; then the full layer by sample and
    /// plane, by what was measured, and its offsets; then the last.
    pub(crate) fn read(fitted: &[u8]) -> Self {
        let mut read = numbers(fitted);
        Self {
            eye: Eye::read(&mut read),
            full: (0..LAST * LAST * SEES[2]).map(|_| std::array::from_fn(|_| read())).collect(),
            signs: (0..S).map(|_| std::array::from_fn(|_| read())).collect(),
            offsets: std::array::from_fn(|_| read()),
            last: std::array::from_fn(|_| read()),
            last_offset: read(),
        }
    }

    /// The log odds (natural) of what it was fitted to; `samples` by rows, of each its planes, 0 to 255 of 1.
    pub(crate) fn log_odds(&self, samples: &[u8], signs: &[f32; S]) -> f64 {
        let picture: Vec<[f32; I]> =
            samples.as_chunks::<I>().0.iter().map(|s| s.map(|v| f32::from(v) / 255.0)).collect();
        let seen = self.eye.sees(&picture, SIDE);
        let mut hidden = self.offsets;
        let said = seen.as_flattened().iter().zip(&self.full).chain(signs.iter().zip(&self.signs));
        for (v, weights) in said {
            for (h, w) in hidden.iter_mut().zip(weights) {
                *h += v * w;
            }
        }
        let odds = hidden.iter().zip(&self.last).fold(self.last_offset, |sum, (h, w)| sum + h.max(0.0) * w);
        f64::from(odds)
    }
}
