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
