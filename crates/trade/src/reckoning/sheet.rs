//! A sheet under every reckoning: when all its dates agree, and which slips would make them agree.

use super::conflict::choices;
use super::mend::{Mended, Way, ways};
use super::reconcile::{MOST_REMEDIES, MOST_SLIPS, Remedy};
use super::statement::{Part, Statement};
use crate::calendar::{Day, DayRange};
use crate::clause::{
    DaySet, Element, Place, ReadingOfDays, Reckoning, countings_of, days_of_shifted, names_both_styles,
    names_january, reckonings, reckonings_of,
};
use crate::reigns::Counting;
use std::ops::RangeInclusive;

/// The days of every part under one reckoning and way of counting.
pub(super) struct World {
    reckoning: Reckoning,
    counting: Counting,
    /// By how many years a year beside Kalends of January is moved: 0, or -1 where it is that January's.
    shift: i32,
    pub(super) sets: Vec<DaySet>,
}

pub(super) struct Sheet<'a> {
    statements: &'a [Statement],
    parts: &'a [Part],
    place: Place,
    pub(super) worlds: Vec<World>,
}

impl<'a> Sheet<'a> {
    pub(super) fn new(statements: &'a [Statement], parts: &'a [Part], place: Place) -> Self {
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
        let by = match () {
            () if has_own_style => reckonings_of(&elements, self.place),
            () if names_both_styles(&elements) => {
                [vec![world.reckoning], reckonings(Place::NewStyle)].concat()
            }
            () => vec![world.reckoning],
        };
        let of = |element: &Element| {
            let mut all = DaySet::none();
            for reckoning in &by {
                all.join(&days_of_shifted(element, reckoning, world.counting, shift));
            }
            all
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

    pub(super) fn agreement(&self, window: Option<&DaySet>) -> Vec<ReadingOfDays> {
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
    pub(super) fn remedies(
        &self,
        limiting: &[usize],
        between: &RangeInclusive<i32>,
        window: &DaySet,
    ) -> Vec<Remedy> {
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
    pub(super) fn left_out(&self, limiting: &[usize], window: &DaySet) -> Vec<usize> {
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
