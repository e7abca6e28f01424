//! What is measured of a place where ink is lacking, in each impression.

use super::frame::OnFrame;
use super::lost::{Lost, Piece};
use super::torn::About;
use crate::block::alike::Alike;
use sheet::{Plane, Point, Rect};

/// How many things are measured of a place in one impression.
pub const SIGNS: usize = 42;

/// A place on the frame at which some impression lacks ink.
#[derive(Debug, Clone)]
pub(super) struct Place {
    pub(super) samples: Vec<(u32, u32)>,
    pub(super) bounds: Rect,
    /// Its middle, samples.
    pub(super) middle: Point,
    /// Along the strokes there.
    pub(super) along: Point,
    /// How much the strokes there run one way, 0 to 1.
    pub(super) one_way: f64,
    /// Its length along the strokes and its breadth across them, samples.
    pub(super) long: f64,
    pub(super) broad: f64,
    /// Share of what is about it that is ink where the wood is whole.
    pub(super) solid: f64,
    /// How far it is from the nearest edge of the cut, samples; below nothing outside.
    pub(super) from_edge: f64,
}

impl Place {
    /// The place of a piece.
    pub(super) fn of(piece: &Piece, frame: &OnFrame<'_>, lost: &Lost) -> Self {
        let n = piece.samples.len().max(1) as f64;
        let sum = piece
            .samples
            .iter()
            .fold(Point::new(0.0, 0.0), |s, &(x, y)| s + Point::new(f64::from(x) + 0.5, f64::from(y) + 0.5));
        let middle = sum * (1.0 / n);
        let (along, one_way) = strokes(&lost.whole, middle, ABOUT * frame.unit);
        let across = Point::new(-along.y, along.x);
        let extent = |d: Point| {
            let of = piece.samples.iter().map(|&(x, y)| {
                let p = Point::new(f64::from(x) + 0.5, f64::from(y) + 0.5) - middle;
                p.x * d.x + p.y * d.y
            });
            let (low, high) = of.fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(v), h.max(v)));
            high - low + 1.0
        };
        let b = frame.body;
        let from_edge =
            (middle.x - b.x).min(b.right() - middle.x).min(middle.y - b.y).min(b.bottom() - middle.y);
        Self {
            samples: piece.samples.clone(),
            bounds: piece.bounds,
            middle,
            along,
            one_way,
            long: extent(along),
            broad: extent(across),
            solid: mean_about(&lost.whole, middle, ABOUT * frame.unit),
            from_edge,
        }
    }
}

/// How far about a place strokes are asked for their way, in units.
const ABOUT: f64 = 1.0;

/// What an impression shows of a place.
#[derive(Debug, Clone, Copy)]
pub(super) struct Shown {
    /// Ink on the place: as it lies, and spread by as much as it may lie beside its place; 0 to 1.
    ink: f64,
    pub(super) spread: f64,
    /// Ink where the strokes go on at both ends, the less and the more of them; the same beside them.
    ends: [f64; 2],
    sides: [f64; 2],
    /// Ink on the wood close about it, 0 to 1.
    pub(super) beside: f64,
    /// How well the part is inked.
    pub(super) well: f64,
    /// Ink as it is on the photograph, as a share of what is solid there: on the place, and where it has least.
    raw: f64,
    least: f64,
    /// The same at both ends, the less of them.
    raw_ends: f64,
    /// Share of the wood close about it that is white.
    bare: f64,
    /// How steeply the ink falls at the ends of the place, the less steep of them: a cut edge is sharp, want of ink is not.
    step: f64,
    /// Share of the wood in the place that is quite without ink.
    clean: f64,
}

/// What all impressions show of a place.
pub(super) struct Seen {
    pub(super) shown: Vec<Option<Shown>>,
    /// Ink on the place, spread, of the impressions that can be asked, from the most.
    order: Vec<f64>,
}

impl Seen {
    /// Asks all impressions about a place.
    pub(super) fn of(place: &Place, frame: &OnFrame<'_>, even: &[Alike], lost: &Lost) -> Self {
        let box_asked = place.bounds.grown(2.0);
        let shown: Vec<Option<Shown>> = frame
            .all
            .iter()
            .zip(even)
            .zip(&lost.spread)
            .map(|((one, even), spread)| {
                one.on_photograph(box_asked, frame.unit_px)?;
                Some(shown(place, even, spread, &lost.whole))
            })
            .collect();
        let mut order: Vec<f64> = shown.iter().flatten().map(|s| s.spread).collect();
        order.sort_by(|p, q| q.total_cmp(p));
        Self { shown, order }
    }

