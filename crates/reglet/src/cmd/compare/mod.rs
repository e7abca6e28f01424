//! `reglet compare`: photographs in, a verdict out; of many, which are of one setting and where they differ.

mod many;
mod opened;
mod pair;
mod words;

use super::photographs;
use super::results::Results;
use super::scales::Scales;
use crate::say::Progress;
use anyhow::{Context as _, Result};
use clap::Args;
use evidence::Verdict;
use publish::record::{ManyRecord, Record};
use sheet::Ppi;
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

pub(in crate::cmd) use opened::Opened;

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
    #[command(flatten)]
    results: Results,
}

impl Compare {
    /// Compares files, or those of a folder, of known resolution and writes the page; for the demo.
    pub(super) fn with_page(photographs: &[&Path], page: &Path, ppi: &[Ppi]) -> Self {
        Self {
            photographs: photographs.iter().map(OsString::from).collect(),
            results: Results::page_at(page, ppi),
        }
    }

    /// Compares, writes and says the result.
    ///
    /// # Errors
    /// A file that cannot be read or written, with its name and the remedy.
    pub fn run(&self) -> Result<ExitCode> {
        let progress = self.results.progress();
        let (found, page) = self.found(&progress)?;
        progress.end();
        self.results.say(|| found.words(), || found.json(), page.as_deref())?;
        Ok(if found.is_told() { ExitCode::SUCCESS } else { ExitCode::from(1) })
    }

    /// Compares, and writes the page and the plates; the result in words. For the demo.
    pub(super) fn carry_out(&self, progress: &Progress) -> Result<String> {
        Ok(self.found(progress)?.0.words())
    }

    /// What is found, and the page that was written, if one was wanted.
    fn found(&self, progress: &Progress) -> Result<(Found, Option<PathBuf>)> {
        let named = photographs::meant(&self.photographs)?;
        let asked = Scales::for_each(self.results.scales(), named.len())?;
        self.results.check(&named)?;
        if let [first, second] = &named[..] {
            let (record, page) = self.pair([first, second], [asked[0], asked[1]], progress)?;
            return Ok((Found::Pair(Box::new(record)), page));
        }
        let (record, page) = self.many(&named, &asked, progress)?;
        Ok((Found::Many(Box::new(record)), page))
    }

    /// The command as it would be typed again.
    fn typed(&self) -> String {
        let said = self.results.scales().map(Scales::typed).into_iter();
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
