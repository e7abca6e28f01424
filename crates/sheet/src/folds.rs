//! Folds: straight lines across the paper where the light falls otherwise.
//!
//! A fold hides a strip of what was printed and is worn; what differs there is the paper's doing, not the printer's.
//! Its line runs straight over a great part of the sheet, between the letters as well as through them, so that it is
//! seen by adding up the paper's light along straight lines (J. Radon, "Über die Bestimmung von Funktionen durch ihre
//! Integralwerte längs gewisser Mannigfaltigkeiten", Berichte der Sächsischen Akademie 69 (1917), 262-277).

use crate::{BarePaper, Plane, Point, Rect};

/// A fold as the straight line it makes on a photograph.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fold {
    /// Where it comes onto the page, pixels.
    pub from: Point,
    /// Where it leaves it.
    pub to: Point,
    /// How far its light is from that of other lines of its length, in their standard deviations; dark ones too.
    pub strength: f64,
}

impl Fold {
    /// From its line, drawn on without end, to a point; the unit of its ends.
    pub fn distance(&self, p: Point) -> f64 {
        self.beyond(p).abs()
    }

    /// From the nearest of these to a point, the same; infinite where there is none.
    pub fn nearest(folds: &[Self], p: Point) -> f64 {
        folds.iter().map(|f| f.distance(p)).fold(f64::INFINITY, f64::min)
    }

    /// Whether its line, drawn on without end, runs through a box.
    pub fn crosses(&self, r: Rect) -> bool {
        let sides = r.corners().map(|p| self.beyond(p));
        sides.iter().any(|&s| s <= 0.0) && sides.iter().any(|&s| s >= 0.0)
    }

    /// The same as [`Self::distance`], negative on one side.
    pub fn beyond(&self, p: Point) -> f64 {
        let along = self.to - self.from;
        let off = p - self.from;
        (along.x * off.y - along.y * off.x) / along.length().max(1e-9)
    }
}

/// Light that differs by less than this many standard deviations is grain.
const GRAIN: f32 = 1.5;
/// Directions looked in, over half a turn.
const DIRECTIONS: usize = 360;
/// One in so many samples is counted for how many lie on a line.
const COUNTED: usize = 13;
/// Fewest samples on a line, as a share of the longer side: a fold crosses most of a page.
const SHORTEST: f64 = 0.25;
/// Standard deviations from which a line is a fold. Paper without one stays below 15, chain lines may come to 50.
const STRONGEST_GRAIN: f64 = 25.0;
/// What lies within so many directions and samples of a fold is the same fold.
const SAME_DIRECTIONS: usize = 8;
const SAME_SAMPLES: usize = 12;
/// Lines looked at, strongest first.
const LINES: usize = 16;
/// Chain lines of laid paper: more than so many lines that run the same way, to so many directions, none of which has
/// less than half the strength of the strongest.
const FEWEST_CHAIN_LINES: usize = 4;
const SAME_WAY: usize = 4;

/// The folds of a photograph, strongest first, from its bare paper; `page` is the box of the page, pixels.
pub fn folds(paper: &BarePaper, page: Rect) -> Vec<Fold> {
    let Some(relief) = paper.relief() else { return Vec::new() };
    let lines = lines(paper, &relief);
    let is_chain_line = |line: &Line| {
        let like = |l: &&Line| {
            let turned = l.direction.abs_diff(line.direction);
            turned.min(DIRECTIONS - turned) <= SAME_WAY && l.strength >= 0.5 * line.strength
        };
        lines.iter().filter(like).count() > FEWEST_CHAIN_LINES
    };
    let k = paper.reduction() as f64;
    let page = page.scaled(1.0 / k);
    lines
        .iter()
        .filter(|l| !is_chain_line(l))
        .filter_map(|l| {
            let (from, to) = l.ends(page)?;
            Some(Fold { from: from * k, to: to * k, strength: l.strength })
        })
        .collect()
}

/// A line by its direction and its distance from the middle of the picture.
struct Line {
    direction: usize,
    off: f64,
    middle: Point,
    strength: f64,
}

