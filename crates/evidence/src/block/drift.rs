//! How far strokes lie beside each other, measured across them.
//!
//! A window of a line cut holds a stroke or two, and along a stroke nothing tells where it lies. Across it a small shift shows
//! as more ink on one side and less on the other, which a heavier impression, fatter on both sides, does not. So the shift
//! is solved for from the slopes of the ink (the normal equations of Lucas and Kanade, *Proc. 7th IJCAI*, 1981, pp.
//! 674-679; from memory), the smooth motion that the ink about the window tells in the same way is taken from it, and what is
//! left is measured along the direction in which the window holds best.

use super::signs::STROKES;
use sheet::{Plane, Rect};

/// A cell is so many units of the placement wide, and a window two cells.
const CELL: f64 = 1.5;
/// Cells about a window, to every side, that tell the smooth motion: three windows by three.
const ABOUT: usize = 2;
/// Correlation below which a window shows no stroke that both have.
const ALIKE: f64 = 0.5;
/// Fewest windows that tell anything.
const FEWEST: usize = 15;
/// Squared slope of ink that a shift is held to nothing by, where there is none to tell it.
const HELD: f64 = 0.5;

/// Sums over the pixels of a cell: products of slopes with each other and with the difference, and of both inks.
#[derive(Debug, Clone, Copy, Default)]
struct Sums {
    xx: f64,
    xy: f64,
    yy: f64,
    xd: f64,
    yd: f64,
    n: f64,
    a: f64,
    b: f64,
    aa: f64,
    bb: f64,
    ab: f64,
}

/// How far strokes lie beside each other after the smooth motion about them: the median over windows, each counted as much
/// as its slopes tell; pixels of the planes. `None` where too few windows show strokes that both have.
///
/// Both planes are ink on one frame, 0 to 255; `body` is the cut on them, `unit` pixels the unit of the placement.
pub(super) fn drift(a: &Plane<u8>, b: &Plane<u8>, body: Rect, unit: f64) -> Option<f64> {
    let side = ((CELL * unit).round() as usize).max(4);
    let (left, top) = (body.x.max(1.0) as usize, body.y.max(1.0) as usize);
    let right = (body.right() as usize).min(a.width().saturating_sub(1));
    let bottom = (body.bottom() as usize).min(a.height().saturating_sub(1));
    let (across, down) = (right.checked_sub(left)? / side, bottom.checked_sub(top)? / side);
    if across < 2 || down < 2 {
        return None;
    }
    let (a, b) = (smoothed(a), smoothed(b));
    let cells: Vec<Sums> = (0..across * down)
        .map(|i| cell(&a, &b, left + i % across * side, top + i / across * side, side))
        .collect();
    let sum = |x: std::ops::Range<usize>, y: std::ops::Range<usize>| {
        y.flat_map(|y| x.clone().map(move |x| y * across + x))
            .fold(Sums::default(), |s, i| s.and(&cells[i], 1.0))
    };
    let mut found: Vec<(f64, f64)> = Vec::new();
    for (x, y) in (0..down - 1).flat_map(|y| (0..across - 1).map(move |x| (x, y))) {
        let window = sum(x..x + 2, y..y + 2);
        if !window.shows_strokes() {
            continue;
        }
        let about = sum(
            x.saturating_sub(ABOUT)..(x + 2 + ABOUT).min(across),
            y.saturating_sub(ABOUT)..(y + 2 + ABOUT).min(down),
        );
        found.push(window.beside(&about.and(&window, -1.0)));
    }
    (found.len() >= FEWEST).then(|| weighted_median(found))
}

impl Sums {
    /// Both, the other so many times.
    fn and(self, o: &Self, times: f64) -> Self {
        Self {
            xx: self.xx + times * o.xx,
            xy: self.xy + times * o.xy,
            yy: self.yy + times * o.yy,
            xd: self.xd + times * o.xd,
            yd: self.yd + times * o.yd,
            n: self.n + times * o.n,
            a: self.a + times * o.a,
            b: self.b + times * o.b,
            aa: self.aa + times * o.aa,
            bb: self.bb + times * o.bb,
            ab: self.ab + times * o.ab,
        }
    }

    fn shows_strokes(&self) -> bool {
        let of = |sum: f64, squares: f64| (squares / self.n - (sum / self.n).powi(2)).max(0.0).sqrt();
        let (a, b) = (of(self.a, self.aa), of(self.b, self.bb));
        let shared = self.ab / self.n - self.a * self.b / (self.n * self.n);
        a > STROKES && b > STROKES && shared > ALIKE * a * b
    }

