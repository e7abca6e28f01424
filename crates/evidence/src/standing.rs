//! Does a line of type stand as it stood, was it moved whole, or was it set again?
//!
//! Bodies and measure being equal, a line set again shares its height on the page with the first
//! setting; what betrays it is how far each word lies *along* the line (the straight-edge test of
//! the handbooks, common practice). So every word's place on the second photograph is compared with
//! where the paper's own motion puts it, and three explanations of the drifts are weighed:
//!
//! - **stands**: each drift is measuring error;
//! - **moved**: one drift for the whole line, and measuring error;
//! - **set again**: each word drifts on its own, by an amount between a very careful compositor's
//!   and a careless one's.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// One word of a line, followed from the first photograph to the second.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct WordDrift {
    /// Place along the line, in any unit.
    pub(crate) along: f64,
    /// Drift along the line against the paper's motion, in the unit of `sd`.
    pub(crate) drift: f64,
    /// Standard deviation of the drift if the word stands.
    pub(crate) sd: f64,
}

/// What a line did.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// It stands as it stood.
    Same,
    /// It was shifted whole.
    Moved,
    /// It was set again: its words are spaced otherwise.
    Reset,
    /// Other words stand there.
    OtherWords,
    /// It cannot be judged: too little ink, too few words, or off the other photograph.
    Unjudged,
}

/// The weights of the three explanations of one line, natural logarithms of likelihoods.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Likelihoods {
    /// The line stands.
    pub(crate) same: f64,
    /// It was shifted whole.
    pub(crate) moved: f64,
    /// It was set again.
    pub(crate) reset: f64,
}

/// Share of words whose match is wrong whatever the line did (another word like it, a blot), and
/// the breadth over which such a word is found, in standard deviations.
const STRAY_SHARE: f64 = 0.03;
const STRAY_BREADTH: f64 = 60.0;
/// Standard deviations of the drift of a line set again that are tried, as multiples of the
/// smallest: from a compositor who matches his spaces to a twentieth of an x-height upwards, in
/// steps of the square root of two.
const RESET_STEPS: usize = 12;
/// Steps either side in which a shift of the whole line is tried.
const SHIFT_STEPS: i32 = 40;
/// Breadth (standard deviation) of the shift that a standing line may seem to have, and of that of a
/// line that was moved, as multiples of the least drift of a line set again: about 0.03 mm, and
/// 0.8 mm, half an em of the spaces that a compositor puts in to shift a line (common practice, no
/// source).
const SEEMING_SHIFT: f64 = 0.6;
const TRUE_SHIFT: f64 = 14.0;

/// Weighs the three explanations. `least_reset` is the smallest drift that a compositor who sets
/// the line again leaves on average (the unit of the drifts).
///
/// A line that stands may still seem shifted a little as a whole, for the paper's motion is told by
/// its neighbours; a line that was moved is shifted by more than that. Both shifts are averaged over
/// a grid of values under a normal prior.
pub(crate) fn weigh(words: &[WordDrift], least_reset: f64) -> Likelihoods {
    let whole = |breadth: f64| {
        let tried: Vec<(f64, f64)> = (-SHIFT_STEPS..=SHIFT_STEPS)
            .map(|k| {
                let z = 3.0 * f64::from(k) / f64::from(SHIFT_STEPS);
                let fit: f64 = words.iter().map(|w| log_density(w.drift - z * breadth, w.sd, w.sd)).sum();
                (fit, (-0.5 * z * z).exp())
            })
            .collect();
        log_weighted_mean(&tried)
    };
    let same = whole(SEEMING_SHIFT * least_reset);
    let moved = whole(TRUE_SHIFT * least_reset);
    let reset: Vec<(f64, f64)> = (0..RESET_STEPS)
        .map(|k| {
            let s = least_reset * 2f64.powf(k as f64 / 2.0);
            (words.iter().map(|w| log_density(w.drift, (w.sd * w.sd + s * s).sqrt(), w.sd)).sum(), 1.0)
        })
        .collect();
    Likelihoods { same, moved, reset: log_weighted_mean(&reset) }
}

/// How common the three explanations are among the lines of one side.
///
/// A doubtful line among lines that stand most likely stands, and among lines set again it was most
/// likely set again. The shares are told by the side itself: the mixture that makes all its lines
/// likeliest, by expectation and maximisation (Dempster, Laird & Rubin, *J. Royal Statistical Society*
/// B 39 (1977), 1-38), from a few lines' worth of prior.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Shares([f64; 3]);

