//! What is true of the places that were told.

use press::block::{DamageClass, Presence, PrintedHistory};
use serde::{Deserialize, Serialize};
use sheet::{Point, Rect};

/// What an impression truly says of a damage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Truly {
    Present,
    Absent,
    /// It cannot be judged.
    Untold,
}

/// A damage of a printed block.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(super) struct TrueDamage {
    pub(super) class: DamageClass,
    /// Its size when it first shows in any impression, mm.
    pub(super) size_mm: f64,
    /// Its narrower side then, mm.
    pub(super) narrow_mm: f64,
    /// What each impression says.
    pub(super) truly: Vec<Truly>,
    /// Where it is on each photograph, pixels.
    pub(super) boxes: Vec<[f64; 4]>,
}

impl TrueDamage {
    /// Whether some impression shows it and another shows the wood whole, both judgeable.
    pub(super) fn is_told(&self) -> bool {
        self.truly.contains(&Truly::Present) && self.truly.contains(&Truly::Absent)
    }
}

/// All damages of a history.
pub(super) fn damages(printed: &PrintedHistory) -> Vec<TrueDamage> {
    let life = &printed.life;
    life.damages
        .iter()
        .enumerate()
        .filter_map(|(k, d)| {
            let shown: Vec<_> =
                printed.pulls.iter().filter_map(|p| p.truth.cuts.first()?.damages.get(k)).collect();
            if shown.len() != printed.pulls.len() {
                return None;
            }
            let first = printed.years.iter().copied().find(|&y| d.stands(y)).unwrap_or(d.onset);
            let truly = shown.iter().map(|s| match s.presence {
                Presence::Present => Truly::Present,
                Presence::Absent => Truly::Absent,
                Presence::NotJudgeable(_) => Truly::Untold,
            });
            Some(TrueDamage {
                class: d.class,
                size_mm: d.size_at(first),
                narrow_mm: d.narrow_at(first),
                truly: truly.collect(),
                boxes: shown.iter().map(|s| [s.box_px.x, s.box_px.y, s.box_px.w, s.box_px.h]).collect(),
            })
        })
        .collect()
}

/// Where alterations of the block lie on each photograph: what is cut anew there is no damage, and no error.
pub(super) fn altered(printed: &PrintedHistory) -> Vec<Vec<Rect>> {
    printed
        .pulls
        .iter()
        .map(|pull| {
            let boxes = printed.life.alterations.iter().filter_map(|a| {
                let on = |p: Point| pull.truth.to_photograph(0, p);
                Rect::around(a.place.corners().into_iter().filter_map(on))
            });
            boxes.collect()
        })
        .collect()
}

/// Slack about a true box, px and mm.
const SLACK_PX: f64 = 2.0;
const SLACK_MM: f64 = 0.12;
/// So much of a place that is told must lie in the box of a damage.
const WITHIN: f64 = 0.5;

/// What a place on an impression's photograph is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Lies {
    /// On a damage.
    On(usize),
    /// It holds one, and much else.
    Beside,
    /// On nothing that was done to the block.
    Nowhere,
}

/// Where a place on an impression's photograph lies: on the smallest damage, of several.
pub(super) fn lies(place: Rect, impression: usize, per_mm: f64, all: &[TrueDamage]) -> Lies {
    let slack = SLACK_PX.max(SLACK_MM * per_mm);
    let shared = |d: &TrueDamage| {
        let [x, y, w, h] = d.boxes[impression];
        Rect::new(x, y, w, h).grown(slack).shared(place).map_or(0.0, Rect::area)
    };
    let size = |d: &TrueDamage| d.boxes[impression][2] * d.boxes[impression][3];
    let touched = all.iter().enumerate().filter(|(_, d)| shared(d) > 0.0);
    let on = touched.clone().filter(|(_, d)| shared(d) >= WITHIN * place.area());
    match on.min_by(|p, q| size(p.1).total_cmp(&size(q.1))) {
        Some((i, _)) => Lies::On(i),
        None if touched.count() > 0 => Lies::Beside,
        None => Lies::Nowhere,
    }
}
