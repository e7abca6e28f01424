//! From line to line.
//!
//! Lines that follow each other at one distance are a run, and a run of many lines tells that distance by all of them: the slope of
//! their places by their numbers (least squares), so that twenty lines are measured to a small part of what one baseline is off.

use super::Length;
use crate::rank::median;
use crate::words::on_baseline;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use sheet::Line;

/// How far the lines of a size stand apart, from baseline to baseline, across them.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Pitch {
    /// In pixels.
    pub px: Length,
    /// The lines that it was measured on, run by run, as numbers of lines of the side.
    pub runs: Vec<Vec<usize>>,
}

/// A line follows another where it is no nearer and no farther than this, x-heights.
const NEXT: [f64; 2] = [1.2, 6.0];
/// It shares this much of the shorter one's length.
const SHARED: f64 = 0.4;
/// Distances that differ by no more than this from that of most, as a share, are of one pitch: more is white between paragraphs, or a lead.
const ALIKE: f64 = 0.04;
/// Places along the lines of a run at which they are measured, and the least length that all must share, x-heights.
const PLACES: usize = 9;
const LEAST_SHARED: f64 = 4.0;
/// What a baseline is usually off by, x-heights (median over 150 simulated sheets at 200 to 400 ppi: 0.015 to 0.03), and as how many more lines
/// that counts: a run of three or four tells little of how its own are off.
const USUAL_OFF: f64 = 0.025;
const USUAL_COUNTS: f64 = 4.0;
/// No pitch is believed to be surer than this, as a share of it: paper cockles, and a camera looks aslant.
const LEAST_SD: f64 = 0.0005;

/// The pitch of `lines` among all `of` the side, by their numbers; `upright` is the cosine of their slope. `None` where no two follow
/// each other.
pub(super) fn pitch(of: &[Line], lines: &[usize], upright: f64) -> Option<Pitch> {
    let next: Vec<(usize, usize, f64)> =
        lines.iter().filter_map(|&i| below(of, lines, i).map(|(j, step)| (i, j, step * upright))).collect();
    let usual = most_alike(next.iter().map(|n| n.2).collect())?;
    let next: Vec<(usize, usize)> =
        next.iter().filter(|n| (n.2 / usual - 1.0).abs() <= ALIKE).map(|n| (n.0, n.1)).collect();
    let runs: Vec<Vec<usize>> = runs(&next).into_iter().flat_map(|run| shared(of, &run)).collect();
    let fits: Vec<Fit> = runs.iter().map(|run| Fit::of(of, run)).collect();
    let spread: f64 = fits.iter().map(|f| f.spread).sum();
    if spread <= 0.0 {
        return None;
    }
    let px = fits.iter().map(|f| f.slope * f.spread).sum::<f64>() / spread * upright;
    let free: f64 = fits.iter().map(|f| f.free).sum();
    let usual = USUAL_OFF * median(lines.iter().map(|&i| of[i].x_height.0).collect());
    let left: f64 = fits.iter().map(|f| f.left).sum();
    let off = ((left + USUAL_COUNTS * usual.powi(2)) / (free + USUAL_COUNTS)).sqrt();
    let sd = (off * upright / spread.sqrt()).hypot(LEAST_SD * px);
    Some(Pitch { px: Length { value: px, sd }, runs })
}

/// The line that follows `i`, and how far down it lies.
fn below(of: &[Line], lines: &[usize], i: usize) -> Option<(usize, f64)> {
    let x_height = of[i].x_height.0;
    let near = lines.iter().filter_map(|&j| {
        let (from, to) = both(&of[i], &of[j]);
        let shortest = length(&of[i]).min(length(&of[j]));
        let x = f64::midpoint(from, to);
        let step = on_baseline(&of[j].baseline, x) - on_baseline(&of[i].baseline, x);
        (to - from >= SHARED * shortest && step >= NEXT[0] * x_height).then_some((j, step))
    });
    near.min_by(|p, q| p.1.total_cmp(&q.1)).filter(|n| n.1 <= NEXT[1] * x_height)
}

fn ends(line: &Line) -> (f64, f64) {
    let at = |p: Option<&sheet::Point>| p.map_or(0.0, |p| p.x);
    (at(line.baseline.first()), at(line.baseline.last()))
}

fn length(line: &Line) -> f64 {
    let (from, to) = ends(line);
    to - from
}

/// What two lines have in common, from and to.
fn both(a: &Line, b: &Line) -> (f64, f64) {
    let (p, q) = (ends(a), ends(b));
    (p.0.max(q.0), p.1.min(q.1))
}

/// Of distances the median of those that most are like.
fn most_alike(mut steps: Vec<f64>) -> Option<f64> {
    steps.sort_by(f64::total_cmp);
    let like = |from: usize| steps[from..].iter().take_while(|s| **s <= steps[from] * (1.0 + ALIKE)).count();
    let best = (0..steps.len()).max_by_key(|&i| like(i))?;
    Some(steps[best + like(best) / 2])
}

