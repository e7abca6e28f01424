//! Whether a pair is like those that the weight was calibrated on.

use crate::reading::Reading;
use std::ops::RangeInclusive;

/// x-heights, in pixels, of the photographs behind the weight, least and largest.
const X_HEIGHTS_PX: RangeInclusive<f64> = 9.6..=70.5;
/// Words found on both sides of each of those pairs, at least.
const FEWEST_WORDS: usize = 23;

/// What sets a pair apart from those behind the weight, as the end of a sentence; `None` of one like them. `words` is
/// how many were found on both sides.
pub(super) fn unlike(a: &Reading, b: &Reading, words: usize) -> Option<String> {
    let odd = [("first", a), ("second", b)].into_iter().find_map(|(which, r)| {
        let x = r.x_height_px().filter(|x| !X_HEIGHTS_PX.contains(x))?;
        let (least, most) = X_HEIGHTS_PX.into_inner();
        Some(format!("the x-height of the {which} is {x:.1} pixels, theirs were {least:.1} to {most:.1}"))
    });
    let few = || {
        (words < FEWEST_WORDS)
            .then(|| format!("only {words} words are found on both, theirs had at least {FEWEST_WORDS}"))
    };
    odd.or_else(few)
}

#[cfg(test)]
mod tests {
    use super::*;
    use sheet::{Plane, Px};

    fn reading(x_height: f64) -> Reading {
        let mut reading = Reading::of(&Plane::filled(40, 40, 200u8), None);
        reading.layout.x_height = Some(Px(x_height));
        reading
    }

    #[test]
    fn letters_too_small_or_words_too_few_are_said() {
        let (usual, small) = (reading(25.0), reading(6.2));
        assert_eq!(unlike(&usual, &usual, 100), None);
        assert!(unlike(&usual, &small, 100).is_some_and(|s| s.contains("second") && s.contains("6.2")));
        assert!(unlike(&usual, &usual, 9).is_some_and(|s| s.contains("only 9 words")));
    }
}
