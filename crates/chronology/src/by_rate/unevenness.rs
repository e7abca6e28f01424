//! The counts of a draw against counts drawn from the model.

use super::ByRate;
use crate::chance::Chance;

/// How unevenly damage came, for the check of the model against its own draws.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Unevenness {
    /// Pearson's sum: of the counts, of counts drawn from the model, of counts drawn without bursts.
    pub(super) counts: f64,
    pub(super) drawn: f64,
    pub(super) steady: f64,
    /// By how many years the middle of the counts lies later than the rate says; of the counts, and of drawn ones.
    pub(super) late: f64,
    pub(super) drawn_late: f64,
}

impl ByRate<'_> {
    /// Holds the counts against counts drawn from the model.
    pub(super) fn unevenness_of_counts(&self, chance: &mut Chance) -> Unevenness {
        let n = self.order.len();
        let mut out = Unevenness::default();
        let mut sums = [[0.0; 2]; 3];
        for gap in 1..n {
            let years = self.length(gap);
            let listed = self.listed(gap);
            let mean = self.rate * years * listed;
            if mean <= 0.0 {
                continue;
            }
            let middle = self.year[self.order[gap]] - years / 2.0;
            // A tenth of a damage more, so that a gap of no length cannot outweigh all others.
            let off = |count: f64| (count - mean) * (count - mean) / (mean + 0.1);
            let count = self.came[gap] as f64;
            let drawn_mean = chance.gamma(self.rate * years / self.burst, self.burst) * listed;
            let drawn = chance.poisson(drawn_mean.min(1e5)) as f64;
            out.counts += off(count);
            out.drawn += off(drawn);
            out.steady += off(chance.poisson(mean.min(1e5)) as f64);
            for (sum, weight) in sums.iter_mut().zip([count, drawn, mean]) {
                sum[0] += weight * middle;
                sum[1] += weight;
            }
        }
        let middle = |k: usize| sums[k][0] / sums[k][1];
        if sums.iter().all(|s| s[1] > 0.0) {
            (out.late, out.drawn_late) = (middle(0) - middle(2), middle(1) - middle(2));
        }
        out
    }
}
