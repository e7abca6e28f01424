//! Items and copies as a table in CSV.

use std::collections::BTreeMap;

use super::{CountOf, Counts, CountsError};

/// Why a table is not taken.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TableError {
    /// The first line does not name the columns.
    #[error(
        "line 1 names the columns {found}; it must name \"item\" and \"copies\" (a number each), or \"item\" and \"copy\" (a line for each copy)"
    )]
    Columns {
        /// What it names.
        found: String,
    },
    /// A number that cannot be read.
    #[error(
        "line {line}: \"{found}\" is no number of copies; write a whole number, 0 for an item of which none survives"
    )]
    NoNumber {
        /// The line, from 1.
        line: u64,
        /// What stands there.
        found: String,
    },
    /// An item without a name.
    #[error(
        "line {line}: the item has no name; give each edition one, so that its copies can be put together"
    )]
    NoName {
        /// The line, from 1.
        line: u64,
    },
    /// The same item on two lines of numbers.
    #[error("line {line}: \"{item}\" stands on line {before} already; put its copies together on one line")]
    Twice {
        /// The line, from 1.
        line: u64,
        /// Where it stood before.
        before: u64,
        /// The item.
        item: String,
    },
    /// The table is broken.
    #[error(
        "line {line}: this is no line of a table ({what}); each line needs as many cells as the first, parted by commas"
    )]
    Broken {
        /// The line, from 1.
        line: u64,
        /// What the reader of tables says.
        what: String,
    },
    /// The counts are not taken.
    #[error(transparent)]
    Counts(#[from] CountsError),
}

impl Counts {
    /// Reads a table with a line for each item and its number of copies (`item,copies`), or a line for each copy
    /// (`item,copy`; a line with an empty copy is an item of which none survives). Other columns are let be; so is whatever
    /// stands before the first line as a mark of Unicode.
    ///
    /// # Errors
    /// With the line and the remedy.
    pub fn from_csv(text: &str) -> Result<Self, TableError> {
        let text = text.trim_start_matches('\u{feff}');
        let mut reader =
            csv::ReaderBuilder::new().trim(csv::Trim::All).comment(Some(b'#')).from_reader(text.as_bytes());
        let broken = |e: &csv::Error| TableError::Broken {
            line: e.position().map_or(1, csv::Position::line),
            what: what_is_broken(e),
        };
        let headers = reader.headers().map_err(|e| broken(&e))?.clone();
        let column = |name: &str| headers.iter().position(|h| h.eq_ignore_ascii_case(name));
        let (item, copies, copy) = (column("item"), column("copies"), column("copy"));
        let (item, counted) = match (item, copies, copy) {
            (Some(item), Some(copies), _) => (item, Counted::Number(copies)),
            (Some(item), None, Some(copy)) => (item, Counted::Each(copy)),
            _ => {
                let named: Vec<String> = headers.iter().take(8).map(|h| format!("{h:?}")).collect();
                return Err(TableError::Columns { found: named.join(", ") });
            }
        };
        let mut of: BTreeMap<String, (u32, u64)> = BTreeMap::new();
        for row in reader.records() {
            let row = row.map_err(|e| broken(&e))?;
            let line = row.position().map_or(0, csv::Position::line);
            let name = row.get(item).unwrap_or_default().to_owned();
            if name.is_empty() {
                return Err(TableError::NoName { line });
            }
            match counted {
                Counted::Number(at) => {
                    let found = row.get(at).unwrap_or_default();
                    let number = found.parse::<u32>().map_err(|_| TableError::NoNumber {
                        line,
                        found: found.chars().take(24).collect(),
                    })?;
                    if let Some((_, before)) = of.get(&name) {
                        return Err(TableError::Twice { line, before: *before, item: name });
                    }
                    of.insert(name, (number, line));
                }
                Counted::Each(at) => {
                    let is_there = row.get(at).is_some_and(|c| !c.is_empty());
                    of.entry(name).or_insert((0, line)).0 += u32::from(is_there);
                }
            }
        }
        Ok(Self::new(of.values().map(|&(copies, _)| CountOf { copies, items: 1 }))?)
    }
}

/// How copies are counted, and in which column.
enum Counted {
    /// A number on each line.
    Number(usize),
    /// A line for each.
    Each(usize),
}

/// What is wrong with a line, in words.
pub(crate) fn what_is_broken(error: &csv::Error) -> String {
    match error.kind() {
        csv::ErrorKind::UnequalLengths { expected_len, len, .. } => {
            format!("{len} cells where the first line has {expected_len}")
        }
        csv::ErrorKind::Utf8 { .. } => "it is not text in UTF-8".to_owned(),
        _ => "it cannot be read".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_kinds_of_table_count_alike() {
        let numbers =
            Counts::from_csv("item,place,copies\nOrder of 1641,Hallow,2\nBallad,Merrin,1\nBill,,0\n")
                .unwrap();
        let each = Counts::from_csv(
            "\u{feff}copy,item\nHallow 1,Order of 1641\nMerrin,Ballad\n\"Hallow, 2\",Order of 1641\n,Bill",
        );
        assert_eq!(numbers, each.unwrap());
        assert_eq!((numbers.items(), numbers.copies(), numbers.known_lost()), (2, 3, 1));
    }

    #[test]
    fn what_is_wrong_is_told_with_its_line() {
        let told = |text: &str| Counts::from_csv(text).unwrap_err().to_string();
        assert!(told("a,b\n1,2").starts_with("line 1 names the columns \"a\", \"b\""));
        assert!(told("item,copies\nx,two").starts_with("line 2: \"two\" is no number of copies"));
        assert!(told("item,copies\nx,1\nx,2").starts_with("line 3: \"x\" stands on line 2 already"));
        assert!(told("item,copies\nx,1\ny").contains("1 cells where the first line has 2"));
        assert!(told("item,copies\n,1").contains("the item has no name"));
        assert!(told("item,copies\n").contains("no item has a copy"));
        assert!(told("").contains("line 1 names the columns"));
    }
}
