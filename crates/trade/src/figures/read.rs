//! Everything that is told of a table of figures.

use schemars::JsonSchema;
use serde::Serialize;

use super::copies::{Sheet, disagreements, sheets};
use super::pairs::pairs;
use super::work::work;
use super::{Disagreement, FormeName, Pair, Table, Work};

/// How the formes of sheets are figured.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Formes {
    /// Sheets named.
    pub sheets: u32,
    /// Sheets with one figure in both formes.
    pub same: u32,
    /// Sheets with a figure in each forme, which differ.
    pub different: u32,
    /// Sheets with a figure in one forme only, the other looked at.
    pub one_only: u32,
    /// Sheets without a figure in either.
    pub none: u32,
    /// Sheets of which only one forme was looked at.
    pub half_seen: u32,
}

/// A forme with two figures or more in the same copies.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Parted {
    /// The sheet.
    pub sheet: String,
    /// The forme.
    pub forme: FormeName,
    /// Its figures.
    pub figures: Vec<String>,
}

/// What one forme of a sheet shows in most copies.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct SheetFigures {
    /// The sheet.
    pub sheet: String,
    /// The figures of the outer forme; null where nobody looked.
    pub outer: Option<Vec<String>>,
    /// The same of the inner forme.
    pub inner: Option<Vec<String>>,
}

/// What a table of figures tells.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Figured {
    /// Copies.
    pub copies: u32,
    /// How the formes are figured.
    pub formes: Formes,
    /// What each figure did, that of most formes first.
    pub work: Vec<Work>,
    /// Formes with two figures: worked in two parts, or imposed anew.
    pub parted: Vec<Parted>,
    /// Formes in which copies differ.
    pub disagreements: Vec<Disagreement>,
    /// Every two figures of which enough can be asked.
    pub pairs: Vec<Pair>,
    /// The figures by sheet, as most copies show them.
    pub sheets: Vec<SheetFigures>,
    /// What the user should know of this table.
    pub warnings: Vec<String>,
    /// Reasons for which all this could be wrong.
    pub cautions: Vec<String>,
}

const CAUTIONS: [&str; 5] = [
    "Shops used figures differently, and the same shop differently over the years: for a man, a crew or a press. Todd (1950) \
     argues that they mark the man; the manuals that were printed contradict each other.",
    "A figure that is wanting says nothing of who worked the forme: many sheets were not figured, half-sheets seldom.",
    "Sheets are taken to have been printed in the order of the table. Preliminaries mostly came last.",
    "That two figures run side by side is what two presses working at one time would leave; so would an overseer who dealt \
     out formes in turn.",
    "It tells who is likely to have worked when in one book. Other work that the same men did between is not seen.",
];

/// Figures of which pairs are asked; of more there are too many questions for any answer.
const MOST_ASKED: usize = 12;

/// Reads a table.
pub fn read(table: &Table) -> Figured {
    let sheets = sheets(table);
    let work = work(&sheets);
    let asked: Vec<&str> = work.iter().take(MOST_ASKED).map(|w| w.figure.as_str()).collect();
    let copies: std::collections::BTreeSet<&str> = table.rows().iter().map(|r| r.copy.as_str()).collect();
    let mut told = Figured {
        copies: copies.len() as u32,
        formes: formes(&sheets),
        parted: parted(&sheets),
        disagreements: disagreements(&sheets),
        pairs: pairs(&sheets, &asked),
        sheets: sheets
            .iter()
            .map(|s| {
                let of = |f| s.figures(f).map(<[String]>::to_vec);
                SheetFigures {
                    sheet: s.name.clone(),
                    outer: of(FormeName::Outer),
                    inner: of(FormeName::Inner),
                }
            })
            .collect(),
        warnings: Vec::new(),
        cautions: CAUTIONS.iter().map(|&c| c.to_owned()).collect(),
        work,
    };
    told.warnings = warnings(&told);
    told
}

fn formes(sheets: &[Sheet]) -> Formes {
    let mut out = Formes { sheets: sheets.len() as u32, ..Formes::default() };
    for sheet in sheets {
        let place = match (sheet.figures(FormeName::Outer), sheet.figures(FormeName::Inner)) {
            (Some([]), Some([])) => &mut out.none,
            (Some([]), Some(_)) | (Some(_), Some([])) => &mut out.one_only,
            (Some(outer), Some(inner)) if outer == inner => &mut out.same,
            (Some(_), Some(_)) => &mut out.different,
            _ => &mut out.half_seen,
        };
        *place += 1;
    }
    out
}

fn parted(sheets: &[Sheet]) -> Vec<Parted> {
    let mut out = Vec::new();
    for sheet in sheets {
        for seen in &sheet.formes {
            for reading in seen.readings.iter().filter(|r| r.figures.len() > 1) {
                let (sheet, figures) = (sheet.name.clone(), reading.figures.clone());
                out.push(Parted { sheet, forme: seen.forme, figures });
            }
        }
    }
    out
}

fn warnings(told: &Figured) -> Vec<String> {
    let mut out = Vec::new();
    if told.copies < 2 {
        out.push("Figures of one copy: another may show others. Look at several before you tell impressions apart.".to_owned());
    }
    if told.formes.half_seen > 0 {
        out.push(format!(
            "{} of {} sheets have a line for one forme only. Give the other a line without a figure if it has none: a forme that \
             is not named counts as not looked at.",
            told.formes.half_seen, told.formes.sheets
        ));
    }
    if told.work.len() > MOST_ASKED {
        out.push(format!(
            "{} figures: only the {MOST_ASKED} of most formes are asked about by pairs.",
            told.work.len()
        ));
    }
    if told.pairs.is_empty() {
        out.push(
            "No two figures share enough sheets to ask whether they ran side by side or in turns.".to_owned(),
        );
    }
    out
}
