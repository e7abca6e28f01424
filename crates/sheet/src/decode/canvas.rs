//! Where decoded rows are laid down: as brightness alone, as red, green and blue, or as both.

use rayon::prelude::*;

use super::DecodeError;
use super::request::Limits;
use super::tone::{Layout, to_both, to_luminance, to_rgb};

/// What is kept of every pixel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Keep {
    Luminance,
    Rgb,
    /// Brightness, red, green and blue.
    Both,
}

impl Keep {
    /// Bytes a pixel.
    pub(super) fn samples(self) -> usize {
        match self {
            Self::Luminance => 1,
            Self::Rgb => 3,
            Self::Both => 4,
        }
    }

    /// Whether samples of a layout are kept as they are.
    pub(super) fn takes(self, layout: Layout) -> bool {
        match self {
            Self::Luminance => layout == Layout::GREY,
            Self::Rgb => layout == Layout::RGB,
            Self::Both => false,
        }
    }
}

/// The picture while it is being decoded, as stored: not yet turned.
#[derive(Debug)]
pub(super) struct Canvas {
    pub(super) keep: Keep,
    pub(super) width: usize,
    pub(super) height: usize,
    pub(super) samples: Vec<u8>,
}

impl Canvas {
    /// A black canvas for a picture that the limits admit.
    pub(super) fn new(keep: Keep, width: u32, height: u32, limits: Limits) -> Result<Self, DecodeError> {
        let (width, height) = limits.admit(width, height)?;
        Ok(Self { keep, width, height, samples: vec![0; width * height * keep.samples()] })
    }

    /// Lays down part of row `y` from column `x` on; what reaches beyond the right edge is left out.
    ///
    /// # Panics
    /// When `y` or `x` lies outside the picture.
    pub(super) fn lay(&mut self, x: usize, y: usize, layout: Layout, samples: &[u8]) {
        let pixels = (samples.len() / layout.samples()).min(self.width - x);
        let n = self.keep.samples();
        let start = (y * self.width + x) * n;
        let out = &mut self.samples[start..start + pixels * n];
        convert(self.keep, layout, samples, out);
    }

    /// Exchanges black and white.
    pub(super) fn reverse(&mut self) {
        for v in &mut self.samples {
            *v = 255 - *v;
        }
    }

    /// Lays down the whole picture, rows side by side in parallel. `samples` must hold every row; a
    /// shorter slice leaves the rest black.
    pub(super) fn lay_all(&mut self, layout: Layout, samples: &[u8]) {
        /// Rows a task: enough work to be worth handing over.
        const ROWS: usize = 64;
        let (keep, width) = (self.keep, self.width);
        self.samples
            .par_chunks_mut(ROWS * width * keep.samples())
            .zip(samples.par_chunks(ROWS * width * layout.samples()))
            .for_each(|(out, part)| convert(keep, layout, part, out));
    }
}

/// As many pixels as both slices hold.
fn convert(keep: Keep, layout: Layout, samples: &[u8], out: &mut [u8]) {
    let pixels = (samples.len() / layout.samples()).min(out.len() / keep.samples());
    let out = &mut out[..pixels * keep.samples()];
    match keep {
        Keep::Luminance => to_luminance(layout, samples, out),
        Keep::Rgb => to_rgb(layout, samples, out),
        Keep::Both => to_both(layout, samples, out),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn laying_rows_one_by_one_equals_laying_all() {
        let (w, h) = (5u32, 131u32);
        let samples: Vec<u8> = (0..w * h * 3).map(|i| (i * 7 % 251) as u8).collect();
        for keep in [Keep::Luminance, Keep::Rgb, Keep::Both] {
            let mut one = Canvas::new(keep, w, h, Limits::default()).unwrap();
            for (y, row) in samples.chunks(15).enumerate() {
                one.lay(0, y, Layout::RGB, &row[..6]);
                one.lay(2, y, Layout::RGB, &row[6..]);
            }
            let mut all = Canvas::new(keep, w, h, Limits::default()).unwrap();
            all.lay_all(Layout::RGB, &samples);
            assert_eq!(one.samples, all.samples);
        }
    }
}
