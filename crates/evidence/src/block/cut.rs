//! An impression of a cut, by itself.

use register::{Features, Guide, Pyramid, features};
use sheet::scale::Scale;
use sheet::{Fold, Plane, Point, Rect, hole};

/// About a cut so much of its longer side is kept, so that its edge can be told from the paper.
const MARGIN: f64 = 0.04;
/// Of what stands there, no more than this share of the longer side belongs to the cut: what was outlined a little too small
/// is not cut off, and the type beside it is no part of it.
const OWN: f64 = 0.012;
/// Parts of the longer side that one unit of the placement is, and its bounds in pixels. Windows are three units a side: small
/// enough that a cut of a letter's size has some, large enough that each holds several strokes, at any resolution.
const UNITS: f64 = 60.0;
const UNIT_PX: [f64; 2] = [5.0, 12.0];

/// Places to hold on to below which nothing is concluded from their agreeing with none.
const FEWEST_PLACES: usize = 40;

/// An impression of a cut, ready to be laid on others. Made once and used against every other.
#[derive(Debug, Clone)]
pub struct Cut {
    /// Its ink, with a little bare paper about it.
    pub ink: Pyramid,
    /// Places that can be found again.
    pub(super) features: Features,
    /// The cut itself, pixels of `ink`.
    pub body: Rect,
    /// The hole of a factotum, pixels of `ink`, which holds nothing of the letter of type set into it.
    pub hole: Option<Rect>,
    /// The top left corner of `ink` on the photograph set upright.
    pub corner: Point,
    /// Pixels to the millimetre, where known.
    pub scale: Option<Scale>,
    /// Folds of the sheet, pixels of `ink`.
    pub folds: Vec<Fold>,
}

impl Cut {
    /// The cut in a box of a side's ink; `None` where that holds no pixel of it.
    pub fn of(ink: &Plane<u8>, place: Rect, scale: Option<Scale>) -> Option<Self> {
        let whole = Rect::new(0.0, 0.0, ink.width() as f64, ink.height() as f64);
        let place = place.shared(whole)?;
        let longer = place.w.max(place.h);
        let crop = place.grown(MARGIN * longer).shared(whole)?;
        let (x, y) = (crop.x.floor() as usize, crop.y.floor() as usize);
        let (w, h) = (crop.right().ceil() as usize - x, crop.bottom().ceil() as usize - y);
        let corner = Point::new(x as f64, y as f64);
        let body = place.moved(corner * -1.0);
        let mut ink = alone(ink.crop(x, y, w, h), body.grown(OWN * longer));
        let hole = hole(&ink, body);
        if let Some(hole) = hole {
            ink = without(ink, hole);
        }
        let ink = Pyramid::new(ink);
        Some(Self { features: features(&ink), ink, body, hole, corner, scale, folds: Vec::new() })
    }

    /// The same with the folds of its sheet, told on the photograph set upright.
    #[must_use]
    pub fn with_folds(mut self, folds: &[Fold]) -> Self {
        let moved = |f: &Fold| Fold { from: f.from - self.corner, to: f.to - self.corner, ..*f };
        self.folds = folds.iter().map(moved).collect();
        self
    }

    /// The same as a looking-glass shows it: a design traced onto the wood prints the other way round.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        let mut ink = self.ink.full().clone();
        for y in 0..ink.height() {
            ink.row_mut(y).reverse();
        }
        let width = ink.width() as f64;
        let turned = |r: Rect| Rect::new(width - r.right(), r.y, r.w, r.h);
        let (body, hole) = (turned(self.body), self.hole.map(turned));
        let across = |p: Point| Point::new(width - p.x, p.y);
        let folds =
            self.folds.iter().map(|f| Fold { from: across(f.from), to: across(f.to), ..*f }).collect();
        let ink = Pyramid::new(ink);
        Self { features: features(&ink), ink, body, hole, corner: self.corner, scale: self.scale, folds }
    }

    /// Whether it has so many places to hold on to that another impression of it would be found by them.
    pub(super) fn is_legible(&self) -> bool {
        self.features.len() >= FEWEST_PLACES
    }

    /// Its longer side, pixels.
    pub fn longer(&self) -> f64 {
        self.body.w.max(self.body.h)
    }

    /// Pixels of the unit in which it is laid.
    pub(super) fn unit(&self) -> f64 {
        (self.longer() / UNITS).clamp(UNIT_PX[0], UNIT_PX[1])
    }

    /// How large windows are when others are laid on it.
    pub(super) fn guide(&self) -> Guide<'static> {
        Guide { px_per_mm: self.unit(), lines: None, folds: [&[], &[]] }
    }
}

/// The impression, of those named, on whose frame others are best told: that with most places to hold on to, which is the sharpest and the best
/// inked; of none the first.
pub fn best_of(cuts: &[Cut], among: &[usize]) -> usize {
    let places = |i: usize| cuts.get(i).map_or(0, |c| c.features.len());
    among.iter().copied().max_by_key(|&i| (places(i), std::cmp::Reverse(i))).unwrap_or(0)
}

/// Ink of which nothing is left within a box.
fn without(mut ink: Plane<u8>, place: Rect) -> Plane<u8> {
    let across = place.x.max(0.0) as usize..(place.right().ceil() as usize).min(ink.width());
    for y in place.y.max(0.0) as usize..(place.bottom().ceil() as usize).min(ink.height()) {
        ink.row_mut(y)[across.clone()].fill(0);
    }
    ink
}

/// Ink of which nothing is left outside a box.
fn alone(mut ink: Plane<u8>, kept: Rect) -> Plane<u8> {
    for y in 0..ink.height() {
        let row = ink.row_mut(y);
        for (x, v) in row.iter_mut().enumerate() {
            if !kept.holds(Point::new(x as f64 + 0.5, y as f64 + 0.5)) {
                *v = 0;
            }
        }
    }
    ink
}
