//! Folds: straight lines across the paper where the light falls otherwise.
//!
//! A fold hides a strip of what was printed and is worn; what differs there is the paper's doing, not the printer's.
//! Its line runs straight over a great part of the sheet, between the letters as well as through them, so that it is
//! seen by adding up the paper's light along straight lines (J. Radon, "Über die Bestimmung von Funktionen durch ihre
//! Integralwerte längs gewisser Mannigfaltigkeiten", Berichte der Sächsischen Akademie 69 (1917), 262-277).

mod sums;

use crate::{BarePaper, Plane, Point, Rect};
use sums::Sums;

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
/// Fewest samples on a line, as a share of the longer side: a fold crosses most of a page.
const SHORTEST: f64 = 0.25;
/// Standard deviations from which a line is a fold. Paper without one stays below 15, chain lines may come to 50.
const STRONGEST_GRAIN: f64 = 25.0;
/// What lies within so many directions and samples of a fold is the same fold.
const SAME_DIRECTIONS: usize = 8;
const SAME_SAMPLES: f64 = 12.0;
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

/// Parts of a standard deviation in which light is summed: with 4 of them at most over 900 samples it stays below 2^15.
const PARTS: f32 = 8.0;
/// In the next few directions lines are about as long: one in so many is counted.
const COUNTED: usize = 4;

/// The lines along which the paper's light differs most, strongest first.
fn lines(paper: &BarePaper, relief: &Plane<f32>) -> Vec<Line> {
    let light = relief.map(|v| if v.abs() > GRAIN { (v * PARTS) as i16 } else { 0 });
    let bare = paper.mask().map(|b| i16::from(b > 0));
    let (down, across) = rayon::join(
        || Strengths::of(&light, &bare, false),
        || Strengths::of(&light.transposed(), &bare.transposed(), true),
    );
    let mut strengths = [down, across];
    let middle = Point::new(relief.width() as f64 / 2.0, relief.height() as f64 / 2.0);
    let mut lines = Vec::new();
    while lines.len() < LINES {
        let best = strengths.iter().map(|s| s.best(middle)).max_by(|p, q| p.strength.total_cmp(&q.strength));
        let Some(found) = best.filter(|b| b.strength >= STRONGEST_GRAIN) else { break };
        for half in &mut strengths {
            half.clear(&found);
        }
        lines.push(found);
    }
    lines
}

/// How far the light of each line is from that of others, of the half of all directions that run down, or across.
struct Strengths {
    directions: Vec<usize>,
    sums: Sums,
    strength: Plane<f32>,
    /// The picture lies on its side: its lines run across.
    across: bool,
}

impl Strengths {
    fn of(light: &Plane<i16>, bare: &Plane<i16>, across: bool) -> Self {
        let runs_across = |&d: &usize| (DIRECTIONS / 4 + 1..3 * DIRECTIONS / 4).contains(&d);
        let directions: Vec<usize> = (0..DIRECTIONS).filter(|d| runs_across(d) == across).collect();
        let tangent = |&d: &usize| {
            let (sin, cos) = normal(d);
            if across { -cos / sin } else { -sin / cos }
        };
        let tangents: Vec<f64> = directions.iter().map(tangent).collect();
        let some: Vec<f64> = tangents.iter().copied().step_by(COUNTED).collect();
        let (sums, counts) = (Sums::of(light, &tangents), Sums::of(bare, &some));
        let shortest = SHORTEST * light.width().max(light.height()) as f64;
        let breadth = sums.row(0).len();
        let mut strength = Plane::filled(breadth, directions.len(), 0.0f32);
        for k in 0..directions.len() {
            let (sum, count) = (sums.row(k), counts.row(k / COUNTED));
            // A line of letters or a hole in the paper ends sharply: neighbours are about as long.
            for ((s, n), to) in sum[3..].iter().zip(count.windows(7)).zip(&mut strength.row_mut(k)[3..]) {
                let n = n.iter().map(|&v| i32::from(v)).sum::<i32>() as f32 / 7.0;
                if f64::from(n) > shortest {
                    *to = f32::from(*s).abs() / PARTS / n.sqrt();
                }
            }
        }
        Self { directions, sums, strength, across }
    }

    /// What a distance along the middle row, or column, is to a line's own distance from the middle.
    fn share(&self, direction: usize) -> f64 {
        let (sin, cos) = normal(direction);
        if self.across { sin } else { cos }
    }

    /// The strongest line; `middle` is that of the picture as it stands.
    fn best(&self, middle: Point) -> Line {
        let (i, &s) =
            self.strength.data().iter().enumerate().max_by(|p, q| p.1.total_cmp(q.1)).unwrap_or((0, &0.0));
        let direction = self.directions[i / self.strength.width()];
        let off = self.sums.crosses(i % self.strength.width()) * self.share(direction);
        Line { direction, off, middle, strength: f64::from(s) }
    }

    /// Clears what is the same line as one that was found. Half a turn on, a line lies on the other side of the middle.
    fn clear(&mut self, line: &Line) {
        for (k, &direction) in self.directions.iter().enumerate() {
            let turned = direction.abs_diff(line.direction);
            let off = if turned > DIRECTIONS / 2 { -line.off } else { line.off };
            if turned.min(DIRECTIONS - turned) > SAME_DIRECTIONS {
                continue;
            }
            let share = self.share(direction);
            let (at, reach) = (self.sums.column_of(off / share), SAME_SAMPLES / share.abs());
            let row = self.strength.row_mut(k);
            let column = |v: f64| (v.round().max(0.0) as usize).min(row.len());
            let (from, to) = (column(at - reach), column(at + reach + 1.0));
            row[from..to].fill(0.0);
        }
    }
}

/// Sine and cosine of the direction across a line.
fn normal(direction: usize) -> (f64, f64) {
    (std::f64::consts::PI * direction as f64 / DIRECTIONS as f64).sin_cos()
}

impl Line {
    /// Where it comes into a box and leaves it; `None` where it misses it.
    fn ends(&self, page: Rect) -> Option<(Point, Point)> {
        let (sin, cos) = normal(self.direction);
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
