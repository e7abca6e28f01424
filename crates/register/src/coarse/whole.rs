//! A placement by the whole of what is seen, for what is too small or too badly inked to have places to hold on to.
//!
//! Both are seen so small that strokes become shades. The second is tried at every size, turn and shift that two
//! photographs of one cut, each cropped to it, may have.

use super::Coarse;
use crate::Pyramid;
use rayon::prelude::*;
use sheet::{Homography, Plane, Point};

/// Longer side of the first, samples: a frame is a sample or two wide, and a figure a few.
const SIDE: f64 = 44.0;
/// Sizes of the second against that at which both crops are equally large.
const SIZES: [f64; 9] = [0.82, 0.87, 0.91, 0.955, 1.0, 1.05, 1.1, 1.15, 1.22];
/// Turns, degrees: a cut stands askew by no more (common practice, no source).
const TURNS: [f64; 5] = [-4.0, -2.0, 0.0, 2.0, 4.0];
/// Shifts to every side, as a share of the longer side.
const SHIFT: f64 = 0.2;
/// The same, where only the quarter by which the second is turned is asked for.
const ROUGH_SIZES: [f64; 3] = [0.92, 1.0, 1.08];
const ROUGH_SHIFT: f64 = 0.1;
/// Correlation below which nothing is shared.
const LEAST: f64 = 0.3;
/// Placements handed on.
const KEPT: usize = 3;
/// Two placements are one if they differ by no more, samples.
const ONE: f64 = 2.5;

/// A trial and how well the two agree in it.
#[derive(Clone, Copy)]
struct Trial {
    /// From samples of the first to samples of the second.
    map: Homography,
    correlation: f64,
}

/// The placements at which the two look most alike, the best first.
pub(crate) fn whole(a: &Pyramid, b: &Pyramid) -> Vec<Coarse> {
    let (trials, [unit_a, unit_b]) = trials(a, b);
    let full =
        |t: &Trial| Homography::scaling(unit_b).after(&t.map).after(&Homography::scaling(1.0 / unit_a));
    trials.iter().map(|t| Coarse { map: full(t), agreeing: 0 }).collect()
}

/// Two crops laid on each other as wholes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Whole {
    /// From pixels of the first to pixels of the second.
    pub map: Homography,
    /// Correlation of their shades, 0 to 1.
    pub alike: f64,
}

/// The size, turn and shift at which two crops are most alike as wholes, seen so small that strokes become shades: one design
/// keeps its masses, whoever cut it. `None` where they are no more alike than what shares nothing.
pub fn by_whole(a: &Pyramid, b: &Pyramid) -> Option<Whole> {
    let (trials, [unit_a, unit_b]) = trials(a, b);
    let t = trials.first()?;
    let map = Homography::scaling(unit_b).after(&t.map).after(&Homography::scaling(1.0 / unit_a));
    Some(Whole { map, alike: t.correlation })
}

/// How alike two crops are as wholes with the second turned by no, one, two and three quarters clockwise: a correlation from
/// few sizes and shifts, enough to tell which way up it was printed or photographed. 0 where it is that of what shares nothing.
pub fn by_quarters(a: &Pyramid, b: &Pyramid) -> [f64; 4] {
    let [(small_a, _), (small_b, _)] = [a, b].map(small);
    let middle = |p: &Plane<f32>| Point::new(p.width() as f64 / 2.0, p.height() as f64 / 2.0);
    let of_a = middle(&small_a);
    let reach = (ROUGH_SHIFT * SIDE).round() as i32;
    let shifts: Vec<Point> = (-reach..=reach)
        .flat_map(|dy| (-reach..=reach).map(move |dx| Point::new(f64::from(dx), f64::from(dy))))
        .collect();
    std::array::from_fn(|quarters| {
        let turned = small_b.turned(quarters as u8);
        let of_b = middle(&turned);
        let alike = ROUGH_SIZES.iter().flat_map(|size| {
            let rows = 0..small_a.height();
            let columns = 0..small_a.width();
            let places: Vec<Point> = rows
                .flat_map(|y| columns.clone().map(move |x| Point::new(x as f64 + 0.5, y as f64 + 0.5)))
                .map(|p| (p - of_a) * *size + of_b)
                .collect();
            let of: Vec<f64> =
                shifts.iter().filter_map(|by| correlation(&small_a, &turned, &places, *by)).collect();
            of
        });
        alike.fold(0.0, f64::max)
    })
}

