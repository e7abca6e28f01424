//! Prints the sheets, with what is true of them.

use std::path::{Path, PathBuf};

use anyhow::Context as _;
use press::block::{BlockHistory, BlockKind, BlockPair, BlockPull, CutOf, Life, Relation, Surroundings};
use press::scenario::{Scenario, ScenarioKind};
use press::{CutKind, Founts, Picture, Pull};
use serde::{Deserialize, Serialize};
use sheet::{MM_PER_INCH, Mm, Point, Rect};

use super::plan::{Planned, Subject};
use crate::bench::pair::{read_json, write_json};
use crate::bench::press_tree::{press_tree, prints_the_same};

/// Quality of the JPEGs (common practice, no source).
const QUALITY: u8 = 88;

/// A cut that is on a sheet. Boxes are x, y, w, h in pixels of the photograph.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(super) struct TrueCut {
    /// Its kind, as the finder words it.
    pub(super) kind: String,
    /// The box of the block.
    pub(super) block: Rect,
    /// The box of what of it is there to print.
    pub(super) inked: Rect,
    /// Its larger side, mm.
    pub(super) size: f64,
    /// The letter of type in a factotum.
    pub(super) letter: Option<Rect>,
}

/// What is true of a sheet.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub(super) struct SheetTruth {
    /// Its cuts.
    pub(super) cuts: Vec<TrueCut>,
    /// Ornaments of type, one box each.
    pub(super) ornaments: Vec<Rect>,
    /// Lines of type.
    pub(super) lines: Vec<Rect>,
    /// The part of the photograph that is looked at, where it is cut down.
    pub(super) part: Option<Rect>,
}

/// What is kept of a sheet beside its photograph.
#[derive(Debug, Serialize, Deserialize)]
struct Made {
    press: String,
    planned: Planned,
    truth: SheetTruth,
}

/// The photograph of a sheet and what is true of it. One that was made by this press from the same plan is not printed again.
pub(super) fn made(
    planned: &Planned,
    founts: &Founts,
    folder: &Path,
) -> anyhow::Result<(PathBuf, SheetTruth)> {
    let of = |end: &str| folder.join(format!("{:04}.{end}", planned.number));
    let (photograph, file, press) = (of("jpg"), of("json"), press_tree());
    let is_good =
        |made: &Made| prints_the_same(&made.press, &press) && made.planned == *planned && photograph.exists();
    if let Some(made) = read_json::<Made>(&file).ok().filter(is_good) {
        return Ok((photograph, made.truth));
    }
    let (picture, truth) =
        printed(planned, founts).with_context(|| format!("sheet {} cannot be printed", planned.number))?;
    std::fs::write(&photograph, picture.to_jpeg(QUALITY, None)?)
        .with_context(|| format!("cannot write {}", photograph.display()))?;
    write_json(&file, &Made { press, planned: *planned, truth: truth.clone() })?;
    Ok((photograph, truth))
}

fn printed(planned: &Planned, founts: &Founts) -> anyhow::Result<(Picture, SheetTruth)> {
    match planned.subject {
        Subject::Block { block, among } => one(planned, founts, block, among),
        Subject::Cropped { block, margin } => {
            let (picture, mut truth) = one(planned, founts, block, Surroundings::Alone)?;
            let by = margin.0 * planned.ppi.0 / MM_PER_INCH;
            let whole = Rect::new(0.0, 0.0, picture.width() as f64, picture.height() as f64);
            let part = truth.cuts.first().and_then(|c| c.inked.grown(by).shared(whole)).map(whole_pixels);
            let at = part.map_or(Point::new(0.0, 0.0), |p| Point::new(-p.x, -p.y));
            for cut in &mut truth.cuts {
                cut.block = cut.block.moved(at);
                cut.inked = cut.inked.moved(at);
                cut.letter = cut.letter.map(|l| l.moved(at));
            }
            Ok((picture, SheetTruth { part, ..truth }))
        }
        Subject::Composite { pieces } => {
            let pair = BlockPair {
                relation: Relation::SameBlock,
                cut: CutOf::Composite { pieces },
                size: planned.size,
                years: 0.0,
                level: planned.level,
                ppi_a: planned.ppi,
                ppi_b: planned.ppi,
                among: [Surroundings::Alone; 2],
                seed: planned.seed,
            };
            let BlockPull { picture, truth } = pair.print(founts)?.a;
            let cuts = cuts(&BlockPull { picture: picture.clone(), truth }, None, planned);
            // They print as one.
            let whole = cuts.into_iter().reduce(|p, q| TrueCut {
                block: p.block.united(q.block),
                inked: p.inked.united(q.inked),
                size: p.size.max(q.size),
                ..p
            });
            Ok((picture, SheetTruth { cuts: whole.into_iter().collect(), ..SheetTruth::default() }))
        }
        Subject::Page => {
            let scenario = Scenario {
                kind: ScenarioKind::SameSetting,
                level: planned.level,
                ppi_a: planned.ppi,
                ppi_b: planned.ppi,
                seed: planned.seed,
            };
            let Pull { picture, truth } = scenario.print(founts)?.a;
            let mut out = around(&truth);
            for cut in &truth.setting.cuts {
                let kind = match cut.kind {
                    CutKind::HeadPiece => "head-piece",
                    CutKind::Initial { .. } => "initial",
                    _ => continue,
                };
                let place = truth.box_px(cut.place);
                let size = cut.place.w.max(cut.place.h);
                out.cuts.extend(in_picture(place, &truth).map(|place| TrueCut {
                    kind: kind.to_owned(),
                    block: place,
                    inked: place,
                    size,
                    letter: None,
                }));
            }
            Ok((picture, out))
        }
    }
}

