//! Where lines of type run: bands of ink with lighter bands above and below.

use super::runs::Pieces;

/// Width of the window over which a band is averaged along the line, in x-heights. Wider than a word
/// space, narrower than what a curled page lets stay level.
const WINDOW: f64 = 4.0;
/// Height of the lighter band looked for above and below, in x-heights.
const FLANK: f64 = 0.5;

/// How fine the bins of a [`Grid`] are.
#[derive(Debug, Clone, Copy)]
pub(super) enum Fineness {
    /// Half an x-height across, a sixth down: to follow lines.
    Trace,
    /// Two thirds of an x-height across, a quarter down: to weigh sizes against each other.
    Weigh,
}

/// Coverage by ink on a grid of bins, sheared by the skew so that lines of type run level.
pub(super) struct Grid {
    columns: usize,
    rows: usize,
    /// Pixels of a bin across and down.
    pub(super) across: usize,
    down: usize,
    /// Rows by which a column of pixels is lifted, for every bin column.
    lift: Vec<i32>,
    /// Ink above the top of every row of bins, averaged over the window along the line; in rows fully
    /// inked. One row more than there are.
    above: Vec<f32>,
    x_height: f64,
}

/// A place where a line of type may run, in pixels of the level (not sheared).
#[derive(Debug, Clone, Copy)]
pub(super) struct Crest {
    /// Middle of the band.
    pub(super) y: f32,
    /// Contrast of the band against the darker of its flanks, in coverage 0 to 1.
    pub(super) strength: f32,
}

impl Grid {
    /// Bins the ink of the taken components for lines of about this x-height; `fall` is the rows a
    /// line falls for every column.
    pub(super) fn of(
        pieces: &Pieces,
        x_height: f64,
        fall: f64,
        fineness: Fineness,
        taken: impl Fn(usize) -> bool,
    ) -> Self {
        let (wide, high) = match fineness {
            Fineness::Trace => (2.0, 6.0),
            Fineness::Weigh => (1.5, 4.0),
        };
        let across = ((x_height / wide) as usize).max(1);
        let down = ((x_height / high) as usize).max(1);
        let columns = pieces.width.div_ceil(across);
        let lift: Vec<i32> =
            (0..columns).map(|c| ((c as f64 + 0.5) * across as f64 * fall).round() as i32).collect();
        let lowest = lift.iter().copied().max().unwrap_or(0);
        let highest = lift.iter().copied().min().unwrap_or(0);
        let lift: Vec<i32> = lift.iter().map(|l| lowest - l).collect();
        let rows = (pieces.height + (lowest - highest) as usize).div_ceil(down) + 1;
        // The first row stays empty: it is what lies above all.
        let mut cover = vec![0f32; columns * (rows + 1)];
        let unit = 1.0 / (across * down) as f32;
        for run in pieces.runs.iter().filter(|r| taken(r.part as usize)) {
            let (mut x, to) = (run.from as usize, run.to as usize);
            while x < to {
                let column = x / across;
                let end = to.min((column + 1) * across);
                let row = (run.y as i32 + lift[column]) as usize / down;
                cover[(row + 1) * columns + column] += (end - x) as f32 * unit;
                x = end;
            }
        }
        let half = ((WINDOW * x_height / 2.0 / across as f64).round() as usize).max(1);
        let mut line = vec![0f32; columns];
        for y in 1..=rows {
            let (done, rest) = cover.split_at_mut(y * columns);
            let here = &mut rest[..columns];
            average(here, &mut line, half);
            for ((v, l), a) in here.iter_mut().zip(&line).zip(&done[(y - 1) * columns..]) {
                *v = l + a;
            }
        }
        Self { columns, rows, across, down, lift, above: cover, x_height }
    }

    /// The middle of a bin column in pixels.
    pub(super) fn x(&self, column: usize) -> f64 {
        (column as f64 + 0.5) * self.across as f64
    }

