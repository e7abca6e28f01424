//! Seeded chance: every draw of this crate, so that one seed gives one answer.
//!
//! Deviates are made here, with `libm`, and not taken from a library: those use the logarithm of the machine they run on,
//! the last bit of which differs from one to another, and a chain of chance that once goes the other way never comes back.

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// A stream of chance.
#[derive(Debug, Clone)]
pub(crate) struct Chance(ChaCha8Rng);

impl Chance {
    /// Stream `number` of `seed`; no two streams of a seed share their draws.
    pub(crate) fn new(seed: u64, number: u64) -> Self {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        rng.set_stream(number);
        Self(rng)
    }

    /// Evenly in 0..1.
    pub(crate) fn unit(&mut self) -> f64 {
        self.0.random::<f64>()
    }

    /// Evenly between two bounds.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// A whole number from 0 to `n - 1`; 0 when `n` is 0.
    pub(crate) fn below(&mut self, n: usize) -> usize {
        if n == 0 { 0 } else { self.0.random_range(0..n) }
    }

    /// True with probability `p`.
    pub(crate) fn happens(&mut self, p: f64) -> bool {
        self.unit() < p
    }

    /// A standard normal deviate (the polar method: Marsaglia & Bray, *SIAM Review* 6, 1964).
    pub(crate) fn normal(&mut self) -> f64 {
        loop {
            let (x, y) = (self.between(-1.0, 1.0), self.between(-1.0, 1.0));
            let s = x * x + y * y;
            if s > 0.0 && s < 1.0 {
                return x * (-2.0 * libm::log(s) / s).sqrt();
            }
        }
    }

    /// A gamma deviate of scale 1, as its logarithm: of a small shape most are smaller than any number that can be held.
    ///
    /// Marsaglia & Tsang, *ACM Trans. Math. Softw.* 26 (2000), for shapes of 1 and more; below, a deviate of one more
    /// times the power of an even one (the same paper, § 6).
    pub(crate) fn ln_gamma(&mut self, shape: f64) -> f64 {
        if shape < 1.0 {
            // A shape of nothing is a gap of no length: no damage at all.
            let shape = shape.max(1e-12);
            return self.ln_gamma(shape + 1.0) + libm::log(1.0 - self.unit()) / shape;
        }
        let d = shape - 1.0 / 3.0;
        let c = 1.0 / (9.0 * d).sqrt();
        loop {
            let x = self.normal();
            let root = 1.0 + c * x;
            if root <= 0.0 {
                continue;
            }
            let v = root * root * root;
            if libm::log(1.0 - self.unit()) < 0.5 * x * x + d - d * v + d * libm::log(v) {
                return libm::log(d) + libm::log(v);
            }
        }
    }

    /// A gamma deviate; never 0, so that it has a logarithm.
    pub(crate) fn gamma(&mut self, shape: f64, scale: f64) -> f64 {
        (libm::exp(self.ln_gamma(shape)) * scale).max(f64::MIN_POSITIVE)
    }

    /// A beta deviate: the share of the first of two gamma deviates in both.
    pub(crate) fn beta(&mut self, first: f64, second: f64) -> f64 {
        let (a, b) = (self.ln_gamma(first), self.ln_gamma(second));
        1.0 / (1.0 + libm::exp(b - a))
    }

    /// A Poisson deviate, as the events of a unit of time before the sum of waits is over; for means up to some thousands.
    pub(crate) fn poisson(&mut self, mean: f64) -> usize {
        let (mut count, mut waited) = (0, 0.0);
        loop {
            waited -= libm::log(1.0 - self.unit());
            if waited > mean {
                return count;
            }
            count += 1;
        }
    }

    /// A place in a list of weights, each as likely as its weight; the last where all are 0.
    pub(crate) fn weighed(&mut self, weights: &[f64]) -> usize {
        let mut left = self.unit() * weights.iter().sum::<f64>();
        for (i, w) in weights.iter().enumerate() {
            left -= w;
            if left < 0.0 {
                return i;
            }
        }
        weights.len().saturating_sub(1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Mean and variance of many draws.
    fn moments(mut draw: impl FnMut() -> f64) -> (f64, f64) {
        let draws: Vec<f64> = (0..40_000).map(|_| draw()).collect();
        let n = draws.len() as f64;
        let mean = draws.iter().sum::<f64>() / n;
        (mean, draws.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / n)
    }

    fn near(got: (f64, f64), wanted: (f64, f64)) {
        // Five standard errors of a mean of 40 000, and as much of a variance with heavy tails.
        let slack = 5.0 * (wanted.1 / 40_000.0).sqrt();
        assert!((got.0 - wanted.0).abs() < slack, "mean {} for {}", got.0, wanted.0);
        assert!((got.1 / wanted.1 - 1.0).abs() < 0.12, "variance {} for {}", got.1, wanted.1);
    }

    #[test]
    fn deviates_have_the_moments_of_their_laws() {
        let mut chance = Chance::new(1, 0);
        near(moments(|| chance.normal()), (0.0, 1.0));
        for shape in [0.3, 1.0, 7.5] {
            near(moments(|| chance.gamma(shape, 2.0)), (2.0 * shape, 4.0 * shape));
        }
        near(moments(|| chance.beta(0.4, 1.2)), (0.25, 0.25 * 0.75 / 2.6));
        near(moments(|| chance.poisson(3.7) as f64), (3.7, 3.7));
        near(moments(|| f64::from(u8::from(chance.weighed(&[1.0, 3.0]) == 1))), (0.75, 0.1875));
    }

    #[test]
    fn a_gamma_of_almost_no_shape_is_almost_nothing_and_no_error() {
        let mut chance = Chance::new(2, 0);
        assert!((0..100).all(|_| chance.gamma(1e-9, 1.0) > 0.0));
        assert!((0..100).all(|_| (0.0..=1.0).contains(&chance.beta(1e-9, 1e-9))));
    }

    #[test]
    fn streams_of_one_seed_differ_and_repeat() {
        let first = |stream| Chance::new(5, stream).unit();
        assert!((first(0) - first(1)).abs() > 0.0);
        assert!((first(1) - first(1)).abs() < f64::EPSILON);
    }
}
