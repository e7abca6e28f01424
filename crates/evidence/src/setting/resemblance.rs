//! Whether a pair is like those that the weight was calibrated on.

use crate::reading::Reading;
use std::ops::RangeInclusive;

/// x-heights, in pixels, of the photographs behind the weight: all but one in a hundred lie within.
const X_HEIGHTS_PX: RangeInclusive<f64> = 11.0..=68.0;
/// Words found on both sides, by pair, in all but one in a hundred.
const FEWEST_WORDS: usize = 30;

/// What sets a pair apart from those behind the weight, as the end of a sentence; `None` of one like them. `words` is
/// how many were found on both sides.
pub(super) fn unlike(a: &Reading, b: &Reading, words: usize) -> Option<String> {
    let odd = [("first", a), ("second", b)].into_iter().find_map(|(which, r)| {
        let x = r.x_height_px().filter(|x| !X_HEIGHTS_PX.contains(x))?;
        let (least, most) = X_HEIGHTS_PX.into_inner();
        Some(format!("the x-height of the {which} is {x:.0} pixels, theirs were {least:.0} to {most:.0}"))
    });
    let few = || {
        (words < FEWEST_WORDS)
            .then(|| format!("only {words} words are found on both, theirs had at least {FEWEST_WORDS}"))
    };
    odd.or_else(few)
}