/// Prior lines of each kind: stands, moved, set again.
const PRIOR_LINES: [f64; 3] = [1.0, 0.1, 0.6];
/// Rounds; the shares have settled long before.
const ROUNDS: usize = 60;
/// Probability from which a line is said to have done something.
const SURE: f64 = 0.8;
/// Words from which a line can be said to be set again or moved, and to stand.
const FEWEST_WORDS: [usize; 2] = [3, 2];

impl Shares {
    /// The shares among lines of these likelihoods.
    pub(crate) fn of(lines: &[Likelihoods]) -> Self {
        let total: f64 = PRIOR_LINES.iter().sum();
        let mut shares = Self(PRIOR_LINES.map(|p| p / total));
        for _ in 0..ROUNDS {
            let mut counts = PRIOR_LINES;
            for l in lines {
                for (c, p) in counts.iter_mut().zip(shares.probabilities(l)) {
                    *c += p;
                }
            }
            let total: f64 = counts.iter().sum();
            shares = Self(counts.map(|c| c / total));
        }
        shares
    }

    /// Probability that the line stands, was moved, was set again.
    fn probabilities(&self, l: &Likelihoods) -> [f64; 3] {
        let top = l.same.max(l.moved).max(l.reset);
        let weighed = [l.same, l.moved, l.reset].map(|v| (v - top).exp());
        let each: [f64; 3] = std::array::from_fn(|i| self.0[i] * weighed[i]);
        let sum: f64 = each.iter().sum();
        each.map(|v| v / sum)
    }

    /// What the line did, if that is sure; of a line of `words` words.
    pub(crate) fn standing(&self, l: &Likelihoods, words: usize) -> Standing {
        let [same, moved, reset] = self.probabilities(l);
        if words >= FEWEST_WORDS[1] && same >= SURE {
            Standing::Same
        } else if words >= FEWEST_WORDS[0] && reset >= SURE {
            Standing::Reset
        } else if words >= FEWEST_WORDS[0] && moved >= SURE {
            Standing::Moved
        } else {
            Standing::Unjudged
        }
    }
}

/// Log density of a drift under a normal error, a few strays allowed for.
fn log_density(drift: f64, sd: f64, unit: f64) -> f64 {
    let z = drift / sd;
    let normal = (-0.5 * z * z).exp() / (sd * std::f64::consts::TAU.sqrt());
    let stray = 1.0 / (STRAY_BREADTH * unit);
    ((1.0 - STRAY_SHARE) * normal + STRAY_SHARE * stray).ln()
}

/// Logarithm of the weighted mean of exponentials, of (exponent, weight).
fn log_weighted_mean(values: &[(f64, f64)]) -> f64 {
    let top = values.iter().map(|v| v.0).fold(f64::NEG_INFINITY, f64::max);
    let total: f64 = values.iter().map(|v| v.1).sum();
    top + (values.iter().map(|v| (v.0 - top).exp() * v.1).sum::<f64>() / total).ln()
}

/// The middle value; zero of none.
pub(crate) fn median(mut values: Vec<f64>) -> f64 {
    if values.is_empty() {
        return 0.0;
    }
    let middle = values.len() / 2;
    *values.select_nth_unstable_by(middle, f64::total_cmp).1
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(drifts: &[f64]) -> Vec<WordDrift> {
        drifts.iter().enumerate().map(|(i, &drift)| WordDrift { along: i as f64, drift, sd: 0.02 }).collect()
    }

    #[test]
    fn a_line_that_stands_is_weighed_as_standing() {
        let l = weigh(&line(&[0.01, -0.02, 0.0, 0.015, -0.01, 0.02, -0.005]), 0.06);
        assert!(l.same > l.moved && l.same > l.reset + 2.0, "{l:?}");
    }

    #[test]
    fn a_line_shifted_whole_is_weighed_as_moved() {
        let l = weigh(&line(&[0.41, 0.38, 0.4, 0.42, 0.39, 0.4]), 0.06);
        assert!(l.moved > l.same + 5.0 && l.moved > l.reset + 2.0, "{l:?}");
    }

    #[test]
    fn a_careful_resetting_is_weighed_as_reset() {
        let l = weigh(&line(&[0.0, 0.09, -0.07, 0.11, 0.05, -0.1, 0.02]), 0.06);
        assert!(l.reset > l.same + 3.0 && l.reset > l.moved + 2.0, "{l:?}");
    }

    #[test]
    fn one_stray_word_does_not_reset_a_line() {
        let l = weigh(&line(&[0.01, -0.02, 0.0, 0.9, -0.01, 0.02, -0.005, 0.01, 0.01]), 0.06);
        assert!(l.same > l.reset, "{l:?}");
    }
}
