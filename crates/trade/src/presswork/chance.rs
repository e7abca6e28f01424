//! Seeded chance: one seed gives one answer.

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// A stream of chance.
#[derive(Debug, Clone)]
pub(super) struct Chance(ChaCha8Rng);

impl Chance {
    /// Stream `number` of `seed`; no two streams of a seed share their draws.
    pub(super) fn new(seed: u64, number: u64) -> Self {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        rng.set_stream(number);
        Self(rng)
    }

    /// Evenly in 0..1.
    pub(super) fn unit(&mut self) -> f64 {
        self.0.random::<f64>()
    }
}
