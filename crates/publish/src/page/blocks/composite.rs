//! The best impression there is of a block, its damages placed on it and numbered in the margin.

use std::fmt::Write as _;

use super::words::{image, numbers, ring};
use super::{BlockModel, DamageModel, Sign};
use crate::page::FrameBox;
use crate::page::looking::position;
use crate::page::text::Text;

/// The margin on either side, as a share of the width of the picture.
const MARGIN: f64 = 0.075;
/// Numbers in the margin stand so far apart at least, as a share of the height of the picture, where there is room.
const APART: f64 = 0.045;

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

#[derive(Debug, Clone, Copy, PartialEq)]
enum Side {
    Left,
    Right,
}

/// Where the number of a damage stands.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Label {
    side: Side,
    /// How far down, as a share of the picture's height.
    down: f64,
}

/// Numbers in the nearer margin, each beside its damage as far as there is room.
fn labels(damages: &[DamageModel]) -> Vec<Label> {
    let middle = |i: usize| damages[i].frame.x + damages[i].frame.w / 2.0;
    let down = |i: usize| (damages[i].frame.y + damages[i].frame.h / 2.0).clamp(0.0, 1.0);
    let mut by_x: Vec<usize> = (0..damages.len()).collect();
    by_x.sort_by(|&a, &b| middle(a).total_cmp(&middle(b)));
    // Where one margin would hold far more than the other, those of the middle go across.
    let least = damages.len() / 3;
    let split = by_x.partition_point(|&i| middle(i) < 0.5).clamp(least, damages.len() - least);
    let mut out = vec![Label { side: Side::Left, down: 0.0 }; damages.len()];
    let (left, right) = by_x.split_at(split);
    for (some, side) in [(left, Side::Left), (right, Side::Right)] {
        let mut some = some.to_vec();
        some.sort_by(|&a, &b| down(a).total_cmp(&down(b)).then(a.cmp(&b)));
        let wanted: Vec<f64> = some.iter().map(|&i| down(i)).collect();
        for (&i, down) in some.iter().zip(apart(&wanted)) {
            out[i] = Label { side, down };
        }
    }
    out
}

/// Places from 0 to 1, in order, moved no farther than needed to stand apart.
fn apart(wanted: &[f64]) -> Vec<f64> {
    let gap = APART.min(1.0 / wanted.len().max(1) as f64);
    let (low, high) = (gap / 2.0, 1.0 - gap / 2.0);
    let mut out: Vec<f64> = wanted.iter().map(|w| w.clamp(low, high)).collect();
    for i in 1..out.len() {
        out[i] = out[i].max(out[i - 1] + gap);
    }
    let mut next = high + gap;
    for at in out.iter_mut().rev() {
        *at = at.min(next - gap);
        next = *at;
    }
    out
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_that_would_lie_on_each_other_are_moved_apart_and_keep_their_order() {
        let placed = apart(&[0.5, 0.5, 0.505, 0.99, 1.0]);
        for pair in placed.windows(2) {
            assert!(pair[1] - pair[0] > APART - 1e-9, "{placed:?}");
        }
        assert!(placed[0] <= 0.5 && placed[4] <= 1.0 - APART / 2.0 + 1e-9);
        assert_eq!(apart(&[0.3]), [0.3]);
        // More than there is room for stand as far apart as they can.
        let many = apart(&[0.5; 40]);
        assert!(many.windows(2).all(|p| (p[1] - p[0] - 1.0 / 40.0).abs() < 1e-9));
    }
}
