//! A network that sees lines of type, place by place: three layers of convolutions along the whole line, each followed by the greatest of
//! four neighbours, and for every place, with the places beside it, two full layers.
//!
//! It was fitted to simulated sheets on which more goes wrong than at any press: `cargo xtask bench measure --set fit`, then
//! `crates/xtask/fit/incidents.py`.

use super::strip::{STRIP_CELL, STRIP_ROWS, Strip};
use crate::eye::{Eye, numbers};
use sheet::Rect;
use std::sync::LazyLock;

/// What is told of every place.
pub(super) const KINDS: usize = 1;
/// Planes after each layer of convolutions, and values between the full layers.
const SEES: [usize; 3] = [12, 20, 28];
const HIDDEN: usize = 40;
/// What is told of every place: the odds of each kind, and then for each kind how far it reaches from the middle of the place: left, right,
/// top, foot.
const TOLD: usize = KINDS * 5;
/// Rows that come out of the convolutions, and places that are seen together.
const ROWS: usize = STRIP_ROWS / STRIP_CELL;
const BESIDE: usize = 3;

static FITTED: LazyLock<Net> = LazyLock::new(|| Net::read(include_bytes!("seen.f32")));

struct Net {
    eye: Eye<1, { SEES[0] }, { SEES[1] }, { SEES[2] }>,
    /// By row, by place before, here and after, by plane.
    full: Vec<[f32; HIDDEN]>,
    offsets: [f32; HIDDEN],
    last: [[f32; TOLD]; HIDDEN],
    last_offsets: [f32; TOLD],
}

impl Net {
    fn read(fitted: &[u8]) -> Self {
        let mut read = numbers(fitted);
        Self {
            eye: Eye::read(&mut read),
            full: (0..ROWS * BESIDE * SEES[2]).map(|_| std::array::from_fn(|_| read())).collect(),
            offsets: std::array::from_fn(|_| read()),
            last: std::array::from_fn(|_| std::array::from_fn(|_| read())),
            last_offsets: std::array::from_fn(|_| read()),
        }
    }

    /// Log odds (natural) of each kind for every place of a strip, and how far it reaches, in places.
    fn sees(&self, strip: &Strip) -> Vec<[f32; TOLD]> {
        let picture: Vec<[f32; 1]> = strip.samples.iter().map(|&v| [f32::from(v) / 255.0]).collect();
        let seen = self.eye.sees_strip(&picture, strip.width, STRIP_ROWS);
        let cells = strip.cells();
        (0..cells)
            .map(|cell| {
                let mut hidden = self.offsets;
                for row in 0..ROWS {
                    for beside in 0..BESIDE {
                        let at = cell + beside;
                        if at == 0 || at > cells {
                            continue;
                        }
                        let weights = &self.full[(row * BESIDE + beside) * SEES[2]..];
                        for (v, weights) in seen[row * cells + at - 1].iter().zip(weights) {
                            for (h, w) in hidden.iter_mut().zip(weights) {
                                *h += v * w;
                            }
                        }
                    }
                }
                let mut out = self.last_offsets;
                for (h, weights) in hidden.iter().zip(&self.last) {
                    for (o, w) in out.iter_mut().zip(weights) {
                        *o += h.max(0.0) * w;
                    }
                }
                out
            })
            .collect()
    }
}

/// What is seen of one kind at a place of a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Seen {
    /// How likely it is, 0 to 1.
    pub(super) chance: f64,
    /// Its box on the strip, samples; to be heeded where it is likely.
    pub(super) bounds: Rect,
}

/// What is seen of each kind at every place of a line.
pub(super) fn seen(strip: &Strip) -> Vec<[Seen; KINDS]> {
    let told = FITTED.sees(strip);
    let cell = STRIP_CELL as f64;
    let of = |at: usize, told: &[f32; TOLD], kind: usize| {
        let (x, y) = ((at as f64 + 0.5) * cell, STRIP_ROWS as f64 / 2.0);
        let reach: [f64; 4] = std::array::from_fn(|k| cell * f64::from(told[KINDS + 4 * kind + k]));
        let [w, h] = [reach[1] - reach[0], reach[3] - reach[2]].map(|side| side.max(1.0));
        Seen {
            chance: 1.0 / (1.0 + f64::from(-told[kind]).exp()),
            bounds: Rect::new(x + reach[0], y + reach[2], w, h),
        }
    };
    told.iter().enumerate().map(|(at, told)| std::array::from_fn(|kind| of(at, told, kind))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_fitted_weights_are_as_many_as_the_network_has() {
        let of = Eye::<1, { SEES[0] }, { SEES[1] }, { SEES[2] }>::NUMBERS;
        let full = (ROWS * BESIDE * SEES[2] + 1) * HIDDEN;
        let bytes = include_bytes!("seen.f32").len();
        assert_eq!(bytes, 4 * (of + full + (HIDDEN + 1) * TOLD));
    }
}
