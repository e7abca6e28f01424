//! Photographs of the pairs, kept beside what is true of them, so that they are printed once.

use std::path::{Path, PathBuf};

use anyhow::Context as _;
use evidence::block::Cut;
use press::Founts;
use press::block::{BlockPull, Relation};
use serde::{Deserialize, Serialize};
use sheet::decode::{DecodeRequest, decode};
use sheet::scale::{Scale, ScaleRequest, scale_from};
use sheet::{Point, Ppi, Rect};

use super::plan::Planned;
use crate::bench::boxed::Read;
use crate::bench::pair::{read_json, write_json};
use crate::bench::press_tree::prints_the_same;

/// Quality of the JPEGs (common practice, no source).
const QUALITY: u8 = 88;

/// One block of a pair.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(super) struct Piece {
    /// What the second is to the first.
    pub relation: Relation,
    /// Whether a copy was traced without being turned.
    pub mirrored: bool,
    /// Where it is on the first photograph: x, y, w, h in pixels.
    pub box_a_px: [f64; 4],
    /// What was done to it between the impressions: where on the first photograph.
    pub altered_a_px: Vec<[f64; 4]>,
}

/// What is true of a pair that was printed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(super) struct Kept {
    /// What was asked for.
    pub planned: Planned,
    /// The press that printed it.
    press: String,
    /// The box of all its blocks on either photograph: x, y, w, h in pixels.
    pub boxes_px: [[f64; 4]; 2],
    /// Its blocks, from left to right.
    pub pieces: Vec<Piece>,
}

impl Kept {
    /// The right verdict: a composite of which a part is another block is altered.
    pub(super) fn truth(&self) -> &'static str {
        let odd = self.pieces.iter().map(|p| p.relation.verdict()).find(|v| *v != "same-block");
        match odd {
            Some(_) if self.pieces.len() > 1 => "same-block-altered",
            Some(verdict) => verdict,
            None => "same-block",
        }
    }

    /// The cut on one of the photographs, 0 or 1, with its true scale.
    pub(super) fn cut(&self, folder: &Path, which: usize) -> anyhow::Result<Cut> {
        let path = photograph(folder, self.planned.number, which);
        let bytes = std::fs::read(&path).with_context(|| format!("cannot read {}", path.display()))?;
        let read = decode(&bytes, &DecodeRequest::default())?;
        let pair = &self.planned.pair;
        let scale = true_scale([pair.ppi_a, pair.ppi_b][which]);
        let [x, y, w, h] = self.boxes_px[which];
        Read::of(&read.luminance)
            .cut(Rect::new(x, y, w, h), scale)
            .with_context(|| format!("the block is not on {}", path.display()))
    }
}

/// The scale of a photograph whose resolution is known.
fn true_scale(ppi: Ppi) -> Option<Scale> {
    scale_from(&[], &ScaleRequest::ppi(ppi.0).ok()?).0
}

/// Where a photograph of a pair is kept.
pub(super) fn photograph(folder: &Path, number: usize, which: usize) -> PathBuf {
    folder.join(format!("{number:04}-{}.jpg", ["a", "b"][which]))
}

/// A pair, printed unless it is there as this press prints it.
pub(super) fn kept(planned: &Planned, folder: &Path, press: &str, founts: &Founts) -> anyhow::Result<Kept> {
    let path = folder.join(format!("{:04}.json", planned.number));
    if let Ok(there) = read_json::<Kept>(&path)
        && prints_the_same(&there.press, press)
        && there.planned == *planned
    {
        return Ok(there);
    }
    let printed = planned.pair.print(founts).with_context(|| format!("pair {}", planned.number))?;
    for (which, pull) in [&printed.a, &printed.b].into_iter().enumerate() {
        let path = photograph(folder, planned.number, which);
        std::fs::write(&path, pull.picture.to_jpeg(QUALITY, None)?)
            .with_context(|| format!("cannot write {}", path.display()))?;
    }
    let pieces = printed.pieces.iter().enumerate().map(|(i, piece)| {
        let years = [&printed.a, &printed.b].map(|p| p.truth.cuts[i].year);
        let done = printed.lives_b[i].alterations.iter();
        let between = done.filter(|d| d.year > years[0] && d.year <= years[1]);
        let on_photograph = |p: Point| printed.a.truth.to_photograph(i, p);
        Piece {
            relation: piece.relation,
            mirrored: piece.mirrored,
            box_a_px: numbers(printed.a.truth.cuts[i].box_px),
            altered_a_px: between
                .filter_map(|d| Rect::around(d.place.corners().map(on_photograph).into_iter().flatten()))
                .map(numbers)
                .collect(),
        }
    });
    let kept = Kept {
        planned: *planned,
        press: press.to_owned(),
        boxes_px: [whole(&printed.a)?, whole(&printed.b)?],
        pieces: pieces.collect(),
    };
    write_json(&path, &kept)?;
    Ok(kept)
}

/// The box about all blocks of a photograph.
fn whole(pull: &BlockPull) -> anyhow::Result<[f64; 4]> {
    let boxes = pull.truth.cuts.iter().flat_map(|c| c.box_px.corners());
    Ok(numbers(Rect::around(boxes).context("no block was printed")?))
}

fn numbers(r: Rect) -> [f64; 4] {
    [r.x, r.y, r.w, r.h]
}
