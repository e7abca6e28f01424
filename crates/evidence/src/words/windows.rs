//! Short pieces of a ribbon, and where on another ribbon they may be found.

use super::ribbon::{Column, ROWS, Ribbon};
use rayon::prelude::*;
use wide::{i16x8, i32x4};

/// Columns to a step: all places on a ribbon are counted in steps of 0.4 x-heights.
const STEP: usize = 2;
/// Width of a window in steps: 7 x-heights, a word or two. Shorter ones are alike too often, longer ones are
/// spoilt by one sort that differs and by an x-height measured a little wrong.
pub(super) const WIDE: usize = 18;
const CELLS: usize = WIDE * ROWS;
/// From one window looked for to the next, in steps.
pub(super) const STRIDE: usize = 6;
/// So many places are proposed for a window, at most.
const PROPOSED: usize = 16;
/// A place is proposed only where its likeness stands out from that of all places by this many standard
/// deviations: one in fifty does by chance.
const LEAST_OUTSTANDING: f32 = 2.0;
/// So many windows, evenly spread, tell whether one way to lay two ribbons is better than another.
const TRIED: usize = 30;

/// A ribbon made ready for comparison.
#[derive(Debug, Clone, Default)]
pub(super) struct Band {
    /// Ink less its mean in the row, step by step, each from above downwards.
    cells: Vec<i16>,
    /// One over the length (as of a vector) of the window that begins at each step.
    inverse: Vec<f32>,
    /// Steps of print that may not be seen before each step, itself counted, and before the end.
    unseen: Vec<usize>,
    /// Steps at which lines begin, or end on a side read upside down, in their order.
    pub(super) begins: Vec<usize>,
}

/// A window of the first side and a place on the second where it may be found again.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Anchor {
    /// Where it begins on the first, in steps.
    pub(super) a: usize,
    /// Where it begins on the second, in steps.
    pub(super) b: usize,
    /// How far its likeness stands out, in standard deviations, above that of the first place no longer
    /// proposed: so blurred or over-inked windows, which resemble everything, weigh little.
    pub(super) weight: f32,
}

impl Band {
    /// Makes a ribbon ready.
    pub(super) fn of(ribbon: &Ribbon) -> Self {
        let columns = &ribbon.columns;
        let n = columns.len().max(1) as f32;
        let mean: Column = std::array::from_fn(|r| columns.iter().map(|c| c[r]).sum::<f32>() / n);
        // Four columns to a step of two: a window that begins half a step off still resembles itself.
        let smooth = |c: usize, r: usize| {
            let at = |c: usize| columns.get(c).map_or(0.0, |x| x[r]);
            at(c.saturating_sub(1)) + 2.0 * at(c) + 2.0 * at(c + 1) + at(c + 2)
        };
        let cells: Vec<i16> = (0..columns.len() / STEP)
            .flat_map(|k| (0..ROWS).map(move |r| (k * STEP, r)))
            .map(|(c, r)| (smooth(c, r) - 6.0 * mean[r]).round() as i16)
            .collect();
        let mut unseen = vec![0; cells.len() / ROWS + 1];
        for &(before, n) in &ribbon.unseen {
            let step = (before / STEP).min(unseen.len() - 1);
            unseen[step] += n / STEP;
        }
        for k in 1..unseen.len() {
            unseen[k] += unseen[k - 1];
        }
        let begins = ribbon.begins.iter().map(|column| column / STEP).collect();
        Self { inverse: inverse(&cells), cells, unseen, begins }
    }

    /// The same side read upside down.
    pub(super) fn turned(&self) -> Self {
        let all = self.unseen.last().copied().unwrap_or(0);
        Self {
            cells: self.cells.iter().rev().copied().collect(),
            inverse: self.inverse.iter().rev().copied().collect(),
            begins: self.begins.iter().rev().map(|begin| self.len() - begin).collect(),
            unseen: (0..self.unseen.len()).rev().map(|k| all - self.unseen_up_to(k)).collect(),
        }
    }

    /// Its length in steps.
    pub(super) fn len(&self) -> usize {
        self.cells.len() / ROWS
    }

    /// How many steps of print between two places, those before either of them counted, may not be seen.
    pub(super) fn room(&self, from: usize, to: usize) -> usize {
        self.unseen_up_to(to + 1).saturating_sub(self.unseen_up_to(from))
    }

    /// Steps that may not be seen before the places up to this one, itself left out.
    fn unseen_up_to(&self, place: usize) -> usize {
        let last = self.unseen.len().min(place);
        last.checked_sub(1).map_or(0, |k| self.unseen[k])
    }

