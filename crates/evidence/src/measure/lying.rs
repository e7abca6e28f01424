//! How the lines of a side lie.

use super::Length;
use super::edges::measured;
use nalgebra::{Matrix3, Vector3};
use rayon::prelude::*;
use sheet::{Degrees, Layout, Line, Plane, Point};

/// Lines shorter than this, x-heights, tell no angle.
const LEAST: f64 = 20.0;
/// Fewest places along a line by which it is told whether it is bowed.
const FEWEST_TO_BOW: usize = 5;
/// From the distance of the quartiles to the standard deviation of a normal distribution.
const QUARTILES: f64 = 1.349;
/// How much more the mean of the middle half strays than that of all, of normal errors (P. J. Huber and E. M. Ronchetti, *Robust Statistics*, 2nd
/// edn 2009; from memory).
const OF_THE_MIDDLE: f64 = 1.09;

/// The layout with every line where its ink exactly stands, and the slope that these lines have.
///
/// `ink` is that of the whole photograph, in the pixels that the layout is told in.
pub fn finely(ink: &Plane<u8>, layout: &Layout) -> Layout {
    let lines: Vec<Line> = layout.lines.par_iter().map(|l| measured(ink, l)).collect();
    let skew = skew(&lines).map_or(layout.skew, |s| Degrees(s.value));
    Layout { lines, skew, ..layout.clone() }
}

/// How far the lines fall to the right, degrees: the mean angle of the middle half of those that are long, each counted by its length.
/// `None` where none is.
pub fn skew(lines: &[Line]) -> Option<Length> {
    let mut told: Vec<(f64, f64)> = lines.iter().filter_map(|l| Some((angle(l)?, length(l)))).collect();
    told.sort_by(|p, q| p.0.total_cmp(&q.0));
    let all = told.iter().map(|t| t.1).sum::<f64>();
    let [low, high] = [0.25, 0.75].map(|share| share * all);
    let (mut so_far, mut sum) = (0.0, 0.0);
    let mut quartiles = [None; 2];
    for &(angle, long) in &told {
        let next = so_far + long;
        // So much of this one lies in the middle half.
        sum += angle * (next.min(high) - so_far.max(low)).max(0.0);
        for (quartile, at) in quartiles.iter_mut().zip([low, high]) {
            if next >= at {
                quartile.get_or_insert(angle);
            }
        }
        so_far = next;
    }
    let [Some(first), Some(third)] = quartiles else { return None };
    let sd = OF_THE_MIDDLE * (third - first) / QUARTILES / (told.len() as f64).sqrt();
    Some(Length { value: sum / (high - low), sd })
}

/// The angle of one line, degrees clockwise, by least squares through its baseline; `None` of a short one.
pub(super) fn angle(line: &Line) -> Option<f64> {
    let n = line.baseline.len() as f64;
    let x = line.baseline.iter().map(|p| p.x).sum::<f64>() / n;
    let spread: f64 = line.baseline.iter().map(|p| (p.x - x).powi(2)).sum();
    (length(line) >= LEAST * line.x_height.0 && spread > 0.0).then(|| {
        let slope = line.baseline.iter().map(|p| (p.x - x) * p.y).sum::<f64>() / spread;
        slope.atan().to_degrees()
    })
}

/// How far the middle of a line lies below the straight line through its ends, pixels: by a parabola through its baseline (least squares).
/// `None` of a line too short to tell.
pub(super) fn bow(line: &Line) -> Option<f64> {
    let n = line.baseline.len();
    if length(line) < LEAST * line.x_height.0 || n < FEWEST_TO_BOW {
        return None;
    }
    let (first, last) = (line.baseline[0].x, line.baseline[n - 1].x);
    let (middle, half) = (f64::midpoint(first, last), (last - first) / 2.0);
    let along = |p: &Point| (p.x - middle) / half;
    let powers = |n: usize| line.baseline.iter().map(|p| along(p).powi(n as i32)).sum::<f64>();
    let rows = Matrix3::from_fn(|r, c| powers(r + c));
    let sums = Vector3::from_fn(|r, _| line.baseline.iter().map(|p| along(p).powi(r as i32) * p.y).sum());
    // Of y = a + b t + c t^2 with t from -1 to 1 the ends lie c below the middle.
    Some(-rows.lu().solve(&sums)?[2])
}

fn length(line: &Line) -> f64 {
    line.bounds.w
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::noise::noise;
    use sheet::{Px, Rect};

    fn line(down: f64, long: f64, slope: f64) -> Line {
        let at = |x: f64| Point::new(x, down + slope * x + 0.2 * (noise((97.0 * down + x) as usize) - 0.5));
        Line {
            baseline: (0..=10).map(|k| at(long * f64::from(k) / 10.0)).collect(),
            x_height: Px(10.0),
            contrast: 0.6,
            bounds: Rect::new(0.0, down - 20.0, long, 30.0),
            words: Vec::new(),
        }
    }

    #[test]
    fn the_slope_is_that_of_most_print_and_short_lines_have_no_say() {
        let slope = 1.3f64.to_radians().tan();
        let mut lines: Vec<Line> = (0..30).map(|i| line(100.0 + 25.0 * f64::from(i), 600.0, slope)).collect();
        lines.extend((0..20).map(|i| line(900.0 + 25.0 * f64::from(i), 90.0, 0.3)));
        lines.push(line(1500.0, 600.0, 0.2));
        let found = skew(&lines).unwrap();
        assert!((found.value - 1.3).abs() < 0.02, "{found:?}");
        assert!(found.sd < 0.01, "{found:?}");
        assert_eq!(skew(&lines[30..50]), None);
    }

    #[test]
    fn a_line_that_sags_by_three_pixels_is_bowed_by_three() {
        let sagging = |by: f64| {
            let straight = line(100.0, 600.0, 0.02);
            let sag =
                |p: &Point| Point::new(p.x, 100.0 + 0.02 * p.x + by * (1.0 - (p.x / 300.0 - 1.0).powi(2)));
            Line { baseline: straight.baseline.iter().map(sag).collect(), ..straight }
        };
        assert!((bow(&sagging(3.0)).unwrap() - 3.0).abs() < 1e-9);
        assert!((bow(&sagging(-1.5)).unwrap() + 1.5).abs() < 1e-9);
        assert_eq!(bow(&line(100.0, 90.0, 0.0)), None);
    }
}
