//! What a numeral may have been meant to say.

use super::form::Form;
use super::read::{Numeral, System};
use super::slips::{Slip, undone};
use super::value::subtracted;
use std::collections::BTreeMap;
use std::ops::RangeInclusive;

/// The years of the hand press, as this house takes them.
pub const HAND_PRESS: RangeInclusive<i32> = 1450..=1830;

/// What is held before the numeral is looked at.
#[derive(Debug, Clone, PartialEq)]
pub struct Prior {
    /// The years in which the sheet can have been printed, every one as likely as any other.
    pub between: RangeInclusive<i32>,
    /// The share of dates that were set as they were meant, above 0 and below 1. No count is published; this is the house's
    /// proposal.
    pub sound: f64,
}

impl Default for Prior {
    fn default() -> Self {
        Self { between: HAND_PRESS, sound: 0.97 }
    }
}

/// One thing that a numeral may have been meant to say.
#[derive(Debug, Clone, PartialEq)]
pub struct Meant {
    /// The year.
    pub year: i32,
    /// How it would have been set, in plain letters or figures.
    pub as_set: String,
    /// The slip that explains what was set instead; `None` where it was set as meant.
    pub slip: Option<Slip>,
    /// The way in which it is counted.
    pub system: System,
    /// The share of belief that falls to this year, from 0 to 1, all that are listed making 1: the prior, the kind of slip, and
    /// how regular the numeral then is. Grounds for looking further, not a proof.
    pub plausibility: f64,
}

/// How readily a printer set a numeral of this form (the house's proposal; no counts are published).
fn use_of(form: Form) -> f64 {
    match form {
        Form::Regular => 1.0,
        Form::Additive => 0.6,
        Form::Bold => 0.15,
        Form::Irregular => 0.01,
    }
}

/// The belief that letters in an irregular order were meant to be added, against the ordinary rule.
const ADDED: f64 = 0.002;

const LETTERS: [char; 7] = ['I', 'V', 'X', 'L', 'C', 'D', 'M'];
const FIGURES: [char; 10] = ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9'];

/// Everything that a numeral may have been meant to say within the years of the prior, the likeliest first: as it stands, and
/// with one slip undone. Empty when no year in the window is within one slip.
///
/// ```
/// use trade::numerals::{Prior, meant, read};
/// let told = meant(&read("MDDCI").unwrap(), &Prior::default());
/// assert_eq!((told[0].year, told[0].as_set.as_str()), (1701, "MDCCI"));
/// assert_eq!(told[1].year, 1601);
/// ```
pub fn meant(numeral: &Numeral, prior: &Prior) -> Vec<Meant> {
    let mut found = Ranking::new(prior);
    for reading in &numeral.readings {
        let weight = match reading.system {
            System::Subtraction => use_of(numeral.form),
            System::Addition if numeral.form == Form::Irregular => ADDED,
            System::Addition => ADDED * use_of(numeral.form),
            System::Multiplication => use_of(Form::Additive),
        };
        found.add(i64::from(reading.value), &numeral.plain, None, reading.system, prior.sound * weight);
    }
    let set: Vec<char> = numeral.plain.chars().collect();
    if set.iter().all(|c| LETTERS.contains(c)) {
        let slips = undone(&set, &LETTERS).into_iter().map(|(sorts, slip)| {
            let values: Vec<u32> = sorts.iter().filter_map(|&c| super::symbols::letter_value(c)).collect();
            let weight = slip.share() * use_of(super::form::form(&values));
            (subtracted(&values) as i64, sorts, slip, weight)
        });
        found.add_slips(slips.collect(), System::Subtraction);
    }
    found.ranked()
}

/// The same of a year in arabic figures: `figures` holds nothing else, or the answer is empty.
pub fn arabic_meant(figures: &str, prior: &Prior) -> Vec<Meant> {
    let set: Vec<char> = figures.chars().collect();
    let number = |sorts: &[char]| sorts.iter().collect::<String>().parse::<i64>().ok();
    let mut found = Ranking::new(prior);
    if set.is_empty() || set.len() > 6 || !set.iter().all(char::is_ascii_digit) {
        return Vec::new();
    }
    if let Some(year) = number(&set) {
        found.add(year, figures, None, System::Addition, prior.sound);
    }
    let slips = undone(&set, &FIGURES)
        .into_iter()
        .filter_map(|(sorts, slip)| number(&sorts).map(|year| (year, sorts, slip, slip.share())));
    found.add_slips(slips.collect(), System::Addition);
    found.ranked()
}