    /// Likeness, -1 to 1, of this band's window at `i` to every window of `other`.
    fn likenesses(&self, i: usize, other: &Self) -> Vec<f32> {
        let own = &self.cells[i * ROWS..][..CELLS];
        (0..other.inverse.len())
            .map(|j| dot(own, &other.cells[j * ROWS..][..CELLS]) as f32 * self.inverse[i] * other.inverse[j])
            .collect()
    }

    /// How well this band's windows are found on `other` at their best: the mean likeness of the quarter
    /// found best, since the rest may lie outside the other photograph.
    pub(super) fn found_on(&self, other: &Self) -> f32 {
        let n = self.inverse.len();
        let tried = TRIED.min(n);
        let mut best: Vec<f32> = (0..tried)
            .into_par_iter()
            .map(|t| self.likenesses(t * n / tried, other).into_iter().fold(-1.0, f32::max))
            .collect();
        best.sort_by(|p, q| q.total_cmp(p));
        best.truncate(tried.div_ceil(4));
        best.iter().sum::<f32>() / best.len().max(1) as f32
    }

    /// Places on `other` for every window of this band, ordered by `a`, then by `b`.
    pub(super) fn anchors(&self, other: &Self) -> Vec<Anchor> {
        let starts = self.inverse.len().div_ceil(STRIDE);
        let of_window = |k: usize| proposed(k * STRIDE, &self.likenesses(k * STRIDE, other));
        (0..starts).into_par_iter().flat_map_iter(of_window).collect()
    }
}

fn inverse(cells: &[i16]) -> Vec<f32> {
    let square = |c: &[i16]| c.iter().map(|v| i64::from(*v).pow(2)).sum::<i64>();
    let squares: Vec<i64> = cells.chunks_exact(ROWS).map(square).collect();
    squares.windows(WIDE).map(|w| 1.0 / (w.iter().sum::<i64>() as f32).sqrt().max(1.0)).collect()
}

/// Of two windows: a whole number of columns, eight rows each.
fn dot(p: &[i16], q: &[i16]) -> i32 {
    let mut lanes = i32x4::ZERO;
    for (&x, &y) in p.as_chunks::<ROWS>().0.iter().zip(q.as_chunks::<ROWS>().0) {
        lanes += i16x8::new(x).dot(i16x8::new(y));
    }
    lanes.reduce_add()
}

/// The places where the likeness is greatest, each better than the places beside it.
fn proposed(a: usize, likeness: &[f32]) -> Vec<Anchor> {
    let n = likeness.len();
    let mean = likeness.iter().sum::<f32>() / n.max(1) as f32;
    let deviation =
        (likeness.iter().map(|l| (l - mean).powi(2)).sum::<f32>() / n.max(1) as f32).sqrt().max(1e-6);
    let least = mean + LEAST_OUTSTANDING * deviation;
    let is_peak = |j: usize| {
        likeness[j] > least
            && (j == 0 || likeness[j] > likeness[j - 1])
            && (j + 1 == n || likeness[j] >= likeness[j + 1])
    };
    let mut peaks: Vec<usize> = (0..n).filter(|&j| is_peak(j)).collect();
    peaks.sort_by(|&p, &q| likeness[q].total_cmp(&likeness[p]));
    let ground = peaks.get(PROPOSED).map_or(least, |&j| likeness[j]);
    peaks.truncate(PROPOSED);
    peaks.sort_unstable();
    peaks.into_iter().map(|b| Anchor { a, b, weight: (likeness[b] - ground) / deviation }).collect()
}

#[cfg(test)]
impl Band {
    /// Nothing but a hole of so many steps at a place.
    pub(super) fn with_hole(at: usize, steps: usize) -> Self {
        Self { unseen: (0..=2 * at).map(|k| if k < at { 0 } else { steps }).collect(), ..Self::default() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hole_lies_at_the_same_place_read_the_other_way() {
        let there = Band { cells: vec![0; 20 * ROWS], ..Band::with_hole(10, 7) };
        let ribbon = Band {
            unseen: there.unseen.iter().enumerate().map(|(k, n)| n + usize::from(k >= 3)).collect(),
            ..there
        };
        let turned = ribbon.turned();
        for (from, to) in [(0, 20), (3, 9), (4, 10), (10, 17), (11, 20), (17, 18)] {
            assert_eq!(ribbon.room(from, to), turned.room(20 - to, 20 - from), "{from} to {to}");
        }
    }
}
