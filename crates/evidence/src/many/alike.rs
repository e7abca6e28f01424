//! Whether two copies agree at a place, told from their ink.
//!
//! Copies of a large set are laid on the first of their setting alone. Two that differ from it at a place were never laid
//! on each other; both lie on the first, and so their ink can be compared there.

use crate::rank::median;
use sheet::{Plane, Rect};
use std::collections::BTreeMap;

/// Ink of a copy in a box of the frame's photograph, as it lies there: all copies in the same box have the same size.
/// `None` where the copy does not show the place.
pub type InkAt<'i> = dyn Fn(usize, [f64; 4]) -> Option<Plane<u8>> + Sync + 'i;

/// How far one place may lie off the other, as a share of the height of its box: what laying leaves, and a sort that has
/// worked loose.
const REACH: f64 = 0.08;
/// Least reach, and most, samples.
const LEAST_REACH: usize = 1;
const MOST_REACH: usize = 3;
/// Beside a place so much is looked at on either side, in heights of its line: how well two copies print about there.
const BESIDE: f64 = 2.5;

/// Ink below this, of 255, may be the grain of the paper, and what has less than this in the mean is bare.
const GRAIN: u8 = 60;
const BARE: f64 = 3.0;

/// Ink without the paper's grain, which is like nothing, and would make two bare places unlike.
fn without_grain(plane: &Plane<u8>) -> Plane<u8> {
    let inked = plane.map(|v| if v < GRAIN { 0 } else { v });
    let sum: f64 = inked.data().iter().map(|&v| f64::from(v)).sum();
    if sum < BARE * inked.data().len() as f64 { inked.map(|_| 0) } else { inked }
}

/// How unlike two impressions of a place are: 0 the same ink, 1 nothing in common; the least over small shifts.
fn unlikeness(a: &Plane<u8>, b: &Plane<u8>) -> f64 {
    let reach = ((REACH * a.height() as f64) as usize).clamp(LEAST_REACH, MOST_REACH) as isize;
    let shifts = (-reach..=reach).flat_map(|dy| (-reach..=reach).map(move |dx| (dx, dy)));
    let best = shifts.map(|shift| correlation(a, b, shift)).fold(-1.0, f64::max);
    (1.0 - best).clamp(0.0, 1.0)
}

/// What copies show at one place and on either side of it.
pub(super) struct Seen<'s> {
    place: Rect,
    sides: [Rect; 2],
    ink: &'s InkAt<'s>,
    known: BTreeMap<usize, Option<Looked>>,
    told: BTreeMap<[usize; 2], Option<Unlike>>,
}

/// What one copy shows.
struct Looked {
    place: Plane<u8>,
    sides: [Option<Plane<u8>>; 2],
}

/// How unlike two copies are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Unlike {
    /// At the place.
    pub(super) there: f64,
    /// Beside it, where nothing was changed: how poorly the one or the other prints.
    pub(super) beside: f64,
}

impl<'s> Seen<'s> {
    /// A place in a line that reaches over `line`.
    pub(super) fn new(place: Rect, line: Rect, ink: &'s InkAt<'s>) -> Self {
        let beside = BESIDE * line.h.max(place.h);
        let all = line.united(place);
        let sides = [place.x - beside, place.right()].map(|x| Rect::new(x, all.y, beside, all.h));
        Self { place, sides, ink, known: BTreeMap::new(), told: BTreeMap::new() }
    }

    fn look(&mut self, copy: usize) {
        let (place, sides, ink) = (self.place, self.sides, self.ink);
        let at = |r: Rect| ink(copy, [r.x, r.y, r.w, r.h]).map(|plane| without_grain(&plane));
        self.known
            .entry(copy)
            .or_insert_with(|| at(place).map(|place| Looked { place, sides: sides.map(at) }));
    }

