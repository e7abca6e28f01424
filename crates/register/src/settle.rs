//! Where exactly a crease runs: small pieces of print beside it are looked for as the paper on either side of it lies.
//!
//! Windows large enough to be followed by themselves lie astride a crease within a line of type of it, and tell its place
//! no better. But where both sides' motion is known it is enough to ask of a few strokes which of the two they follow.

use crate::crease::{Crease, side_of};
use crate::patches::Round;
use crate::template::{SAMPLES_PER_INDEPENDENT, Scratch, Search, Template, Window};
use crate::{PaperMap, Pyramid};
use rayon::prelude::*;
use sheet::{Point, StraightMap};

/// Lengths, mm: how far beside a crease print is asked, the side of a piece, the distance between pieces.
const BESIDE_MM: f64 = 8.0;
const SIDE_MM: f64 = 1.3;
const STEP_MM: f64 = 0.9;
/// Pieces of fewer samples a side hold too little.
const FEWEST_SAMPLES: usize = 8;
/// How far about its place a piece is looked for, samples: the motion of a side is known beside the crease to about so
/// much.
const REACH: usize = 2;
/// Displacements of the two sides nearer to each other than this, samples, cannot be told apart.
const APART: f64 = 2.5;
/// Correlation of a piece of the same print.
const SAME_PRINT: f32 = 0.6;
/// No piece says more than this for either side, natural logarithm: it may be another letter's stroke.
const MOST: f64 = 3.0;
/// What a crease's new place must be better by.
const LEAST_BETTER: f64 = 6.0;
/// Turns, degrees, and steps, mm, in which places are tried, and how many to either side.
const TURN: f64 = 0.25;
const PUSH_MM: f64 = 0.25;
const TRIED: [i32; 2] = [16, 24];
/// Places are counted as they are likely, by so much less.
const TEMPER: f64 = 3.0;

/// A piece of print beside a crease: its middle, and how much likelier it lies as what is beyond the crease does than as
/// what is before it (natural logarithm).
#[derive(Debug, Clone, Copy)]
struct Told {
    at: Point,
    beyond: f64,
}

/// The creases of a map, each where the print beside it says; `None` if none has moved.
pub(crate) fn settled(
    a: &Pyramid,
    b: &Pyramid,
    map: &PaperMap,
    round: &Round,
    px_per_mm: f64,
) -> Option<Vec<Crease>> {
    let creases = map.paper.creases();
    let settled: Vec<Option<Crease>> = (0..creases.len())
        .map(|k| {
            let told = beside(a, b, map, k, round, px_per_mm);
            place(&creases[k], &told, px_per_mm)
        })
        .collect();
    let has_moved = settled.iter().any(Option::is_some);
    has_moved.then(|| settled.iter().zip(creases).map(|(s, c)| s.unwrap_or(*c)).collect())
}

/// The pieces of print beside crease `k`.
fn beside(a: &Pyramid, b: &Pyramid, map: &PaperMap, k: usize, round: &Round, px_per_mm: f64) -> Vec<Told> {
    let creases = map.paper.creases();
    let crease = creases[k];
    let (level, unit) = (a.level(round.level_a), 2f64.powi(round.level_a as i32));
    let per_mm = px_per_mm / unit;
    let side = ((SIDE_MM * per_mm).round() as usize).max(FEWEST_SAMPLES);
    let step = ((STEP_MM * per_mm).round() as usize).max(1);
    let rows: Vec<usize> = (0..level.height().saturating_sub(side)).step_by(step).collect();
    let near = BESIDE_MM * px_per_mm;
    rows.into_par_iter()
        .map_init(Scratch::default, |scratch, y| {
            let mut out = Vec::new();
            for x in (0..level.width().saturating_sub(side)).step_by(step) {
                let window = Window { x, y, w: side, h: side };
                let at = window.centre() * unit;
                if crease.beyond(at).abs() > near || crease.jump_beside(at) == 0.0 {
                    continue;
                }
                let sides = side_of(creases, at);
                let on = [sides & !(1 << k), sides | (1 << k)].map(|sides| map.to_b_on(sides, at));
                let [Some(before), Some(beyond)] = on else { continue };
                let to_level = 2f64.powi(-(round.level_b as i32));
                if before.0.distance(beyond.0) * to_level < APART {
                    continue;
                }
                let Some(template) = Template::new(level, window) else { continue };
                let scores = [before, beyond].map(|(centre, slope)| {
                    let map = StraightMap { centre, slope }.between_levels(unit, to_level);
                    template
                        .find(b.level(round.level_b), &map, (REACH, REACH), Search::All, scratch)
                        .map_or(0.0, |f| f.score)
                });
                if scores[0].max(scores[1]) < SAME_PRINT {
                    continue;
                }
                let [before, beyond] = scores.map(|s| f64::from(1.0 - s.clamp(0.0, 0.99).powi(2)).ln());
                let independent = (side * side) as f64 / SAMPLES_PER_INDEPENDENT;
                let told = independent / 2.0 * (before - beyond);
                out.push(Told { at, beyond: told.clamp(-MOST, MOST) });
            }
            out
        })
        .flatten_iter()
        .collect()
}

