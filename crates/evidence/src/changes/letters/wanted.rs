//! A letter looked for on the other impression.

use super::Span;
use super::shape::LEAST_SPREAD;
use sheet::Plane;

/// Weakest contrast of a letter worth looking for: standard deviation of ink, of 255.
const LEAST_CONTRAST: f64 = 20.0;

/// A letter, or a part of one, made ready to be looked for.
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

    /// Correlation with what stands a step off on the other plane, and the ink there; `None` off its edge.
    pub(crate) fn at(&self, b: &Plane<u8>, dx: isize, dy: isize) -> Option<(f64, f64)> {
        let [x0, y0, x1, y1] = self.span;
        let (x, y) = (x0.checked_add_signed(dx)?, y0.checked_add_signed(dy)?);
        let w = x1 - x0;
        if x + w > b.width() || y + (y1 - y0) > b.height() {
            return None;
        }
        // Whole numbers, so that the sums may be taken in any order, many at once; a row of a letter's breadth fits
        // 32 bits a thousandfold.
        let (mut sum, mut squares, mut product) = (0u64, 0u64, 0u64);
        for (row, y) in self.values.chunks_exact(w).zip(y..) {
            let (mut s, mut q, mut p) = (0u32, 0u32, 0u32);
            for (&v, &o) in row.iter().zip(&b.row(y)[x..x + w]) {
                let (v, o) = (u32::from(v), u32::from(o));
                s += o;
                q += o * o;
                p += v * o;
            }
            sum += u64::from(s);
            squares += u64::from(q);
            product += u64::from(p);
        }
        let (n, sum) = (self.values.len() as f64, sum as f64);
        let spread = (squares as f64 - sum * sum / n).max(LEAST_SPREAD * n);
        Some(((product as f64 - self.sum * sum / n) / (self.energy * spread).sqrt(), sum))
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
