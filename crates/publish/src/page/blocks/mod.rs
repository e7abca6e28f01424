//! The page of blocks: the history of each, from all its impressions.
//!
//! In reading order: what was found; two impressions together, as the reader chooses; then of each block its best impression
//! with its damages, the order as a picture, the states as a film strip, the years, what is doubtful; last the sheets and the
//! pairs. Each impression is in the page once as it lies on its frame, in the film strip.

mod composite;
mod dates;
pub(crate) mod labels;
mod looking;
mod model;
mod order;
mod pairs;
mod sheets;
mod strip;
pub(crate) mod words;

pub use model::{
    BlockModel, BlocksModel, CutPairModel, DamageModel, DatesModel, HeldOutModel, ImpressionModel,
    OrderModel, RowModel, SeenModel, Sign, Stand, StateModel, YearModel, YearRow,
};

use std::fmt::Write as _;

use super::choosing::CHOOSING_SCRIPT;
use super::head::Head;
use super::text::Text;
use super::{Own, SCRIPT, list, made, whole};

const STYLE: &str = include_str!("blocks.css");

/// The page as HTML, in UTF-8. The same model gives the same bytes.
pub fn page(model: &BlocksModel) -> String {
    let mut body = head(model);
    body += &contents(model);
    body += &looking::section(model);
    let mut first = 1;
    for block in &model.blocks {
        let is_seen = looking::groups(model).any(|b| b.number == block.number);
        body += &history(model, block, is_seen.then_some(first));
        if is_seen {
            first += block.damages.len();
        }
    }
    body += &sheets::section(model);
    body += &pairs::section(model);
    body += &made::section(&model.program, &model.command, model.impressions.iter().map(|i| &i.side));
    whole(
        &model.title,
        &body,
        &looking::inks(model),
        Own { style: STYLE, scripts: &[SCRIPT, CHOOSING_SCRIPT] },
    )
}

/// Everything above the pictures.
fn head(model: &BlocksModel) -> String {
    Head {
        title: &model.title,
        verdict_words: &model.verdict_words,
        findings: &model.findings,
        cautions: &model.cautions,
        measures: &model.measures,
        heed: &[("To be heeded first", &model.warnings), ("What is doubtful", &model.doubts)],
    }
    .set()
}

/// Where what is.
fn contents(model: &BlocksModel) -> String {
    let mut links = String::new();
    for block in model.blocks.iter().filter(|b| b.impressions.len() > 1) {
        let _ = writeln!(links, "<a href=\"#block-{0}\">Block {0}</a>", block.number);
    }
    format!(
        "<nav class=\"contents\" aria-label=\"On this page\">\n{links}<a href=\"#sheets\">The sheets</a>\n\
         <a href=\"#pairs\">Two by two</a>\n</nav>\n"
    )
}

/// The history of one block; of one impression there is none. `first` is the place of its first damage among those that the
/// script walks through.
fn history(model: &BlocksModel, block: &BlockModel, first: Option<usize>) -> String {
    if block.impressions.len() < 2 {
        return String::new();
    }
    let doubts = if block.doubts.is_empty() {
        String::new()
    } else {
        let doubts = list("plain", &block.doubts);
        format!("<section class=\"part doubts\">\n<h3>What is doubtful</h3>\n{doubts}</section>\n")
    };
    format!(
        "<section class=\"lines block\" id=\"block-{n}\">\n<h2>Block {n}</h2>\n<p>{}</p>\n{}{}{}{}{doubts}</section>\n",
        Text(&block.words),
        composite::section(block, first.is_some(), first.unwrap_or(1)),
        order::section(model, block),
        strip::section(model, block),
        dates::section(block),
        n = block.number,
    )
}

#[cfg(test)]
mod tests;
