//! The likelihood of how sorts stand off their line if they are the same pieces of type, or others.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How far one sort stands above or below its fellows on the second impression, against the first; in x-heights of its
/// line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct SortOff {
    pub(crate) off: f64,
    /// Standard deviation of finding it, by what its two halves differ by on this pair of photographs.
    pub(crate) error: f64,
}

/// How unevenly sorts may have been cast: steps that are tried. With the first they stand so evenly that other pieces
/// cannot be told from the same.
pub(crate) const CASTS: usize = 4;
/// How far two pieces of one letter stand apart in height, in x-heights (standard deviation), and how likely that is
/// before anything is seen. A line of hand-cast type wanders by some hundredths of a millimetre (common practice, no
/// source); 0.017 x-heights are 0.03 mm on pica.
const UNEVEN: [f64; CASTS] = [0.0, 0.012, 0.017, 0.024];
pub(crate) const CAST_SHARES: [f64; CASTS] = [0.01, 0.27, 0.45, 0.27];

/// The commonest step; and natural logarithm of a likelihood ratio from which sorts say something clearly by themselves.
const COMMONEST: usize = 2;
const CLEARLY: f64 = 3.0;

/// Errors of whole sorts against those that their halves foretell: steps that are tried for a page, each
/// e^[`STEP`] times the one before.
pub(crate) const NOISES: usize = 9;
/// The logarithm of the middle of them, and their standard deviation: ink gathers at the foot or the head of a whole
/// letter too. Of 260 simulated pairs of one setting the median is 1.26 and one in a hundred lies beyond 2.3; 40 real ones
/// lie within the same bounds (docs/benchmarks.md).
const USUAL: f64 = 0.23;
const SPREAD: f64 = 0.25;
const STEP: f64 = 0.21;
/// Steps below the middle one.
const BELOW: i32 = 2;
/// So likely any step is at least, where a photograph is of another kind.
const LEAST_LIKELY: f64 = 0.003;

/// Steps by which a line of the page may be worse seen than the page at large, and how common that is: beside a fold, or
/// where ink wants. The best seen is less by two steps.
const OF_A_LINE: [f64; 5] = [0.15, 0.63, 0.2, 0.015, 0.005];
const STEPS_OF_A_LINE: i32 = 2;
/// Levels of noise that come together of both.
const LEVELS: usize = NOISES + (OF_A_LINE.len() - 1) * STEPS_OF_A_LINE as usize;

/// How many sorts in a hundred are not what they were (exchanged, broken, half inked), and how far off those seem,
/// x-heights.
const STRAY_SHARE: f64 = 0.04;
const STRAY: f64 = 0.06;
/// What n sorts say counts as of so many times n: they are measured against each other, and paper bends between them.
const COUNTS: f64 = 0.7;

/// How the sorts of a line stand off it on the second photograph.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Sorts {
    /// As on the first: they are the same pieces of type.
    Same,
    /// Otherwise: they are other pieces.
    Other,
}

/// Natural logarithms of the likelihoods of a line's sorts, by the noise of the page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct BySorts {
    /// They are the same pieces.
    pub(crate) same: [f64; NOISES],
    /// They are other pieces, for each step of unevenness.
    pub(crate) other: [[f64; CASTS]; NOISES],
}

impl BySorts {
    /// Of a line whose sorts say nothing.
    pub(crate) const NOTHING: Self = Self { same: [0.0; NOISES], other: [[0.0; CASTS]; NOISES] };

    /// What they say clearly by themselves, with the usual noise and the commonest unevenness.
    pub(crate) fn told(&self) -> Option<Sorts> {
        let lead = self.other[BELOW as usize][COMMONEST] - self.same[BELOW as usize];
        if lead > CLEARLY { Some(Sorts::Other) } else { (lead < -CLEARLY).then_some(Sorts::Same) }
    }
}

/// Logarithm of how likely a step of noise is before anything is seen.
pub(crate) fn log_likely(noise: usize) -> f64 {
    let off = f64::from(noise as i32 - BELOW) * STEP / SPREAD;
    ((-0.5 * off * off).exp() + LEAST_LIKELY).ln()
}

