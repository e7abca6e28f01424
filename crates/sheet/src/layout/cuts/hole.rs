//! The hole of a factotum, into which a letter of type is set: what stands there is no part of the block.

use crate::{Plane, Point, Rect};
use std::borrow::Cow;

/// Longer side at which the hole is looked for, samples.
const LOOKED_AT: usize = 360;
/// A cut is so nearly square, its shorter side by its longer.
const SQUARE: f64 = 0.8;
/// Half a hole's side, as a share of the cut's shorter side: least, most, and by how much it is tried.
const HALF: (f64, f64, f64) = (0.13, 0.4, 0.01);
/// How far its middle may lie from the cut's, as a share of the shorter side, and by how much it is tried.
const OFF: (f64, f64) = (0.06, 0.02);
/// Share of the white between wood and letter that may hold ink: specks, and a little of a smudge.
const SPECKS: f64 = 0.03;
/// Ink that is print, of 255.
const DARK: u8 = 90;
/// Share of what surrounds a hole, on each of its four sides, that is ink: wood.
const WOOD: f64 = 0.15;
/// So near without a hole, as a share of the cut's shorter side, each of its sides has wood along this share of it: a hole is cut
/// square, and a shield with a charge on it is not.
const CLOSE: f64 = 0.05;
const BESIDE: f64 = 0.2;
/// Share of a hole that a letter inks.
const LETTER: f64 = 0.03;

/// The hole of a cut whose ink fills `body`, pixels: the largest square about its middle whose edge is white all round, with wood on all
/// sides of it and something printed within. `None` where there is none.
pub fn hole(ink: &Plane<u8>, body: Rect) -> Option<Rect> {
    if body.w.min(body.h) < SQUARE * body.w.max(body.h) {
        return None;
    }
    let (mut small, mut unit) = (Cow::Borrowed(ink), 1.0);
    while small.width().max(small.height()) > LOOKED_AT {
        small = Cow::Owned(small.halved());
        unit *= 2.0;
    }
    let sums = Sums::of(&small);
    let body = body.scaled(1.0 / unit);
    let side = body.w.min(body.h);
    let steps = (OFF.0 / OFF.1).round() as i32;
    let offs = || (-steps..=steps).map(|k| f64::from(k) * OFF.1 * side);
    let mut half = HALF.1;
    while half >= HALF.0 {
        let found = offs().flat_map(|dy| offs().map(move |dx| (dx, dy))).find_map(|(dx, dy)| {
            let middle = body.centre() + Point::new(dx, dy);
            let half = half * side;
            let place = Rect::new(middle.x - half, middle.y - half, 2.0 * half, 2.0 * half);
            sums.is_hole(place, side).then_some(place)
        });
        if let Some(place) = found {
            return Some(place.scaled(unit));
        }
        half -= HALF.2;
    }
    None
}

/// Counts of inked samples above and to the left of every sample.
struct Sums {
    width: usize,
    height: usize,
    all: Vec<u32>,
}

impl Sums {
    fn of(ink: &Plane<u8>) -> Self {
        let (width, height) = (ink.width(), ink.height());
        let mut all = vec![0u32; (width + 1) * (height + 1)];
        for y in 0..height {
            let mut row = 0;
            for (x, &v) in ink.row(y).iter().enumerate() {
                row += u32::from(v > DARK);
                all[(y + 1) * (width + 1) + x + 1] = all[y * (width + 1) + x + 1] + row;
            }
        }
        Self { width, height, all }
    }

    /// Share of a box that is inked.
    fn share(&self, place: Rect) -> f64 {
        let within = |v: f64, most: usize| (v.round().max(0.0) as usize).min(most);
        let (l, r) = (within(place.x, self.width), within(place.right(), self.width));
        let (t, b) = (within(place.y, self.height), within(place.bottom(), self.height));
        let at = |x: usize, y: usize| f64::from(self.all[y * (self.width + 1) + x]);
        let inked = at(r, b) + at(l, t) - at(l, b) - at(r, t);
        inked / ((r.saturating_sub(l) * b.saturating_sub(t)).max(1)) as f64
    }

    fn is_hole(&self, r: Rect, side: f64) -> bool {
        // The white edge, just within; the wood, at some distance without.
        let edge = (0.02 * side).max(1.0);
        let wood = 0.1 * side;
        let strips = |from: f64, thick: f64| {
            let o = r.grown(from);
            [
                Rect::new(o.x, o.y, o.w, thick),
                Rect::new(o.x, o.bottom() - thick, o.w, thick),
                Rect::new(o.x, o.y, thick, o.h),
                Rect::new(o.right() - thick, o.y, thick, o.h),
            ]
        };
        let close = CLOSE * side;
        strips(0.0, edge).iter().all(|s| self.share(*s) <= SPECKS)
            && strips(close, close).iter().all(|s| self.share(*s) >= BESIDE)
            && strips(wood, wood).iter().all(|s| self.share(*s) >= WOOD)
            && self.share(r) >= LETTER
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A square of wood 300 wide, hatched, with a hole of so many pixels and a letter in it.
    fn factotum(hole: usize, letter: bool) -> Plane<u8> {
        let mut ink = Plane::filled(340, 340, 0u8);
        let (from, to) = (170 - hole / 2, 170 + hole / 2);
        for y in 20..320 {
            for x in 20..320 {
                let is_in_hole = (from..to).contains(&x) && (from..to).contains(&y);
                let is_letter = (155..185).contains(&x) && (140..200).contains(&y);
                if if is_in_hole { letter && is_letter } else { (x + y) % 8 < 4 } {
                    ink.row_mut(y)[x] = 230;
                }
            }
        }
        ink
    }

    const BODY: Rect = Rect { x: 20.0, y: 20.0, w: 300.0, h: 300.0 };

    #[test]
    fn a_hole_with_a_letter_is_found() {
        let found = hole(&factotum(140, true), BODY).unwrap();
        assert!(
            (found.w - 140.0).abs() < 16.0 && found.centre().distance(Point::new(170.0, 170.0)) < 10.0,
            "{found:?}"
        );
    }

    #[test]
    fn wood_without_a_hole_has_none_and_a_hole_without_a_letter_needs_none() {
        assert_eq!(hole(&factotum(0, false), BODY), None);
        assert_eq!(hole(&factotum(140, false), BODY), None);
    }
}
