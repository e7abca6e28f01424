//! A plane seen through a straight map: turned, leant, of another size.

use crate::geometry::Point;
use crate::plane::Plane;

/// A straight map about a middle, from the samples of a picture to those of a plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StraightMap {
    /// Where the picture's middle lies on the plane.
    pub centre: Point,
    /// How far a step on the picture goes on the plane: x and y there, each by a step right and one down.
    pub slope: [[f64; 2]; 2],
}

impl StraightMap {
    /// Where a place of the picture, `x` to the right of its middle and `y` below it, lies on the plane.
    pub fn to(&self, x: f64, y: f64) -> Point {
        let [[xx, xy], [yx, yy]] = self.slope;
        Point::new(self.centre.x + xx * x + xy * y, self.centre.y + yx * x + yy * y)
    }

    /// Of a map between the pixels of two photographs: the same between levels of them, `unit` pixels of the picture's to
    /// a sample and `down` samples of the plane's to a pixel.
    #[must_use]
    pub fn between_levels(&self, unit: f64, down: f64) -> Self {
        Self { centre: self.centre * down, slope: self.slope.map(|row| row.map(|v| v * unit * down)) }
    }

    /// Where the corners of a picture of `w` by `h` samples lie, clockwise from the top left.
    pub fn corners(&self, w: usize, h: usize) -> [Point; 4] {
        let (x, y) = (w as f64 / 2.0, h as f64 / 2.0);
        [(-x, -y), (x, -y), (x, y), (-x, y)].map(|(x, y)| self.to(x, y))
    }
}

/// Parts of a level in which values between samples are told.
pub const PARTS_OF_A_LEVEL: u32 = 65_536;

impl Plane<u8> {
    /// The plane as it is seen through `map`, on `w` by `h` samples, parts of a level cut off. Beyond the plane
    /// there is nothing: 0.
    #[must_use]
    pub fn through(&self, map: &StraightMap, w: usize, h: usize) -> Self {
        let mut out = Self::filled(w, h, 0);
        for (y, row) in out.data_mut().chunks_exact_mut(w.max(1)).enumerate() {
            self.row_through(map, [w, h], y, row, |parts| (parts / PARTS_OF_A_LEVEL) as u8);
        }
        out
    }

    /// Row `y` of a picture of `w` by `h` samples seen through `map`, each value as `of` makes it of a sum of 65536ths
    /// of a level. Beyond the plane nothing is written.
    pub fn row_through<T>(
        &self,
        map: &StraightMap,
        [w, h]: [usize; 2],
        y: usize,
        out: &mut [T],
        of: impl Fn(u32) -> T,
    ) {
        let down = y as f64 + 0.5 - h as f64 / 2.0;
        let across = |x: usize| x as f64 + 0.5 - w as f64 / 2.0;
        let (first, last) = (map.to(across(0), down), map.to(across(w.max(1) - 1), down));
        let (width, height) = (self.width() as f64, self.height() as f64);
        let amid = |p: Point| p.x >= 1.0 && p.y >= 1.0 && p.x < width - 1.0 && p.y < height - 1.0;
        if amid(first) && amid(last) {
            // Whole numbers of 2^32 to the sample, and the share of a sample in 256.
            let fixed = |v: f64| (v * 4_294_967_296.0) as i64;
            let share = |v: i64| ((v >> 24) & 0xff) as i32;
            let (data, stride) = (self.data(), self.width());
            let (mut x, mut y) = (fixed(first.x - 0.5), fixed(first.y - 0.5));
            let (sx, sy) = (fixed(map.slope[0][0]), fixed(map.slope[1][0]));
            for v in &mut out[..w] {
                let i = (y >> 32) as usize * stride + (x >> 32) as usize;
                let (ax, ay) = (share(x), share(y));
                let (top, low) = (&data[i..i + 2], &data[i + stride..i + stride + 2]);
                let between = |p: &[u8]| {
                    let (l, r) = (i32::from(p[0]), i32::from(p[1]));
                    256 * l + ax * (r - l)
                };
                let (t, l) = (between(top), between(low));
                *v = of((256 * t + ay * (l - t)) as u32);
                x += sx;
                y += sy;
            }
            return;
        }
        for (x, v) in out[..w].iter_mut().enumerate() {
            let p = map.to(across(x), down);
            if self.holds(p) {
                *v = of((self.sample(p.x, p.y) * PARTS_OF_A_LEVEL as f32) as u32);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn speckled() -> Plane<u8> {
        let values = (0..80 * 60).map(|i: u32| (i.wrapping_mul(2_654_435_761) >> 24) as u8).collect();
        Plane::from_vec(80, 60, values).unwrap()
    }

    proptest! {
        /// As [`Plane::sample`] reads it, within the level that is cut off and what 256ths of a sample leave.
        #[test]
        fn what_is_seen_through_a_map_is_what_is_read_there(
            (x, y) in (0.0..80.0, 0.0..60.0),
            (turn, size) in (0.0f64..std::f64::consts::TAU, 0.3f64..3.0),
            (w, h) in (1usize..40, 1usize..40),
        ) {
            let plane = speckled();
            let (sin, cos): (f64, f64) = f64::sin_cos(turn);
            let map = StraightMap {
                centre: Point::new(x, y),
                slope: [[size * cos, -size * sin], [size * sin, size * cos]],
            };
            let seen = plane.through(&map, w, h);
            for (i, &v) in seen.data().iter().enumerate() {
                let p = map.to((i % w) as f64 + 0.5 - w as f64 / 2.0, (i / w) as f64 + 0.5 - h as f64 / 2.0);
                let is_on = p.x >= 0.0 && p.y >= 0.0 && p.x < 80.0 && p.y < 60.0;
                let there = if is_on { plane.sample(p.x, p.y) } else { 0.0 };
                prop_assert!((f32::from(v) - there).abs() <= 3.1, "{v} {there} at {p:?}");
            }
        }
    }

    #[test]
    fn unturned_it_is_a_part_of_the_plane() {
        let plane = speckled();
        let map = StraightMap { centre: Point::new(30.0, 20.0), slope: [[1.0, 0.0], [0.0, 1.0]] };
        assert_eq!(plane.through(&map, 12, 8), plane.crop(24, 16, 12, 8));
    }
}
