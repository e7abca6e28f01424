//! The photograph, and what was measured drawn on it.

use std::fmt::Write as _;

use super::{IncidentModel, MeasuresModel};
use crate::page::FrameBox;
use crate::page::data_uri::data_uri;
use crate::page::looking::{WALKING, position, shares, window, zooming};
use crate::page::text::{Text, number};
use crate::page::tiles::{block_of, sizes};

/// The stage with the photograph, and the walk through what may have gone wrong.
pub(super) fn section(model: &MeasuresModel) -> String {
    let [w, h] = model.picture.whole_px;
    let image = format!(
        "<img width=\"{w}\" height=\"{h}\" alt=\"The photograph: {}\" draggable=\"false\" src=\"{}\">",
        Text(&model.side.file_name),
        data_uri("image/jpeg", &model.picture.whole)
    );
    let mut marks = traced(model);
    for (i, incident) in model.incidents.iter().enumerate() {
        let _ = writeln!(
            marks,
            "<i class=\"place\" style=\"{}\" data-number=\"{}\"></i>",
            position(incident.frame),
            i + 1
        );
    }
    // The script shows of several panes the one that is called both.
    let pane = window(
        "both",
        &sizes(&model.picture),
        &image,
        &marks,
        &format!("<bdi>{}</bdi>", Text(&model.side.file_name)),
    );
    let walking = if model.incidents.is_empty() { "" } else { WALKING };
    let zooming = zooming("whole side");
    format!(
        "<section id=\"looking\" class=\"looking measured\" aria-labelledby=\"looking-title\" data-way=\"together\">\n\
         <h2 id=\"looking-title\" class=\"unseen\">The photograph</h2>\n\
         <div class=\"bar\">\n<div class=\"tools\">\n{walking}{zooming}</div>\n</div>\n\
         <div class=\"stage\" tabindex=\"0\" role=\"group\" aria-label=\"The photograph\" aria-describedby=\"keys\">\n{pane}</div>\n\
         <div class=\"rail\">\n{LEGEND}{}{KEYS}</div>\n</section>\n",
        walk(&model.incidents)
    )
}

/// What is finer than the whole side.
pub(super) fn tiles(model: &MeasuresModel) -> String {
    block_of("both", &model.picture)
}

const LEGEND: &str = "<ul class=\"legend\" aria-label=\"What is drawn\">\n\
    <li><svg viewBox=\"0 0 30 10\" aria-hidden=\"true\"><line x1=\"0\" y1=\"5\" x2=\"30\" y2=\"5\"/></svg>baseline of a line of type</li>\n\
    <li><svg viewBox=\"0 0 30 10\" aria-hidden=\"true\"><line x1=\"0\" y1=\"5\" x2=\"30\" y2=\"5\" stroke-dasharray=\"7 4\"/></svg>type area, and the page</li>\n\
    <li class=\"toggle\"><label><input type=\"checkbox\" id=\"traced\" checked> draw what was measured</label></li>\n\
    <li class=\"toggle\"><label><input type=\"checkbox\" id=\"boxes\" checked> box what is to be looked at</label></li>\n</ul>\n";

const KEYS: &str = "<details class=\"keys\" id=\"keys\">\n<summary>By hand and by keyboard</summary>\n\
    <p>Drag to move, or press a place to bring it to the middle. Two fingers, or the wheel once the photograph has been pressed, \
    bring it nearer.</p>\n<p>On the photograph: <kbd>←</kbd> <kbd>→</kbd> <kbd>↑</kbd> <kbd>↓</kbd> move, <kbd>+</kbd> \
    <kbd>\u{2212}</kbd> nearer and farther, <kbd>0</kbd> the whole side, <kbd>n</kbd> and <kbd>p</kbd> the next place and the one \
    before.</p>\n</details>\n";

/// Baselines, type area and page as lines.
fn traced(model: &MeasuresModel) -> String {
    let mut shapes = String::new();
    for class in ["under", "over"] {
        for line in &model.lines {
            let points: Vec<String> = line.baseline.iter().map(|[x, y]| format!("{x:.5},{y:.5}")).collect();
            let _ = write!(shapes, "<polyline class=\"{class}\" points=\"{}\"/>", points.join(" "));
        }
        for [[x1, y1], [x2, y2]] in model.incidents.iter().filter_map(|i| i.ends) {
            let _ = write!(
                shapes,
                "<polyline class=\"{class} crease\" points=\"{x1:.5},{y1:.5} {x2:.5},{y2:.5}\"/>"
            );
        }
        for FrameBox { x, y, w, h } in model.type_area.iter().chain(&model.page) {
            let _ = write!(
                shapes,
                "<rect class=\"{class} area\" x=\"{x:.5}\" y=\"{y:.5}\" width=\"{w:.5}\" height=\"{h:.5}\"/>"
            );
        }
    }
    format!("<svg class=\"traced\" viewBox=\"0 0 1 1\" preserveAspectRatio=\"none\">{shapes}</svg>")
}

/// The list of what may have gone wrong.
fn walk(incidents: &[IncidentModel]) -> String {
    if incidents.is_empty() {
        return "<div class=\"walk\"><h3>To be looked at</h3>\n<p>Nothing was found that may have gone wrong at press.</p></div>\n".to_owned();
    }
    let mut items = String::new();
    for (i, one) in incidents.iter().enumerate() {
        let _ = writeln!(
            items,
            "<li><a href=\"#looking\" data-number=\"{}\" data-box=\"{}\"><b>{}</b> <span class=\"score\">{}</span>\
             <span class=\"where\"><span>{}</span></span></a></li>",
            i + 1,
            shares(one.frame),
            Text(&one.class_words),
            number(one.score, 2),
            Text(&one.where_words),
        );
    }
    format!(
        "<div class=\"walk\">\n<h3 id=\"places\">To be looked at</h3>\n<p class=\"count\">{}: candidates for you to confirm, the surest \
         first.</p>\n<p id=\"said\" class=\"unseen\" role=\"status\"></p>\n\
         <ol class=\"places\" aria-labelledby=\"places\">\n{items}</ol>\n</div>\n",
        incidents.len()
    )
}
