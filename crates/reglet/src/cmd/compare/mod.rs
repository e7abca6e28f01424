//! `reglet compare`: photographs in, a verdict out; of many, which are of one setting and where they differ.

mod many;
mod opened;
mod pair;
mod words;

use super::scales::Scales;
use super::{outputs, photographs};
use crate::files::write_whole;
use crate::say::{self, Progress};
use anyhow::{Context as _, Result};
use clap::Args;
use evidence::Verdict;
use publish::record::{ManyRecord, Record};
use sheet::Ppi;
use std::ffi::OsString;
use std::io::IsTerminal as _;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

pub(in crate::cmd) use opened::{Opened, hexadecimal};

/// Lay photographs together: one setting of type, or more?
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  reglet compare order-at-hallow.jpg order-at-merrin.tif
  reglet compare --ppi 300,400 --json - copy-a.png copies.pdf#3
  reglet compare --json order.json copies/

Exit codes: 0 a verdict was reached, 1 undetermined, 2 the work could not be done, 130 stopped by Ctrl-C.")]
pub struct Compare {
    /// Two photographs, or more: files, folders of them, or patterns such as 'copies/*.jpg'. Everything is told on the
    /// frame of the first; of many, on that of the copy of each setting that shows most of its text. Of a PDF or TIFF
    /// with pages: FILE#PAGE.
    #[arg(required = true, value_name = "PHOTOGRAPH")]
    photographs: Vec<OsString>,
    /// Write the whole result as JSON to FILE, or to standard output with "-"; then what is being done is said on a
    /// terminal only.
    #[arg(long, value_name = "FILE")]
    json: Option<PathBuf>,
    /// Write the page to FILE. Without --json a page is written beside where you stand.
    #[arg(long, value_name = "FILE")]
    page: Option<PathBuf>,
    /// Draw plates for a publication into FOLDER: PNG at full size, and a list of what each shows.
    #[arg(long, value_name = "FOLDER")]
    plates: Option<PathBuf>,
    /// Write no page.
    #[arg(long, conflicts_with = "page")]
    no_page: bool,
    /// Pixels to the inch of the photographs: one number for all, or one for each.
    #[arg(long, value_name = "N[,N...]", value_parser = Scales::ppi)]
    ppi: Option<Scales>,
    /// A length measured in a photograph: so many pixels are so many millimetres of sheet; one for the first, or
    /// FIRST,SECOND and so on.
    #[arg(long, value_name = "PX=MM[,PX=MM...]", value_parser = Scales::known_lengths, conflicts_with = "ppi")]
    known_length: Option<Scales>,
    /// Say nothing of what is being done.
    #[arg(long, short)]
    quiet: bool,
}

impl Compare {
    /// Compares files, or those of a folder, of known resolution and writes the page; for the demo.
    pub(super) fn with_page(photographs: &[&Path], page: &Path, ppi: &[Ppi]) -> Self {
        Self {
            photographs: photographs.iter().map(OsString::from).collect(),
            json: None,
            page: Some(page.to_owned()),
            plates: None,
            no_page: false,
            ppi: Some(Scales::of(ppi)),
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
        let (found, page) = self.found(&progress)?;
        progress.end();
        match &self.json {
            None => {
                say::result(&found.words())?;
                let written = [("page", page.as_deref()), ("plates", self.plates.as_deref())];
                for (what, path) in written.into_iter().filter_map(|(what, path)| Some((what, path?))) {
                    say::result(&format!("\nThe {what}: {}", path.display()))?;
                }
            }
            Some(_) if self.json_goes_out() => say::result(&found.json()?)?,
            Some(path) => write_whole(path, found.json()?.as_bytes())?,
        }
        Ok(if found.is_told() { ExitCode::SUCCESS } else { ExitCode::from(1) })
    }

    /// Compares, and writes the page and the plates; the result in words. For the demo.
    pub(super) fn carry_out(&self, progress: &Progress) -> Result<String> {
        Ok(self.found(progress)?.0.words())
    }

    /// What is found, and the page that was written, if one was wanted.
    fn found(&self, progress: &Progress) -> Result<(Found, Option<PathBuf>)> {
        let named = photographs::meant(&self.photographs)?;
        let asked = Scales::for_each(self.scales(), named.len())?;
        let json = self.json.as_deref().filter(|_| !self.json_goes_out());
        outputs::check(&named, self.page.as_deref(), json, self.plates.as_deref())?;
        if let [first, second] = &named[..] {
            let (record, page) = self.pair([first, second], [asked[0], asked[1]], progress)?;
            return Ok((Found::Pair(Box::new(record)), page));
        }
        let (record, page) = self.many(&named, &asked, progress)?;
        Ok((Found::Many(Box::new(record)), page))
    }

    /// Whether a page is wanted: where none is asked for, unless JSON is.
    fn wants_page(&self) -> bool {
        self.page.is_some() || self.json.is_none() && !self.no_page
    }

    /// Whether the JSON goes to standard output.
    fn json_goes_out(&self) -> bool {
        self.json.as_deref() == Some(Path::new("-"))
    }

    /// What was said of the scales.
    fn scales(&self) -> Option<&Scales> {
        self.ppi.as_ref().or(self.known_length.as_ref())
    }

    /// The command as it would be typed again.
    fn typed(&self) -> String {
        let said = self.scales().map(Scales::typed).into_iter();
        photographs::typed("reglet compare", said, &self.photographs)
    }
}

/// What was found, of two photographs or of many.
enum Found {
    Pair(Box<Record>),
    Many(Box<ManyRecord>),
}

impl Found {
    /// Whether a verdict was reached.
    fn is_told(&self) -> bool {
        match self {
            Self::Pair(record) => record.comparison.verdict != Verdict::Undetermined,
            Self::Many(record) => !record.settings.is_empty(),
        }
    }

    fn words(&self) -> String {
        match self {
            Self::Pair(record) => words::of_pair(&record.comparison),
            Self::Many(record) => words::of_many(record),
        }
    }

    fn json(&self) -> Result<String> {
        let json = match self {
            Self::Pair(record) => serde_json::to_string_pretty(record),
            Self::Many(record) => serde_json::to_string_pretty(record),
        };
        json.context("the result cannot be written as JSON")
    }
}
