//! Kendall's tau: how far two orders of the same things agree.

/// Kendall's tau-b, from -1 (reversed) to 1 (the same order), with ties of either list allowed for (Kendall, *Biometrika* 33,
/// 1945). `None` where the lists differ in length or one of them is all one value: then there is no order to agree with.
///
/// Cost: the square of the length.
///
/// ```
/// assert_eq!(chronology::tau_b(&[1.0, 2.0, 3.0], &[10.0, 20.0, 30.0]), Some(1.0));
/// assert_eq!(chronology::tau_b(&[1.0, 2.0, 3.0], &[3.0, 2.0, 1.0]), Some(-1.0));
/// ```
pub fn tau_b(first: &[f64], second: &[f64]) -> Option<f64> {
    if first.len() != second.len() {
        return None;
    }
    let (mut score, mut parted_first, mut parted_second) = (0_i64, 0_i64, 0_i64);
    for i in 0..first.len() {
        for j in 0..i {
            let (a, b) = (sign(first[i], first[j]), sign(second[i], second[j]));
            score += a * b;
            parted_first += a * a;
            parted_second += b * b;
        }
    }
    let scale = (parted_first as f64 * parted_second as f64).sqrt();
    (scale > 0.0).then(|| score as f64 / scale)
}

fn sign(a: f64, b: f64) -> i64 {
    i64::from(a > b) - i64::from(a < b)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ties_lower_what_can_be_reached() {
        // Two of three pairs agree and the third is tied in one list: 2 / sqrt(3 * 2).
        let tau = tau_b(&[1.0, 2.0, 3.0], &[1.0, 2.0, 2.0]).unwrap();
        assert!((tau - 2.0 / 6.0_f64.sqrt()).abs() < 1e-15);
    }

    #[test]
    fn without_an_order_there_is_no_agreement() {
        assert_eq!(tau_b(&[1.0, 1.0], &[1.0, 2.0]), None);
        assert_eq!(tau_b(&[1.0], &[1.0, 2.0]), None);
    }
}
