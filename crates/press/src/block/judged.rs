//! Which damages an impression shows, and which it cannot tell.

use serde::{Deserialize, Serialize};
use sheet::{Point, Rect};

use super::damage::Damage;
use super::face::Lie;
use super::life::Life;
use super::paint::Painted;
use crate::ink::Ink;
use crate::pull::Inside;
use crate::truth::{IncidentKind, Truth};

/// Why an impression does not tell whether its block had a damage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Untold {
    /// It is narrower than [`LEAST_PX`] pixels.
    TooSmall,
    /// It is not wholly on the photograph.
    OutOfFrame,
    /// A crease, hole, tear or hair lies over it.
    Hidden,
    /// The lines beside it took too little ink, or the place is white for want of ink.
    TooLittleInk,
    /// Ink fills it.
    TooMuchInk,
    /// That piece of the block was sawn off.
    Gone,
}

/// Whether an impression shows a damage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "is", content = "because")]
pub enum Presence {
    /// The block had it, and the impression shows it.
    Present,
    /// The block did not have it, and the impression shows the lines whole.
    Absent,
    /// It cannot be told from this impression.
    NotJudgeable(Untold),
}

/// A damage in an impression.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Shown {
    /// Its number in the life of the block.
    pub damage: u32,
    /// Whether the block had it in that year.
    pub stands: bool,
    /// Whether the impression tells.
    pub presence: Presence,
    /// Where it is, or will be, on the photograph, px.
    pub box_px: Rect,
}

/// A damage narrower than this on the photograph, in px, is not asked for.
pub const LEAST_PX: f64 = 1.2;
/// Lines beside a damage must have taken this share of their ink.
const SOUND: f32 = 0.5;
/// A gap with this share of the ink beside it is filled.
const FILLED: f32 = 0.5;
/// Lines that are whole must have this share of the ink beside them where they will break.
const WHOLE: f32 = 0.7;
/// White that is left of a gap when ink has spread into it from both sides: at least this, in mm.
const OPEN: f64 = 0.08;
/// A place with less ink than this, 0..1, is not seen.
const SEEN: f32 = 0.35;
/// How far about a damage the ink is asked about, in mm.
const BESIDE: f64 = 0.8;
/// Nearer than this to a crease, in mm, nothing is asked about.
const FOLD: f64 = 0.6;

/// One impression: what is needed to judge it.
pub(super) struct Judge<'a> {
    pub life: &'a Life,
    pub year: f64,
    pub lie: Lie,
    pub truth: &'a Truth,
    pub inside: &'a Inside,
    pub ink: &'a Ink,
}

