//! Both impressions about a place, laid on each other, as a small picture of a fixed size.

use crate::reading::Reading;
use register::Laid;
use sheet::{Plane, Point, StraightMap};

/// Samples of a side.
pub(super) const SIDE: usize = 32;
/// Samples to the x-height close by, where two and two thirds x-heights are seen.
const CLOSE: f64 = 12.0;
/// Samples to the x-height of what stands about a place: six and two fifths x-heights are seen, the lines above and
/// below too.
const ABOUT: f64 = 5.0;

/// Ink of both impressions about a place, by rows, the first's before the second's; of 255.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::changes) struct Picture(Box<[u8]>);

impl Picture {
    /// About `middle`, in samples of the planes, of which `x_height` go to an x-height; `gain` brings the solid ink of
    /// both to the darker one's. Beyond the planes there is no ink.
    pub(in crate::changes) fn close(
        planes: [&Plane<u8>; 2],
        gain: [f32; 2],
        middle: Point,
        x_height: f64,
    ) -> Self {
        let step = x_height / CLOSE;
        // Of finer planes so many samples by so many are averaged.
        let fine = (step.ceil() as usize).max(1);
        let along = |middle: f64, end: usize| -> Vec<Option<Between>> {
            let at = |k: usize| (k as f64 + 0.5) / fine as f64 - SIDE as f64 / 2.0;
            (0..SIDE * fine).map(|k| Between::at(middle + at(k) * step, end)).collect()
        };
        let mut out = Vec::with_capacity(2 * SIDE * SIDE);
        for (plane, gain) in planes.into_iter().zip(gain) {
            let (across, down) = (along(middle.x, plane.width()), along(middle.y, plane.height()));
            for rows in down.chunks_exact(fine) {
                let mut sums = [0.0f32; SIDE];
                for y in rows.iter().flatten() {
                    let (top, low) = (plane.row(y.before), plane.row(y.after));
                    for (sum, columns) in sums.iter_mut().zip(across.chunks_exact(fine)) {
                        let value = |x: &Between| y.of(x.of_row(top), x.of_row(low));
                        *sum += columns.iter().flatten().map(value).sum::<f32>();
                    }
                }
                out.extend(sums.map(|sum| (sum * gain / (fine * fine) as f32).min(255.0) as u8));
            }
        }
        Self(out.into())
    }

    /// What stands about `middle`, pixels of the first; on the second laid where the paper puts it and `own`, the
    /// displacement of its word by itself. Of a crease or a fold nothing is mended: that print does not lie on itself
    /// beyond it can be seen. Beyond the photographs there is no ink. `x_height` in pixels of the first.
    pub(in crate::changes) fn about(
        [a, b]: [&Reading; 2],
        laid: &Laid,
        middle: Point,
        own: Point,
        x_height: f64,
    ) -> Self {
        let step = x_height / ABOUT;
        let level = (step.max(1.0).log2() as usize).min(a.ink.depth() - 1);
        let level_b = laid.level_of_b(level).min(b.ink.depth() - 1);
        let (there, slope) = laid.map.to_b_with_slope(middle + own);
        let mut out = Vec::with_capacity(2 * SIDE * SIDE);
        for (reading, level, middle, slope) in
            [(a, level, middle, [[1.0, 0.0], [0.0, 1.0]]), (b, level_b, there, slope)]
        {
            let down = 0.5f64.powi(level as i32);
            let slope = slope.map(|row| row.map(|v| v * step * down));
            let map = StraightMap { centre: middle * down, slope };
            out.extend(reading.ink.level(level).through(&map, SIDE, SIDE).into_vec());
        }
        Self(out.into())
    }

    /// The samples, 2 · 32 · 32.
    pub(super) fn samples(&self) -> &[u8] {
        &self.0
    }

    /// The samples of the first impression, and of the second.
    pub(super) fn both(&self) -> [&[u8]; 2] {
        let (first, second) = self.0.split_at(SIDE * SIDE);
        [first, second]
    }
}

/// A place between the centres of two samples of a row, or of a column; at the ends the one is repeated.
#[derive(Debug, Clone, Copy)]
struct Between {
    before: usize,
    after: usize,
    /// How far from the one to the other, 0 to 1.
    share: f32,
}

impl Between {
    /// At `x`, of `end` samples; `None` beyond them.
    fn at(x: f64, end: usize) -> Option<Self> {
        (x >= 0.0 && x < end as f64).then(|| {
            let from = (x - 0.5).max(0.0);
            let before = from as usize;
            Self { before, after: (before + 1).min(end - 1), share: (from - before as f64) as f32 }
        })
    }

    fn of(self, before: f32, after: f32) -> f32 {
        before + self.share * (after - before)
    }

    fn of_row(self, row: &[u8]) -> f32 {
        self.of(f32::from(row[self.before]), f32::from(row[self.after]))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_picture_is_of_one_size_whatever_the_resolution() {
        for x_height in [9usize, 18, 31] {
            // A block one x-height broad and high.
            let side = 4 * x_height;
            let mut plane = Plane::filled(side, side, 0u8);
            for y in 0..x_height {
                plane.row_mut(x_height + y)[x_height..2 * x_height].fill(200);
            }
            let blank = Plane::filled(side, side, 0u8);
            let middle = Point::new(1.5 * x_height as f64, 1.5 * x_height as f64);
            let seen = Picture::close([&plane, &blank], [1.25, 1.0], middle, x_height as f64);
            let (first, second) = seen.samples().split_at(SIDE * SIDE);
            assert!(second.iter().all(|&v| v == 0));
            let at = |x: usize, y: usize| first[y * SIDE + x];
            assert!((249..=250).contains(&at(16, 16)), "{}", at(16, 16));
            let mass = first.iter().map(|&v| f64::from(v)).sum::<f64>() / 250.0;
            assert!((mass - CLOSE * CLOSE).abs() < 8.0, "{x_height}: {mass}");
            assert_eq!([at(2, 16), at(29, 16), at(16, 2), at(16, 29)], [0; 4]);
        }
    }

    #[test]
    fn what_lies_beyond_the_planes_is_blank() {
        let plane = Plane::filled(6, 6, 255u8);
        let seen = Picture::close([&plane, &plane], [1.0; 2], Point::new(0.0, 0.0), 12.0);
        assert_eq!((seen.samples()[0], seen.samples()[17 * SIDE + 17]), (0, 255));
    }
}
