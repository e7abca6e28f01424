//! `reglet measure`: what can be measured of a side by itself.

use super::photographed::{decoded, photographed};
use super::results::Results;
use super::scales::Scales;
use super::{outputs, photographs, plates};
use crate::files::{Named, write_whole};
use crate::say::Progress;
use anyhow::{Context as _, Result, bail};
use clap::Args;
use evidence::cautions::of_measures;
use evidence::measure::{Side, measures};
use publish::measure::{in_words, measures_model};
use publish::record::{ManyMeasuresRecord, MeasuredSide, MeasuresRecord, PROGRAM, Unread};
use sheet::scale::{ScaleRequest, scale_from};
use sheet::{Plane, Ppi};
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Measure a side: its type, how it lies, and what may have gone wrong at press.
///
/// Every line of type is traced, and told to which size it belongs; of each size it is measured how far twenty lines stand apart, and
/// which bodies that may be. Lengths are in millimetres where the scale is known: from the file, from --ppi or from --known-length. What
/// may have gone wrong is listed for you to look at: candidates, never facts.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  reglet measure order-of-merrin.jpg --ppi 300
  reglet measure --known-length 683=40 --plates plates ballad-of-hallow.tif
  reglet measure --json - leaf-1.jpg leaf-2.jpg > leaves.json

Exit codes: 0 type was measured, 1 no line of type was found, 2 the work could not be done, 130 stopped by Ctrl-C.")]
pub struct Measure {
    /// One photograph or more: files, folders of them, or patterns such as 'leaves/*.jpg'. Of a PDF or TIFF with pages: FILE#PAGE.
    /// Each has its own page.
    #[arg(required = true, value_name = "PHOTOGRAPH")]
    photographs: Vec<OsString>,
    #[command(flatten)]
    results: Results,
}

impl Measure {
    /// Measures one photograph of known resolution, and writes the page; for the demo.
    pub(super) fn with_page(photograph: &Path, page: &Path, ppi: Ppi) -> Self {
        Self { photographs: vec![photograph.into()], results: Results::page_at(page, &[ppi]) }
    }

    /// Measures the one photograph and writes the page; the result in words. For the demo.
    pub(super) fn carry_out(&self, progress: &Progress) -> Result<String> {
        let named = photographs::one_or_more(&self.photographs)?;
        let scales = Scales::for_each(self.results.scales(), named.len())?;
        Ok(in_words(&self.side(&named[0], &scales[0], progress)?.0))
    }

    /// Measures, writes and says the result.
    ///
    /// # Errors
    /// A file that cannot be read or written; of several photographs, when none of them can be read.
    pub fn run(&self) -> Result<ExitCode> {
        let named = photographs::one_or_more(&self.photographs)?;
        let scales = Scales::for_each(self.results.scales(), named.len())?;
        self.results.check(&named)?;
        if named.len() > 1 && self.results.has_a_page() {
            bail!(
                "a page is of one side, and {} photographs are named; without --page each has its own",
                named.len()
            );
        }
        let progress = self.results.progress();
        let (mut sides, mut unread, mut pages) = (Vec::new(), Vec::new(), Vec::new());
        for (i, (named, scale)) in named.iter().zip(&scales).enumerate() {
            let of =
                if scales.len() > 1 { format!(" ({} of {})", i + 1, scales.len()) } else { String::new() };
            progress.step(&format!("Measuring {}{of}", named.short()));
            match self.side(named, scale, &progress) {
                Ok((side, page)) => {
                    sides.push(side);
                    pages.extend(page);
                }
                Err(error) if scales.len() > 1 => {
                    unread.push(Unread { file: named.text(), reason: format!("{error:#}") });
                }
                Err(error) => return Err(error),
            }
        }
        progress.end();
        self.tell(sides, unread, &pages)
    }

    /// Says what was measured of all.
    fn tell(&self, mut sides: Vec<MeasuredSide>, unread: Vec<Unread>, pages: &[PathBuf]) -> Result<ExitCode> {
        if sides.is_empty() {
            let reasons: Vec<&str> = unread.iter().map(|u| u.reason.as_str()).collect();
            bail!("no photograph could be measured: {}", reasons.join("; "));
        }
        let is_told = sides.iter().any(|s| !s.measures.lines.is_empty());
        let said: Vec<String> = sides
            .iter()
            .map(in_words)
            .chain(unread.iter().map(|u| format!("Not measured: {}", u.reason)))
            .collect();
        let of_one = sides.len() == 1 && unread.is_empty();
        let json = || {
            let program = PROGRAM.to_owned();
            let json = if of_one {
                serde_json::to_string_pretty(&MeasuresRecord { side: sides.remove(0), program })
            } else {
                serde_json::to_string_pretty(&ManyMeasuresRecord { sides, unread, program })
            };
            json.context("the result cannot be written as JSON")
        };
        let pages: Vec<&Path> = pages.iter().map(PathBuf::as_path).collect();
        self.results.say_of_pages(|| said.join("\n\n\n"), json, &pages)?;
        Ok(if is_told { ExitCode::SUCCESS } else { ExitCode::from(1) })
    }

    /// One side, and the page that was written of it, if one was wanted.
    fn side(
        &self,
        named: &Named,
        asked: &ScaleRequest,
        progress: &Progress,
    ) -> Result<(MeasuredSide, Option<PathBuf>)> {
        let wants_page = self.results.wants_page();
        let in_colour = wants_page || self.results.plates.is_some();
        let (side, colour) = measured(named, asked, in_colour)?;
        let Some(colour) = colour else { return Ok((side, None)) };
        progress.step(&format!("Drawing {}", named.short()));
        let mut written = None;
        if let Some(page) =
            self.results.page(|| outputs::page_of_one(Path::new(""), named, &side.photograph.sha256))
        {
            let model = measures_model(&side, &colour, PROGRAM, typed(named, asked))?;
            write_whole(&page, publish::page::measure::page(&model).as_bytes())?;
            written = Some(page);
        }
        if let Some(folder) = &self.results.plates {
            let folder = if self.photographs.len() > 1 { folder.join(named.stem()) } else { folder.clone() };
            plates::write(&folder, &typed(named, asked), &[], |put| {
                publish::plates::of_measures(&side, &colour, put)
            })?;
        }
        Ok((side, written))
    }
}

/// The command as it would be typed again for one photograph.
fn typed(named: &Named, asked: &ScaleRequest) -> String {
    let said = Scales::typed_of(asked);
    photographs::typed("reglet measure", said.into_iter(), &[OsString::from(named.text())])
}

/// Reads a photograph and measures its side; in colour as well where pictures are wanted.
fn measured(
    named: &Named,
    asked: &ScaleRequest,
    in_colour: bool,
) -> Result<(MeasuredSide, Option<Plane<[u8; 3]>>)> {
    let bytes = named.read()?;
    let (photograph, colour) = decoded(named, &bytes, in_colour)?;
    let (scale, told) = scale_from(&photograph.file.resolution_tags, asked);
    let side = Side::of(&photograph.luminance, scale);
    let about = photographed(named, &bytes, &photograph, side.turned.quarters(), (scale, &told));
    let warnings = about.notices.iter().map(|n| format!("{n}.")).collect();
    let measures = measures(&side);
    Ok((
        MeasuredSide { cautions: of_measures(scale.is_some()), photograph: about, measures, warnings },
        colour,
    ))
}
