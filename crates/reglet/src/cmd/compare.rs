//! `reglet compare`: two photographs in, a verdict out.

use crate::files::{Named, write_whole};
use crate::plates::plates;
use crate::report::{Photographed, Record, page_model};
use crate::say::{self, Progress};
use anyhow::{Context as _, Result, bail};
use clap::Args;
use evidence::{Change, Compared, Comparison, Reading, Verdict};
use register::Laid;
use sha2::{Digest as _, Sha256};
use sheet::Ppi;
use sheet::decode::{DecodeRequest, Photograph, decode, decode_rgb};
use sheet::scale::{KnownLength, ScaleNotice, ScaleRequest, scale_from};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Lay two photographs together: one setting of type, or more?
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  reglet compare order-at-hallow.jpg order-at-merrin.tif
  reglet compare --ppi 300,400 --json - copy-a.png copies.pdf#3

Exit codes: 0 a verdict was reached, 1 undetermined, 2 the work could not be done.")]
pub struct Compare {
    /// The first photograph; everything is drawn on its frame. Of a PDF or TIFF with pages: FILE#PAGE.
    first: String,
    /// The second photograph.
    second: String,
    /// Write the whole result as JSON to FILE, or to standard output with "-".
    #[arg(long, value_name = "FILE")]
    json: Option<PathBuf>,
    /// Write the page to FILE. Without --json a page is written beside where you stand.
    #[arg(long, value_name = "FILE")]
    page: Option<PathBuf>,
    /// Write no page.
    #[arg(long, conflicts_with = "page")]
    no_page: bool,
    /// Pixels to the inch of the photographs: one number for both, or FIRST,SECOND.
    #[arg(long, value_name = "N[,N]", value_parser = ppi_pair)]
    ppi: Option<[ScaleRequest; 2]>,
    /// A length measured in a photograph: so many pixels are so many millimetres of sheet; one for the first, or
    /// FIRST,SECOND.
    #[arg(long, value_name = "PX=MM[,PX=MM]", value_parser = length_pair, conflicts_with = "ppi")]
    known_length: Option<[ScaleRequest; 2]>,
    /// Say nothing of what is being done.
    #[arg(long, short)]
    quiet: bool,
}

fn ppi_pair(text: &str) -> Result<[ScaleRequest; 2], String> {
    let one = |t: &str| {
        let number: f64 =
            t.trim().parse().map_err(|_| format!("\"{t}\" is no number of pixels to the inch"))?;
        ScaleRequest::ppi(number).map_err(|e| e.to_string())
    };
    match text.split_once(',') {
        Some((a, b)) => Ok([one(a)?, one(b)?]),
        None => one(text).map(|p| [p, p]),
    }
}

fn length_pair(text: &str) -> Result<[ScaleRequest; 2], String> {
    let one = |t: &str| t.parse::<KnownLength>().map(ScaleRequest::KnownLength).map_err(|e| e.to_string());
    match text.split_once(',') {
        Some((a, b)) => Ok([one(a)?, one(b)?]),
        None => Ok([one(text)?, ScaleRequest::FromFile]),
    }
}

/// One photograph as it was opened and read.
struct Opened {
    named: Named,
    bytes: Vec<u8>,
    about: Photographed,
    reading: Reading,
}

impl Compare {
    /// Compares two files of known resolution and writes the page; for the demo.
    pub(super) fn with_page(first: &Path, second: &Path, page: &Path, ppi: [Ppi; 2]) -> Self {
        Self {
            first: first.display().to_string(),
            second: second.display().to_string(),
            json: None,
            page: Some(page.to_owned()),
            no_page: false,
            ppi: Some(ppi.map(ScaleRequest::Ppi)),
            known_length: None,
            quiet: false,
        }
    }

    /// Compares, writes and says the result.
    ///
    /// # Errors
    /// A file that cannot be read or written, with its name and the remedy.
    pub fn run(&self) -> Result<ExitCode> {
        let progress = Progress::new(self.quiet || self.json.as_deref() == Some(Path::new("-")));
        let record = self.record(&progress)?;
        progress.end();
        match &self.json {
            None => say::result(&words(&record.0.comparison)),
            Some(path) => {
                let json = serde_json::to_string_pretty(&record.0)
                    .context("the result cannot be written as JSON")?;
                if path == Path::new("-") {
                    say::result(&json);
                } else {
                    write_whole(path, json.as_bytes())?;
                }
            }
        }
        if let (Some(page), None) = (&record.1, &self.json) {
            say::result(&format!("\nThe page: {}", page.display()));
        }
        let undetermined = record.0.comparison.verdict == Verdict::Undetermined;
        Ok(if undetermined { ExitCode::from(1) } else { ExitCode::SUCCESS })
    }

