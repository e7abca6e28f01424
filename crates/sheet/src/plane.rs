//! A rectangle of samples, row by row: the one image type of the house.

use crate::geometry::Point;
use rayon::prelude::*;

/// A rectangle of samples stored row by row from the top left.
///
/// Coordinates follow one convention everywhere: x runs right, y runs down, the origin is the top
/// left **corner** of the top left sample, so that the centre of sample (column 0, row 0) is at
/// (0.5, 0.5). Halving a plane then halves every coordinate, without an offset.
#[derive(Debug, Clone, PartialEq)]
pub struct Plane<T> {
    width: usize,
    height: usize,
    data: Vec<T>,
}

impl<T: Copy> Plane<T> {
    /// A plane filled with one value.
    pub fn filled(width: usize, height: usize, value: T) -> Self {
        Self { width, height, data: vec![value; width * height] }
    }

    /// A plane from samples in rows; `None` unless there are exactly `width * height` of them.
    pub fn from_vec(width: usize, height: usize, data: Vec<T>) -> Option<Self> {
        (data.len() == width * height).then_some(Self { width, height, data })
    }

    /// Samples in a row.
    pub fn width(&self) -> usize {
        self.width
    }

    /// Rows.
    pub fn height(&self) -> usize {
        self.height
    }

    /// All samples, row by row.
    pub fn data(&self) -> &[T] {
        &self.data
    }

    /// All samples, row by row, to change in place.
    pub fn data_mut(&mut self) -> &mut [T] {
        &mut self.data
    }

    /// The samples, row by row, without the plane.
    pub fn into_vec(self) -> Vec<T> {
        self.data
    }

    /// One row.
    ///
    /// # Panics
    /// When `y` is not less than the height.
    pub fn row(&self, y: usize) -> &[T] {
        &self.data[y * self.width..(y + 1) * self.width]
    }

    /// One row, to change in place.
    ///
    /// # Panics
    /// When `y` is not less than the height.
    pub fn row_mut(&mut self, y: usize) -> &mut [T] {
        &mut self.data[y * self.width..(y + 1) * self.width]
    }

    /// The sample in column `x` of row `y`.
    ///
    /// # Panics
    /// When the place is outside the plane.
    pub fn at(&self, x: usize, y: usize) -> T {
        self.data[y * self.width + x]
    }

    /// Whether a place lies on the plane.
    pub fn holds(&self, p: Point) -> bool {
        p.x >= 0.0 && p.y >= 0.0 && p.x < self.width as f64 && p.y < self.height as f64
    }

    /// The sample nearest to a column and row that may lie outside: the edge is repeated.
    pub fn at_clamped(&self, x: isize, y: isize) -> T {
        let x = x.clamp(0, self.width as isize - 1) as usize;
        let y = y.clamp(0, self.height as isize - 1) as usize;
        self.data[y * self.width + x]
    }

    /// A copy of the part `x..x + width`, `y..y + height`.
    ///
    /// # Panics
    /// When the part reaches beyond the plane.
    #[must_use]
    pub fn crop(&self, x: usize, y: usize, width: usize, height: usize) -> Self {
        let mut data = Vec::with_capacity(width * height);
        for row in y..y + height {
            data.extend_from_slice(&self.row(row)[x..x + width]);
        }
        Self { width, height, data }
    }

    /// The same places with what `of` makes of each sample.
    #[must_use]
    pub fn map<U>(&self, of: impl Fn(T) -> U) -> Plane<U> {
        let data = self.data.iter().map(|&v| of(v)).collect();
        Plane { width: self.width, height: self.height, data }
    }

    /// Rows become columns.
    #[must_use]
    pub fn transposed(&self) -> Self
    where
        T: Default,
    {
        // A block at a time, so that neither reading nor writing jumps over all memory.
        const BLOCK: usize = 16;
        let (w, h) = (self.width, self.height);
        let mut out = Self::filled(h, w, T::default());
        for top in (0..h).step_by(BLOCK) {
            for x in 0..w {
                let to = &mut out.row_mut(x)[top..(top + BLOCK).min(h)];
                to.iter_mut().zip(self.data[top * w + x..].iter().step_by(w)).for_each(|(o, &v)| *o = v);
            }
        }
        out
    }

    /// The same turned clockwise by `quarters` right angles; by none it is not copied.
    #[must_use]
    pub fn into_turned(self, quarters: u8) -> Self {
        if quarters.is_multiple_of(4) { self } else { self.turned(quarters) }
    }

    /// Turned clockwise by `quarters` right angles.
    #[must_use]
    pub fn turned(&self, quarters: u8) -> Self {
        let (w, h) = (self.width, self.height);
        let quarters = quarters % 4;
        if quarters == 0 {
            return self.clone();
        }
        let (out_w, out_h) = if quarters % 2 == 1 { (h, w) } else { (w, h) };
        let mut data = Vec::with_capacity(w * h);
        for y in 0..out_h {
            for x in 0..out_w {
                data.push(match quarters {
                    1 => self.at(y, h - 1 - x),
                    2 => self.at(w - 1 - x, h - 1 - y),
                    _ => self.at(w - 1 - y, x),
                });
            }
        }
        Self { width: out_w, height: out_h, data }
    }
}

