//! All copies, seen small, under their settings.

use std::fmt::Write as _;

use super::{CopyModel, ManyModel};
use crate::page::data_uri::data_uri;
use crate::page::text::Text;

/// The section of all copies.
pub(super) fn section(model: &ManyModel) -> String {
    let mut out = String::from("<section class=\"lines copies\">\n<h2>The copies</h2>\n");
    for setting in &model.settings {
        let of = setting.copies.iter().filter_map(|c| model.copies.get(*c));
        out += &sheet(&format!("Setting {}", setting.number), of);
    }
    let unplaced: Vec<&CopyModel> = model.copies.iter().filter(|c| c.setting.is_none()).collect();
    if !unplaced.is_empty() {
        out += &sheet("Not placed", unplaced.into_iter());
    }
    out + "</section>\n"
}

fn sheet<'c>(title: &str, copies: impl Iterator<Item = &'c CopyModel>) -> String {
    let mut figures = String::new();
    for copy in copies {
        figures += &figure(copy);
    }
    format!("<h3>{title}</h3>\n<div class=\"contact\">\n{figures}</div>\n")
}

fn figure(copy: &CopyModel) -> String {
    let mut out = String::from("<figure>");
    let name = Text(&copy.side.file_name);
    if let Some(shown) = &copy.shown {
        let [w, h] = shown.photograph.size_px;
        let image = format!(
            "<img width=\"{w}\" height=\"{h}\" alt=\"Copy {}\" src=\"{}\">",
            copy.number,
            data_uri("image/jpeg", &shown.photograph.jpeg)
        );
        let _ = write!(
            out,
            "<button type=\"button\" class=\"take\" data-copy=\"{}\">{image}</button>",
            copy.number
        );
    }
    let [w, h] = copy.side.size_px;
    let size = if w == 0 { String::new() } else { format!("{w} × {h} px; ") };
    let why_not = copy.why_not.as_ref().map_or_else(String::new, |why| format!("<br>{}", Text(why)));
    let _ = writeln!(
        out,
        "<figcaption><b>{}</b> <bdi class=\"file\">{name}</bdi><br>{size}{}{why_not}</figcaption></figure>",
        copy.number,
        Text(&copy.side.scale_words)
    );
    out
}
