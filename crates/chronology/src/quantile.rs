//! Quantiles of draws, and of draws with weights.

/// The value below which this share of sorted draws lies, between two of them in proportion (Hyndman & Fan 1996, type 7);
/// `None` of no draws.
pub(crate) fn quantile(sorted: &[f64], share: f64) -> Option<f64> {
    let last = sorted.len().checked_sub(1)?;
    let at = share.clamp(0.0, 1.0) * last as f64;
    let low = at as usize;
    let high = (low + 1).min(last);
    Some(sorted[low] + (at - low as f64) * (sorted[high] - sorted[low]))
}

/// Draws in order.
pub(crate) fn sorted(draws: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut draws: Vec<f64> = draws.collect();
    draws.sort_by(f64::total_cmp);
    draws
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quantile_lies_between_the_draws_about_it() {
        let draws = sorted([4.0, 1.0, 3.0, 2.0].into_iter());
        assert_eq!(quantile(&draws, 0.5), Some(2.5));
        assert_eq!((quantile(&draws, 0.0), quantile(&draws, 1.0)), (Some(1.0), Some(4.0)));
        assert_eq!(quantile(&[], 0.5), None);
    }
}
