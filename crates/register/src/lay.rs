//! Laying B over A, from two pyramids of ink to a map, its patches and how well it lies.

use crate::coarse::{Coarse, Features, close_features, coarse, whole};
use crate::fine::{Fine, first_round, later_rounds, nearest_level, rounds};
use crate::residual::{Patch, patches};
use crate::{PaperMap, Pyramid};
use sheet::{Fold, Homography, Point};
use thiserror::Error;

/// What is known of photograph A before anything is laid on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Guide<'f> {
    /// Pixels of A to a millimetre of sheet. It sets the size of the windows only, so that a guess
    /// from the height of the type serves where the scale is unknown.
    pub px_per_mm: f64,
    /// How the lines of type run on A, where lines were found.
    pub lines: Option<LineGuide>,
    /// The folds that the paper of A shows, and that of B, each on its photograph.
    pub folds: [&'f [Fold]; 2],
}

/// How the lines of type run on A: what one line alone shows is no crease.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineGuide {
    /// Direction of the lines, radians clockwise from the x axis.
    pub turn: f64,
    /// From one line to the next, pixels of A.
    pub pitch: f64,
}

/// From one line to the next, mm, where no lines were found: a small type, set solid.
const PITCH_MM: f64 = 3.5;

impl Guide<'_> {
    /// How the lines of type run, or would.
    pub(crate) fn line_guide(&self) -> LineGuide {
        self.lines.unwrap_or(LineGuide { turn: 0.0, pitch: PITCH_MM * self.px_per_mm })
    }

    /// From a place of A, which `map` takes to B, to the nearest fold of either, pixels of A.
    pub(crate) fn to_fold(self, at: Point, map: &PaperMap) -> f64 {
        let [a, b] = self.folds;
        Fold::nearest(a, at).min(Fold::nearest(b, map.to_b(at)) / map.scale_at(at))
    }
}

/// B laid over A.
#[derive(Debug, Clone)]
pub struct Laid {
    /// From A to B.
    pub map: PaperMap,
    /// The windows of A on a fixed grid, 3 mm a side where resolution allows.
    pub patches: Vec<Patch>,
    /// Side of a window, pixels of A.
    pub patch_side: f64,
    /// Pixels of A to one sample of the level measured at.
    pub unit: f64,
    /// Pixels of B to one pixel of A, in the middle of A.
    pub scale: f64,
    /// Keypoints that agreed on the coarse placement.
    pub agreeing: usize,
    /// Of the windows of A that fall on B and hold print, the share that was found there.
    pub found_share: f64,
}

/// Why two photographs could not be laid together.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum CannotLay {
    /// One photograph holds next to no ink; look at it, and at its crop.
    #[error("there is too little print to lay ({found} places to hold on to in the {which} photograph)")]
    TooLittlePrint {
        /// "first" or "second".
        which: &'static str,
        /// Keypoints found.
        found: usize,
    },
    /// No turn, size and shift brings their print together: other matter, or hardly any shared.
    #[error("these two do not share enough print to be laid together")]
    NothingShared,
}

impl Laid {
    /// The level of B's pyramid whose resolution on the sheet is nearest to that of A's `level`.
    pub fn level_of_b(&self, level: usize) -> usize {
        nearest_level(2f64.powi(level as i32) * self.scale, usize::MAX)
    }
}

/// Keypoints below which a photograph cannot be placed.
const FEWEST_KEYPOINTS: usize = 12;
/// A first candidate with this many times the votes of the next needs no contest.
const CLEAR_LEAD: usize = 3;
/// Places that agree on a placement of the two seen small from which it is tried without more. Of 60 development pairs
/// those of one text have 27 and more, other line-ends and other texts 10 to 74, most with rivals near.
const ENOUGH_AGREEING: usize = 24;
/// Share of its windows that must be found then. Of 720 development pairs those of one text laid line on line have 0.54
/// and more, one that was laid a twentieth too small 0.45, other line-ends and other texts mostly under 0.3.
const SURE_SHARE: f64 = 0.55;
/// Share of a candidate's windows that must be found, each where its neighbours say.
const LEAST_SHARE: f64 = 0.12;

