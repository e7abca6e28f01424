//! `reglet compare`: two photographs in, a verdict out.

mod opened;
mod outputs;
mod words;

use crate::files::{Named, write_whole};
use crate::plates::plates;
use crate::report::{Record, page_model};
use crate::say::{self, Progress};
use anyhow::{Context as _, Result};
use clap::Args;
use evidence::{Compared, Verdict};
use opened::{Opened, warnings};
use register::Laid;
use sheet::Ppi;
use sheet::scale::{KnownLength, ScaleRequest};
use std::ffi::OsString;
use std::fmt::Write as _;
use std::io::IsTerminal as _;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use words::words;

/// Lay two photographs together: one setting of type, or more?
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  reglet compare order-at-hallow.jpg order-at-merrin.tif
  reglet compare --ppi 300,400 --json - copy-a.png copies.pdf#3

Exit codes: 0 a verdict was reached, 1 undetermined, 2 the work could not be done, 130 stopped by Ctrl-C.")]
pub struct Compare {
    /// The first photograph; everything is drawn on its frame. Of a PDF or TIFF with pages: FILE#PAGE.
    first: OsString,
    /// The second photograph.
    second: OsString,
    /// Write the whole result as JSON to FILE, or to standard output with "-"; then what is being done is said on a
    /// terminal only.
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

impl Compare {
    /// Compares two files of known resolution and writes the page; for the demo.
    pub(super) fn with_page(first: &Path, second: &Path, page: &Path, ppi: [Ppi; 2]) -> Self {
        Self {
            first: first.into(),
            second: second.into(),
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
        let to_a_script = self.json_goes_out() && !std::io::stderr().is_terminal();
        let progress = Progress::new(self.quiet || to_a_script);
        let record = self.record(&progress)?;
        progress.end();
        match &self.json {
            None => say::result(&words(&record.0.comparison))?,
            Some(path) => {
                let json = serde_json::to_string_pretty(&record.0)
                    .context("the result cannot be written as JSON")?;
                if self.json_goes_out() {
                    say::result(&json)?;
                } else {
                    write_whole(path, json.as_bytes())?;
                }
            }
        }
        if let (Some(page), None) = (&record.1, &self.json) {
            say::result(&format!("\nThe page: {}", page.display()))?;
        }
        let undetermined = record.0.comparison.verdict == Verdict::Undetermined;
        Ok(if undetermined { ExitCode::from(1) } else { ExitCode::SUCCESS })
    }

    /// Whether the JSON goes to standard output.
    fn json_goes_out(&self) -> bool {
        self.json.as_deref() == Some(Path::new("-"))
    }

    /// Compares and writes the page; the verdict in words.
    pub(super) fn carry_out(&self, progress: &Progress) -> Result<String> {
        Ok(words(&self.record(progress)?.0.comparison))
    }

    /// The result, and the page that was written, if one was wanted.
    fn record(&self, progress: &Progress) -> Result<(Record, Option<PathBuf>)> {
        let names = [Named::parse(&self.first), Named::parse(&self.second)];
        outputs::check(&names, self.page.as_deref(), self.json.as_deref().filter(|_| !self.json_goes_out()))?;
        progress.step("Reading both photographs");
        let asked = self.ppi.or(self.known_length).unwrap_or_default();
        let (a, b) =
            rayon::join(|| Opened::open(&names[0], &asked[0]), || Opened::open(&names[1], &asked[1]));
        let [a, b] = [a?, b?];
        progress.step("Laying them together");
        let Compared { mut comparison, laid, .. } = evidence::compare(&a.reading, &b.reading);
        comparison.warnings.extend(warnings(&a, &b));
        let record = Record::new(comparison, [a.about.clone(), b.about.clone()]);
        let wants_page = self.page.is_some() || self.json.is_none() && !self.no_page;
        let by_names = || outputs::default_page(Path::new(""), &a, &b);
        let page = wants_page.then(|| self.page.clone().unwrap_or_else(by_names));
        if let Some(page) = &page {
            progress.step("Drawing the page");
            self.write_page(page, &record, &a, &b, laid.as_ref())?;
        }
        Ok((record, page))
    }

    fn write_page(
        &self,
        path: &Path,
        record: &Record,
        a: &Opened,
        b: &Opened,
        laid: Option<&Laid>,
    ) -> Result<()> {
        let (ca, cb) = rayon::join(|| a.in_colour(), || b.in_colour());
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
