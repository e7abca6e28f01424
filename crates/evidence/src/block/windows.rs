//! Small windows of a cut, each looked for on the other impression where the paper's motion puts it.

use super::Cut;
use super::alike::{Alike, alike};
use super::drift::{self, Beside, beside, cells};
use super::folded::off_folds;
use super::sight::{Sight, sights};
use register::{Followed, Laid, Motion, Reach, follow, overlay};
use sheet::{Plane, Point, Rect};

/// Side of a window and the distance between two, in units of the placement.
const SIDE: f64 = 2.0;
const STEP: f64 = 1.0;
/// How far from where the motion puts it a window is looked for, in its sides.
const REACH: f64 = 0.35;
/// Width of the neighbourhood that tells the paper's motion, and the distance from which others share no ink with a window,
/// in its sides.
const WIDTH: f64 = 3.0;
const APART: f64 = 1.01;
/// A window of strokes nearer to a crease than this, in its sides, lies astride it.
const ASTRIDE: f64 = 0.6;
/// Correlation from which a window's place is believed.
const FOUND: f32 = 0.5;

/// A window of the first, and what was found of it on the second. Pixels of the first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Window {
    /// Its middle.
    pub(super) at: Point,
    /// Contrast (standard deviation) of ink in both, 0 to 1.
    pub(super) contrast: [f64; 2],
    /// Correlation where the motion of all others puts it, and the best within reach.
    pub(super) score: [f32; 2],
    /// Where it lies against the motion that the windows about it tell.
    pub(super) residual: Option<Point>,
    /// Standard deviation of its place along x and y.
    pub(super) sd: [f64; 2],
}

/// All windows of a cut that hold ink.
pub(super) struct Windows {
    /// Side of a window, and distance between two, pixels of the first.
    pub(super) side: f64,
    pub(super) step: f64,
    pub(super) all: Vec<Window>,
    /// How strokes lie beside each other, measured across them, in windows of their own grid.
    pub(super) beside: Vec<Beside>,
    /// What is seen of these, by themselves.
    pub(super) sights: Vec<Sight>,
    /// The second on the frame of the first.
    pub(super) over: Plane<u8>,
}

/// All windows of the first cut that hold ink.
pub(super) fn windows(a: &Cut, b: &Cut, laid: &Laid) -> Windows {
    let side = (SIDE * a.unit()).round().max(8.0);
    let step = STEP * a.unit();
    let count = |long: f64| ((long - side) / step).floor().max(0.0) as usize + 1;
    let places = (0..count(a.body.h)).flat_map(|j| (0..count(a.body.w)).map(move |i| (i, j)));
    let boxes: Vec<Rect> = places
        .map(|(i, j)| Rect::new(a.body.x + i as f64 * step, a.body.y + j as f64 * step, side, side))
        .collect();
    let over = over(a, b, laid);
    // Solid blacks print speckled, no two pulls with the same specks, and grey where ink was short; neither is of the wood.
    // Of real impressions of one block strokes made alike are alike to 0.91 and not 0.84 (median of 53 pairs).
    let both = alike(&[a.ink.full(), &over], a.unit(), SOFTNESS);
    let both = [&both[0], &both[1]];
    let cells = cells(&both[0].ink, &both[1].ink, a.body, a.unit());
    // What lies astride a fold shows two parts of the paper, and nothing of how strokes lie on each other.
    let astride = ASTRIDE * drift::SIDE * a.unit();
    let creases = laid.map.paper.creases();
    let mut beside = cells.map_or_else(Vec::new, |c| beside(&c));
    beside.retain(|w| creases.iter().all(|c| c.beyond(w.at).abs() > astride));
    let beside = off_folds(beside);
    let sights = sights(&beside, both, laid.scale.min(1.0), a.unit());
    let all = seen(a, b, laid, &boxes, side, both);
    Windows { side, step, all, beside, sights, over }
}

