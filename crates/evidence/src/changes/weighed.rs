//! All that was weighed, also what nothing is said of: what the regressions are fitted to.

use super::letters::LetterSigns;
use super::signs::Signs;
use super::view::View;
use crate::standing::MANNERS;
use sheet::Rect;

/// The places, the letters and the lines that were weighed.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Weighed {
    /// Places where one impression has ink and the other has none.
    pub places: Vec<WeighedPlace>,
    /// Letters that are unlike themselves or off their place.
    pub letters: Vec<WeighedLetter>,
    /// Of each line of type that was weighed, log10 of its likelihood if it stands over that if it was set again, by
    /// manners of that.
    pub lines: Vec<[f64; MANNERS]>,
}

/// A place where one impression has ink and the other has none, with all that speaks for or against its type having
/// been changed.
#[derive(Debug, Clone, PartialEq)]
pub struct WeighedPlace {
    /// Its box, pixels of the first photograph set upright.
    pub bounds: Rect,
    /// The same on the second.
    pub there: Rect,
    /// Ink in one only, square x-heights.
    pub mass: f64,
    /// What is seen of it and about it.
    pub signs: Signs,
    /// Both impressions about it.
    pub view: View,
    /// How surely its type was changed, 0 to 1.
    pub score: f64,
}

/// A letter that is unlike itself or off its place, with all that speaks for or against its sort having been shifted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeighedLetter {
    /// Its box, pixels of the first photograph set upright.
    pub bounds: Rect,
    /// The same on the second, where it would be had nothing been done.
    pub there: Rect,
    /// What is seen of it and about it.
    pub signs: LetterSigns,
    /// How surely its sort stands off its line or leans, 0 to 1.
    pub score: f64,
}
