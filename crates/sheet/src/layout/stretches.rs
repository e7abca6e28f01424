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
/// makes its spaces clearest.
pub(super) fn inked(ink: &Plane<u8>, line: &Fitted, left: f64, right: f64) -> Vec<Stretch> {
    let upright = columns(ink, line, left, right, 0.0);
    let mut best = (clearness(&upright), upright);
    for slant in SLANTS.into_iter().skip(1) {
        let leaning = columns(ink, line, left, right, slant);
        let clear = clearness(&leaning);
        if clear > best.0 {
            best = (clear, leaning);
        }
    }
    let start = left.max(0.0).floor();
    let mut out: Vec<Stretch> = Vec::new();
    let mut from = None;
    for (i, &v) in best.1.iter().chain([&0.0]).enumerate() {
        let x = start + i as f64;
        match (v >= BLANK, from) {
            (true, None) => from = Some(x),
            (false, Some(f)) => {
                out.push(Stretch { from: f, to: x });
                from = None;
            }
            _ => {}
        }
    }
    out
}

/// The same, measured to a fraction of a column on a level that is finer by `times`; in columns of the
/// coarser one. `coarse` is the level the line was found on.
pub(super) fn measured(coarse: &Plane<u8>, ink: &Plane<u8>, times: f64, line: &Fitted) -> Vec<Stretch> {
    let (left, right) = (line.left - 0.5 * line.x_height, line.right + 0.5 * line.x_height);
    let clear = |slant: f64| clearness(&columns(coarse, line, left, right, slant));
    let slant =
        SLANTS.into_iter().map(|s| (clear(s), s)).fold((-1.0, 0.0), |a, b| if b.0 > a.0 { b } else { a }).1;
    let profile = columns(ink, &line.scaled(times), left * times, right * times, slant);
    let start = (left * times).max(0.0).floor();
    let mut inked: Vec<f64> = profile.iter().copied().filter(|&v| v > BLANK).collect();
    inked.sort_by(f64::total_cmp);
    let blank = (FAINT * inked.get(inked.len() * 3 / 4).copied().unwrap_or(0.0)).max(BLANK / 2.0);
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

/// The mean darkness of every column of a line's band, 0 to 1, read along a slant.
fn columns(ink: &Plane<u8>, line: &Fitted, left: f64, right: f64, slant: f64) -> Vec<f64> {
    let (up, down) = ((ABOVE * line.x_height).ceil() as i32, (BELOW * line.x_height).ceil() as i32);
    let (from, to) = (left.max(0.0) as usize, right.clamp(0.0, ink.width() as f64) as usize);
    let unit = 1.0 / (255.0 * f64::from(up + down));
    let mut out = vec![0.0; to.saturating_sub(from)];
    for (i, sum) in out.iter_mut().enumerate() {
        let x = (from + i) as f64 + 0.5;
        let base = line.baseline(x).round() as i32;
        let mut dark = 0u32;
        for d in -down..up {
            let row = base - d - 1;
            let column = (x + f64::from(d) * slant).floor();
            if row >= 0 && (row as usize) < ink.height() && column >= 0.0 && (column as usize) < ink.width() {
                dark += u32::from(ink.at(column as usize, row as usize));
            }
        }
        *sum = f64::from(dark) * unit;
    }
    out
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
            let found = measured(&coarse, ink, times, &line);
            assert_eq!(found.len(), 2);
            let space = found[1].from - found[0].to;
            // The mark is low, so that both edges lie outside the ink, by half a column each at most.
            assert!(space <= 10.5 && space >= 10.5 - 1.0 / times - 0.1, "{space}");
        }
    }
}
