//! Chao's lower bound: what the items in one copy and in two say of those in none.

use super::{Counts, Estimate};

/// Chao1 (Chao 1984, *Scandinavian Journal of Statistics* 11): S + (n−1)/n · f₁²/(2f₂), and where no item has two copies S +
/// (n−1)/n · f₁(f₁−1)/2.
///
/// A lower bound, whatever the chances of the items are: the more they differ, the more it falls short. Where every item is
/// known in two copies or more it is S, and there is no interval.
///
/// Variances: Chao 1987, *Biometrics* 43, with A = (n−1)/n: f₂(A r²/2 + A² r³ + A² r⁴/4), r = f₁/f₂; without pairs
/// A f₁(f₁−1)/2 + A² f₁(2f₁−1)²/4 − A² f₁⁴/(4N̂) (seen, without A, in a manual of a program for counts of species).
pub fn chao1(counts: &Counts) -> Estimate {
    let (f1, f2) = (counts.of(1) as f64, counts.of(2) as f64);
    let (known, copies) = (counts.items(), counts.copies() as f64);
    let a = (copies - 1.0) / copies;
    if f2 > 0.0 {
        let r = f1 / f2;
        let unseen = a * f1 * f1 / (2.0 * f2);
        let variance = f2 * (a / 2.0 * r * r + a * a * r * r * r + a * a / 4.0 * r * r * r * r);
        return Estimate::of_unseen(known, unseen, variance);
    }
    let unseen = a * f1 * (f1 - 1.0).max(0.0) / 2.0;
    let total = known as f64 + unseen;
    let variance = a * f1 * (f1 - 1.0) / 2.0 + a * a * f1 * (2.0 * f1 - 1.0) * (2.0 * f1 - 1.0) / 4.0
        - a * a * f1.powi(4) / (4.0 * total);
    Estimate::of_unseen(known, unseen, variance)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survival::CountOf;

    #[test]
    fn worked_by_hand() {
        // f = 4, 2: n = 8, A = 7/8: 6 + 7/8 · 16/4 = 9.5.
        let told = chao1(&Counts::parse("4,2").unwrap());
        assert!((told.total.unwrap() - 9.5).abs() < 1e-12);
        // f = 4: n = 4, A = 3/4: 4 + 3/4 · 12/2 = 8.5.
        assert!((chao1(&Counts::parse("4").unwrap()).total.unwrap() - 8.5).abs() < 1e-12);
    }

    #[test]
    fn without_a_single_copy_nothing_is_unseen_and_nothing_is_bounded() {
        let told = chao1(&Counts::new([CountOf { copies: 3, items: 7 }]).unwrap());
        assert_eq!((told.total, told.standard_error, told.interval_95.high), (Some(7.0), None, None));
    }
}