impl Judge<'_> {
    /// Every damage of the block's life, in order.
    ///
    /// The rule: a damage is judged where it is at least [`LEAST_PX`] px wide, wholly on the photograph, not within 0.6 mm
    /// of a crease nor under a hole, tear, hair or risen space, where the lines within 0.8 mm took half of their ink, where
    /// ink spread from both sides leaves 0.08 mm of a gap, and where the printed ink agrees with the wood: less than half
    /// the ink of its surroundings in a gap, more than seven tenths where lines are whole. Stains do not hide: they take
    /// at most a fifth of the paper's brightness, ink takes most of it.
    pub(super) fn all(&self) -> Vec<Shown> {
        self.life.damages.iter().map(|d| self.one(d)).collect()
    }

    /// Share of the block's standing surface, on a grid of at least a quarter of a millimetre, that took ink, is on the
    /// photograph and not in a fold.
    pub(super) fn legible(&self) -> f64 {
        let whole = self.life.outline(self.year);
        let per_mm = (200.0 / whole.w.max(whole.h)).min(4.0);
        let strokes = self.life.strokes(self.year, |d| d.stands(self.year));
        let painted = Painted::of(&strokes, self.life.block.knife, whole, per_mm);
        let way = self.truth.warp.way();
        let plane = &self.inside.ink;
        let (mut stands, mut seen) = (0u32, 0u32);
        for (p, cover) in painted.cells() {
            if cover < 0.6 {
                continue;
            }
            stands += 1;
            let forme = self.lie.to_forme(p);
            let q = way.to_photograph(forme);
            let framed =
                q.x >= 0.0 && q.y >= 0.0 && q.x < plane.width() as f64 && q.y < plane.height() as f64;
            if framed && plane.at(q.x as usize, q.y as usize) > SEEN && way.shows(forme) {
                seen += 1;
            }
        }
        f64::from(seen) / f64::from(stands.max(1))
    }

    fn one(&self, damage: &Damage) -> Shown {
        let stands = damage.stands(self.year);
        let when = self.year.max(damage.onset);
        let place = damage.box_at(when);
        let way = self.truth.warp.way();
        let px = |p: Point| way.to_photograph(self.lie.to_forme(p));
        let box_px = Rect::around(place.corners().map(px)).unwrap_or(place);
        let presence = match self.untold(damage, when, place, box_px, stands) {
            Some(why) => Presence::NotJudgeable(why),
            None if stands => Presence::Present,
            None => Presence::Absent,
        };
        Shown { damage: damage.id, stands, presence, box_px }
    }

    fn untold(&self, damage: &Damage, when: f64, place: Rect, box_px: Rect, stands: bool) -> Option<Untold> {
        let narrow = damage.narrow_at(when);
        let per_mm = self.truth.ppi.px_per_mm();
        if narrow * per_mm < LEAST_PX {
            return Some(Untold::TooSmall);
        }
        // A piece out of the edge reaches beyond it.
        let left = self.life.outline(self.year).shared(place).map_or(0.0, Rect::area);
        if left < 0.15 * place.area() {
            return Some(Untold::Gone);
        }
        let photograph = Rect::new(0.0, 0.0, f64::from(self.truth.width), f64::from(self.truth.height));
        if !box_px.corners().iter().all(|&c| photograph.holds(c)) {
            return Some(Untold::OutOfFrame);
        }
        if self.is_hidden(place, box_px) {
            return Some(Untold::Hidden);
        }
        let middle = self.lie.to_forme(place.centre());
        let spread = self.ink.squash.0 + self.inside.beating.gain(middle);
        if narrow - 2.0 * spread < OPEN || self.inside.beating.filling(middle) > 0.5 {
            return Some(Untold::TooMuchInk);
        }
        let (beside, within) = self.ink_about(damage, when, place);
        match (stands, beside, within) {
            (_, None, _) | (_, _, None) => Some(Untold::TooLittleInk),
            (_, Some(beside), _) if beside < SOUND => Some(Untold::TooLittleInk),
            (true, Some(beside), Some(within)) if within > FILLED * beside => Some(Untold::TooMuchInk),
            (false, Some(beside), Some(within)) if within < WHOLE * beside => Some(Untold::TooLittleInk),
            _ => None,
        }
    }

    fn is_hidden(&self, place: Rect, box_px: Rect) -> bool {
        let way = self.truth.warp.way();
        let near_fold = place.corners().into_iter().chain([place.centre()]).any(|p| {
            let lying = way.to_lying(self.lie.to_forme(p));
            self.truth.warp.creases.iter().any(|c| {
                let (beyond, jump) = c.beyond(lying);
                beyond > -FOLD && beyond < jump + FOLD
            })
        });
        let over = |kind: IncidentKind| {
            matches!(kind, IncidentKind::Loss | IncidentKind::Hair | IncidentKind::RisenSpace)
        };
        near_fold || self.truth.incidents.iter().any(|i| over(i.kind) && i.box_px.shared(box_px).is_some())
    }

    /// Mean ink on the lines beside the damage, and where it takes them away; `None` where there is no line.
    fn ink_about(&self, damage: &Damage, when: f64, place: Rect) -> (Option<f32>, Option<f32>) {
        let area = place.grown(BESIDE);
        let per_mm = (400.0 / area.w.max(area.h)).min(20.0);
        let painted = |with: bool| {
            let strokes = self
                .life
                .strokes_in(when, Some(area), |d| if d.id == damage.id { with } else { d.stands(self.year) });
            Painted::of(&strokes, self.life.block.knife, area, per_mm)
        };
        let (whole, hurt) = (painted(false), painted(true));
        let way = self.truth.warp.way();
        let plane = &self.inside.ink;
        let (mut beside, mut within) = ((0.0f32, 0u32), (0.0f32, 0u32));
        for ((p, before), (_, after)) in whole.cells().zip(hurt.cells()) {
            if before < 0.6 {
                continue;
            }
            let q = way.to_photograph(self.lie.to_forme(p));
            if q.x < 0.0 || q.y < 0.0 || q.x >= plane.width() as f64 || q.y >= plane.height() as f64 {
                continue;
            }
            let ink = plane.at(q.x as usize, q.y as usize);
            let into = if after < 0.3 {
                &mut within
            } else if after > 0.6 {
                &mut beside
            } else {
                continue;
            };
            into.0 += ink;
            into.1 += 1;
        }
        let mean = |(sum, n): (f32, u32)| (n > 3).then(|| sum / n as f32);
        (mean(beside), mean(within))
    }
}
