//! The law terms at Westminster.

use super::feasts::easter_in;
use super::{Calendar, CalendarError, Day};
use julian::{Month, Weekday};

/// A term.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Term {
    /// In January and February.
    Hilary,
    /// After Easter.
    Easter,
    /// After Trinity Sunday.
    Trinity,
    /// In October and November.
    Michaelmas,
}

/// The first day and the last of a term.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TermDays {
    /// The first day.
    pub first: Day,
    /// The last day.
    pub last: Day,
}

/// The first year of the fixed terms: 11 Geo. 4 & 1 Will. 4 c. 70. Michaelmas and Hilary as fixed then were seen in a legal
/// dictionary and in an annotated diary on the web; Easter and Trinity are from memory.
const FIXED_FROM: i32 = 1831;

impl Term {
    /// All four, in the order in which they come in a year from 1 January.
    pub const ALL: [Self; 4] = [Self::Hilary, Self::Easter, Self::Trinity, Self::Michaelmas];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Hilary => "Hilary term",
            Self::Easter => "Easter term",
            Self::Trinity => "Trinity term",
            Self::Michaelmas => "Michaelmas term",
        }
    }

    /// When it began and ended in England in a year counted from 1 January. A term that would begin or end on a Sunday does so on
    /// the day after.
    ///
    /// Hilary 23 January to 12 February; Easter from the Wednesday fortnight after Easter Day to the Monday after Ascension;
    /// Trinity from the Friday after Trinity Sunday to the Wednesday fortnight after: Tomlins, *Law-Dictionary* (1835), and
    /// N. Bailey, *Dictionary* (1724), which prints "13th" for Hilary's 23rd. Michaelmas ends on 28 November; it began on
    /// 23 October (Bailey), from 1752 on 6 November (24 Geo. 2 c. 48: W. Hone, *Every-Day Book* II, 6 November), and before
    /// 1641 on 9 October (from memory: 16 Car. 1 c. 6). That a Trinity term whose last day would be Midsummer went on to the
    /// 25th, and that one whose first day is Midsummer began on it: Hone, the same page, with years. Before 1541 Trinity term
    /// was reckoned otherwise (32 Hen. 8 c. 21), and is told here by the later rule.
    ///
    /// # Errors
    /// A year that is not counted.
    pub fn days(self, year: i32) -> Result<TermDays, CalendarError> {
        let calendar = Calendar::british();
        let on = |month, day| calendar.day(year, month, day);
        let (first, last) = if year >= FIXED_FROM {
            match self {
                Self::Hilary => (on(Month::January, 11)?, on(Month::January, 31)?),
                Self::Easter => (on(Month::April, 15)?, on(Month::May, 8)?),
                Self::Trinity => (on(Month::May, 22)?, on(Month::June, 12)?),
                Self::Michaelmas => (on(Month::November, 2)?, on(Month::November, 25)?),
            }
        } else {
            let easter = easter_in(year, calendar)?;
            match self {
                Self::Hilary => (on(Month::January, 23)?, on(Month::February, 12)?),
                Self::Easter => (easter.plus(17), easter.plus(43)),
                Self::Trinity => {
                    let last = easter.plus(80);
                    let is_midsummer = on(Month::June, 24)? == last;
                    (easter.plus(61), if is_midsummer { last.plus(1) } else { last })
                }
                Self::Michaelmas => {
                    let first = match year {
                        ..1641 => on(Month::October, 9)?,
                        1641..1752 => on(Month::October, 23)?,
                        _ => on(Month::November, 6)?,
                    };
                    (first, on(Month::November, 28)?)
                }
            }
        };
        let not_sunday = |day: Day| if day.weekday() == Weekday::Sunday { day.plus(1) } else { day };
        Ok(TermDays { first: not_sunday(first), last: not_sunday(last) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(term: Term, year: i32) -> String {
        let days = term.days(year).unwrap();
        let british = Calendar::british();
        let name = |day| {
            let date = british.date(day);
            format!("{} {}", date.day, date.month.short_name())
        };
        format!("{} - {}", name(days.first), name(days.last))
    }

    #[test]
    fn easter_and_trinity_terms() {
        // Arithmetic from the rules of Tomlins by another script.
        let rows = [
            (1623, "30 Apr - 26 May", "13 Jun - 2 Jul"),
            (1640, "22 Apr - 18 May", "5 Jun - 25 Jun"),
            (1666, "2 May - 28 May", "15 Jun - 4 Jul"),
            (1685, "6 May - 1 Jun", "19 Jun - 8 Jul"),
            (1714, "14 Apr - 10 May", "28 May - 16 Jun"),
            (1753, "9 May - 4 Jun", "22 Jun - 11 Jul"),
            (1776, "24 Apr - 20 May", "7 Jun - 26 Jun"),
            (1829, "6 May - 1 Jun", "19 Jun - 8 Jul"),
        ];
        for (year, easter, trinity) in rows {
            assert_eq!(told(Term::Easter, year), easter, "{year}");
            assert_eq!(told(Term::Trinity, year), trinity, "{year}");
        }
    }

    #[test]
    fn midsummer_in_trinity_term_as_hone_tells_it() {
        for year in [1614, 1698, 1709, 1791] {
            assert!(told(Term::Trinity, year).starts_with("24 Jun"), "{year}: {}", told(Term::Trinity, year));
        }
        for year in [1702, 1713, 1724, 1795, 1801] {
            assert!(told(Term::Trinity, year).ends_with("25 Jun"), "{year}: {}", told(Term::Trinity, year));
        }
    }

    #[test]
    fn no_term_begins_on_a_sunday() {
        assert!(told(Term::Hilary, 1603).starts_with("24 Jan"));
        assert_eq!(told(Term::Michaelmas, 1696), "23 Oct - 28 Nov");
        assert_eq!(told(Term::Michaelmas, 1757), "7 Nov - 28 Nov", "6 November 1757 was a Sunday");
        assert_eq!(told(Term::Michaelmas, 1832), "2 Nov - 26 Nov");
        for year in 1450..=1837 {
            for term in Term::ALL {
                let days = term.days(year).unwrap();
                assert_ne!(days.first.weekday(), Weekday::Sunday);
                assert!(days.first < days.last);
            }
        }
    }
}
