//! Dates held against each other, and the smallest set of slips by which they could agree.

use super::conflict::{Conflict, Worlds, choices, conflicts};
use super::mend::{Mended, Way, ways};
use super::statement::{Part, Statement};
use crate::calendar::{Calendar, Day, DayRange, Month};
use crate::clause::{
    DaySet, Element, Place, ReadingOfDays, Reckoning, countings_of, days_of_shifted, names_january,
    reckonings, reckonings_of,
};
use crate::numerals::HAND_PRESS;
use crate::reigns::Counting;
use std::ops::RangeInclusive;
use thiserror::Error;

/// Most dates of one sheet that are held against each other, and most parts in them: work grows with the third power of the parts.
pub const MOST_STATEMENTS: usize = 12;
const MOST_PARTS: usize = 24;
/// Slips at most by which dates are reconciled: with more anything could be explained.
const MOST_SLIPS: usize = 3;
/// Remedies at most that are given.
const MOST_REMEDIES: usize = 12;

/// What is held before the dates are looked at.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Request {
    /// Where the sheet was printed, and so how it may be dated.
    pub place: Place,
    /// Years in which it can have been printed; `None` for those of the hand press, and then only mended years are held to them.
    pub between: Option<RangeInclusive<i32>>,
}

impl Default for Request {
    fn default() -> Self {
        Self { place: Place::England, between: None }
    }
}

/// Why dates cannot be held against each other.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ReckoningError {
    /// There is none.
    #[error("there is no date to hold against others; give the dates of the sheet")]
    None,
    /// There are too many.
    #[error(
        "{statements} dates with {parts} parts are too many; give the {MOST_STATEMENTS} that matter most, with at most {MOST_PARTS} parts"
    )]
    TooMany {
        /// How many dates.
        statements: usize,
        /// How many parts.
        parts: usize,
    },
    /// A window of years that is empty.
    #[error("no year lies from {from} to {to}; give the earlier year first, as 1640..1720")]
    EmptyWindow {
        /// Its beginning.
        from: i32,
        /// Its end.
        to: i32,
    },
}

/// One way of making the dates agree.
#[derive(Debug, Clone, PartialEq)]
pub struct Remedy {
    /// The slips that it takes for granted: one for each part that is mended.
    pub slips: Vec<Mended>,
    /// The days on which the sheet can then have been printed.
    pub days: DaySet,
    /// The reckonings under which it holds.
    pub reckonings: Vec<Reckoning>,
    /// Its share of belief among the remedies of as few slips, from 0 to 1: the house's proposal of how often each slip is made.
    pub plausibility: f64,
}

/// What came of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Reconciled {
    /// All parts of all statements, in order.
    pub parts: Vec<Part>,
    /// The days on which all are true, by reckoning; empty where they contradict each other.
    pub agreement: Vec<ReadingOfDays>,
    /// The smallest conflicts.
    pub conflicts: Vec<Conflict>,
    /// Remedies of as few slips as will do, the likeliest first; empty where all agree, or where three slips do not do.
    pub remedies: Vec<Remedy>,
    /// Parts that must be left out for the rest to agree, where no slips explain them: as few as will do.
    pub left_out: Vec<usize>,
    /// Whether the window of years that was given is what they contradict.
    pub outside_window: bool,
}

/// Holds the dates of a sheet against each other.
///
/// Every part limits the days on which the sheet can have been printed; they agree when some day satisfies all, under one
/// reckoning. If none does, one part after another is mended by one slip, then two, then three, until the rest agrees.
///
/// # Errors
/// No date, too many, or an empty window.
pub fn reconcile(statements: &[Statement], request: &Request) -> Result<Reconciled, ReckoningError> {
    let parts = parts(statements);
    if parts.is_empty() {
        return Err(ReckoningError::None);
    }
    if statements.len() > MOST_STATEMENTS || parts.len() > MOST_PARTS {
        return Err(ReckoningError::TooMany { statements: statements.len(), parts: parts.len() });
    }
    let mended_within = request.between.clone().unwrap_or(HAND_PRESS);
    if mended_within.is_empty() {
        return Err(ReckoningError::EmptyWindow { from: *mended_within.start(), to: *mended_within.end() });
    }
    let window = window(&mended_within);
    let given = request.between.as_ref().map(|_| &window);
    let sheet = Sheet::new(statements, &parts, request.place);
    let agreement = sheet.agreement(given);
    if !agreement.is_empty() {
        let nothing = (Vec::new(), Vec::new(), Vec::new());
        return Ok(Reconciled {
            parts,
            agreement,
            conflicts: nothing.0,
            remedies: nothing.1,
            left_out: nothing.2,
            outside_window: false,
        });
    }
    let outside_window = given.is_some() && !sheet.agreement(None).is_empty();
    let limiting: Vec<usize> =
        (0..parts.len()).filter(|&p| !matches!(parts[p].placed.element, Element::Style { .. })).collect();
    // A licence limits as a whole, so that one of its parts stands for it.
    let is_first = |p: &usize| {
        let of = parts[*p].statement;
        statements[of].role.is_of_printing()
            || limiting.iter().find(|q| parts[**q].statement == of) == Some(p)
    };
    let standing: Vec<usize> = limiting.iter().copied().filter(is_first).collect();
    let worlds: Worlds = sheet.worlds.iter().map(|w| w.sets.clone()).collect();
    let conflicts = conflicts(&worlds, &standing);
    let remedies = sheet.remedies(&limiting, &mended_within, &window);
    let left_out = if remedies.is_empty() { sheet.left_out(&standing, &window) } else { Vec::new() };
    Ok(Reconciled { parts, agreement, conflicts, remedies, left_out, outside_window })
}

