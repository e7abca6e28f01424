//! When each country took the New Style.

use super::{Calendar, Day};

/// One country, or part of one, and its last day in the Old Style.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Adoption {
    /// The country as it is named in English.
    pub place: &'static str,
    /// Other names by which it may be asked for, in lower case.
    pub also: &'static [&'static str],
    /// Year, month and day of the last day in the Old Style.
    last_julian: (i32, u32, u32),
    /// What else must be known, and where sources disagree.
    pub note: &'static str,
    /// Where it was seen.
    pub source: &'static str,
}

impl Adoption {
    /// The last day in the Old Style.
    pub fn last_old(&self) -> Option<Day> {
        let (year, month, day) = self.last_julian;
        Calendar::JULIAN.day(year, super::month_by_number(month)?, day).ok()
    }

    /// The first day in the New Style.
    pub fn first_new(&self) -> Option<Day> {
        self.last_old().map(|day| day.plus(1))
    }

    /// How days were named there: Julian, then Gregorian.
    pub fn calendar(&self) -> Calendar {
        self.first_new().and_then(Calendar::changing).unwrap_or(Calendar::GREGORIAN)
    }
}

/// Lists of adoption seen on the web: sizes.com, "Adoption of the Gregorian calendar"; the Round Tower observatory, Copenhagen
/// (E. Poulsen), "The transition from Julian to Gregorian Calendar". Where both were seen to agree both are named.
const BOTH: &str = "lists of sizes.com and of E. Poulsen, Round Tower, Copenhagen";
const SIZES: &str = "list of sizes.com";
const TOWER: &str = "list of E. Poulsen, Round Tower, Copenhagen";

macro_rules! adopted {
    ($place:expr, $also:expr, $last:expr, $note:expr, $source:expr) => {
        Adoption { place: $place, also: $also, last_julian: $last, note: $note, source: $source }
    };
}

/// Countries and the day after which the New Style began there.
pub const ADOPTIONS: &[Adoption] = &[
    adopted!(
        "Rome and most of Italy",
        &["italy", "rome", "papal states", "milan", "venice", "florence", "naples"],
        (1582, 10, 4),
        "Florence and Pisa went on beginning the year with Lady Day, Venice with 1 March",
        BOTH
    ),
    adopted!(
        "Spain",
        &["castile", "aragon"],
        (1582, 10, 4),
        "its possessions overseas about a year later",
        BOTH
    ),
    adopted!("Portugal", &[], (1582, 10, 4), "", BOTH),
    adopted!(
        "Poland",
        &["cracow"],
        (1582, 10, 4),
        "Catholic parts; sizes.com gives 21 December 1585 for some of it",
        TOWER
    ),
    adopted!(
        "France",
        &["paris", "lyon", "lyons", "lorraine"],
        (1582, 12, 9),
        "Alsace followed in 1682, Strasbourg with it; from 1793 to 1805 the calendar of the Republic was in force",
        BOTH
    ),
    adopted!(
        "Zeeland and Brabant",
        &["zeeland", "brabant", "antwerp", "flanders"],
        (1582, 12, 14),
        "sources disagree for Flanders and the south, by up to seventeen days",
        SIZES
    ),
    adopted!(
        "The southern Netherlands",
        &["belgium", "hainaut", "limburg", "southern netherlands"],
        (1582, 12, 20),
        "or a day later; sources disagree",
        SIZES
    ),
    adopted!(
        "Holland",
        &["netherlands", "amsterdam", "leiden", "leyden"],
        (1583, 1, 1),
        "E. Poulsen's list has 21 December 1582",
        SIZES
    ),
    adopted!(
        "Liège",
        &["liege"],
        (1583, 2, 10),
        "",
        "list of adoption dates in a mirror of an encyclopaedia"
    ),
    adopted!(
        "Bavaria",
        &["munich", "augsburg", "salzburg", "tyrol"],
        (1583, 10, 5),
        "Catholic states of Germany took it from 1583 to 1585, each on its own day",
        BOTH
    ),
    adopted!("Carinthia and Styria", &["carinthia", "styria", "graz"], (1583, 12, 14), "", BOTH),
    adopted!("Bohemia and Moravia", &["bohemia", "moravia", "prague"], (1584, 1, 6), "", BOTH),
    adopted!("Silesia", &["breslau"], (1584, 1, 12), "", TOWER),
    adopted!(
        "Catholic Switzerland",
        &["lucerne"],
        (1584, 1, 11),
        "sizes.com gives another day for the cantons",
        TOWER
    ),
    adopted!("Hungary", &[], (1587, 10, 21), "", TOWER),
    adopted!("Transylvania", &[], (1590, 12, 14), "", TOWER),
    adopted!(
        "The duchy of Prussia",
        &["prussia", "koenigsberg", "königsberg"],
        (1610, 8, 22),
        "one list seen has 1612",
        TOWER
    ),
    adopted!(
        "Strasbourg and Alsace",
        &["strasbourg", "alsace"],
        (1682, 2, 5),
        "",
        "list in a Russian book on the calendar"
    ),
    adopted!(
        "Protestant Germany",
        &["germany", "saxony", "leipzig", "hamburg", "frankfurt", "nuremberg", "brandenburg"],
        (1700, 2, 18),
        "its Easter was reckoned otherwise until 1776",
        TOWER
    ),
    adopted!("Denmark and Norway", &["denmark", "norway", "copenhagen"], (1700, 2, 18), "", TOWER),
    adopted!(
        "Gelderland",
        &["guelders"],
        (1700, 6, 30),
        "the name of the province is from memory; the day is seen",
        TOWER
    ),
    adopted!("Utrecht and Overijssel", &["utrecht", "overijssel"], (1700, 11, 30), "", TOWER),
    adopted!(
        "Friesland and Groningen",
        &["friesland", "groningen", "frisia"],
        (1700, 12, 31),
        "Groningen had tried it from 1583 to 1594",
        BOTH
    ),
    adopted!("Drenthe", &[], (1701, 4, 30), "", "list of adoption dates in a mirror of an encyclopaedia"),
    adopted!(
        "Protestant Switzerland",
        &["switzerland", "zurich", "zürich", "bern", "basel", "geneva"],
        (1700, 12, 31),
        "St Gallen, Glarus and others later",
        TOWER
    ),
    adopted!(
        "Great Britain, Ireland and the colonies",
        &[
            "england",
            "britain",
            "great britain",
            "scotland",
            "wales",
            "ireland",
            "america",
            "london",
            "colonies"
        ],
        (1752, 9, 2),
        "England began the year with 1 January only from 1752 on, Scotland from 1600 on",
        "Calendar (New Style) Act 1750, 24 Geo. 2 c. 23"
    ),
    adopted!(
        "Sweden and Finland",
        &["sweden", "finland", "stockholm"],
        (1753, 2, 17),
        "from 1 March 1700 to 30 February 1712 Sweden had a calendar of its own, a day ahead of the Julian",
        "list of E. Poulsen, and others"
    ),
    adopted!(
        "Russia",
        &["moscow", "saint petersburg", "st petersburg"],
        (1918, 1, 31),
        "outside the hand press",
        "list in a Russian book on the calendar"
    ),
];

