//! Sums of a picture's samples along straight lines, for many directions at once.
//!
//! Rows are added to rows, each moved aside by as much as the line has gone, so that one sum for every place where a line
//! may cross the middle row comes of it. Within a band of a few rows lines of many directions go the same way; what
//! they sum there is summed once (the thought behind M. L. Brady's approximate discrete Radon transform, *SIAM J.
//! Computing* 27 (1998), 107-119, in one step instead of many; from memory).

use crate::Plane;

/// Rows of a band.
const BAND: usize = 8;
/// Ways to go through a band: from all to the left to all to the right.
const WAYS: usize = 2 * BAND - 1;

/// Sums of `values` over lines that run down rather than across, one row for each of `tangents`: by how much a line goes
/// right from one row to the next, at most 1 either way. Lines are told apart by the sample of the middle row that they
/// cross, which stands in column [`Sums::column_of`].
pub(super) struct Sums {
    rows: Plane<i16>,
    width: usize,
}

impl Sums {
    pub(super) fn of(values: &Plane<i16>, tangents: &[f64]) -> Self {
        let (w, h) = (values.width(), values.height());
        let beside = Self::beside(h);
        let mut rows = Plane::filled(w + 2 * beside, tangents.len(), 0i16);
        // A row with room for what a line goes aside within a band.
        let breadth = w + 2 * BAND;
        let mut ways = vec![0i16; breadth * WAYS];
        for from in (0..h).step_by(BAND) {
            ways.fill(0);
            for (way, sums) in ways.chunks_exact_mut(breadth).enumerate() {
                for i in 0..BAND.min(h - from) {
                    let start = (BAND as i32 - aside(way, i)) as usize;
                    add(&mut sums[start..start + w], values.row(from + i));
                }
            }
            let down = (from + BAND / 2) as f64 - h as f64 / 2.0;
            for (k, &t) in tangents.iter().enumerate() {
                let way = (t * (BAND - 1) as f64).round() as i32 + BAND as i32 - 1;
                // Where the line is in the band's first row; half of its way lies before the band's middle.
                let first = t * down - f64::from(way - (BAND as i32 - 1)) / 2.0;
                let start = (beside - BAND) as i32 - first.round() as i32;
                let sums = &ways[way as usize * breadth..][..breadth];
                add(&mut rows.row_mut(k)[start as usize..start as usize + breadth], sums);
            }
        }
        Self { rows, width: w }
    }

    /// Columns on either side of those of the picture.
    fn beside(height: usize) -> usize {
        height.div_ceil(2) + 2 * BAND
    }

    /// Sums of the lines of one tangent.
    pub(super) fn row(&self, tangent: usize) -> &[i16] {
        self.rows.row(tangent)
    }

    /// Where the line of a column crosses the middle row, from its middle, samples.
    pub(super) fn crosses(&self, column: usize) -> f64 {
        let beside = (self.rows.width() - self.width) / 2;
        column as f64 - beside as f64 + 0.5 - self.width as f64 / 2.0
    }

    /// The column of the line that crosses the middle row there; may lie beside what there is.
    pub(super) fn column_of(&self, crosses: f64) -> f64 {
        let beside = (self.rows.width() - self.width) / 2;
        crosses + beside as f64 - 0.5 + self.width as f64 / 2.0
    }
}

/// How far to the right of its first row a way goes by row `i` of its band.
fn aside(way: usize, i: usize) -> i32 {
    let whole = way as f64 - (BAND - 1) as f64;
    (whole * i as f64 / (BAND - 1) as f64).round() as i32
}

fn add(sums: &mut [i16], values: &[i16]) {
    sums.iter_mut().zip(values).for_each(|(s, &v)| *s = s.saturating_add(v));
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// A line of ones is summed whole where it was drawn, but for what rounding sets beside it; nothing is summed twice.
        #[test]
        fn a_line_is_summed_where_it_runs(
            w in 40usize..90, h in 40usize..90, t in -1.0f64..1.0, at in -0.2f64..0.2
        ) {
            let crosses = at * w as f64;
            let mut values = Plane::filled(w, h, 0i16);
            let mut drawn = 0;
            for y in 0..h {
                let x = crosses + t * (y as f64 + 0.5 - h as f64 / 2.0) + w as f64 / 2.0;
                if x >= 1.0 && x + 1.0 < w as f64 {
                    values.row_mut(y)[x as usize] = 1;
                    drawn += 1;
                }
            }
            let sums = Sums::of(&values, &[t]);
            prop_assert_eq!(sums.row(0).iter().map(|&s| i32::from(s)).sum::<i32>(), drawn);
            let near = sums.column_of(crosses).round() as usize;
            let found: i16 = sums.row(0)[near - 2..=near + 2].iter().sum();
            prop_assert!(i32::from(found) == drawn, "{found} of {drawn}");
            prop_assert!((sums.crosses(near) - crosses).abs() <= 0.5 + 1e-9);
        }
    }
}
