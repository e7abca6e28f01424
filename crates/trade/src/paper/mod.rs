//! Paper: the sizes of the sheet by name and period, as bands. A name is a band, not a number.

mod table;

use crate::lengths::{Band, Mm, measurable};
use schemars::JsonSchema;
use serde::Serialize;
use thiserror::Error;

pub use table::papers;

/// The largest side of a sheet that is believed, millimetres; moulds were held by one man's arms. (Common practice, no
/// source.)
pub const MOST_SIDE: Mm = Mm(1600.0);

/// Where a size comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// Seen in the source that is named.
    Seen,
    /// From memory of the source that is named, which was not opened.
    FromMemory,
}

/// A sheet as the mould made it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Sheet {
    /// The long side.
    pub long: Band,
    /// The short side, along which chain-lines run.
    pub short: Band,
}

impl Sheet {
    /// A sheet of two sides in any order, millimetres.
    ///
    /// # Errors
    /// When a side is no length, or longer than [`MOST_SIDE`].
    pub fn new(a: Mm, b: Mm) -> Result<Self, PaperError> {
        for side in [a, b] {
            if !measurable(side, MOST_SIDE) {
                return Err(PaperError::NoSide { side, most: MOST_SIDE });
            }
        }
        let (long, short) = if a.0 >= b.0 { (a, b) } else { (b, a) };
        Ok(Self { long: Band::of(long.0), short: Band::of(short.0) })
    }
}

/// A named size of paper in one period.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Paper {
    /// The name: "foolscap".
    pub name: &'static str,
    /// When and where such sheets were called so: "17th and 18th century, England".
    pub period: &'static str,
    /// The first year of the period.
    pub from_year: i32,
    /// The last year of it.
    pub to_year: i32,
    /// The sheet.
    pub sheet: Sheet,
    /// The published source.
    pub source: &'static str,
    /// Whether that source was seen.
    pub standing: Standing,
}

impl Paper {
    /// Whether a year falls in the period.
    pub fn is_of(&self, year: i32) -> bool {
        (self.from_year..=self.to_year).contains(&year)
    }
}

/// Every paper of a name, however its case, in the order of the table.
///
/// # Errors
/// When no paper has that name: the names that there are.
pub fn named(name: &str) -> Result<Vec<&'static Paper>, PaperError> {
    let wanted = name.trim().to_lowercase();
    let wanted = if wanted == "pott" { "pot" } else { wanted.as_str() };
    let found: Vec<_> = papers().iter().filter(|p| p.name == wanted).collect();
    if found.is_empty() {
        let mut names: Vec<&str> = papers().iter().map(|p| p.name).collect();
        names.sort_unstable();
        names.dedup();
        return Err(PaperError::NoSuchName { name: name.to_owned(), names: names.join(", ") });
    }
    Ok(found)
}

/// Why there is no paper, or no sheet.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum PaperError {
    /// A side that is no length: give millimetres, above zero.
    #[error("a side of {} mm is no sheet; give millimetres, above 0 and at most {}", side.0, most.0)]
    NoSide {
        /// The side as given.
        side: Mm,
        /// The most that is believed.
        most: Mm,
    },
    /// A name that is not in the table: choose one of it, or give the sides in millimetres.
    #[error("no paper is called \"{name}\" here; known are {names}; or give its sides, as 432x343")]
    NoSuchName {
        /// The name as given.
        name: String,
        /// Those there are.
        names: String,
    },
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_paper_is_longer_than_it_is_high_and_no_band_is_wild() {
        for p in papers() {
            assert!(p.sheet.long.least_mm.0 >= p.sheet.short.most_mm.0, "{}", p.name);
            assert!(p.sheet.long.most_mm.0 <= MOST_SIDE.0 && p.from_year < p.to_year);
            assert!(p.sheet.long.most_mm.0 - p.sheet.long.least_mm.0 <= 60.0, "{}", p.name);
        }
    }

    #[test]
    fn names_are_found_and_nonsense_is_answered_with_the_names() {
        assert!(named("Foolscap").unwrap().len() >= 2);
        assert_eq!(named("pott").unwrap(), named("pot").unwrap());
        let told = named("letter").unwrap_err().to_string();
        assert!(told.contains("foolscap") && told.contains("432x343"), "{told}");
        assert!(Sheet::new(Mm(f64::NAN), Mm(3.0)).is_err());
        assert_eq!(Sheet::new(Mm(343.0), Mm(432.0)).unwrap().long, Band::of(432.0));
    }
}
