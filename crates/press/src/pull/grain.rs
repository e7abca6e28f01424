//! Fine grain, made once as a small tile that repeats.

use sheet::Plane;

use super::blur::blurred;
use crate::noise::scrambled;

/// A tile of grain of mean 0 and standard deviation 1 that repeats every `SIDE` pixels without a seam.
#[derive(Debug, Clone)]
pub(crate) struct Grain(Plane<f32>);

const SIDE: usize = 512;

impl Grain {
    /// Grain whose grains are about `2.4 * sigma` px across; white noise when `sigma` is below 0.15.
    pub(crate) fn new(seed: u64, sigma: f64) -> Self {
        let seed = (seed ^ (seed >> 32)) as u32;
        let pad = (3.0 * sigma).ceil() as usize;
        let side = SIDE + 2 * pad;
        let place = |i: usize| ((i + SIDE - pad % SIDE) % SIDE) as i32;
        let white = (0..side * side).map(|i| {
            let (x, y) = (place(i % side), place(i / side));
            // Four even deviates, the bytes of one number, make a nearly normal one.
            scrambled(seed, x, y).to_le_bytes().into_iter().map(|byte| f32::from(byte) - 127.5).sum()
        });
        let plane =
            Plane::from_vec(side, side, white.collect()).unwrap_or_else(|| Plane::filled(side, side, 0.0));
        let mut tile = blurred(&plane, sigma).crop(pad, pad, SIDE, SIDE);
        let n = (SIDE * SIDE) as f32;
        let mean = tile.data().iter().sum::<f32>() / n;
        let sd = (tile.data().iter().map(|v| (v - mean).powi(2)).sum::<f32>() / n).sqrt().max(1e-6);
        tile.data_mut().iter_mut().for_each(|v| *v = (*v - mean) / sd);
        Self(tile)
    }

    /// A row of the tile; column `x` of the photograph is sample `x % len`.
    pub(crate) fn row(&self, y: usize) -> &[f32] {
        self.0.row(y % SIDE)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn grain_has_unit_spread_and_no_seam() {
        let grain = Grain::new(9, 1.5);
        let row = grain.row(3);
        let step = |a: f32, b: f32| (a - b).abs();
        let usual = row.windows(2).map(|w| step(w[0], w[1])).fold(0.0, f32::max);
        assert!(step(row[0], row[SIDE - 1]) <= usual * 1.2);
        assert!(row.iter().any(|v| *v > 1.0) && row.iter().any(|v| *v < -1.0));
    }
}
