//! Dates held against each other, and the smallest set of slips by which they could agree.

use super::conflict::{Conflict, Worlds, conflicts};
use super::mend::Mended;
use super::sheet::Sheet;
use super::statement::{Part, Statement};
use crate::calendar::{Calendar, Day, DayRange, Month};
use crate::clause::{DaySet, Element, Place, ReadingOfDays, Reckoning};
use crate::numerals::HAND_PRESS;
use std::ops::RangeInclusive;
use thiserror::Error;

/// Most dates of one sheet that are held against each other, and most parts in them: work grows with the third power of the parts.
pub const MOST_STATEMENTS: usize = 12;
const MOST_PARTS: usize = 24;
/// Slips at most by which dates are reconciled: with more anything could be explained.
pub(super) const MOST_SLIPS: usize = 3;
/// Remedies at most that are given.
pub(super) const MOST_REMEDIES: usize = 12;

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
