//! The interval of the number of all items, by the likelihood of the whole.

use super::search::highest;
use super::{Law, Parameter};
use crate::survival::everyman::HALF_CHI_SQUARE_95;
use crate::survival::{Counts, Interval};

/// The most unseen items to one seen that are asked about; a likelihood that has not fallen until there sets no bound.
const MOST_TO_ONE: f64 = 1e6;
/// The fewest unseen, for a logarithm.
const FEWEST: f64 = 1e-6;

/// The interval of 95 percent for the number of all items under a law.
pub(super) fn interval(law: &dyn Law, counts: &Counts) -> Interval {
    let known = counts.items() as f64;
    let worth = |ln_unseen: f64| {
        let all = known + libm::exp(ln_unseen);
        let fitted: Vec<Parameter> = law.fit_of_all(counts, all);
        let unseen = libm::exp(ln_unseen) * law.ln_chance(&fitted, 0);
        ln_falling(all, known) + unseen + law.ln_chance_of_all(&fitted, counts)
    };
    let (least, most) = (libm::log(FEWEST), libm::log(known * MOST_TO_ONE));
    let (best, top) = highest(least, most, worth);
    let is_within = |u: f64| top - worth(u) <= HALF_CHI_SQUARE_95;
    let low = if is_within(least) { known } else { known + libm::exp(edge(least, best, is_within)) };
    let high = (!is_within(most)).then(|| known + libm::exp(edge(most, best, is_within)));
    Interval { low, high }
}

/// Where it changes between a place outside and one within.
fn edge(mut outside: f64, mut within: f64, is_within: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..40 {
        let middle = f64::midpoint(outside, within);
        if is_within(middle) {
            within = middle;
        } else {
            outside = middle;
        }
    }
    f64::midpoint(outside, within)
}

/// ln N!/((N−d)!) for d up to N. Where both are large the gamma functions would cancel, so Stirling's series is taken, of
/// which the first term left out is 1/(360 (N−d)³).
pub(crate) fn ln_falling(n: f64, d: f64) -> f64 {
    const LARGE: f64 = 1000.0;
    let rest = (n - d).max(0.0);
    if rest < LARGE {
        return libm::lgamma(n + 1.0) - libm::lgamma(rest + 1.0);
    }
    d * libm::log(n) - (rest + 0.5) * libm::log1p(-d / n) - d + (1.0 / n - 1.0 / rest) / 12.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn falling_factorials_are_right_small_and_large() {
        assert!((ln_falling(10.0, 4.0) - libm::log(5040.0)).abs() < 1e-12);
        let sum: f64 = (0..700).map(|i| libm::log(2500.0 - f64::from(i))).sum();
        assert!((ln_falling(2500.0, 700.0) - sum).abs() < 1e-9);
        // Where d is nothing beside N it is d ln N − d(d−1)/2N.
        assert!((ln_falling(1e15, 4.0) - 4.0 * libm::log(1e15)).abs() < 1e-9);
    }
}
