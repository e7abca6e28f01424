//! Sums of two inks and of their slopes over the cells of a grid.

use sheet::{Plane, Rect};

/// Sums over the pixels of a cell: products of slopes with each other and with the difference of the inks, and of both inks.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Sums {
    /// Products of the slopes along x and y of the mean of both inks.
    pub(super) xx: f64,
    pub(super) xy: f64,
    pub(super) yy: f64,
    /// Steepness of the mean, whichever way it runs.
    pub(super) steep: f64,
    /// Slopes and steepness times the difference, first less second.
    pub(super) xd: f64,
    pub(super) yd: f64,
    pub(super) steep_d: f64,
    /// Pixels.
    pub(super) n: f64,
    /// Both inks, 0 to 1, and their products.
    pub(super) a: f64,
    pub(super) b: f64,
    pub(super) aa: f64,
    pub(super) bb: f64,
    pub(super) ab: f64,
}

impl Sums {
    /// Both, the other so many times.
    pub(super) fn and(self, o: &Self, times: f64) -> Self {
        Self {
            xx: self.xx + times * o.xx,
            xy: self.xy + times * o.xy,
            yy: self.yy + times * o.yy,
            steep: self.steep + times * o.steep,
            xd: self.xd + times * o.xd,
            yd: self.yd + times * o.yd,
            steep_d: self.steep_d + times * o.steep_d,
            n: self.n + times * o.n,
            a: self.a + times * o.a,
            b: self.b + times * o.b,
            aa: self.aa + times * o.aa,
            bb: self.bb + times * o.bb,
            ab: self.ab + times * o.ab,
        }
    }

    /// Contrast (standard deviation) of both inks.
    pub(super) fn contrast(&self) -> [f64; 2] {
        let of = |sum: f64, squares: f64| (squares / self.n - (sum / self.n).powi(2)).max(0.0).sqrt();
        [of(self.a, self.aa), of(self.b, self.bb)]
    }

    /// Correlation of both inks; 0 where either is even.
    pub(super) fn likeness(&self) -> f64 {
        let [a, b] = self.contrast();
        let shared = self.ab / self.n - self.a * self.b / (self.n * self.n);
        if a * b < 1e-6 { 0.0 } else { shared / (a * b) }
    }

    /// Sum of the squared differences.
    pub(super) fn dd(&self) -> f64 {
        self.aa + self.bb - 2.0 * self.ab
    }

    /// How much bolder the strokes of the first are than those of the second: by so many pixels each edge stands farther out,
    /// whatever the darkness of the whole.
    pub(super) fn bolder(&self) -> f64 {
        let spread = self.xx + self.yy - self.steep * self.steep / self.n;
        (self.steep_d - self.steep * (self.a - self.b) / self.n) / spread.max(1e-9)
    }
}

/// Cells of a grid over two planes on one frame.
pub(super) struct Cells {
    /// The top left corner of the first cell and the side of each, pixels.
    pub(super) corner: (usize, usize),
    pub(super) side: usize,
    /// How many to a row and to a column.
    pub(super) across: usize,
    pub(super) down: usize,
    all: Vec<Sums>,
}

impl Cells {
    /// Cells of so many pixels over `body`; `None` where there are fewer than two to a side.
    pub(super) fn over(a: &Plane<u8>, b: &Plane<u8>, body: Rect, side: usize) -> Option<Self> {
        let (left, top) = (body.x.max(1.0) as usize, body.y.max(1.0) as usize);
        let right = (body.right() as usize).min(a.width().saturating_sub(1));
        let bottom = (body.bottom() as usize).min(a.height().saturating_sub(1));
        let (across, down) = (right.checked_sub(left)? / side, bottom.checked_sub(top)? / side);
        if across < 2 || down < 2 {
            return None;
        }
        let (a, b) = (smoothed(a), smoothed(b));
        let place = |i: usize| (left + i % across * side, top + i / across * side);
        let all = (0..across * down).map(|i| sums(&a, &b, place(i), side)).collect();
        Some(Self { corner: (left, top), side, across, down, all })
    }

    /// Sums over cells, by columns and rows.
    pub(super) fn sum(&self, x: std::ops::Range<usize>, y: std::ops::Range<usize>) -> Sums {
        y.flat_map(|y| x.clone().map(move |x| y * self.across + x))
            .fold(Sums::default(), |s, i| s.and(&self.all[i], 1.0))
    }
}

fn sums(a: &Plane<f32>, b: &Plane<f32>, (left, top): (usize, usize), side: usize) -> Sums {
    let mut s = Sums::default();
    for y in top..top + side {
        for x in left..left + side {
            let mean = |x: usize, y: usize| f64::from(a.at(x, y) + b.at(x, y)) / 2.0;
            let gx = (mean(x + 1, y) - mean(x - 1, y)) / 2.0;
            let gy = (mean(x, y + 1) - mean(x, y - 1)) / 2.0;
            let (p, q) = (f64::from(a.at(x, y)), f64::from(b.at(x, y)));
            let d = p - q;
            let steep = gx.hypot(gy);
            s.xx += gx * gx;
            s.xy += gx * gy;
            s.yy += gy * gy;
            s.steep += steep;
            s.xd += gx * d;
            s.yd += gy * d;
            s.steep_d += steep * d;
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