    /// Compares and writes the page; the verdict in words.
    pub(super) fn carry_out(&self, progress: &Progress) -> Result<String> {
        Ok(words(&self.record(progress)?.0.comparison))
    }

    /// The result, and the page that was written, if one was wanted.
    fn record(&self, progress: &Progress) -> Result<(Record, Option<PathBuf>)> {
        let names = [Named::parse(&self.first), Named::parse(&self.second)];
        progress.step("Reading both photographs");
        let (a, b) = rayon::join(|| self.open(&names[0], 0), || self.open(&names[1], 1));
        let [a, b] = [a?, b?];
        progress.step("Laying them together");
        let Compared { mut comparison, laid, .. } = evidence::compare(&a.reading, &b.reading);
        comparison.warnings.extend(warnings(&a, &b));
        let record = Record::new(comparison, [a.about.clone(), b.about.clone()]);
        let page = self.page_path(&a, &b);
        if let Some(page) = &page {
            progress.step("Drawing the page");
            self.write_page(page, &record, &a, &b, laid.as_ref())?;
        }
        Ok((record, page))
    }

    fn open(&self, named: &Named, which: usize) -> Result<Opened> {
        let bytes = named.read()?;
        let request = request(named);
        let photograph = decode(&bytes, &request).with_context(|| named.text.clone())?;
        let asked = self.ppi.or(self.known_length).map_or(ScaleRequest::FromFile, |s| s[which]);
        let (scale, told) = scale_from(&photograph.file.resolution_tags, &asked);
        let reading = Reading::of(&photograph.luminance, scale);
        let about = about(named, &bytes, &photograph, &reading, &told);
        Ok(Opened { named: named.clone(), bytes, about, reading })
    }

    /// Where the page goes, if one is wanted.
    fn page_path(&self, a: &Opened, b: &Opened) -> Option<PathBuf> {
        if self.no_page || (self.page.is_none() && self.json.is_some()) {
            return None;
        }
        let stem = |n: &Named| {
            n.path.file_stem().map_or_else(|| "sheet".into(), |s| s.to_string_lossy().into_owned())
        };
        Some(
            self.page
                .clone()
                .unwrap_or_else(|| PathBuf::from(format!("{}-with-{}.html", stem(&a.named), stem(&b.named)))),
        )
    }

    fn write_page(
        &self,
        path: &Path,
        record: &Record,
        a: &Opened,
        b: &Opened,
        laid: Option<&Laid>,
    ) -> Result<()> {
        if path.is_dir() {
            bail!("{}: this is a folder; name a file for the page", path.display());
        }
        let colour =
            |o: &Opened| decode_rgb(&o.bytes, &request(&o.named)).with_context(|| o.named.text.clone());
        let (ca, cb) = rayon::join(|| colour(a), || colour(b));
        let pictures = plates(&ca?.rgb, &cb?.rgb, &a.reading, &b.reading, laid)?;
        let model = page_model(record, Some(pictures), self.typed());
        write_whole(path, crate::page::page(&model).as_bytes())
    }

    /// The command as it would be typed again.
    fn typed(&self) -> String {
        let quoted = |t: &str| {
            let plain = t.chars().all(|c| c.is_alphanumeric() || "._-/#".contains(c));
            if plain { t.to_owned() } else { format!("'{}'", t.replace('\'', "'\\''")) }
        };
        let mut out = String::from("reglet compare");
        let scales = [("--ppi", self.ppi), ("--known-length", self.known_length)];
        for (option, asked) in scales.into_iter().filter_map(|(o, s)| Some((o, s?))) {
            let told: Vec<String> = asked
                .iter()
                .filter_map(|s| match s {
                    ScaleRequest::FromFile => None,
                    ScaleRequest::Ppi(p) => Some(p.0.to_string()),
                    ScaleRequest::KnownLength(l) => Some(format!("{}={}", l.px().0, l.mm().0)),
                })
                .collect();
            write!(out, " {option} {}", told.join(",")).ok();
        }
        // Without folders: a page may be sent to others, and how a disk is laid out is nobody's business.
        let names = [&self.first, &self.second].map(|n| quoted(&Named::parse(n).short()));
        format!("{out} {}", names.join(" "))
    }
}

