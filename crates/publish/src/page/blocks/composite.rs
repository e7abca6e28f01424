//! The best impression there is of a block, its damages placed on it and numbered in the margin.

use std::fmt::Write as _;

use super::labels::{Label, MARGIN, Side, labels};
use super::words::{image, numbers, ring};
use super::{BlockModel, DamageModel, Sign};
use crate::page::FrameBox;
use crate::page::looking::position;
use crate::page::text::Text;

/// The picture and the table beside it; `seen` says whether two impressions can be laid together, and `first` is the place
/// of the block's first damage among all of the page.
pub(super) fn section(block: &BlockModel, seen: bool, first: usize) -> String {
    if block.damages.is_empty() {
        let plate = block.composite.as_ref().map_or_else(String::new, |_| plate(block));
        return format!(
            "<section class=\"part best\">\n<h3>The best impression</h3>\n{plate}\
             <p>No damage was found that some impressions show and others lack.</p>\n</section>\n"
        );
    }
    format!(
        "<section class=\"part best\">\n<h3>The best impression, and what was lost of it</h3>\n<p>Made of all impressions, on \
         the frame of impression {}: the wood whole as far as any of them shows it. Each box is a damage.</p>\n\
         <div class=\"beside\">\n{}{}</div>\n</section>\n",
        block.frame,
        plate(block),
        table(block, seen, first)
    )
}

/// The picture with its numbers.
fn plate(block: &BlockModel) -> String {
    let Some(composite) = &block.composite else {
        return "<p class=\"nothing-drawn\">No picture could be drawn.</p>\n".to_owned();
    };
    let [w, h] = composite.size_px.map(|v| v as f64);
    let shape = w * (1.0 + 2.0 * MARGIN) / h.max(1.0);
    let mut marks = String::new();
    for (damage, label) in block.damages.iter().zip(labels(&block.damages)) {
        marks += &mark(block, damage, label);
    }
    format!(
        "<figure class=\"plate\" style=\"aspect-ratio:{shape:.4}\">\n<div class=\"print\">{}</div>\n{marks}</figure>\n",
        image(composite, &format!("The best impression of block {}", block.number))
    )
}

/// The box, the line that leads to it, and its number.
fn mark(block: &BlockModel, damage: &DamageModel, label: Label) -> String {
    let n = damage.number;
    let whole = 1.0 + 2.0 * MARGIN;
    // Of the picture with its margins.
    let across = |x: f64| (x + MARGIN) / whole;
    let b = damage.frame;
    let frame = FrameBox { x: across(b.x), y: b.y, w: b.w / whole, h: b.h };
    let (from, to) = match label.side {
        Side::Left => (across(-0.25 * MARGIN), across(b.x)),
        Side::Right => (across(1.0 + 0.25 * MARGIN), across(b.x + b.w)),
    };
    let (y1, y2) = (label.down, b.y + b.h / 2.0);
    let side = if label.side == Side::Left { "left" } else { "right" };
    let line = |class: &str| {
        format!(
            "<line{class} x1=\"{:.2}\" y1=\"{:.2}\" x2=\"{:.2}\" y2=\"{:.2}\"/>",
            100.0 * from,
            100.0 * y1,
            100.0 * to,
            100.0 * y2
        )
    };
    format!(
        "<div class=\"mark {side}\" id=\"mark-{}-{n}\"><svg viewBox=\"0 0 100 100\" preserveAspectRatio=\"none\" \
         aria-hidden=\"true\">{}{}</svg><i class=\"around\" style=\"{}\"></i>\
         <span class=\"number\" style=\"top:{:.3}%\">{}</span></div>\n",
        block.number,
        line(" class=\"under\""),
        line(""),
        position(frame),
        100.0 * y1,
        ring(block, n)
    )
}

/// What every impression shows of every damage.
fn table(block: &BlockModel, seen: bool, first: usize) -> String {
    let mut rows = String::new();
    for (i, damage) in block.damages.iter().enumerate() {
        let n = damage.number;
        let together = if seen {
            format!(
                " <button type=\"button\" class=\"see\" data-place=\"{}\" hidden aria-label=\"Damage {n} of block {} on two \
                 impressions together\">see</button>",
                first + i,
                block.number
            )
        } else {
            String::new()
        };
        let _ = writeln!(
            rows,
            "<tr id=\"damage-{b}-{n}\"><th scope=\"row\"><a class=\"ring\" href=\"#mark-{b}-{n}\"><span class=\"unseen\">damage \
             </span>{n}</a></th><td>{}{together}</td><td>{}</td><td>{}</td><td>{}</td><td>{}</td><td>{}</td></tr>",
            Text(&damage.class_words),
            Text(&damage.place_words),
            Text(&damage.size_words),
            of(damage, Sign::Present),
            of(damage, Sign::Absent),
            unclear(damage),
            b = block.number,
        );
    }
    format!(
        "<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"Damages of block {b}\">\n<table class=\"damages\">\n\
         <caption class=\"unseen\">Damages of block {b}: what, where, how large, in which impressions</caption>\n\
         <thead><tr><th scope=\"col\">No.</th><th scope=\"col\">Damage</th><th scope=\"col\">Place</th><th scope=\"col\">Size</th>\
         <th scope=\"col\">Present in</th><th scope=\"col\">Absent in</th><th scope=\"col\">Unclear in</th></tr></thead>\n\
         <tbody>\n{rows}</tbody>\n</table>\n</div>\n",
        b = block.number
    )
}

fn of(damage: &DamageModel, sign: Sign) -> String {
    let all: Vec<usize> = damage.seen.iter().filter(|s| s.sign == sign).map(|s| s.impression).collect();
    if all.is_empty() { "none".to_owned() } else { numbers(&all) }
}

/// The impressions that do not tell, those for one reason together.
fn unclear(damage: &DamageModel) -> String {
    let mut why: Vec<(&str, Vec<usize>)> = Vec::new();
    for seen in damage.seen.iter().filter(|s| s.sign == Sign::Unclear) {
        let because = seen.because.as_deref().unwrap_or("it could not be measured");
        match why.iter_mut().find(|(w, _)| *w == because) {
            Some((_, all)) => all.push(seen.impression),
            None => why.push((because, vec![seen.impression])),
        }
    }
    if why.is_empty() {
        return "none".to_owned();
    }
    let parts: Vec<String> = why
        .iter()
        .map(|(because, all)| format!("{} <span class=\"why\">({})</span>", numbers(all), Text(because)))
        .collect();
    parts.join("; ")
}
