//! The smooth motion about a place: what most neighbours agree on.
//!
//! What moves together is paper; what moves alone is a sort, or a line cut afresh. A quadratic
//! surface is fitted to the neighbours' displacements by iteratively reweighted least squares
//! (Cauchy weights, scale from the median absolute deviation; Huber & Ronchetti, *Robust
//! Statistics*, 2nd edn 2009, ch. 7), so that a line that stands elsewhere cannot bend it.

use crate::lanes::{column, ranked, sum};
use nalgebra::{SMatrix, SVector};
use sheet::Point;
use wide::f32x8;

/// A displacement that was measured at a place.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Sample {
    pub(crate) at: Point,
    pub(crate) shift: Point,
    /// Inverse variance, in any one unit.
    pub(crate) weight: f64,
}

/// What the neighbours say of a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Agreed {
    /// The smooth motion there.
    pub shift: Point,
    /// Median distance of the neighbours from the fitted surface.
    pub scatter: f64,
    /// Standard deviation of the motion along x, and along y: small amid many neighbours, large beyond
    /// the last of them.
    pub sd: f64,
}

/// Fewest neighbours for a quadratic surface (six coefficients), a plane (three), a constant.
const FEWEST: [usize; 3] = [20, 8, 3];
/// Rounds of reweighting, at most; a round that moves the answer by less than this, in samples, is the last.
const ROUNDS: usize = 6;
const SETTLED: f64 = 0.002;
/// How far the paper's motion commonly departs, over one width of a neighbourhood, from a shift (what is
/// left of shrinkage, of at most 2.5 percent, and of the camera's slant), and from a plane (cockle and curl:
/// looked at on simulated and real pages), as a share of that width: standard deviations.
const TILT: f64 = 0.05;
const CURVE: f64 = 0.025;
/// How far the paper departs from a quadratic surface at one width from the print that tells it, as a share of
/// that width (looked at on simulated and real pages); the distance is that to the fifth nearest print.
const MISFIT: f64 = 0.005;
const NEAREST: usize = 5;
/// No scatter is believed to be smaller than this (samples): matching itself is no better.
const LEAST_SCATTER: f64 = 0.05;
/// From the median absolute deviation of a two-dimensional normal error to its sigma: the median
/// of a Rayleigh variate is 1.1774 sigma.
const RAYLEIGH_MEDIAN: f64 = 1.1774;
/// Cauchy's tuning constant for 95 percent efficiency on normal errors.
const CAUCHY: f64 = 2.385;

/// The motion of the paper at `at`, fitted to `near`, each counted less with its distance (a
/// Gaussian of standard deviation `width`). `None` of fewer than three neighbours.
pub(crate) fn agreed(at: Point, near: &[Sample], width: f64) -> Option<Agreed> {
    let order = FEWEST.iter().position(|&n| near.len() >= n)?;
    match order {
        0 => fit::<6>(at, near, width).or_else(|| fit::<3>(at, near, width)),
        1 => fit::<3>(at, near, width).or_else(|| fit::<1>(at, near, width)),
        _ => fit::<1>(at, near, width),
    }
}

fn fit<const N: usize>(at: Point, near: &[Sample], width: f64) -> Option<Agreed> {
    let middling = |values: Vec<f32x8>| ranked(&values, near.len(), near.len() / 2);
    let middle = Point::new(middling(column(near, |s| s.shift.x)), middling(column(near, |s| s.shift.y)));
    // A quadratic surface is wrong by the third power of how far it is carried on.
    let far = column(near, |s| s.at.distance(at));
    let gap = ranked(&far, near.len(), (NEAREST - 1).min(near.len() - 1)) / width;
    let beyond = MISFIT * width * gap.powi(3);
    let mut columns = Columns::of(at, near, width, middle);
    let mut agreed = Agreed { shift: middle, scatter: 0.0, sd: 0.0 };
    for _ in 0..ROUNDS {
        agreed.scatter = columns.median_off().max(LEAST_SCATTER);
        let sums = columns.sums(CAUCHY * agreed.scatter / RAYLEIGH_MEDIAN);
        // In inverse variances, so that what is known of paper beforehand can be added: it tilts and
        // curves only so much. Amid print this changes nothing; beyond the last of it, or along one row of
        // type, it keeps the answer from running wild.
        let scatter = agreed.scatter / RAYLEIGH_MEDIAN;
        let scale = sums.moments[0] / (sums.squares * scatter * scatter);
        // Cholesky reads the lower half alone.
        let mut normal = SMatrix::<f64, N, N>::from_fn(|i, j| scale * sums.moments[product(i, j)]);
        for i in 1..N {
            let most = width * if i < 3 { TILT } else { CURVE };
            normal[(i, i)] += 1.0 / (most * most);
        }
        let factor = normal.cholesky()?;
        let of = |sums: [f64; 6]| factor.solve(&SVector::<f64, N>::from_fn(|i, _| scale * sums[i]));
        let (cx, cy) = (of(sums.by_dx), of(sums.by_dy));
        let before = std::mem::replace(&mut agreed.shift, middle + Point::new(cx[0], cy[0]));
        // The usual variance of a fitted value.
        let first = SVector::<f64, N>::from_fn(|i, _| f64::from(u8::from(i == 0)));
        agreed.sd = factor.solve(&first)[0].sqrt().hypot(beyond);
        if before.distance(agreed.shift) < SETTLED {
            break;
        }
        columns.measure_off(&cx, &cy);
    }
    Some(agreed)
}

