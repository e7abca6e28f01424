//! The ink of one letter, cut out, and how like another's it is.

use sheet::Plane;
use wide::{i16x8, i32x4};

/// The ink of one letter.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Shape {
    ink: Plane<u8>,
    sum: f64,
    /// Sum of squares.
    squares: f64,
}

/// Sizes that are compared differ by no more than this share, and one sample.
const LIKE_SIZE: f64 = 0.12;
/// Paper alone is like nothing: this much spread is added, square levels of 255 for each sample.
pub(super) const LEAST_SPREAD: f64 = 200.0;

impl Shape {
    /// Cuts out a box: left, top, right, foot, in samples; the ends beyond.
    pub(super) fn cut(plane: &Plane<u8>, [x0, y0, x1, y1]: [usize; 4]) -> Self {
        Self::of(plane.crop(x0, y0, x1 - x0, y1 - y0))
    }

    fn of(ink: Plane<u8>) -> Self {
        let sum = ink.data().iter().map(|&v| f64::from(v)).sum();
        let squares = ink.data().iter().map(|&v| f64::from(v).powi(2)).sum();
        Self { ink, sum, squares }
    }

    /// Whether its size is like another's, so that they can be compared.
    pub(super) fn is_of_size(&self, other: &Self) -> bool {
        let unlike = |m: usize, n: usize| m.abs_diff(n) as f64 > 1.0 + LIKE_SIZE * m.max(n) as f64;
        let (p, q) = (&self.ink, &other.ink);
        !unlike(p.width(), q.width()) && !unlike(p.height(), q.height())
    }

    /// Mean ink of its box in `W` cells across and `H` down, by rows; `N` is their product.
    pub(super) fn cells<const W: usize, const H: usize, const N: usize>(&self) -> [f32; N] {
        let (w, h) = (self.ink.width(), self.ink.height());
        let span =
            |k: usize, of: usize, n: usize| (k * n / of, ((k + 1) * n / of).max(k * n / of + 1).min(n));
        std::array::from_fn(|i| {
            let ((x0, x1), (y0, y1)) = (span(i % W, W, w), span(i / W, H, h));
            let sum: u32 = (y0..y1).flat_map(|y| &self.ink.row(y)[x0..x1]).map(|&v| u32::from(v)).sum();
            sum as f32 / ((x1 - x0) * (y1 - y0)).max(1) as f32
        })
    }

    /// The letter turned half round, as a sort set upside down prints.
    pub(super) fn turned(&self) -> Self {
        let (w, h) = (self.ink.width(), self.ink.height());
        let mut turned = Plane::filled(w, h, 0u8);
        for y in 0..h {
            for (to, &from) in turned.row_mut(h - 1 - y).iter_mut().rev().zip(self.ink.row(y)) {
                *to = from;
            }
        }
        Self { ink: turned, ..*self }
    }

    /// Best correlation of two shapes with their middles on each other, moved by up to a sample; -1 of
    /// unlike sizes.
    pub(crate) fn likeness(&self, other: &Self) -> f64 {
        if !self.is_of_size(other) {
            return -1.0;
        }
        let (p, q) = (&self.ink, &other.ink);
        // Beyond either box is paper, so that sums over both together are each one's own.
        let n = (p.width().max(q.width()) * p.height().max(q.height())) as f64;
        let spread = |s: &Self| s.squares - s.sum * s.sum / n;
        let most = (spread(self) * spread(other)).sqrt().max(LEAST_SPREAD * n);
        let middle = |m: usize, n: usize| m as isize / 2 - n as isize / 2;
        let (x, y) = (middle(p.width(), q.width()), middle(p.height(), q.height()));
        (-1..=1)
            .flat_map(|dy| (-1..=1).map(move |dx| (x + dx, y + dy)))
            .map(|at| (product(p, q, at) - self.sum * other.sum / n) / most)
            .fold(-1.0, f64::max)
    }
}

/// Sum of the products of two planes where they overlap, `q`'s corner at `at` of `p`.
fn product(p: &Plane<u8>, q: &Plane<u8>, at: (isize, isize)) -> f64 {
    // From where to where the overlap goes in p, and where it begins in q.
    let overlap = |m: usize, n: usize, at: isize| {
        let from = at.max(0) as usize;
        let to = (at + n as isize).clamp(0, m as isize) as usize;
        (from, to.max(from), (-at).max(0) as usize)
    };
    let (px, px_end, qx) = overlap(p.width(), q.width(), at.0);
    let (py, py_end, qy) = overlap(p.height(), q.height(), at.1);
    let (mut lanes, mut rest) = (i32x4::ZERO, 0u32);
    for k in 0..py_end - py {
        let (row, other) = (&p.row(py + k)[px..px_end], &q.row(qy + k)[qx..][..px_end - px]);
        let (whole, left) = row.as_chunks::<8>();
        let (whole_of_other, left_of_other) = other.as_chunks::<8>();
        for (u, v) in whole.iter().zip(whole_of_other) {
            lanes += i16x8::new(u.map(i16::from)).dot(i16x8::new(v.map(i16::from)));
        }
        rest += left.iter().zip(left_of_other).map(|(&u, &v)| u32::from(u) * u32::from(v)).sum::<u32>();
    }
    // A letter is of so few samples that no lane comes near 2^31.
    f64::from(lanes.reduce_add()) + f64::from(rest)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shape(rows: &[&[u8]]) -> Shape {
        Shape::of(Plane::from_vec(rows[0].len(), rows.len(), rows.concat()).unwrap())
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
        let large = Shape::of(Plane::filled(9, 9, 255));
        assert!(small.likeness(&large) <= -1.0);
    }

    #[test]
    fn a_step_of_one_sample_is_allowed() {
        let left = shape(&[&[0, 255, 0, 0, 0], &[0, 255, 0, 0, 0], &[0, 255, 255, 0, 0]]);
        let right = shape(&[&[0, 0, 255, 0, 0], &[0, 0, 255, 0, 0], &[0, 0, 255, 255, 0]]);
        assert!(left.likeness(&right) > 0.99);
    }
}
