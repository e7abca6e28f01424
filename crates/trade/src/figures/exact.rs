//! Exact chances of two figures standing side by side, or in turns, were they dealt out at random.

/// The chances of 0, 1, 2, … sheets with one of each figure, if `first` formes of one figure and the rest of the other are
/// dealt at random over `sheets` sheets of two formes: n! 2ᵐ / (((a−m)/2)! ((b−m)/2)! m!) ways of 2n over a for m such sheets.
///
/// The same sum that tells the chance of so many heterozygotes from two alleles in genetics (Levene 1949, *Annals of
/// Mathematical Statistics* 20; from memory, and counted out in a test). Empty where `first` is more than there are formes.
pub fn chance_of_mixed(sheets: usize, first: usize) -> Vec<f64> {
    let Some(second) = (2 * sheets).checked_sub(first) else { return Vec::new() };
    let most = first.min(second);
    let ways = ln_choose(2 * sheets, first);
    (0..=most)
        .map(|m| {
            if (first - m) % 2 == 1 {
                return 0.0;
            }
            let same = [(first - m) / 2, (second - m) / 2];
            let ln = ln_factorial(sheets) + m as f64 * core::f64::consts::LN_2
                - same.iter().map(|&n| ln_factorial(n)).sum::<f64>()
                - ln_factorial(m);
            libm::exp(ln - ways)
        })
        .collect()
}

/// The chances of 0, 1, 2, … runs of like figures, if `first` formes of one and `second` of the other stand in a row at random
/// (Wald & Wolfowitz 1940, *Annals of Mathematical Statistics* 11): of 2k runs 2 C(a−1, k−1) C(b−1, k−1), of 2k+1 runs
/// C(a−1, k) C(b−1, k−1) + C(a−1, k−1) C(b−1, k), over C(a+b, a).
pub fn chance_of_runs(first: usize, second: usize) -> Vec<f64> {
    if first == 0 || second == 0 {
        return vec![0.0, 1.0];
    }
    let ways = ln_choose(first + second, first);
    let both = |i: usize, j: usize| {
        if i > first - 1 || j > second - 1 {
            0.0
        } else {
            libm::exp(ln_choose(first - 1, i) + ln_choose(second - 1, j) - ways)
        }
    };
    let most = 2 * first.min(second) + 1;
    (0..=most)
        .map(|runs| match (runs / 2, runs % 2) {
            (0, _) => 0.0,
            (k, 0) => 2.0 * both(k - 1, k - 1),
            (k, _) => both(k, k - 1) + both(k - 1, k),
        })
        .collect()
}

fn ln_factorial(n: usize) -> f64 {
    libm::lgamma(n as f64 + 1.0)
}

fn ln_choose(n: usize, k: usize) -> f64 {
    ln_factorial(n) - ln_factorial(k) - ln_factorial(n - k)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every way in which `first` ones stand among `all`, told as bits.
    fn every(all: usize, first: usize) -> Vec<u32> {
        (0_u32..1 << all).filter(|w| w.count_ones() as usize == first).collect()
    }

    #[test]
    fn mixed_sheets_agree_with_every_way_counted_out() {
        for (sheets, first) in [(1, 1), (3, 2), (5, 4), (6, 5), (7, 7)] {
            let ways = every(2 * sheets, first);
            let told = chance_of_mixed(sheets, first);
            for (mixed, chance) in told.iter().enumerate() {
                let so =
                    ways.iter().filter(|&&w| ((w ^ (w >> 1)) & 0x5555_5555).count_ones() as usize == mixed);
                assert!(
                    (chance - so.count() as f64 / ways.len() as f64).abs() < 1e-12,
                    "{sheets} {first} {mixed}"
                );
            }
            assert!((told.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        }
        assert!(chance_of_mixed(1, 3).is_empty());
    }

    #[test]
    fn runs_agree_with_every_way_counted_out() {
        for (first, second) in [(1, 1), (3, 4), (6, 6), (2, 9)] {
            let all = first + second;
            let ways = every(all, first);
            let told = chance_of_runs(first, second);
            for (runs, chance) in told.iter().enumerate() {
                let changes = |w: u32| ((w ^ (w >> 1)) & ((1 << (all - 1)) - 1)).count_ones() as usize;
                let so = ways.iter().filter(|&&w| changes(w) + 1 == runs).count();
                assert!((chance - so as f64 / ways.len() as f64).abs() < 1e-12, "{first} {second} {runs}");
            }
            assert!((told.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        }
        assert_eq!(chance_of_runs(0, 3), [0.0, 1.0]);
    }
}
