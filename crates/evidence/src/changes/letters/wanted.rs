//! A letter looked for on the other impression.

use super::Span;
use super::shape::LEAST_SPREAD;
use sheet::Plane;
use wide::{i16x8, i32x4};

/// Weakest contrast of a letter worth looking for: standard deviation of ink, of 255.
const LEAST_CONTRAST: f64 = 20.0;

/// A letter, or a part of one, made ready to be looked for.
#[derive(Clone)]
pub(crate) struct Wanted {
    span: Span,
    /// Its ink, by rows.
    values: Vec<u8>,
    /// Sum of squares of the ink less its mean.
    energy: f64,
    pub(super) sum: f64,
}

impl Wanted {
    pub(crate) fn new(a: &Plane<u8>, [x0, y0, x1, y1]: Span) -> Option<Self> {
        let span =
            [x0.saturating_sub(1), y0.saturating_sub(1), (x1 + 1).min(a.width()), (y1 + 1).min(a.height())];
        let rows = (span[1]..span[3]).flat_map(|y| &a.row(y)[span[0]..span[2]]);
        let values: Vec<u8> = rows.copied().collect();
        let n = values.len() as f64;
        let (sum, squares) = values.iter().fold((0u64, 0u64), |(s, q), &v| {
            let v = u64::from(v);
            (s + v, q + v * v)
        });
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

    /// Correlation with what stands a step off on the other plane, and the ink there; `None` off its edge.
    pub(crate) fn at(&self, b: &Plane<u8>, dx: isize, dy: isize) -> Option<(f64, f64)> {
        let [x0, y0, x1, y1] = self.span;
        let (x, y) = (x0.checked_add_signed(dx)?, y0.checked_add_signed(dy)?);
        let w = x1 - x0;
        if x + w > b.width() || y + (y1 - y0) > b.height() {
            return None;
        }
        // A letter is of so few samples that no lane comes near 2^31.
        let (mut sums, mut squares, mut products) = (i32x4::ZERO, i32x4::ZERO, i32x4::ZERO);
        let (mut sum, mut square, mut product) = (0i32, 0i32, 0i32);
        for (row, y) in self.values.chunks_exact(w).zip(y..) {
            let (whole, left) = row.as_chunks::<8>();
            let (whole_of_other, left_of_other) = b.row(y)[x..x + w].as_chunks::<8>();
            for (v, o) in whole.iter().zip(whole_of_other) {
                let (v, o) = (i16x8::new(v.map(i16::from)), i16x8::new(o.map(i16::from)));
                sums += o.dot(i16x8::ONE);
                squares += o.dot(o);
                products += v.dot(o);
            }
            for (&v, &o) in left.iter().zip(left_of_other) {
                let (v, o) = (i32::from(v), i32::from(o));
                sum += o;
                square += o * o;
                product += v * o;
            }
        }
        let all = |lanes: i32x4, rest: i32| f64::from(lanes.reduce_add()) + f64::from(rest);
        let (sum, squares, product) = (all(sums, sum), all(squares, square), all(products, product));
        let n = self.values.len() as f64;
        let spread = (squares - sum * sum / n).max(LEAST_SPREAD * n);
        Some(((product - self.sum * sum / n) / (self.energy * spread).sqrt(), sum))
    }

    /// Where it correlates best, up to `reach` samples off, from a first value in its own place: every second
    /// place is tried, then those about the best of them. Correlation falls off over a stroke's breadth, three
    /// samples and more at the resolution at work.
    pub(crate) fn best(&self, b: &Plane<u8>, here: f64, reach: isize) -> (f64, (isize, isize)) {
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
