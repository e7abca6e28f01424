//! Seeded chance: every accident in this crate is drawn here, so that one seed gives one sheet.

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// A stream of chance, fixed by a seed and by what it is for.
///
/// Two purposes never share a stream, so that a new accident in one of them leaves the others alone.
#[derive(Debug, Clone)]
pub(crate) struct Chance(ChaCha8Rng);

impl Chance {
    /// The stream of `seed` for the purpose named.
    pub(crate) fn new(seed: u64, purpose: &str) -> Self {
        Self(ChaCha8Rng::seed_from_u64(mixed(seed, purpose)))
    }

    /// Evenly in 0..1.
    pub(crate) fn unit(&mut self) -> f64 {
        self.0.random::<f64>()
    }

    /// Evenly between two bounds.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// Evenly in `-half..half`.
    pub(crate) fn about(&mut self, half: f64) -> f64 {
        self.between(-half, half)
    }

    /// A normal deviate of mean 0 (Box & Muller 1958), cut at three standard deviations.
    pub(crate) fn normal(&mut self, sd: f64) -> f64 {
        let radius = (-2.0 * (1.0 - self.unit()).ln()).sqrt();
        let angle = std::f64::consts::TAU * self.unit();
        sd * (radius * angle.cos()).clamp(-3.0, 3.0)
    }

    /// True with probability `p`.
    pub(crate) fn happens(&mut self, p: f64) -> bool {
        self.unit() < p
    }

    /// A whole number from 0 to `n - 1`; 0 when `n` is 0.
    pub(crate) fn below(&mut self, n: usize) -> usize {
        if n == 0 { 0 } else { self.0.random_range(0..n) }
    }

    /// A whole number from `low` to `high`, both included.
    pub(crate) fn whole(&mut self, low: usize, high: usize) -> usize {
        low + self.below(high.saturating_sub(low) + 1)
    }

    /// One of the choices.
    ///
    /// # Panics
    /// When there is nothing to choose from: the lists in this crate are fixed and not empty.
    pub(crate) fn pick<'a, T>(&mut self, choices: &'a [T]) -> &'a T {
        &choices[self.below(choices.len())]
    }

    /// `n` different places of `0..among`, in rising order; all of them when there are fewer.
    pub(crate) fn some_of(&mut self, among: usize, n: usize) -> Vec<usize> {
        let mut all: Vec<usize> = (0..among).collect();
        self.shuffle(&mut all);
        all.truncate(n);
        all.sort_unstable();
        all
    }

    /// Puts a list into random order (Fisher & Yates).
    pub(crate) fn shuffle<T>(&mut self, list: &mut [T]) {
        for i in (1..list.len()).rev() {
            list.swap(i, self.below(i + 1));
        }
    }

    /// A seed for something that has its own streams.
    pub(crate) fn seed(&mut self) -> u64 {
        self.0.random::<u64>()
    }
}

/// A seed and a purpose made into one number (FNV-1a over the bytes of both).
pub(crate) fn mixed(seed: u64, purpose: &str) -> u64 {
    let start = 0xcbf2_9ce4_8422_2325_u64;
    seed.to_le_bytes()
        .iter()
        .chain(purpose.as_bytes())
        .fold(start, |h, &byte| (h ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_purpose_has_its_own_stream() {
        let mut ink = Chance::new(7, "ink");
        let mut again = Chance::new(7, "ink");
        let mut paper = Chance::new(7, "paper");
        let (a, b, c) = (ink.unit(), again.unit(), paper.unit());
        assert!(a.to_bits() == b.to_bits() && a.to_bits() != c.to_bits());
    }

    #[test]
    fn normal_deviates_have_the_spread_asked_for() {
        let mut chance = Chance::new(1, "normal");
        let drawn: Vec<f64> = (0..20_000).map(|_| chance.normal(2.0)).collect();
        let mean = drawn.iter().sum::<f64>() / 20_000.0;
        let sd = (drawn.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / 20_000.0).sqrt();
        assert!(mean.abs() < 0.06 && (sd - 2.0).abs() < 0.05, "{mean} {sd}");
    }
}