fn about(
    named: &Named,
    bytes: &[u8],
    photograph: &Photograph,
    reading: &Reading,
    told: &[ScaleNotice],
) -> Photographed {
    Photographed {
        file: named.text.clone(),
        sha256: hexadecimal(&Sha256::digest(bytes)),
        width_px: photograph.luminance.width(),
        height_px: photograph.luminance.height(),
        quarters_turned: reading.turned.quarters(),
        format: photograph.file.format,
        scale: reading.scale,
        notices: photograph
            .file
            .notices
            .iter()
            .map(ToString::to_string)
            .chain(told.iter().map(ToString::to_string))
            .collect(),
    }
}

fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |mut out, b| {
        write!(out, "{b:02x}").ok();
        out
    })
}

fn request(named: &Named) -> DecodeRequest {
    DecodeRequest { page: named.page, extension: named.extension(), ..DecodeRequest::default() }
}

/// What the user should know of these two files.
fn warnings(a: &Opened, b: &Opened) -> Vec<String> {
    let mut out = Vec::new();
    if a.about.sha256 == b.about.sha256 && a.named.page == b.named.page {
        out.push(
            "The two files are the same, byte for byte: this compares a photograph with itself.".to_owned(),
        );
    }
    let [of_a, of_b] = [&a.about.notices, &b.about.notices];
    for n in of_a {
        let whose = if of_b.contains(n) { "Both photographs".to_owned() } else { a.named.short() };
        out.push(format!("{whose}: {n}."));
    }
    out.extend(of_b.iter().filter(|n| !of_a.contains(n)).map(|n| format!("{}: {n}.", b.named.short())));
    out
}

/// Places listed on a terminal; the page and the JSON have all.
const LISTED: usize = 12;

/// The places that differ, one a line.
fn places(c: &Comparison) -> Vec<String> {
    let place = |p: &Change| {
        let line = p.line.map_or_else(|| "between the lines".to_owned(), |n| format!("line {n}"));
        let [x, y, w, h] = p.box_a_px.map(f64::round);
        format!("{line}, {w} x {h} px at {x}, {y} of the first: {} (score {:.2})", p.class.words(), p.score)
    };
    let mut out: Vec<String> = c.changes.iter().take(LISTED).map(place).collect();
    if c.changes.len() > LISTED {
        out.push(format!("and {} more; the page and the JSON list all", c.changes.len() - LISTED));
    }
    out
}

/// The verdict as it is said on a terminal.
fn words(c: &Comparison) -> String {
    let mut out = vec![c.verdict.sentence().to_owned()];
    if let Some(w) = c.weight_log10 {
        let way = if w >= 0.0 { "one setting" } else { "two settings" };
        out.push(format!("Weight of the evidence: {:.1} (log10), for {way}.", w.abs()));
    }
    let list = |out: &mut Vec<String>, title: &str, items: &[String]| {
        if !items.is_empty() {
            out.push(String::new());
            out.push(title.to_owned());
            out.extend(items.iter().map(|i| format!("  - {i}")));
        }
    };
    list(&mut out, "Why", &c.reasons);
    list(&mut out, "Where", &places(c));
    if let Some(one) = &c.perhaps_one_copy {
        list(&mut out, "Perhaps one copy", std::slice::from_ref(one));
    }
    list(&mut out, "Beware", &c.cautions);
    list(&mut out, "Notes", &c.warnings);
    out.join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_resolution_serves_both_photographs() {
        assert_eq!(ppi_pair("300").unwrap(), [ScaleRequest::Ppi(Ppi(300.0)); 2]);
        let two = [ScaleRequest::Ppi(Ppi(300.0)), ScaleRequest::Ppi(Ppi(412.5))];
        assert_eq!(ppi_pair("300, 412.5").unwrap(), two);
        assert!(ppi_pair("many").unwrap_err().contains("pixels to the inch"));
        assert!(ppi_pair("-5").is_err() && ppi_pair("NaN").is_err());
    }

    #[test]
    fn a_known_length_is_pixels_and_millimetres() {
        let [first, second] = length_pair("683=40").unwrap();
        assert!(matches!(first, ScaleRequest::KnownLength(l) if (l.ppi().0 - 433.7).abs() < 0.1));
        assert_eq!(second, ScaleRequest::FromFile);
        assert!(length_pair("683").is_err() && length_pair("0=40").is_err());
    }
}
