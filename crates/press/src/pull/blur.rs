//! Gaussian blur, for ink that spreads and lenses that do.

use rayon::prelude::*;
use sheet::Plane;

/// A plane blurred by a Gaussian of standard deviation `sigma` px; the edge is repeated.
///
/// Below 0.15 px nothing is done: the kernel would be a single sample.
pub(crate) fn blurred(plane: &Plane<f32>, sigma: f64) -> Plane<f32> {
    if sigma < 0.15 {
        return plane.clone();
    }
    let kernel = kernel(sigma);
    let reach = kernel.len() / 2;
    let (width, height) = (plane.width(), plane.height());
    let mut across = Plane::filled(width, height, 0.0f32);
    across.data_mut().par_chunks_mut(width.max(1)).enumerate().for_each(|(y, out)| {
        let row = plane.row(y);
        let mut padded = Vec::with_capacity(width + 2 * reach);
        padded.extend(std::iter::repeat_n(row[0], reach));
        padded.extend_from_slice(row);
        padded.extend(std::iter::repeat_n(row[width - 1], reach));
        for (k, &weight) in kernel.iter().enumerate() {
            for (o, &v) in out.iter_mut().zip(&padded[k..]) {
                *o += weight * v;
            }
        }
    });
    let mut out = Plane::filled(width, height, 0.0f32);
    out.data_mut().par_chunks_mut(width.max(1)).enumerate().for_each(|(y, out)| {
        for (k, &weight) in kernel.iter().enumerate() {
            let from = (y + k).saturating_sub(reach).min(height - 1);
            for (o, &v) in out.iter_mut().zip(across.row(from)) {
                *o += weight * v;
            }
        }
    });
    out
}

/// Samples of a Gaussian to three standard deviations, summing to 1.
fn kernel(sigma: f64) -> Vec<f32> {
    let reach = (3.0 * sigma).ceil() as i32;
    let raw: Vec<f64> = (-reach..=reach).map(|i| (-f64::from(i * i) / (2.0 * sigma * sigma)).exp()).collect();
    let sum: f64 = raw.iter().sum();
    raw.into_iter().map(|w| (w / sum) as f32).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn blurring_keeps_the_sum_and_has_the_spread_asked_for() {
        let mut plane = Plane::filled(41, 41, 0.0f32);
        plane.row_mut(20)[20] = 1.0;
        let out = blurred(&plane, 2.0);
        let sum: f32 = out.data().iter().sum();
        let variance: f32 = (0..41).map(|x| out.row(20)[x] * (x as f32 - 20.0).powi(2)).sum::<f32>()
            / out.row(20).iter().sum::<f32>();
        assert!((sum - 1.0).abs() < 1e-4 && (variance - 4.0).abs() < 0.15, "{sum} {variance}");
    }
}
