//! Where a cut falls into two parts: the rectangle in which what windows tell differs most from what they tell elsewhere.
//!
//! A plug, a block of a composite, a strip that was cut anew are all upright rectangles of the block, near enough.

use std::collections::BTreeMap;

/// Cells to a side that such a rectangle has at the least: less is a window or two.
const LEAST: usize = 3;
/// Most positions of its edges along a side; finer grids are taken together.
const MOST: usize = 40;

/// A rectangle and what lies in it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Parted {
    /// Windows in it, by their numbers.
    pub(super) within: Vec<usize>,
    /// Mean of what they tell, and of what all others do.
    pub(super) means: [f64; 2],
    /// How clearly the two differ: the difference of the means, in standard deviations of a window within its part, times the
    /// root of how many windows the smaller part is worth. Windows that overlap are not independent, so it is no significance.
    pub(super) strength: f64,
}

/// The rectangle that parts what windows tell best, whether they tell more in it or less: `sign` 1.0 or -1.0 for only the one or
/// the other. `cells` are their columns and rows. `None` where there are too few.
pub(super) fn parted(cells: &[(usize, usize)], tell: &[f64], sign: f64) -> Option<Parted> {
    let n = tell.len();
    if n < 2 * LEAST * LEAST {
        return None;
    }
    let most = |of: fn(&(usize, usize)) -> usize| cells.iter().map(of).max().unwrap_or(0) + 1;
    let coarse = most(|c| c.0).max(most(|c| c.1)).div_ceil(MOST);
    let (w, h) = (most(|c| c.0).div_ceil(coarse), most(|c| c.1).div_ceil(coarse));
    let grid = Sums::of(w, h, cells.iter().map(|c| (c.0 / coarse, c.1 / coarse)).zip(tell.iter().copied()));
    let (count, sum) = grid.within(0, 0, w, h);
    let mut best: Option<(f64, [usize; 4])> = None;
    for (top, low) in (0..h).flat_map(|t| (t + LEAST..=h).map(move |l| (t, l))) {
        for (left, right) in (0..w).flat_map(|l| (l + LEAST..=w).map(move |r| (l, r))) {
            let (inside, s) = grid.within(left, top, right, low);
            let outside = count - inside;
            if inside < (LEAST * LEAST) as f64 || outside < (LEAST * LEAST) as f64 {
                continue;
            }
            let apart = sign * (s / inside - (sum - s) / outside) * (inside * outside / count).sqrt();
            if best.is_none_or(|b| apart > b.0) {
                best = Some((apart, [left, top, right, low]));
            }
        }
    }
    let (apart, [left, top, right, low]) = best?;
    let is_in = |c: &(usize, usize)| {
        (left * coarse..right * coarse).contains(&c.0) && (top * coarse..low * coarse).contains(&c.1)
    };
    let within: Vec<usize> = (0..n).filter(|&i| is_in(&cells[i])).collect();
    let (inside, s) = grid.within(left, top, right, low);
    let means = [s / inside, (sum - s) / (count - inside)];
    let squares: f64 =
        (0..n).map(|i| (tell[i] - means[usize::from(!is_in(&cells[i]))]).powi(2)).sum::<f64>() / n as f64;
    Some(Parted { within, means, strength: apart / squares.sqrt().max(1e-9) })
}

/// Counts and sums above and to the left of every corner of a grid.
struct Sums {
    width: usize,
    all: Vec<(f64, f64)>,
}

impl Sums {
    fn of(w: usize, h: usize, values: impl Iterator<Item = ((usize, usize), f64)>) -> Self {
        let mut cells: BTreeMap<(usize, usize), (f64, f64)> = BTreeMap::new();
        for (at, value) in values {
            let cell = cells.entry(at).or_default();
            *cell = (cell.0 + 1.0, cell.1 + value);
        }
        let width = w + 1;
        let mut all = vec![(0.0, 0.0); width * (h + 1)];
        for y in 0..h {
            let mut row = (0.0, 0.0);
            for x in 0..w {
                let cell = cells.get(&(x, y)).copied().unwrap_or_default();
                row = (row.0 + cell.0, row.1 + cell.1);
                let above = all[y * width + x + 1];
                all[(y + 1) * width + x + 1] = (above.0 + row.0, above.1 + row.1);
            }
        }
        Self { width, all }
    }

    fn within(&self, left: usize, top: usize, right: usize, low: usize) -> (f64, f64) {
        let at = |x: usize, y: usize| self.all[y * self.width + x];
        let [a, b, c, d] = [at(right, low), at(left, low), at(right, top), at(left, top)];
        (a.0 - b.0 - c.0 + d.0, a.1 - b.1 - c.1 + d.1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Windows of a grid 30 by 20, telling 1 with some noise, and -1 in a rectangle if there is one.
    fn told(planted: bool) -> (Vec<(usize, usize)>, Vec<f64>) {
        let cells: Vec<(usize, usize)> = (0..600).map(|i| (i % 30, i / 30)).collect();
        let noise =
            |i: usize| ((i as u64).wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 33) as f64 / 2f64.powi(31) - 0.5;
        let is_in = |c: &(usize, usize)| planted && (4..10).contains(&c.0) && (8..15).contains(&c.1);
        let tell = cells.iter().enumerate().map(|(i, c)| if is_in(c) { -1.0 } else { 1.0 } + noise(i));
        (cells.clone(), tell.collect())
    }

    #[test]
    fn a_part_that_tells_otherwise_is_found_where_it_is() {
        let (cells, tell) = told(true);
        let found = parted(&cells, &tell, -1.0).unwrap();
        assert_eq!(found.within.len(), 42);
        assert!(found.within.iter().all(|&i| (4..10).contains(&cells[i].0) && (8..15).contains(&cells[i].1)));
        assert!(found.means[0] < -0.8 && found.means[1] > 0.8 && found.strength > 20.0, "{found:?}");
    }

    #[test]
    fn noise_alone_parts_weakly_and_a_few_windows_not_at_all() {
        let (cells, tell) = told(false);
        assert!(parted(&cells, &tell, -1.0).unwrap().strength < 6.0);
        assert_eq!(parted(&cells[..12], &tell[..12], -1.0), None);
    }
}
