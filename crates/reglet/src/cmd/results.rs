//! What every command that looks at photographs is asked about its results: where they go, and at what scale they are told.

use super::outputs;
use super::scales::Scales;
use crate::files::{Named, write_whole};
use crate::say::{self, Progress};
use anyhow::Result;
use clap::Args;
use sheet::Ppi;
use std::io::IsTerminal as _;
use std::path::{Path, PathBuf};

/// Where results go, and the scale of the photographs.
#[derive(Debug, Args)]
pub(in crate::cmd) struct Results {
    /// Write the whole result as JSON to FILE, or to standard output with "-"; then what is being done is said on a
    /// terminal only.
    #[arg(long, value_name = "FILE")]
    json: Option<PathBuf>,
    /// Write the page to FILE. Without --json a page is written beside where you stand.
    #[arg(long, value_name = "FILE")]
    page: Option<PathBuf>,
    /// Draw plates for a publication into FOLDER: PNG at full size, and a list of what each shows.
    #[arg(long, value_name = "FOLDER")]
    pub(in crate::cmd) plates: Option<PathBuf>,
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

impl Results {
    /// A page alone, of photographs of known resolution.
    pub(in crate::cmd) fn page_at(page: &Path, ppi: &[Ppi]) -> Self {
        let ppi = Some(Scales::of(ppi));
        let page = Some(page.to_owned());
        Self { json: None, page, plates: None, no_page: false, ppi, known_length: None, quiet: false }
    }

    /// What is being done is said, unless it would be in the way of a script.
    pub(in crate::cmd) fn progress(&self) -> Progress {
        let to_a_script = self.json_goes_out() && !std::io::stderr().is_terminal();
        Progress::new(self.quiet || to_a_script)
    }

    /// What was said of the scales.
    pub(in crate::cmd) fn scales(&self) -> Option<&Scales> {
        self.ppi.as_ref().or(self.known_length.as_ref())
    }

    /// Refuses results that would be written over something else, before anything is computed.
    ///
    /// # Errors
    /// Names the file and says what to do.
    pub(in crate::cmd) fn check(&self, photographs: &[Named]) -> Result<()> {
        let json = self.json.as_deref().filter(|_| !self.json_goes_out());
        outputs::check(photographs, self.page.as_deref(), json, self.plates.as_deref())
    }

    /// Where the page goes, if one is wanted: where none is asked for, unless JSON is, to `otherwise`.
    pub(in crate::cmd) fn page(&self, otherwise: impl FnOnce() -> PathBuf) -> Option<PathBuf> {
        self.wants_page().then(|| self.page.clone().unwrap_or_else(otherwise))
    }

    /// Whether the page has a name.
    pub(in crate::cmd) fn has_a_page(&self) -> bool {
        self.page.is_some()
    }

    /// Whether a page is wanted: none is where only JSON is asked for.
    pub(in crate::cmd) fn wants_page(&self) -> bool {
        self.page.is_some() || self.json.is_none() && !self.no_page
    }

    /// Says the result in `words`, and where the page and the plates are; or writes it as `json`.
    ///
    /// # Errors
    /// When it cannot be written: names the file.
    pub(in crate::cmd) fn say(
        &self,
        words: impl FnOnce() -> String,
        json: impl FnOnce() -> Result<String>,
        page: Option<&Path>,
    ) -> Result<()> {
        self.say_of_pages(words, json, page.as_slice())
    }

    /// The same, where there may be several pages.
    ///
    /// # Errors
    /// As of [`Self::say`].
    pub(in crate::cmd) fn say_of_pages(
        &self,
        words: impl FnOnce() -> String,
        json: impl FnOnce() -> Result<String>,
        pages: &[&Path],
    ) -> Result<()> {
        let Some(file) = &self.json else {
            say::result(&words())?;
            let written = pages.iter().map(|p| ("page", *p));
            for (what, path) in written.chain(self.plates.as_deref().map(|p| ("plates", p))) {
                say::result(&format!("\nThe {what}: {}", path.display()))?;
            }
            return Ok(());
        };
        if self.json_goes_out() { say::result(&json()?) } else { write_whole(file, json()?.as_bytes()) }
    }

    /// Whether the JSON goes to standard output.
    fn json_goes_out(&self) -> bool {
        self.json.as_deref() == Some(Path::new("-"))
    }
}
