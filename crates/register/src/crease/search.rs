//! Where creases may be, and which of those are.

use super::gain::{Sizes, Tried, gain_without_a_line, try_line};
use super::{Crease, Line};
use crate::lay::LineGuide;
use crate::smooth::{Neighbours, Sample};
use rayon::prelude::*;
use sheet::Point;
use std::f64::consts::PI;

/// Lengths, mm: how far on either side print is asked, and the pieces a line is tried in. Cockles are 30 mm and
/// longer.
const BAND_MM: f64 = 13.0;
const PIECE_MM: f64 = 15.0;
/// Creases on one sheet that are looked for, at most.
const MOST: usize = 5;
/// A jump of less than this, mm, is left to the smooth motion, which follows it nearly; and so is one of less than
/// so many noises.
const LEAST_JUMP_MM: f64 = 0.2;
const LEAST_JUMP: f64 = 3.0;
/// Gain from which a line is a crease (log likelihood, robust); pieces that must show it, at least and as a share
/// of those with print on both sides; and the share of their print that the jump must explain: where words or lines
/// were moved there is always some that went another way.
const LEAST_GAIN: f64 = 40.0;
/// Gain below which the widest steps leave a line that shorter ones will not make a crease of: of 614 lines that became
/// one on 81 simulated pairs each had 21 by then, of 1864 others half had less.
const HOPELESS: f64 = LEAST_GAIN / 2.0;
const LEAST_PIECES: usize = 2;
const LEAST_CLEAR: f64 = 0.5;
const LEAST_EXPLAINED: f64 = 0.86;
/// What is left of the gain at least when any one line of type is left out: where what remains on both sides can tell,
/// it must not speak against the crease. Of what the trials above let pass on 180 simulated pairs, half of them with a
/// line that was moved, this alone takes away 72 in 100 of those that are no creases, and ten in 100 of the others.
const LEAST_WITHOUT_A_LINE: f64 = 0.0;
/// Unless the paper shows a fold there: at the place that the crease goes through and as far as this to both sides, mm,
/// no farther from it than this.
const ALONG_A_FOLD_MM: f64 = 30.0;
const ON_A_FOLD_MM: f64 = 3.0;
/// Neighbours farther apart than this, in noises, with a gap between them as wide as this, mm, are torn asunder.
const TORN: f64 = 6.0;
const TORN_APART_MM: f64 = 7.5;
/// Two creases that run alike, to within this angle, are farther apart than this, mm: what is narrower is a line
/// of type that was moved.
const ALIKE: f64 = 0.26;
const STRIP_MM: f64 = 12.0;
/// Two creases that cross at less than this angle, no farther than this, mm, from the middle of the print that shows
/// one of them, are not both creases.
const ASLANT: f64 = 0.7;
const AMID_MM: f64 = 60.0;
/// Directions and steps, mm, in which lines are looked for.
const DIRECTIONS: usize = 60;
const STEP_MM: f64 = 1.5;
/// Lines that are tried, the most torn first.
const TRIED: usize = 10;
/// Fewest torn pairs on a line that is tried.
const FEWEST_TORN: usize = 6;

/// Finds the creases that the displacements of windows show. `noise` is how far print commonly lies off its
/// neighbours' smooth motion, `side` the side of a window, `to_fold` how far a place is from the nearest fold that the
/// paper shows; pixels of A.
pub(crate) fn find(
    samples: &[Sample],
    px_per_mm: f64,
    noise: f64,
    side: f64,
    lines: LineGuide,
    to_fold: &(dyn Fn(Point) -> f64 + Sync),
) -> Vec<Crease> {
    let sizes = Sizes {
        band: BAND_MM * px_per_mm,
        astride: 0.5 * side,
        piece: PIECE_MM * px_per_mm,
        noise: noise.max(LEAST_NOISE_MM * px_per_mm),
        lines,
    };
    let mut found: Vec<Crease> = Vec::new();
    while found.len() < MOST {
        let flat = without(samples, &found);
        let torn = torn(&flat, px_per_mm, sizes.noise);
        let best = likely(&torn, px_per_mm)
            .into_par_iter()
            .filter_map(|line| refined(line, &flat, sizes, px_per_mm))
            .filter(|t| is_crease(t, &sizes, px_per_mm) && apart(&t.crease, &found, px_per_mm))
            .filter(|t| {
                is_a_fold(&t.crease, to_fold, px_per_mm)
                    || gain_without_a_line(&t.crease, &flat, sizes) >= LEAST_WITHOUT_A_LINE
            })
            .max_by(|p, q| p.gain.total_cmp(&q.gain));
        let Some(best) = best else { break };
        found.push(best.crease);
    }
    found
}

/// The displacements as they would be without these creases: what lies beyond each is moved back.
fn without(samples: &[Sample], creases: &[Crease]) -> Vec<Sample> {
    let mut flat = samples.to_vec();
    for c in creases {
        for s in flat.iter_mut().filter(|s| c.beyond(s.at) > 0.0) {
            s.shift = s.shift - c.normal() * c.jump_beside(s.at);
        }
    }
    flat
}

/// Noise below this, mm, is not believed.
const LEAST_NOISE_MM: f64 = 0.025;

fn is_crease(t: &Tried, sizes: &Sizes, px_per_mm: f64) -> bool {
    t.gain >= LEAST_GAIN
        && t.clear >= LEAST_PIECES
        && t.clear as f64 >= LEAST_CLEAR * t.judged as f64
        && t.explained >= LEAST_EXPLAINED
        && t.crease.jump.abs() >= (LEAST_JUMP_MM * px_per_mm).max(LEAST_JUMP * sizes.noise)
}

