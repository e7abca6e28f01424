//! From brightness and paper to darkness.

use crate::Plane;
use crate::plane::upper;
use rayon::prelude::*;

/// Fixed-point one for the share of light: 11 bits leave room for paper as dark as 16 in 255.
const ONE: u16 = 2048;
/// What is darker than this is not seen as paper at all. The reciprocal of the darkest paper is the
/// half of the sixteen-bit range; what lies above stands for "outside".
const DARKEST_PAPER: u32 = 16;
const OUTSIDE: u16 = 1 << 15;
/// Shares below this cannot be ink when solid ink is looked for: strong show-through and foxing reach
/// about 0.25 on the photographs measured.
const SURELY_INK: f32 = 0.3;
/// Solid ink takes away at least this share of the light, or the print is taken to be all faint.
const FAINTEST: f32 = 0.4;
/// Solid ink of a photograph without any print. Black ink measured on library photographs: 0.6 to 0.85.
const USUAL: f32 = 0.7;
/// Below this share of solid ink nothing is ink (paper grain, foxing, show-through).
const TOE_FROM: f32 = 0.15;
/// From this share of solid ink on darkness is linear.
const TOE_TO: f32 = 0.5;

/// The curve from the missing share of light to darkness 0 to 255.
///
/// With x = share / full ink, a and b the ends of the toe: 0 below a; k (x - a)^2 / (2 (b - a)) to b;
/// from there a straight line of the same slope k that reaches 255 at x = 1.
pub(super) struct Tone {
    full: f32,
    from: u16,
    width: u16,
    square: u16,
    slope: u16,
}

impl Tone {
    /// The curve for a photograph: solid ink is found from a sample of every fourth row and column.
    pub(super) fn of(luminance: &Plane<u8>, paper: &Plane<u8>, cell: usize) -> Self {
        let counts = shares(luminance, paper, cell);
        let share = |bin: usize| (bin as f32 + 0.5) / counts.len() as f32;
        let total: u64 = counts.iter().sum();
        let above = |least: f32| -> Vec<(f32, u64)> {
            counts.iter().enumerate().map(|(i, &n)| (share(i), n)).filter(|&(s, _)| s >= least).collect()
        };
        let ink = above(SURELY_INK);
        let inked: u64 = ink.iter().map(|c| c.1).sum();
        // Fewer sure pixels than one in 5000 is dust, not print.
        if inked * 5000 < total.max(1) {
            return Self::with(USUAL);
        }
        let darkest = quantile(&ink, 0.98);
        Self::with(quantile(&above(darkest / 2.0), 0.75).clamp(FAINTEST, 1.0))
    }

    /// The curve for a known share of solid ink.
    fn with(full: f32) -> Self {
        let one = f32::from(ONE);
        let k = 255.0 / ((TOE_TO - TOE_FROM) / 2.0 + 1.0 - TOE_TO);
        let square = k / (2.0 * (TOE_TO - TOE_FROM)) / (one * full).powi(2);
        Self {
            full,
            from: (TOE_FROM * full * one) as u16,
            width: ((TOE_TO - TOE_FROM) * full * one) as u16,
            // Both products below lose 16 bits; t t / 2^6 and v 2^4 are what they multiply.
            square: (square * 64.0 * 65536.0).min(65535.0) as u16,
            slope: (k / (one * full) * 65536.0 / 16.0).min(65535.0) as u16,
        }
    }

    pub(super) fn full_ink(&self) -> f32 {
        self.full
    }

    /// Darkness from a pixel's brightness and the paper's reciprocal there.
    ///
    /// Sixteen-bit products of which the upper half is kept: the compiler makes eight at a time of it.
    #[inline]
    fn at(&self, luminance: u8, reciprocal: u16) -> u8 {
        // Outside the page even black is as light as paper.
        let beyond = reciprocal.saturating_sub(OUTSIDE) >> 3;
        let light = upper(u16::from(luminance) << 8, reciprocal).saturating_add(beyond);
        let missing = ONE.saturating_sub(light).saturating_sub(self.from);
        let toe = missing.min(self.width);
        let rest = missing - toe;
        let curved = upper(upper(toe << 5, toe << 5), self.square);
        (curved + upper(rest << 4, self.slope)).min(255) as u8
    }

