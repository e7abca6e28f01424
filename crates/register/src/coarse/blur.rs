//! Gaussian blur of a plane of numbers, by rows and then by columns.

use rayon::prelude::*;
use sheet::Plane;

/// Weights beyond this many standard deviations are dropped (they sum to under 0.3 percent).
const REACH_IN_SIGMAS: f32 = 3.0;

fn kernel(sigma: f32) -> Vec<f32> {
    let r = (REACH_IN_SIGMAS * sigma).ceil() as i32;
    let mut k: Vec<f32> = (0..=r).map(|i| (-0.5 * (i as f32 / sigma).powi(2)).exp()).collect();
    let sum: f32 = k[0] + 2.0 * k[1..].iter().sum::<f32>();
    for v in &mut k {
        *v /= sum;
    }
    k
}

/// The plane blurred with a Gaussian of standard deviation `sigma` samples; the edge is repeated. `room` is kept between
/// calls to spare allocations.
pub(crate) fn blur(plane: &Plane<f32>, room: &mut Vec<f32>, sigma: f32) -> Plane<f32> {
    let k = kernel(sigma);
    let (w, h, r) = (plane.width(), plane.height(), k.len() - 1);
    room.resize(w * h, 0.0);
    room.par_chunks_mut(w).enumerate().for_each_init(
        || vec![0.0f32; w + 2 * r],
        |padded, (y, out)| {
            let row = plane.row(y);
            padded[..r].fill(row[0]);
            padded[r..r + w].copy_from_slice(row);
            padded[r + w..].fill(row[w - 1]);
            let beside = |i: usize, from: usize, n: usize| {
                (&padded[r - i + from..][..n], &padded[r + i + from..][..n])
            };
            weighed(&k, out, beside);
        },
    );
    let across = |y: usize| &room[y * w..(y + 1) * w];
    let mut down = Plane::filled(w, h, 0.0f32);
    down.data_mut().par_chunks_mut(w).enumerate().for_each(|(y, out)| {
        let about = |i: usize, from: usize, n: usize| {
            let (up, low) = (across(y.saturating_sub(i)), across((y + i).min(h - 1)));
            (&up[from..][..n], &low[from..][..n])
        };
        weighed(&k, out, about);
    });
    down
}

/// Samples whose sums are held at once while all weights go by, rather than being fetched for each.
const AT_ONCE: usize = 32;

/// Sums, each with its weight, of what lies `i` samples to either side: `beside(i, from, n)`, of `n` samples from `from` on.
fn weighed<'p>(k: &[f32], out: &mut [f32], beside: impl Fn(usize, usize, usize) -> (&'p [f32], &'p [f32])) {
    let blocks = out.len() / AT_ONCE * AT_ONCE;
    let (whole, rest) = out.split_at_mut(blocks);
    for (block, sums) in whole.as_chunks_mut::<AT_ONCE>().0.iter_mut().enumerate() {
        let mut held = [0.0f32; AT_ONCE];
        weigh(k, &mut held, |i| beside(i, block * AT_ONCE, AT_ONCE));
        *sums = held;
    }
    let n = rest.len();
    rest.fill(0.0);
    weigh(k, rest, |i| beside(i, blocks, n));
}

#[inline]
fn weigh<'p>(k: &[f32], sums: &mut [f32], beside: impl Fn(usize) -> (&'p [f32], &'p [f32])) {
    for (o, c) in sums.iter_mut().zip(beside(0).0) {
        *o = k[0] * c;
    }
    for (i, &weight) in k.iter().enumerate().skip(1) {
        let (before, after) = beside(i);
        for ((o, a), b) in sums.iter_mut().zip(before).zip(after) {
            *o += weight * (a + b);
        }
    }
}

/// Every second sample of every second row.
pub(crate) fn thinned(plane: &Plane<f32>) -> Plane<f32> {
    let (w, h) = (plane.width() / 2, plane.height() / 2);
    let mut out = Plane::filled(w, h, 0.0f32);
    for y in 0..h {
        for (o, pair) in out.row_mut(y).iter_mut().zip(plane.row(2 * y).chunks_exact(2)) {
            *o = pair[0];
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_spot_spreads_by_the_formula_and_keeps_its_sum() {
        let mut p = Plane::filled(41, 41, 0.0f32);
        p.row_mut(20)[20] = 1.0;
        let b = blur(&p, &mut Vec::new(), 2.0);
        let sum: f32 = b.data().iter().sum();
        assert!((sum - 1.0).abs() < 1e-4);
        // One standard deviation out, a Gaussian has fallen to exp(-1/2).
        assert!((b.at(22, 20) / b.at(20, 20) - (-0.5f32).exp()).abs() < 1e-3);
    }

    /// Against `scipy.ndimage.gaussian_filter` with the edge repeated and the same cut.
    #[test]
    fn blurred_as_scipy_blurs() {
        let plane = crate::speckled::speckled(70, 50);
        let plane = Plane::from_vec(70, 50, plane.data().iter().map(|&v| f32::from(v)).collect()).unwrap();
        let bytes: Vec<u8> = plane.data().iter().flat_map(|v| v.to_le_bytes()).collect();
        for sigma in [0.8f32, 1.6, 4.0] {
            let arguments = ["gaussian", "70", "50", &format!("{sigma:.1}")].map(str::to_owned);
            let Some(theirs) = outside::kernel(&arguments, &bytes) else { return };
            let ours = blur(&plane, &mut Vec::new(), sigma);
            let worst = ours.data().iter().zip(&theirs).map(|(a, b)| (a - b).abs()).fold(0.0, f32::max);
            assert!(worst < 0.02, "sigma {sigma}: largest difference {worst} of 255");
        }
    }
}
