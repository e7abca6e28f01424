//! The plain straight line through the counts of the dated sheets, for comparison.
//!
//! A count of what could be judged is not the count of what is there. So only damages are counted that can be judged on every
//! dated sheet of the line and on the impression asked about: another impression may have a line of its own.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::regression::{InversePrediction, Line, line};
use crate::table::{Dated, Sighting, Table};

/// A line through the exactly dated sheets, and where an impression lies on it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PlainLine {
    /// The line.
    pub line: Line,
    /// The year at which it reaches the impression's count.
    pub prediction: InversePrediction,
    /// Damages of the impression.
    pub count: usize,
    /// Damages that can be judged on all sheets counted, of all in the table.
    pub judged: usize,
}

/// The line for an impression; `None` of fewer than three exactly dated others, or where the line is level.
pub(super) fn plain(table: &Table, asked: usize) -> Option<PlainLine> {
    let dated: Vec<(usize, f64)> = table
        .impressions()
        .iter()
        .enumerate()
        .filter_map(|(i, impression)| match impression.dated {
            Dated::Exactly { year } if i != asked => Some((i, f64::from(year))),
            _ => None,
        })
        .collect();
    let is_judged = |d: &usize| {
        let mut all = dated.iter().map(|&(i, _)| i).chain([asked]);
        all.all(|i| table.cell(*d, i) != Sighting::Unclear)
    };
    let judged: Vec<usize> = (0..table.damages().len()).filter(is_judged).collect();
    let count = |i: usize| judged.iter().filter(|&&d| table.cell(d, i) == Sighting::Present).count();
    let years: Vec<f64> = dated.iter().map(|&(_, year)| year).collect();
    let counts: Vec<f64> = dated.iter().map(|&(i, _)| count(i) as f64).collect();
    let line = line(&years, &counts)?;
    let count = count(asked);
    let prediction = line.year_of(count as f64)?;
    Some(PlainLine { line, prediction, count, judged: judged.len() })
}
