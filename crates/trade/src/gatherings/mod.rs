//! Collation formulas: how a book is made up of gatherings of leaves.
//!
//! The notation is the published one of descriptive bibliography, as cataloguing rules print it (DCRMR, *Descriptive
//! Cataloging of Rare Materials, RDA edition*, 6.215.31, seen; behind it Bowers, *Principles of Bibliographical
//! Description*, and Gaskell, *A New Introduction to Bibliography*, pp. 328-332, both from memory). Start at [`read()`], go on
//! with [`collate`].
//!
//! ```text
//! 8°: A⁴ B-O⁸; [$4(−A3,4) signed]; pp. [8] 1-205 [3]
//!
//! A⁴          gathering A of four leaves           A-2C⁸       from A through the alphabet of 23 letters to CC
//! [A]⁴        the signature is inferred            [1-6⁸]      an unsigned book
//! ²A-M⁸       a second series of the same letters  πA⁴ χD⁴     duplicates before, and within, the main series
//! π² χ² π1    unsigned leaves                      B-I⁸/⁴      eight and four by turns
//! (−D3)       missing, not replaced                (±E2)       cut away, replaced by a single leaf
//! (±D2.7)     a pair replaced                      (−A1 +χ²)   cut away, something else put there
//! (±A)        the whole gathering replaced
//! (A1+χ²)     put in after A1                      (π1+A⁸)     a quire within a quire
//! π1[=B2]     a leaf printed as another            А-Ѵ²[=41]   the number of gatherings, where the order is not fixed
//! ```
//!
//! On a keyboard without raised figures, write `^` before a raised number, `pi` and `chi`, `-` for a missing leaf, `+-` for
//! a replaced one, `_` before the number of a leaf of a numbered gathering, and a point between two numbers:
//! `8o: pi^4 A-C^8(+-B2) 23^6(-23_6) ^2.2E-2G^4`.

mod alphabet;
mod altered;
mod book;
mod check;
mod counting;
mod error;
mod formes;
mod formula;
mod pagination;
mod read;
mod roman;
mod signature;
mod signing;
mod write;

pub use book::{Book, Fellow, Gathering, Leaf, Standing};
pub use check::{Check, Sheets};
pub use error::{FormulaError, Problem, Span};
pub use formes::{Formes, Made};
pub use formula::{Added, Change, Formula, Item, NamedFormat, Run, Statements};
pub use pagination::{Numbers, Pagination, Sequence};
pub use roman::Case;
pub use signature::{LeafName, Series, Signature, Symbol};
pub use signing::Signing;

use schemars::JsonSchema;
use serde::Serialize;

/// Reads a formula, with the statements that follow it, in the published notation or typed plainly.
///
/// # Errors
/// The first thing that is wrong, with its place in characters and what was expected there.
pub fn read(text: &str) -> Result<Formula, FormulaError> {
    read::read(text)
}

/// A formula counted out and checked.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Collated {
    /// The formula in the published notation.
    pub formula: String,
    /// The same as it can be typed on any keyboard.
    pub plainly: String,
    /// The number of the format, if it is named.
    pub format: Option<u16>,
    /// How many leaves.
    pub leaves: u32,
    /// How many pages: two for each leaf.
    pub pages: u32,
    /// How many sheets that is, leaves divided by leaves of a sheet; null where the format is not named.
    pub sheets: Option<Sheets>,
    /// The same of the gatherings as they were folded, before any alteration.
    pub sheets_as_folded: Option<Sheets>,
    /// How many leaves are signed, by the statement; null without one.
    pub signed_leaves: Option<u32>,
    /// The gatherings and every leaf.
    pub book: Book,
    /// What is stated beside what is counted.
    pub checks: Vec<Check>,
    /// What is odd, and no error.
    pub warnings: Vec<String>,
    /// Statements that were kept as they are and not understood.
    pub remarks: Vec<String>,
}

/// Counts a formula out, and checks what is stated against it.
pub fn collate(formula: &Formula) -> Collated {
    let book = Book::of(formula);
    let leaves = book.leaves.len() as u32;
    let folded: u32 = book.gatherings.iter().map(|g| u32::from(g.folded_leaves)).sum();
    let format = formula.format.map(|f| f.number);
    let in_runs =
        formula.items.iter().filter_map(|i| if let Item::Run(r) = i { Some(&r.remarks) } else { None });
    Collated {
        formula: formula.to_string(),
        plainly: formula.plainly(),
        format,
        leaves,
        pages: leaves * 2,
        sheets: format.map(|f| Sheets::of(leaves, f)),
        sheets_as_folded: format.map(|f| Sheets::of(folded, f)),
        signed_leaves: formula
            .statements
            .signing
            .as_ref()
            .map(|_| book.leaves.iter().filter(|l| l.is_signed == Some(true)).count() as u32),
        checks: check::checks(formula, &book),
        warnings: check::warnings(formula, &book),
        remarks: formula
            .title
            .iter()
            .chain(in_runs.flatten())
            .chain(&formula.statements.remarks)
            .cloned()
            .collect(),
        book,
    }
}
