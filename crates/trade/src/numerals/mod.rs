//! Numerals as they are printed: Roman in all the ways of the hand press, with arabic tails, and chronograms.
//!
//! [`read()`] says what a numeral strictly says, and how else it can be read; [`meant()`] says, never silently, what it may have
//! been meant to say, each with the one slip of a compositor that explains it.

mod chronogram;
mod form;
mod meant;
mod read;
mod slips;
mod symbols;
mod value;

pub use chronogram::{Chronogram, ChronogramLetter, Counting, chronogram};
pub use form::{Form, spell, spell_additive, spell_apostrophus};
pub use meant::{HAND_PRESS, Meant, Prior, arabic_meant, meant};
pub use read::{Numeral, NumeralError, Reading, Span, System, read};
pub use slips::Slip;
pub use symbols::MOST_CHARACTERS;

pub(crate) use symbols::is_numeral_letter;
