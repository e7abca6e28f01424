//! The tables of the sizes of type and of the lines.

use std::fmt::Write as _;

use super::MeasuresModel;
use crate::page::list;
use crate::page::looking::shares;
use crate::page::text::{Text, number};

/// The sizes of type; nothing of a side without lines.
pub(super) fn sizes(model: &MeasuresModel) -> String {
    if model.sizes.is_empty() {
        return String::new();
    }
    let mut rows = String::new();
    for s in &model.sizes {
        let follow =
            if s.from_run > 1 { format!("{} ({})", s.lines, s.from_run) } else { s.lines.to_string() };
        let _ = writeln!(
            rows,
            "<tr><th scope=\"row\">{}</th><td>{follow}</td><td>{}</td><td>{}</td><td>{}</td><td>{}</td><td>{}</td><td>{}</td></tr>",
            s.number,
            Text(&s.twenty),
            Text(&s.by_faces),
            Text(&s.x_height),
            Text(&s.extents),
            Text(&s.longest),
            Text(&s.bodies),
        );
    }
    let gaps: Vec<String> = model.sizes.iter().filter_map(|s| s.gap.clone()).collect();
    let gaps = list("plain", &gaps);
    format!(
        "<section class=\"lines\" id=\"sizes\">\n<h2>Sizes of type</h2>\n<p>Twenty lines are measured from the foot of a short letter in a \
         line to the foot of one twenty lines below; <i>by their faces</i>, from the top of the short letters of the first line to the \
         foot of those of the twentieth. In brackets, how many \
         lines follow each other at most: twenty are scaled up from these. ± is 1.96 standard deviations: 19 times of 20 the true figure \
         lies within.</p>\n\
         <div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"Sizes of type\">\n<table class=\"sizes\">\n<thead><tr><th scope=\"col\">size</th><th scope=\"col\">lines</th>\
         <th scope=\"col\">twenty lines</th><th scope=\"col\">by their faces</th><th scope=\"col\">x-height</th>\
         <th scope=\"col\">capitals; ascenders; descenders</th><th scope=\"col\">longest lines</th><th scope=\"col\">may be</th></tr></thead>\n<tbody>\n{rows}</tbody>\n</table>\n</div>\n{gaps}</section>\n"
    )
}

/// The lines of type, folded away; nothing of a side without.
pub(super) fn lines(model: &MeasuresModel) -> String {
    if model.lines.is_empty() {
        return String::new();
    }
    let told = |value: Option<f64>, decimals: usize| {
        value.map_or_else(|| "short".to_owned(), |v| number(v, decimals))
    };
    let mut rows = String::new();
    for l in &model.lines {
        let _ = writeln!(
            rows,
            "<tr><th scope=\"row\"><a href=\"#looking\" data-box=\"{}\">{}</a></th><td>{}</td><td>{}</td><td>{}</td><td>{}</td></tr>",
            shares(l.frame),
            l.number,
            l.size,
            l.words,
            told(l.falls, 2),
            told(l.bow_px, 1),
        );
    }
    format!(
        "<section class=\"lines\" id=\"lines\">\n<h2>Lines of type</h2>\n<p>How each line lies against the others. A line that falls to \
         the right otherwise than they do was loosely locked up, or the paper moved; press its number to see it.</p>\n\
         <details>\n<summary>All {} lines</summary>\n<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"Lines of type\">\n<table class=\"told-lines\">\n<thead><tr><th scope=\"col\">line</th>\
         <th scope=\"col\">size</th><th scope=\"col\">words</th><th scope=\"col\">falls by, degrees</th>\
         <th scope=\"col\">sags by, px</th></tr></thead>\n<tbody>\n{rows}</tbody>\n</table>\n</div>\n</details>\n</section>\n",
        model.lines.len()
    )
}