/// Number of the product of two terms of the surface among the powers x^p y^q, sorted by p + q, then by q; the terms
/// are the first six of these.
fn product(i: usize, j: usize) -> usize {
    const POWERS: [[usize; 2]; 6] = [[0, 0], [1, 0], [0, 1], [2, 0], [1, 1], [0, 2]];
    let [p, q] = [0, 1].map(|k| POWERS[i][k] + POWERS[j][k]);
    (p + q) * (p + q + 1) / 2 + q
}

/// The neighbours by columns, eight to a row, with what weighs nothing after the last: places in neighbourhood widths
/// from the place asked about, displacements against the median one.
///
/// In single precision: of some hundred displacements of some samples the sums are right to 1e-4 of a sample.
struct Columns {
    x: Vec<f32x8>,
    y: Vec<f32x8>,
    dx: Vec<f32x8>,
    dy: Vec<f32x8>,
    weight: Vec<f32x8>,
    /// Distance of the displacement from the surface so far.
    off: Vec<f32x8>,
    len: usize,
}

/// Sums over the neighbours, each by its weight: of powers of its place, in the order of [`product`]; of the terms of
/// the surface by its displacement; and of the squared weights.
struct Sums {
    moments: [f64; 15],
    by_dx: [f64; 6],
    by_dy: [f64; 6],
    squares: f64,
}

impl Columns {
    fn of(at: Point, near: &[Sample], width: f64, middle: Point) -> Self {
        let place = |s: &Sample| (s.at - at) * (1.0 / width);
        let nearness = |p: Point| (-0.5 * (p.x * p.x + p.y * p.y)).exp();
        Self {
            x: column(near, |s| place(s).x),
            y: column(near, |s| place(s).y),
            dx: column(near, |s| s.shift.x - middle.x),
            dy: column(near, |s| s.shift.y - middle.y),
            weight: column(near, |s| s.weight * nearness(place(s))),
            off: column(near, |s| s.shift.distance(middle)),
            len: near.len(),
        }
    }

    /// Median distance from the surface so far.
    fn median_off(&self) -> f64 {
        ranked(&self.off, self.len, self.len / 2)
    }

    /// The sums, each neighbour counted less with its distance from the surface so far, in parts of `cut`.
    fn sums(&self, cut: f64) -> Sums {
        let per_cut = f32x8::splat((1.0 / cut) as f32);
        let (mut moments, mut squares) = ([f32x8::ZERO; 15], f32x8::ZERO);
        let (mut by_dx, mut by_dy) = ([f32x8::ZERO; 6], [f32x8::ZERO; 6]);
        let places = self.x.iter().zip(&self.y).zip(self.dx.iter().zip(&self.dy));
        for (((&x, &y), (&dx, &dy)), (&weight, &off)) in places.zip(self.weight.iter().zip(&self.off)) {
            let q = off * per_cut;
            let w = weight / (f32x8::ONE + q * q);
            squares += w * w;
            let (wx, wy) = (w * x, w * y);
            let (xx, xy, yy) = (wx * x, wx * y, wy * y);
            let (xxx, xxy, xyy, yyy) = (xx * x, xx * y, xy * y, yy * y);
            let terms = [w, wx, wy, xx, xy, yy];
            for (sum, term) in moments.iter_mut().zip(terms) {
                *sum += term;
            }
            let higher = [xxx, xxy, xyy, yyy, xxx * x, xxx * y, xxy * y, xyy * y, yyy * y];
            for (sum, power) in moments[6..].iter_mut().zip(higher) {
                *sum += power;
            }
            for ((by_dx, by_dy), term) in by_dx.iter_mut().zip(&mut by_dy).zip(terms) {
                *by_dx += term * dx;
                *by_dy += term * dy;
            }
        }
        Sums {
            moments: moments.map(sum),
            by_dx: by_dx.map(sum),
            by_dy: by_dy.map(sum),
            squares: sum(squares),
        }
    }

    /// Measures the distances from the surface with these coefficients.
    fn measure_off<const N: usize>(&mut self, cx: &SVector<f64, N>, cy: &SVector<f64, N>) {
        let lanes =
            |c: &SVector<f64, N>| -> [f32x8; N] { std::array::from_fn(|i| f32x8::splat(c[i] as f32)) };
        let (cx, cy) = (lanes(cx), lanes(cy));
        let places = self.x.iter().zip(&self.y).zip(self.dx.iter().zip(&self.dy));
        for (((&x, &y), (&dx, &dy)), off) in places.zip(&mut self.off) {
            let basis = [f32x8::ONE, x, y, x * x, x * y, y * y];
            let told = |c: &[f32x8; N]| c.iter().zip(basis).fold(f32x8::ZERO, |sum, (&c, b)| sum + c * b);
            let (x, y) = (dx - told(&cx), dy - told(&cy));
            *off = (x * x + y * y).sqrt();
        }
    }
}

