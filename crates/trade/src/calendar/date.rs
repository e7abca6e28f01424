//! A day under its name in a calendar: year, month and day.

use super::Day;
use julian::Month;
use julian::errors::DateError;
use std::fmt;
use thiserror::Error;

/// The first year that is counted, 4713 BC: the year before AD 1 is 0, that before is -1.
pub const FIRST_YEAR: i32 = -4712;
/// The last year that is counted.
pub const LAST_YEAR: i32 = 2100;

/// How days are named: in the Julian or the Gregorian calendar without end, or in the one up to a change and then in the
/// other. Years begin with 1 January here; other beginnings are a matter of [`crate::clause::YearStart`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Calendar(julian::Calendar);

impl Calendar {
    /// The Julian calendar, the Old Style.
    pub const JULIAN: Self = Self(julian::Calendar::JULIAN);
    /// The Gregorian calendar, the New Style.
    pub const GREGORIAN: Self = Self(julian::Calendar::GREGORIAN);

    /// Julian up to the day before this one, Gregorian from it on; `None` before AD 300, when the two had not yet parted.
    pub fn changing(first_gregorian: Day) -> Option<Self> {
        julian::Calendar::reforming(first_gregorian.number()).ok().map(Self)
    }

    /// England, Wales, Ireland and the colonies, and Scotland: Wednesday 2 September 1752 was followed by Thursday 14 September.
    /// Calendar (New Style) Act 1750, 24 Geo. 2 c. 23.
    pub fn british() -> Self {
        Self::changing(Day(2_361_222)).unwrap_or(Self::GREGORIAN)
    }

    /// The day that is so named.
    ///
    /// # Errors
    /// A year outside [`FIRST_YEAR`] to [`LAST_YEAR`], a day that the month does not have, or one that the change of calendar
    /// left out.
    pub fn day(self, year: i32, month: Month, day: u32) -> Result<Day, CalendarError> {
        if !(FIRST_YEAR..=LAST_YEAR).contains(&year) {
            return Err(CalendarError::Year { year });
        }
        match self.0.at_ymd(year, month, day) {
            Ok(date) => Day::from_number(date.julian_day_number()).ok_or(CalendarError::Year { year }),
            Err(DateError::SkippedDate { .. }) => Err(CalendarError::LeftOut { year, month, day }),
            Err(_) => {
                let last = self.0.month_shape(year, month).map_or(0, |shape| shape.last_day());
                Err(CalendarError::NoSuchDay { year, month, day, last })
            }
        }
    }

    /// What a day is called.
    pub fn date(self, day: Day) -> Date {
        let date = self.0.at_jdn(day.number());
        Date { year: date.year(), month: date.month(), day: date.day() }
    }

    /// Whether it is Gregorian on this day.
    pub fn is_gregorian_on(self, day: Day) -> bool {
        self.0.at_jdn(day.number()).is_gregorian()
    }

    /// How many days this year has.
    pub fn days_in(self, year: i32) -> u32 {
        self.0.year_length(year)
    }
}

/// Why a date is none.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum CalendarError {
    /// The year is too far off. Give one that is counted.
    #[error(
        "{} is outside what is counted here, {} to {LAST_YEAR}; give a year between them",
        year_name(*year), year_name(FIRST_YEAR)
    )]
    Year {
        /// The year asked for.
        year: i32,
    },
    /// The month has no such day. Give one that it has.
    #[error("{} {} has no day {day}: it ends with the {last}; look at the day and the month again", month.name(), year_name(*year))]
    NoSuchDay {
        /// The year.
        year: i32,
        /// The month.
        month: Month,
        /// The day asked for.
        day: u32,
        /// The last day of that month.
        last: u32,
    },
    /// The day was left out when the calendar was changed. Give it in the Old or the New Style outright.
    #[error(
        "{day} {} {year} was never a day there: it was left out when the New Style began; if another country's calendar is meant, say so",
        month.name()
    )]
    LeftOut {
        /// The year.
        year: i32,
        /// The month.
        month: Month,
        /// The day asked for.
        day: u32,
    },
}

/// A year, month and day in some calendar, the year beginning with 1 January.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Date {
    /// The year; 0 is 1 BC.
    pub year: i32,
    /// The month.
    pub month: Month,
    /// The day of the month, from 1.
    pub day: u32,
}

impl Date {
    /// Whether it lies from 1 January to 24 March, when the legal year in England still bore the number before.
    pub fn is_before_lady_day(&self) -> bool {
        (self.month, self.day) < (Month::March, 25)
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {} {}", self.day, self.month.name(), year_name(self.year))
    }
}

/// A year as it is said: 1701, or 4713 BC for -4712.
pub fn year_name(year: i32) -> String {
    if year > 0 { year.to_string() } else { format!("{} BC", 1 - i64::from(year)) }
}

/// The month of a number from 1 to 12.
pub fn month_by_number(number: u32) -> Option<Month> {
    u8::try_from(number).ok().and_then(|n| Month::try_from(n).ok())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_change_in_england_left_out_eleven_days() {
        let british = Calendar::british();
        let second = british.day(1752, Month::September, 2).unwrap();
        assert_eq!(british.date(second.plus(1)).to_string(), "14 September 1752");
        assert!(matches!(british.day(1752, Month::September, 5), Err(CalendarError::LeftOut { .. })));
        assert_eq!(british.days_in(1752), 355);
        assert!(!british.is_gregorian_on(second) && british.is_gregorian_on(second.plus(1)));
    }

    #[test]
    fn the_ends_of_what_is_counted() {
        assert_eq!(Calendar::JULIAN.day(FIRST_YEAR, Month::January, 1), Ok(Day::FIRST));
        assert_eq!(Calendar::JULIAN.day(LAST_YEAR, Month::December, 31), Ok(Day::LAST));
        assert!(Calendar::GREGORIAN.day(FIRST_YEAR, Month::January, 1).is_ok());
        assert_eq!(Calendar::JULIAN.date(Day::FIRST).to_string(), "1 January 4713 BC");
        for year in [i32::MIN, FIRST_YEAR - 1, LAST_YEAR + 1, i32::MAX] {
            assert_eq!(
                Calendar::JULIAN.day(year, Month::March, 1),
                Err(CalendarError::Year { year }),
                "{year}"
            );
        }
    }

    #[test]
    fn what_a_month_has_not_is_said() {
        let told = Calendar::GREGORIAN.day(1701, Month::February, 29).unwrap_err().to_string();
        assert_eq!(
            told,
            "February 1701 has no day 29: it ends with the 28; look at the day and the month again"
        );
        assert!(Calendar::JULIAN.day(1700, Month::February, 29).is_ok());
        assert!(Calendar::JULIAN.day(1700, Month::February, 0).is_err());
    }
}
