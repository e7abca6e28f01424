//! Where lines of type run: bands of ink with lighter bands above and below.

use super::runs::Pieces;

/// Width of the window over which a band is averaged along the line, in x-heights. Wider than a word
/// space, narrower than what a curled page lets stay level.
const WINDOW: f64 = 4.0;
/// Height of the lighter band looked for above and below, in x-heights.
const FLANK: f64 = 0.5;

/// Coverage by ink on a grid of bins, sheared by the skew so that lines of type run level.
pub(super) struct Grid {
    columns: usize,
    rows: usize,
    /// Pixels of a bin across and down.
    pub(super) across: usize,
    pub(super) down: usize,
    /// Rows by which a column of pixels is lifted, for every bin column.
    lift: Vec<i32>,
    /// Share of every bin that is ink.
    cover: Vec<f32>,
}

/// A place where a line of type may run, in pixels of the level (not sheared).
#[derive(Debug, Clone, Copy)]
pub(super) struct Crest {
    pub(super) column: usize,
    /// Middle of the band.
    pub(super) y: f32,
    /// Contrast of the band against the darker of its flanks, in coverage 0 to 1.
    pub(super) strength: f32,
}

impl Grid {
    /// Bins the ink of the taken components for lines of about this x-height; `fall` is the rows a
    /// line falls for every column.
    pub(super) fn of(pieces: &Pieces, x_height: f64, fall: f64, taken: impl Fn(usize) -> bool) -> Self {
        let across = ((x_height / 3.0) as usize).max(1);
        let down = ((x_height / 6.0) as usize).max(1);
        let columns = pieces.width.div_ceil(across);
        let lift: Vec<i32> =
            (0..columns).map(|c| ((c as f64 + 0.5) * across as f64 * fall).round() as i32).collect();
        let lowest = lift.iter().copied().max().unwrap_or(0);
        let highest = lift.iter().copied().min().unwrap_or(0);
        let lift: Vec<i32> = lift.iter().map(|l| lowest - l).collect();
        let rows = (pieces.height + (lowest - highest) as usize).div_ceil(down) + 1;
        let mut cover = vec![0f32; columns * rows];
        let unit = 1.0 / (across * down) as f32;
        for run in pieces.runs.iter().filter(|r| taken(r.part as usize)) {
            let (mut x, to) = (run.from as usize, run.to as usize);
            while x < to {
                let column = x / across;
                let end = to.min((column + 1) * across);
                let row = (run.y as i32 + lift[column]) as usize / down;
                cover[row * columns + column] += (end - x) as f32 * unit;
                x = end;
            }
        }
        Self { columns, rows, across, down, lift, cover }
    }

    /// The middle of a bin column in pixels.
    pub(super) fn x(&self, column: usize) -> f64 {
        (column as f64 + 0.5) * self.across as f64
    }

    pub(super) fn columns(&self) -> usize {
        self.columns
    }

    /// Contrast of the band of one x-height about every bin, row by row.
    fn contrast(&self, x_height: f64) -> Vec<f32> {
        let sums = self.summed_down(&self.averaged_along(x_height));
        let band = ((x_height / self.down as f64).round() as usize).max(2);
        let flank = ((FLANK * x_height / self.down as f64).round() as usize).max(1);
        let n = self.columns;
        let mut out = vec![0f32; self.rows * n];
        let (per_band, per_flank) = (1.0 / band as f32, 1.0 / flank as f32);
        for y in 0..self.rows {
            let top = y.saturating_sub(band / 2);
            let bottom = (y + band - band / 2).min(self.rows);
            let row = |r: usize| &sums[r * n..(r + 1) * n];
            let (a, b) = (row(top.saturating_sub(flank)), row(top));
            let (c, d) = (row(bottom), row((bottom + flank).min(self.rows)));
            let line = &mut out[y * n..(y + 1) * n];
            for i in 0..n {
                let middle = (c[i] - b[i]) * per_band;
                let darker = ((b[i] - a[i]) * per_flank).max((d[i] - c[i]) * per_flank);
                line[i] = middle - darker;
            }
        }
        out
    }

    /// Every row averaged over the window along the line.
    fn averaged_along(&self, x_height: f64) -> Vec<f32> {
        let half = ((WINDOW * x_height / 2.0 / self.across as f64).round() as usize).max(1);
        let n = self.columns;
        let unit = 1.0 / (2 * half + 1) as f32;
        let mut out = vec![0f32; self.cover.len()];
        for (line, source) in out.chunks_mut(n).zip(self.cover.chunks(n)) {
            let mut sum: f32 = source.iter().take(half).sum();
            for i in 0..n {
                if i + half < n {
                    sum += source[i + half];
                }
                if i > half {
                    sum -= source[i - half - 1];
                }
                line[i] = sum.max(0.0) * unit;
            }
        }
        out
    }

    /// Sums of all rows above each row: one row more than there are.
    fn summed_down(&self, values: &[f32]) -> Vec<f32> {
        let n = self.columns;
        let mut out = vec![0f32; (self.rows + 1) * n];
        for y in 0..self.rows {
            let (done, rest) = out.split_at_mut((y + 1) * n);
            let above = &done[y * n..];
            for ((o, a), v) in rest[..n].iter_mut().zip(above).zip(&values[y * n..]) {
                *o = a + v;
            }
        }
        out
    }

    /// All local maxima of contrast down every column that are at least `least`, column by column
    /// from the left, each from the top.
    pub(super) fn crests(&self, x_height: f64, least: f32) -> Vec<Vec<Crest>> {
        let contrast = self.contrast(x_height);
        let n = self.columns;
        let mut out = vec![Vec::new(); n];
        for y in 1..self.rows.saturating_sub(1) {
            let (a, b, c) = (
                &contrast[(y - 1) * n..y * n],
                &contrast[y * n..(y + 1) * n],
                &contrast[(y + 1) * n..(y + 2) * n],
            );
            for i in 0..n {
                if b[i] >= least && b[i] > a[i] && b[i] >= c[i] {
                    // Where a parabola through the three has its top; their middle row is at y + 0.5.
                    let bend = a[i] - 2.0 * b[i] + c[i];
                    let off = if bend < -1e-6 { 0.5 * (a[i] - c[i]) / bend } else { 0.0 };
                    let row = (y as f32 + 0.5 + off) * self.down as f32;
                    out[i].push(Crest { column: i, y: row - self.lift[i] as f32, strength: b[i] });
                }
            }
        }
        out
    }

    /// Contrast summed along all crests, times the root of the x-height: how well the ink falls into
    /// bands of this height. Length alone would favour rows of serifs and dirt, area alone a row of
    /// ornament over many lines of small type.
    pub(super) fn weight(&self, x_height: f64, least: f32) -> f64 {
        let sum: f64 = self.crests(x_height, least).iter().flatten().map(|c| f64::from(c.strength)).sum();
        sum * self.across as f64 * x_height.sqrt()
    }
}
