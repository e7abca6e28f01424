//! The straight-edge test: a strip of each impression along an edge laid across the page.

use std::fmt::Write as _;

use super::data_uri::data_uri;
use super::looking::shares;
use super::text::{Text, number};
use super::{CrossingModel, EdgeModel, PageModel};

/// The section; nothing where no edge could be laid.
pub(super) fn section(model: &PageModel) -> String {
    if model.edges.is_empty() {
        return String::new();
    }
    let figures: String = model.edges.iter().map(edge).collect();
    format!(
        "<section class=\"lines edges\">\n<h2>The straight-edge test</h2>\n<p>A straight edge laid down the page, over \
         the first (left) and over the second as it lies on the first (right), the paper’s motion taken out. In one \
         setting it cuts the same letters in every line of both. Lines whose letters lie elsewhere, beyond measuring \
         error, are marked with how far.</p>\n<div class=\"strips\" tabindex=\"0\" role=\"region\" \
         aria-label=\"Strips of both impressions along the straight edges\">\n{figures}</div>\n</section>\n"
    )
}

fn edge(edge: &EdgeModel) -> String {
    let strips = edge.strips.as_ref().map_or_else(String::new, |strips| {
        let [w, h] = strips.size_px;
        let one = |rank: &str, bytes: &[u8], marks: &str| {
            format!(
                "<div class=\"strip\"><img width=\"{w}\" height=\"{h}\" alt=\"Strip of the {rank} along \
                 edge {}\" src=\"{}\"><i class=\"edge\"></i>{marks}</div>",
                edge.number,
                data_uri("image/jpeg", bytes)
            )
        };
        let marks: String = edge.crossings.iter().filter(|c| c.fails).map(mark).collect();
        format!(
            "<div class=\"two\">{}{}</div>\n",
            one("first", &strips.first, ""),
            one("second", &strips.second, &marks)
        )
    });
    format!(
        "<figure>\n<figcaption><a href=\"#looking\" data-box=\"{}\">Edge {}</a>. {}</figcaption>\n{strips}{}</figure>\n",
        shares(edge.frame),
        edge.number,
        Text(&edge.words),
        failing(&edge.crossings),
    )
}

/// The mark of a line whose letters lie elsewhere.
fn mark(crossing: &CrossingModel) -> String {
    format!(
        "<i class=\"off\" style=\"top:{}%\" aria-hidden=\"true\"><b>{}</b></i>",
        number(crossing.down.clamp(0.0, 1.0) * 100.0, 2),
        Text(&crossing.off_words)
    )
}

/// The lines whose letters lie elsewhere, for who does not see the strips.
fn failing(crossings: &[CrossingModel]) -> String {
    let mut out = String::new();
    for c in crossings.iter().filter(|c| c.fails) {
        let _ = write!(out, "<li>line {}: {}</li>", c.line, Text(&c.off_words));
    }
    if out.is_empty() { out } else { format!("<ul class=\"unseen\">{out}</ul>\n") }
}
