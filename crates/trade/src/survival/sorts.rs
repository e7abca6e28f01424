//! Small sums for damaged type and ornaments: how many there are if some were seen, and what a chance likeness is worth.

use super::Interval;
use schemars::JsonSchema;
use serde::Serialize;

/// How many there are, from two searches that share some finds.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Recapture {
    /// Lincoln and Petersen: n₁n₂/m; null where nothing was found twice.
    pub lincoln_petersen: Option<f64>,
    /// Chapman: (n₁+1)(n₂+1)/(m+1) − 1.
    pub chapman: f64,
    /// The standard error of Chapman's number.
    pub standard_error: f64,
    /// The interval of 95 percent about Chapman's number; never below what was seen.
    pub interval_95: Interval,
}

/// Why two searches cannot be put together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum SortsError {
    /// More were found in both than in one of them.
    #[error(
        "{both} found in both books are more than the {fewest} found in one of them; give first, second, both"
    )]
    MoreInBoth {
        /// Found in both.
        both: u64,
        /// Found in the book with fewer.
        fewest: u64,
    },
    /// A chance outside 0 to 1.
    #[error("a chance lies between 0 and 1; give 0.002 for two in a thousand")]
    NoChance,
}

/// How many damaged sorts (or blocks) a shop has, if one book shows `first` of them, another `second`, and `both` are in
/// both (Chapman 1951; variance Seber 1970, *Biometrics* 26: (n₁+1)(n₂+1)(n₁−m)(n₂−m)/((m+1)²(m+2)), from memory).
///
/// # Errors
/// When more are in both than in one.
pub fn recapture(first: u64, second: u64, both: u64) -> Result<Recapture, SortsError> {
    let fewest = first.min(second);
    if both > fewest {
        return Err(SortsError::MoreInBoth { both, fewest });
    }
    let (a, b, m) = (first as f64, second as f64, both as f64);
    let chapman = (a + 1.0) * (b + 1.0) / (m + 1.0) - 1.0;
    let variance = (a + 1.0) * (b + 1.0) * (a - m) * (b - m) / ((m + 1.0) * (m + 1.0) * (m + 2.0));
    let seen = first.saturating_add(second) - both;
    let told = super::Estimate::of_unseen(seen, chapman - seen as f64, variance);
    Ok(Recapture {
        lincoln_petersen: (both > 0).then(|| a * b / m),
        chapman,
        standard_error: variance.sqrt(),
        interval_95: told.interval_95,
    })
}

/// How many different damaged sorts are expected to have been seen after `pages` pages, if `sorts` exist and each is seen on a
/// page with this chance: D(1 − (1−p)ᵐ).
///
/// # Errors
/// A chance outside 0 to 1.
pub fn seen_after(sorts: u64, chance: f64, pages: u32) -> Result<f64, SortsError> {
    Ok(sorts as f64 * at_least_once(chance, pages)?)
}

/// The chance that something that happens with this chance happens at least once in so many tries: 1 − (1−q)ᵏ. So two founts
/// that have nothing to do with each other share a damaged sort that looks alike, if `tries` classes of sort are compared.
///
/// # Errors
/// A chance outside 0 to 1.
pub fn at_least_once(chance: f64, tries: u32) -> Result<f64, SortsError> {
    if !(0.0..=1.0).contains(&chance) {
        return Err(SortsError::NoChance);
    }
    Ok(-libm::expm1(f64::from(tries) * libm::log1p(-chance)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn recapture_worked_by_hand() {
        // Computed: 18·15/9 and 19·16/10 − 1.
        let told = recapture(18, 15, 9).unwrap();
        assert!((told.lincoln_petersen.unwrap() - 30.0).abs() < 1e-12);
        assert!((told.chapman - 29.4).abs() < 1e-12);
        assert!(told.interval_95.low >= 24.0 && told.interval_95.high.unwrap() > 29.4);
        assert_eq!(recapture(3, 2, 0).unwrap().lincoln_petersen, None);
        assert!(recapture(3, 2, 3).unwrap_err().to_string().contains("3 found in both"));
    }

    #[test]
    fn a_chance_likeness_is_likelier_than_one_thinks() {
        // Computed: 200 classes at 0.002 each give 0.33.
        assert!((at_least_once(0.002, 200).unwrap() - 0.33).abs() < 5e-3);
        assert!((seen_after(40, 0.5, 2).unwrap() - 30.0).abs() < 1e-12);
        assert!((at_least_once(1.0, 1).unwrap() - 1.0).abs() < 1e-12 && at_least_once(1.5, 1).is_err());
    }
}
