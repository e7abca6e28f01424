//! `reglet blocks`: impressions of woodcuts in; which are of one block, how it wore, in what order, and when.

mod chosen;
mod impression;
mod pictures;
mod regions;
mod told;
mod words;
mod years;

use super::results::Results;
use super::scales::Scales;
use super::{outputs, photographs, plates};
use crate::files::{Named, write_whole};
use crate::say::Progress;
use anyhow::{Context as _, Result, bail};
use clap::Args;
use evidence::block::{BlockVerdict, Cut, Studied, study};
use impression::Impression;
use publish::blocks::blocks_model;
use publish::record::{BlocksRecord, Unplaced};
use rayon::prelude::*;
use regions::Region;
use sheet::Ppi;
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use told::{Known, Member};
use years::Years;

/// Lay impressions of a woodcut together: one block, or another cut after it?
///
/// Of each photograph one cut is taken: the region that is named, or of the cuts found on it that which is most like the
/// others'. Every two are compared and grouped by block; of each block it is told what its wood has lost, in which impressions
/// that shows, and so in what order they were printed. Years are given only when --dates says what is known of them.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  reglet blocks ballad-of-hallow.jpg order-of-merrin.jpg
  reglet blocks --region 210,180,640,640 --region - initial-1.jpg leaf.tif
  reglet blocks --ppi 300 --dates '1648,?,1655..1660,..1670' --page block.html arms-1.jpg arms-2.jpg arms-3.jpg arms-4.jpg

Exit codes: 0 a verdict was reached, 1 undetermined, 2 the work could not be done, 130 stopped by Ctrl-C.")]
pub struct Blocks {
    /// Two photographs or more: files, folders of them, or patterns such as 'arms/*.jpg'. Of a PDF or TIFF with pages:
    /// FILE#PAGE.
    #[arg(required = true, value_name = "PHOTOGRAPH")]
    photographs: Vec<OsString>,
    /// Where the cut is: left, top, width and height in pixels of the photograph. Once for all, or once for each in their
    /// order, with - where it is to be found.
    #[arg(long, value_name = "X,Y,W,H", value_parser = Region::parse, allow_hyphen_values = true)]
    region: Vec<Region>,
    /// Years that are known, one for each photograph in their order: 1648, 1650..1655, 1660.. (no earlier), ..1670 (no
    /// later), ? (nothing). The others are then dated, if the order and the wear allow it.
    #[arg(long, value_name = "YEAR[,YEAR...]", value_parser = Years::parse)]
    dates: Option<Years>,
    #[command(flatten)]
    results: Results,
}

impl Blocks {
    /// Studies the photographs of a folder, of known resolution and years as typed, and writes the page; for the demo.
    pub(super) fn with_page(folder: &Path, page: &Path, ppi: &[Ppi], dates: &str) -> Self {
        Self {
            photographs: vec![folder.into()],
            region: Vec::new(),
            dates: Years::parse(dates).ok(),
            results: Results::page_at(page, ppi),
        }
    }

    /// Compares, writes and says the result.
    ///
    /// # Errors
    /// A file that cannot be read or written, a photograph without a cut, a region outside one; with the name and the remedy.
    pub fn run(&self) -> Result<ExitCode> {
        let progress = self.results.progress();
        let (record, page) = self.found(&progress)?;
        progress.end();
        let json = || serde_json::to_string_pretty(&record).context("the result cannot be written as JSON");
        self.results.say(|| words::of_blocks(&record), json, page.as_deref())?;
        let is_told = record.pairs.iter().any(|p| p.comparison.verdict != BlockVerdict::Undetermined);
        Ok(if is_told { ExitCode::SUCCESS } else { ExitCode::from(1) })
    }

    /// Compares, and writes the page and the plates; the result in words. For the demo.
    pub(super) fn carry_out(&self, progress: &Progress) -> Result<String> {
        Ok(words::of_blocks(&self.found(progress)?.0))
    }

