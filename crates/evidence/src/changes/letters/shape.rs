//! The ink of one letter, cut out, and how like another's it is.

use sheet::Plane;
use wide::{i16x8, i32x4, u8x16};

/// The ink of one letter.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Shape {
    /// By rows of `width` samples and [`LANES`] of nothing, so that rows are multiplied in whole lanes.
    ink: Vec<u8>,
    width: usize,
    height: usize,
    sum: f64,
    /// Sum of squares.
    squares: f64,
}

/// Samples multiplied together.
const LANES: usize = 16;
/// Sizes that are compared differ by no more than this share, and one sample.
const LIKE_SIZE: f64 = 0.12;
/// Paper alone is like nothing: this much spread is added, square levels of 255 for each sample.
pub(super) const LEAST_SPREAD: f64 = 200.0;

impl Shape {
    /// Cuts out a box: left, top, right, foot, in samples; the ends beyond.
    pub(super) fn cut(plane: &Plane<u8>, [x0, y0, x1, y1]: [usize; 4]) -> Self {
        Self::of(x1 - x0, (y0..y1).map(|y| &plane.row(y)[x0..x1]))
    }

    fn of<'r>(width: usize, rows: impl ExactSizeIterator<Item = &'r [u8]>) -> Self {
        let height = rows.len();
        let mut ink = Vec::with_capacity((width + LANES) * height);
        for row in rows {
            ink.extend_from_slice(row);
            ink.extend([0; LANES]);
        }
        let sum = ink.iter().map(|&v| f64::from(v)).sum();
        let squares = ink.iter().map(|&v| f64::from(v).powi(2)).sum();
        Self { ink, width, height, sum, squares }
    }

    fn row(&self, y: usize) -> &[u8] {
        &self.ink[y * (self.width + LANES)..][..self.width]
    }

    /// Whether its size is like another's, so that they can be compared.
    pub(super) fn is_of_size(&self, other: &Self) -> bool {
        let unlike = |m: usize, n: usize| m.abs_diff(n) as f64 > 1.0 + LIKE_SIZE * m.max(n) as f64;
        !unlike(self.width, other.width) && !unlike(self.height, other.height)
    }

    /// Mean ink of its box in `W` cells across and `H` down, by rows; `N` is their product.
    pub(super) fn cells<const W: usize, const H: usize, const N: usize>(&self) -> [f32; N] {
        let (w, h) = (self.width, self.height);
        let span =
            |k: usize, of: usize, n: usize| (k * n / of, ((k + 1) * n / of).max(k * n / of + 1).min(n));
        std::array::from_fn(|i| {
            let ((x0, x1), (y0, y1)) = (span(i % W, W, w), span(i / W, H, h));
            let sum: u32 = (y0..y1).flat_map(|y| &self.row(y)[x0..x1]).map(|&v| u32::from(v)).sum();
            sum as f32 / ((x1 - x0) * (y1 - y0)).max(1) as f32
        })
    }

    /// The letter turned half round, as a sort set upside down prints.
    pub(super) fn turned(&self) -> Self {
        let mut turned = self.clone();
        for y in 0..self.height {
            let to = turned.ink[(self.height - 1 - y) * (self.width + LANES)..][..self.width].iter_mut();
            to.rev().zip(self.row(y)).for_each(|(to, &from)| *to = from);
        }
        turned
    }

    /// Best correlation of two shapes with their middles on each other, moved by up to a sample; -1 of
    /// unlike sizes.
    pub(crate) fn likeness(&self, other: &Self) -> f64 {
        if !self.is_of_size(other) {
            return -1.0;
        }
        // Beyond either box is paper, so that sums over both together are each one's own.
        let n = (self.width.max(other.width) * self.height.max(other.height)) as f64;
        let spread = |s: &Self| s.squares - s.sum * s.sum / n;
        let most = (spread(self) * spread(other)).sqrt().max(LEAST_SPREAD * n);
        let middle = |m: usize, n: usize| m as isize / 2 - n as isize / 2;
        let (x, y) = (middle(self.width, other.width), middle(self.height, other.height));
        (-1..=1)
            .flat_map(|dy| (-1..=1).map(move |dx| (x + dx, y + dy)))
            .map(|at| (product(self, other, at) - self.sum * other.sum / n) / most)
            .fold(-1.0, f64::max)
    }
}

/// Sum of the products of two shapes where they overlap, `q`'s corner at `at` of `p`.
fn product(p: &Shape, q: &Shape, at: (isize, isize)) -> f64 {
    // From where to where the overlap goes in p, and where it begins in q.
    let overlap = |m: usize, n: usize, at: isize| {
        let from = at.max(0) as usize;
        let to = (at + n as isize).clamp(0, m as isize) as usize;
        (from, to.max(from), (-at).max(0) as usize)
    };
    let (px, px_end, qx) = overlap(p.width, q.width, at.0);
    let (py, py_end, qy) = overlap(p.height, q.height, at.1);
    // The last lanes of a row reach into the nothing after the one that ends there.
    let whole = (px_end - px).next_multiple_of(LANES);
    let mut lanes = i32x4::ZERO;
    for k in 0..py_end - py {
        let row = &p.ink[(py + k) * (p.width + LANES) + px..][..whole];
        let other = &q.ink[(qy + k) * (q.width + LANES) + qx..][..whole];
        for (u, v) in row.as_chunks::<LANES>().0.iter().zip(other.as_chunks::<LANES>().0) {
            let [u, v] = [*u, *v].map(u8x16::new);
            lanes += i16x8::from_u8x16_low(u).dot(i16x8::from_u8x16_low(v));
            lanes += i16x8::from_u8x16_high(u).dot(i16x8::from_u8x16_high(v));
        }
    }
    // A letter is of so few samples that no lane comes near 2^31.
    f64::from(lanes.reduce_add())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shape(rows: &[&[u8]]) -> Shape {
        Shape::of(rows[0].len(), rows.iter().copied())
    }

    #[test]
    fn a_letter_is_like_itself_turned_twice_and_unlike_itself_turned_once() {
        let hook = shape(&[&[255, 255, 255], &[255, 0, 0], &[255, 0, 0], &[255, 0, 0]]);
        assert!((hook.likeness(&hook) - 1.0).abs() < 1e-9);
        assert!((hook.turned().turned().likeness(&hook) - 1.0).abs() < 1e-9);
        assert!(hook.turned().likeness(&hook) < 0.7);
    }

    #[test]
    fn unlike_sizes_are_not_compared() {
        let small = shape(&[&[255, 0], &[0, 255]]);
        let large = shape(&[[255u8; 9].as_slice(); 9]);
        assert!(small.likeness(&large) <= -1.0);
    }

    #[test]
    fn a_step_of_one_sample_is_allowed() {
        let left = shape(&[&[0, 255, 0, 0, 0], &[0, 255, 0, 0, 0], &[0, 255, 255, 0, 0]]);
        let right = shape(&[&[0, 0, 255, 0, 0], &[0, 0, 255, 0, 0], &[0, 0, 255, 255, 0]]);
        assert!(left.likeness(&right) > 0.99);
    }
}
