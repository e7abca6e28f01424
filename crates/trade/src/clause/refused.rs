//! What is refused: days and years that never were, and clauses without a date.

use super::element::Element;
use super::error::ClauseError;
use super::tokens::Token;
use super::{both, freedom, latin, reign};
use crate::numerals::Span;

/// Refuses "ultimo Kalendis".
pub(super) fn last_of_kalends(tokens: &[Token], words: &impl Fn(Span) -> String) -> Result<(), ClauseError> {
    let found = tokens.windows(2).find(|pair| {
        matches!(pair[0].word.as_str(), "ultimo" | "ultima")
            && super::lexicon::anchor(&pair[1].word).is_some()
    });
    match found {
        Some([first, second]) => {
            let span = Span { start: first.span.start, end: second.span.end };
            Err(ClauseError::LastOfKalends { found: words(span), span })
        }
        _ => Ok(()),
    }
}

/// The error of a clause without a date: at its first number, if there is one.
pub(super) fn nothing_read(tokens: &[Token], words: &impl Fn(Span) -> String) -> ClauseError {
    let is_number = |t: &&Token| t.word.starts_with(|c: char| c.is_ascii_digit()) || t.roman.is_some();
    if let Some(number) = tokens.iter().find(is_number) {
        return ClauseError::LooseNumber {
            found: words(number.span),
            span: number.span,
            expected: "a month beside it, as \"8 March\", or a year of four figures, as 1648, or \"year of our reign\"",
        };
    }
    let (first, last) = (tokens.first(), tokens.last());
    let span = Span { start: first.map_or(0, |t| t.span.start), end: last.map_or(0, |t| t.span.end) };
    ClauseError::NoDate { found: words(span), span }
}

/// Refuses days and years that never were.
pub(super) fn check(element: &Element, span: Span, words: &str) -> Result<(), ClauseError> {
    match element {
        Element::Day { day, month } => {
            let last = longest(*month);
            if *day > last {
                return Err(ClauseError::NoSuchDay { month: *month, day: *day, last, span });
            }
        }
        Element::BothStyles { old, new, old_year } if both::days(*old, *new, *old_year).is_empty() => {
            return Err(ClauseError::NotOneDay { found: words.to_owned(), span });
        }
        Element::Freedom(number) if freedom::days(*number).is_none() => {
            return Err(ClauseError::NoSuchYearOfFreedom { number: *number, last: freedom::LAST, span });
        }
        Element::Roman { anchor, count, month } => {
            let most = latin::most(*anchor, *month);
            if *count > most {
                return Err(ClauseError::NoSuchRomanDay { found: words.to_owned(), most, span });
            }
        }
        Element::Reign { sovereigns, number, queen } => {
            return reign::check(sovereigns, *number, *queen, span);
        }
        Element::DoubleYear { legal } if *legal < 0 => {
            return Err(ClauseError::NoDoubleYear { found: words.to_owned(), span });
        }
        Element::Republican(date) if date.to_day().is_none() => {
            return Err(ClauseError::NoSuchRepublicanDay { found: words.to_owned(), span });
        }
        Element::RepublicanYear(year) if !(1..=crate::calendar::LAST_REPUBLICAN_YEAR).contains(year) => {
            return Err(ClauseError::NoSuchRepublicanDay { found: words.to_owned(), span });
        }
        _ => {}
    }
    Ok(())
}

/// The days of a month in a leap year.
fn longest(month: julian::Month) -> u32 {
    match month.number() {
        2 => 29,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}
