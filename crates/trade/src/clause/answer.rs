//! Which days satisfy a clause.

use super::days_of::{days_of_shifted, is_read_both_ways};
use super::element::{Anchor, Element};
use super::grammar::Clause;
use super::place::{Place, reckonings};
use super::set::DaySet;
use super::style::{Reckoning, YearStart};
use crate::calendar::Calendar;
use crate::reigns::{Counting, REIGNS};
use julian::Month;

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

/// The reckonings by which a clause is read: those of the place, or, where it says Old or New Style, those. Where a day is named
/// in both styles, the year beside it may be the New Style's too.
pub(crate) fn reckonings_of(elements: &[&Element], place: Place) -> Vec<Reckoning> {
    let style = elements.iter().find_map(|e| match e {
        Element::Style { is_new } => Some(*is_new),
        _ => None,
    });
    match style {
        None if names_both_styles(elements) => {
            let mut all = reckonings(place);
            all.extend(
                reckonings(Place::NewStyle).into_iter().filter(|new| !all.contains(new)).collect::<Vec<_>>(),
            );
            all
        }
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

/// The ways of counting reigns that matter for these elements. Where nobody is named, those that handbooks give are tried.
pub(crate) fn countings_of(elements: &[&Element]) -> &'static [Counting] {
    let matters = elements.iter().any(|e| match e {
        Element::Reign { sovereigns, number, queen: None } if sovereigns.is_empty() => {
            REIGNS.iter().any(|r| is_read_both_ways(r.sovereign) && r.sovereign.is_disputed(*number))
        }
        Element::Reign { sovereigns, number, queen: None } => {
            sovereigns.iter().any(|s| s.is_disputed(*number))
        }
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

/// Whether a day is named in both styles.
pub(crate) fn names_both_styles(elements: &[&Element]) -> bool {
    elements.iter().any(|e| matches!(e, Element::BothStyles { .. }))
}

/// Whether days before the Kalends of January stand beside a plain year, which may be that January's.
pub(crate) fn names_january(elements: &[&Element]) -> bool {
    let before = |e: &&Element| {
        matches!(e, Element::Roman { anchor: Anchor::Kalends, count: 2.., month: Month::January })
    };
    elements.iter().any(before) && elements.iter().any(|e| matches!(e, Element::Year { .. }))
}
