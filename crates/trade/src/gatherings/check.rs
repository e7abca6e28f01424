//! What is stated of a book against what its formula counts.

use super::alphabet::Alphabet;
use super::book::{Book, Standing};
use super::formula::{Formula, Item, Run};
use super::read::{gatherings, leaves_of};
use super::signature::Place;
use schemars::JsonSchema;
use serde::Serialize;

/// A number of the statements beside the same number counted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Check {
    /// What was counted: "leaves", "pages".
    pub what: &'static str,
    /// As stated.
    pub stated: u32,
    /// As counted from the formula.
    pub counted: u32,
    /// Whether they are equal.
    pub agrees: bool,
    /// What may explain a difference.
    pub perhaps: Option<String>,
}

/// A number of sheets, with its fraction in lowest terms.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Sheets {
    /// Whole sheets.
    pub whole: u32,
    /// Parts of a sheet beyond those.
    pub parts: u32,
    /// How many such parts make a sheet.
    pub of: u32,
}

impl Sheets {
    /// So many leaves of a format.
    pub(super) fn of(leaves: u32, format: u16) -> Self {
        let n = u32::from(format.max(1));
        let (mut a, mut b) = (leaves % n, n);
        while a != 0 {
            (a, b) = (b % a, a);
        }
        Self { whole: leaves / n, parts: leaves % n / b, of: n / b }
    }
}

impl std::fmt::Display for Sheets {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match (self.whole, self.parts) {
            (whole, 0) => write!(f, "{whole}"),
            (0, parts) => write!(f, "{parts}/{}", self.of),
            (whole, parts) => write!(f, "{whole} {parts}/{}", self.of),
        }
    }
}

/// Every check that the statements allow.
pub(super) fn checks(formula: &Formula, book: &Book) -> Vec<Check> {
    let leaves = book.leaves.len() as u32;
    let s = &formula.statements;
    let mut checks = Vec::new();
    let mut add = |what: &'static str, stated: u32, counted: u32, perhaps: Option<String>| {
        let agrees = stated == counted;
        checks.push(Check { what, stated, counted, agrees, perhaps: perhaps.filter(|_| !agrees) });
    };
    if let Some(stated) = s.leaves {
        add("leaves", stated, leaves, letters_too_many(formula, stated, leaves));
    }
    if let Some(p) = &s.pagination {
        let (what, counted) =
            if p.is_foliation { ("numbered leaves", leaves) } else { ("pages", leaves * 2) };
        let stated = p.count();
        add(what, stated, counted, Some(pages_apart(stated, counted)));
    }
    if !s.also_signed.is_empty() {
        let other = Formula {
            title: None,
            format: None,
            items: s.also_signed.clone(),
            statements: super::Statements::default(),
        };
        let others = Book::of(&other).leaves.len() as u32;
        add("leaves by the other signatures", others, leaves, None);
    }
    checks
}

/// Whether a difference in pages has a common cause.
fn pages_apart(stated: u32, counted: u32) -> String {
    let apart = stated.abs_diff(counted);
    if apart % 2 == 1 {
        "the pages stated are an odd number: a page without number at the beginning or end may not have been counted".into()
    } else if stated < counted {
        format!(
            "{apart} pages, {} leaves, are not in the statement: unnumbered or blank leaves, perhaps",
            apart / 2
        )
    } else {
        format!(
            "{apart} pages, {} leaves, are not in the formula: leaves put in, plates that are counted, or numbers passed over, \
             perhaps",
            apart / 2
        )
    }
}

/// Whether the stated number comes out when J, U and W, or one of them, are counted as letters of their own.
fn letters_too_many(formula: &Formula, stated: u32, counted: u32) -> Option<String> {
    for (letters, more) in [(26_u32, "J, U and W"), (24, "a W, or both U and V"), (25, "two of J, U and W")] {
        let with: i64 = formula.items.iter().map(|i| more_leaves(i, letters)).sum();
        if with != 0 && i64::from(counted) + with == i64::from(stated) {
            return Some(format!(
                "{stated} comes out in an alphabet of {letters} letters, with {more}; that of signatures has 23, and any letter \
                 more must stand in the formula"
            ));
        }
    }
    None
}

/// How many leaves an item has more when the Latin alphabet has so many letters.
fn more_leaves(item: &Item, letters: u32) -> i64 {
    let Item::Run(run) = item else { return 0 };
    let (Some(last), Place::InAlphabet(alphabet, first)) = (&run.last, run.first.place()) else { return 0 };
    let Place::InAlphabet(_, end) = last.place() else { return 0 };
    if !matches!(alphabet, Alphabet::LatinCapitals | Alphabet::LatinSmall) {
        return 0;
    }
    // Whole turns of the alphabet that a run passes from its first letter to the end of one.
    let turns = (end + 1) / 23 - first / 23;
    i64::from(turns * (letters - 23)) * i64::from(run.leaves)
}

/// What is odd in a formula, and no error.
pub(super) fn warnings(formula: &Formula, book: &Book) -> Vec<String> {
    let mut warnings = Vec::new();
    for item in &formula.items {
        let Item::Run(run) = item else { continue };
        for leaves in std::iter::once(run.leaves).chain(run.alternately).filter(|n| *n > 1 && n % 2 == 1) {
            warnings.push(format!(
                "{}: a gathering of {leaves} leaves, an odd number; a formula is clearer with the leaves as folded, and the \
                 one that is missing or put in named beside them",
                run.first
            ));
        }
    }
    let mut names: Vec<&str> =
        book.gatherings.iter().filter(|g| !g.is_unsigned).map(|g| g.name.as_str()).collect();
    names.sort_unstable();
    let mut twice: Vec<&str> = names.windows(2).filter(|w| w[0] == w[1]).map(|w| w[0]).collect();
    twice.dedup();
    if !twice.is_empty() {
        let shown = twice.iter().take(5).copied().collect::<Vec<_>>().join(", ");
        let more = if twice.len() > 5 { format!(" and {} others", twice.len() - 5) } else { String::new() };
        warnings.push(format!(
            "signatures {shown}{more} stand for more than one gathering; a second series is written with a raised 2, as ²A, so \
             that leaves can be named"
        ));
    }
    warnings.extend(gathered_otherwise(formula));
    if let Some(format) = formula.format
        && book.gatherings.iter().any(|g| g.made == Some(super::Made::NotTold))
    {
        warnings.push(format!(
            "not every gathering is a sheet, a half-sheet or sheets quired of {}°, so formes are told only of those that are",
            format.number
        ));
    }
    if book.leaves.iter().any(|l| l.standing == Standing::Replacing) {
        warnings.push(
            "in which forme a cancel was printed the formula does not tell: it may have been printed with other leaves, on \
             a part of another sheet"
                .to_owned(),
        );
    }
    warnings
}

/// "in 4s" where most gatherings have another number of leaves.
fn gathered_otherwise(formula: &Formula) -> Option<String> {
    let wanted = formula.format?.gathered_in?;
    let runs: Vec<&Run> =
        formula.items.iter().filter_map(|i| if let Item::Run(r) = i { Some(r) } else { None }).collect();
    let all: u32 = runs.iter().map(|r| gatherings(r)).sum();
    let so: u32 =
        runs.iter().map(|r| (0..gatherings(r)).filter(|n| leaves_of(r, *n) == wanted).count() as u32).sum();
    (2 * so < all)
        .then(|| format!("\"in {wanted}s\" is said, and {so} of {all} gatherings have {wanted} leaves"))
}
