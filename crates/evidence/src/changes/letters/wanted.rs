//! A letter looked for on the other impression.

use super::Span;
use super::shape::LEAST_SPREAD;
use sheet::Plane;
use wide::{i16x8, i32x4};

/// Weakest contrast of a letter worth looking for: standard deviation of ink, of 255.
const LEAST_CONTRAST: f64 = 20.0;

/// Numbers multiplied at once.
const LANES: usize = 8;

/// An impression made ready for letters to be looked for on it.
pub(super) struct Ground {
    /// Its ink, in rows of `stride`: after the last of a row comes as much nothing as a letter's last lanes reach into.
    ink: Vec<i16>,
    stride: usize,
    width: usize,
    height: usize,
    /// Of all samples above and to the left of each corner, by rows of corners: sum of the ink, and of its squares. Beyond
    /// 2^32 they begin anew; of a box as large as a letter their differences are right.
    sums: Vec<[u32; 2]>,
}

impl Ground {
    pub(super) fn of(plane: &Plane<u8>) -> Self {
        let (w, h) = (plane.width(), plane.height());
        let stride = w + LANES;
        let mut ink = vec![0i16; stride * h];
        let mut sums = vec![[0u32; 2]; (w + 1) * (h + 1)];
        for y in 0..h {
            let (above, row) = sums[y * (w + 1)..(y + 2) * (w + 1)].split_at_mut(w + 1);
            let to_ink = ink[y * stride..].iter_mut().zip(plane.row(y));
            to_ink.for_each(|(to, &v)| *to = i16::from(v));
            let mut of_row = [0u32; 2];
            for ((to, above), &v) in row[1..].iter_mut().zip(&above[1..]).zip(plane.row(y)) {
                let v = u32::from(v);
                of_row = [of_row[0] + v, of_row[1].wrapping_add(v * v)];
                *to = [above[0].wrapping_add(of_row[0]), above[1].wrapping_add(of_row[1])];
            }
        }
        Self { ink, stride, width: w, height: h, sums }
    }

    /// Sum of the ink of a box, and of its squares.
    fn sums(&self, [x0, y0, x1, y1]: Span) -> [f64; 2] {
        let corner = |x: usize, y: usize| self.sums[y * (self.width + 1) + x];
        let [all, left, above, both] = [corner(x1, y1), corner(x0, y1), corner(x1, y0), corner(x0, y0)];
        std::array::from_fn(|k| {
            f64::from(all[k].wrapping_sub(left[k]).wrapping_sub(above[k]).wrapping_add(both[k]))
        })
    }
}

/// A letter, or a part of one, made ready to be looked for.
#[derive(Clone)]
pub(super) struct Wanted {
    span: Span,
    /// Its ink, by rows, eight samples together; after the last of a row comes nothing.
    values: Vec<i16x8>,
    /// Sum of squares of the ink less its mean.
    energy: f64,
    pub(super) sum: f64,
}

impl Wanted {
    pub(super) fn new(a: &Plane<u8>, [x0, y0, x1, y1]: Span) -> Option<Self> {
        let span =
            [x0.saturating_sub(1), y0.saturating_sub(1), (x1 + 1).min(a.width()), (y1 + 1).min(a.height())];
        let n = ((span[2] - span[0]) * (span[3] - span[1])) as f64;
        let (mut sum, mut squares, mut values) = (0u64, 0u64, Vec::new());
        for y in span[1]..span[3] {
            let row = &a.row(y)[span[0]..span[2]];
            for &v in row {
                let v = u64::from(v);
                (sum, squares) = (sum + v, squares + v * v);
            }
            values.extend(row.chunks(LANES).map(eight));
        }
        let energy = squares as f64 - sum as f64 * sum as f64 / n;
        (energy >= LEAST_CONTRAST * LEAST_CONTRAST * n).then_some(Self {
            span,
            values,
            energy,
            sum: sum as f64,
        })
    }

    /// Its box, a sample larger each way than what was asked for.
    pub(super) fn span(&self) -> Span {
        self.span
    }

    /// The same, to be looked for with its corner in another place.
    pub(super) fn moved_to(&self, x: usize, y: usize) -> Self {
        let [x0, y0, x1, y1] = self.span;
        Self { span: [x, y, x + x1 - x0, y + y1 - y0], ..self.clone() }
    }

    /// Correlation with what stands a step off on the other impression, and the ink there; `None` off its edge.
    pub(super) fn at(&self, b: &Ground, dx: isize, dy: isize) -> Option<(f64, f64)> {
        let [x0, y0, x1, y1] = self.span;
        let (x, y) = (x0.checked_add_signed(dx)?, y0.checked_add_signed(dy)?);
        let (w, h) = (x1 - x0, y1 - y0);
        if x + w > b.width || y + h > b.height {
            return None;
        }
        // A letter is of so few samples that no lane comes near 2^31.
        let mut products = i32x4::ZERO;
        let lanes = w.div_ceil(LANES);
        for (row, y) in self.values.chunks_exact(lanes).zip(y..) {
            let other = &b.ink[y * b.stride + x..][..lanes * LANES];
            for (v, from) in row.iter().zip(other.chunks_exact(LANES)) {
                products += v.dot(i16x8::from_slice_unaligned(from));
            }
        }
        let product = f64::from(products.reduce_add());
        let [sum, squares] = b.sums([x, y, x + w, y + h]);
        let n = (w * h) as f64;
        let spread = (squares - sum * sum / n).max(LEAST_SPREAD * n);
        Some(((product - self.sum * sum / n) / (self.energy * spread).sqrt(), sum))
    }

    /// Where it correlates best, up to `reach` samples off, from a first value in its own place: every second
    /// place is tried, then those about the best of them. Correlation falls off over a stroke's breadth, three
    /// samples and more at the resolution at work.
    pub(super) fn best(&self, b: &Ground, here: f64, reach: isize) -> (f64, (isize, isize)) {
        let mut best = (here, (0, 0));
        let mut try_all = |xs: &[isize], ys: &[isize]| {
            for &dx in xs {
                for &dy in ys {
                    if let Some((v, _)) = self.at(b, dx, dy).filter(|v| v.0 > best.0) {
                        best = (v, (dx, dy));
                    }
                }
            }
            best.1
        };
        let rough: Vec<isize> = (-reach..=reach).filter(|d| d % 2 == 0).collect();
        let (x, y) = try_all(&rough, &rough);
        let near = |d: isize| ((d - 1).max(-reach)..=(d + 1).min(reach)).collect::<Vec<_>>();
        try_all(&near(x), &near(y));
        best
    }
}

/// Up to eight samples of a row, and nothing after them.
fn eight(row: &[u8]) -> i16x8 {
    i16x8::new(std::array::from_fn(|k| row.get(k).copied().map_or(0, i16::from)))
}
