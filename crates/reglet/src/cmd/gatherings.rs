//! `reglet gatherings`: a collation formula in; its leaves, sheets and pages out, and whether what is stated of it agrees.

use super::told::{Json, of};
use crate::say::list;
use anyhow::{Result, anyhow};
use clap::Args;
use publish::record::PROGRAM;
use schemars::JsonSchema;
use serde::Serialize;
use std::process::ExitCode;
use trade::gatherings::{Book, Check, Collated, Fellow, Gathering, Leaf, Made, Standing, collate, read};

/// Count out a collation formula: leaves, pages, sheets, every leaf with its fellow; and check what is stated of it.
///
/// The formula is in the notation of the cataloguing rules, with raised figures, or typed plainly: ^ before a raised
/// number. Statements may follow after a semicolon: which leaves are signed, how pages are numbered, how many leaves there
/// are. They are held against the formula.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  reglet gatherings '8o: A^4 B-O^8; $4(-A3,4) signed; pp. [8] 1-205 [3]'
      a history of the town of Hallow, with its signing and pagination
  reglet gatherings --leaves '4o: pi^2 A^4(A1+chi^2) B-E^4(+-E3)'
      every leaf of a pamphlet of Merrin, with the leaf that it is one piece of paper with

How to type it:
  A^4            gathering A, of four leaves        B-2C^8         from B through the alphabet of 23 letters to CC
  [A]^4          the signature is inferred          [1-6^8]        an unsigned book
  ^2A-M^8        a second series of letters         piA^4  chiD^4  duplicates before, or within, the main series
  pi^2 chi^2 pi1 unsigned leaves                    B-I^8/4        eight and four by turns
  (-D3)          missing                            (+-E2)         cut away and replaced by a single leaf
  (+-D2.7)       a pair replaced                    (-A1 +chi^2)   cut away, something else put there
  (A1+chi^2)     put in after A1                    (pi1+A^8)      a gathering laid in another
  *  [dagger]    signs, and words for signs         23^6(-23_6)    the leaf of a numbered gathering

Exit codes: 0 read, and all statements agree; 1 a statement does not agree; 2 the formula cannot be read.")]
pub struct Gatherings {
    /// The formula, in quotes.
    #[arg(required = true, value_name = "FORMULA")]
    formula: Vec<String>,
    /// List every leaf.
    #[arg(long)]
    leaves: bool,
    #[command(flatten)]
    json: Json,
}

/// What `reglet gatherings --json` writes.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct GatheringsRecord {
    /// The formula counted out.
    #[serde(flatten)]
    collated: Collated,
    /// The program and its version.
    program: String,
}

impl Gatherings {
    /// Reads, counts and says.
    ///
    /// # Errors
    /// A formula that cannot be read, with the place in it.
    pub fn run(&self) -> Result<ExitCode> {
        self.json.check(None, None)?;
        // A formula that was typed without quotes comes in pieces.
        let text = self.formula.join(" ");
        let formula = read(&text).map_err(|e| anyhow!("{e}\n{}", e.pointed(&text)))?;
        let record = GatheringsRecord { collated: collate(&formula), program: PROGRAM.into() };
        self.json.tell(&record, &words(&record.collated, self.leaves))?;
        let agrees = record.collated.checks.iter().all(|c| c.agrees);
        Ok(if agrees { ExitCode::SUCCESS } else { ExitCode::from(1) })
    }
}

/// Gatherings listed before they are drawn together.
const LISTED: usize = 60;

fn words(found: &Collated, leaves: bool) -> String {
    let gatherings = found.book.gatherings.len() as u32;
    let mut sum = format!(
        "{}, {}, {}",
        of(gatherings, "gathering", "gatherings"),
        of(found.leaves, "leaf", "leaves"),
        of(found.pages, "page", "pages")
    );
    if let Some(sheets) = &found.sheets {
        sum = format!("{sum}, {sheets} sheets of paper a copy");
        if let Some(folded) = found.sheets_as_folded.filter(|f| f != sheets) {
            sum = format!("{sum} ({folded} as folded, before anything was cut away or put in)");
        }
    } else {
        sum.push_str("; name the format before the formula, as 8°:, to have sheets and formes");
    }
    let mut out = vec![found.formula.clone(), String::new(), format!("{sum}.")];
    let signed =
        found.signed_leaves.map(|n| format!("{} are signed, by the statement", of(n, "leaf", "leaves")));
    let checks: Vec<String> = found.checks.iter().map(check).chain(signed).collect();
    list(&mut out, "What is stated", &checks);
    let rows = together(&found.book.gatherings);
    let more = rows.len().saturating_sub(LISTED);
    let mut shown: Vec<String> = rows.into_iter().take(LISTED).collect();
    if more > 0 {
        shown.push(format!("and {more} more; --json lists all"));
    }
    list(&mut out, "Gatherings", &shown);
    if leaves {
        out.push(String::new());
        out.push("Leaves".to_owned());
        let whole = replaced(&found.book);
        out.extend(found.book.leaves.iter().map(|l| format!("  {}", leaf(l, whole[l.gathering]))));
    }
    list(&mut out, "Kept as it stands, and not understood", &found.remarks);
    list(&mut out, "Notes", &found.warnings);
    out.push(String::new());
    out.push(format!("Typed plainly: {}", found.plainly));
    out.join("\n")
}