/// Samples sorted into square cells, to find those near a place.
pub(crate) struct Neighbours<'a> {
    samples: &'a [Sample],
    cells: Vec<Vec<u32>>,
    across: usize,
    down: usize,
    size: f64,
}

impl<'a> Neighbours<'a> {
    pub(crate) fn new(samples: &'a [Sample], size: f64) -> Self {
        let right = samples.iter().map(|s| s.at.x).fold(0.0, f64::max);
        let low = samples.iter().map(|s| s.at.y).fold(0.0, f64::max);
        let (across, down) = ((right / size) as usize + 1, (low / size) as usize + 1);
        let mut cells = vec![Vec::new(); across * down];
        for (i, s) in samples.iter().enumerate() {
            cells[(s.at.y.max(0.0) / size) as usize * across + (s.at.x.max(0.0) / size) as usize]
                .push(i as u32);
        }
        Self { samples, cells, across, down, size }
    }

    /// Appends to `out` every sample within `reach` of `at` that `keep` accepts.
    pub(crate) fn within(
        &self,
        at: Point,
        reach: f64,
        keep: impl Fn(&Sample) -> bool,
        out: &mut Vec<Sample>,
    ) {
        let cell = |v: f64, n: usize| ((v / self.size).max(0.0) as usize).min(n - 1);
        for cy in cell(at.y - reach, self.down)..=cell(at.y + reach, self.down) {
            for cx in cell(at.x - reach, self.across)..=cell(at.x + reach, self.across) {
                for &i in &self.cells[cy * self.across + cx] {
                    let s = &self.samples[i as usize];
                    if s.at.distance(at) <= reach && keep(s) {
                        out.push(*s);
                    }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sheet_of(motion: impl Fn(f64, f64) -> (f64, f64)) -> Vec<Sample> {
        (0..400)
            .map(|i| {
                let (x, y) = (f64::from(i % 20) * 10.0, f64::from(i / 20) * 10.0);
                let (dx, dy) = motion(x, y);
                Sample { at: Point::new(x, y), shift: Point::new(dx, dy), weight: 1.0 }
            })
            .collect()
    }

    #[test]
    fn a_line_that_stands_elsewhere_does_not_bend_the_paper() {
        let cockle = |x: f64, y: f64| (0.01 * x + 1e-5 * y * y, -0.02 * y + 2e-5 * x * x);
        let samples = sheet_of(|x, y| {
            let (dx, dy) = cockle(x, y);
            if (y - 100.0).abs() < 1.0 { (dx + 1.8, dy) } else { (dx, dy) }
        });
        let cells = Neighbours::new(&samples, 30.0);
        let at = Point::new(100.0, 100.0);
        let mut near = Vec::new();
        cells.within(at, 60.0, |_| true, &mut near);
        let fit = agreed(at, &near, 30.0).unwrap();
        let (dx, dy) = cockle(100.0, 100.0);
        assert!((fit.shift.x - dx).abs() < 0.06, "{fit:?} against {dx}");
        assert!((fit.shift.y - dy).abs() < 0.03, "{fit:?} against {dy}");
    }

    #[test]
    fn two_neighbours_say_nothing() {
        let samples = sheet_of(|_, _| (0.0, 0.0));
        assert!(agreed(Point::new(0.0, 0.0), &samples[..2], 30.0).is_none());
    }

    /// Against `scipy.optimize.least_squares` with the same loss, on cockled paper with noise and one line
    /// in five set elsewhere. Ours knows a little of paper beforehand, hence the tolerance.
    #[test]
    fn the_robust_surface_is_that_of_scipy() {
        let mut samples = sheet_of(|x, y| {
            let rough = ((x * 12.9898 + y * 78.233).sin() * 43758.547).fract();
            let other = ((x * 39.346 + y * 11.135).sin() * 24634.635).fract();
            let set_elsewhere = if (y / 10.0) as i32 % 5 == 0 { 1.5 } else { 0.0 };
            (0.01 * x + 1e-5 * y * y + 0.1 * rough + set_elsewhere, -0.02 * y + 2e-5 * x * x + 0.1 * other)
        });
        for s in &mut samples {
            s.at = s.at - Point::new(95.0, 95.0);
        }
        let bytes: Vec<u8> = samples
            .iter()
            .flat_map(|s| [s.at.x, s.at.y, s.shift.x, s.shift.y, s.weight])
            .flat_map(f64::to_le_bytes)
            .collect();
        let arguments = ["surface", &samples.len().to_string(), "30.0"].map(str::to_owned);
        let Some(theirs) = outside::kernel(&arguments, &bytes) else { return };
        let ours = agreed(Point::new(0.0, 0.0), &samples, 30.0).unwrap();
        let apart = ours.shift.distance(Point::new(f64::from(theirs[0]), f64::from(theirs[1])));
        assert!(apart < 0.01, "{ours:?} against {theirs:?}");
    }
}
