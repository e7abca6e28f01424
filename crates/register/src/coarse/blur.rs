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

/// The plane blurred with a Gaussian of standard deviation `sigma` samples; the edge is repeated.
pub(crate) fn blur(plane: &Plane<f32>, sigma: f32) -> Plane<f32> {
    let k = kernel(sigma);
    let (w, h, r) = (plane.width(), plane.height(), k.len() - 1);
    let mut across = Plane::filled(w, h, 0.0f32);
    across.data_mut().par_chunks_mut(w).enumerate().for_each_init(
        || vec![0.0f32; w + 2 * r],
        |padded, (y, out)| {
            let row = plane.row(y);
            padded[..r].fill(row[0]);
            padded[r..r + w].copy_from_slice(row);
            padded[r + w..].fill(row[w - 1]);
            for (o, c) in out.iter_mut().zip(&padded[r..r + w]) {
                *o = k[0] * c;
            }
            for (i, &weight) in k.iter().enumerate().skip(1) {
                let (left, right) = (&padded[r - i..r - i + w], &padded[r + i..r + i + w]);
                for ((o, a), b) in out.iter_mut().zip(left).zip(right) {
                    *o += weight * (a + b);
                }
            }
        },
    );
    let mut down = Plane::filled(w, h, 0.0f32);
    down.data_mut().par_chunks_mut(w).enumerate().for_each(|(y, out)| {
        for (o, c) in out.iter_mut().zip(across.row(y)) {
            *o = k[0] * c;
        }
        for (i, &weight) in k.iter().enumerate().skip(1) {
            let (up, low) = (across.row(y.saturating_sub(i)), across.row((y + i).min(h - 1)));
            for ((o, a), b) in out.iter_mut().zip(up).zip(low) {
                *o += weight * (a + b);
            }
        }
    });
    down
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
        let b = blur(&p, 2.0);
        let sum: f32 = b.data().iter().sum();
        assert!((sum - 1.0).abs() < 1e-4);
        // One standard deviation out, a Gaussian has fallen to exp(-1/2).
        assert!((b.at(22, 20) / b.at(20, 20) - (-0.5f32).exp()).abs() < 1e-3);
    }

    /// Against `scipy.ndimage.gaussian_filter` with the edge repeated and the same cut.
    #[test]
    fn blurred_as_scipy_blurs() {
        let plane = crate::outside::speckled(70, 50);
        let plane = Plane::from_vec(70, 50, plane.data().iter().map(|&v| f32::from(v)).collect()).unwrap();
        let bytes: Vec<u8> = plane.data().iter().flat_map(|v| v.to_le_bytes()).collect();
        for sigma in [0.8f32, 1.6, 4.0] {
            let arguments = ["gaussian", "70", "50", &format!("{sigma:.1}")].map(str::to_owned);
            let Some(theirs) = crate::outside::kernel(&arguments, &bytes) else { return };
            let ours = blur(&plane, sigma);
            let worst = ours.data().iter().zip(&theirs).map(|(a, b)| (a - b).abs()).fold(0.0, f32::max);
            assert!(worst < 0.02, "sigma {sigma}: largest difference {worst} of 255");
        }
    }
}
