//! The smooth motion about a place: what most neighbours agree on.
//!
//! What moves together is paper; what moves alone is a sort, or a line cut afresh. A quadratic
//! surface is fitted to the neighbours' displacements by iteratively reweighted least squares
//! (Cauchy weights, scale from the median absolute deviation; Huber & Ronchetti, *Robust
//! Statistics*, 2nd edn 2009, ch. 7), so that a line that stands elsewhere cannot bend it.

use nalgebra::{SMatrix, SVector};
use sheet::Point;

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
    let middle = Point::new(
        median(&mut near.iter().map(|s| s.shift.x).collect::<Vec<_>>()),
        median(&mut near.iter().map(|s| s.shift.y).collect::<Vec<_>>()),
    );
    // What stays the same from round to round: place, weight by distance and doubt, distance so far.
    let mut terms: Vec<(SVector<f64, N>, f64, f64)> = near
        .iter()
        .map(|s| {
            let p = (s.at - at) * (1.0 / width);
            let weight = s.weight * (-0.5 * (p.x * p.x + p.y * p.y)).exp();
            (basis::<N>(p), weight, s.shift.distance(middle))
        })
        .collect();
    // A quadratic surface is wrong by the third power of how far it is carried on.
    let mut gaps: Vec<f64> = near.iter().map(|s| s.at.distance(at) / width).collect();
    let nearest = (NEAREST - 1).min(gaps.len() - 1);
    let gap = *gaps.select_nth_unstable_by(nearest, f64::total_cmp).1;
    let beyond = MISFIT * width * gap.powi(3);
    let mut room = Vec::with_capacity(near.len());
    let mut agreed = Agreed { shift: middle, scatter: 0.0, sd: 0.0 };
    for _ in 0..ROUNDS {
        room.clear();
        room.extend(terms.iter().map(|t| t.2));
        agreed.scatter = median(&mut room).max(LEAST_SCATTER);
        let cut = CAUCHY * agreed.scatter / RAYLEIGH_MEDIAN;
        let mut normal = SMatrix::<f64, N, N>::zeros();
        let (mut rx, mut ry) = (SVector::<f64, N>::zeros(), SVector::<f64, N>::zeros());
        let (mut sum, mut squares) = (0.0, 0.0);
        for (s, (basis, weight, d)) in near.iter().zip(&terms) {
            let w = weight / (1.0 + (d / cut) * (d / cut));
            sum += w;
            squares += w * w;
            for i in 0..N {
                for j in i..N {
                    normal[(j, i)] += w * basis[i] * basis[j];
                }
                rx[i] += w * basis[i] * s.shift.x;
                ry[i] += w * basis[i] * s.shift.y;
            }
        }
        // In inverse variances, so that what is known of paper beforehand can be added: it tilts and
        // curves only so much. Amid print this changes nothing; beyond the last of it, or along one row of
        // type, it keeps the answer from running wild.
        let scatter = agreed.scatter / RAYLEIGH_MEDIAN;
        let scale = sum / (squares * scatter * scatter);
        normal *= scale;
        rx *= scale;
        ry *= scale;
        for i in 1..N {
            let most = width * if i < 3 { TILT } else { CURVE };
            normal[(i, i)] += 1.0 / (most * most);
        }
        // Cholesky reads the lower half alone.
        let factor = normal.cholesky()?;
        let (cx, cy) = (factor.solve(&rx), factor.solve(&ry));
        let before = std::mem::replace(&mut agreed.shift, Point::new(cx[0], cy[0]));
        // The usual variance of a fitted value.
        let first = SVector::<f64, N>::from_fn(|i, _| f64::from(u8::from(i == 0)));
        agreed.sd = factor.solve(&first)[0].sqrt().hypot(beyond);
        if before.distance(agreed.shift) < SETTLED {
            break;
        }
        for (s, (basis, _, d)) in near.iter().zip(&mut terms) {
            *d = s.shift.distance(Point::new(cx.dot(basis), cy.dot(basis)));
        }
    }
    Some(agreed)
}

fn basis<const N: usize>(p: Point) -> SVector<f64, N> {
    let all = [1.0, p.x, p.y, p.x * p.x, p.x * p.y, p.y * p.y];
    SVector::from_fn(|i, _| all[i])
}

fn median(values: &mut [f64]) -> f64 {
    let middle = values.len() / 2;
    *values.select_nth_unstable_by(middle, f64::total_cmp).1
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
        let Some(theirs) = crate::outside::kernel(&arguments, &bytes) else { return };
        let ours = agreed(Point::new(0.0, 0.0), &samples, 30.0).unwrap();
        let apart = ours.shift.distance(Point::new(f64::from(theirs[0]), f64::from(theirs[1])));
        assert!(apart < 0.01, "{ours:?} against {theirs:?}");
    }
}