/// The lines along which the paper's light differs most, strongest first.
fn lines(paper: &BarePaper, relief: &Plane<f32>) -> Vec<Line> {
    let (w, h) = (relief.width(), relief.height());
    let middle = Point::new(w as f64 / 2.0, h as f64 / 2.0);
    let reach = middle.length() as usize + 2;
    let (mut votes, mut counted) = (Vec::new(), Vec::new());
    for y in 0..h {
        for x in 0..w {
            let at = [(2 * x + 1) as i32 - w as i32, (2 * y + 1) as i32 - h as i32];
            let v = relief.at(x, y);
            if v.abs() > GRAIN {
                votes.push((at, v));
            }
            if (y * w + x) % COUNTED == 0 && paper.is_bare(x, y) {
                counted.push((at, COUNTED as f32));
            }
        }
    }
    let (votes, counted) = (Votes::of(&votes), Votes::of(&counted));
    let shortest = SHORTEST * w.max(h) as f64;
    let mut strength = Plane::filled(2 * reach, DIRECTIONS, 0.0f32);
    let mut count = Vec::new();
    for direction in 0..DIRECTIONS {
        let sum = votes.across(direction, reach);
        // In the next direction lines are about as long.
        if direction % 2 == 0 {
            count = counted.across(direction, reach);
        }
        for k in 3..2 * reach - 3 {
            // Few are counted on any one line: its neighbours are about as long.
            let n = count[k - 3..=k + 3].iter().sum::<f32>() / 7.0;
            if f64::from(n) > shortest {
                strength.row_mut(direction)[k] = sum[k].abs() / n.sqrt();
            }
        }
    }
    let mut lines = Vec::new();
    while lines.len() < LINES {
        let best = strength.data().iter().enumerate().max_by(|p, q| p.1.total_cmp(q.1));
        let Some((i, s)) = best.map(|(i, &s)| (i, f64::from(s))).filter(|b| b.1 >= STRONGEST_GRAIN) else {
            break;
        };
        let (direction, k) = (i / (2 * reach), i % (2 * reach));
        lines.push(Line { direction, off: k as f64 + 0.5 - reach as f64, middle, strength: s });
        clear(&mut strength, direction, k);
    }
    lines
}
/// Samples that vote for the lines they lie on.
struct Votes {
    /// From the middle of the picture, in parts of a sample.
    x: Vec<i16>,
    y: Vec<i16>,
    value: Vec<f32>,
}

/// Parts of a sample: the longer side, halved, in such parts stays below 2^15.
const PARTS: i32 = 32;

impl Votes {
    /// From places and values, places in half samples from the middle.
    fn of(all: &[([i32; 2], f32)]) -> Self {
        // Neighbours lie on the same lines, and adding to a sum that was just added to is slow: far ones follow each
        // other.
        const APART: usize = 64;
        let order = || (0..APART).flat_map(|from| all.iter().skip(from).step_by(APART));
        let place = |k: usize| order().map(|(at, _)| (at[k] * PARTS / 2) as i16).collect();
        Self { x: place(0), y: place(1), value: order().map(|&(_, v)| v).collect() }
    }

    /// Their sums over the lines of one direction, by the lines' distance from the middle, from -`reach`.
    fn across(&self, direction: usize, reach: usize) -> Vec<f32> {
        // The upper half of a product with this is half of what it is times one.
        const ONE: f64 = 32_767.0;
        // Twice the reach is less than this: places are below 2^15 parts. With a power of two none need be checked.
        const SUMS: usize = 4096;
        let (sin, cos) = (std::f64::consts::PI * direction as f64 / DIRECTIONS as f64).sin_cos();
        let (sin, cos) = ((sin * ONE) as i16, (cos * ONE) as i16);
        let times = |p: i16, q: i16| ((i32::from(p) * i32::from(q)) >> 16) as i16;
        let mut sum = [0.0f32; SUMS];
        let mut room = [0i16; 256];
        let n = room.len();
        for ((x, y), values) in self.x.chunks(n).zip(self.y.chunks(n)).zip(self.value.chunks(n)) {
            for ((to, &x), &y) in room.iter_mut().zip(x).zip(y) {
                *to = (times(x, cos) + times(y, sin)) >> (PARTS / 2).ilog2();
            }
            for (&k, v) in room.iter().zip(values) {
                sum[(reach as i32 + i32::from(k)) as usize % SUMS] += v;
            }
        }
        sum[..2 * reach].to_vec()
    }
}

