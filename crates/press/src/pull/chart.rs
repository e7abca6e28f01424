//! A coarse grid over the photograph, where the sheet's own places and slow changes are worked out once.

use rayon::prelude::*;
use sheet::Point;

/// Values at knots a few pixels apart, bilinear between them.
#[derive(Debug, Clone)]
pub(crate) struct Chart<const N: usize> {
    step: f64,
    columns: usize,
    knots: Vec<[f32; N]>,
}

impl<const N: usize> Chart<N> {
    /// Works out the values of `rule` at every knot of a photograph of this size.
    pub(crate) fn new(
        width: usize,
        height: usize,
        step: f64,
        rule: impl Fn(Point) -> [f32; N] + Sync,
    ) -> Self {
        let columns = (width as f64 / step).ceil() as usize + 2;
        let rows = (height as f64 / step).ceil() as usize + 2;
        let knots = (0..columns * rows)
            .into_par_iter()
            .with_min_len(256)
            .map(|i| rule(Point::new((i % columns) as f64 * step, (i / columns) as f64 * step)))
            .collect();
        Self { step, columns, knots }
    }

    /// Another chart with the same knots, worked out from this one's values.
    pub(crate) fn derived<const M: usize>(
        &self,
        rule: impl Fn(&[f32; N]) -> [f32; M] + Sync + Send,
    ) -> Chart<M> {
        let knots = self.knots.par_iter().with_min_len(256).map(rule).collect();
        Chart { step: self.step, columns: self.columns, knots }
    }

    /// Calls `each` with every column of row `y` and the values at the pixel's centre.
    pub(crate) fn along_row(&self, y: usize, width: usize, mut each: impl FnMut(usize, &[f32; N])) {
        let v = (y as f64 + 0.5) / self.step;
        let (row, down) = (v.floor() as usize, v.fract() as f32);
        let knot = |column: usize| -> [f32; N] {
            let (a, b) =
                (&self.knots[row * self.columns + column], &self.knots[(row + 1) * self.columns + column]);
            std::array::from_fn(|n| a[n] + down * (b[n] - a[n]))
        };
        let (mut column, mut left, mut right) = (0, knot(0), knot(1));
        for x in 0..width {
            let u = (x as f64 + 0.5) / self.step;
            if u as usize > column {
                column = u as usize;
                left = right;
                right = knot(column + 1);
            }
            let part = u.fract() as f32;
            each(x, &std::array::from_fn(|n| left[n] + part * (right[n] - left[n])));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slope_is_read_back_at_every_pixel() {
        let chart = Chart::new(50, 30, 7.0, |p| [(2.0 * p.x + 3.0 * p.y) as f32]);
        for y in [0, 13, 29] {
            chart.along_row(y, 50, |x, [v]| {
                let want = 2.0 * (x as f32 + 0.5) + 3.0 * (y as f32 + 0.5);
                assert!((v - want).abs() < 1e-3, "{x} {y} {v} {want}");
            });
        }
    }
}