impl Plane<u8> {
    /// Half as wide and half as high, each sample the rounded mean of four. An odd last row or
    /// column is dropped, so that coordinates halve exactly.
    #[must_use]
    pub fn halved(&self) -> Self {
        let (w, h) = ((self.width / 2).max(1), (self.height / 2).max(1));
        if self.width < 2 || self.height < 2 {
            return Self::filled(w, h, self.data.first().copied().unwrap_or(0));
        }
        let mut data = vec![0u8; w * h];
        data.par_chunks_mut(w).enumerate().for_each(|(y, out)| {
            let top = &self.row(2 * y)[..2 * w];
            let low = &self.row(2 * y + 1)[..2 * w];
            for ((o, t), l) in out.iter_mut().zip(top.chunks_exact(2)).zip(low.chunks_exact(2)) {
                *o = ((u16::from(t[0]) + u16::from(t[1]) + u16::from(l[0]) + u16::from(l[1]) + 2) / 4) as u8;
            }
        });
        Self { width: w, height: h, data }
    }

    /// The value at a point, bilinear between the centres of samples; the edge is repeated.
    pub fn sample(&self, x: f64, y: f64) -> f32 {
        let (x, y) = (x - 0.5, y - 0.5);
        let (ix, iy) = (whole(x), whole(y));
        let (ax, ay) = ((x - ix as f64) as f32, (y - iy as f64) as f32);
        let (p, q, r, s) =
            if ix >= 0 && iy >= 0 && (ix as usize) + 1 < self.width && (iy as usize) + 1 < self.height {
                let i = iy as usize * self.width + ix as usize;
                (self.data[i], self.data[i + 1], self.data[i + self.width], self.data[i + self.width + 1])
            } else {
                (
                    self.at_clamped(ix, iy),
                    self.at_clamped(ix + 1, iy),
                    self.at_clamped(ix, iy + 1),
                    self.at_clamped(ix + 1, iy + 1),
                )
            };
        let top = f32::from(p) + ax * (f32::from(q) - f32::from(p));
        let low = f32::from(r) + ax * (f32::from(s) - f32::from(r));
        top + ay * (low - top)
    }
}

/// The upper sixteen bits of a product, which the compiler does eight at once.
#[inline]
pub(crate) fn upper(a: u16, b: u16) -> u16 {
    ((u32::from(a) * u32::from(b)) >> 16) as u16
}

/// The greatest whole number not above `x`; in two steps of the processor, where `floor` is a call.
fn whole(x: f64) -> isize {
    let cut = x as isize;
    cut - isize::from(x < cut as f64)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn halving_means_four_samples() {
        let p = Plane::from_vec(4, 2, vec![0, 4, 8, 8, 4, 8, 8, 8]).unwrap();
        assert_eq!(p.halved().data(), &[4, 8]);
    }

    #[test]
    fn rows_become_columns() {
        let p = Plane::from_vec(3, 35, (0..105u8).collect()).unwrap();
        let t = p.transposed();
        assert_eq!((t.width(), t.height()), (35, 3));
        assert!((0..35).all(|y| (0..3).all(|x| t.at(y, x) == p.at(x, y))));
        assert_eq!(t.transposed(), p);
        assert_eq!(p.map(|v| u16::from(v) + 1).at(2, 34), 105);
    }

    #[test]
    fn whole_numbers_are_those_of_floor() {
        for x in [-3.0, -2.5, -0.1, 0.0, 0.9, 1.0, 7.3, 1e12, -1e12, 0.5f64.next_down()] {
            assert_eq!(whole(x), x.floor() as isize, "{x}");
        }
    }

    #[test]
    fn the_centre_of_a_sample_is_at_one_half() {
        let p = Plane::from_vec(2, 1, vec![10u8, 20]).unwrap();
        assert!((p.sample(0.5, 0.5) - 10.0).abs() < 1e-6);
        assert!((p.sample(1.0, 0.5) - 15.0).abs() < 1e-6);
        assert!((p.sample(9.0, 0.5) - 20.0).abs() < 1e-6);
    }

    #[test]
    fn a_quarter_turn_clockwise_moves_the_top_left_to_the_top_right() {
        let p = Plane::from_vec(2, 1, vec![1u8, 2]).unwrap();
        let t = p.turned(1);
        assert_eq!((t.width(), t.height()), (1, 2));
        assert_eq!(t.data(), &[1, 2]);
        let q = Plane::from_vec(2, 2, vec![1u8, 2, 3, 4]).unwrap().turned(1);
        assert_eq!(q.data(), &[3, 1, 4, 2]);
        assert_eq!(q.turned(3).data(), &[1, 2, 3, 4]);
    }
}