    /// Contrast of the band of one x-height about every bin of a row.
    fn contrast(&self, y: usize, out: &mut [f32]) {
        let band = ((self.x_height / self.down as f64).round() as usize).max(2);
        let flank = ((FLANK * self.x_height / self.down as f64).round() as usize).max(1);
        let n = self.columns;
        let (per_band, per_flank) = (1.0 / band as f32, 1.0 / flank as f32);
        let top = y.saturating_sub(band / 2);
        let bottom = (y + band - band / 2).min(self.rows);
        let row = |r: usize| &self.above[r * n..(r + 1) * n];
        let (a, b) = (row(top.saturating_sub(flank)), row(top));
        let (c, d) = (row(bottom), row((bottom + flank).min(self.rows)));
        for ((((o, a), b), c), d) in out.iter_mut().zip(a).zip(b).zip(c).zip(d) {
            *o = (c - b) * per_band - ((b - a) * per_flank).max((d - c) * per_flank);
        }
    }

    /// Calls `found` with the column, the row (with its fraction) and the strength of every local
    /// maximum of contrast down a column that is at least `least`, row by row from the top.
    fn maxima(&self, least: f32, mut found: impl FnMut(usize, f32, f32)) {
        let mut lines = [vec![0f32; self.columns], vec![0f32; self.columns], vec![0f32; self.columns]];
        for y in 0..self.rows {
            lines.rotate_left(1);
            self.contrast(y, &mut lines[2]);
            if y < 2 {
                continue;
            }
            let [before, here, after] = &lines;
            for (i, ((&a, &b), &c)) in before.iter().zip(here).zip(after).enumerate() {
                if b >= least && b > a && b >= c {
                    // Where a parabola through the three has its top.
                    let bend = a - 2.0 * b + c;
                    let off = if bend < -1e-6 { 0.5 * (a - c) / bend } else { 0.0 };
                    found(i, (y - 1) as f32 + off, b);
                }
            }
        }
    }

    /// All crests, column by column from the left, each from the top.
    pub(super) fn crests(&self, least: f32) -> Vec<Vec<Crest>> {
        let mut out = vec![Vec::new(); self.columns];
        self.maxima(least, |column, row, strength| {
            // The band of an even number of bins is centred on their upper edge.
            let y = (row + 0.5) * self.down as f32 - self.lift[column] as f32;
            out[column].push(Crest { y, strength });
        });
        out
    }

    /// Contrast summed along all crests, times the root of the x-height: how well the ink falls into
    /// bands of this height. Length alone would favour rows of serifs and dirt, area alone a row of
    /// ornament over many lines of small type.
    pub(super) fn weight(&self, least: f32) -> f64 {
        let mut sum = 0.0;
        self.maxima(least, |_, _, strength| sum += f64::from(strength));
        sum * self.across as f64 * self.x_height.sqrt()
    }
}

/// Averages a row over `half` bins to both sides.
fn average(source: &[f32], out: &mut [f32], half: usize) {
    let n = source.len();
    let unit = 1.0 / (2 * half + 1) as f32;
    let mut sum: f32 = source.iter().take(half).sum();
    for i in 0..n {
        if i + half < n {
            sum += source[i + half];
        }
        if i > half {
            sum -= source[i - half - 1];
        }
        out[i] = sum.max(0.0) * unit;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Plane;
    use crate::layout::runs::pieces;

    #[test]
    fn a_band_has_its_crest_in_its_middle() {
        let mut p = Plane::filled(120, 60, 0u8);
        for y in 24..32 {
            for (x, v) in p.row_mut(y).iter_mut().enumerate() {
                *v = if x % 4 < 2 { 255 } else { 0 };
            }
        }
        let grid = Grid::of(&pieces(&p, 128), 8.0, 0.0, Fineness::Trace, |_| true);
        for column in &grid.crests(0.1)[5..25] {
            assert_eq!(column.len(), 1);
            assert!((column[0].y - 28.0).abs() <= 1.0, "{:?}", column[0]);
            assert!((column[0].strength - 0.5).abs() < 0.1);
        }
    }
}
