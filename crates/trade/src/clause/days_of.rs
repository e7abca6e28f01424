//! The days of one element of a clause under one reckoning.

use super::element::{Element, Side};
use super::set::{DaySet, FIRST_YEAR_READ, LAST_YEAR_READ};
use super::style::{Reckoning, YearStart};
use super::{both, freedom, latin};
use crate::calendar::{Calendar, Day, DayRange, FIRST_REPUBLICAN_YEAR, RepublicanDate, RepublicanMonth};
use crate::reigns::{self, Counting, REIGNS, Realm, Reign, Sovereign, joint_year};
use julian::{Month, Weekday};

/// The days of one element, a plain year being moved by so many years.
pub(crate) fn days_of_shifted(
    element: &Element,
    reckoning: &Reckoning,
    counting: Counting,
    shift: i32,
) -> DaySet {
    match element {
        Element::Year { year, .. } if shift != 0 => of_year(reckoning, year + shift),
        _ => days_of(element, reckoning, counting),
    }
}

/// The days of one element.
pub(crate) fn days_of(element: &Element, reckoning: &Reckoning, counting: Counting) -> DaySet {
    let calendar = reckoning.calendar;
    match element {
        Element::Weekday(weekday) => DaySet::of_weekday(*weekday),
        Element::Day { day, month } => DaySet::of_day(calendar, *month, *day),
        Element::BothStyles { old, new, old_year } => both::days(*old, *new, *old_year),
        Element::Freedom(number) => {
            let mut set = DaySet::none();
            if let Some(days) = freedom::days(*number) {
                set.add(days);
            }
            set
        }
        Element::Month(month) => every_year(|year| [month_days(calendar, year, *month), None]),
        Element::LastOf(month) => {
            every_year(|year| [month_days(calendar, year, *month).map(|days| DayRange::one(days.last)), None])
        }
        Element::Roman { anchor, count, month } => every_year(|year| {
            latin::days(*anchor, *count, *month, year, calendar).map(|day| day.map(DayRange::one))
        }),
        Element::Feast { feast, shift } => every_year(|year| {
            let days = feast.days(year, calendar).unwrap_or([None, None]);
            days.map(|day| day.map(|d| DayRange::one(d.plus(shift.days()))))
        }),
        Element::Beside { weekday, side, feast } => every_year(|year| {
            let days = feast.days(year, calendar).unwrap_or([None, None]);
            days.map(|day| day.map(|d| DayRange::one(beside(d, *weekday, *side))))
        }),
        Element::Term(term) => {
            every_year(|year| [term.days(year).ok().and_then(|t| DayRange::new(t.first, t.last)), None])
        }
        Element::Year { year, .. } => of_year(reckoning, *year),
        Element::DoubleYear { legal } => double_year(calendar, *legal),
        Element::Reign { sovereigns, number, queen } => {
            of_reign(sovereigns, *number, *queen, (reckoning.realm, counting))
        }
        Element::Republican(date) => {
            let mut set = DaySet::none();
            if let Some(day) = date.to_day() {
                set.put(day);
            }
            set
        }
        Element::RepublicanYear(year) => republican_year(*year),
        Element::Style { .. } => DaySet::all(),
    }
}

/// The days that a rule gives for every year, days being named by years from 1 January. Feasts moved over the new year come from
/// the years beside.
fn every_year(rule: impl Fn(i32) -> [Option<DayRange>; 2]) -> DaySet {
    let mut set = DaySet::none();
    for year in FIRST_YEAR_READ - 1..=LAST_YEAR_READ + 1 {
        for range in rule(year).into_iter().flatten() {
            set.add(range);
        }
    }
    set
}

fn of_year(reckoning: &Reckoning, year: i32) -> DaySet {
    let mut set = DaySet::none();
    if (FIRST_YEAR_READ..=LAST_YEAR_READ).contains(&year)
        && let Some(days) = reckoning.year(year)
    {
        set.add(days);
    }
    set
}

/// What is both in the legal year from Lady Day and in the historical year after it; from 1 January where the double year tells of
/// Old and New Style otherwise.
fn double_year(calendar: Calendar, legal: i32) -> DaySet {
    let by = |start| Reckoning::plain(calendar, start, "");
    let mut set = of_year(&by(YearStart::LadyDay), legal);
    set.keep(&of_year(&by(YearStart::January), legal + 1));
    set
}

fn month_days(calendar: Calendar, year: i32, month: Month) -> Option<DayRange> {
    let first = calendar.day(year, month, 1).ok()?;
    let last = (28..=31).rev().find_map(|day| calendar.day(year, month, day).ok())?;
    DayRange::new(first, last)
}

/// The last such weekday before a day, or the first after it.
fn beside(day: Day, weekday: Weekday, side: Side) -> Day {
    match side {
        Side::After => day.plus(1).on_or_after(weekday),
        Side::Before => day.plus(-7).on_or_after(weekday),
    }
}

/// The days of a year of those reigns, or of any of the realm. Scotland had its own kings to 1625, and then England's.
fn of_reign(
    sovereigns: &[Sovereign],
    number: u32,
    queen: Option<u32>,
    (realm, counting): (Realm, Counting),
) -> DaySet {
    let mut set = DaySet::none();
    if let Some(queen) = queen {
        if let Some(days) = joint_year(number, queen) {
            set.add(days);
        }
        return set;
    }
    for reign in REIGNS {
        let counting = if sovereigns.is_empty() && !is_read_both_ways(reign.sovereign) {
            Counting::Usual
        } else {
            counting
        };
        let is_named = sovereigns == [reign.sovereign];
        let is_of_realm = reign.realm == realm
            || realm == Realm::Scotland
                && reign.first_day() >= Reign::of(Sovereign::Charles).map_or(Day::LAST, Reign::first_day);
        // Where nobody is named Victoria is not meant, who came after the hand press.
        let is_possible = sovereigns.is_empty() && reign.sovereign != Sovereign::Victoria
            || sovereigns.contains(&reign.sovereign);
        if (is_named || is_possible && is_of_realm)
            && let Some(days) = reigns::year(reign.sovereign, number, counting)
        {
            set.add(days);
        }
    }
    set
}

fn republican_year(year: u32) -> DaySet {
    let mut set = DaySet::none();
    let first = RepublicanDate { year, month: RepublicanMonth::Vendemiaire, day: 1 };
    let last = |day| RepublicanDate { year, month: RepublicanMonth::Complementary, day };
    if year >= FIRST_REPUBLICAN_YEAR
        && let (Some(first), Some(last)) =
            (first.to_day(), [6, 5].into_iter().find_map(|day| last(day).to_day()))
        && let Some(days) = DayRange::new(first, last)
    {
        set.add(days);
    }
    set
}

/// Whether a reign is counted both ways where nobody is named.
pub(super) fn is_read_both_ways(sovereign: Sovereign) -> bool {
    sovereign.counts().is_some_and(|c| c.is_in_handbooks)
}