    /// The signs of a place in one impression; `None` where it is not on its photograph. `about` is what the
    /// impression lacks about the place.
    pub(super) fn signs(
        &self,
        place: &Place,
        impression: usize,
        frame: &OnFrame<'_>,
        about: About,
    ) -> Option<[f32; SIGNS]> {
        let s = self.shown[impression]?;
        let n = self.order.len();
        let nth = |i: usize| self.order.get(i).copied().unwrap_or(0.0);
        let whole = self.order.iter().filter(|&&v| v > 0.6).count() as f64 / n.max(1) as f64;
        let gone = self.order.iter().filter(|&&v| v < 0.3).count() as f64 / n.max(1) as f64;
        // The best of the others, by which it is held.
        let best = self.shown.iter().flatten().max_by(|p, q| p.ink.total_cmp(&q.ink)).copied().unwrap_or(s);
        let log = |v: f64| (v + 0.5).ln();
        let root = f64::sqrt;
        let [e0, e1] = s.ends;
        let [b0, b1] = best.ends;
        Some(
            [
                s.ink,
                s.spread,
                e0,
                e1,
                s.sides[0],
                s.sides[1],
                s.beside,
                s.well,
                s.least,
                s.raw,
                s.raw_ends,
                s.bare,
                s.step,
                s.clean,
                best.step,
                best.clean,
                best.raw,
                best.bare,
                best.well,
                nth(0),
                nth(1),
                nth(n.saturating_sub(1)),
                nth(n.saturating_sub(2)),
                whole,
                gone,
                log(n as f64),
                b0,
                b1,
                best.sides[0],
                best.sides[1],
                best.ink,
                log(place.long),
                log(place.broad),
                log(place.samples.len() as f64),
                place.one_way,
                place.solid,
                (place.from_edge / frame.unit).clamp(-1.0, 3.0),
                log(frame.all[impression].coarse),
                log(frame.unit),
                about.lacks,
                root(about.grey),
                root(about.specks),
            ]
            .map(|v| v as f32),
        )
    }
}

fn shown(place: &Place, even: &Alike, spread: &Plane<u8>, whole: &Plane<u8>) -> Shown {
    let mean = |of: &Plane<u8>| {
        let sum: u32 = place.samples.iter().map(|&(x, y)| u32::from(of.at(x as usize, y as usize))).sum();
        f64::from(sum) / 255.0 / place.samples.len().max(1) as f64
    };
    let across = Point::new(-place.along.y, place.along.x);
    // Three steps beyond the edge of the place, each the most inked of three beside each other.
    let run = |d: Point, side: Point, half: f64| {
        let at = |step: f64| {
            let p = place.middle + d * (half + step);
            [-1.0, 0.0, 1.0].map(|k| value(&even.ink, p + side * k)).into_iter().fold(0.0, f64::max)
        };
        (at(1.5) + at(2.5) + at(3.5)) / 3.0
    };
    let line = |d: Point, half: f64| {
        let at = |step: f64| value(&even.ink, place.middle + d * (half + step));
        f64::midpoint(at(1.5), at(2.5))
    };
    let sorted = |a: f64, b: f64| [a.min(b), a.max(b)];
    let (l, b) = (place.long / 2.0, place.broad / 2.0);
    // A hole may be larger than a cell, which then tells nothing of the ink.
    let (solid, well) = even.about(place.bounds);
    let raw = |p: Point| value(&even.soft, p) / solid;
    let raw_end = |way: f64| {
        let at = |step: f64| raw(place.middle + place.along * (way * (l + step)));
        at(1.5).max(at(2.5)).max(at(3.5))
    };
    // Two samples outside the end of the place against two inside it.
    let fall = |way: f64| {
        let at = |step: f64| raw(place.middle + place.along * (way * (l + step)));
        at(1.5).max(at(2.5)) - at(-0.5).min(at(-1.5))
    };
    let share = |is: &dyn Fn(f64) -> bool| {
        let wood = place.samples.iter().filter(|&&(x, y)| whole.at(x as usize, y as usize) > WOOD);
        let (mut n, mut of) = (0.0, 0.0);
        for &(x, y) in wood {
            n += 1.0;
            of += f64::from(u8::from(is(f64::from(even.soft.at(x as usize, y as usize)) / 255.0 / solid)));
        }
        if n < 1.0 { 0.5 } else { of / n }
    };
    let (beside, bare) = beside(place, &even.ink, whole);
    Shown {
        ink: mean(&even.ink),
        spread: mean(spread),
        ends: sorted(run(place.along, across, l), run(place.along * -1.0, across, l)),
        sides: sorted(line(across, b), line(across * -1.0, b)),
        beside,
        well,
        raw: (mean(&even.soft) / solid).min(1.5),
        least: place
            .samples
            .iter()
            .map(|&(x, y)| f64::from(even.soft.at(x as usize, y as usize)) / 255.0 / solid)
            .fold(1.5, f64::min),
        raw_ends: raw_end(1.0).min(raw_end(-1.0)).min(1.5),
        bare,
        step: fall(1.0).min(fall(-1.0)).clamp(-1.5, 1.5),
        clean: share(&|v| v < CLEAN),
    }
}

