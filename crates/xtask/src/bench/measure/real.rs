//! Photographs of real pages, parted by book, and how much is told of them.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::PathBuf;

use anyhow::Context as _;
use evidence::measure::{IncidentClass, Side, measures};
use serde::Deserialize;
use sheet::Plane;
use sheet::decode::{DecodeRequest, decode};

use crate::bench::pair::read_json;
use crate::bench::set::real_photographs;

/// Which of the real books.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Part {
    /// Those that methods are worked on with.
    Development,
    /// Those held out.
    Held,
}

/// A page of a real book.
#[derive(Debug)]
pub(super) struct Page {
    path: PathBuf,
    /// The number of its book.
    pub(super) book: usize,
}

impl Page {
    /// Its brightness.
    pub(super) fn luminance(&self) -> anyhow::Result<Plane<u8>> {
        let bytes =
            std::fs::read(&self.path).with_context(|| format!("cannot read {}", self.path.display()))?;
        Ok(decode(&bytes, &DecodeRequest::default())?.luminance)
    }
}

/// An entry of the list of pages.
#[derive(Debug, Deserialize)]
struct Entry {
    file: String,
}

/// Photographs that may be measured but not shown are left out.
const NOT_OPEN: &str = "chapbooks";

/// The pages of a part; none where the folder of real photographs is not present.
pub(super) fn pages(part: Part) -> Vec<Page> {
    let folder = real_photographs();
    let Ok(all) = read_json::<Vec<Entry>>(&folder.join("pages.json")) else { return Vec::new() };
    let mut books: BTreeMap<String, usize> = BTreeMap::new();
    let mut out = Vec::new();
    for Entry { file } in all {
        if file.starts_with(NOT_OPEN) || is_held_out(&file) != (part == Part::Held) {
            continue;
        }
        let book = file.rsplit_once('/').map_or("", |p| p.0).to_owned();
        let next = books.len();
        let book = *books.entry(book).or_insert(next);
        out.push(Page { path: folder.join(file), book });
    }
    out
}

/// About one book in three, as in the tests of `sheet`.
fn is_held_out(file: &str) -> bool {
    let book = file.rsplit_once('/').map_or("", |p| p.0);
    let hash = book.bytes().fold(7u32, |h, b| h.wrapping_mul(31).wrapping_add(u32::from(b)));
    !file.starts_with("cremma") && hash.is_multiple_of(3)
}

/// Scores at which it is told how much is told.
const SCORES: [f64; 3] = [0.2, 0.5, 0.9];

/// How many incidents are told of real pages: none of them is known to be one.
pub(super) fn table() -> anyhow::Result<String> {
    let mut out = String::from(
        "| real pages | how many | incident | told with a score of 0.2 and more | 0.5 | 0.9 |\n|---|---|---|---|---|---|\n",
    );
    for (part, name) in [(Part::Development, "development"), (Part::Held, "held out")] {
        let pages = pages(part);
        anyhow::ensure!(!pages.is_empty(), "the folder of real photographs is not present");
        let mut told = Vec::new();
        for page in &pages {
            told.extend(measures(&Side::of(&page.luminance()?, None)).incidents);
        }
        for (class, words) in [
            (IncidentClass::RisenSpace, "risen spaces and quads"),
            (IncidentClass::Crease, "creases through the text"),
        ] {
            let from =
                SCORES.map(|s| told.iter().filter(|i| i.class == class && i.score >= s).count().to_string());
            let _ = writeln!(out, "| {name} | {} | {words} | {} |", pages.len(), from.join(" | "));
        }
    }
    Ok(out)
}