/// The country of this name, in any case; also by a part of its name or by a town in the list.
pub fn adoption(name: &str) -> Option<&'static Adoption> {
    let wanted = name.trim().to_lowercase();
    let wanted = wanted.strip_prefix("the ").unwrap_or(&wanted);
    if wanted.is_empty() {
        return None;
    }
    let exact = |a: &&Adoption| {
        let place = a.place.to_lowercase();
        place.strip_prefix("the ").unwrap_or(&place) == wanted || a.also.contains(&wanted)
    };
    ADOPTIONS
        .iter()
        .find(exact)
        .or_else(|| ADOPTIONS.iter().find(|a| a.place.to_lowercase().split(' ').any(|word| word == wanted)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_is_a_day_and_skips_ten_to_thirteen() {
        for row in ADOPTIONS {
            let (old, new) = (row.last_old().unwrap(), row.first_new().unwrap());
            let calendar = row.calendar();
            assert_eq!(calendar.date(old), Calendar::JULIAN.date(old), "{}", row.place);
            assert_eq!(calendar.date(new), Calendar::GREGORIAN.date(new), "{}", row.place);
            assert!(!row.source.is_empty(), "{}", row.place);
        }
    }

    #[test]
    fn days_of_the_week_on_which_it_began() {
        // Weekdays as the Round Tower's list prints them.
        let first = |name: &str| {
            let row = adoption(name).unwrap();
            let day = row.first_new().unwrap();
            format!("{} {}", day.weekday().name(), Calendar::GREGORIAN.date(day))
        };
        assert_eq!(first("Italy"), "Friday 15 October 1582");
        assert_eq!(first("france"), "Monday 20 December 1582");
        assert_eq!(first("Bavaria"), "Sunday 16 October 1583");
        assert_eq!(first("Styria"), "Sunday 25 December 1583");
        assert_eq!(first("Bohemia"), "Tuesday 17 January 1584");
        assert_eq!(first("Silesia"), "Monday 23 January 1584");
        assert_eq!(first("Hungary"), "Sunday 1 November 1587");
        assert_eq!(first("transylvania"), "Tuesday 25 December 1590");
        assert_eq!(first("the duchy of Prussia"), "Thursday 2 September 1610");
        assert_eq!(first("Denmark"), "Monday 1 March 1700");
        assert_eq!(first("Gelderland"), "Monday 12 July 1700");
        assert_eq!(first("Utrecht"), "Sunday 12 December 1700");
        assert_eq!(first("Friesland"), "Wednesday 12 January 1701");
        assert_eq!(first("England"), "Thursday 14 September 1752");
        assert_eq!(adoption("nowhere"), None);
        assert_eq!(adoption(" "), None);
    }
}