/// Ink of an impression where the wood is whole about a place and not in it, and the share of that which is white.
fn beside(place: &Place, ink: &Plane<u8>, whole: &Plane<u8>) -> (f64, f64) {
    let r = place.bounds.grown(BESIDE);
    let inside = place.bounds.grown(1.0);
    let (mut n, mut sum, mut white) = (0.0, 0.0, 0.0);
    for y in r.y.max(0.0) as usize..(r.bottom() as usize).min(whole.height()) {
        for x in r.x.max(0.0) as usize..(r.right() as usize).min(whole.width()) {
            let is_wood = whole.at(x, y) > 160;
            if is_wood && !inside.holds(Point::new(x as f64 + 0.5, y as f64 + 0.5)) {
                n += 1.0;
                let v = ink.at(x, y);
                sum += f64::from(v) / 255.0;
                white += if v < WHITE { 1.0 } else { 0.0 };
            }
        }
    }
    if n < 4.0 { (0.5, 0.0) } else { (sum / n, white / n) }
}

/// Ink that is wood, of 255, and a share of solid ink that is as good as none.
const WOOD: u8 = 180;
const CLEAN: f64 = 0.2;

/// Ink that is none, of 255.
const WHITE: u8 = 80;

/// How far about the box of a place its neighbourhood reaches, samples.
const BESIDE: f64 = 7.0;

fn value(ink: &Plane<u8>, p: Point) -> f64 {
    let at = |v: f64, most: usize| (v.max(0.0) as usize).min(most.saturating_sub(1));
    f64::from(ink.at(at(p.x, ink.width()), at(p.y, ink.height()))) / 255.0
}

fn window(ink: &Plane<u8>, middle: Point, reach: f64) -> [std::ops::Range<usize>; 2] {
    let of = |v: f64, most: usize| {
        let last = most.saturating_sub(1);
        ((v - reach).max(1.0) as usize).min(last)..((v + reach) as usize + 1).min(last)
    };
    [of(middle.x, ink.width()), of(middle.y, ink.height())]
}

/// The way strokes run about a place, and how much they do so (structure tensor; J. Bigün and G. H. Granlund, *Proc. 1st
/// ICCV*, 1987, 433-438, from memory).
fn strokes(ink: &Plane<u8>, middle: Point, reach: f64) -> (Point, f64) {
    let [across, down] = window(ink, middle, reach);
    let (mut xx, mut xy, mut yy) = (1e-6, 0.0, 1e-6);
    for y in down {
        for x in across.clone() {
            let gx = f64::from(ink.at(x + 1, y)) - f64::from(ink.at(x - 1, y));
            let gy = f64::from(ink.at(x, y + 1)) - f64::from(ink.at(x, y - 1));
            xx += gx * gx;
            xy += gx * gy;
            yy += gy * gy;
        }
    }
    // The gradient stands across the strokes.
    let turn = 0.5 * (2.0 * xy).atan2(xx - yy) + std::f64::consts::FRAC_PI_2;
    let one_way = ((xx - yy).powi(2) + 4.0 * xy * xy).sqrt() / (xx + yy);
    (Point::new(turn.cos(), turn.sin()), one_way)
}

fn mean_about(ink: &Plane<u8>, middle: Point, reach: f64) -> f64 {
    let [across, down] = window(ink, middle, reach);
    let (mut n, mut sum) = (0u32, 0u32);
    for y in down {
        for &v in &ink.row(y)[across.clone()] {
            n += 1;
            sum += u32::from(v);
        }
    }
    f64::from(sum) / 255.0 / f64::from(n.max(1))
}
