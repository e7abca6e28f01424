//! The set of real photographs: pairs looked at by others, and controls that are sure to differ.
//!
//! Nothing of these pictures enters the repository: crops go to the folder of the benchmark, which
//! is under `target`.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use anyhow::Context as _;
use evidence::Verdict;
use serde::Deserialize;
use sheet::decode::{DecodeRequest, decode};

use crate::bench::pair::{Pair, read_json};

/// Where a thing is on a photograph, in the list of pairs.
#[derive(Debug, Clone, Deserialize)]
struct Found {
    file: String,
    #[serde(rename = "box")]
    place: [usize; 4],
}

/// An entry of the list of pairs.
#[derive(Debug, Deserialize)]
struct Listed {
    id: usize,
    kind: String,
    confidence: String,
    a: Found,
    b: Found,
}

/// An entry of the list of pages.
#[derive(Debug, Deserialize)]
struct Page {
    file: String,
}

/// The folder whose photographs carry a wrong tag, and their resolution as it was measured.
const CHAPBOOKS: &str = "chapbooks/";
const CHAPBOOKS_PPI: f64 = 155.0;

/// Chapbooks are laid against the next one in the list and the eighth after it; so every title meets
/// four others, among them two that share a woodcut and an imprint with it.
const CONTROL_STEPS: [usize; 2] = [1, 8];

/// The pairs of the set; crops are written to `folder`.
pub(super) fn pairs(real: &Path, folder: &Path) -> anyhow::Result<Vec<Pair>> {
    let listed: Vec<Listed> = read_json(&real.join("pairs.json"))?;
    let pages: Vec<Page> = read_json(&real.join("pages.json"))?;
    let mut out = Vec::new();
    for entry in &listed {
        let right = match entry.kind.as_str() {
            "same-setting" => vec![Verdict::SameSetting, Verdict::SameSettingWithDifferences],
            "different-setting" => vec![Verdict::DifferentSetting],
            _ => continue,
        };
        let a = crop(real, &entry.a, &folder.join(format!("{}-a.png", entry.id)))?;
        let b = crop(real, &entry.b, &folder.join(format!("{}-b.png", entry.id)))?;
        let name = format!("id {} ({} confidence)", entry.id, entry.confidence);
        let kind = format!("{}, crops", entry.kind);
        out.push(pair(name, kind, (a, b), right.clone(), is_chapbook(&entry.a)));
        if entry.kind == "same-setting" && is_chapbook(&entry.a) {
            let whole = (real.join(&entry.a.file), real.join(&entry.b.file));
            let kind = format!("{}, whole pages", entry.kind);
            out.push(pair(format!("id {} whole", entry.id), kind, whole, right, true));
        }
    }
    let differ = vec![Verdict::DifferentText];
    let titles = titles(&listed);
    for step in CONTROL_STEPS {
        for (i, title) in titles.iter().enumerate() {
            let other = &titles[(i + step) % titles.len()];
            let name = format!("{} / {}", stem(title), stem(other));
            let files = (real.join(title), real.join(other));
            out.push(pair(name, "control: two chapbooks".to_owned(), files, differ.clone(), true));
        }
    }
    for (kind, one, other) in book_controls(&pages) {
        let name = format!("{} / {}", stem(&one), stem(&other));
        out.push(pair(name, kind.to_owned(), (real.join(one), real.join(other)), differ.clone(), false));
    }
    for (number, p) in out.iter_mut().enumerate() {
        p.number = number;
    }
    Ok(out)
}

fn is_chapbook(found: &Found) -> bool {
    found.file.starts_with(CHAPBOOKS)
}

/// The end of a path, enough to find the photograph by.
fn stem(file: &str) -> &str {
    let start = file.rmatch_indices('/').nth(1).map_or(0, |(i, _)| i + 1);
    file[start..].trim_end_matches(".jpg").trim_start_matches(CHAPBOOKS)
}

/// A pair of the set, not yet numbered.
fn pair(name: String, kind: String, (a, b): (PathBuf, PathBuf), right: Vec<Verdict>, chapbook: bool) -> Pair {
    let ppi = chapbook.then_some(CHAPBOOKS_PPI);
    let verdict = right[0];
    Pair {
        number: 0,
        name,
        a,
        b,
        ppi_a: ppi,
        ppi_b: ppi,
        verdict,
        right,
        kind,
        level: None,
        sound: None,
        truth: None,
    }
}

