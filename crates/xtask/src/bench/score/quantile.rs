//! Quantiles of a handful of numbers.

/// The `q`-quantile (0 to 1), linear between the two nearest order statistics (type 7 of Hyndman &
/// Fan 1996, the rule of NumPy and R). Numbers that are not finite are left out; `None` of none.
pub(crate) fn quantile(values: &[f64], q: f64) -> Option<f64> {
    let mut sorted: Vec<f64> = values.iter().copied().filter(|v| v.is_finite()).collect();
    sorted.sort_by(f64::total_cmp);
    let last = sorted.len().checked_sub(1)?;
    let place = q.clamp(0.0, 1.0) * last as f64;
    let low = place.floor() as usize;
    let high = (low + 1).min(last);
    Some(sorted[low] + (place - low as f64) * (sorted[high] - sorted[low]))
}

/// The middle value.
pub(crate) fn median(values: &[f64]) -> Option<f64> {
    quantile(values, 0.5)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_numpy_has_it() {
        // numpy.quantile([1, 2, 4, 8], [0.5, 0.95, 0, 1]) = [3, 7.4, 1, 8]
        let v = [8.0, 1.0, 4.0, 2.0];
        assert_eq!(median(&v), Some(3.0));
        assert!((quantile(&v, 0.95).unwrap() - 7.4).abs() < 1e-12);
        assert_eq!(quantile(&v, 0.0), Some(1.0));
        assert_eq!(quantile(&v, 1.0), Some(8.0));
        assert_eq!(quantile(&[], 0.5), None);
        assert_eq!(quantile(&[f64::NAN, 2.0], 0.5), Some(2.0));
    }
}
