//! Rows of ornament that pass for display lines.

use super::columns::Inked;

/// Only lines larger than this, in x-heights of the main type, are looked at: ornament as small as the
/// main type is seldom printed.
const LARGE: f64 = 1.15;
/// No word of display type is this long without a blank column, in its own x-heights.
const UNBROKEN: f64 = 9.0;
/// So many pieces at equal distances are cast ornaments.
const PIECES: usize = 8;
/// Equal means that half of the distances differ from their median by less than this share of it.
/// Letters differ in width by a third and more.
const EQUAL: f64 = 0.06;

/// Whether a line is a strip of ornament: inked without a break, or made of equal pieces at equal
/// distances.
pub(super) fn is_ornament(l: &Inked, main: f64) -> bool {
    let h = l.line.x_height;
    if h < LARGE * main {
        return false;
    }
    l.stretches.iter().any(|s| s.width() > UNBROKEN * h)
        || is_regular(&l.stretches.iter().map(|s| s.from).collect::<Vec<_>>())
}

/// Whether places follow each other at equal distances.
fn is_regular(places: &[f64]) -> bool {
    let mut steps: Vec<f64> = places.windows(2).map(|p| p[1] - p[0]).collect();
    if steps.len() < PIECES {
        return false;
    }
    steps.sort_by(f64::total_cmp);
    let median = steps[steps.len() / 2];
    let mut off: Vec<f64> = steps.iter().map(|s| (s - median).abs() / median).collect();
    off.sort_by(f64::total_cmp);
    off[off.len() / 2] < EQUAL
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_distances_are_regular_and_letters_are_not() {
        assert!(is_regular(&[0.0, 10.1, 20.0, 30.2, 40.0, 49.9, 60.0, 70.1, 80.0]));
        assert!(!is_regular(&[0.0, 10.0, 18.0, 31.0, 35.0, 46.0, 60.0, 68.0, 81.0]));
        assert!(!is_regular(&[0.0, 10.0, 20.0]));
    }
}
