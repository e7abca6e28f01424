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

/// Where, and so by which reckonings, a clause may have been dated.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// England, Wales, Ireland and the colonies.
    England,
    /// Scotland: the year from 1 January from 1600 on.
    Scotland,
    /// France: the year from Easter to 1566, from 1567 from 1 January; New Style from 20 December 1582.
    France,
    /// Florence: the year from 25 March to 1749; New Style from 15 October 1582.
    Florence,
    /// Pisa: the year from the 25 March before, to 1749.
    Pisa,
    /// Venice: the year from 1 March.
    Venice,
    /// Anywhere with the year from 1 January and the Old Style.
    OldStyle,
    /// Anywhere with the year from 1 January and the New Style.
    NewStyle,
    /// The year from Christmas, Old Style: parts of Germany.
    Christmas,
    /// The year from 1 September, Old Style.
    September,
}

impl Place {
    /// All.
    pub const ALL: [Self; 10] = [
        Self::England,
        Self::Scotland,
        Self::France,
        Self::Florence,
        Self::Pisa,
        Self::Venice,
        Self::OldStyle,
        Self::NewStyle,
        Self::Christmas,
        Self::September,
    ];

    /// As it is asked for.
    pub const fn name(self) -> &'static str {
        match self {
            Self::England => "england",
            Self::Scotland => "scotland",
            Self::France => "france",
            Self::Florence => "florence",
            Self::Pisa => "pisa",
            Self::Venice => "venice",
            Self::OldStyle => "old-style",
            Self::NewStyle => "new-style",
            Self::Christmas => "christmas",
            Self::September => "september",
        }
    }
}

/// First day of the New Style in Italy, 15 October 1582, and in France, 20 December 1582, as Julian day numbers.
const ITALY: i32 = 2_299_161;
const FRANCE: i32 = 2_299_227;

/// The reckonings by which a clause from there is read, the legal one first. England has two, because printers and private
/// persons also counted from 1 January: both years are then possible for 1 January to 24 March.
///
/// England and Scotland: the Calendar (New Style) Act and an article on it. The others are from memory, after Cheney and Jones,
/// *Handbook of Dates*, not seen; for France sources give 1564 to 1567, and 1567 is taken, when the edict was obeyed at Paris.
pub fn reckonings(place: Place) -> Vec<Reckoning> {
    let changing =
        |number| Day::from_number(number).and_then(Calendar::changing).unwrap_or(Calendar::GREGORIAN);
    let one = |calendar, start, january_from, name| {
        vec![Reckoning { calendar, start, january_from, realm: Realm::England, name }]
    };
    match place {
        Place::England => vec![
            Reckoning {
                calendar: Calendar::british(),
                start: YearStart::LadyDay,
                january_from: Some(1752),
                realm: Realm::England,
                name: "the legal year in England, from Lady Day, 25 March (to 1751)",
            },
            Reckoning::plain(Calendar::british(), YearStart::January, "the year from 1 January"),
        ],
        Place::Scotland => vec![Reckoning {
            calendar: Calendar::british(),
            start: YearStart::LadyDay,
            january_from: Some(1600),
            realm: Realm::Scotland,
            name: "the year in Scotland, from Lady Day to 1599, then from 1 January",
        }],
        Place::France => one(
            changing(FRANCE),
            YearStart::Easter,
            Some(1567),
            "the year in France, from Easter to 1566, then from 1 January",
        ),
        Place::Florence => one(
            changing(ITALY),
            YearStart::LadyDay,
            Some(1750),
            "the year at Florence, from Lady Day (to 1749)",
        ),
        Place::Pisa => one(
            changing(ITALY),
            YearStart::LadyDayBefore,
            Some(1750),
            "the year at Pisa, from the Lady Day before (to 1749)",
        ),
        Place::Venice => {
            one(changing(ITALY), YearStart::March, Some(1798), "the year at Venice, from 1 March")
        }
        Place::OldStyle => {
            one(Calendar::JULIAN, YearStart::January, None, "Old Style, the year from 1 January")
        }
        Place::NewStyle => {
            one(Calendar::GREGORIAN, YearStart::January, None, "New Style, the year from 1 January")
        }
        Place::Christmas => {
            one(Calendar::JULIAN, YearStart::Christmas, None, "Old Style, the year from Christmas")
        }
        Place::September => {
            one(Calendar::JULIAN, YearStart::September, None, "Old Style, the year from 1 September")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(place: Place, year: i32) -> String {
        let reckoning = reckonings(place)[0];
        let days = reckoning.year(year).unwrap();
        let name = |day| reckoning.calendar.date(day).to_string();
        format!("{} - {}", name(days.first), name(days.last))
    }

    #[test]
    fn when_years_began() {
        assert_eq!(told(Place::England, 1648), "25 March 1648 - 24 March 1649");
        // 24 Geo. 2 c. 23: 31 December 1751 was followed by 1 January 1752; by arithmetic 282 days, and 355 in 1752.
        assert_eq!(told(Place::England, 1751), "25 March 1751 - 31 December 1751");
        assert_eq!(reckonings(Place::England)[0].year(1751).unwrap().days(), 282);
        assert_eq!(reckonings(Place::England)[0].year(1752).unwrap().days(), 355);
        assert_eq!(told(Place::Scotland, 1599), "25 March 1599 - 31 December 1599");
        assert_eq!(told(Place::Scotland, 1600), "1 January 1600 - 31 December 1600");
        assert_eq!(told(Place::Pisa, 1500), "25 March 1499 - 24 March 1500");
        assert_eq!(told(Place::Venice, 1500), "1 March 1500 - 28 February 1501");
        assert_eq!(told(Place::France, 1550), "6 April 1550 - 28 March 1551");
        assert_eq!(told(Place::Christmas, 1500), "25 December 1499 - 24 December 1500");
        assert_eq!(told(Place::September, 1500), "1 September 1499 - 31 August 1500");
    }

    #[test]
    fn the_number_of_a_days_year() {
        let day = Calendar::JULIAN.day(1649, Month::January, 30).unwrap();
        let [legal, historical] = reckonings(Place::England)[..] else { panic!("two") };
        assert_eq!((legal.year_of(day), historical.year_of(day)), (1648, 1649));
        assert_eq!(reckonings(Place::Pisa)[0].year_of(day), 1649);
        let summer = Calendar::JULIAN.day(1649, Month::June, 1).unwrap();
        assert_eq!(reckonings(Place::Pisa)[0].year_of(summer), 1650);
    }
}
