//! The years of the impressions of a block: a drawing, the same as a table, and all that stands behind it.

use std::fmt::Write as _;

use super::{BlockModel, DatesModel, YearModel, YearRow};
use crate::blocks::dated_words;
use crate::blocks::plot::{Breadth, inline};
use crate::page::list;
use crate::page::text::Text;

/// The section; nothing where no years were asked for.
pub(super) fn section(block: &BlockModel) -> String {
    let Some(dates) = &block.dates else { return String::new() };
    let title = format!("The years of the impressions of block {}", block.number);
    let mut drawn = String::new();
    for (breadth, id) in [(Breadth::Wide, "wide"), (Breadth::Narrow, "narrow")] {
        drawn += &inline(dates, &title, breadth, &format!("years-{}-{id}", block.number)).unwrap_or_default();
    }
    let drawn = if drawn.is_empty() {
        String::new()
    } else {
        format!("<figure class=\"drawing\">\n{drawn}</figure>\n")
    };
    let warnings = if dates.warnings.is_empty() {
        String::new()
    } else {
        format!(
            "<aside class=\"against\" aria-label=\"What to know about these years\">\n<h4>To be heeded</h4>\n{}</aside>\n",
            list("plain", &dates.warnings)
        )
    };
    let checks = if dates.checks.is_empty() {
        String::new()
    } else {
        format!("<h4>How the model fares</h4>\n{}{}", list("plain", &dates.checks), held_out(dates))
    };
    format!(
        "<section class=\"part dates\">\n<h3>The years</h3>\n<p>Two answers are given wherever a year is not known. The first \
         rests on the order and on the dated impressions alone. The second also takes it that this block lost wood at a rate \
         that can be learnt from its own dated sheets. Scholars disagree about the second: how a block was scrubbed, kept and used \
         matters as well as time.</p>\n{drawn}{}<h4>The rate</h4>\n<p>{}</p>\n{warnings}<details>\n\
         <summary>How the model fares, and what was taken for likely beforehand</summary>\n{checks}\
         <h4>What was taken for likely beforehand</h4>\n{}</details>\n</section>\n",
        table(block, dates),
        Text(&dates.rate_words),
        list("plain", &dates.priors)
    )
}

/// The figures of the drawing.
fn table(block: &BlockModel, dates: &DatesModel) -> String {
    let has_plain = dates.rows.iter().any(|r| r.plain_words.is_some());
    let rows: String = dates.rows.iter().map(|row| one_row(row, has_plain)).collect();
    let plain = if has_plain { "<th scope=\"col\">Plain line</th>" } else { "" };
    format!(
        "<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"The years of block {n} as a table\">\n\
         <table class=\"year-table\">\n<caption class=\"unseen\">The years of the impressions of block {n}: the median, and the years \
         between which it lies with 50 and with 95 percent</caption>\n<thead><tr><th scope=\"col\">Impression</th>\
         <th scope=\"col\">Said</th><th scope=\"col\">By the order alone</th><th scope=\"col\">With the rate as well</th>\
         <th scope=\"col\">Sure bounds</th>{plain}</tr></thead>\n<tbody>\n{rows}</tbody>\n</table>\n</div>\n",
        n = block.number
    )
}

fn one_row(row: &YearRow, has_plain: bool) -> String {
    let said = dated_words(row.dated).unwrap_or_else(|| "nothing".to_owned());
    let plain = match (&row.plain_words, has_plain) {
        (_, false) => String::new(),
        (None, true) => "<td></td>".to_owned(),
        (Some(words), true) => format!("<td>{}</td>", Text(words)),
    };
    format!(
        "<tr><th scope=\"row\">{}</th><td>{}</td><td>{}</td><td>{}</td><td class=\"bounds\">{}</td>{plain}</tr>\n",
        row.impression,
        Text(&said),
        answer(row.by_order.as_ref()),
        answer(row.with_rate.as_ref()),
        Text(&row.bounds_words)
    )
}

/// The median, and under it both intervals.
fn answer(year: Option<&YearModel>) -> String {
    let Some(year) = year else { return String::new() };
    let mut doubts = String::new();
    if year.beyond > 0.5 {
        let _ = write!(doubts, "<span>beyond the dated ({:.0} %)</span>", 100.0 * year.beyond);
    }
    if year.rests_on_window {
        doubts += "<span>rests on an assumed end</span>";
    }
    format!(
        "<b>{}</b><span>50 %: {}</span><span>95 %: {}</span>{doubts}",
        whole(year.median),
        span(year.half),
        span(year.nearly_all)
    )
}

fn whole(year: f64) -> String {
    format!("{:.0}", year.round())
}

fn span([from, to]: [f64; 2]) -> String {
    format!("{}–{}", whole(from), whole(to))
}

/// Dated impressions that were taken for undated.
fn held_out(dates: &DatesModel) -> String {
    if dates.held_out.is_empty() {
        return String::new();
    }
    let mut rows = String::new();
    for h in &dates.held_out {
        let is_within = h.nearly_all[0] <= h.known && h.known <= h.nearly_all[1];
        let _ = writeln!(
            rows,
            "<tr><th scope=\"row\">{}</th><td>{}</td><td>{}</td><td>{}</td><td>{}</td><td>{}{}</td></tr>",
            h.impression,
            whole(h.known),
            whole(h.median),
            span(h.half),
            span(h.nearly_all),
            if is_within { "within 95 %" } else { "missed" },
            if h.is_beyond { ", beyond the others" } else { "" }
        );
    }
    format!(
        "<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"Dated impressions taken for undated\">\n\
         <table class=\"held-out\">\n<caption class=\"unseen\">Dated impressions taken for undated, each by the others</caption>\n\
         <thead><tr><th scope=\"col\">Impression</th><th scope=\"col\">Said</th><th scope=\"col\">Median</th>\
         <th scope=\"col\">50 %</th><th scope=\"col\">95 %</th><th scope=\"col\">Found</th></tr></thead>\n<tbody>\n{rows}</tbody>\n\
         </table>\n</div>\n"
    )
}