/// Years with the best explanation of each, and the weight of all its explanations together.
struct Ranking<'a> {
    prior: &'a Prior,
    years: BTreeMap<i64, (f64, Meant, f64)>,
}

impl<'a> Ranking<'a> {
    fn new(prior: &'a Prior) -> Self {
        Self { prior, years: BTreeMap::new() }
    }

    fn is_within(&self, year: i64) -> bool {
        (i64::from(*self.prior.between.start())..=i64::from(*self.prior.between.end())).contains(&year)
    }

    /// Adds what slips explain: all of them together, within the window or not, have the share of dates that are not sound.
    fn add_slips(&mut self, slips: Vec<(i64, Vec<char>, Slip, f64)>, system: System) {
        let whole: f64 = slips.iter().map(|(.., weight)| weight).sum();
        for (year, sorts, slip, weight) in slips {
            if self.is_within(year) {
                let as_set: String = sorts.iter().collect();
                self.add(year, &as_set, Some(slip), system, (1.0 - self.prior.sound) * weight / whole);
            }
        }
    }

    fn add(&mut self, year: i64, as_set: &str, slip: Option<Slip>, system: System, weight: f64) {
        let Ok(short) = i32::try_from(year) else { return };
        if !self.is_within(year) {
            return;
        }
        let meant = || Meant { year: short, as_set: as_set.to_owned(), slip, system, plausibility: 0.0 };
        let entry = self.years.entry(year).or_insert_with(|| (0.0, meant(), weight));
        entry.0 += weight;
        if weight > entry.2 {
            (entry.1, entry.2) = (meant(), weight);
        }
    }

    fn ranked(self) -> Vec<Meant> {
        let whole: f64 = self.years.values().map(|(w, ..)| w).sum();
        let mut all: Vec<Meant> = self
            .years
            .into_values()
            .map(|(weight, meant, _)| Meant { plausibility: weight / whole, ..meant })
            .collect();
        all.sort_by(|a, b| b.plausibility.total_cmp(&a.plausibility).then(a.year.cmp(&b.year)));
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerals::read;

    fn told(text: &str) -> Vec<Meant> {
        meant(&read(text).unwrap(), &Prior::default())
    }

    #[test]
    fn plausibilities_make_one() {
        for text in ["MDDCI", "MDCCI", "DMLII", "MDCCIM", "CIↃ IↃ CXX"] {
            let all = told(text);
            assert!((all.iter().map(|m| m.plausibility).sum::<f64>() - 1.0).abs() < 1e-9, "{text}");
            assert!(all.iter().all(|m| HAND_PRESS.contains(&m.year)));
        }
    }

    #[test]
    fn the_window_decides() {
        let numeral = read("MDDCI").unwrap();
        let narrow = Prior { between: 1590..=1620, ..Prior::default() };
        assert_eq!(meant(&numeral, &narrow)[0].year, 1601);
        let none = Prior { between: 300..=400, ..Prior::default() };
        assert!(meant(&numeral, &none).is_empty());
    }

    #[test]
    fn figures_are_turned_and_exchanged() {
        let all = arabic_meant("1071", &Prior::default());
        assert!(all.iter().any(|m| m.year == 1701 && m.slip.unwrap().kind() == "transposed"), "{all:?}");
        let all = arabic_meant("1966", &Prior::default());
        assert!(all.iter().any(|m| m.year == 1666 && m.slip.unwrap().kind() == "turned"), "{all:?}");
        assert_eq!(arabic_meant("1701", &Prior::default())[0].slip, None);
        assert!(arabic_meant("17O1", &Prior::default()).is_empty());
        assert!(arabic_meant("", &Prior::default()).is_empty());
    }

    #[test]
    fn a_c_that_was_not_turned() {
        let all = told("CIↃ IC XLIX");
        let turned = all.iter().find(|m| m.year == 1549).unwrap();
        assert!(matches!(turned.slip, Some(Slip::Turned { .. })), "{turned:?}");
    }
}
