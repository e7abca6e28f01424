//! What a word looks like, whatever its size on the photograph.

use sheet::{Plane, Point, Rect};

/// Rows of a word's picture, from above the ascenders to below the descenders.
const ROWS: usize = 14;
/// Columns; every word is drawn to this many, and its true width is kept beside.
const COLUMNS: usize = 32;
/// Height of the picture above and below the baseline, in x-heights: old-style ascenders stand about
/// 1.6, descenders hang about 0.6 below (common practice, no source).
const ABOVE: f64 = 1.7;
const BELOW: f64 = 0.7;

/// A word to be recognised again: its ink on a small grid, and its width.
#[derive(Debug, Clone)]
pub(super) struct WordPicture {
    /// Mean ink of each cell, then made to have mean zero and length one.
    cells: Vec<f32>,
    /// Width in x-heights.
    pub(crate) width: f64,
}

/// Where a word stands on a photograph.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct WordPlace {
    /// Its box, in pixels.
    pub(crate) bounds: Rect,
    /// A point of the baseline at the word's middle, in pixels.
    pub(crate) foot: Point,
    /// Slope of the baseline there (dy/dx).
    pub(crate) slope: f64,
    /// x-height of its line, in pixels.
    pub(crate) x_height: f64,
}

/// Draws the word's picture from a plane of ink reduced by `unit`.
pub(super) fn draw(ink: &Plane<u8>, unit: f64, word: &WordPlace) -> WordPicture {
    let mut cells = Vec::with_capacity(ROWS * COLUMNS);
    let step_x = word.bounds.w / COLUMNS as f64;
    let step_y = (ABOVE + BELOW) * word.x_height / ROWS as f64;
    for r in 0..ROWS {
        let up = -ABOVE * word.x_height + (r as f64 + 0.5) * step_y;
        for c in 0..COLUMNS {
            let x = word.bounds.x + (c as f64 + 0.5) * step_x;
            let y = word.foot.y + word.slope * (x - word.foot.x) + up;
            cells.push(ink.sample(x / unit, y / unit));
        }
    }
    WordPicture { cells, width: word.bounds.w / word.x_height }
}

/// Takes from every picture what all words of the page share (the dense band between baseline and
/// x-line), so that unlike words do not resemble each other by being words.
pub(super) fn sharpen(words: &mut [WordPicture]) {
    let n = words.len().max(1) as f32;
    let mut mean = [0.0f32; ROWS];
    for w in words.iter() {
        for (m, row) in mean.iter_mut().zip(w.cells.chunks_exact(COLUMNS)) {
            *m += row.iter().sum::<f32>() / (COLUMNS as f32 * n);
        }
    }
    for w in words.iter_mut() {
        for (m, row) in mean.iter().zip(w.cells.chunks_exact_mut(COLUMNS)) {
            for v in row.iter_mut() {
                *v -= m;
            }
        }
        let length = w.cells.iter().map(|v| v * v).sum::<f32>().sqrt().max(1e-6);
        for v in &mut w.cells {
            *v /= length;
        }
    }
}

impl WordPicture {
    /// How alike two words look, -1 to 1; -1 at once where their widths exclude each other.
    pub(super) fn likeness(&self, other: &Self) -> f32 {
        // Spaces differ between settings, words hardly: paper shrinks to 2.5 percent, an x-height is
        // measured to a few percent, and ink adds a little at both ends.
        if (self.width - other.width).abs() > 0.4 + 0.1 * self.width.max(other.width) {
            return -1.0;
        }
        self.cells.iter().zip(&other.cells).map(|(p, q)| p * q).sum()
    }
}
