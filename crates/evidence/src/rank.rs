//! Values by their rank.

/// The value below which such a share of the values stays; `None` of none.
pub(crate) fn quantile(mut values: Vec<f64>, share: f64) -> Option<f64> {
    let at = (values.len().saturating_sub(1) as f64 * share) as usize;
    (!values.is_empty()).then(|| *values.select_nth_unstable_by(at, f64::total_cmp).1)
}

/// The middle value; zero of none.
pub(crate) fn median(mut values: Vec<f64>) -> f64 {
    if values.is_empty() {
        return 0.0;
    }
    let middle = values.len() / 2;
    *values.select_nth_unstable_by(middle, f64::total_cmp).1
}