    /// The darkness of every pixel.
    pub(super) fn darkness(&self, luminance: &Plane<u8>, paper: &Plane<u8>, cell: usize) -> Plane<u8> {
        let (w, h) = (luminance.width(), luminance.height());
        let mut out = Plane::filled(w, h, 0u8);
        if w == 0 || h == 0 {
            return out;
        }
        // Bands run from one row of cell centres to the next; the first is half a cell high.
        let half = cell / 2;
        let band = |row: usize, rows: &mut [u8], first: usize| {
            let upper_row = spread(paper.row(row.saturating_sub(1)), cell, w);
            let lower_row = spread(paper.row(row.min(paper.height() - 1)), cell, w);
            let mut between = vec![0u16; w];
            for (i, line) in rows.chunks_mut(w).enumerate() {
                let y = first + i;
                let down = (2 * y + 1 + cell - 2 * row * cell) as u32;
                mix(&mut between, &upper_row, &lower_row, down, 2 * cell as u32);
                for ((o, &l), &r) in line.iter_mut().zip(luminance.row(y)).zip(&between) {
                    *o = self.at(l, r);
                }
            }
        };
        let (head, body) = out.data_mut().split_at_mut((half * w).min(w * h));
        band(0, head, 0);
        body.par_chunks_mut(cell * w).enumerate().for_each(|(i, rows)| band(i + 1, rows, half + i * cell));
        out
    }
}

/// 2^19 / paper, so that brightness times 2^8 times it, less sixteen bits, is the share of light in
/// 2048ths. Outside the page (0) it is as large as can be.
fn reciprocal(paper: u8) -> u16 {
    match u32::from(paper) {
        ..DARKEST_PAPER => u16::MAX,
        p => ((1 << 19) / p) as u16,
    }
}

/// Reciprocals of a row of cells at every pixel, linear between the cells' centres.
fn spread(cells: &[u8], cell: usize, width: usize) -> Vec<u16> {
    let mut out = Vec::with_capacity(width + cell);
    let (first, last) = (reciprocal(cells[0]), reciprocal(cells[cells.len() - 1]));
    out.extend(std::iter::repeat_n(first, cell / 2));
    let shift = 1 + cell.trailing_zeros();
    for pair in cells.windows(2) {
        let (p, q) = (i32::from(reciprocal(pair[0])), i32::from(reciprocal(pair[1])));
        // Half a pixel beyond the centre of the first, in halves of a pixel: 1, 3, 5... of 2 cell.
        let odd = i32::from(cell > 1);
        out.extend((0..cell as i32).map(|i| (p + (((q - p) * (2 * i + odd)) >> shift)) as u16));
    }
    out.resize(width, last);
    out
}

/// `upper_row` at 0 to `lower_row` at `whole`.
fn mix(out: &mut [u16], upper_row: &[u16], lower_row: &[u16], down: u32, whole: u32) {
    let low = ((down << 16) / whole) as u16;
    let high = u16::MAX - low;
    for ((o, &u), &l) in out.iter_mut().zip(upper_row).zip(lower_row) {
        // What is cut off comes to one in the mean.
        *o = upper(u, high) + upper(l, low) + 1;
    }
}

/// A histogram of the missing share of light over the page, 128 bins from 0 to 1.
fn shares(luminance: &Plane<u8>, paper: &Plane<u8>, cell: usize) -> [u64; 128] {
    let mut counts = [0u64; 128];
    let shift = cell.trailing_zeros();
    for y in (0..luminance.height()).step_by(4) {
        let cells = paper.row(y >> shift);
        for (x, &l) in luminance.row(y).iter().enumerate().step_by(4) {
            let r = reciprocal(cells[x >> shift]);
            if r < OUTSIDE {
                let light = upper(u16::from(l) << 8, r).min(ONE - 1);
                counts[usize::from((ONE - 1 - light) >> 4)] += 1;
            }
        }
    }
    counts
}

/// The value below which the given share of the counted values lies.
fn quantile(counts: &[(f32, u64)], share: f64) -> f32 {
    let total: u64 = counts.iter().map(|c| c.1).sum();
    let wanted = (total as f64 * share) as u64;
    let mut sum = 0;
    counts
        .iter()
        .find(|c| {
            sum += c.1;
            sum > wanted
        })
        .map_or(1.0, |c| c.0)
}
