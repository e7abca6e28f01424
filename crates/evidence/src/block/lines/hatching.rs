//! Lines counted across fields of hatching.

use crate::rank::median;
use sheet::{Plane, Point, Rect};

/// Half the side of a field that is looked at, and the distance between two, in units of the placement.
const HALF: f64 = 2.2;
const STEP: f64 = 2.0;
/// How far along the lines ink is added up to either side, in units.
const ALONG: f64 = 0.7;
/// Squared slope along the lines by that across them, at most.
const ROUND: f64 = 0.2;
/// Fewest lines of a field.
const FEWEST: usize = 4;
/// Contrast of the sums across the lines, at least: of 255.
const CONTRAST: f64 = 28.0;
/// A line is counted where the sums rise so far above their mean after they were as far under it, in standard deviations.
const RISE: f64 = 0.35;
/// Spread of the distances between lines as a share of their middle, at most: hatching is even.
const UNEVEN: f64 = 0.3;

/// Fields that both show.
pub(super) struct Fields {
    pub(super) all: usize,
    /// Those in which both have as many lines.
    pub(super) equal: usize,
}

/// Counts lines over all fields of two planes of ink on one frame.
pub(super) fn fields(a: &Plane<u8>, b: &Plane<u8>, body: Rect, unit: f64) -> Fields {
    let (half, step) = (HALF * unit, STEP * unit);
    let count = |long: f64| ((long - 2.0 * half) / step).floor().max(-1.0) as isize + 1;
    let mut out = Fields { all: 0, equal: 0 };
    for (j, i) in (0..count(body.h)).flat_map(|j| (0..count(body.w)).map(move |i| (j, i))) {
        let at = Point::new(body.x + half + i as f64 * step, body.y + half + j as f64 * step);
        let Some(across) = direction(a, at, half) else { continue };
        let [Some(p), Some(q)] = [a, b].map(|ink| lines(ink, at, across, half, ALONG * unit)) else {
            continue;
        };
        out.all += 1;
        out.equal += usize::from(p == q);
    }
    out
}

/// The direction across the lines of a field, a unit vector; `None` where there is no one direction.
fn direction(ink: &Plane<u8>, at: Point, half: f64) -> Option<Point> {
    let (mut xx, mut xy, mut yy) = (0.0f64, 0.0, 0.0);
    let within = |v: f64, most: usize| (v.max(1.0) as usize).min(most.saturating_sub(2));
    for y in within(at.y - half, ink.height())..within(at.y + half, ink.height()) {
        for x in within(at.x - half, ink.width())..within(at.x + half, ink.width()) {
            let gx = f64::from(ink.at(x + 1, y)) - f64::from(ink.at(x - 1, y));
            let gy = f64::from(ink.at(x, y + 1)) - f64::from(ink.at(x, y - 1));
            xx += gx * gx;
            xy += gx * gy;
            yy += gy * gy;
        }
    }
    let (middle, off) = (f64::midpoint(xx, yy), ((xx - yy) / 2.0).hypot(xy));
    if middle <= 0.0 || (middle - off) / (middle + off) > ROUND {
        return None;
    }
    // The direction of the steepest slopes, without an angle: of the two columns of the tensor less its smaller value.
    let (x, y) = if xx >= yy { (xx - middle + off, xy) } else { (xy, yy - middle + off) };
    let long = x.hypot(y);
    (long > 0.0).then(|| Point::new(x / long, y / long))
}

/// Lines across a field; `None` where it is no hatching.
fn lines(ink: &Plane<u8>, at: Point, across: Point, half: f64, along: f64) -> Option<usize> {
    let way = Point::new(-across.y, across.x);
    let (from, side) = (half.floor() as i32, along.round().max(1.0) as i32);
    let sums: Vec<f64> = (-from..=from)
        .map(|s| {
            let line = (-side..=side).map(|t| {
                let p = at + across * f64::from(s) + way * f64::from(t);
                f64::from(ink.sample(p.x, p.y))
            });
            line.sum::<f64>() / f64::from(2 * side + 1)
        })
        .collect();
    let n = sums.len() as f64;
    let mean = sums.iter().sum::<f64>() / n;
    let sd = (sums.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / n).sqrt();
    if sd < CONTRAST {
        return None;
    }
    let (mut starts, mut is_up) = (Vec::new(), sums[0] > mean);
    for (i, v) in sums.iter().enumerate() {
        if !is_up && *v > mean + RISE * sd {
            is_up = true;
            starts.push(i as f64);
        } else if is_up && *v < mean - RISE * sd {
            is_up = false;
        }
    }
    let gaps: Vec<f64> = starts.windows(2).map(|w| w[1] - w[0]).collect();
    if gaps.len() + 1 < FEWEST {
        return None;
    }
    let middle = median(gaps.clone());
    let uneven = median(gaps.iter().map(|g| (g - middle).abs()).collect());
    (uneven <= UNEVEN * middle).then_some(starts.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Lines so many pixels apart, leaning one in three.
    fn hatched(apart: usize) -> Plane<u8> {
        let mut ink = Plane::filled(200, 200, 0u8);
        for y in 0..200 {
            for x in 0..200 {
                ink.row_mut(y)[x] = if (x + y / 3) % apart < apart / 2 { 230 } else { 0 };
            }
        }
        ink
    }

    #[test]
    fn as_many_lines_are_equal_and_more_are_not() {
        let body = Rect::new(0.0, 0.0, 200.0, 200.0);
        let own = fields(&hatched(8), &hatched(8), body, 12.0);
        assert!(own.all > 20 && own.equal == own.all, "{} of {}", own.equal, own.all);
        let other = fields(&hatched(8), &hatched(10), body, 12.0);
        assert!(other.all > 20 && other.equal * 10 < other.all, "{} of {}", other.equal, other.all);
        let bare = Plane::filled(200, 200, 0);
        assert_eq!(fields(&bare, &bare, body, 12.0).all, 0);
    }
}
