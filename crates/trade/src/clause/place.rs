//! Where a clause was dated, and so by which reckonings.

use super::style::{Reckoning, YearStart};
use crate::calendar::{Calendar, Day};
use crate::reigns::Realm;

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

    /// What it stands for, in a line.
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::England => "The year from Lady Day (25 March) or from 1 January; Old Style to 1752",
            Self::Scotland => "The year from 1 January from 1600 on; Old Style to 1752",
            Self::France => "The year from Easter to 1566; New Style from December 1582",
            Self::Florence => "The year from Lady Day to 1749; New Style from 1582",
            Self::Pisa => "The year from the Lady Day before, to 1749; New Style from 1582",
            Self::Venice => "The year from 1 March; New Style from 1582",
            Self::OldStyle => "Anywhere: Old Style, the year from 1 January",
            Self::NewStyle => "Anywhere: New Style, the year from 1 January",
            Self::Christmas => "Anywhere: Old Style, the year from Christmas",
            Self::September => "Anywhere: Old Style, the year from 1 September",
        }
    }

    /// The place that is asked for by this name.
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|place| place.name() == name)
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
    use crate::calendar::Month;

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
