//! The table of damages by impressions, and what is known of each impression's year.

use std::collections::BTreeSet;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// Most impressions of one block that are taken: work grows with impressions times damages at every step.
pub const MOST_IMPRESSIONS: usize = 200;
/// Most damages of one block that are taken.
pub const MOST_DAMAGES: usize = 2000;

/// Whether an impression shows a damage.
///
/// `Unclear` is for what the ink or the paper does not let one judge: a cell that filled with ink, a fold, a crop. It is
/// left out of every sum, as missing at random given the ink; so it must not be used for "rather absent".
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Sighting {
    /// The damage is there.
    Present,
    /// The wood prints whole where the damage would be.
    Absent,
    /// It cannot be judged.
    Unclear,
}

/// What is known of the year of an impression, in whole years of the common era.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case", tag = "known")]
pub enum Dated {
    /// Nothing.
    #[default]
    Unknown,
    /// The year.
    Exactly {
        /// The year.
        year: i32,
    },
    /// Two years between which it lies, both included.
    Between {
        /// The first year that it can be.
        from: i32,
        /// The last year that it can be.
        to: i32,
    },
    /// It is no earlier than this year.
    NotBefore {
        /// The first year that it can be.
        year: i32,
    },
    /// It is no later than this year.
    NotAfter {
        /// The last year that it can be.
        year: i32,
    },
}

/// One impression of the block.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Impression {
    /// What the caller calls it; no two alike.
    pub name: String,
    /// What is known of its year.
    #[serde(default)]
    pub dated: Dated,
}

/// One damage of the block and where it is seen.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Damage {
    /// What the caller calls it; no two alike.
    pub name: String,
    /// One for each impression, in the order of the table.
    pub seen: Vec<Sighting>,
}

/// A table that cannot be used.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum TableError {
    /// An order needs two. Add impressions.
    #[error("{found} impression given: an order needs at least two")]
    TooFewImpressions {
        /// How many there were.
        found: usize,
    },
    /// Nothing to go by. Add damages.
    #[error("no damage given: without one the impressions cannot be put in order")]
    NoDamage,
    /// More than is taken. Leave some out.
    #[error("{found} {what} given, at most {most} are taken: leave some out")]
    TooMany {
        /// "impressions" or "damages".
        what: &'static str,
        /// How many there were.
        found: usize,
        /// How many are taken.
        most: usize,
    },
    /// A row has too few or too many cells. Give one for each impression.
    #[error(
        "damage \"{damage}\" (row {row}) has {found} cells, and there are {expected} impressions: give one cell for each"
    )]
    RowLength {
        /// The damage.
        damage: String,
        /// Its row, from 1.
        row: usize,
        /// Cells found.
        found: usize,
        /// Cells expected.
        expected: usize,
    },
    /// Two of a name cannot be told apart. Rename one.
    #[error("two {what} are called \"{name}\", the second at {place}: give each a name of its own")]
    NameTwice {
        /// "impressions" or "damages".
        what: &'static str,
        /// The name.
        name: String,
        /// The place of the second, from 1.
        place: usize,
    },
    /// A range that ends before it begins. Exchange the years, or correct one.
    #[error(
        "impression \"{impression}\" (column {column}) is dated between {from} and {to}, which is no range: the first year must not be later than the second"
    )]
    EmptyRange {
        /// The impression.
        impression: String,
        /// Its column, from 1.
        column: usize,
        /// The first year.
        from: i32,
        /// The second.
        to: i32,
    },
    /// A year out of all reason. Correct it.
    #[error("impression \"{impression}\" (column {column}) is dated {year}: years from 1 to 9999 are taken")]
    NoYear {
        /// The impression.
        impression: String,
        /// Its column, from 1.
        column: usize,
        /// The year.
        year: i32,
    },
}

/// Damages by impressions: checked, so that every row has a cell for every impression and every range a year.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Table {
    impressions: Vec<Impression>,
    damages: Vec<Damage>,
}

impl Table {
    /// Takes a table.
    ///
    /// # Errors
    /// Every [`TableError`]; the first fault found, and where.
    pub fn new(impressions: Vec<Impression>, damages: Vec<Damage>) -> Result<Self, TableError> {
        if impressions.len() < 2 {
            return Err(TableError::TooFewImpressions { found: impressions.len() });
        }
        if damages.is_empty() {
            return Err(TableError::NoDamage);
        }
        for (what, found, most) in
            [("impressions", impressions.len(), MOST_IMPRESSIONS), ("damages", damages.len(), MOST_DAMAGES)]
        {
            if found > most {
                return Err(TableError::TooMany { what, found, most });
            }
        }
        no_name_twice("impressions", impressions.iter().map(|i| i.name.as_str()))?;
        no_name_twice("damages", damages.iter().map(|d| d.name.as_str()))?;
        for (i, impression) in impressions.iter().enumerate() {
            impression.check(i + 1)?;
        }
        let expected = impressions.len();
        if let Some((row, damage)) = damages.iter().enumerate().find(|(_, d)| d.seen.len() != expected) {
            let (damage, found) = (damage.name.clone(), damage.seen.len());
            return Err(TableError::RowLength { damage, row: row + 1, found, expected });
        }
        Ok(Self { impressions, damages })
    }