fn parts(statements: &[Statement]) -> Vec<Part> {
    let of = |(statement, s): (usize, &Statement)| {
        let all: Vec<Part> =
            s.elements.iter().map(|placed| Part { statement, placed: placed.clone() }).collect();
        all
    };
    statements.iter().enumerate().flat_map(of).collect()
}

/// The days of a window of years: those of the historical years in either calendar, and the legal year that ends after them.
fn window(years: &RangeInclusive<i32>) -> DaySet {
    let mut set = DaySet::none();
    let first = Calendar::GREGORIAN.day(*years.start(), Month::January, 1).unwrap_or(Day::FIRST);
    let last = Calendar::JULIAN.day(*years.end(), Month::December, 31).unwrap_or(Day::LAST);
    let early = Calendar::JULIAN.day(*years.start(), Month::January, 1).unwrap_or(Day::FIRST);
    if let Some(range) = DayRange::new(first.min(early), last) {
        set.add(range);
    }
    set
}

/// The days of every part under one reckoning and way of counting.
struct World {
    reckoning: Reckoning,
    counting: Counting,
    /// By how many years a year beside Kalends of January is moved: 0, or -1 where it is that January's.
    shift: i32,
    sets: Vec<DaySet>,
}

struct Sheet<'a> {
    statements: &'a [Statement],
    parts: &'a [Part],
    place: Place,
    worlds: Vec<World>,
}

impl<'a> Sheet<'a> {
    fn new(statements: &'a [Statement], parts: &'a [Part], place: Place) -> Self {
        let mut sheet = Self { statements, parts, place, worlds: Vec::new() };
        let elements: Vec<&Element> = parts.iter().map(|p| &p.placed.element).collect();
        let is_january = statements.iter().any(|s| names_january(&elements_of(s)));
        for &shift in if is_january { &[0, -1][..] } else { &[0] } {
            for reckoning in reckonings(place) {
                for &counting in countings_of(&elements) {
                    let mut world = World { reckoning, counting, shift, sets: Vec::new() };
                    world.sets =
                        parts.iter().map(|p| sheet.printing_days(p, &p.placed.element, &world)).collect();
                    sheet.worlds.push(world);
                }
            }
        }
        sheet
    }

    /// The days on which the sheet can have been printed for all that one part says, being this element.
    fn printing_days(&self, part: &Part, element: &Element, world: &World) -> DaySet {
        let statement = &self.statements[part.statement];
        let elements = elements_of(statement);
        let shift = if names_january(&elements) { world.shift } else { 0 };
        let has_own_style = elements.iter().any(|e| matches!(e, Element::Style { .. }));
        let of = |element: &Element| {
            if has_own_style {
                let mut all = DaySet::none();
                for own in reckonings_of(&elements, self.place) {
                    all.join(&days_of_shifted(element, &own, world.counting, shift));
                }
                all
            } else {
                days_of_shifted(element, &world.reckoning, world.counting, shift)
            }
        };
        if statement.role.is_of_printing() {
            return of(element);
        }
        // A licence of 3 May 1680 limits as a whole, not each of its parts: the part's own days, with the other parts as they are.
        let mut whole = of(element);
        for other in elements.iter().filter(|e| **e != &part.placed.element) {
            whole.keep(&of(other));
        }
        let mut set = DaySet::none();
        let (Some(first), Some(last)) = (whole.first(), whole.last()) else { return set };
        let range = match statement.role {
            super::Role::NotAfter => DayRange::new(Day::FIRST, last),
            _ => DayRange::new(first, Day::LAST),
        };
        if let Some(range) = range {
            set.add(range);
        }
        set
    }

    fn agreement(&self, window: Option<&DaySet>) -> Vec<ReadingOfDays> {
        let mut readings: Vec<ReadingOfDays> = Vec::new();
        for world in &self.worlds {
            let all: Vec<usize> = (0..self.parts.len()).collect();
            let mut days = together(world, &all);
            if let Some(window) = window {
                days.keep(window);
            }
            if days.is_empty() {
                continue;
            }
            let year_of_january = world.shift != 0;
            match readings.iter_mut().find(|r| r.days == days && r.year_of_january == year_of_january) {
                Some(reading) => {
                    put(&mut reading.reckonings, world.reckoning);
                    put(&mut reading.countings, world.counting);
                }
                None => readings.push(ReadingOfDays {
                    days,
                    reckonings: vec![world.reckoning],
                    countings: vec![world.counting],
                    year_of_january,
                }),
            }
        }
        readings
    }

