//! Chronograms: sentences whose distinguished letters add up to a year.

use super::read::{NumeralError, Span};
use super::symbols::letter_value;

/// Which letters count.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Counting {
    /// W counts as two V's, 10: in some traditions (from memory, no source).
    pub double_v: bool,
    /// Y counts as two I's, 2: in the Low Countries (from memory, no source).
    pub y_as_two: bool,
}

/// A letter that counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ChronogramLetter {
    /// The letter.
    pub letter: char,
    /// What it counts.
    pub value: u32,
    /// Where it stands.
    pub span: Span,
}

/// A chronogram, counted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chronogram {
    /// The sum.
    pub year: u32,
    /// Every letter that counts, in order.
    pub letters: Vec<ChronogramLetter>,
}

/// The longest sentence that is counted, in characters.
const MOST_CHARACTERS: usize = 10_000;

/// Adds up the capitals that are numerals, wherever they stand; capitals that are no numerals, as the A of Anno, count nothing.
/// *Descriptive Cataloging of Rare Materials*, 5.23.31, has the kind.
///
/// # Errors
/// Where no capital counts, or the text is too long.
///
/// ```
/// let told = trade::numerals::chronogram("PetrVs AnICh AgrICoLa DoMo OberperfassensIs", Default::default()).unwrap();
/// assert_eq!(told.year, 1758);
/// ```
pub fn chronogram(text: &str, counting: Counting) -> Result<Chronogram, NumeralError> {
    let characters = text.chars().count();
    if characters > MOST_CHARACTERS {
        return Err(NumeralError::TooLong { characters, most: MOST_CHARACTERS });
    }
    let value = |letter: char| match letter {
        'W' if counting.double_v => Some(10),
        'Y' if counting.y_as_two => Some(2),
        _ if letter.is_uppercase() => letter_value(letter),
        _ => None,
    };
    let counted = text.chars().enumerate().filter_map(|(at, letter)| {
        value(letter).map(|value| ChronogramLetter { letter, value, span: Span { start: at, end: at + 1 } })
    });
    let letters: Vec<_> = counted.collect();
    if letters.is_empty() {
        return Err(NumeralError::Empty);
    }
    Ok(Chronogram { year: letters.iter().map(|l| l.value).sum(), letters })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_four_chronograms() {
        // The first three with their answers in Descriptive Cataloging of Rare Materials, 5.23.31.2 and .25; the fourth there
        // without, its answer by addition.
        let cases = [
            ("PetrVs AnICh AgrICoLa DoMo OberperfassensIs", 1758),
            (
                "Der FrIeD Vnsers Herrn IesV ChrIstI behVte Vnsere Hertzen VnD SInn, Von Ietzt an, bIss In EVVIgkeIt",
                1650,
            ),
            (
                "Anno QVI seqVItVr VICtorIae honores, Castra ferente IVXta DettIngaM Ipso Rege GeorgIo In agro",
                1744,
            ),
            ("Ipso anno tertIo saeCVLarI typographIae DIVIno aVXILIo a gerManIs InVentae", 1740),
        ];
        for (text, year) in cases {
            assert_eq!(chronogram(text, Counting::default()).unwrap().year, year, "{text}");
        }
    }

    #[test]
    fn w_and_y_count_where_they_are_said_to() {
        let all = Counting { double_v: true, y_as_two: true };
        assert_eq!(chronogram("WY", all).unwrap().year, 12);
        assert_eq!(chronogram("WYI", Counting::default()).unwrap().year, 1);
        assert_eq!(chronogram("anno Regis", Counting::default()), Err(NumeralError::Empty));
    }
}
