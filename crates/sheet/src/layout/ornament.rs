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

/// Larger than this, in x-heights of the main type, a line is display type, and has so many letters that
/// a blank parts. The scrolls of a head-piece come one by one.
const DISPLAY: f64 = 2.0;
const LETTERS: usize = 3;

/// Whether a line of the size of display type has too few letters to be one.
pub(super) fn is_scroll(l: &Inked, main: f64) -> bool {
    l.line.x_height > DISPLAY * main && l.stretches.len() < LETTERS
}

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
    use crate::layout::fit::Fitted;
    use crate::layout::stretches::Stretch;

    #[test]
    fn a_large_line_of_one_piece_is_a_scroll_and_a_word_of_letters_is_not() {
        let line = |x_height: f64, pieces: usize| Inked {
            line: Fitted::straight(0.0, 200.0, 50.0, 0.0, x_height),
            slant: 0.0,
            stretches: (0..pieces)
                .map(|i| Stretch { from: 50.0 * i as f64, to: 50.0 * i as f64 + 40.0 })
                .collect(),
            pass: 0,
            cut: false,
        };
        assert!(is_scroll(&line(35.0, 1), 10.0));
        assert!(!is_scroll(&line(35.0, 3), 10.0));
        assert!(!is_scroll(&line(11.0, 1), 10.0), "a short last line of the text");
    }

    #[test]
    fn equal_distances_are_regular_and_letters_are_not() {
        assert!(is_regular(&[0.0, 10.1, 20.0, 30.2, 40.0, 49.9, 60.0, 70.1, 80.0]));
        assert!(!is_regular(&[0.0, 10.0, 18.0, 31.0, 35.0, 46.0, 60.0, 68.0, 81.0]));
        assert!(!is_regular(&[0.0, 10.0, 20.0]));
    }
}
