//! Which copies show which figures in a forme.

use std::collections::BTreeSet;

use schemars::JsonSchema;
use serde::Serialize;

use super::{FormeName, Table};

/// What some copies show in a forme.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Reading {
    /// The figures, in order; empty for none.
    pub figures: Vec<String>,
    /// The copies that show just these.
    pub copies: Vec<String>,
}

/// A forme in which copies differ: perhaps printed at two times, or by two presses from two settings, or a figure put in or
/// dropped while the forme was at press.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Disagreement {
    /// The sheet.
    pub sheet: String,
    /// The forme.
    pub forme: FormeName,
    /// What is shown, by most copies first.
    pub readings: Vec<Reading>,
    /// Whether two readings have figures and these are not the same; else some copies have a figure and others none.
    pub figures_differ: bool,
}

/// One forme as all copies show it.
#[derive(Debug, Clone)]
pub(super) struct Seen {
    pub(super) forme: FormeName,
    /// By most copies first; of as many, that of the copy named first.
    pub(super) readings: Vec<Reading>,
}

/// One sheet.
#[derive(Debug, Clone)]
pub(super) struct Sheet {
    pub(super) name: String,
    pub(super) formes: Vec<Seen>,
}

impl Sheet {
    /// What most copies show in a forme; `None` where nobody looked.
    pub(super) fn figures(&self, forme: FormeName) -> Option<&[String]> {
        let seen = self.formes.iter().find(|f| f.forme == forme)?;
        seen.readings.first().map(|r| r.figures.as_slice())
    }

    /// The figure of a forme that has just one.
    pub(super) fn single(&self, forme: FormeName) -> Option<&str> {
        match self.figures(forme)? {
            [one] => Some(one),
            _ => None,
        }
    }
}

/// The sheets in the order in which they are first named.
pub(super) fn sheets(table: &Table) -> Vec<Sheet> {
    type Shown = Vec<(String, BTreeSet<String>)>;
    let mut order = std::collections::BTreeMap::new();
    let mut all: Vec<(String, [Shown; 2])> = Vec::new();
    let mut places = std::collections::BTreeMap::new();
    for row in table.rows() {
        let sheet = *order.entry(row.sheet.as_str()).or_insert_with(|| {
            all.push((row.sheet.clone(), [Vec::new(), Vec::new()]));
            all.len() - 1
        });
        let shown = &mut all[sheet].1[row.forme as usize];
        let place = *places.entry((sheet, row.forme, row.copy.as_str())).or_insert_with(|| {
            shown.push((row.copy.clone(), BTreeSet::new()));
            shown.len() - 1
        });
        shown[place].1.extend(row.figure.clone());
    }
    let named = [FormeName::Outer, FormeName::Inner];
    all.into_iter()
        .map(|(name, formes)| Sheet {
            name,
            formes: named
                .into_iter()
                .zip(formes)
                .filter(|(_, shown)| !shown.is_empty())
                .map(|(forme, shown)| Seen { forme, readings: readings(shown) })
                .collect(),
        })
        .collect()
}

fn readings(shown: Vec<(String, BTreeSet<String>)>) -> Vec<Reading> {
    let mut out: Vec<Reading> = Vec::new();
    for (copy, figures) in shown {
        let figures: Vec<String> = figures.into_iter().collect();
        match out.iter_mut().find(|r| r.figures == figures) {
            Some(reading) => reading.copies.push(copy),
            None => out.push(Reading { figures, copies: vec![copy] }),
        }
    }
    out.sort_by_key(|r| std::cmp::Reverse(r.copies.len()));
    out
}

/// The formes in which copies differ.
pub(super) fn disagreements(sheets: &[Sheet]) -> Vec<Disagreement> {
    sheets
        .iter()
        .flat_map(|sheet| sheet.formes.iter().map(move |seen| (sheet, seen)))
        .filter(|(_, seen)| seen.readings.len() > 1)
        .map(|(sheet, seen)| Disagreement {
            sheet: sheet.name.clone(),
            forme: seen.forme,
            readings: seen.readings.clone(),
            figures_differ: seen.readings.iter().filter(|r| !r.figures.is_empty()).count() > 1,
        })
        .collect()
}
