//! Why a clause cannot be read, or names no day.

use crate::numerals::Span;
use julian::Month;
use thiserror::Error;

/// Why a clause cannot be read. Places are in characters from its beginning.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ClauseError {
    /// There is nothing in it.
    #[error("there is no date here; give one as it is printed, as \"8 Martii 1648/9\"")]
    Empty,
    /// It is longer than a clause is.
    #[error(
        "this is {characters} characters long, and no more than {most} are read; give the dating clause alone"
    )]
    TooLong {
        /// How long it is.
        characters: usize,
        /// How long it may be.
        most: usize,
    },
    /// Nothing in it is a date.
    #[error(
        "nothing in \"{found}\" ({}) could be read as a date; expected a day and a month, a weekday, a feast or term, a year, or the year of a reign",
        place(*span)
    )]
    NoDate {
        /// What stands there.
        found: String,
        /// Where.
        span: Span,
    },
    /// A number stands where a month, a year or the word "year" should follow.
    #[error("\"{found}\" ({}) is a number that belongs to nothing; expected {expected}", place(*span))]
    LooseNumber {
        /// The number as it stands.
        found: String,
        /// Where.
        span: Span,
        /// What should stand beside it.
        expected: &'static str,
    },
    /// The month never has this day.
    #[error("{} has no day {day} ({}); expected 1 to {last}", month.name(), place(*span))]
    NoSuchDay {
        /// The month.
        month: Month,
        /// The day.
        day: u32,
        /// The month's last day in a leap year.
        last: u32,
        /// Where it stands.
        span: Span,
    },
    /// The count before Kalends, Nones or Ides is none of the Roman calendar.
    #[error(
        "there is no such day as \"{found}\" ({}): expected at most {most} before it, counting both ends",
        place(*span)
    )]
    NoSuchRomanDay {
        /// The words.
        found: String,
        /// The largest count.
        most: u32,
        /// Where they stand.
        span: Span,
    },
    /// "Ultimo Kalendas" is said of more than one day. A published example of cataloguing has "ultimo Kalendis Decembris" for
    /// 12 November, which no rule yields.
    #[error(
        "\"{found}\" ({}) is said of more than one day; expected a count, as XVIII Kal. Dec., or pridie",
        place(*span)
    )]
    LastOfKalends {
        /// The words.
        found: String,
        /// Where they stand.
        span: Span,
    },
    /// The reign had no such year.
    #[error(
        "{name} had no year {number} ({}): the last was the {last}; expected 1 to {last}",
        place(*span)
    )]
    NoSuchYearOfReign {
        /// Whose reign.
        name: &'static str,
        /// The year.
        number: u32,
        /// The last there was.
        last: u32,
        /// Where it stands.
        span: Span,
    },
    /// Two numbers that no double year of Philip and Mary had.
    #[error(
        "Philip and Mary had no double year {king} and {queen} ({}); expected one as 2 and 3 (25 July 1555 to 5 July 1556)",
        place(*span)
    )]
    NoSuchJointYear {
        /// Philip's number.
        king: u32,
        /// Mary's number.
        queen: u32,
        /// Where it stands.
        span: Span,
    },
    /// A double year whose parts do not follow each other.
    #[error(
        "\"{found}\" ({}) is no double year: expected the second to be the year after the first, as 1648/9",
        place(*span)
    )]
    NoDoubleYear {
        /// As it stands.
        found: String,
        /// Where.
        span: Span,
    },
    /// Two days that never were one day by the two calendars.
    #[error(
        "\"{found}\" ({}) is never one day by both calendars: expected the New Style 10 days after the Old to 1700, 11 to 1800, \
         then 12, as 10/20 June",
        place(*span)
    )]
    NotOneDay {
        /// As it stands.
        found: String,
        /// Where.
        span: Span,
    },
    /// A year of freedom that the Commonwealth did not come to.
    #[error(
        "the Commonwealth counted no {number} years of freedom ({}): expected 1 to {last}",
        place(*span)
    )]
    NoSuchYearOfFreedom {
        /// The year.
        number: u32,
        /// The last there was.
        last: u32,
        /// Where it stands.
        span: Span,
    },
    /// A day of the French Republic that there was not.
    #[error(
        "\"{found}\" ({}) was no day of the Republic: expected 1 to 30, complementary days 1 to 5 or 6, years 1 to 14",
        place(*span)
    )]
    NoSuchRepublicanDay {
        /// As it stands.
        found: String,
        /// Where.
        span: Span,
    },
}

/// As a person counts characters, from 1.
fn place(span: Span) -> String {
    if span.end <= span.start + 1 {
        format!("character {}", span.start + 1)
    } else {
        format!("characters {} to {}", span.start + 1, span.end)
    }
}
