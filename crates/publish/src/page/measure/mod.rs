//! The page of a measured side.
//!
//! In reading order: what was found; the photograph, with its lines traced and what is to be looked at numbered; the sizes of type; the
//! lines; the ink; how it was made.

mod ink;
mod looking;
mod model;
mod tables;

pub use model::{IncidentModel, LineModel, MeasuresModel, SizeModel};

use super::head::Head;
use super::{Own, SCRIPT, made, whole};

const STYLE: &str = include_str!("measure.css");

/// The page as HTML, in UTF-8. The same model gives the same bytes.
pub fn page(model: &MeasuresModel) -> String {
    let head = Head {
        title: &model.title,
        verdict_words: &model.verdict_words,
        findings: &model.findings,
        cautions: &model.cautions,
        measures: &model.measures,
        heed: &[("To be heeded first", &model.warnings)],
    };
    let mut body = head.set();
    body += &looking::section(model);
    body += &tables::sizes(model);
    body += &tables::lines(model);
    body += &ink::section(model);
    body += &made::section(&model.program, &model.command, std::iter::once(&model.side));
    whole(&model.title, &body, &looking::tiles(model), Own { style: STYLE, scripts: &[SCRIPT] })
}

#[cfg(test)]
mod tests;
