//! An impression of a cut, by itself.

use register::{Features, Guide, Pyramid, features};
use sheet::scale::Scale;
use sheet::{Fold, Plane, Point, Rect, Turned, hole};

/// About a cut so much of its longer side is kept, so that its edge can be told from the paper.
const MARGIN: f64 = 0.04;
/// Of what stands there, no more than this share of the longer side belongs to the cut: what was outlined a little too small
/// is not cut off, and the type beside it is no part of it.
const OWN: f64 = 0.012;
/// Parts of the longer side that one unit of the placement is, and its bounds in pixels. Windows are three units a side: small
/// enough that a cut of a letter's size has some, large enough that each holds several strokes, at any resolution.
const UNITS: f64 = 60.0;
const UNIT_PX: [f64; 2] = [5.0, 12.0];

/// Ink from this, of 255, is print; and so much of it is less dark than what is taken for solid.
const INKED: usize = 51;
const SOLID: f64 = 0.85;

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

    /// The same turned clockwise by so many right angles: blocks were printed upside down, and photographs are turned.
    #[must_use]
    pub fn turned(&self, quarters: u8) -> Self {
        let full = self.ink.full();
        let turn = Turned::new(quarters, full.width(), full.height());
        let ink = Pyramid::new(full.turned(quarters));
        let (body, hole) = (turn.upright_box(self.body), self.hole.map(|r| turn.upright_box(r)));
        let fold = |f: &Fold| Fold { from: turn.upright(f.from), to: turn.upright(f.to), ..*f };
        let folds = self.folds.iter().map(fold).collect();
        Self { features: features(&ink), ink, body, hole, corner: self.corner, scale: self.scale, folds }
    }

    /// Whether it has so many places to hold on to that another impression of it would be found by them.
    pub(super) fn is_legible(&self) -> bool {
        self.features.len() >= FEWEST_PLACES
    }

    /// The part of it in a box, or what lies about the box, as a cut by itself on the same picture.
    pub(super) fn part(&self, place: Rect, within: bool) -> Self {
        let full = self.ink.full().clone();
        let (ink, body) = if within {
            (alone(full, place), place.shared(self.body).unwrap_or(self.body))
        } else {
            (without(full, place), self.body)
        };
        let ink = Pyramid::new(ink);
        Self {
            features: features(&ink),
            ink,
            body,
            hole: self.hole,
            corner: self.corner,
            scale: self.scale,
            folds: self.folds.clone(),
        }
    }

    /// Of its body, how much is grey (a quarter to three quarters as dark as solid ink) for so much that is half as dark and more.
    pub(super) fn grey(&self) -> f64 {
        let full = self.ink.full();
        let (x, y) = (self.body.x.max(0.0) as usize, self.body.y.max(0.0) as usize);
        let right = (x + self.body.w as usize).min(full.width());
        let mut counts = [0usize; 256];
        for y in y..(y + self.body.h as usize).min(full.height()) {
            full.row(y)[x.min(right)..right].iter().for_each(|&v| counts[usize::from(v)] += 1);
        }
        let inked: usize = counts[INKED..].iter().sum();
        let below = (inked.saturating_sub(1) as f64 * SOLID) as usize;
        let mut so_far = 0;
        let solid = (INKED..256).find(|&v| {
            so_far += counts[v];
            so_far > below
        });
        let Some(solid) = solid.map(|v| v as f64) else { return 0.0 };
        let share = |from: f64, to: f64| {
            let within = |v: usize| (from * solid..to * solid).contains(&(v as f64));
            (0..256).filter(|&v| within(v)).map(|v| counts[v]).sum::<usize>() as f64
        };
        share(0.25, 0.75) / share(0.5, f64::INFINITY).max(1.0)
    }

    /// Ink by its area, 0 to 1.
    pub(super) fn inked(&self) -> f64 {
        let ink: u64 = self.ink.full().data().iter().map(|&v| u64::from(v)).sum();
        ink as f64 / 255.0 / self.body.area().max(1.0)
    }

    /// Its longer side, pixels.
    pub fn longer(&self) -> f64 {
        self.body.w.max(self.body.h)
    }

    /// Pixels of the unit in which it is laid.
    pub(super) fn unit(&self) -> f64 {
        (self.longer() / UNITS).clamp(UNIT_PX[0], UNIT_PX[1])
    }

    /// How large windows are when another is laid on it, and where the sheets of both were folded.
    pub(super) fn guide<'c>(&'c self, other: &'c Self) -> Guide<'c> {
        Guide { px_per_mm: self.unit(), lines: None, folds: [&self.folds, &other.folds] }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_turned_cut_keeps_its_ink_within_its_box() {
        let mut ink = Plane::filled(90, 60, 0u8);
        ink.row_mut(12)[21] = 255;
        let cut = Cut::of(&ink, Rect::new(20.0, 10.0, 40.0, 30.0), None).unwrap();
        for quarters in 0..4 {
            let turned = cut.turned(quarters);
            let full = turned.ink.full();
            let at = |p: Point| full.at(p.x as usize, p.y as usize);
            let near = turned.body.corners().map(|c| c + (turned.body.centre() - c) * 0.001);
            assert_eq!((turned.body.w - 40.0).abs() < 1e-9, quarters % 2 == 0);
            let dark: usize = full.data().iter().filter(|v| **v > 0).count();
            assert_eq!(dark, 1);
            // It stands a pixel and a half from the left and two and a half from the top of the cut as it was.
            let was = [0, 1, 2, 3][usize::from(quarters)];
            let corner = near[was];
            let inward = turned.body.centre() - corner;
            let by = Point::new(1.5 * inward.x.signum(), 2.5 * inward.y.signum());
            let by = if quarters % 2 == 0 {
                by
            } else {
                Point::new(2.5 * inward.x.signum(), 1.5 * inward.y.signum())
            };
            assert_eq!(at(corner + by), 255, "{quarters}");
        }
    }
}
