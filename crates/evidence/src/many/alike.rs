//! Whether two copies agree at a place, told from their ink.
//!
//! Copies of a large set are laid on the first of their setting alone. Two that differ from it at a place were never laid
//! on each other; both lie on the first, and so their ink can be compared there.

use crate::standing::median;
use sheet::{Plane, Rect};
use std::collections::BTreeMap;

/// Ink of a copy in a box of the frame's photograph, as it lies there: all copies in the same box have the same size.
/// `None` where the copy does not show the place.
pub type InkAt<'i> = dyn Fn(usize, [f64; 4]) -> Option<Plane<u8>> + 'i;

/// How far one place may lie off the other, as a share of the height of its box: what laying leaves, and a sort that has
/// worked loose.
const REACH: f64 = 0.08;
/// Least reach, samples.
const LEAST_REACH: usize = 1;
/// Where nothing tells how unlike two pulls of one reading are, two agree if they are unlike by less than this share of
/// what either is unlike the frame.
const CLOSER: f64 = 0.5;
/// Two pulls of one sort are unlike by some hundredths: below, unlikeness says nothing.
const LEAST_UNLIKE: f64 = 0.02;
/// Beside a place so much is looked at on either side, in heights of its line: how well two copies print about there.
const BESIDE: f64 = 2.5;
/// Of a reading so many copies are looked at.
const LOOKED_AT: usize = 7;
/// A copy in doubt has a reading if it is so many times as near to it as to any other.
const PLAINLY: f64 = 2.0;

/// How unlike two impressions of a place are: 0 the same ink, 1 nothing in common; the least over small shifts.
fn unlikeness(a: &Plane<u8>, b: &Plane<u8>) -> f64 {
    let reach = ((REACH * a.height() as f64) as usize).max(LEAST_REACH) as isize;
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
    /// How unlike the frame copies are in which no difference was found, commonly; none of less than two.
    usual: Option<f64>,
    /// How unlike it those are that differ, commonly.
    differing: Option<f64>,
}

/// What one copy shows.
struct Looked {
    place: Plane<u8>,
    sides: [Option<Plane<u8>>; 2],
}

impl<'s> Seen<'s> {
    /// A place in a line that reaches over `line`.
    pub(super) fn new(place: Rect, line: Rect, ink: &'s InkAt<'s>) -> Self {
        let beside = BESIDE * line.h.max(place.h);
        let all = line.united(place);
        let sides = [place.x - beside, place.right()].map(|x| Rect::new(x, all.y, beside, all.h));
        Self { place, sides, ink, known: BTreeMap::new(), usual: None, differing: None }
    }

    fn look(&mut self, copy: usize) {
        let (place, sides, ink) = (self.place, self.sides, self.ink);
        let at = |r: Rect| ink(copy, [r.x, r.y, r.w, r.h]);
        self.known
            .entry(copy)
            .or_insert_with(|| at(place).map(|place| Looked { place, sides: sides.map(at) }));
    }

    /// How unlike two copies are at the place, and beside it; `None` where one is not seen.
    fn between(&mut self, a: usize, b: usize) -> Option<[f64; 2]> {
        self.look(a);
        self.look(b);
        let (a, b) = (self.known.get(&a)?.as_ref()?, self.known.get(&b)?.as_ref()?);
        let beside: Vec<f64> = a
            .sides
            .iter()
            .zip(&b.sides)
            .filter_map(|(p, q)| Some(unlikeness(p.as_ref()?, q.as_ref()?)))
            .collect();
        let mean = beside.iter().sum::<f64>() / beside.len().max(1) as f64;
        Some([unlikeness(&a.place, &b.place), mean])
    }

    /// How poorly a copy prints about the place, against the frame; the worst where it is not seen.
    pub(super) fn noise(&mut self, frame: usize, copy: usize) -> f64 {
        self.between(frame, copy).map_or(1.0, |[_, beside]| beside)
    }

