//! How common each explanation is among the lines of one side.

use super::Standing;
use super::page::{LineOfPage, MANNERS};
use super::weigh::{CARES, Likelihoods};

/// Shares of lines that stand, were moved, were respaced, and were set again with each step of care.
///
/// A doubtful line among lines that stand most likely stands, and among lines set again it was most
/// likely set again; and one compositor is about as careful in one line as in the next. The shares
/// are told by the side itself: the mixture that makes all its lines likeliest, by expectation and
/// maximisation (Dempster, Laird & Rubin, *J. Royal Statistical Society* B 39 (1977), 1-38), from a
/// few lines' worth of prior.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Shares {
    kinds: [f64; KINDS],
}

const KINDS: usize = RESET + CARES;
/// Where the kinds of resetting begin, after standing, moved and respaced.
const RESPACED: usize = 2;
const RESET: usize = 3;

/// Prior lines: that stand, were moved, were respaced, were set again (over all steps of care).
const PRIOR_LINES: [f64; 4] = [1.0, 0.1, 0.1, 0.5];
/// Rounds; the shares have settled long before.
const ROUNDS: usize = 60;
/// Probability from which a line is said to have done something.
const SURE: f64 = 0.8;
/// Words from which a line can be said to be set again or moved, and to stand.
const FEWEST_WORDS: [usize; 2] = [3, 2];

impl Shares {
    /// The shares among lines of these likelihoods, and the natural logarithm of how likely all these lines are with
    /// them, the shares' own prior counted.
    pub(crate) fn of(lines: &[Likelihoods]) -> (Self, f64) {
        let prior: [f64; KINDS] = std::array::from_fn(|i| match i {
            0..RESET => PRIOR_LINES[i],
            _ => PRIOR_LINES[RESET] / CARES as f64,
        });
        // Each line's likelihoods against its likeliest kind.
        let against_top: Vec<(f64, [f64; KINDS])> = lines
            .iter()
            .map(|l| {
                let all = logs(l);
                let top = all.iter().copied().fold(f64::NEG_INFINITY, f64::max);
                (top, all.map(|v| (v - top).exp()))
            })
            .collect();
        let mut shares = Self { kinds: normalised(prior) };
        for _ in 0..ROUNDS {
            let mut counts = prior;
            for (_, l) in &against_top {
                let all = shares.weighted(l);
                let sum: f64 = all.iter().sum();
                for (c, v) in counts.iter_mut().zip(all) {
                    *c += v / sum;
                }
            }
            shares = Self { kinds: normalised(counts) };
        }
        let lines = against_top.iter().map(|(top, l)| top + shares.weighted(l).iter().sum::<f64>().ln());
        let own = prior.iter().zip(&shares.kinds).map(|(count, share)| count * share.ln());
        let likely = lines.chain(own).sum();
        (shares, likely)
    }

    /// Likelihoods of each kind, each counted as it is common.
    fn weighted(&self, likelihoods: &[f64; KINDS]) -> [f64; KINDS] {
        std::array::from_fn(|i| self.kinds[i] * likelihoods[i])
    }

    /// Probability of each kind for one line.
    fn probabilities(&self, l: &Likelihoods) -> [f64; KINDS] {
        let all = logs(l);
        let top = all.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        normalised(self.weighted(&all.map(|v| (v - top).exp())))
    }

    /// What the line did, if that is sure; of a line of `words` words.
    pub(crate) fn standing(&self, l: &Likelihoods, words: usize) -> Standing {
        let p = self.probabilities(l);
        let reset: f64 = p[RESET..].iter().sum();
        if words >= FEWEST_WORDS[1] && p[0] >= SURE {
            Standing::Same
        } else if words >= FEWEST_WORDS[0] && reset >= SURE {
            Standing::Reset
        } else if words >= FEWEST_WORDS[0] && p[1] >= SURE {
            Standing::Moved
        } else if words >= FEWEST_WORDS[0] && p[2] >= SURE {
            Standing::Respaced
        } else if words >= FEWEST_WORDS[0] && p[2] + reset >= SURE {
            // Spaced otherwise in any case; which is likelier is said.
            if p[2] > reset { Standing::Respaced } else { Standing::Reset }
        } else {
            Standing::Unjudged
        }
    }

    /// Log10 of the likelihood of the line if it stands, was moved whole or respaced, over that if it was set
    /// again with the care that shows on this side.
    pub(crate) fn log10_ratio(&self, l: &Likelihoods) -> f64 {
        (self.mixed(l, 0..RESET) - self.mixed(l, RESET..KINDS)) / std::f64::consts::LN_10
    }

    /// Log10 of the likelihood of the line if it stands, was moved whole or respaced, over that if it was set again, by
    /// manners of that.
    pub(crate) fn log10_by_manner(&self, l: &LineOfPage) -> [f64; MANNERS] {
        let stands = self.mixed(&l.likelihoods, 0..RESET);
        l.reset.map(|reset| (stands - reset) / std::f64::consts::LN_10)
    }

    /// Log10 of the likelihood of the line if it is spaced otherwise, about one place or all along, over that
    /// if it stands.
    pub(crate) fn log10_spaced(&self, l: &Likelihoods) -> f64 {
        (self.mixed(l, RESPACED..KINDS) - l.same) / std::f64::consts::LN_10
    }

    /// Logarithm of the likelihood under some kinds together, each counted as it is common on this side.
    fn mixed(&self, l: &Likelihoods, kinds: std::ops::Range<usize>) -> f64 {
        let all = logs(l);
        let top = all[kinds.clone()].iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let total: f64 = self.kinds[kinds.clone()].iter().sum();
        let sum: f64 = kinds.map(|i| self.kinds[i] * (all[i] - top).exp()).sum();
        top + (sum / total).ln()
    }
}

fn logs(l: &Likelihoods) -> [f64; KINDS] {
    std::array::from_fn(|i| match i {
        0 => l.same,
        1 => l.moved,
        2 => l.respaced,
        _ => l.reset[i - RESET],
    })
}

fn normalised<const N: usize>(values: [f64; N]) -> [f64; N] {
    let sum: f64 = values.iter().sum();
    values.map(|v| v / sum)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(same: f64, reset: f64) -> Likelihoods {
        Likelihoods { same, moved: same - 20.0, respaced: same - 20.0, reset: [reset; CARES] }
    }

    #[test]
    fn a_doubtful_line_goes_with_its_side() {
        let doubtful = line(0.0, 0.2);
        let standing: Vec<Likelihoods> = (0..20).map(|_| line(0.0, -6.0)).collect();
        assert_eq!(Shares::of(&standing).0.standing(&doubtful, 8), Standing::Same);
        let reset: Vec<Likelihoods> = (0..20).map(|_| line(-6.0, 0.0)).collect();
        assert_eq!(Shares::of(&reset).0.standing(&doubtful, 8), Standing::Reset);
    }

    #[test]
    fn a_clear_line_keeps_its_own_mind() {
        let standing: Vec<Likelihoods> = (0..20).map(|_| line(0.0, -6.0)).collect();
        let (shares, _) = Shares::of(&standing);
        assert_eq!(shares.standing(&line(-30.0, 0.0), 8), Standing::Reset);
        assert!(shares.log10_ratio(&line(-30.0, 0.0)) < -10.0);
        assert_eq!(shares.standing(&line(-30.0, 0.0), 2), Standing::Unjudged);
    }
}