/// The second on the frame of the first; where that is the coarser photograph, the second is reduced first, or single pixels of it
/// would stand for their neighbours.
fn over(a: &Cut, b: &Cut, laid: &Laid) -> Plane<u8> {
    let full = a.ink.full();
    let level = ((laid.scale.log2() + 0.25).max(0.0) as usize).min(b.ink.depth() - 1);
    let unit = f64::from(1u32 << level);
    overlay(&laid.map, b.ink.level(level), unit, (full.width(), full.height()), 1.0, 0u8)
}

fn is_sound(f: &Followed) -> bool {
    f.score >= FOUND && !f.on_edge && f.sd.iter().all(|s| s.is_finite())
}

/// What is found of windows, those that hold ink; `both` inks are made alike, on the frame of the first.
fn seen(a: &Cut, b: &Cut, laid: &Laid, boxes: &[Rect], side: f64, both: [&Alike; 2]) -> Vec<Window> {
    let reach = REACH * side;
    let found = follow(&a.ink, &b.ink, laid, boxes, Reach { x: reach, y: reach });
    let prints = found.iter().flatten().filter(|f| is_sound(f)).map(|f| (f.at, f.shift, f.sd));
    let motion = Motion::of_prints(prints, laid.map.paper.creases(), WIDTH * side);
    let asked: Vec<Point> = found.iter().flatten().map(|f| f.at).collect();
    let mut told = motion.without(&asked, APART * side).into_iter();
    let mut out = Vec::new();
    for (place, found) in boxes.iter().zip(&found) {
        let Some(f) = found else { continue };
        let told = told.next().flatten();
        out.push(Window {
            at: f.at,
            contrast: both.map(|one| contrast(&one.ink, *place)),
            score: [correlation(&both[0].ink, &both[1].ink, *place), f.score],
            residual: told.filter(|_| is_sound(f)).map(|t| f.shift - t.shift),
            sd: f.sd,
        });
    }
    out
}

/// From nothing to all over, about the edge of ink, goes so much of solid ink: as soft as photographs are.
const SOFTNESS: f64 = 1.0;

fn pixels(plane: &Plane<u8>, place: Rect) -> impl Iterator<Item = (usize, usize)> {
    let (right, bottom) =
        ((place.right() as usize).min(plane.width()), (place.bottom() as usize).min(plane.height()));
    let left = place.x.max(0.0) as usize;
    (place.y.max(0.0) as usize..bottom).flat_map(move |y| (left..right).map(move |x| (x, y)))
}

/// Standard deviation of ink in a box, 0 to 1.
pub(super) fn contrast(plane: &Plane<u8>, place: Rect) -> f64 {
    let (mut n, mut sum, mut squares) = (0.0f64, 0.0, 0.0);
    for (x, y) in pixels(plane, place) {
        let v = f64::from(plane.at(x, y)) / 255.0;
        n += 1.0;
        sum += v;
        squares += v * v;
    }
    let mean = sum / n.max(1.0);
    (squares / n.max(1.0) - mean * mean).max(0.0).sqrt()
}

/// Correlation of two planes of one size in a box; 0 where either is even there.
fn correlation(a: &Plane<u8>, b: &Plane<u8>, place: Rect) -> f32 {
    let (mut n, mut sa, mut sb, mut aa, mut bb, mut ab) = (0.0f64, 0.0, 0.0, 0.0, 0.0, 0.0);
    for (x, y) in pixels(a, place) {
        let (p, q) = (f64::from(a.at(x, y)), f64::from(b.at(x, y)));
        n += 1.0;
        sa += p;
        sb += q;
        aa += p * p;
        bb += q * q;
        ab += p * q;
    }
    let (va, vb) = (aa - sa * sa / n, bb - sb * sb / n);
    if va < n || vb < n { 0.0 } else { ((ab - sa * sb / n) / (va * vb).sqrt()) as f32 }
}
