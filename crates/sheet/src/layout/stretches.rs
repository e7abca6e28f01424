//! The inked and the blank stretches along a line of type.

use super::fit::Fitted;
use crate::Plane;

/// The band looked at reaches from this far above the baseline to this far below it, in x-heights:
/// descenders and the next lines' letters must not bridge a space.
const ABOVE: f64 = 1.15;
const BELOW: f64 = 0.1;
/// Slants tried, as columns to the right for every row up: upright to a steep italic.
const SLANTS: [f64; 5] = [0.0, 0.09, 0.18, 0.27, 0.36];
/// A column is blank when its mean darkness is below this, 0 to 1.
const BLANK: f64 = 0.04;
/// When spaces are measured, below this share of the darkness of a well inked column: blur and the weight
/// of the inking change both alike.
const FAINT: f64 = 0.16;

/// A stretch of a line, in columns at the baseline, `from` up to `to`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stretch {
    pub(super) from: f64,
    pub(super) to: f64,
}

impl Stretch {
    pub(super) fn width(self) -> f64 {
        self.to - self.from
    }

    /// The part shared by both; not positive in width when they do not meet.
    pub(super) fn shared(self, o: Self) -> Self {
        Self { from: self.from.max(o.from), to: self.to.min(o.to) }
    }
}

/// The inked stretches of a line between two columns, from left to right, read along the slant that
/// makes its spaces clearest; and that slant.
pub(super) fn inked(ink: &Plane<u8>, line: &Fitted, left: f64, right: f64) -> (f64, Vec<Stretch>) {
    let band = Band::of(ink, line, left, right);
    let mut best = (-1.0, 0.0, Vec::new());
    for slant in SLANTS {
        let columns = band.columns(slant);
        let clear = clearness(&columns);
        if clear > best.0 {
            best = (clear, slant, columns);
        }
    }
    let mut out: Vec<Stretch> = Vec::new();
    let mut from = None;
    for (i, &v) in best.2.iter().chain([&0.0]).enumerate() {
        let x = (band.from + i) as f64;
        match (v >= BLANK, from) {
            (true, None) => from = Some(x),
            (false, Some(f)) => {
                out.push(Stretch { from: f, to: x });
                from = None;
            }
            _ => {}
        }
    }
    (best.1, out)
}

/// The same along a known slant, measured to a fraction of a column on a level that is finer by `times`; in
/// columns of the coarser one, on which the line was found.
pub(super) fn measured(ink: &Plane<u8>, times: f64, line: &Fitted, slant: f64) -> Vec<Stretch> {
    let (left, right) = (line.left - 0.5 * line.x_height, line.right + 0.5 * line.x_height);
    let band = Band::of(ink, &line.scaled(times), left * times, right * times);
    let profile = band.columns(slant);
    let start = band.from as f64;
    let mut inked: Vec<f64> = profile.iter().copied().filter(|&v| v > BLANK).collect();
    let usual = inked.len() * 3 / 4;
    let usual = if inked.is_empty() { 0.0 } else { *inked.select_nth_unstable_by(usual, f64::total_cmp).1 };
    let blank = (FAINT * usual).max(BLANK / 2.0);
    let mut out: Vec<Stretch> = Vec::new();
    let mut from = None;
    for i in 0..=profile.len() {
        let before = if i > 0 { profile[i - 1] } else { 0.0 };
        let here = profile.get(i).copied().unwrap_or(0.0);
        // Where the darkness, straight between the middles of columns, passes the mark.
        let x = || (start + i as f64 - 0.5 + (blank - before) / (here - before)) / times;
        match (here >= blank, from) {
            (true, None) => from = Some(x()),
            (false, Some(f)) => {
                out.push(Stretch { from: f, to: x() });
                from = None;
            }
            _ => {}
        }
    }
    out
}

/// How unevenly the ink is spread over the columns: the sum of their squares.
fn clearness(columns: &[f64]) -> f64 {
    columns.iter().map(|v| v * v).sum()
}

/// The band of ink that a line stands in.
struct Band<'a> {
    ink: &'a Plane<u8>,
    /// Its first column.
    from: usize,
    /// The row below the baseline, column by column.
    feet: Vec<i32>,
    /// Rows above and below the baseline.
    up: i32,
    down: i32,
}

impl<'a> Band<'a> {
    fn of(ink: &'a Plane<u8>, line: &Fitted, left: f64, right: f64) -> Self {
        let (from, to) = (left.max(0.0) as usize, right.clamp(0.0, ink.width() as f64) as usize);
        let feet = (from..to).map(|x| (line.baseline(x as f64 + 0.5) + 0.5).floor() as i32).collect();
        let (up, down) = ((ABOVE * line.x_height).ceil() as i32, (BELOW * line.x_height).ceil() as i32);
        Self { ink, from, feet, up, down }
    }

    /// The mean darkness of every column, 0 to 1, read along a slant.
    fn columns(&self, slant: f64) -> Vec<f64> {
        let mut dark = vec![0u32; self.feet.len()];
        // Along a row as far as the baseline stays in one.
        let mut start = 0;
        for level in self.feet.chunk_by(|a, b| a == b) {
            let end = start + level.len();
            for d in -self.down..self.up {
                let row = level[0] - d - 1;
                if row >= 0 && (row as usize) < self.ink.height() {
                    let aside = self.from as isize + (0.5 + f64::from(d) * slant).floor() as isize;
                    add(self.ink.row(row as usize), start as isize + aside, &mut dark[start..end]);
                }
            }
            start = end;
        }
        let unit = 1.0 / (255.0 * f64::from(self.up + self.down));
        dark.into_iter().map(|v| f64::from(v) * unit).collect()
    }
}

/// Adds the samples of a row from a column on, as far as there are any.
fn add(row: &[u8], from: isize, sums: &mut [u32]) {
    let before = from.min(0).unsigned_abs().min(sums.len());
    let row = &row[from.max(0).unsigned_abs().min(row.len())..];
    for (sum, &v) in sums[before..].iter_mut().zip(row) {
        *sum += u32::from(v);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_space_is_measured_to_a_column_of_the_level_given() {
        // Two blocks 21 columns apart at full size.
        let mut fine = Plane::filled(240, 60, 0u8);
        for y in 20..40 {
            fine.row_mut(y)[30..100].fill(220);
            fine.row_mut(y)[121..200].fill(220);
        }
        let coarse = fine.halved();
        let line = Fitted::straight(15.0, 100.0, 20.0, 0.0, 10.0);
        for (ink, times) in [(&fine, 2.0), (&coarse, 1.0)] {
            let found = measured(ink, times, &line, 0.0);
            assert_eq!(found.len(), 2);
            let space = found[1].from - found[0].to;
            // The mark is low, so that both edges lie outside the ink, by half a column each at most.
            assert!(space <= 10.5 && space >= 10.5 - 1.0 / times - 0.1, "{space}");
        }
    }
}