/// Lays B over A.
///
/// # Errors
/// [`CannotLay`] when either holds too little print or the two share none.
pub fn lay(
    a: &Pyramid,
    fa: &Features,
    b: &Pyramid,
    fb: &Features,
    guide: &Guide<'_>,
) -> Result<Laid, CannotLay> {
    for (which, f) in [("first", fa), ("second", fb)] {
        if f.len() < FEWEST_KEYPOINTS {
            return Err(CannotLay::TooLittlePrint { which, found: f.len() });
        }
    }
    let seen_small = coarse(fa, fb);
    let sure = if is_sure(&seen_small) { best(a, b, &seen_small, guide) } else { None };
    let start = sure.filter(|s| s.2 >= SURE_SHARE).or_else(|| {
        let (fa, fb) = rayon::join(|| close_features(a), || close_features(b));
        best(a, b, &coarse(&fa, &fb), guide)
    });
    Ok(laid(a, b, start.ok_or(CannotLay::NothingShared)?, guide))
}

/// Lays a cut B over a cut A, each cropped to it. A cut may be so small, or take so little ink, that it has no places to
/// hold on to; then it is tried at every size and turn that such crops may have.
///
/// # Errors
/// [`CannotLay::NothingShared`] when the two share nothing.
pub fn lay_cut(
    a: &Pyramid,
    fa: &Features,
    b: &Pyramid,
    fb: &Features,
    guide: &Guide<'_>,
) -> Result<Laid, CannotLay> {
    let by_places = best(a, b, &coarse(fa, fb), guide);
    let start = if by_places.as_ref().is_some_and(|s| s.2 >= SURE_SHARE && s.0.agreeing >= ENOUGH_AGREEING) {
        by_places
    } else {
        // Of a placement by which the two hardly overlap a great share of the windows may be found, and few are.
        let by_whole = best(a, b, &whole(a, b), guide);
        by_places.into_iter().chain(by_whole).max_by_key(|s| found(&s.1))
    };
    Ok(laid(a, b, start.ok_or(CannotLay::NothingShared)?, guide))
}

/// B laid over A from where the first round left it.
fn laid(a: &Pyramid, b: &Pyramid, (start, fine, share): (Coarse, Fine, f64), guide: &Guide<'_>) -> Laid {
    let scale = scale(&start.map, a);
    let all = rounds(a, b, guide.px_per_mm, scale);
    let fine = later_rounds(a, b, fine, guide, &all);
    let unit = 2f64.powi(fine.round.level_a as i32);
    Laid {
        patches: patches(&fine.grid, fine.map.paper.creases()),
        map: fine.map,
        patch_side: fine.round.side as f64 * unit,
        unit,
        scale,
        agreeing: start.agreeing,
        found_share: share,
    }
}

/// Whether one placement has a clear lead, and enough agree on it that more would not find another.
fn is_sure(candidates: &[Coarse]) -> bool {
    candidates.first().is_some_and(|c| c.agreeing >= ENOUGH_AGREEING) && is_clear(candidates)
}

/// Whether one placement has a clear lead over all others.
fn is_clear(candidates: &[Coarse]) -> bool {
    match candidates {
        [first, second, ..] => first.agreeing >= CLEAR_LEAD * second.agreeing,
        _ => true,
    }
}

/// The candidate whose print lies best in the first round.
fn best(a: &Pyramid, b: &Pyramid, candidates: &[Coarse], guide: &Guide<'_>) -> Option<(Coarse, Fine, f64)> {
    candidates
        .iter()
        .take(if is_clear(candidates) { 1 } else { candidates.len() })
        .filter_map(|c| {
            let all = rounds(a, b, guide.px_per_mm, scale(&c.map, a));
            let fine = first_round(a, b, &PaperMap::flat(c.map), guide.px_per_mm, all.first()?);
            let share = share_found(&fine);
            (share >= LEAST_SHARE).then_some((c.clone(), fine, share))
        })
        .max_by(|p, q| (p.2 * p.0.agreeing.max(1) as f64).total_cmp(&(q.2 * q.0.agreeing.max(1) as f64)))
}

fn scale(map: &Homography, a: &Pyramid) -> f64 {
    let middle = Point::new(a.full().width() as f64 / 2.0, a.full().height() as f64 / 2.0);
    PaperMap::flat(*map).scale_at(middle)
}

/// Share of the windows that hold print and fall on B which were found with a clear peak.
fn share_found(fine: &Fine) -> f64 {
    let tried = fine.grid.found().count();
    if tried == 0 { 0.0 } else { found(fine) as f64 / tried as f64 }
}

/// Windows that were found with a clear peak.
fn found(fine: &Fine) -> usize {
    fine.grid.found().filter(|m| m.is_sound() && m.score - m.rival > 0.1).count()
}
