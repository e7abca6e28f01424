//! Every two copies that were laid together.

use std::fmt::Write as _;

use super::ManyModel;
use crate::page::text::{Text, weight_words};

/// The section: a table that opens on demand.
pub(super) fn section(model: &ManyModel) -> String {
    if model.pairs.is_empty() {
        return String::new();
    }
    let mut rows = String::new();
    for pair in &model.pairs {
        let weight = weight_words(pair.weight_log10);
        let [a, b] = pair.copies;
        let _ = writeln!(
            rows,
            "<tr><th scope=\"row\">{a} and {b}</th><td>{}</td><td>{weight}</td><td>{}</td></tr>",
            Text(&pair.verdict_words),
            pair.places
        );
    }
    let alone = model.pairs.first().map_or_else(String::new, |pair| {
        let file = |n: usize| model.copies.get(n - 1).map_or("", |copy| copy.side.file_name.as_str());
        let [a, b] = pair.copies.map(file);
        format!(
            "<p>The residual, the straight-edge test and the table of lines are on the page of two copies by themselves: \
             <code>reglet compare {} {}</code></p>\n",
            Text(a),
            Text(b)
        )
    });
    format!(
        "<section class=\"lines pairs\">\n<h2>Two by two</h2>\n<p>Settings are grouped from these: two groups are one as long \
         as their pairs speak for it in the mean, those that do so most first.</p>\n{alone}<details>\n\
         <summary>{} pairs that were laid together</summary>\n<div class=\"wide\" tabindex=\"0\" role=\"region\" \
         aria-label=\"Pairs that were laid together\">\n<table>\n<thead><tr><th scope=\"col\">Copies</th>\
         <th scope=\"col\">Found</th><th scope=\"col\">Weight, log<sub>10</sub></th><th scope=\"col\">Places</th></tr></thead>\n\
         <tbody>\n{rows}</tbody>\n</table>\n</div>\n</details>\n</section>\n",
        model.pairs.len()
    )
}