/// Writes a part of a photograph as a grey PNG, unless it is there, and gives its path.
fn crop(real: &Path, found: &Found, to: &Path) -> anyhow::Result<PathBuf> {
    if !to.exists() {
        let path = real.join(&found.file);
        let bytes = std::fs::read(&path).with_context(|| format!("cannot read {}", path.display()))?;
        let whole = decode(&bytes, &DecodeRequest::default())
            .with_context(|| format!("cannot decode {}", path.display()))?
            .luminance;
        let [x, y, w, h] = found.place;
        let (x, y) = (x.min(whole.width()), y.min(whole.height()));
        let part = whole.crop(x, y, w.min(whole.width() - x), h.min(whole.height() - y));
        let (width, height) = (part.width() as u32, part.height() as u32);
        image::save_buffer(to, part.data(), width, height, image::ExtendedColorType::L8)
            .with_context(|| format!("cannot write {}", to.display()))?;
    }
    Ok(to.to_path_buf())
}

/// One photograph of every chapbook of which two copies are listed, in the order of their names.
/// Pairs with a copy in common are one chapbook.
fn titles(listed: &[Listed]) -> Vec<String> {
    let mut title_of: BTreeMap<&str, &str> = BTreeMap::new();
    for entry in listed.iter().filter(|e| e.kind == "same-setting" && is_chapbook(&e.a)) {
        let (a, b) = (entry.a.file.as_str(), entry.b.file.as_str());
        let one = *title_of.get(a).unwrap_or(&a);
        let other = *title_of.get(b).unwrap_or(&b);
        let (name, old) = (one.min(other), one.max(other));
        for file in [a, b] {
            title_of.insert(file, name);
        }
        for title in title_of.values_mut().filter(|t| **t == old) {
            *title = name;
        }
    }
    let mut titles: Vec<String> = title_of.into_values().map(str::to_owned).collect();
    titles.sort();
    titles.dedup();
    titles
}

/// Two pages of one book, and a page of one book against one of the next: kind and files.
fn book_controls(pages: &[Page]) -> Vec<(&'static str, String, String)> {
    let mut books: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for page in pages.iter().filter(|p| !p.file.starts_with(CHAPBOOKS)) {
        let book = page.file.rsplit_once('/').map_or("", |(folder, _)| folder);
        books.entry(book).or_default().push(&page.file);
    }
    let books: Vec<Vec<&str>> = books.into_values().collect();
    let mut out = Vec::new();
    for (i, book) in books.iter().enumerate() {
        if let [.., one, other] = book[..] {
            out.push(("control: two pages of one book", one.to_owned(), other.to_owned()));
        }
        let next = &books[(i + 1) % books.len()];
        if books.len() > 1 {
            out.push(("control: two books", book[book.len() / 2].to_owned(), next[0].to_owned()));
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn listed(pairs: &[(&str, &str)]) -> Vec<Listed> {
        let found = |f: &str| Found { file: format!("chapbooks/{f}"), place: [0, 0, 1, 1] };
        pairs
            .iter()
            .map(|(a, b)| Listed {
                id: 0,
                kind: "same-setting".to_owned(),
                confidence: "high".to_owned(),
                a: found(a),
                b: found(b),
            })
            .collect()
    }

    #[test]
    fn copies_that_meet_are_one_title() {
        let t = titles(&listed(&[("c", "d"), ("a", "b"), ("d", "b"), ("x", "y")]));
        assert_eq!(t, ["chapbooks/a", "chapbooks/x"]);
    }

    #[test]
    fn controls_never_lay_a_page_on_itself() {
        let files = ["p/one/1.jpg", "p/one/2.jpg", "p/two/1.jpg", "chapbooks/1.jpg"];
        let pages: Vec<Page> = files.iter().map(|f| Page { file: (*f).to_owned() }).collect();
        let controls = book_controls(&pages);
        assert_eq!(controls.len(), 3);
        assert!(controls.iter().all(|(_, a, b)| a != b && !a.starts_with("chap") && !b.starts_with("chap")));
    }
}
