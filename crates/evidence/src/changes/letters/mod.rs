//! The letters of a word, one by one: how like each is to itself on the other impression, and where it stands.

mod judge;
mod shape;

use super::blobs::blobs;
use sheet::{Plane, Point, Rect};

pub(super) use judge::{Usual, judge};
use shape::{LEAST_SPREAD, Shape};

/// One letter (or ligature, or part of one) of the first impression, looked for about its place on the second.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Letter {
    /// Its box; samples of the planes it was looked at in, or pixels of the first photograph.
    pub(crate) bounds: Rect,
    /// Correlation where the word puts it.
    here: f64,
    /// Correlation where it fits best.
    best: f64,
    /// How far off that is, right and down, in x-heights.
    off: [f64; 2],
    /// Logarithm of the ink in its box on the second over that on the first.
    ink: f64,
    /// What stands there on the first.
    first: Shape,
    /// What stands there on the second, if anything does.
    second: Option<Shape>,
}

impl Letter {
    /// Correlation where it fits best.
    pub(super) fn likeness(&self) -> f64 {
        self.best
    }

    /// The letter with its box in pixels: samples of `unit` pixels, counted from `origin`.
    pub(super) fn placed(self, unit: f64, origin: Point) -> Self {
        Self { bounds: self.bounds.scaled(unit).moved(origin), ..self }
    }
}

/// Ink of a letter, of 255.
const INKED: u8 = 80;
/// Least height of a letter, and the breadth from which a piece is two that touch, in x-heights.
const LEAST_HEIGHT: f64 = 0.6;
const BROADEST: f64 = 1.5;
/// How far a letter is looked for, in x-heights: a sort stands off its line by less.
const REACH: f64 = 0.36;
/// Correlation from which a letter stands where the word puts it, and is not looked for elsewhere.
const SETTLED: f64 = 0.95;
/// Weakest contrast of a letter worth looking for: standard deviation of ink, of 255.
const LEAST_CONTRAST: f64 = 20.0;
/// A little ink, so that none has a logarithm: the sum of samples of 255.
const LITTLE: f64 = 100.0;

/// The letters of a word whose two planes lie on each other; `detail` in samples to the x-height.
pub(super) fn letters(a: &Plane<u8>, b: &Plane<u8>, detail: f64) -> Vec<Letter> {
    let reach = (REACH * detail).round() as isize;
    let theirs = boxes(b, detail);
    boxes(a, detail).into_iter().filter_map(|r| letter(a, b, r, &theirs, detail, reach)).collect()
}

/// A box in samples: left, top, right, foot; the ends beyond.
type Span = [usize; 4];

/// The boxes of all letters, left to right.
fn boxes(plane: &Plane<u8>, detail: f64) -> Vec<Span> {
    let mut boxes: Vec<Span> = Vec::new();
    for blob in blobs(plane, INKED).all {
        let [x0, y0, x1, y1] = blob.bounds;
        // What is cut by the side of the plane is a neighbour's, and seen whole there.
        if ((y1 - y0) as f64) < LEAST_HEIGHT * detail || x0 == 0 || x1 == plane.width() {
            continue;
        }
        let count = ((x1 - x0) as f64 / (BROADEST * detail)).ceil().max(1.0) as usize;
        let edge = |k: usize| x0 + (x1 - x0) * k / count;
        boxes.extend((0..count).map(|k| [edge(k), y0, edge(k + 1), y1]));
    }
    boxes.sort_unstable();
    boxes
}

fn letter(
    a: &Plane<u8>,
    b: &Plane<u8>,
    span: Span,
    theirs: &[Span],
    detail: f64,
    reach: isize,
) -> Option<Letter> {
    let wanted = Wanted::new(a, span)?;
    let (here, there) = wanted.at(b, 0, 0)?;
    let (best, step) = if here < SETTLED { wanted.best(b, here, reach) } else { (here, (0, 0)) };
    let shared = |s: &Span| {
        span[2].min(s[2]).saturating_sub(span[0].max(s[0]))
            * span[3].min(s[3]).saturating_sub(span[1].max(s[1]))
    };
    let second = theirs.iter().filter(|s| shared(s) > 0).max_by_key(|s| shared(s));
    let [x0, y0, x1, y1] = span.map(|v| v as f64);
    Some(Letter {
        bounds: Rect::new(x0, y0, x1 - x0, y1 - y0),
        here,
        best,
        off: [step.0 as f64 / detail, step.1 as f64 / detail],
        ink: ((there + LITTLE) / (wanted.sum + LITTLE)).ln(),
        first: Shape::cut(a, span),
        second: second.map(|&s| Shape::cut(b, s)),
    })
}

/// A letter made ready to be looked for.
struct Wanted {
    span: Span,
    /// Its ink, by rows.
    values: Vec<u8>,
    /// Sum of squares of the ink less its mean.
    energy: f64,
    sum: f64,
}

impl Wanted {
    fn new(a: &Plane<u8>, [x0, y0, x1, y1]: Span) -> Option<Self> {
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
    fn at(&self, b: &Plane<u8>, dx: isize, dy: isize) -> Option<(f64, f64)> {
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
    fn best(&self, b: &Plane<u8>, here: f64, reach: isize) -> (f64, (isize, isize)) {
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

#[cfg(test)]
mod tests {
    use super::*;

    /// A plane with three letters: two posts and a ring, ten samples high.
    fn word(ring_down: usize) -> Plane<u8> {
        let mut p = Plane::filled(60, 30, 0u8);
        for y in 10..20 {
            for x in [5, 6, 7, 45, 46, 47] {
                p.row_mut(y)[x] = 255;
            }
        }
        for y in 10..20 {
            for x in 20..30 {
                let edge = !(12..18).contains(&y) || !(22..28).contains(&x);
                p.row_mut(y + ring_down)[x] = if edge { 255 } else { 0 };
            }
        }
        p
    }

    #[test]
    fn a_letter_that_stands_lower_is_found_lower() {
        let all = letters(&word(0), &word(3), 10.0);
        assert_eq!(all.len(), 3);
        assert!((all[1].off[1] - 0.3).abs() < 1e-9 && all[1].off[0].abs() < 1e-9, "{:?}", all[1].off);
        assert!(all[1].best > 0.99 && all[1].here < 0.7);
        assert!(all[0].here > 0.99 && all[2].here > 0.99);
    }

    #[test]
    fn nothing_is_like_paper() {
        let all = letters(&word(0), &Plane::filled(60, 30, 0u8), 10.0);
        assert!(all.iter().all(|l| l.best < 0.1 && l.second.is_none() && l.ink < -2.0));
    }
}
