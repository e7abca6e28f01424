//! `reglet compare`: photographs in, a verdict out; of many, which are of one setting and where they differ.

mod many;
mod opened;
mod outputs;
mod pair;
mod photographs;
mod plates;
mod scales;
mod words;

use crate::files::{Named, write_whole};
use crate::say::{self, Progress};
use anyhow::{Context as _, Result};
use clap::Args;
use evidence::Verdict;
use publish::many::many_model;
use scales::Scales;
use serde::Serialize;
use sheet::Ppi;
use std::ffi::OsString;
use std::io::IsTerminal as _;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

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
    /// frame of the first. Of a PDF or TIFF with pages: FILE#PAGE.
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
    /// Compares two files of known resolution and writes the page; for the demo.
    pub(super) fn with_page(first: &Path, second: &Path, page: &Path, ppi: [Ppi; 2]) -> Self {
        Self {
            photographs: vec![first.into(), second.into()],
            json: None,
            page: Some(page.to_owned()),
            plates: None,
            no_page: false,
            ppi: Some(Scales::of(&ppi)),
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
        let named = photographs::meant(&self.photographs)?;
        let asked = Scales::for_each(self.scales(), named.len())?;
        let json = self.json.as_deref().filter(|_| !self.json_goes_out());
        outputs::check(&named, self.page.as_deref(), json, self.plates.as_deref())?;
        if let [first, second] = &named[..] {
            let (record, page) = self.pair([first, second], [asked[0], asked[1]], &progress)?;
            progress.end();
            self.give(&record, || words::of_pair(&record.comparison))?;
            self.say_written(page.as_deref())?;
            return Ok(code(record.comparison.verdict != Verdict::Undetermined));
        }
        let page =
            self.wants_page().then(|| self.page.clone().unwrap_or_else(|| outputs::page_of_many(&named)));
        let in_colour = page.is_some() || self.plates.is_some();
        let (study, record) = many::compared(&named, &asked, in_colour, &progress);
        if let Some(page) = &page {
            progress.step("Drawing the places in every copy");
            let model = many_model(&record, study.pictures(&record)?, self.typed());
            write_whole(page, publish::page::many::page(&model).as_bytes())?;
        }
        if let Some(folder) = &self.plates {
            progress.step("Drawing the plates");
            let named = named.iter().enumerate();
            let notes: Vec<String> = named.map(|(i, n)| format!("copy {}: {}", i + 1, n.short())).collect();
            plates::write(folder, &self.typed(), &notes, |put| study.plates(&record, put))?;
        }
        progress.end();
        self.give(&record, || words::of_many(&record))?;
        self.say_written(page.as_deref())?;
        Ok(code(!record.settings.is_empty()))
    }

    /// Whether a page is wanted: where none is asked for, unless JSON is.
    fn wants_page(&self) -> bool {
        self.page.is_some() || self.json.is_none() && !self.no_page
    }

    /// Says what was written beside the words.
    fn say_written(&self, page: Option<&Path>) -> Result<()> {
        let written = [("page", page), ("plates", self.plates.as_deref())];
        let written = written.into_iter().filter(|_| self.json.is_none());
        for (what, path) in written.filter_map(|(what, path)| Some((what, path?))) {
            say::result(&format!("\nThe {what}: {}", path.display()))?;
        }
        Ok(())
    }

    /// Writes the record where it was asked for, or says it in words.
    fn give(&self, record: &impl Serialize, words: impl Fn() -> String) -> Result<()> {
        let Some(path) = &self.json else { return say::result(&words()) };
        let json = serde_json::to_string_pretty(record).context("the result cannot be written as JSON")?;
        if self.json_goes_out() { say::result(&json) } else { write_whole(path, json.as_bytes()) }
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
        let quoted = |t: &str| {
            let plain = t.chars().all(|c| c.is_alphanumeric() || "._-/#".contains(c));
            if plain { t.to_owned() } else { format!("'{}'", t.replace('\'', "'\\''")) }
        };
        // Without folders: a page may be sent to others, and how a disk is laid out is nobody's business.
        let names = self.photographs.iter().map(|n| quoted(&Named::parse(n).short()));
        let parts = self.scales().map(Scales::typed).into_iter().chain(names);
        parts.fold(String::from("reglet compare"), |typed, part| typed + " " + &part)
    }
}

fn code(is_told: bool) -> ExitCode {
    if is_told { ExitCode::SUCCESS } else { ExitCode::from(1) }
}