    /// Ink beside the place, any unit; `None` where the copy is not seen.
    pub(super) fn ink_beside(&mut self, copy: usize) -> Option<f64> {
        self.look(copy);
        let looked = self.known.get(&copy)?.as_ref()?;
        let sides = looked.sides.iter().flatten().flat_map(Plane::data);
        Some(sides.map(|&v| f64::from(v)).sum())
    }

    /// How unlike two copies are; `None` where one is not seen.
    pub(super) fn between(&mut self, a: usize, b: usize) -> Option<Unlike> {
        let key = [a.min(b), a.max(b)];
        if let Some(told) = self.told.get(&key) {
            return *told;
        }
        let told = self.compared(key);
        self.told.insert(key, told);
        told
    }

    fn compared(&mut self, [a, b]: [usize; 2]) -> Option<Unlike> {
        self.look(a);
        self.look(b);
        let (a, b) = (self.known.get(&a)?.as_ref()?, self.known.get(&b)?.as_ref()?);
        let both = a.sides.iter().zip(&b.sides);
        let beside: Vec<f64> = both.filter_map(|(p, q)| Some(unlikeness(p.as_ref()?, q.as_ref()?))).collect();
        let beside = beside.iter().sum::<f64>() / beside.len().max(1) as f64;
        Some(Unlike { there: unlikeness(&a.place, &b.place), beside })
    }

    /// How unlike a copy is to some others, commonly; of so many of them. `None` where none is seen.
    pub(super) fn against(&mut self, copy: usize, others: &[usize]) -> Option<Unlike> {
        let others = others.iter().filter(|&&c| c != copy).take(LOOKED_AT);
        let all: Vec<Unlike> = others.filter_map(|&c| self.between(copy, c)).collect();
        let usually = |of: fn(&Unlike) -> f64| median(all.iter().map(of).collect());
        (!all.is_empty()).then(|| Unlike { there: usually(|u| u.there), beside: usually(|u| u.beside) })
    }
}

/// Of a reading so many copies are looked at.
const LOOKED_AT: usize = 7;

/// Normalised cross-correlation of `b` shifted by so many samples with `a`, over what both show; -1 where that is nothing.
fn correlation(a: &Plane<u8>, b: &Plane<u8>, (dx, dy): (isize, isize)) -> f64 {
    let (w, h) = (a.width().min(b.width()) as isize, a.height().min(b.height()) as isize);
    let (mut n, mut sa, mut sb, mut aa, mut bb, mut ab) = (0.0f64, 0.0f64, 0.0f64, 0.0f64, 0.0f64, 0.0f64);
    for y in dy.max(0)..(h + dy).min(h) {
        for x in dx.max(0)..(w + dx).min(w) {
            let p = f64::from(a.at(x as usize, y as usize));
            let q = f64::from(b.at((x - dx) as usize, (y - dy) as usize));
            n += 1.0;
            sa += p;
            sb += q;
            aa += p * p;
            bb += q * q;
            ab += p * q;
        }
    }
    let (va, vb) = (aa * n - sa * sa, bb * n - sb * sb);
    if va <= 0.0 || vb <= 0.0 {
        // Bare paper in both is the same; in one it is not.
        return if va <= 0.0 && vb <= 0.0 && n > 0.0 { 1.0 } else { -1.0 };
    }
    (ab * n - sa * sb) / (va * vb).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bar(x: usize, strength: u8) -> Plane<u8> {
        let mut out = Plane::filled(30, 20, 0u8);
        for y in 3..17 {
            out.row_mut(y)[x..x + 5].fill(strength);
        }
        out
    }

    #[test]
    fn the_same_ink_is_like_itself_though_paler_or_shifted() {
        assert!(unlikeness(&bar(10, 220), &bar(10, 120)) < 1e-9);
        assert!(unlikeness(&bar(10, 220), &bar(11, 220)) < 1e-9);
        assert!(unlikeness(&bar(5, 220), &bar(20, 220)) > 0.8);
        let bare = Plane::filled(30, 20, 0u8);
        assert!(unlikeness(&bare, &bare) < 1e-9 && unlikeness(&bare, &bar(9, 200)) > 0.99);
    }
}
