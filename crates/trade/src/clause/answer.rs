//! Which days satisfy a clause.

use super::element::{Anchor, Element, Side};
use super::grammar::Clause;
use super::latin;
use super::set::{DaySet, FIRST_YEAR_READ, LAST_YEAR_READ};
use super::style::{Place, Reckoning, YearStart, reckonings};
use crate::calendar::{Calendar, Day, DayRange, FIRST_REPUBLICAN_YEAR, RepublicanDate, RepublicanMonth};
use crate::reigns::{self, Counting, REIGNS, Realm, Reign, Sovereign, joint_year};
use julian::{Month, Weekday};

/// Days that satisfy a clause, and by which reckonings.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadingOfDays {
    /// The days; at least one.
    pub days: DaySet,
    /// The reckonings that yield them.
    pub reckonings: Vec<Reckoning>,
    /// The ways of counting a reign that yield them, where scholars differ and it matters.
    pub countings: Vec<Counting>,
    /// Whether a year beside Kalends of January is taken as the year of that January, so that the day lies in the year before.
    pub year_of_january: bool,
}

/// What a clause says.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// Every set of days it can mean, those of the first reckoning first. Empty where nothing satisfies it.
    pub readings: Vec<ReadingOfDays>,
    /// The reckonings that were tried, those of the place unless the clause says Old or New Style.
    pub tried: Vec<Reckoning>,
}

impl Answer {
    /// All days of all readings.
    pub fn days(&self) -> DaySet {
        let mut all = DaySet::none();
        for reading in &self.readings {
            all.join(&reading.days);
        }
        all
    }
}

/// The reckonings by which a clause is read: those of the place, or, where it says Old or New Style, those.
pub(crate) fn reckonings_of(elements: &[&Element], place: Place) -> Vec<Reckoning> {
    let style = elements.iter().find_map(|e| match e {
        Element::Style { is_new } => Some(*is_new),
        _ => None,
    });
    match style {
        None => reckonings(place),
        Some(true) => reckonings(Place::NewStyle),
        Some(false) => vec![
            Reckoning::plain(
                Calendar::JULIAN,
                YearStart::LadyDay,
                "Old Style, the year from Lady Day, 25 March",
            ),
            Reckoning::plain(Calendar::JULIAN, YearStart::January, "Old Style, the year from 1 January"),
        ],
    }
}

/// The ways of counting reigns that matter for these elements. Where nobody is named, only the usual way is taken.
pub(crate) fn countings_of(elements: &[&Element]) -> &'static [Counting] {
    let matters = elements.iter().any(|e| match e {
        Element::Reign { sovereigns, .. } => sovereigns.iter().any(|s| s.counts().is_some()),
        _ => false,
    });
    if matters { &Counting::ALL } else { &[Counting::Usual] }
}

/// The days that satisfy a clause, from 1400 to 1900, under each reckoning of a place.
pub fn days(clause: &Clause, place: Place) -> Answer {
    let elements: Vec<&Element> = clause.elements.iter().map(|p| &p.element).collect();
    let tried = reckonings_of(&elements, place);
    let mut readings: Vec<ReadingOfDays> = Vec::new();
    let countings = countings_of(&elements);
    let shifts: &[i32] = if names_january(&elements) { &[0, -1] } else { &[0] };
    for &shift in shifts {
        for &reckoning in &tried {
            for &counting in countings {
                let mut all = DaySet::all();
                for element in &elements {
                    all.keep(&days_of_shifted(element, &reckoning, counting, shift));
                }
                if all.is_empty() {
                    continue;
                }
                let year_of_january = shift != 0;
                let known =
                    readings.iter_mut().find(|r| r.year_of_january == year_of_january && r.days == all);
                if let Some(reading) = known {
                    if !reading.reckonings.contains(&reckoning) {
                        reading.reckonings.push(reckoning);
                    }
                    if !reading.countings.contains(&counting) {
                        reading.countings.push(counting);
                    }
                } else {
                    readings.push(ReadingOfDays {
                        days: all,
                        reckonings: vec![reckoning],
                        countings: vec![counting],
                        year_of_january,
                    });
                }
            }
        }
    }
    Answer { readings, tried }
}

/// Whether days before the Kalends of January stand beside a plain year, which may be that January's.
pub(crate) fn names_january(elements: &[&Element]) -> bool {
    let before = |e: &&Element| {
        matches!(e, Element::Roman { anchor: Anchor::Kalends, count: 2.., month: Month::January })
    };
    elements.iter().any(before) && elements.iter().any(|e| matches!(e, Element::Year { .. }))
}

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