/// Whether the paper shows a fold where the crease runs.
fn is_a_fold(crease: &Crease, to_fold: &(dyn Fn(Point) -> f64 + Sync), px_per_mm: f64) -> bool {
    [-ALONG_A_FOLD_MM, 0.0, ALONG_A_FOLD_MM].into_iter().all(|along| {
        let at = crease.through() + crease.line.direction() * (along * px_per_mm);
        to_fold(at) < ON_A_FOLD_MM * px_per_mm
    })
}

/// Whether a crease is none of those found already, nor the other side of a narrow strip, nor one that would cross
/// another aslant amid the print: what needs that is paper that bends, and no crease.
fn apart(c: &Crease, found: &[Crease], px_per_mm: f64) -> bool {
    found.iter().all(|f| {
        let (n, m) = (c.normal(), f.normal());
        let across = (n.x * m.y - n.y * m.x).abs();
        if across < ALIKE.sin() {
            return f.beyond(c.through()).abs() > STRIP_MM * px_per_mm;
        }
        across > ASLANT.sin() || {
            // Where they cross: so far along the new one from its middle.
            let along = c.line.direction();
            let closing = along.x * m.x + along.y * m.y;
            (f.beyond(c.through()) / closing).abs() > AMID_MM * px_per_mm
        }
    })
}

/// Neighbours that lie asunder: the place between them and the difference of their displacements.
fn torn(samples: &[Sample], px_per_mm: f64, noise: f64) -> Vec<(Point, Point)> {
    let far = TORN_APART_MM * px_per_mm;
    let cells = Neighbours::new(samples, far);
    let mut near = Vec::new();
    let mut out = Vec::new();
    for s in samples {
        near.clear();
        cells.within(s.at, far, |o| (o.at.x, o.at.y) > (s.at.x, s.at.y), &mut near);
        out.extend(near.iter().filter_map(|o| {
            let apart = o.shift - s.shift;
            (apart.length() > TORN * noise).then(|| ((s.at + o.at) * 0.5, apart))
        }));
    }
    out
}

/// The lines on which most torn pairs lie whose tear runs across them; most likely first.
fn likely(torn: &[(Point, Point)], px_per_mm: f64) -> Vec<Line> {
    if torn.len() < FEWEST_TORN {
        return Vec::new();
    }
    let step = STEP_MM * px_per_mm;
    let reach = torn.iter().map(|t| t.0.x.hypot(t.0.y)).fold(0.0, f64::max);
    let bins = (2.0 * reach / step) as usize + 3;
    let mut votes = vec![0u32; DIRECTIONS * bins];
    for &(at, apart) in torn {
        for k in 0..DIRECTIONS {
            let (sin, cos) = (k as f64 / DIRECTIONS as f64 * PI).sin_cos();
            // The tear lies across the crease to within 40 degrees.
            if (apart.x * cos + apart.y * sin).abs() < 0.77 * apart.length() {
                continue;
            }
            let bin = ((at.x * cos + at.y * sin + reach) / step) as usize;
            votes[k * bins + bin] += 2;
            votes[k * bins + bin + 1] += 1;
            if bin > 0 {
                votes[k * bins + bin - 1] += 1;
            }
        }
    }
    let mut out = Vec::new();
    while out.len() < TRIED {
        let Some((best, &most)) = votes.iter().enumerate().max_by_key(|v| v.1) else { break };
        if (most as usize) < 2 * FEWEST_TORN {
            break;
        }
        let (k, bin) = (best / bins, best % bins);
        let (sin, cos) = (k as f64 / DIRECTIONS as f64 * PI).sin_cos();
        let rho = (bin as f64 + 0.5) * step - reach;
        // Amid the pairs that voted, so that turning the line does not move it off them.
        let on: Vec<Point> =
            torn.iter().map(|t| t.0).filter(|p| (p.x * cos + p.y * sin - rho).abs() < 1.5 * step).collect();
        let n = on.len().max(1) as f64;
        let middle = on.iter().fold(Point::new(0.0, 0.0), |s, &p| s + p) * (1.0 / n);
        let off = middle.x * cos + middle.y * sin - rho;
        let normal = Point::new(cos, sin);
        let through = middle - normal * off;
        out.push(Line { through, normal });
        // Lines hardly different are not tried as well.
        for dk in -3isize..=3 {
            let row = (k as isize + dk).rem_euclid(DIRECTIONS as isize) as usize;
            let (s, c) = (row as f64 / DIRECTIONS as f64 * PI).sin_cos();
            let at = ((through.x * c + through.y * s + reach) / step) as isize;
            for b in (at - 3).max(0)..(at + 4).min(bins as isize) {
                votes[row * bins + b as usize] = 0;
            }
        }
    }
    out
}

/// The best line about a start, by steps that grow shorter; `None` if the first of them show that it is no crease.
fn refined(start: Line, samples: &[Sample], sizes: Sizes, px_per_mm: f64) -> Option<Tried> {
    let mut best = try_line(start, samples, sizes)?;
    for (turn, step) in [(3.0f64, 1.5), (1.5, 0.75), (0.7, 0.4), (0.3, 0.2)] {
        for _ in 0..3 {
            let here = best;
            for (i, j) in [(1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, -1), (1, -1), (-1, 1)] {
                let (sin, cos) = (f64::from(i) * turn.to_radians()).sin_cos();
                let n = here.crease.normal();
                let normal = Point::new(n.x * cos - n.y * sin, n.x * sin + n.y * cos);
                let through = here.crease.through() + normal * (f64::from(j) * step * px_per_mm);
                if let Some(t) = try_line(Line { through, normal }, samples, sizes)
                    && t.gain > best.gain
                {
                    best = t;
                }
            }
            if best.gain <= here.gain {
                break;
            }
        }
        if best.gain < HOPELESS {
            return None;
        }
    }
    Some(best)
}
