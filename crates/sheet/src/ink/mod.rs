//! Ink: how dark each place is as a share of the paper around it.
//!
//! A photograph's brightness is paper times light times ink. Paper and light change slowly, ink
//! quickly; so the brightness of bare paper is estimated on a coarse grid of *cells*
//! (cells), what is not the page is cut away, and ink is what is missing from the paper.
//! All sizes are fractions of the picture, for its resolution is not known.

mod cells;
mod envelope;
mod flood;
mod page;
mod tone;

use crate::{Plane, Rect};

/// The ink of one photograph.
#[derive(Debug, Clone, PartialEq)]
pub struct InkPlane {
    /// Darkness at every pixel of the photograph: 0 is bare paper, 255 the full ink of this photograph.
    /// What lies outside the page is 0.
    pub darkness: Plane<u8>,
    /// Brightness of bare paper, one value to a cell of `cell` x `cell` pixels; 0 outside the page.
    pub paper: Plane<u8>,
    /// Side of a cell of `paper`, in pixels; a power of two.
    pub cell: usize,
    /// The share of the paper's light that solid ink takes away, 0 to 1.
    pub full_ink: f32,
    /// The box of the page, in pixels: the whole picture when no background shows.
    pub page: Rect,
}

/// The ink of a photograph, from its luminance.
///
/// 1. The bright part of every cell (`cells::bright`) and a small grey closing of it, so that
///    letters vanish and shadows stay: the paper.
/// 2. The dark table is what is much darker than the page and reaches the picture's border; bright
///    islands far smaller than the page (a ruler, a colour chart) go with it (`page::paper`).
///    Large dark areas that do *not* reach the border are solid ink, and get the paper around them.
/// 3. Darkness is the share of the paper's light that is missing, stretched so that solid ink is
///    full, through a soft toe that leaves show-through, foxing and paper grain near 0
///    (`tone::Tone`).
///
/// Halving the photograph first gives about the halved ink: the cells are the same places.
/// Cost: two passes over the photograph, one byte a pixel; the same on any number of threads.
pub fn ink(luminance: &Plane<u8>) -> InkPlane {
    let (w, h) = (luminance.width(), luminance.height());
    let cell = cells::size(w, h);
    let paper = page::paper(&cells::bright(luminance, cell));
    let tone = tone::Tone::of(luminance, &paper, cell);
    let darkness = tone.darkness(luminance, &paper, cell);
    let page = page::bounds(&paper).map_or(Rect::new(0.0, 0.0, w as f64, h as f64), |r| {
        let r = r.scaled(cell as f64);
        Rect::new(r.x, r.y, r.w.min(w as f64 - r.x), r.h.min(h as f64 - r.y))
    });
    InkPlane { darkness, paper, cell, full_ink: tone.full_ink(), page }
}

#[cfg(test)]
mod tests;
