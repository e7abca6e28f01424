//! Which sheets carry which block: each cut as it is photographed.

use std::fmt::Write as _;

use super::words::image;
use super::{BlocksModel, ImpressionModel};
use crate::blocks::dated_words;
use crate::page::text::Text;

/// The section of all photographs, under their blocks.
pub(super) fn section(model: &BlocksModel) -> String {
    let mut out = String::from(
        "<section class=\"lines copies\" id=\"sheets\">\n<h2>The sheets that carry them</h2>\n\
         <p>Each cut as it is photographed.</p>\n",
    );
    for block in &model.blocks {
        let of = block.impressions.iter().filter_map(|n| model.impressions.get(n - 1));
        out += &group(&format!("Block {}", block.number), of);
    }
    let unplaced: Vec<&ImpressionModel> = model.impressions.iter().filter(|i| i.block.is_none()).collect();
    if !unplaced.is_empty() {
        out += &group("Not placed", unplaced.into_iter());
    }
    out + "</section>\n"
}

fn group<'i>(title: &str, impressions: impl Iterator<Item = &'i ImpressionModel>) -> String {
    let figures: String = impressions.map(figure).collect();
    format!("<h3>{title}</h3>\n<div class=\"contact sheets\">\n{figures}</div>\n")
}

fn figure(of: &ImpressionModel) -> String {
    let cut = of
        .cut
        .as_ref()
        .map_or_else(String::new, |small| image(small, &format!("The cut of impression {}", of.number)));
    let mut lines = Vec::new();
    lines.extend(of.cut_words.as_ref().map(|words| Text(words).to_string()));
    let [w, h] = of.side.size_px;
    let whole = if w == 0 { String::new() } else { format!("photograph {w} × {h} px; ") };
    lines.push(format!("{whole}{}", Text(&of.side.scale_words)));
    lines.extend(dated_words(of.dated).map(|year| format!("year: {}", Text(&year))));
    lines.extend(of.why_not.as_ref().map(|why| Text(why).to_string()));
    let mut out = String::new();
    let _ = writeln!(
        out,
        "<figure>{cut}<figcaption><b>{}</b> <bdi class=\"file\">{}</bdi><br>{}</figcaption></figure>",
        of.number,
        Text(&of.side.file_name),
        lines.join("<br>")
    );
    out
}