/// Clears what is the same line as one that was found. Half a turn on, a line lies on the other side of the middle.
fn clear(strength: &mut Plane<f32>, direction: usize, k: usize) {
    let breadth = strength.width();
    for d in 0..=2 * SAME_DIRECTIONS {
        let turned = direction + DIRECTIONS + d - SAME_DIRECTIONS;
        let k = if (DIRECTIONS..2 * DIRECTIONS).contains(&turned) { k } else { breadth - 1 - k };
        let (from, to) = (k.saturating_sub(SAME_SAMPLES), (k + SAME_SAMPLES + 1).min(breadth));
        strength.row_mut(turned % DIRECTIONS)[from..to].fill(0.0);
    }
}

impl Line {
    /// Where it comes into a box and leaves it; `None` where it misses it.
    fn ends(&self, page: Rect) -> Option<(Point, Point)> {
        let (sin, cos) = (std::f64::consts::PI * self.direction as f64 / DIRECTIONS as f64).sin_cos();
        let foot = self.middle + Point::new(cos, sin) * self.off;
        let along = Point::new(-sin, cos);
        let (mut from, mut to) = (f64::NEG_INFINITY, f64::INFINITY);
        for (p, d, low, high) in
            [(foot.x, along.x, page.x, page.right()), (foot.y, along.y, page.y, page.bottom())]
        {
            if d.abs() < 1e-9 {
                if p < low || p > high {
                    return None;
                }
                continue;
            }
            let (t, u) = ((low - p) / d, (high - p) / d);
            from = from.max(t.min(u));
            to = to.min(t.max(u));
        }
        (from < to).then(|| (foot + along * from, foot + along * to))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Paper with grain, and a line a little darker through `at`, `degrees` from level.
    fn paper(darker: f64, at: Point, degrees: f64) -> Plane<u8> {
        let (sin, cos) = degrees.to_radians().sin_cos();
        let mut seed = 7u32;
        let mut p = Plane::filled(600, 800, 0u8);
        for y in 0..800 {
            for x in 0..600 {
                seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                let grain = f64::from(seed >> 24) / 32.0;
                let d = (x as f64 - at.x) * sin - (y as f64 - at.y) * cos;
                let fold = if d.abs() < 0.8 { darker } else { 0.0 };
                p.row_mut(y)[x] = (200.0 + grain - fold) as u8;
            }
        }
        p
    }

    fn found(p: &Plane<u8>) -> Vec<Fold> {
        let ink = crate::ink(p);
        folds(&BarePaper::of(p, &ink), ink.page)
    }

    #[test]
    fn a_fold_lies_where_it_was_made() {
        for degrees in [0.0, 31.0, 90.0, 147.5] {
            let at = Point::new(310.0, 380.0);
            let all = found(&paper(8.0, at, degrees));
            assert_eq!(all.len(), 1, "{degrees}: {all:?}");
            assert!(all[0].distance(at) < 2.0, "{degrees}: {all:?}");
            assert!(all[0].crosses(Rect::new(at.x - 9.0, at.y - 9.0, 18.0, 18.0)));
            let along = all[0].to - all[0].from;
            let turned = (along.y.atan2(along.x).to_degrees() - degrees).rem_euclid(180.0);
            assert!(turned.min(180.0 - turned) < 1.0, "{degrees}: {all:?}");
        }
    }

    #[test]
    fn grain_is_no_fold() {
        assert!(found(&paper(0.0, Point::new(0.0, 0.0), 0.0)).is_empty());
        assert!(found(&Plane::filled(30, 9, 200)).is_empty());
    }

    #[test]
    fn chain_lines_are_no_folds() {
        let mut p = paper(0.0, Point::new(0.0, 0.0), 0.0);
        for y in 0..800 {
            for x in (40..600).step_by(70) {
                p.row_mut(y)[x..=x + 1].iter_mut().for_each(|v| *v -= 8);
            }
        }
        assert!(found(&p).is_empty(), "{:?}", found(&p));
    }
}
