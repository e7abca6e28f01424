//! The page of many copies: which are of one setting, and every place that differs, in every copy.
//!
//! Any two copies of a setting can be laid together on it: each copy is in the page once, as a photograph and as its ink,
//! on the frame of its setting, and a script colours the inks of the two that are chosen.

mod copies;
mod looking;
mod model;
mod pairs;
mod places;

pub use model::{CopyModel, ManyModel, PairModel, PlaceModel, SettingModel};

use super::choosing::CHOOSING_SCRIPT;
use super::head::Head;
use super::{Own, SCRIPT, made, whole};

/// The page as HTML, in UTF-8. The same model gives the same bytes.
pub fn page(model: &ManyModel) -> String {
    let mut body = head(model);
    body += &looking::section(model);
    body += &places::sections(model);
    body += &copies::section(model);
    body += &pairs::section(model);
    body += &made::section(&model.program, &model.command, model.copies.iter().map(|c| &c.side));
    whole(&model.title, &body, &looking::inks(model), Own { style: "", scripts: &[SCRIPT, CHOOSING_SCRIPT] })
}

/// Everything above the photographs.
fn head(model: &ManyModel) -> String {
    Head {
        title: &model.title,
        verdict_words: &model.verdict_words,
        findings: &model.findings,
        cautions: &model.cautions,
        measures: &model.measures,
        heed: &[("What contradicts itself", &model.contradictions), ("To be heeded first", &model.warnings)],
    }
    .set()
}

/// The letter of a reading: a for the frame's.
fn letter(reading: usize) -> String {
    u8::try_from(reading)
        .ok()
        .filter(|r| *r < 26)
        .map_or_else(|| format!("r{}", reading + 1), |r| char::from(b'a' + r).to_string())
}

#[cfg(test)]
mod tests;
