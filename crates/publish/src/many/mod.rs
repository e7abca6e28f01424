//! Many copies: what there is to look at, and the words of their page.

mod words;

use crate::page::many::{CopyModel, ManyModel, PairModel, PlaceModel, SettingModel};
use crate::page::{FrameBox, SideModel};
use crate::pictures::{Overview, Small};
use crate::record::{ManyRecord, VariantFound};
use crate::report::{Frame, side};
use sheet::Rect;

pub(crate) use words::from_to;
pub use words::{numbers, what_differs};

/// What there is to look at of many copies.
#[derive(Debug, Clone, Default)]
pub struct ManyPictures {
    /// Of each place of the record, in its order, what the copies of its setting show.
    pub places: Vec<PlacePictures>,
    /// Each copy seen whole, on the frame of its setting; none of one that could not be read.
    pub overviews: Vec<Option<Overview>>,
}

/// A place in every copy of its setting.
#[derive(Debug, Clone)]
pub struct PlacePictures {
    /// What is shown: a box of the frame's photograph set upright, pixels.
    pub shown: Rect,
    /// The place in it, likewise.
    pub place: Rect,
    /// The copies that show it, in their order, with what they show.
    pub copies: Vec<(usize, Small)>,
}

/// Sets a record of many copies as a page, with what there is to look at; `command` made it.
pub fn many_model(record: &ManyRecord, pictures: ManyPictures, command: String) -> ManyModel {
    let ManyPictures { places, overviews } = pictures;
    let mut places: Vec<Option<PlacePictures>> = places.into_iter().map(Some).collect();
    let settings = record
        .settings
        .iter()
        .zip(&record.groups_within)
        .enumerate()
        .map(|(i, (copies, groups))| {
            let of_setting =
                record.variants.iter().enumerate().filter(|(_, v)| copies.contains(&v.variant.frame));
            let places = of_setting.map(|(n, variant)| {
                let shown = places.get_mut(n).and_then(Option::take);
                place(variant, record, shown)
            });
            SettingModel {
                number: i + 1,
                words: words::of_setting(copies, groups),
                copies: copies.clone(),
                groups: groups.clone(),
                places: places.collect(),
            }
        })
        .collect();
    let placed = |copy: usize| record.settings.iter().position(|s| s.contains(&copy)).map(|s| s + 1);
    let copies = record.photographs.iter().zip(overviews).enumerate();
    ManyModel {
        title: words::title(record),
        verdict_words: words::verdict(record),
        findings: words::findings(record),
        cautions: record.cautions.clone(),
        warnings: record.warnings.clone(),
        contradictions: words::contradictions(record),
        measures: words::measures(record),
        copies: copies
            .map(|(copy, (about, overview))| CopyModel {
                number: copy + 1,
                side: about.as_ref().map_or_else(|| unread(unplaced_file(record, copy)), side),
                setting: placed(copy),
                why_not: record.unplaced.iter().find(|u| u.copy == copy).map(|u| u.reason.clone()),
                shown: overview,
            })
            .collect(),
        settings,
        pairs: record
            .pairs
            .iter()
            .map(|p| PairModel {
                copies: p.copies.map(|c| c + 1),
                verdict_words: words::verdict_of_pair(p),
                weight_log10: p.weight_log10,
                places: p.changes,
            })
            .collect(),
        program: record.program.clone(),
        command,
    }
}

fn unplaced_file(record: &ManyRecord, copy: usize) -> &str {
    record.unplaced.iter().find(|u| u.copy == copy).map_or("", |u| u.file.as_str())
}

/// A copy that could not be read has a name at least.
pub(crate) fn unread(file: &str) -> SideModel {
    SideModel {
        file_name: crate::report::name(file),
        sha256: None,
        size_px: [0, 0],
        scale_words: "could not be read".to_owned(),
    }
}

fn place(found: &VariantFound, record: &ManyRecord, shown: Option<PlacePictures>) -> PlaceModel {
    let v = &found.variant;
    let about = record.photographs[v.frame].as_ref();
    let frame = about.map_or(FrameBox { x: 0.0, y: 0.0, w: 0.0, h: 0.0 }, |p| Frame::of(p).share(v.box_px));
    let within = shown.as_ref().map(|s| FrameBox {
        x: (s.place.x - s.shown.x) / s.shown.w,
        y: (s.place.y - s.shown.y) / s.shown.h,
        w: s.place.w / s.shown.w,
        h: s.place.h / s.shown.h,
    });
    let mut pictures = shown.map_or_else(Vec::new, |s| s.copies);
    let mut of = |copies: &[usize]| -> Vec<(usize, Option<Small>)> {
        let taken = copies.iter().map(|&copy| {
            let at = pictures.iter().position(|(c, _)| *c == copy);
            (copy + 1, at.map(|at| pictures.swap_remove(at).1))
        });
        taken.collect()
    };
    PlaceModel {
        class_words: what_differs(v),
        line: v.line,
        score: v.score,
        box_px: v.box_px.map(|v| v.round() as i64),
        on: v.frame + 1,
        frame,
        within,
        readings: v.readings.iter().map(|r| of(r)).collect(),
        unclear: of(&v.unclear),
    }
}
