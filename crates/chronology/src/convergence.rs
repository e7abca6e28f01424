//! Whether several chains of chance agree, and how many independent draws theirs are worth.
//!
//! Split R-hat and the effective sample size of Gelman et al., *Bayesian Data Analysis* (3rd ed., 2013), § 11.4-11.5, with
//! Geyer's initial monotone sequence (*Statistical Science* 7, 1992).

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// R-hat up to which chains are said to agree. Vehtari et al. (*Bayesian Analysis* 16, 2021) ask for 1.01 where every
/// digit matters; what is told here are chances in hundredths and years.
pub(crate) const MOST_R_HAT: f64 = 1.05;
/// Effective draws from which they are enough: a hundred for each of four chains (the same paper).
pub(crate) const LEAST_EFFECTIVE: f64 = 400.0;

/// How far the chains of a sampler agree.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Convergence {
    /// Chains, each from a start of its own.
    pub chains: usize,
    /// Draws kept of each.
    pub draws_each: usize,
    /// The largest split R-hat of all that was followed; 1 is best. Null where nothing moved.
    pub worst_r_hat: Option<f64>,
    /// The smallest number of independent draws that all of one quantity are worth. Null where nothing moved.
    pub least_effective: Option<f64>,
    /// Whether R-hat is at most 1.05 and at least 400 independent draws are there, for every quantity followed.
    pub is_reached: bool,
}

/// The worst of many quantities, each given as its chains.
pub(crate) fn convergence<'a>(quantities: impl Iterator<Item = Vec<&'a [f64]>>) -> Convergence {
    let mut out =
        Convergence { chains: 0, draws_each: 0, worst_r_hat: None, least_effective: None, is_reached: true };
    for chains in quantities {
        out.chains = chains.len();
        out.draws_each = chains.first().map_or(0, |c| c.len());
        let Some((r_hat, effective)) = diagnosed(&chains) else { continue };
        out.worst_r_hat = Some(out.worst_r_hat.unwrap_or(r_hat).max(r_hat));
        out.least_effective = Some(out.least_effective.unwrap_or(effective).min(effective));
        out.is_reached &= r_hat <= MOST_R_HAT && effective >= LEAST_EFFECTIVE;
    }
    out
}

/// Split R-hat and effective sample size; `None` of a quantity that never moved, or of fewer than four draws.
fn diagnosed(chains: &[&[f64]]) -> Option<(f64, f64)> {
    let half = chains.iter().map(|c| c.len()).min()? / 2;
    let all = || chains.iter().copied().flatten().copied();
    let (least, most) = (all().fold(f64::MAX, f64::min), all().fold(f64::MIN, f64::max));
    // What is known beforehand does not move, but for what rounding makes of it.
    if half < 2 || most - least <= 1e-8 * most.abs().max(least.abs()) {
        return None;
    }
    let halves: Vec<&[f64]> = chains.iter().flat_map(|c| [&c[..half], &c[c.len() - half..]]).collect();
    let (m, n) = (halves.len() as f64, half as f64);
    let means: Vec<f64> = halves.iter().map(|h| h.iter().sum::<f64>() / n).collect();
    let mean = means.iter().sum::<f64>() / m;
    let between = n / (m - 1.0) * means.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>();
    let covariance = |lag: usize| -> f64 {
        let of = |(h, mean): (&&[f64], &f64)| -> f64 {
            h.iter().zip(&h[lag..]).map(|(x, y)| (x - mean) * (y - mean)).sum::<f64>() / n
        };
        halves.iter().zip(&means).map(of).sum::<f64>() / m
    };
    let within = covariance(0) * n / (n - 1.0);
    if within <= 0.0 {
        // Each half stands still: either all stand at one value, or they will never agree.
        return (between > 0.0).then_some((f64::MAX, 1.0));
    }
    let variance = (n - 1.0) / n * within + between / n;
    let correlation = |lag: usize| 1.0 - (within - covariance(lag)) / variance;
    let (mut sum, mut last, mut lag) = (0.0, f64::MAX, 0);
    while lag + 1 < half {
        let pair = (correlation(lag) + correlation(lag + 1)).min(last);
        if pair <= 0.0 {
            break;
        }
        sum += pair;
        last = pair;
        lag += 2;
    }
    // The first pair holds the correlation 1 of a draw with itself, which the formula counts once, not twice.
    let time = (2.0 * sum - 1.0).max(1.0 / libm::log10(m * n).max(1.0));
    Some(((variance / within).sqrt(), m * n / time))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chance::Chance;

    /// A chain whose draws follow each other with this correlation.
    fn chain(stream: u64, correlation: f64, mean: f64) -> Vec<f64> {
        let mut chance = Chance::new(3, stream);
        let mut x = chance.normal();
        let step = (1.0 - correlation * correlation).sqrt();
        (0..5000)
            .map(|_| {
                x = correlation * x + step * chance.normal();
                x + mean
            })
            .collect()
    }

    fn of(chains: &[Vec<f64>]) -> Convergence {
        convergence(std::iter::once(chains.iter().map(Vec::as_slice).collect()))
    }

    #[test]
    fn correlated_draws_are_worth_as_many_as_theory_says() {
        for correlation in [0.0, 0.5, 0.9] {
            let chains: Vec<_> = (0..4).map(|s| chain(s, correlation, 0.0)).collect();
            let told = of(&chains);
            // An autoregressive chain: n (1 - r) / (1 + r) (closed form).
            let wanted = 20_000.0 * (1.0 - correlation) / (1.0 + correlation);
            let ratio = told.least_effective.unwrap() / wanted;
            assert!((0.8..1.25).contains(&ratio), "{correlation}: {ratio}");
            assert!(told.is_reached && told.worst_r_hat.unwrap() < 1.02);
        }
    }

    #[test]
    fn chains_that_stand_apart_do_not_agree() {
        let chains: Vec<_> = (0..4).map(|s| chain(s, 0.2, s as f64)).collect();
        let told = of(&chains);
        assert!(!told.is_reached && told.worst_r_hat.unwrap() > 1.3);
        assert!(!of(&[vec![1.0; 100], vec![2.0; 100]]).is_reached);
    }

    #[test]
    fn what_never_moves_is_no_fault() {
        let told = of(&[vec![1.0; 100], vec![1.0; 100]]);
        assert!(told.is_reached && told.worst_r_hat.is_none());
    }
}
