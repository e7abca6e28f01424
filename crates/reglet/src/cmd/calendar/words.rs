//! Days, stretches of days and parts of dates in words.

use trade::calendar::{Calendar, Day, DayRange, RepublicanDate};
use trade::clause::{Anchor, Element, Reckoning, Side, YearStart};
use trade::reigns::{Counting, Held, reigns_on};

/// A day as a historian of England writes it: 30 January 1648/9 where the legal year was the one before, else 30 January 1649.
pub(in crate::cmd) fn english(day: Day) -> String {
    let date = Calendar::british().date(day);
    if date.is_before_lady_day() && (1100..=1751).contains(&date.year) {
        let next = date.year % 100;
        let second = if next % 10 == 0 { format!("{next:02}") } else { (next % 10).to_string() };
        let second = if next == 0 { date.year.to_string() } else { second };
        format!("{} {} {}/{second}", date.day, date.month.name(), date.year - 1)
    } else {
        date.to_string()
    }
}

/// A day in its own style with the other in brackets.
pub(in crate::cmd) fn day_words(day: Day, reckoning: &Reckoning) -> String {
    let calendar = reckoning.calendar;
    let is_british = calendar == Calendar::british();
    let own = if is_british { english(day) } else { calendar.date(day).to_string() };
    let weekday = day.weekday().name();
    if calendar.is_gregorian_on(day) {
        format!("{weekday} {own} New Style{}", reign_words(day, is_british))
    } else {
        let new = Calendar::GREGORIAN.date(day);
        format!("{weekday} {own} Old Style ({new} New Style){}", reign_words(day, is_british))
    }
}

fn reign_words(day: Day, is_british: bool) -> String {
    let all = if is_british { citations(day) } else { Vec::new() };
    if all.is_empty() { String::new() } else { format!(", {}", all.join(", ")) }
}

/// The year of every reign a day lies in, as statutes cite it; both numbers where handbooks count in two ways: "28 (or 29) Geo. 2".
pub(in crate::cmd) fn citations(day: Day) -> Vec<String> {
    let others = reigns_on(day, Counting::Other);
    let told = |h: Held| {
        let is_counted_both_ways = h.reign.sovereign.counts().is_some_and(|c| c.is_in_handbooks);
        let other = others.iter().find(|o| o.reign.sovereign == h.reign.sovereign && o.number != h.number);
        match (h.queen, other.filter(|_| is_counted_both_ways)) {
            (Some(queen), _) => format!("{} & {queen} {}", h.number, h.reign.abbreviation),
            (None, Some(other)) => format!("{} (or {}) {}", h.number, other.number, h.reign.abbreviation),
            (None, None) => format!("{} {}", h.number, h.reign.abbreviation),
        }
    };
    reigns_on(day, Counting::Usual).into_iter().map(told).collect()
}

/// A stretch of days.
pub(in crate::cmd) fn stretch_words(range: DayRange, reckoning: &Reckoning) -> String {
    if range.first == range.last {
        return day_words(range.first, reckoning);
    }
    let is_british = reckoning.calendar == Calendar::british();
    let own = |day| if is_british { english(day) } else { reckoning.calendar.date(day).to_string() };
    let style = if reckoning.calendar.is_gregorian_on(range.last) { "New Style" } else { "Old Style" };
    format!("{} to {} {style} ({} days)", own(range.first), own(range.last), range.days())
}

/// What a part of a date was read as.
pub(in crate::cmd) fn element_words(element: &Element) -> String {
    match element {
        Element::Weekday(weekday) => format!("a {}", weekday.name()),
        Element::Day { day, month } => format!("{day} {}", month.name()),
        Element::BothStyles { old, new, old_year } => {
            let name = |(day, month): &(u32, trade::calendar::Month)| format!("{day} {}", month.name());
            let years = old_year.map_or_else(String::new, |y| format!(", in {y} and {}", y + 1));
            format!("one day, {} Old Style and {} New Style{years}", name(old), name(new))
        }
        Element::Month(month) => format!("the month of {}", month.name()),
        Element::LastOf(month) => format!("the last day of {}", month.name()),
        Element::Roman { anchor, count, month } => {
            let anchor = match anchor {
                Anchor::Kalends => "Kalends",
                Anchor::Nones => "Nones",
                Anchor::Ides => "Ides",
            };
            match count {
                1 => format!("the {anchor} of {}", month.name()),
                2 => format!("the day before the {anchor} of {}", month.name()),
                n => format!("day {n} before the {anchor} of {}, both ends counted", month.name()),
            }
        }
        Element::Feast { feast, shift } => format!("{}{}", shift.name(), feast.name),
        Element::Beside { weekday, side, feast } => {
            let side = if *side == Side::After { "next after" } else { "next before" };
            format!("the {} {side} {}", weekday.name(), feast.name)
        }
        Element::Term(term) => term.name().to_owned(),
        Element::Year { year, .. } => format!("the year {year}"),
        Element::DoubleYear { legal } => format!(
            "the double year {legal}/{}: {legal} from Lady Day, {} from 1 January",
            legal + 1,
            legal + 1
        ),
        Element::Reign { sovereigns, number, queen } => {
            let names: Vec<&str> =
                sovereigns.iter().filter_map(|s| trade::reigns::Reign::of(*s)).map(|r| r.name).collect();
            let whose =
                if names.is_empty() { "a reign; whose, is not said".to_owned() } else { names.join(" or ") };
            match queen {
                Some(queen) => format!("years {number} and {queen} of {whose}"),
                None => format!("year {number} of {whose}"),
            }
        }
        Element::Freedom(number) => format!("year {number} of freedom, as the Commonwealth counted"),
        Element::Republican(date) => format!("{date} of the French Republic"),
        Element::RepublicanYear(year) => format!("year {year} of the French Republic"),
        Element::Style { is_new: true } => "New Style".to_owned(),
        Element::Style { is_new: false } => "Old Style".to_owned(),
    }
}

/// A date of the French Republic, for days that have one.
pub(in crate::cmd) fn republican(day: Day) -> Option<String> {
    RepublicanDate::of(day).map(|d| d.to_string())
}

/// The numbers that the legal year in England and the historical year give a day.
pub(in crate::cmd) fn years_of(day: Day) -> (i32, i32) {
    let date = Calendar::british().date(day);
    let plain = Reckoning::plain(Calendar::british(), YearStart::LadyDay, "");
    let legal = if date.year >= 1752 { date.year } else { plain.year_of(day) };
    (legal, date.year)
}

#[cfg(test)]
mod tests {
    use super::*;
    use trade::calendar::Month;

    #[test]
    fn both_numbers_where_a_reign_is_counted_in_two_ways() {
        let on = |y, m, d| citations(Calendar::british().day(y, m, d).unwrap());
        assert_eq!(on(1755, Month::June, 15), ["28 (or 29) Geo. 2"]);
        assert_eq!(on(1755, Month::June, 10), ["28 Geo. 2"]);
        assert_eq!(on(1673, Month::June, 10), ["25 Car. 2"]);
    }

    #[test]
    fn double_years_as_they_are_written() {
        let on = |y, m, d| english(Calendar::british().day(y, m, d).unwrap());
        assert_eq!(on(1649, Month::January, 30), "30 January 1648/9");
        assert_eq!(on(1650, Month::March, 24), "24 March 1649/50");
        assert_eq!(on(1700, Month::March, 1), "1 March 1699/1700");
        assert_eq!(on(1649, Month::March, 25), "25 March 1649");
        assert_eq!(on(1752, Month::January, 1), "1 January 1752");
    }
}
