//! The highest place of a function of one number.

/// Places that are tried first, so that a second hill is not missed.
const TRIED: usize = 48;
/// Golden sections after that: each leaves 0.618 of the width.
const SECTIONS: usize = 40;

/// Where a function is highest between two bounds, and its value there: the best of some places evenly between, then golden
/// sections about it.
pub(crate) fn highest(low: f64, high: f64, worth: impl Fn(f64) -> f64) -> (f64, f64) {
    let at = |i: usize| low + (high - low) * i as f64 / TRIED as f64;
    let mut best = (0, f64::NEG_INFINITY);
    for i in 0..=TRIED {
        let w = worth(at(i));
        if w > best.1 {
            best = (i, w);
        }
    }
    let (mut a, mut b) = (at(best.0.saturating_sub(1)), at((best.0 + 1).min(TRIED)));
    let golden = 0.5 * (5.0_f64.sqrt() - 1.0);
    let (mut c, mut d) = (b - golden * (b - a), a + golden * (b - a));
    let (mut at_c, mut at_d) = (worth(c), worth(d));
    for _ in 0..SECTIONS {
        if at_c >= at_d {
            (b, d, at_d) = (d, c, at_c);
            c = b - golden * (b - a);
            at_c = worth(c);
        } else {
            (a, c, at_c) = (c, d, at_d);
            d = a + golden * (b - a);
            at_d = worth(d);
        }
    }
    let middle = f64::midpoint(a, b);
    [middle, at(best.0)]
        .map(|x| (x, worth(x)))
        .into_iter()
        .fold((middle, f64::NEG_INFINITY), |best, one| if one.1 > best.1 { one } else { best })
}

/// The root of a function that rises, between two bounds, by halving.
pub(crate) fn root(mut low: f64, mut high: f64, rising: impl Fn(f64) -> f64) -> f64 {
    for _ in 0..200 {
        let middle = f64::midpoint(low, high);
        if middle <= low || middle >= high {
            break;
        }
        if rising(middle) < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hill_and_a_root_are_found() {
        let (x, y) = highest(-3.0, 10.0, |x| 4.0 - (x - 1.3) * (x - 1.3));
        assert!((x - 1.3).abs() < 1e-7 && (y - 4.0).abs() < 1e-12);
        assert!((highest(0.0, 1.0, |x| x).0 - 1.0).abs() < 1e-9, "an end is a place");
        assert!((root(0.0, 2.0, |x| x * x - 2.0) - 2.0_f64.sqrt()).abs() < 1e-14);
    }
}