    /// What is found, and the page that was written, if one was wanted.
    fn found(&self, progress: &Progress) -> Result<(BlocksRecord, Option<PathBuf>)> {
        let named = photographs::meant(&self.photographs)?;
        let scales = Scales::for_each(self.results.scales(), named.len())?;
        let regions = Region::for_each(&self.region, named.len())?;
        let dated = Years::for_each(self.dates.as_ref(), named.len())?;
        self.results.check(&named)?;
        let page = self.results.page(|| outputs::page_of_many(&named, "more-blocks"));
        let in_colour = page.is_some() || self.results.plates.is_some();
        progress.step(&format!("Reading {} photographs and finding their cuts", named.len()));
        let read: Vec<Result<Impression>> = named
            .par_iter()
            .zip(scales.par_iter().zip(&regions))
            .map(|(named, (scale, region))| Impression::read(named, scale, *region, in_colour))
            .collect();
        let Taken { impressions, unplaced } = taken(&named, read)?;
        let all: Vec<&Impression> = impressions.iter().map(|(_, i)| i).collect();
        let cuts = chosen::chosen(&all);
        let members: Vec<Member<'_>> =
            impressions.iter().zip(&cuts).map(|((number, i), &cut)| (*number, i, cut)).collect();
        let studied = studied(&members, progress);
        progress.step("Ordering the impressions");
        let known = Known {
            named: &named,
            members: &members,
            studied: &studied,
            dated: &dated,
            unplaced,
            in_years: self.dates.is_some(),
        };
        let record = known.told();
        if in_colour {
            progress.step("Drawing the pictures");
            let pictures = pictures::pictures(&studied, &members, named.len());
            let model = blocks_model(&record, &pictures, self.typed())?;
            if let Some(page) = &page {
                write_whole(page, publish::page::blocks::page(&model).as_bytes())?;
            }
            if let Some(folder) = &self.results.plates {
                progress.step("Drawing the plates");
                plates::write(folder, &self.typed(), &[], |put| {
                    publish::plates::of_blocks(&record, &pictures, &model, put)
                })?;
            }
        }
        Ok((record, page))
    }

    /// The command as it would be typed again.
    fn typed(&self) -> String {
        let regions = self.region.iter().map(|r| r.typed());
        let said = self.results.scales().map(Scales::typed).into_iter().chain(regions);
        let said = said.chain(self.dates.as_ref().map(Years::typed));
        photographs::typed("reglet blocks", said, &self.photographs)
    }
}

/// What could be read, by its number, and what could not, with the reason.
struct Taken {
    impressions: Vec<(usize, Impression)>,
    unplaced: Vec<Unplaced>,
}

/// Parts what could be read from what could not.
///
/// # Errors
/// When fewer than two could be read: the reasons.
fn taken(named: &[Named], read: Vec<Result<Impression>>) -> Result<Taken> {
    let (mut impressions, mut unplaced) = (Vec::new(), Vec::new());
    for (copy, read) in read.into_iter().enumerate() {
        match read {
            Ok(impression) => impressions.push((copy, impression)),
            Err(error) => {
                unplaced.push(Unplaced { copy, file: named[copy].text(), reason: format!("{error:#}") });
            }
        }
    }
    if impressions.len() < 2 {
        let reasons: Vec<&str> = unplaced.iter().map(|u| u.reason.as_str()).collect();
        bail!(
            "two impressions at least are needed, and {} could be taken: {}",
            impressions.len(),
            reasons.join("; ")
        );
    }
    Ok(Taken { impressions, unplaced })
}

/// Compares every two, and says how far it is.
fn studied(members: &[Member<'_>], progress: &Progress) -> Studied {
    let cuts: Vec<Cut> = members.iter().map(|(_, i, cut)| i.cuts[*cut].cut.clone()).collect();
    let all = cuts.len() * (cuts.len() - 1) / 2;
    progress.step("Laying every two together");
    // Not every pair is worth a line where lines are kept.
    let every = (all / 8).max(3);
    study(&cuts, &|done| {
        if done % every == 0 && done < all {
            progress.step(&format!("Laying every two together: {done} of {all}"));
        } else if done == all {
            progress.step("Looking for what the wood has lost");
        }
    })
}
