//! Every two impressions that were compared.

use std::fmt::Write as _;

use super::BlocksModel;
use crate::page::list;
use crate::page::text::{Text, weight_words};

/// The section: a table that opens on demand, and in it the reasons of each.
pub(super) fn section(model: &BlocksModel) -> String {
    if model.pairs.is_empty() {
        return String::new();
    }
    let mut rows = String::new();
    for pair in &model.pairs {
        let [a, b] = pair.impressions;
        let why = if pair.reasons.is_empty() {
            String::new()
        } else {
            format!("<details><summary>why</summary>\n{}</details>", list("plain", &pair.reasons))
        };
        let _ = writeln!(
            rows,
            "<tr><th scope=\"row\">{a} and {b}</th><td class=\"found\">{}{why}</td><td>{}</td><td>{}</td></tr>",
            Text(&pair.verdict_words),
            weight_words(pair.weight_log10),
            Text(&pair.likeness_words)
        );
    }
    format!(
        "<section class=\"lines pairs\" id=\"pairs\">\n<h2>Two by two</h2>\n<p>Blocks are put together from these. Likeness: the \
         median correlation of small windows laid on each other, 1 where they agree in everything; then the width and height of \
         the second by those of the first.</p>\n<details>\n<summary>Pairs that were compared: {}</summary>\n\
         <div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"Pairs that were compared\">\n<table>\n\
         <caption class=\"unseen\">Every two impressions, compared</caption>\n<thead><tr><th scope=\"col\">Impressions</th>\
         <th scope=\"col\">Found</th><th scope=\"col\">Weight, log<sub>10</sub></th><th scope=\"col\">Likeness</th></tr></thead>\n\
         <tbody>\n{rows}</tbody>\n</table>\n</div>\n</details>\n</section>\n",
        model.pairs.len()
    )
}
