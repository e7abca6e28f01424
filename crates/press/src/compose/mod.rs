//! The compositor: a text and a layout become a setting.

mod fill;
mod hand;
mod justify;
mod page;

use sheet::Mm;
use thiserror::Error;

use crate::fount::{Face, Founts};
use crate::layout::Layout;
use crate::setting::Setting;
use crate::text::Text;
pub(crate) use hand::Hand;
pub use justify::Care;
pub(crate) use justify::{THIN, copied, spaces};

/// Why a text cannot be composed as asked.
#[derive(Debug, Error)]
pub enum ComposeError {
    /// The text asks for a character that the fount does not hold. Spell the word otherwise.
    #[error("the fount {face:?} has no sort for {glyph:?} (U+{code:04X}); spell the word otherwise", code = u32::from(*glyph))]
    NoSort {
        /// The fount.
        face: Face,
        /// The character.
        glyph: char,
    },
    /// A word is wider than a line. Widen the measure, take fewer columns or a smaller body.
    #[error(
        "the word {word:?} needs {:.1} mm and the measure is {:.1} mm; widen the measure or take a smaller body",
        needs.0, measure.0
    )]
    MeasureTooNarrow {
        /// The word.
        word: String,
        /// What a line holds.
        measure: Mm,
        /// What the word takes.
        needs: Mm,
    },
    /// The text has nothing to set.
    #[error("the text has no words; give at least one passage")]
    NoWords,
}

/// Composes a text: `seed` is the compositor (his spacing, and the pieces that lie uppermost in the case),
/// `age` from 0 (new type) to 1 (worn out).
///
/// # Errors
/// [`ComposeError`] when the text and the layout do not go together.
pub fn compose(
    founts: &Founts,
    layout: &Layout,
    text: &Text,
    age: f64,
    seed: u64,
) -> Result<Setting, ComposeError> {
    page::Page::new(founts, layout, age.clamp(0.0, 1.0), seed).made(text)
}
