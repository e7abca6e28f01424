//! The page of blocks: the history of each, from all its impressions.

mod model;
mod pairs;

pub use model::{
    BlockModel, BlocksModel, CutPairModel, DamageModel, DatesModel, HeldOutModel, ImpressionModel,
    OrderModel, RowModel, SeenModel, Sign, Stand, StateModel, YearModel, YearRow,
};

use super::head::Head;
use super::{SCRIPT, made, whole};

/// The page as HTML, in UTF-8. The same model gives the same bytes.
pub fn page(model: &BlocksModel) -> String {
    let mut body = head(model);
    body += &pairs::section(model);
    body += &made::section(&model.program, &model.command, model.impressions.iter().map(|i| &i.side));
    whole(&model.title, &body, "", &[SCRIPT])
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
