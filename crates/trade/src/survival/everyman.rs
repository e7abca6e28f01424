//! Greg's reckoning about *Everyman*: copies that are all of different editions.

use super::laws::ln_falling;
use super::{Counts, Interval};
use schemars::JsonSchema;
use serde::Serialize;

/// What is told of editions if all were equally likely to leave a copy.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct EqualEditions {
    /// Whether no two copies are of one edition.
    pub all_differ: bool,
    /// The chance that no two copies would be of one edition, had there been no more editions than are known.
    pub chance_if_no_more: f64,
    /// The least number of editions with which it is as likely as not that all copies differ; null where they do not.
    pub even_chance: Option<u64>,
    /// The most likely number of editions; null where all copies differ, for then the more editions the likelier.
    pub most_likely: Option<f64>,
    /// The interval of 95 percent, by the likelihood.
    pub interval_95: Interval,
}

/// The chance that so many copies are all of different editions, if there were so many editions and each copy is of any with
/// equal chance: N(N−1)…(N−c+1)/Nᶜ (Greg and Littlewood, as told by Dane & Roberts, *Studies in Bibliography* 53, p. 117).
pub fn chance_all_differ(editions: u64, copies: u64) -> f64 {
    if copies > editions {
        return 0.0;
    }
    libm::exp(ln_falling(editions as f64, copies as f64) - copies as f64 * libm::log(editions as f64))
}

/// The least number of editions with which so many copies are all of different editions with at least this chance (0 to 1,
/// 1 excluded); `None` for a chance outside that.
pub fn least_editions(copies: u64, chance: f64) -> Option<u64> {
    if !(0.0..1.0).contains(&chance) {
        return None;
    }
    let is_enough = |n: u64| chance_all_differ(n, copies) >= chance;
    let mut high = copies.max(1);
    while !is_enough(high) {
        high = high.checked_mul(2)?;
    }
    let mut low = copies.max(1);
    while low < high {
        let middle = low + (high - low) / 2;
        if is_enough(middle) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    Some(low)
}

/// What the counts say if all editions were equally likely to leave a copy: of c copies in d editions the likelihood of N
/// editions is proportional to N!/((N−d)! Nᶜ).
pub fn everyman(counts: &Counts) -> EqualEditions {
    let (editions, copies) = (counts.items(), counts.copies());
    let (d, c) = (editions as f64, copies as f64);
    let all_differ = editions == copies;
    let worth = |n: f64| ln_falling(n, d) - c * libm::log(n);
    // Never beyond: a thousand copies of as many editions bound the number by half a million from below.
    let beyond = 1e4 * c * c + 1e3;
    let best = if all_differ { beyond } else { rises_until(d, beyond, worth) };
    let top = if all_differ { 0.0 } else { worth(best) };
    // Half the quantile of chi-square of one degree of freedom.
    let falls = |n: f64| top - worth(n) <= HALF_CHI_SQUARE_95;
    let low = if falls(d) { d } else { crossing(d, best, falls) };
    let high = (!all_differ && !falls(beyond)).then(|| crossing(beyond, best, falls));
    EqualEditions {
        all_differ,
        chance_if_no_more: chance_all_differ(editions, copies),
        even_chance: if all_differ { least_editions(copies, 0.5) } else { None },
        most_likely: (!all_differ).then_some(best),
        interval_95: Interval { low, high },
    }
}

/// Half of 3.841459, the quantile of chi-square with one degree of freedom for 95 percent.
pub(super) const HALF_CHI_SQUARE_95: f64 = 1.920_729_410_347_062;

/// Where a worth that rises and then falls is highest, by golden sections of the logarithm.
fn rises_until(low: f64, high: f64, worth: impl Fn(f64) -> f64) -> f64 {
    libm::exp(super::laws::highest(libm::log(low), libm::log(high), |u| worth(libm::exp(u))).0)
}

/// Where it changes between an end at which it does not hold and one at which it does.
fn crossing(mut out: f64, mut within: f64, holds: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..100 {
        let middle = f64::midpoint(out, within);
        if holds(middle) {
            within = middle;
        } else {
            out = middle;
        }
    }
    f64::midpoint(out, within)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn greg_and_littlewood_on_everyman() {
        // Dane & Roberts, Studies in Bibliography 53, p. 117: four copies, all of different editions.
        assert!((chance_all_differ(4, 4) - 3.0 / 32.0).abs() < 1e-12, "3/32, or about 1 in 11");
        assert!((chance_all_differ(9, 4) - 0.461).abs() < 5e-4, "computed from the formula");
        assert!((chance_all_differ(10, 4) - (0.5 + 1.0 / 250.0)).abs() < 1e-12, "1/2 + 1/250");
        assert_eq!(least_editions(4, 0.5), Some(10), "ten is the least with an even chance");
        let told = everyman(&Counts::parse("4").unwrap());
        assert_eq!((told.even_chance, told.most_likely, told.interval_95.high), (Some(10), None, None));
    }

    #[test]
    fn the_most_likely_number_agrees_with_counting_out() {
        // Three copies of two editions: the chance of two different among three, by N.
        let chance = |n: f64| 3.0 * (n - 1.0) / (n * n);
        let best = (2..50).max_by(|&a, &b| chance(f64::from(a)).total_cmp(&chance(f64::from(b)))).unwrap();
        let told = everyman(&Counts::parse("1,1").unwrap());
        assert_eq!(best, 2);
        assert!((told.most_likely.unwrap() - 2.0).abs() < 0.6, "{told:?}");
        assert!((told.chance_if_no_more).abs() < 1e-12, "three copies of two editions cannot all differ");
    }

    #[test]
    fn odd_chances_are_no_question() {
        assert_eq!(
            (least_editions(4, 1.0), least_editions(4, f64::NAN), least_editions(0, 0.5)),
            (None, None, Some(1))
        );
    }
}