    /// The shift across the strokes of a window against that of what is about it, and how much its slopes tell.
    fn beside(&self, about: &Self) -> (f64, f64) {
        let (xx, yy) = (about.xx + HELD, about.yy + HELD);
        let all = (xx * yy - about.xy * about.xy).max(1e-9);
        let (dx, dy) =
            ((yy * about.xd - about.xy * about.yd) / all, (xx * about.yd - about.xy * about.xd) / all);
        let left = (self.xd - self.xx * dx - self.xy * dy, self.yd - self.xy * dx - self.yy * dy);
        // The direction in which the slopes of the window are steepest.
        let (half, off) = ((self.xx - self.yy) / 2.0, self.xy);
        let steepest = f64::midpoint(self.xx, self.yy) + half.hypot(off);
        let turn = 0.5 * off.atan2(half);
        let across = turn.cos() * left.0 + turn.sin() * left.1;
        ((across / steepest.max(1e-9)).abs(), steepest)
    }
}

fn cell(a: &Plane<f32>, b: &Plane<f32>, left: usize, top: usize, side: usize) -> Sums {
    let mut s = Sums::default();
    for y in top..top + side {
        for x in left..left + side {
            let mean = |x: usize, y: usize| f64::from(a.at(x, y) + b.at(x, y)) / 2.0;
            let gx = (mean(x + 1, y) - mean(x - 1, y)) / 2.0;
            let gy = (mean(x, y + 1) - mean(x, y - 1)) / 2.0;
            let (p, q) = (f64::from(a.at(x, y)), f64::from(b.at(x, y)));
            let d = p - q;
            s.xx += gx * gx;
            s.xy += gx * gy;
            s.yy += gy * gy;
            s.xd += gx * d;
            s.yd += gy * d;
            s.n += 1.0;
            s.a += p;
            s.b += q;
            s.aa += p * p;
            s.bb += q * q;
            s.ab += p * q;
        }
    }
    s
}

/// Ink 0 to 1, each pixel with half of its neighbours along both sides: slopes of single pixels are noise.
fn smoothed(ink: &Plane<u8>) -> Plane<f32> {
    let (w, h) = (ink.width(), ink.height());
    let along: Vec<f32> = (0..h)
        .flat_map(|y| {
            let row = ink.row(y);
            (0..w).map(move |x| {
                let (l, r) = (row[x.saturating_sub(1)], row[(x + 1).min(w - 1)]);
                (f32::from(l) + 2.0 * f32::from(row[x]) + f32::from(r)) / (4.0 * 255.0)
            })
        })
        .collect();
    let at = |x: usize, y: usize| along[y * w + x];
    let both = (0..h).flat_map(|y| (0..w).map(move |x| (x, y)));
    let data =
        both.map(|(x, y)| (at(x, y.saturating_sub(1)) + 2.0 * at(x, y) + at(x, (y + 1).min(h - 1))) / 4.0);
    Plane::from_vec(w, h, data.collect()).unwrap_or_else(|| Plane::filled(w, h, 0.0))
}

fn weighted_median(mut found: Vec<(f64, f64)>) -> f64 {
    found.sort_by(|p, q| p.0.total_cmp(&q.0));
    let half = found.iter().map(|f| f.1).sum::<f64>() / 2.0;
    let mut so_far = 0.0;
    for &(value, weight) in &found {
        so_far += weight;
        if so_far >= half {
            return value;
        }
    }
    found.last().map_or(0.0, |f| f.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Strokes level and upright, each moved by its own `shift` and so wide, drawn with soft edges.
    fn strokes(shift: impl Fn(usize) -> f64, wide: f64) -> Plane<u8> {
        let mut ink = Plane::filled(300, 300, 0u8);
        for y in 0..300 {
            for (x, v) in ink.row_mut(y).iter_mut().enumerate() {
                let (along, k) = if (x / 60 + y / 60) % 2 == 0 { (x, x / 15) } else { (y, y / 15) };
                let middle = k as f64 * 15.0 + 7.5 + shift(7 * k + x / 60 * 3 + y / 60);
                let inside = wide / 2.0 - (along as f64 + 0.5 - middle).abs();
                *v = (255.0 * (inside + 0.5).clamp(0.0, 1.0)) as u8;
            }
        }
        ink
    }

    fn told(b: &Plane<u8>) -> f64 {
        drift(&strokes(|_| 0.0, 4.0), b, Rect::new(0.0, 0.0, 300.0, 300.0), 10.0).unwrap()
    }

    #[test]
    fn a_common_shift_and_a_heavier_impression_are_no_drift() {
        assert!(told(&strokes(|_| 0.4, 4.0)) < 0.06);
        assert!(told(&strokes(|_| 0.0, 5.5)) < 0.06);
    }

    #[test]
    fn strokes_that_wander_each_by_itself_drift() {
        let wander = |k: usize| if (k * 2_654_435_761) % 97 < 48 { -0.6 } else { 0.6 };
        let told = told(&strokes(wander, 4.0));
        assert!((0.2..0.8).contains(&told), "{told}");
    }

    #[test]
    fn bare_paper_tells_nothing() {
        let bare = Plane::filled(300, 300, 0u8);
        assert_eq!(drift(&bare, &bare, Rect::new(0.0, 0.0, 300.0, 300.0), 10.0), None);
    }
}