fn check(c: &Check) -> String {
    let mut said = format!("{}: {} stated, {} counted: ", c.what, c.stated, c.counted);
    said.push_str(if c.agrees { "they agree" } else { "they DO NOT agree" });
    if let Some(perhaps) = &c.perhaps {
        said = format!("{said}; {perhaps}");
    }
    said
}

/// Gatherings of one make that follow each other, on one line.
fn together(all: &[Gathering]) -> Vec<String> {
    let mut rows = Vec::new();
    let mut i = 0;
    while i < all.len() {
        let like = |g: &Gathering| {
            (g.folded_leaves, g.laid_in, g.made) == (all[i].folded_leaves, all[i].laid_in, all[i].made)
        };
        let end = all[i..].iter().position(|g| !like(g)).map_or(all.len(), |n| i + n);
        let names = match end - i {
            1 => all[i].name.clone(),
            n => format!("{} to {} ({n} gatherings)", all[i].name, all[end - 1].name),
        };
        let each = if end - i > 1 { " each" } else { "" };
        let mut row = format!("{names}: {}{each}", of(all[i].folded_leaves.into(), "leaf", "leaves"));
        match all[i].made {
            Some(Made::Sheet) if all[i].folded_leaves > 1 => row.push_str(", from whole sheets, two formes"),
            Some(Made::SheetsQuired { sheets }) => {
                row = format!("{row}, {sheets} sheets one in another, two formes for each");
            }
            Some(Made::HalfSheet) => row.push_str(", a half-sheet, one forme"),
            _ => {}
        }
        if let Some(within) = all[i].laid_in {
            row = format!("{row}, laid in {}", all[within].name);
        }
        rows.push(row);
        i = end;
    }
    rows
}

/// Of each gathering, whether it was replaced as a whole.
fn replaced(book: &Book) -> Vec<bool> {
    let mut whole = vec![true; book.gatherings.len()];
    for l in &book.leaves {
        whole[l.gathering] &= l.standing == Standing::Replacing;
    }
    whole
}

/// One leaf on a line; whether its gathering was replaced as a whole.
fn leaf(l: &Leaf, with_its_gathering: bool) -> String {
    let fellow = match &l.fellow {
        Fellow::Leaf { name } => format!("one piece with {name}"),
        Fellow::CutAway { name } => format!("its fellow {name} was cut away"),
        Fellow::None => "a single leaf".to_owned(),
    };
    let mut said = format!("{:<8} {fellow}", l.name);
    match l.standing {
        Standing::Regular => {}
        Standing::Replacing if with_its_gathering => {
            said.push_str("; its gathering replaces one that was taken out");
        }
        Standing::Replacing => said.push_str("; replaces a leaf that was cut away"),
        Standing::Inserted => said.push_str("; put in"),
    }
    if let Some(f) = &l.formes {
        if f.recto == f.verso {
            said = format!("{said}; both pages in the {} forme", f.recto);
        } else {
            let sheet = if f.sheet > 1 { format!(" of sheet {}", f.sheet) } else { String::new() };
            said = format!("{said}; front in the {} forme{sheet}, back in the {}", f.recto, f.verso);
        }
    }
    match (&l.recto_page, &l.verso_page) {
        (Some(r), Some(v)) => said = format!("{said}; pages {r} and {v}"),
        (Some(r), None) => said = format!("{said}; leaf {r}"),
        _ => {}
    }
    if l.is_signed == Some(true) {
        said.push_str("; signed");
    }
    if l.is_blank {
        said.push_str("; blank");
    }
    said
}