fn one(
    planned: &Planned,
    founts: &Founts,
    block: BlockKind,
    among: Surroundings,
) -> anyhow::Result<(Picture, SheetTruth)> {
    let history = BlockHistory {
        kind: block,
        size: planned.size,
        impressions: 1,
        years: YEARS,
        rate: 0.4,
        plugged: false,
        level: planned.level,
        ppi: [planned.ppi; 2],
        among,
        seed: planned.seed,
    };
    let mut printed = history.print(founts)?;
    let pull = printed.pulls.pop().context("no impression was pulled")?;
    let cuts = cuts(&pull, Some(&printed.life), planned);
    let around = around(&pull.truth.sheet);
    Ok((pull.picture, SheetTruth { cuts, ..around }))
}

/// Years of a block's life.
const YEARS: f64 = 30.0;

/// What of a box can be seen; `None` of less than half.
fn in_picture(place: Rect, truth: &press::Truth) -> Option<Rect> {
    let picture = Rect::new(0.0, 0.0, f64::from(truth.width), f64::from(truth.height));
    place.shared(picture).filter(|s| s.area() > 0.5 * place.area())
}

/// The blocks of a photograph.
fn cuts(pull: &BlockPull, life: Option<&Life>, planned: &Planned) -> Vec<TrueCut> {
    let sheet = &pull.truth.sheet;
    let faces = sheet.setting.cuts.iter().filter_map(|c| c.face.as_ref());
    let boxes = faces.zip(&pull.truth.cuts).map(|(face, cut)| {
        let strokes = face.strokes.iter().filter(|s| s.inks).filter_map(press::block::Stroke::bounds);
        let places = strokes.filter_map(|b| b.shared(cut.outline)).flat_map(Rect::corners);
        let inked = Rect::around(places.map(|p| sheet.to_photograph(cut.lie.to_forme(p))));
        (cut, inked.unwrap_or(cut.box_px))
    });
    boxes
        .filter_map(|(cut, inked)| {
            Some(TrueCut {
                kind: kind(cut.kind).to_owned(),
                block: in_picture(cut.box_px, sheet)?,
                inked: in_picture(inked, sheet)?,
                size: life.map_or(planned.size, |l| Mm(l.block.size.0.0.max(l.block.size.1.0))).0,
                letter: cut.letter.map(|l| l.box_px),
            })
        })
        .collect()
}

/// The finder's word for a kind of block.
fn kind(kind: BlockKind) -> &'static str {
    match kind {
        BlockKind::Initial { .. } => "initial",
        BlockKind::Factotum => "factotum",
        BlockKind::HeadPiece => "head-piece",
        BlockKind::TailPiece => "tail-piece",
        BlockKind::Arms => "arms",
        BlockKind::Device => "device",
        BlockKind::Pictorial => "picture",
    }
}

/// What stands on the sheet besides its cuts.
fn around(truth: &press::Truth) -> SheetTruth {
    let ornaments = truth.setting.cuts.iter().filter(|c| matches!(c.kind, CutKind::Ornament { .. }));
    let lines = truth.setting.lines.iter().map(|l| {
        let rise = l.body.0;
        truth.box_px(Rect::new(l.left.0, l.baseline.0 - 0.8 * rise, l.width.0, rise))
    });
    SheetTruth {
        ornaments: ornaments.map(|c| truth.box_px(c.place)).collect(),
        lines: lines.collect(),
        ..SheetTruth::default()
    }
}

fn whole_pixels(r: Rect) -> Rect {
    let (x, y) = (r.x.floor(), r.y.floor());
    Rect::new(x, y, (r.right() - x).floor(), (r.bottom() - y).floor())
}
