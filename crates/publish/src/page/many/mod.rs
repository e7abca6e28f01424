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

use std::fmt::Write as _;

use super::text::Text;
use super::{SCRIPT, list, made, whole};

const MANY_SCRIPT: &str = include_str!("many.js");

/// The page as HTML, in UTF-8. The same model gives the same bytes.
pub fn page(model: &ManyModel) -> String {
    let mut body = head(model);
    body += &looking::section(model);
    body += &places::sections(model);
    body += &copies::section(model);
    body += &pairs::section(model);
    body += &made::section(&model.program, &model.command, model.copies.iter().map(|c| &c.side));
    whole(&model.title, &body, &looking::inks(model), &[SCRIPT, MANY_SCRIPT])
}

/// Everything above the photographs.
fn head(model: &ManyModel) -> String {
    let findings = list("reasons", &model.findings);
    let cautions = list("cautions", &model.cautions);
    let mut measures = String::new();
    for (term, what) in &model.measures {
        let _ = writeln!(measures, "<dt>{}</dt>\n<dd>{}</dd>", Text(term), Text(what));
    }
    let mut heed = String::new();
    for (title, sentences) in
        [("What contradicts itself", &model.contradictions), ("To be heeded first", &model.warnings)]
    {
        if !sentences.is_empty() {
            let sentences = list("warnings", sentences);
            let _ = write!(
                heed,
                "<aside class=\"heed\" aria-label=\"{title}\">\n<h2>{title}</h2>\n{sentences}</aside>\n"
            );
        }
    }
    format!(
        "<header class=\"verdict\">\n<p class=\"runner\">{}</p>\n<h1>{}</h1>\n</header>\n\
         <div class=\"argument\">\n<section class=\"why\">\n<h2>What was found</h2>\n{findings}</section>\n\
         <section class=\"doubt\">\n<h2>Cautions</h2>\n{cautions}</section>\n<section class=\"measures\">\n\
         <h2 class=\"unseen\">Measures</h2>\n<dl>\n{measures}</dl>\n</section>\n</div>\n{heed}",
        Text(&model.title),
        Text(&model.verdict_words),
    )
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
