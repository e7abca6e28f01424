//! The head of the page: the verdict, why, and why not too sure.

use std::fmt::Write as _;

use super::text::{Text, number};
use super::{PageModel, SideModel, list};

/// Everything above the photographs.
pub(super) fn section(model: &PageModel) -> String {
    let title = Text(&model.title);
    let verdict = Text(&model.verdict_words);
    let reasons = list("reasons", &model.verdict_reasons);
    let cautions = list("cautions", &model.cautions);
    let cautions = if cautions.is_empty() { cautions } else { format!("<h2>Cautions</h2>\n{cautions}") };
    let measures = measures(model);
    let warnings = list("warnings", &model.warnings);
    let warnings = if warnings.is_empty() {
        warnings
    } else {
        format!(
            "<aside class=\"heed\" aria-label=\"Warnings\">\n<h2>To be heeded first</h2>\n{warnings}</aside>\n"
        )
    };
    format!(
        "<header class=\"verdict\">\n<p class=\"runner\">{title}</p>\n<h1>{verdict}</h1>\n</header>\n\
         <div class=\"argument\">\n<section class=\"why\">\n<h2>Reasons</h2>\n{reasons}</section>\n\
         <section class=\"doubt\">\n{cautions}</section>\n<section class=\"measures\">\n\
         <h2 class=\"unseen\">Measures</h2>\n{measures}</section>\n</div>\n{warnings}"
    )
}

/// The weight, the residual, and the two photographs, as terms with what they are.
fn measures(model: &PageModel) -> String {
    let mut out = String::from("<dl>\n");
    let weight = match &model.weight {
        None => "none is given with this verdict".to_owned(),
        Some(weight) => {
            format!(
                "<b class=\"weight\">{}{}</b> {}",
                sign(weight.log10),
                number(weight.log10, 1),
                Text(&weight.words)
            )
        }
    };
    let _ = writeln!(out, "<dt>Weight of evidence, log<sub>10</sub></dt>\n<dd>{weight}</dd>");
    let _ = writeln!(out, "<dt>Residual</dt>\n<dd>{}</dd>", Text(&model.residual_words));
    for (side, rank) in model.sides.iter().zip(["first", "second"]) {
        let label = if rank == "first" { "The first" } else { "The second" };
        let _ = writeln!(out, "<dt><i class=\"ink {rank}\"></i>{label}</dt>\n<dd>{}</dd>", about(side));
    }
    out.push_str("</dl>\n");
    out
}

/// A plus before a positive number: the weight speaks for one setting or against it.
fn sign(value: f64) -> &'static str {
    if value > 0.0 { "+" } else { "" }
}

/// A photograph's name, size and scale.
fn about(side: &SideModel) -> String {
    let [w, h] = side.size_px;
    format!(
        "<bdi class=\"file\">{}</bdi><br>{w} × {h} px; {}",
        Text(&side.file_name),
        Text(&side.scale_words)
    )
}