    /// The impressions, in the caller's order.
    pub fn impressions(&self) -> &[Impression] {
        &self.impressions
    }

    /// The damages, in the caller's order.
    pub fn damages(&self) -> &[Damage] {
        &self.damages
    }

    /// What an impression shows of a damage; both counted from 0.
    ///
    /// # Panics
    /// When there is no such damage or impression.
    pub fn cell(&self, damage: usize, impression: usize) -> Sighting {
        self.damages[damage].seen[impression]
    }

    /// The name of an impression, counted from 0.
    pub(crate) fn name(&self, impression: usize) -> &str {
        &self.impressions[impression].name
    }

    /// Damages that at least one impression shows: others say nothing of order or age.
    pub(crate) fn seen_damages(&self) -> Vec<usize> {
        let is_seen = |d: &usize| self.damages[*d].seen.contains(&Sighting::Present);
        (0..self.damages.len()).filter(is_seen).collect()
    }
}

impl Impression {
    /// The first and last year that it can be, where known.
    pub(crate) fn years(&self) -> (Option<i32>, Option<i32>) {
        match self.dated {
            Dated::Unknown => (None, None),
            Dated::Exactly { year } => (Some(year), Some(year)),
            Dated::Between { from, to } => (Some(from), Some(to)),
            Dated::NotBefore { year } => (Some(year), None),
            Dated::NotAfter { year } => (None, Some(year)),
        }
    }

    fn check(&self, column: usize) -> Result<(), TableError> {
        let (from, to) = self.years();
        let impression = || self.name.clone();
        if let Some(year) = [from, to].into_iter().flatten().find(|year| !(1..=9999).contains(year)) {
            return Err(TableError::NoYear { impression: impression(), column, year });
        }
        match (from, to) {
            (Some(from), Some(to)) if from > to => {
                Err(TableError::EmptyRange { impression: impression(), column, from, to })
            }
            _ => Ok(()),
        }
    }
}

fn no_name_twice<'n>(what: &'static str, names: impl Iterator<Item = &'n str>) -> Result<(), TableError> {
    let mut met = BTreeSet::new();
    for (i, name) in names.enumerate() {
        if !met.insert(name) {
            return Err(TableError::NameTwice { what, name: name.to_owned(), place: i + 1 });
        }
    }
    Ok(())
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    /// A table of rows such as "01?", its impressions named A, B, C and its damages 1, 2, 3.
    pub(crate) fn table(rows: &[&str]) -> Table {
        dated(rows, &vec![Dated::Unknown; rows[0].len()])
    }

    /// The same with years.
    pub(crate) fn dated(rows: &[&str], years: &[Dated]) -> Table {
        let impressions =
            years.iter().enumerate().map(|(i, &dated)| Impression { name: name(i), dated }).collect();
        let damages = rows.iter().enumerate().map(|(d, row)| row_of(&(d + 1).to_string(), row)).collect();
        Table::new(impressions, damages).unwrap()
    }

    fn name(i: usize) -> String {
        let letter = char::from(b'A' + (i % 26) as u8);
        if i < 26 { letter.to_string() } else { format!("{letter}{}", i / 26) }
    }

    fn row_of(name: &str, row: &str) -> Damage {
        let seen = row.chars().map(|c| match c {
            '1' => Sighting::Present,
            '0' => Sighting::Absent,
            _ => Sighting::Unclear,
        });
        Damage { name: name.to_owned(), seen: seen.collect() }
    }

    fn impressions(n: usize) -> Vec<Impression> {
        (0..n).map(|i| Impression { name: name(i), dated: Dated::Unknown }).collect()
    }

    fn error(impressions: Vec<Impression>, damages: Vec<Damage>) -> String {
        Table::new(impressions, damages).unwrap_err().to_string()
    }

    #[test]
    fn a_bad_table_is_refused_and_the_error_says_what_and_where() {
        let one = || vec![row_of("crack by the sail", "01")];
        assert_eq!(error(impressions(1), one()), "1 impression given: an order needs at least two");
        assert!(error(impressions(2), vec![]).contains("no damage"));
        assert_eq!(
            error(impressions(3), one()),
            "damage \"crack by the sail\" (row 1) has 2 cells, and there are 3 impressions: give one cell for each"
        );
        assert!(
            error(impressions(2), [one(), one()].concat())
                .contains("two damages are called \"crack by the sail\", the second at 2")
        );
        let mut two = impressions(2);
        two[1].dated = Dated::Between { from: 1650, to: 1640 };
        assert_eq!(
            error(two.clone(), one()),
            "impression \"B\" (column 2) is dated between 1650 and 1640, which is no range: the first year must not be \
             later than the second"
        );
        two[1].dated = Dated::NotBefore { year: -3 };
        assert!(error(two, one()).contains("is dated -3"));
        assert!(error(impressions(201), vec![row_of("x", &"0".repeat(201))]).contains("at most 200"));
    }

    #[test]
    fn years_are_read_from_plain_json() {
        let read: Dated = serde_json::from_str(r#"{"known":"between","from":1610,"to":1615}"#).unwrap();
        assert_eq!(read, Dated::Between { from: 1610, to: 1615 });
        let read: Impression = serde_json::from_str(r#"{"name":"A"}"#).unwrap();
        assert_eq!(read.dated, Dated::Unknown);
    }
}
