//! The page of a comparison: one HTML file that stands by itself.
//!
//! [`page`] sets a [`PageModel`]; the style, the script and the book face lie beside this file and are
//! taken into the page, which therefore needs no network and can be kept with a study for good.
//! Without a script the page still shows every picture, box and table; printed, it is a record.
//!
//! Four ways of looking share one view (where and how near): *together*, *by turns*, *apart*, *changes*.
//! The three pictures are always there, each once; a way only says which of them are seen.

pub mod blocks;
mod choosing;
mod data_uri;
mod edges;
mod head;
mod looking;
mod made;
pub mod many;
pub mod measure;
mod model;
mod record;
mod residuals;
pub(crate) mod text;
mod tiles;
mod verdict;

pub use model::{
    ChangeModel, CrossingModel, DriftPoint, EdgeModel, FrameBox, LineModel, PageModel, PxBox, SideModel,
    WeightModel,
};

use std::fmt::Write as _;

use data_uri::data_uri;
use text::Text;

const STYLE: &str = include_str!("style.css");
const SCRIPT: &str = include_str!("look.js");
const FACES: [(&str, &str, &[u8]); 3] = [
    ("normal", "400", include_bytes!("fonts/roman.woff2")),
    ("italic", "400", include_bytes!("fonts/italic.woff2")),
    ("normal", "600", include_bytes!("fonts/bold.woff2")),
];

/// The page as HTML, in UTF-8. The same model gives the same bytes.
pub fn page(model: &PageModel) -> String {
    let verdict = verdict::section(model);
    let looking = looking::section(model);
    let record = record::sections(model);
    let tiles = tiles::blocks(model.pictures.as_ref());
    whole(&model.title, &format!("{verdict}{looking}{record}"), &tiles, Own { style: "", scripts: &[SCRIPT] })
}

/// What a kind of page has for itself.
#[derive(Clone, Copy)]
struct Own<'o> {
    /// Rules after those of every page.
    style: &'o str,
    scripts: &'o [&'o str],
}

/// A page from its parts: `data` are blocks that scripts read.
fn whole(title: &str, body: &str, data: &str, own: Own<'_>) -> String {
    let (title, faces) = (Text(title), faces());
    let (style, scripts) = (own.style, own.scripts.concat());
    // The policy lets the page load nothing from anywhere: a file name cannot smuggle in a request.
    format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta name=\"color-scheme\" content=\"light dark\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src data:; \
         font-src data:; style-src 'unsafe-inline'; script-src 'unsafe-inline'; base-uri 'none'; \
         form-action 'none'\">\n\
         <title>{title}</title>\n<style>\n{faces}{STYLE}{style}</style>\n</head>\n<body>\n<main>\n\
         {body}</main>\n{data}<script>\n{scripts}</script>\n</body>\n</html>\n"
    )
}

/// The book face, as rules of style.
fn faces() -> String {
    let mut out = String::new();
    for (slope, weight, bytes) in FACES {
        let address = data_uri("font/woff2", bytes);
        let _ = writeln!(
            out,
            "@font-face {{ font-family: \"Book\"; font-style: {slope}; font-weight: {weight}; \
             src: url({address}) format(\"woff2\"); }}"
        );
    }
    out
}

/// A sentence as a compositor sets it: with the apostrophe of print. What is quoted in it stays as it is.
fn typeset(sentence: &str) -> String {
    let mut out = String::with_capacity(sentence.len() + 8);
    let mut before = ' ';
    let mut letters = sentence.chars().peekable();
    while let Some(c) = letters.next() {
        let is_genitive = c == '\'' && before.is_alphabetic() && letters.peek() == Some(&'s');
        out.push(if is_genitive { '\u{2019}' } else { c });
        before = c;
    }
    out
}

/// A list of sentences; nothing at all of none.
fn list(class: &str, sentences: &[String]) -> String {
    if sentences.is_empty() {
        return String::new();
    }
    let mut out = format!("<ul class=\"{class}\">\n");
    for sentence in sentences {
        let _ = writeln!(out, "<li>{}</li>", Text(&typeset(sentence)));
    }
    out + "</ul>\n"
}

#[cfg(test)]
mod tests;
