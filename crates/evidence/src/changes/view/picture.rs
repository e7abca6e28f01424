//! Both impressions about a place, laid on each other, as a small picture of a fixed size.

use crate::reading::Reading;
use register::Laid;
use sheet::{Plane, Point};

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
        let along = |middle: f64| -> Vec<f64> {
            let at = |k: usize| (k as f64 + 0.5) / fine as f64 - SIDE as f64 / 2.0;
            (0..SIDE * fine).map(|k| middle + at(k) * step).collect()
        };
        let (across, down) = (along(middle.x), along(middle.y));
        let mut out = Vec::with_capacity(2 * SIDE * SIDE);
        for (plane, gain) in planes.into_iter().zip(gain) {
            let (w, h) = (plane.width() as f64, plane.height() as f64);
            for rows in down.chunks_exact(fine) {
                let rows = rows.iter().filter(|&&y| y >= 0.0 && y < h);
                let mut sums = [0.0f32; SIDE];
                for &y in rows {
                    for (sum, columns) in sums.iter_mut().zip(across.chunks_exact(fine)) {
                        let columns = columns.iter().filter(|&&x| x >= 0.0 && x < w);
                        *sum += columns.map(|&x| plane.sample(x, y)).sum::<f32>();
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
            draw(reading.ink.level(level), middle * down, slope, &mut out);
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

/// Draws what stands about `middle`, in samples of the plane; `slope` is how far one step of the picture, along it and
/// down it, goes there. Beyond the plane there is no ink.
fn draw(plane: &Plane<u8>, middle: Point, slope: [[f64; 2]; 2], out: &mut Vec<u8>) {
    let (w, h) = (plane.width() as f64, plane.height() as f64);
    let off = |k: usize| k as f64 + 0.5 - SIDE as f64 / 2.0;
    for (dx, dy) in (0..SIDE).flat_map(|j| (0..SIDE).map(move |i| (off(i), off(j)))) {
        let x = middle.x + slope[0][0] * dx + slope[0][1] * dy;
        let y = middle.y + slope[1][0] * dx + slope[1][1] * dy;
        let is_on = x >= 0.0 && y >= 0.0 && x < w && y < h;
        out.push(if is_on { plane.sample(x, y) as u8 } else { 0 });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_stands_about_is_drawn_as_the_map_turns_it() {
        // A block right of the middle.
        let mut plane = Plane::filled(200, 120, 0u8);
        (50..70).for_each(|y| plane.row_mut(y)[130..150].fill(200));
        let at = |slope| {
            let mut out = Vec::new();
            draw(&plane, Point::new(100.0, 60.0), slope, &mut out);
            assert_eq!(out.len(), SIDE * SIDE);
            move |x: usize, y: usize| out[y * SIDE + x]
        };
        let upright = at([[4.0, 0.0], [0.0, 4.0]]);
        assert_eq!([upright(26, 16), upright(16, 16), upright(5, 16), upright(16, 26)], [200, 0, 0, 0]);
        let turned = at([[0.0, 4.0], [-4.0, 0.0]]);
        assert_eq!([turned(26, 16), turned(16, 26), turned(16, 5)], [0, 200, 0]);
        // So far out that the picture reaches beyond the plane.
        let small = at([[8.0, 0.0], [0.0, 8.0]]);
        assert_eq!([small(21, 16), small(31, 16), small(0, 0)], [200, 0, 0]);
    }

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