    /// The reading of the frame: those of `like_frame`, in which no difference was found, that show what it shows; the
    /// others are in doubt, and go to `open`.
    pub(super) fn settled<T>(
        &mut self,
        frame: usize,
        like_frame: &mut Vec<usize>,
        differing: &[(usize, T)],
        open: &mut Vec<usize>,
    ) -> Vec<usize> {
        let mut unlike = |copies: &mut dyn Iterator<Item = usize>| -> Vec<f64> {
            copies.filter_map(|copy| self.between(frame, copy).map(|[place, _]| place)).collect()
        };
        let of_like = unlike(&mut like_frame.iter().copied());
        let of_differing = unlike(&mut differing.iter().map(|(copy, _)| *copy));
        self.usual = (of_like.len() > 1).then(|| median(of_like));
        self.differing = (!of_differing.is_empty()).then(|| median(of_differing));
        let mut reading = vec![frame];
        for &copy in like_frame.iter() {
            // Where the ink is lost altogether nothing was found to differ.
            let is_like = self
                .between(frame, copy)
                .zip(self.differing)
                .is_none_or(|(between, differing)| self.agree(between, differing));
            if is_like { reading.push(copy) } else { open.push(copy) }
        }
        reading
    }

    /// Whether two copies agree that are so unlike at the place and beside it, where either is so unlike the frame, or
    /// those commonly are that differ from it.
    fn agree(&self, [place, beside]: [f64; 2], from_frame: f64) -> bool {
        let limit = match self.usual {
            Some(usual) => (usual.max(beside).max(LEAST_UNLIKE) * from_frame).sqrt(),
            None => (CLOSER * from_frame).max((beside.max(LEAST_UNLIKE) * from_frame).sqrt()),
        };
        place < limit.max(LEAST_UNLIKE)
    }

    /// The reading, of those that differ from the frame, that a copy that differs has, too; `Some(None)` if it has one of
    /// its own, `None` where that cannot be seen.
    pub(super) fn nearest(&mut self, copy: usize, readings: &[Vec<usize>], frame: usize) -> Option<Option<usize>> {
        let [own, _] = self.between(frame, copy)?;
        let mut best: Option<(usize, [f64; 2], f64)> = None;
        for (i, reading) in readings.iter().enumerate() {
            let Some(between) = self.to_reading(copy, reading) else { continue };
            let theirs = reading.first().and_then(|&c| self.between(frame, c)).map_or(own, |[place, _]| place);
            if best.is_none_or(|(_, [least, _], _)| between[0] < least) {
                best = Some((i, between, theirs.min(own)));
            }
        }
        let Some((reading, between, from_frame)) = best else { return Some(None) };
        // What is nearer to another reading than to the frame, by more than it prints poorly, has that reading.
        Some(self.agree(between, from_frame).then_some(reading))
    }

    /// How unlike a copy is to those of a reading, commonly, at the place and beside it.
    fn to_reading(&mut self, copy: usize, reading: &[usize]) -> Option<[f64; 2]> {
        let others = reading.iter().filter(|&&c| c != copy).take(LOOKED_AT);
        let all: Vec<[f64; 2]> = others.filter_map(|&c| self.between(copy, c)).collect();
        (!all.is_empty()).then(|| [0, 1].map(|k| median(all.iter().map(|b| b[k]).collect())))
    }

    /// The reading that a copy in doubt plainly has, if its ink shows one.
    pub(super) fn plainly(&mut self, copy: usize, readings: &[Vec<usize>]) -> Option<usize> {
        let mut all: Vec<([f64; 2], usize)> =
            (0..readings.len()).filter_map(|i| Some((self.to_reading(copy, &readings[i])?, i))).collect();
        all.sort_by(|p, q| p.0[0].total_cmp(&q.0[0]));
        let ([nearest, beside], reading) = *all.first()?;
        let ([next, _], _) = *all.get(1)?;
        (nearest.max(LEAST_UNLIKE) * PLAINLY < next && self.agree([nearest, beside], next)).then_some(reading)
    }
}

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

    #[test]
    fn two_agree_if_they_are_as_like_as_those_that_agree_or_as_what_stands_beside() {
        let nothing = |_: usize, _: [f64; 4]| None;
        let place = Rect::new(0.0, 0.0, 10.0, 10.0);
        let mut seen = Seen::new(place, place, &nothing);
        assert!(seen.agree([0.2, 0.0], 0.5) && !seen.agree([0.3, 0.0], 0.5));
        seen.usual = Some(0.05);
        assert!(seen.agree([0.07, 0.0], 0.5) && !seen.agree([0.3, 0.0], 0.5));
        assert!(seen.agree([0.3, 0.25], 0.5));
        assert_eq!(seen.nearest(1, &[vec![2]], 0), None);
    }
}
