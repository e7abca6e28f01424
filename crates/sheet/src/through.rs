//! A plane seen through a straight map: turned, leant, of another size.

use crate::geometry::Point;
use crate::plane::{Plane, upper};

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
pub const PARTS_OF_A_LEVEL: u16 = 256;
/// Steps along a row that go this much further, or less far, than a sample are read one by one: runs would be short.
const NEARLY_A_SAMPLE: f64 = 0.1;

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

    /// Row `y` of a picture of `w` by `h` samples seen through `map`, each value as `of` makes it of
    /// [`PARTS_OF_A_LEVEL`]. Beyond the plane nothing is written.
    pub fn row_through<T>(
        &self,
        map: &StraightMap,
        [w, h]: [usize; 2],
        y: usize,
        out: &mut [T],
        of: impl Fn(u16) -> T,
    ) {
        let down = y as f64 + 0.5 - h as f64 / 2.0;
        let across = |x: usize| x as f64 + 0.5 - w as f64 / 2.0;
        let (first, last) = (map.to(across(0), down), map.to(across(w.max(1) - 1), down));
        let (width, height) = (self.width() as f64, self.height() as f64);
        let amid = |p: Point| p.x >= 1.0 && p.y >= 1.0 && p.x < width - 1.0 && p.y < height - 1.0;
        if !(amid(first) && amid(last)) {
            for (x, v) in out[..w].iter_mut().enumerate() {
                let p = map.to(across(x), down);
                if self.holds(p) {
                    *v = of((self.sample(p.x, p.y) * f32::from(PARTS_OF_A_LEVEL)) as u16);
                }
            }
            return;
        }
        let step = [map.slope[0][0], map.slope[1][0]];
        let (mut x, mut y) = (Place::of(first.x - 0.5, step[0], 1), Place::of(first.y - 0.5, step[1], 0));
        let (data, stride) = (self.data(), self.width());
        if (step[0] - 1.0).abs() > NEARLY_A_SAMPLE || step[1].abs() > NEARLY_A_SAMPLE {
            for v in &mut out[..w] {
                let from = y.whole() * stride + x.whole();
                let (top, low) = (&data[from..from + 2], &data[from + stride..from + stride + 2]);
                let (right, down) = (x.part() >> 8, y.part() & 0xff00);
                *v = of(mixed([top[0], top[1], low[0], low[1]], right, down));
                x.go(1);
                y.go(1);
            }
            return;
        }
        let mut rest = &mut out[..w];
        while !rest.is_empty() {
            let n = rest.len().min(x.steps()).min(y.steps());
            let (run, others) = std::mem::take(&mut rest).split_at_mut(n);
            let from = y.whole() * stride + x.whole();
            between([&data[from..=from + n], &data[from + stride..=from + stride + n]], [x, y], run, &of);
            x.go(n);
            y.go(n);
            rest = others;
        }
    }
}

/// A place along one axis on the way from sample to sample, in 2^-32 of a sample.
#[derive(Clone, Copy)]
struct Place {
    at: i64,
    step: i64,
    /// What a step goes beyond whole samples, in 2^-16 of one.
    beyond: i16,
}

impl Place {
    /// Steps go `whole` samples, and what is left of `step`.
    fn of(at: f64, step: f64, whole: i64) -> Self {
        let fixed = |v: f64| (v * 4_294_967_296.0) as i64;
        let step = fixed(step);
        Self { at: fixed(at), step, beyond: ((step - (whole << 32)) >> 16) as i16 }
    }

    fn whole(self) -> usize {
        (self.at >> 32) as usize
    }

    /// What lies beyond the whole sample, in 2^-16.
    fn part(self) -> u16 {
        (self.at >> 16) as u16
    }

    /// Samples read before the next is not the whole steps further.
    fn steps(self) -> usize {
        let room = if self.beyond < 0 { self.part() } else { u16::MAX - self.part() };
        usize::from(room).checked_div(usize::from(self.beyond.unsigned_abs())).map_or(usize::MAX, |n| n + 1)
    }

    fn go(&mut self, steps: usize) {
        self.at += self.step * steps as i64;
    }
}

/// Values between two rows of one sample more, all in 16 bits, which the compiler does eight at once.
#[inline]
fn between<T>([top, low]: [&[u8]; 2], [x, y]: [Place; 2], out: &mut [T], of: impl Fn(u16) -> T) {
    let n = out.len();
    let (top, low) = (&top[..=n], &low[..=n]);
    let (part_x, part_y) = (x.part(), y.part());
    for (i, v) in out.iter_mut().enumerate() {
        let right = part_x.wrapping_add((i as u16).wrapping_mul(x.beyond as u16)) >> 8;
        let down = part_y.wrapping_add((i as u16).wrapping_mul(y.beyond as u16)) & 0xff00;
        *v = of(mixed([top[i], top[i + 1], low[i], low[i + 1]], right, down));
    }
}

/// Between four samples, in [`PARTS_OF_A_LEVEL`]: `right` is the share of those to the right in 2^-8, `down` of the lower
/// ones in 2^-16.
#[inline]
fn mixed([top_left, top_right, low_left, low_right]: [u8; 4], right: u16, down: u16) -> u16 {
    let beside = |l: u8, r: u8| {
        (u16::from(l) << 8).wrapping_add(right.wrapping_mul(u16::from(r).wrapping_sub(u16::from(l))))
    };
    let (top, low) = (beside(top_left, top_right), beside(low_left, low_right));
    top - upper(top, down) + upper(low, down)
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
