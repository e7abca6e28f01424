//! Named reckonings: which calendar, and when the year began.

use crate::calendar::{Calendar, Day, DayRange, Month, easter};
use crate::reigns::Realm;

/// When a year began that bears a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum YearStart {
    /// 1 January, the feast of the Circumcision.
    January,
    /// 25 March after 1 January: 24 March 1648 was followed by 25 March 1649. England's legal year to 1751, and Florence's.
    LadyDay,
    /// 25 March before 1 January, nine months and seven days ahead: Pisa.
    LadyDayBefore,
    /// 1 March after 1 January: Venice.
    March,
    /// Easter Sunday: France to the 1560s.
    Easter,
    /// Christmas Day before 1 January.
    Christmas,
    /// 1 September before 1 January: the Greek world.
    September,
}

impl YearStart {
    /// All.
    pub const ALL: [Self; 7] = [
        Self::January,
        Self::LadyDay,
        Self::LadyDayBefore,
        Self::March,
        Self::Easter,
        Self::Christmas,
        Self::September,
    ];

    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::January => "the year from 1 January",
            Self::LadyDay => "the year from Lady Day, 25 March",
            Self::LadyDayBefore => "the year from the Lady Day before, as at Pisa",
            Self::March => "the year from 1 March, as at Venice",
            Self::Easter => "the year from Easter",
            Self::Christmas => "the year from Christmas",
            Self::September => "the year from 1 September",
        }
    }

    /// The day with which a year begins, days being named by this calendar.
    pub fn begins(self, year: i32, calendar: Calendar) -> Option<Day> {
        let on = |year, month, day| calendar.day(year, month, day).ok();
        match self {
            Self::January => on(year, Month::January, 1),
            Self::LadyDay => on(year, Month::March, 25),
            Self::LadyDayBefore => on(year - 1, Month::March, 25),
            Self::March => on(year, Month::March, 1),
            Self::Easter => {
                let gregorian = on(year, Month::March, 1).is_some_and(|d| calendar.is_gregorian_on(d));
                easter(year, gregorian).ok()
            }
            Self::Christmas => on(year - 1, Month::December, 25),
            Self::September => on(year - 1, Month::September, 1),
        }
    }
}

/// A way of naming days and numbering years.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Reckoning {
    /// How days are named.
    pub calendar: Calendar,
    /// When the year began.
    pub start: YearStart,
    /// The first year that began with 1 January whatever [`Reckoning::start`] says; `None` if none did.
    pub january_from: Option<i32>,
    /// Whose kings are meant where a reign is not named outright.
    pub realm: Realm,
    /// What it is called.
    pub name: &'static str,
}

impl Reckoning {
    /// A calendar and a beginning of the year that never changed.
    pub const fn plain(calendar: Calendar, start: YearStart, name: &'static str) -> Self {
        Self { calendar, start, january_from: None, realm: Realm::England, name }
    }

    /// The days of a year of this number; empty where a year held none.
    pub fn year(&self, year: i32) -> Option<DayRange> {
        let first = self.begins(year)?;
        let next = self.begins(year.checked_add(1)?)?;
        DayRange::new(first, next.plus(-1))
    }

    fn begins(&self, year: i32) -> Option<Day> {
        let start = match self.january_from {
            Some(from) if year >= from => YearStart::January,
            _ => self.start,
        };
        start.begins(year, self.calendar)
    }

    /// What a day is called by it: the number of its year, and the month and day. The year may differ from the historical one.
    pub fn year_of(&self, day: Day) -> i32 {
        let historical = self.calendar.date(day).year;
        let holds = |y: &i32| self.year(*y).is_some_and(|days| days.contains(day));
        (historical - 1..=historical + 1).find(holds).unwrap_or(historical)
    }
}