/// The best trials that differ, and the pixels of a sample of either.
fn trials(a: &Pyramid, b: &Pyramid) -> (Vec<Trial>, [f64; 2]) {
    let [(small_a, unit_a), (small_b, unit_b)] = [a, b].map(small);
    let middle = |p: &Plane<f32>| Point::new(p.width() as f64 / 2.0, p.height() as f64 / 2.0);
    let (of_a, of_b) = (middle(&small_a), middle(&small_b));
    let hypotheses: Vec<(f64, f64)> =
        SIZES.iter().flat_map(|&s| TURNS.iter().map(move |&t| (s, t))).collect();
    let reach = (SHIFT * SIDE).round() as i32;
    let mut trials: Vec<Trial> = hypotheses
        .into_par_iter()
        .flat_map_iter(|(size, turn)| {
            let (small_a, small_b) = (&small_a, &small_b);
            let about_middle = Homography::similarity(size, turn.to_radians(), Point::new(0.0, 0.0))
                .after(&Homography::similarity(1.0, 0.0, of_a * -1.0));
            let rows = 0..small_a.height();
            let places = rows.flat_map(|y| (0..small_a.width()).map(move |x| (x, y)));
            let at =
                |(x, y): (usize, usize)| about_middle.map(Point::new(x as f64 + 0.5, y as f64 + 0.5)) + of_b;
            let places: Vec<Point> = places.map(at).collect();
            let shifts = (-reach..=reach).flat_map(move |dy| (-reach..=reach).map(move |dx| (dx, dy)));
            shifts.filter_map(move |(dx, dy)| {
                let by = Point::new(f64::from(dx), f64::from(dy));
                let correlation = correlation(small_a, small_b, &places, by)?;
                let map = Homography::similarity(1.0, 0.0, of_b + by).after(&about_middle);
                (correlation >= LEAST).then_some(Trial { map, correlation })
            })
        })
        .collect();
    trials.sort_by(|p, q| q.correlation.total_cmp(&p.correlation));
    let corners = [Point::new(0.0, 0.0), of_a * 2.0];
    let is_one = |p: &Trial, q: &Trial| corners.iter().all(|c| p.map.map(*c).distance(q.map.map(*c)) < ONE);
    let mut kept: Vec<Trial> = Vec::new();
    for trial in trials {
        if kept.len() == KEPT {
            break;
        }
        if !kept.iter().any(|k| is_one(k, &trial)) {
            kept.push(trial);
        }
    }
    (kept, [unit_a, unit_b])
}

/// A photograph's ink seen so small that its longer side is [`SIDE`] samples, and the pixels of one of them.
fn small(ink: &Pyramid) -> (Plane<f32>, f64) {
    let full = ink.full();
    let unit = full.width().max(full.height()) as f64 / SIDE;
    let level = ink.level(nearest_below(unit, ink.depth()));
    let step = full.width() as f64 / level.width() as f64;
    let [width, height] = [full.width(), full.height()].map(|n| ((n as f64 / unit).round() as usize).max(1));
    // Four samples of the level to one, so that strokes become shades.
    let at = |x: usize, y: usize| {
        let of = |i: f64, j: f64| level.sample((x as f64 + i) * unit / step, (y as f64 + j) * unit / step);
        (of(0.25, 0.25) + of(0.75, 0.25) + of(0.25, 0.75) + of(0.75, 0.75)) / 4.0
    };
    let data = (0..height).flat_map(|y| (0..width).map(move |x| (x, y))).map(|(x, y)| at(x, y)).collect();
    (Plane::from_vec(width, height, data).unwrap_or_else(|| Plane::filled(width, height, 0.0)), unit)
}

/// The coarsest level whose samples are no more than half of `unit` pixels.
fn nearest_below(unit: f64, depth: usize) -> usize {
    ((unit / 2.0).max(1.0).log2().floor() as usize).min(depth - 1)
}

/// How much the two are alike where the second covers the first, whose samples lie on it at `places`, all shifted; `None`
/// where that is less than half of it, or one shows nothing there.
fn correlation(a: &Plane<f32>, b: &Plane<f32>, places: &[Point], by: Point) -> Option<f64> {
    let (mut n, mut sa, mut sb, mut aa, mut bb, mut ab) = (0.0, 0.0, 0.0, 0.0, 0.0, 0.0);
    for (&p, &place) in a.data().iter().zip(places) {
        let at = place + by;
        if !b.holds(at) {
            continue;
        }
        let (p, q) = (f64::from(p), f64::from(b.at(at.x as usize, at.y as usize)));
        n += 1.0;
        sa += p;
        sb += q;
        aa += p * p;
        bb += q * q;
        ab += p * q;
    }
    if 2.0 * n < a.data().len() as f64 {
        return None;
    }
    let (of_a, of_b) = (aa - sa * sa / n, bb - sb * sb / n);
    (of_a > 1.0 && of_b > 1.0).then(|| (ab - sa * sb / n) / (of_a * of_b).sqrt())
}