/// Where a crease runs as the print beside it says; `None` if that is no better than where it is.
fn place(crease: &Crease, told: &[Told], px_per_mm: f64) -> Option<Crease> {
    let half = SIDE_MM * px_per_mm / 2.0;
    let fit = |c: &Crease| -> f64 {
        told.iter().map(|t| t.beyond * (c.beyond(t.at) / half).clamp(-1.0, 1.0)).sum()
    };
    let [turns, pushes] = TRIED;
    let tried: Vec<[f64; 3]> = (-turns..=turns)
        .into_par_iter()
        .flat_map_iter(|i| (-pushes..=pushes).map(move |j| (f64::from(i) * TURN.to_radians(), f64::from(j))))
        .map(|(turn, push)| {
            let push = push * PUSH_MM * px_per_mm;
            [fit(&crease.moved(turn, push)), turn, push]
        })
        .collect();
    let most = tried.iter().map(|t| t[0]).fold(f64::NEG_INFINITY, f64::max);
    let sums = tried.iter().fold([0.0; 3], |sums, &[fit, turn, push]| {
        let weight = ((fit - most) / TEMPER).exp();
        [sums[0] + weight, sums[1] + weight * turn, sums[2] + weight * push]
    });
    let middle = crease.moved(sums[1] / sums[0], sums[2] / sums[0]);
    (fit(&middle) > fit(crease) + LEAST_BETTER).then_some(middle)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Field;
    use sheet::{Homography, Plane};

    /// Strokes of many heights and breadths, never alike.
    fn print() -> Plane<u8> {
        let mut plane = Plane::filled(260, 200, 0u8);
        for y in 0..200usize {
            for x in 0..260usize {
                let stroke = (x * 7 + (y / 9) * 31 + (x / 37) * (y / 23)) % 23 < 8;
                if stroke && (y + (x / 13) * 5 + (y / 41) * 3) % 17 < 11 {
                    plane.row_mut(y)[x] = 220;
                }
            }
        }
        plane
    }

    #[test]
    fn a_crease_laid_a_line_too_high_is_moved_to_where_it_runs() {
        // The paper jumps by 6 pixels down beyond y = 110, and is thought to do so beyond y = 85.
        let (jump, runs) = (6usize, 110usize);
        let a = print();
        let mut b = Plane::filled(260, 210, 0u8);
        for y in 0..200 {
            let to = if y < runs { y } else { y + jump };
            b.row_mut(to).copy_from_slice(a.row(y));
        }
        let crease = Crease::straight(Point::new(130.0, 85.0), Point::new(0.0, 1.0), jump as f64);
        let nodes = |y: f64| vec![Point::new(0.0, y); 4];
        let parts = vec![(0, nodes(0.0)), (1, nodes(jump as f64))];
        let paper = Field::cut((2, 2), 300.0, &[crease], parts).unwrap();
        let map = PaperMap { view: Homography::identity(), paper };
        let round = Round { level_a: 0, level_b: 0, side: 35, step: 30.0, reach: 3 };
        let (a, b) = (Pyramid::new(a), Pyramid::new(b));
        let moved = settled(&a, &b, &map, &round, 11.8).expect("the crease has moved");
        let off = [30.0, 130.0, 230.0].map(|x| moved[0].beyond(Point::new(x, runs as f64)));
        assert!(off.iter().all(|v| v.abs() < 6.0), "{off:?}");
        // Where it runs already it stays.
        let there = Crease::straight(Point::new(130.0, runs as f64 + 2.0), Point::new(0.0, 1.0), jump as f64);
        let paper =
            Field::cut((2, 2), 300.0, &[there], vec![(0, nodes(0.0)), (1, nodes(jump as f64))]).unwrap();
        let settled_there = settled(&a, &b, &PaperMap { paper, ..map }, &round, 11.8);
        assert!(settled_there.is_none_or(|c| c[0].beyond(Point::new(130.0, runs as f64)).abs() < 6.0));
    }
}
