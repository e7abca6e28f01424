//! Pieces that are one damage: a hole through several lines, and a crack across many.

use super::Weighed;
use super::signs::Place;
use crate::block::alike::Alike;
use sheet::{Plane, Point, Rect};

/// Pieces of one hole lie so near each other, units.
const NEAR: f64 = 0.5;
/// A crack joins at least so many pieces; from one to the next it is no farther than so many units, and no piece lies farther
/// from its line, or reaches farther across it.
const FEWEST: usize = 4;
const STEP: f64 = 3.0;
const BESIDE: f64 = 0.35;
const ACROSS: f64 = 1.2;

/// Of the wood between two pieces of one damage no more than this share stands: a hole and a crack take what they cross.
const STANDS: f64 = 0.5;
/// Ink that is wood where it is whole, and that stands, of 255.
const WOOD: u8 = 160;
const INK: u8 = 128;

/// The wood, and what impressions show of it.
#[derive(Clone, Copy)]
pub(super) struct Wood<'f> {
    pub(super) whole: &'f Plane<u8>,
    pub(super) even: &'f [Alike],
}

impl Wood<'_> {
    /// Whether wood stands between two places in an impression, and so parts them.
    fn parts(self, impression: usize, p: &Place, q: &Place) -> bool {
        let (from, way) = (p.middle, q.middle - p.middle);
        let steps = (2.0 * p.middle.distance(q.middle)) as usize;
        let (mut wood, mut stands) = (0u32, 0u32);
        for k in 0..steps {
            let at = from + way * (k as f64 / steps as f64);
            if p.bounds.grown(1.0).holds(at) || q.bounds.grown(1.0).holds(at) || at.x < 0.0 || at.y < 0.0 {
                continue;
            }
            let (x, y) = (at.x as usize, at.y as usize);
            if x < self.whole.width() && y < self.whole.height() && self.whole.at(x, y) > WOOD {
                wood += 1;
                stands += u32::from(self.even[impression].ink.at(x, y) > INK);
            }
        }
        f64::from(stands) > STANDS * f64::from(wood)
    }
}

/// Puts places together that are one damage: groups of numbers of `told`, the surest of each first.
pub(super) fn joined(
    told: &[usize],
    places: &[&Place],
    weighed: &[&Weighed],
    wood: Wood<'_>,
    unit: f64,
) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    let mut taken = vec![false; told.len()];
    // Cracks first: a line is seldom there by chance.
    for crack in cracks(places, weighed, wood, unit) {
        if crack.iter().all(|&i| !taken[i]) {
            for &i in &crack {
                taken[i] = true;
            }
            groups.push(crack);
        }
    }
    for start in 0..places.len() {
        if taken[start] {
            continue;
        }
        taken[start] = true;
        let mut group = vec![start];
        let mut next = 0;
        while next < group.len() {
            let from = group[next];
            for other in 0..places.len() {
                let is_near =
                    || places[from].bounds.grown(NEAR * unit).shared(places[other].bounds).is_some();
                if !taken[other]
                    && is_near()
                    && go_together(weighed[from], weighed[other])
                    && !wood.parts(weighed[from].by, places[from], places[other])
                {
                    taken[other] = true;
                    group.push(other);
                }
            }
            next += 1;
        }
        groups.push(group);
    }
    groups.iter().map(|g| g.iter().map(|&i| told[i]).collect()).collect()
}

/// Whether no impression shows one and lacks the other, by what is likelier than not.
fn go_together(a: &Weighed, b: &Weighed) -> bool {
    a.chances.iter().zip(&b.chances).all(|(p, q)| match (p, q) {
        (Some(p), Some(q)) => (*p > 0.5) == (*q > 0.5),
        _ => true,
    })
}

/// Pieces that lie along straight lines and go together, the longest line first.
fn cracks(places: &[&Place], weighed: &[&Weighed], wood: Wood<'_>, unit: f64) -> Vec<Vec<usize>> {
    let mut found: Vec<(f64, Vec<usize>)> = Vec::new();
    for i in 0..places.len() {
        for j in i + 1..places.len() {
            let (p, q) = (places[i].middle, places[j].middle);
            let long = p.distance(q);
            if long > STEP * unit || long < 0.5 * unit || !go_together(weighed[i], weighed[j]) {
                continue;
            }
            let way = (q - p) * (1.0 / long);
            if let Some(line) = along(places, weighed, wood, (i, way), unit) {
                found.push(line);
            }
        }
    }
    found.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    let mut out: Vec<Vec<usize>> = Vec::new();
    for (_, line) in found {
        if line.iter().all(|i| out.iter().all(|o| !o.contains(i))) {
            out.push(line);
        }
    }
    out
}

/// The pieces along a line through one of them, without a break, and its length.
fn along(
    places: &[&Place],
    weighed: &[&Weighed],
    wood: Wood<'_>,
    (start, way): (usize, Point),
    unit: f64,
) -> Option<(f64, Vec<usize>)> {
    let from = places[start].middle;
    let mut on: Vec<(f64, usize)> = (0..places.len())
        .filter(|&k| go_together(weighed[start], weighed[k]))
        .filter_map(|k| {
            let d = places[k].middle - from;
            let beside = (d.x * -way.y + d.y * way.x).abs();
            (beside <= BESIDE * unit && across(places[k].bounds, way) <= ACROSS * unit)
                .then_some((d.x * way.x + d.y * way.y, k))
        })
        .collect();
    on.sort_by(|a, b| a.0.total_cmp(&b.0));
    let own = on.iter().position(|o| o.1 == start)?;
    let is_step = |a: &(f64, usize), b: &(f64, usize)| {
        b.0 - a.0 <= STEP * unit && !wood.parts(weighed[start].by, places[a.1], places[b.1])
    };
    let first = (0..own).rev().take_while(|&k| is_step(&on[k], &on[k + 1])).last().unwrap_or(own);
    let last = (own + 1..on.len()).take_while(|&k| is_step(&on[k - 1], &on[k])).last().unwrap_or(own);
    let line = &on[first..=last];
    (line.len() >= FEWEST).then(|| (line[line.len() - 1].0 - line[0].0, line.iter().map(|o| o.1).collect()))
}

/// How far a box reaches across a way.
fn across(b: Rect, way: Point) -> f64 {
    (b.w * way.y).abs() + (b.h * way.x).abs()
}