/// Lines that follow one another.
fn runs(next: &[(usize, usize)]) -> Vec<Vec<usize>> {
    let heads = next.iter().filter(|n| next.iter().all(|o| o.1 != n.0));
    heads
        .map(|head| {
            let mut run = vec![head.0, head.1];
            // No line comes twice: each lies below the one before it.
            while let Some(n) = run.last().and_then(|last| next.iter().find(|n| n.0 == *last)) {
                run.push(n.1);
            }
            run
        })
        .collect()
}

/// A run, in pieces of which all lines share some length.
fn shared(of: &[Line], run: &[usize]) -> Vec<Vec<usize>> {
    let mut out: Vec<Vec<usize>> = Vec::new();
    let mut common = (0.0, 0.0);
    for &i in run {
        let own = ends(&of[i]);
        let (from, to) = (own.0.max(common.0), own.1.min(common.1));
        match out.last_mut() {
            Some(piece) if to - from >= LEAST_SHARED * of[i].x_height.0 => {
                piece.push(i);
                common = (from, to);
            }
            _ => {
                out.push(vec![i]);
                common = own;
            }
        }
    }
    out.retain(|piece| piece.len() > 1);
    out
}

/// The places of the lines of a run by their numbers.
struct Fit {
    slope: f64,
    /// Sum of the squared distances of the numbers from their mean.
    spread: f64,
    /// Sum of what is left of the places, squared, and how many of them are free.
    left: f64,
    free: f64,
}

impl Fit {
    fn of(of: &[Line], run: &[usize]) -> Self {
        let from = run.iter().map(|&i| ends(&of[i]).0).fold(f64::NEG_INFINITY, f64::max);
        let to = run.iter().map(|&i| ends(&of[i]).1).fold(f64::INFINITY, f64::min);
        let at = |k: usize| from + (to - from) * (k as f64 + 0.5) / PLACES as f64;
        let place =
            |i: usize| (0..PLACES).map(|k| on_baseline(&of[i].baseline, at(k))).sum::<f64>() / PLACES as f64;
        let places: Vec<f64> = run.iter().map(|&i| place(i)).collect();
        let n = places.len() as f64;
        let (middle, mean) = ((n - 1.0) / 2.0, places.iter().sum::<f64>() / n);
        let numbered = || places.iter().enumerate().map(|(i, y)| (i as f64 - middle, y - mean));
        let spread: f64 = numbered().map(|(i, _)| i * i).sum();
        let slope = numbered().map(|(i, y)| i * y).sum::<f64>() / spread;
        let left = numbered().map(|(i, y)| (y - slope * i).powi(2)).sum();
        Self { slope, spread, left, free: n - 2.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::noise::noise;
    use sheet::{Point, Px, Rect};

    /// A line whose baseline falls by `fall`.
    fn line(left: f64, right: f64, down: f64, fall: f64) -> Line {
        let at = |x: f64| Point::new(x, down + fall * x);
        Line {
            baseline: vec![at(left), at(f64::midpoint(left, right)), at(right)],
            x_height: Px(10.0),
            contrast: 0.6,
            bounds: Rect::new(left, down - 21.0, right - left, 29.0),
            words: Vec::new(),
        }
    }

    #[test]
    fn a_pitch_is_that_of_most_lines_in_two_columns_on_a_slope() {
        let fall = 0.05f64;
        let upright = 1.0 / fall.hypot(1.0);
        let step = 25.3 / upright;
        let mut lines = Vec::new();
        for i in 0..24 {
            // Paragraphs stand a little apart.
            let white = if i < 9 { 0.0 } else { 6.0 };
            lines.push(line(100.0, 400.0, 100.0 + step * f64::from(i) + white, fall));
            lines.push(line(440.0, 740.0, 90.0 + step * f64::from(i), fall));
        }
        let all: Vec<usize> = (0..lines.len()).collect();
        let found = pitch(&lines, &all, upright).unwrap();
        assert!((found.px.value - 25.3).abs() < 1e-6, "{found:?}");
        assert!(found.px.sd <= 0.02, "{found:?}");
        assert_eq!(found.runs.iter().map(Vec::len).collect::<Vec<_>>(), [9, 24, 15]);
    }

    #[test]
    fn one_line_has_no_pitch_and_two_have_an_unsure_one() {
        let two = [line(0.0, 300.0, 100.0, 0.0), line(0.0, 300.0, 126.0, 0.0)];
        assert_eq!(pitch(&two, &[0], 1.0), None);
        let found = pitch(&two, &[0, 1], 1.0).unwrap();
        assert!((found.px.value - 26.0).abs() < 1e-9 && found.px.sd > 0.25, "{found:?}");
    }

    /// What baselines are off by, and how surely the pitch is told then, agree over many pages.
    #[test]
    fn the_doubt_told_is_that_of_baselines_that_stray() {
        let stray = |i: usize| 2.0 * noise(i) - 1.0;
        let mut within = 0;
        for page in 0..100 {
            let lines: Vec<Line> = (0..21)
                .map(|i| line(0.0, 500.0, 100.0 + 30.0 * i as f64 + 0.3 * stray(100 * page + i), 0.0))
                .collect();
            let all: Vec<usize> = (0..lines.len()).collect();
            let found = pitch(&lines, &all, 1.0).unwrap().px;
            within += usize::from((found.value - 30.0).abs() <= 1.96 * found.sd);
        }
        assert!((90..=100).contains(&within), "{within}");
    }
}