    /// Remedies of as few slips as will do.
    fn remedies(&self, limiting: &[usize], between: &RangeInclusive<i32>, window: &DaySet) -> Vec<Remedy> {
        let all_ways: Vec<Vec<Way>> = self.parts.iter().map(|p| ways(&p.placed.element, between)).collect();
        for count in 1..=MOST_SLIPS.min(limiting.len()) {
            let mut found: Vec<Remedy> = Vec::new();
            for wrong in choices(limiting, count) {
                if wrong.iter().any(|p| all_ways[*p].is_empty()) || self.is_twice_in_one_licence(&wrong) {
                    continue;
                }
                let right = self.right(&wrong);
                for world in &self.worlds {
                    let mut rest = together(world, &right);
                    rest.keep(window);
                    if !rest.is_empty() {
                        self.mend(world, &wrong, &all_ways, (&rest, Vec::new(), 1.0), &mut found);
                    }
                }
            }
            if !found.is_empty() {
                return ranked(found);
            }
        }
        Vec::new()
    }

    /// The parts that stand when these are wrong. The others of a licence limit together with the wrong one, once it is mended.
    fn right(&self, wrong: &[usize]) -> Vec<usize> {
        let goes_with = |p: usize| {
            let of = self.parts[p].statement;
            !self.statements[of].role.is_of_printing() && wrong.iter().any(|w| self.parts[*w].statement == of)
        };
        (0..self.parts.len()).filter(|&p| !wrong.contains(&p) && !goes_with(p)).collect()
    }

    /// Two slips in one licence or event are not looked for.
    fn is_twice_in_one_licence(&self, wrong: &[usize]) -> bool {
        wrong.iter().enumerate().any(|(i, p)| {
            let of = self.parts[*p].statement;
            !self.statements[of].role.is_of_printing()
                && wrong[..i].iter().any(|q| self.parts[*q].statement == of)
        })
    }

    /// Mends the wrong parts one after another, keeping what is still possible.
    fn mend(
        &self,
        world: &World,
        wrong: &[usize],
        all_ways: &[Vec<Way>],
        (rest, slips, weight): (&DaySet, Vec<Mended>, f64),
        found: &mut Vec<Remedy>,
    ) {
        let Some((&part, others)) = wrong.split_first() else {
            put_remedy(found, slips, rest, world.reckoning, weight);
            return;
        };
        for way in &all_ways[part] {
            let mut days = self.printing_days(&self.parts[part], &way.element, world);
            days.keep(rest);
            if days.is_empty() {
                continue;
            }
            let mut slips = slips.clone();
            slips.push(Mended {
                part,
                set: self.parts[part].placed.words.clone(),
                meant: way.meant.clone(),
                reason: way.reason.clone(),
            });
            self.mend(world, others, all_ways, (&days, slips, weight * way.weight), found);
        }
    }

    /// As few parts as must be left out for the rest to agree.
    fn left_out(&self, limiting: &[usize], window: &DaySet) -> Vec<usize> {
        for count in 1..limiting.len() {
            for wrong in choices(limiting, count) {
                let right = self.right(&wrong);
                let agrees = self.worlds.iter().any(|world| together(world, &right).meets(window));
                if agrees {
                    return wrong;
                }
            }
        }
        limiting.to_vec()
    }
}

fn elements_of(statement: &Statement) -> Vec<&Element> {
    statement.elements.iter().map(|p| &p.element).collect()
}

fn together(world: &World, parts: &[usize]) -> DaySet {
    let mut all = DaySet::all();
    for &part in parts {
        all.keep(&world.sets[part]);
    }
    all
}

fn put<T: PartialEq>(list: &mut Vec<T>, new: T) {
    if !list.contains(&new) {
        list.push(new);
    }
}

/// Adds a remedy, or the reckoning to the same remedy under another.
fn put_remedy(found: &mut Vec<Remedy>, slips: Vec<Mended>, days: &DaySet, reckoning: Reckoning, weight: f64) {
    match found.iter_mut().find(|r| r.slips == slips) {
        Some(known) => {
            known.days.join(days);
            put(&mut known.reckonings, reckoning);
        }
        None => {
            found.push(Remedy {
                slips,
                days: days.clone(),
                reckonings: vec![reckoning],
                plausibility: weight,
            });
        }
    }
}

fn ranked(mut found: Vec<Remedy>) -> Vec<Remedy> {
    let whole: f64 = found.iter().map(|r| r.plausibility).sum();
    for remedy in &mut found {
        remedy.plausibility /= whole;
    }
    found.sort_by(|a, b| b.plausibility.total_cmp(&a.plausibility));
    found.truncate(MOST_REMEDIES);
    found
}
