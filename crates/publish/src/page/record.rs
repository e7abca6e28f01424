//! Below the photographs: the lines of type, the edges, the map, what was not judged.

use std::fmt::Write as _;

use super::looking::shares;
use super::text::{Text, number};
use super::{DriftPoint, LineModel, PageModel, edges, list, made, residuals};
use evidence::Standing;

/// Width and height of a drift chart, in its own units.
const CHART: (f64, f64) = (240.0, 28.0);

/// All the sections.
pub(super) fn sections(model: &PageModel) -> String {
    let mut out = lines(model) + &edges::section(model) + &residuals::section(model);
    if !model.not_judged.is_empty() {
        let items = list("plain", &model.not_judged);
        let _ =
            write!(out, "<section class=\"text\">\n<h2>What could not be judged</h2>\n{items}</section>\n");
    }
    out + &made::section(&model.program, &model.command, model.sides.iter())
}

/// The lines of type: those that were judged as a table, the others as a second one that opens on demand;
/// nothing when there are none.
fn lines(model: &PageModel) -> String {
    if model.lines.is_empty() {
        return String::new();
    }
    let (unjudged, judged): (Vec<_>, Vec<_>) =
        model.lines.iter().partition(|line| line.standing == Standing::Unjudged);
    let reach = reach(&judged, &model.drift_unit);
    let (end, unit) = (number(reach, 2), Text(&model.drift_unit));
    let judged = if judged.is_empty() {
        "<p>No line could be judged.</p>\n".to_owned()
    } else {
        table("Line by line", &judged, reach)
    };
    let unjudged = if unjudged.is_empty() {
        String::new()
    } else {
        let table = table("Lines that could not be judged", &unjudged, reach);
        format!("<details>\n<summary>Not judged: {}</summary>\n{table}</details>\n", unjudged.len())
    };
    format!(
        "<section class=\"lines\">\n<h2>Line by line</h2>\n<p>Drift is how far the second’s ink lies to the right of \
         where the smooth motion of the paper would put it. In one setting a line does not drift; set again, it drifts \
         as its spaces differ. All charts share one scale, ±{end} {unit}. Sorts of the same setting stand a little above and \
         below their line as before; other pieces of type stand otherwise.</p>\n{judged}{unjudged}</section>\n"
    )
}

/// A table of lines.
fn table(name: &str, lines: &[&LineModel], reach: f64) -> String {
    let rows: String = lines.iter().map(|line| row(line, reach)).collect();
    format!(
        "<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"{name}\">\n<table>\n<thead><tr>\
         <th scope=\"col\">Line</th><th scope=\"col\">Standing</th><th scope=\"col\">Sorts</th><th scope=\"col\">Drift along the line</th>\
         </tr></thead>\n<tbody>\n{rows}</tbody>\n</table>\n</div>\n"
    )
}

/// The half height of every chart: the largest drift of the lines that were judged, but never so little
/// that measuring error would fill a chart and look like drift. The floors are those of a drift that the
/// eye would find on the sheet itself (common practice, no source).
fn reach(judged: &[&LineModel], unit: &str) -> f64 {
    let floor = match unit {
        "mm" => 0.15,
        "x-heights" => 0.1,
        _ => 2.0,
    };
    let drifts = judged.iter().flat_map(|line| &line.drift).map(|p| p.drift.abs());
    drifts.filter(|d| d.is_finite()).fold(floor, f64::max)
}

/// One line of the table.
fn row(line: &LineModel, reach: f64) -> String {
    let (class, word) = match line.standing {
        Standing::Same => ("same", "same"),
        Standing::Moved => ("moved", "moved"),
        Standing::Respaced => ("respaced", "respaced"),
        Standing::Reset => ("reset", "set again"),
        Standing::OtherWords => ("other", "other words"),
        Standing::Unjudged => ("unjudged", "not judged"),
    };
    format!(
        "<tr class=\"{class}\"><th scope=\"row\"><a href=\"#looking\" data-box=\"{}\" data-line=\"{n}\">\
         <span class=\"unseen\">line </span>{n}</a></th><td><i class=\"standing\"></i>{word}</td>\
         <td>{}</td><td><div class=\"along\">{}<span>{}</span></div></td></tr>\n",
        shares(line.frame),
        Text(&line.sorts_words),
        chart(&line.drift, reach),
        Text(&line.drift_words),
        n = line.number,
    )
}

/// The drift of one line as a small chart: the base line is no drift, up is to the right.
fn chart(drift: &[DriftPoint], reach: f64) -> String {
    let (w, h) = CHART;
    let mut marks = String::new();
    for p in drift.iter().filter(|p| p.at.is_finite() && p.drift.is_finite()) {
        let x = p.at.clamp(0.0, 1.0) * (w - 6.0) + 3.0;
        let y = h / 2.0 - (p.drift / reach).clamp(-1.0, 1.0) * (h / 2.0 - 3.0);
        let _ = write!(marks, "<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"2\"/>");
    }
    format!(
        "<svg class=\"drift\" viewBox=\"0 0 {w} {h}\" aria-hidden=\"true\"><path d=\"M0 {m}H{w}\"/>{marks}</svg>",
        m = h / 2.0
    )
}
