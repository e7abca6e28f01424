//! Several chains of chance from starts of their own, run until they agree.
//!
//! The chains are our own, and not a library's: those that are well kept move along the slope of a density (Hamiltonian
//! samplers), and an order of impressions has no slope. Each sweep is many small steps of Metropolis & Hastings, and draws
//! in closed form where there are such.
//!
//! A chain starts hot (its worths are divided by a heat that falls to 1), so that a wrong start is left while that is easy.
//! What is drawn meanwhile is thrown away. Where the chains do not agree yet, all that they drew is thrown away and they go
//! on twice as long, [`ROUNDS`] times in all.

use rayon::prelude::*;

use crate::chance::Chance;
use crate::convergence::{Convergence, convergence};

/// Chains.
const CHAINS: usize = 4;
/// How often they are run on until they agree.
const ROUNDS: usize = 4;
/// Heat at the start: worths differ by some hundreds between a wrong order and a right one.
const HOTTEST: f64 = 60.0;

/// One chain.
pub(crate) trait Chain: Send {
    /// Steps once through everything that is not known.
    fn sweep(&mut self, chance: &mut Chance, heat: f64);
    /// What is followed, always in the same order.
    fn quantities(&self) -> Vec<f64>;
}

/// What was drawn.
#[derive(Debug, Clone)]
pub(crate) struct Draws {
    /// For each quantity the draws of all chains, one chain after the other.
    of: Vec<Vec<f64>>,
    /// How far the chains agree.
    pub(crate) convergence: Convergence,
}

impl Draws {
    /// Those of one quantity.
    pub(crate) fn of(&self, quantity: usize) -> &[f64] {
        &self.of[quantity]
    }

    /// How many quantities were followed.
    pub(crate) fn quantities(&self) -> usize {
        self.of.len()
    }

    /// How many draws there are of each.
    pub(crate) fn count(&self) -> usize {
        self.of.first().map_or(0, Vec::len)
    }
}

/// Runs chains from their starts; `draws` of each are kept in the first round, and half as many go before them.
pub(crate) fn run<C: Chain>(
    seed: u64,
    draws: usize,
    start: impl Fn(usize, &mut Chance) -> C + Sync,
) -> Draws {
    let mut chains: Vec<(C, Chance)> = (0..CHAINS)
        .map(|number| {
            let mut chance = Chance::new(seed, number as u64);
            (start(number, &mut chance), chance)
        })
        .collect();
    let warm = draws / 2;
    chains.par_iter_mut().for_each(|(chain, chance)| {
        for sweep in 0..warm {
            // By equal factors down to no heat after four fifths of the way.
            let left = (1.0 - 1.25 * sweep as f64 / warm as f64).max(0.0);
            chain.sweep(chance, libm::pow(HOTTEST, left));
        }
    });
    let mut round = 0;
    loop {
        let length = draws << round;
        // For each chain, for each quantity.
        let drawn: Vec<Vec<Vec<f64>>> = chains
            .par_iter_mut()
            .map(|(chain, chance)| {
                let mut of = vec![Vec::with_capacity(length); chain.quantities().len()];
                for _ in 0..length {
                    chain.sweep(chance, 1.0);
                    for (list, value) in of.iter_mut().zip(chain.quantities()) {
                        list.push(value);
                    }
                }
                of
            })
            .collect();
        let quantities = drawn[0].len();
        let told = convergence((0..quantities).map(|q| drawn.iter().map(|c| c[q].as_slice()).collect()));
        round += 1;
        if told.is_reached || round == ROUNDS {
            let of = (0..quantities).map(|q| drawn.iter().flat_map(|c| c[q].iter().copied()).collect());
            return Draws { of: of.collect(), convergence: told };
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A walk to a normal law of mean 3 and standard deviation 2.
    struct Walk(f64);

    impl Chain for Walk {
        fn sweep(&mut self, chance: &mut Chance, heat: f64) {
            let to = self.0 + 3.0 * chance.normal();
            let gain = ((self.0 - 3.0).powi(2) - (to - 3.0).powi(2)) / 8.0 / heat;
            if libm::log(1.0 - chance.unit()) < gain {
                self.0 = to;
            }
        }

        fn quantities(&self) -> Vec<f64> {
            vec![self.0]
        }
    }

    #[test]
    fn a_known_law_is_drawn_and_a_seed_gives_the_same_draws() {
        let run = || run(7, 4000, |_, chance| Walk(100.0 * chance.normal()));
        let draws = run();
        let mean = draws.of(0).iter().sum::<f64>() / draws.count() as f64;
        assert!((mean - 3.0).abs() < 0.15 && draws.convergence.is_reached, "{mean}");
        assert_eq!(draws.of(0), run().of(0));
    }
}
