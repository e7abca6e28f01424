//! A plain date, as a person types it: 30 January 1649, 1649-01-30, 1 January 4713 BC.

use super::{Date, month_by_number};
use crate::numerals::Span;
use julian::Month;
use thiserror::Error;
use winnow::ascii::{alpha1, digit1, space0, space1};
use winnow::combinator::{alt, opt, preceded, terminated};
use winnow::error::ContextError;
use winnow::prelude::*;
use winnow::stream::{LocatingSlice, Location as _};

/// The longest date that is read, in characters.
const MOST_CHARACTERS: usize = 60;

/// Why a text is no plain date.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum PlainDateError {
    /// It is longer than a date.
    #[error("this is too long for a date; expected one as 30 January 1649, 1649-01-30 or 1 January 4713 BC")]
    TooLong,
    /// It is written otherwise.
    #[error(
        "\"{text}\" cannot be read as a date from character {} on; expected one as 30 January 1649, 1649-01-30 or 1 January 4713 BC",
        at.start + 1
    )]
    Otherwise {
        /// The text.
        text: String,
        /// Where it goes wrong.
        at: Span,
    },
}

type Input<'a> = LocatingSlice<&'a str>;
type Parsed<T> = Result<T, winnow::error::ErrMode<ContextError>>;

/// Reads a plain date; whether that day existed is asked of a calendar.
///
/// # Errors
/// Where it is written otherwise, with the place.
///
/// ```
/// let date = trade::calendar::plain_date("30 January 1649").unwrap();
/// assert_eq!((date.year, date.day), (1649, 30));
/// assert_eq!(trade::calendar::plain_date("1 January 4713 BC").unwrap().year, -4712);
/// ```
pub fn plain_date(text: &str) -> Result<Date, PlainDateError> {
    let text = text.trim();
    if text.chars().count() > MOST_CHARACTERS {
        return Err(PlainDateError::TooLong);
    }
    let mut input = LocatingSlice::new(text);
    let date: Parsed<Date> = alt((by_numbers, day_first, month_first)).parse_next(&mut input);
    let at = input.current_token_start();
    match date {
        Ok(date) if at == text.len() => Ok(date),
        _ => {
            let start = text.get(..at).map_or(0, |t| t.chars().count());
            Err(PlainDateError::Otherwise { text: text.to_owned(), at: Span { start, end: start + 1 } })
        }
    }
}

fn number(input: &mut Input<'_>) -> Parsed<u32> {
    digit1.verify_map(|d: &str| if d.len() <= 5 { d.parse().ok() } else { None }).parse_next(input)
}

/// 1649-01-30, -4712-01-01 with the astronomers' year.
fn by_numbers(input: &mut Input<'_>) -> Parsed<Date> {
    let minus = opt('-').parse_next(input)?;
    let year = number.parse_next(input)? as i32;
    let month = preceded('-', number.verify_map(month_by_number)).parse_next(input)?;
    // 30-1-1649 is no day 1649 of January.
    let day = preceded('-', number.verify(|day| *day < 100)).parse_next(input)?;
    Ok(Date { year: if minus.is_some() { -year } else { year }, month, day })
}

/// 30 January 1649, 30th of January, 1649.
fn day_first(input: &mut Input<'_>) -> Parsed<Date> {
    let day = terminated(number, opt(alt(("st", "nd", "rd", "th")))).parse_next(input)?;
    (space1, opt(("of", space1))).parse_next(input)?;
    let month = month.parse_next(input)?;
    (opt('.'), opt(','), space1).parse_next(input)?;
    let year = year.parse_next(input)?;
    Ok(Date { year, month, day })
}

/// January 30, 1649.
fn month_first(input: &mut Input<'_>) -> Parsed<Date> {
    let month = month.parse_next(input)?;
    (opt('.'), space1).parse_next(input)?;
    let day = terminated(number, opt(alt(("st", "nd", "rd", "th")))).parse_next(input)?;
    (opt(','), space1).parse_next(input)?;
    let year = year.parse_next(input)?;
    Ok(Date { year, month, day })
}

fn month(input: &mut Input<'_>) -> Parsed<Month> {
    let of = |word: &str| {
        let word = word.to_lowercase();
        let is = |m: &Month| {
            let name = m.name().to_lowercase();
            word.len() >= 3 && name.starts_with(&word)
        };
        (1..=12).filter_map(month_by_number).find(is)
    };
    alpha1.verify_map(of).parse_next(input)
}

/// 1649, 4713 BC, AD 33.
fn year(input: &mut Input<'_>) -> Parsed<i32> {
    opt((alt(("AD", "A.D.")), space0)).parse_next(input)?;
    let year = number.parse_next(input)? as i32;
    let before = opt(preceded(space0, alt(("BC", "B.C.", "bc")))).parse_next(input)?;
    Ok(if before.is_some() { 1 - year } else { year })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dates_as_they_are_typed() {
        for text in
            ["30 January 1649", "30th of Jan. 1649", "January 30, 1649", "1649-01-30", "Jan 30th 1649"]
        {
            let date = plain_date(text).unwrap_or_else(|e| panic!("{e}"));
            assert_eq!((date.year, date.month, date.day), (1649, Month::January, 30), "{text}");
        }
        assert_eq!(plain_date("-4712-01-01").unwrap(), plain_date("1 January 4713 BC").unwrap());
        let told = plain_date("30 Januember 1649").unwrap_err().to_string();
        assert!(told.contains("expected one as 30 January 1649"), "{told}");
        assert!(plain_date("30 January 1649 and more").is_err() && plain_date("").is_err());
        assert_eq!(plain_date(&"1".repeat(99)), Err(PlainDateError::TooLong));
    }
}
