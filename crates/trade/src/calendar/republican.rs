//! The calendar of the French Republic, in force from 1793 to the end of 1805, its years counted from 22 September 1792.

use super::{Calendar, Day};
use julian::Month;
use std::fmt;

/// The first year of the Republic.
pub const FIRST_REPUBLICAN_YEAR: u32 = 1;
/// The last: it was given up on 1 January 1806, when its fourteenth year was three months old.
pub const LAST_REPUBLICAN_YEAR: u32 = 14;

/// The day of September 1792 + n on which year n + 1 began. Years 1 to 4: Roberts and Etherington, *Bookbinding and the
/// Conservation of Books*, "dates"; the rest from memory, held against the Python package convertdate in the tests.
const NEW_YEARS_DAY: [u32; 15] = [22, 22, 22, 23, 22, 22, 22, 23, 23, 23, 23, 24, 23, 23, 23];

/// A month of the Republic: thirty days each, and the complementary days at the end of the year.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RepublicanMonth {
    /// The first month, from about 22 September.
    Vendemiaire = 1,
    /// The second.
    Brumaire,
    /// The third.
    Frimaire,
    /// The fourth.
    Nivose,
    /// The fifth.
    Pluviose,
    /// The sixth.
    Ventose,
    /// The seventh.
    Germinal,
    /// The eighth.
    Floreal,
    /// The ninth.
    Prairial,
    /// The tenth.
    Messidor,
    /// The eleventh.
    Thermidor,
    /// The twelfth.
    Fructidor,
    /// The five days, or six, after the twelfth month.
    Complementary,
}

impl RepublicanMonth {
    /// All, in their order.
    pub const ALL: [Self; 13] = [
        Self::Vendemiaire,
        Self::Brumaire,
        Self::Frimaire,
        Self::Nivose,
        Self::Pluviose,
        Self::Ventose,
        Self::Germinal,
        Self::Floreal,
        Self::Prairial,
        Self::Messidor,
        Self::Thermidor,
        Self::Fructidor,
        Self::Complementary,
    ];

    /// Its French name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Vendemiaire => "vendémiaire",
            Self::Brumaire => "brumaire",
            Self::Frimaire => "frimaire",
            Self::Nivose => "nivôse",
            Self::Pluviose => "pluviôse",
            Self::Ventose => "ventôse",
            Self::Germinal => "germinal",
            Self::Floreal => "floréal",
            Self::Prairial => "prairial",
            Self::Messidor => "messidor",
            Self::Thermidor => "thermidor",
            Self::Fructidor => "fructidor",
            Self::Complementary => "complementary day",
        }
    }
}

/// A date of the Republic.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct RepublicanDate {
    /// The year, from 1 to 14.
    pub year: u32,
    /// The month.
    pub month: RepublicanMonth,
    /// The day: 1 to 30, complementary days 1 to 5, or 6 in the years 3, 7 and 11.
    pub day: u32,
}

impl RepublicanDate {
    /// The first day of a year of the Republic; also of the fifteenth, which did not come, so that the fourteenth has an end.
    fn new_year(year: u32) -> Option<Day> {
        let day = *NEW_YEARS_DAY.get(year.checked_sub(1)? as usize)?;
        Calendar::GREGORIAN.day(1791 + year as i32, Month::September, day).ok()
    }

    /// The day it is; `None` for a day that the calendar did not have.
    pub fn to_day(self) -> Option<Day> {
        if self.year > LAST_REPUBLICAN_YEAR {
            return None;
        }
        let first = Self::new_year(self.year)?;
        let days = Self::new_year(self.year + 1)?.number() - first.number();
        let longest = if self.month == RepublicanMonth::Complementary { days as u32 - 360 } else { 30 };
        (1..=longest)
            .contains(&self.day)
            .then(|| first.plus(30 * (self.month as i32 - 1) + self.day as i32 - 1))
    }

    /// What a day was called; `None` before the first year or after the fourteenth.
    pub fn of(day: Day) -> Option<Self> {
        let year = (1..=LAST_REPUBLICAN_YEAR)
            .rev()
            .find(|&y| Self::new_year(y).is_some_and(|first| first <= day))?;
        if day >= Self::new_year(year + 1)? {
            return None;
        }
        let into = (day.number() - Self::new_year(year)?.number()) as u32;
        let month = *RepublicanMonth::ALL.get((into / 30) as usize)?;
        Some(Self { year, month, day: into % 30 + 1 })
    }
}

impl fmt::Display for RepublicanDate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let year = crate::numerals::spell(self.year).unwrap_or_default();
        write!(f, "{} {} an {year}", self.day, self.month.name())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use RepublicanMonth as M;

    #[test]
    fn dates_of_the_republic() {
        // 9 thermidor II: Descriptive Cataloging of Rare Materials, 5.23.31.65, gives 27 July 1794; 1 vendémiaire I: Roberts and
        // Etherington. The others: 13 vendémiaire, 18 brumaire, 26 messidor and 11 frimaire from memory, the rest by arithmetic.
        let cases = [
            (1, M::Vendemiaire, 1, "22 September 1792"),
            (9, M::Thermidor, 2, "27 July 1794"),
            (13, M::Fructidor, 3, "30 August 1795"),
            (6, M::Complementary, 3, "22 September 1795"),
            (13, M::Vendemiaire, 4, "5 October 1795"),
            (17, M::Ventose, 5, "7 March 1797"),
            (1, M::Complementary, 7, "17 September 1799"),
            (18, M::Brumaire, 8, "9 November 1799"),
            (26, M::Messidor, 9, "15 July 1801"),
            (11, M::Frimaire, 13, "2 December 1804"),
            (10, M::Nivose, 14, "31 December 1805"),
        ];
        for (day, month, year, wanted) in cases {
            let date = RepublicanDate { year, month, day };
            let told = date.to_day().unwrap();
            assert_eq!(Calendar::GREGORIAN.date(told).to_string(), wanted, "{date}");
            assert_eq!(RepublicanDate::of(told), Some(date));
        }
    }

    #[test]
    fn leap_years_of_the_republic() {
        for year in 1..=14 {
            let sixth = RepublicanDate { year, month: M::Complementary, day: 6 };
            assert_eq!(sixth.to_day().is_some(), [3, 7, 11].contains(&year), "year {year}");
        }
        assert_eq!(RepublicanDate { year: 15, month: M::Brumaire, day: 1 }.to_day(), None);
        assert_eq!(RepublicanDate { year: 0, month: M::Brumaire, day: 1 }.to_day(), None);
        assert_eq!(RepublicanDate { year: 2, month: M::Brumaire, day: 31 }.to_day(), None);
        assert_eq!(RepublicanDate { year: 9, month: M::Brumaire, day: 18 }.to_string(), "18 brumaire an IX");
    }
}