/// Weighs the sorts of a line.
pub(crate) fn weigh_sorts(sorts: &[SortOff]) -> BySorts {
    let of_level = |level: usize, uneven: f64| -> f64 {
        let steps = level as i32 - BELOW - STEPS_OF_A_LINE;
        let times = (USUAL + f64::from(steps) * STEP).exp();
        COUNTS * sorts.iter().map(|s| log_density(s, times, uneven)).sum::<f64>()
    };
    let by_level: [[f64; CASTS]; LEVELS] =
        std::array::from_fn(|level| UNEVEN.map(|uneven| of_level(level, uneven)));
    let mixed = |noise: usize, cast: usize| {
        let all: Vec<(f64, f64)> = OF_A_LINE
            .iter()
            .zip((noise..).step_by(STEPS_OF_A_LINE as usize))
            .map(|(&share, level)| (share, by_level[level][cast]))
            .collect();
        log_mixed(&all)
    };
    BySorts {
        same: std::array::from_fn(|noise| mixed(noise, 0)),
        other: std::array::from_fn(|noise| std::array::from_fn(|cast| mixed(noise, cast))),
    }
}

/// Log density of one sort's stand, but for a constant: normal, or rarely a stray.
fn log_density(sort: &SortOff, times: f64, uneven: f64) -> f64 {
    let normal = |variance: f64| (-0.5 * sort.off * sort.off / variance).exp() / variance.sqrt();
    let variance = (times * sort.error).powi(2) + uneven * uneven;
    ((1.0 - STRAY_SHARE) * normal(variance) + STRAY_SHARE * normal(variance + STRAY * STRAY)).ln()
}

/// Logarithm of the sum of shares times exponentials.
fn log_mixed(all: &[(f64, f64)]) -> f64 {
    let top = all.iter().map(|v| v.1).fold(f64::NEG_INFINITY, f64::max);
    top + all.iter().map(|(share, v)| share * (v - top).exp()).sum::<f64>().ln()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Thirty sorts that stand off by so much, and a little noise.
    fn line(uneven: f64) -> Vec<SortOff> {
        // Twelve even numbers, less their mean, are nearly normal (the low bits of a product are scrambled).
        let even =
            |n: usize| (((n as u64 + 1).wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 20) % 1009) as f64 / 1008.0;
        let normal = |i: usize| (0..12).map(|k| even(i * 12 + k)).sum::<f64>() - 6.0;
        (0..30).map(|i| SortOff { off: uneven * normal(i) + 0.005 * normal(i + 40), error: 0.004 }).collect()
    }

    #[test]
    fn other_pieces_stand_otherwise_and_the_same_alike() {
        let usual = BELOW as usize;
        let others = weigh_sorts(&line(0.017));
        assert!(others.other[usual][2] > others.same[usual] + 4.0, "{others:?}");
        assert_eq!((others.told(), BySorts::NOTHING.told()), (Some(Sorts::Other), None));
        let same = weigh_sorts(&line(0.0));
        assert_eq!(same.told(), Some(Sorts::Same));
        let leads = [1, 2, 3].map(|cast| same.same[usual] - same.other[usual][cast]);
        assert!(leads[0] > 2.0 && leads[1] > 6.0 && leads[2] > 10.0, "{leads:?}");
        assert!((same.same[usual] - same.other[usual][0]).abs() < 1e-9, "evenly cast sorts tell nothing");
    }

    #[test]
    fn a_page_with_more_noise_explains_what_uneven_sorts_do() {
        let others = weigh_sorts(&line(0.017));
        let lead = |noise: usize| others.other[noise][2] - others.same[noise];
        assert!(lead(NOISES - 1) < lead(BELOW as usize) / 4.0);
        assert!(log_likely(NOISES - 1) < log_likely(BELOW as usize) - 5.0);
    }

    #[test]
    fn one_sort_that_was_exchanged_does_not_make_a_resetting() {
        let mut sorts = line(0.0);
        sorts[7].off = 0.2;
        let usual = BELOW as usize;
        let told = weigh_sorts(&sorts);
        assert!((1..CASTS).all(|cast| told.same[usual] > told.other[usual][cast] + 2.0), "{told:?}");
    }

    #[test]
    fn shares_are_whole() {
        assert!((OF_A_LINE.iter().sum::<f64>() - 1.0).abs() < 1e-9);
        assert!((CAST_SHARES.iter().sum::<f64>() - 1.0).abs() < 1e-9);
        let nothing = weigh_sorts(&[]);
        assert!(nothing.same.iter().chain(nothing.other.as_flattened()).all(|v| v.abs() < 1e-9));
    }
}
