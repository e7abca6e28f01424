//! One photograph, and the cuts on it.

use crate::cmd::photographed::{decoded, photographed};
use crate::files::Named;
use anyhow::{Result, bail};
use evidence::Reading;
use evidence::block::Cut;
use publish::record::Photographed;
use sheet::scale::{ScaleRequest, scale_from};
use sheet::{BarePaper, Fold, Plane, Rect, Turned};

/// A photograph, and the cuts that it may be about.
pub(super) struct Impression {
    pub(super) about: Photographed,
    pub(super) turned: Turned,
    /// Whether the user named the cut.
    pub(super) is_named: bool,
    pub(super) cuts: Vec<Candidate>,
}

/// A cut on a photograph set upright.
pub(super) struct Candidate {
    pub(super) cut: Cut,
    /// Its photograph, with the same margin as its ink; where pictures are wanted.
    pub(super) colour: Option<Plane<[u8; 3]>>,
}

/// Cuts of one photograph that are looked at, at most, the largest first: a page has a head-piece and some initials.
const MOST_CUTS: usize = 12;

impl Impression {
    /// Reads a photograph and finds its cuts, or takes the region that was named (pixels as a viewer shows it).
    ///
    /// # Errors
    /// A file that cannot be read or decoded, a region outside it, a photograph without a cut; with its name and the remedy.
    pub(super) fn read(
        named: &Named,
        asked: &ScaleRequest,
        region: Option<Rect>,
        in_colour: bool,
    ) -> Result<Self> {
        let bytes = named.read()?;
        let (photograph, colour) = decoded(named, &bytes, in_colour)?;
        let (scale, told) = scale_from(&photograph.file.resolution_tags, asked);
        let (w, h) = (photograph.luminance.width(), photograph.luminance.height());
        let (ink, turned, folds, places) = if let Some(region) = region {
            if region.right() > w as f64 || region.bottom() > h as f64 {
                bail!(
                    "{}: the region {},{},{},{} reaches beyond the photograph, which is {w} x {h} pixels; give one within it",
                    named.text(),
                    region.x,
                    region.y,
                    region.w,
                    region.h
                );
            }
            let inked = sheet::ink(&photograph.luminance);
            let folds = sheet::folds(&BarePaper::of(&photograph.luminance, &inked), inked.page);
            (inked.darkness, Turned::new(0, w, h), folds, vec![region])
        } else {
            let reading = Reading::of(&photograph.luminance, scale);
            let places = found(&reading);
            (reading.ink.full().clone(), reading.turned, reading.folds, places)
        };
        let colour = colour.map(|c| c.into_turned(turned.quarters()));
        let cuts: Vec<Candidate> = places
            .into_iter()
            .filter_map(|place| candidate(&ink, place, scale, &folds, colour.as_ref()))
            .collect();
        if cuts.is_empty() {
            bail!(
                "{}: no cut was found on this photograph; if there is one, say where: --region X,Y,W,H in pixels",
                named.text()
            );
        }
        let about = photographed(named, &bytes, &photograph, turned.quarters(), (scale, &told));
        Ok(Self { about, turned, is_named: region.is_some(), cuts })
    }
}

/// The cuts of a side, the largest first; of a side without type and without any, all that is inked.
fn found(reading: &Reading) -> Vec<Rect> {
    let mut places: Vec<Rect> = reading.layout.cuts.iter().map(|c| c.bounds).collect();
    places.sort_by(|p, q| q.area().total_cmp(&p.area()));
    places.truncate(MOST_CUTS);
    if places.is_empty() && reading.layout.lines.is_empty() {
        places.extend(inked(reading.ink.full()));
    }
    places
}

/// Ink that is print, of 255, and the share of a row or column from which on it holds some.
const PRINT: u8 = 110;
const HOLDS: f64 = 0.004;

/// The box of all print.
fn inked(ink: &Plane<u8>) -> Option<Rect> {
    let (w, h) = (ink.width(), ink.height());
    let (mut rows, mut columns) = (vec![0usize; h], vec![0usize; w]);
    for (y, row) in rows.iter_mut().enumerate() {
        for (x, &v) in ink.row(y).iter().enumerate() {
            if v > PRINT {
                *row += 1;
                columns[x] += 1;
            }
        }
    }
    let ends = |counts: &[usize], across: usize| {
        let least = (HOLDS * across as f64).max(2.0) as usize;
        let first = counts.iter().position(|&n| n >= least)?;
        let last = counts.iter().rposition(|&n| n >= least)?;
        Some((first as f64, (last + 1) as f64))
    };
    let ((l, r), (t, b)) = (ends(&columns, h)?, ends(&rows, w)?);
    (r - l >= LEAST && b - t >= LEAST).then(|| Rect::new(l, t, r - l, b - t))
}

/// What is smaller, px, is no cut.
const LEAST: f64 = 40.0;

fn candidate(
    ink: &Plane<u8>,
    place: Rect,
    scale: Option<sheet::scale::Scale>,
    folds: &[Fold],
    colour: Option<&Plane<[u8; 3]>>,
) -> Option<Candidate> {
    let cut = Cut::of(ink, place, scale)?.with_folds(folds);
    let (w, h) = (cut.ink.full().width(), cut.ink.full().height());
    let colour = colour.map(|c| c.crop(cut.corner.x as usize, cut.corner.y as usize, w, h));
    Some(Candidate { cut, colour })
}
