//! What a keypoint's surroundings look like: sixteen histograms of gradients, turned upright.
//!
//! Lowe 2004 §6, with square roots taken before comparing (Arandjelović & Zisserman, CVPR 2012),
//! which weighs the strokes of thin type against solid cuts.

use super::keypoints::{Keypoint, Octave};
use sheet::Plane;
use std::sync::LazyLock;
use wide::{i16x8, i32x4};

/// Numbers in a descriptor: 4 x 4 cells of 8 directions.
pub(crate) const LENGTH: usize = 128;

/// A descriptor scaled to bytes; the sum of squares is about 255^2 * 4.
pub(crate) type Descriptor = [i16x8; LENGTH / 8];

/// Length of a descriptor, as scaled.
const NORM: f32 = 512.0;
/// Side of one of the sixteen cells, in sigmas of the keypoint (Lowe §6.1).
const CELL_IN_SIGMAS: f32 = 3.0;

/// Samples taken across one cell. The plane is already blurred by the keypoint's sigma, so that
/// nothing is lost between samples three quarters of a sigma apart.
const SAMPLES_PER_CELL: usize = 4;
/// Half a cell beyond the sixteen cells on every side still counts towards them.
const CELLS_ACROSS: usize = 5;

/// Where the samples stand along one axis, in cells from the middle, and by how much they count less for it: a
/// Gaussian of two cells (Lowe §6.1 takes half the breadth of all cells).
static SAMPLES: LazyLock<[(f32, f32); CELLS_ACROSS * SAMPLES_PER_CELL]> = LazyLock::new(|| {
    std::array::from_fn(|i| {
        let at = (i as f32 + 0.5) / SAMPLES_PER_CELL as f32 - CELLS_ACROSS as f32 / 2.0;
        (at, (-at * at / 8.0).exp())
    })
});

pub(crate) fn describe(k: &Keypoint, octaves: &[Octave]) -> Descriptor {
    let (plane, step) = k.plane(octaves);
    let (cx, cy) = ((k.x - 0.5) / step, (k.y - 0.5) / step);
    let cell = CELL_IN_SIGMAS * k.sigma / step;
    let (sin, cos) = k.turn.sin_cos();
    let mut hist: Histogram = [0.0; BINS];
    let (w, h) = (plane.width() as i32, plane.height() as i32);
    let samples = &*SAMPLES;
    for &(v, near_v) in samples {
        for &(u, near_u) in samples {
            // Cut off, not rounded: what is below nothing is not used.
            let x = (cx + cell * (cos * u - sin * v) + 0.5) as i32;
            let y = (cy + cell * (sin * u + cos * v) + 0.5) as i32;
            if x < 1 || y < 1 || x >= w - 1 || y >= h - 1 {
                continue;
            }
            let (gx, gy) = slope(plane, x as usize, y as usize);
            let strength = (gx * gx + gy * gy).sqrt();
            if strength == 0.0 {
                continue;
            }
            // Half a turn and one and a bit are the most to be taken off: with two more it is above nothing, and
            // cutting off does what a remainder does, without a call.
            let turns = (direction(gx, gy) - k.turn) / std::f32::consts::TAU + 2.0;
            let a = 8.0 * (turns - turns as i32 as f32);
            add(&mut hist, u + 1.5, v + 1.5, a, near_u * near_v * strength);
        }
    }
    finish(&middle(&hist))
}

/// Twice the gradient at a sample that has neighbours on every side.
pub(crate) fn slope(plane: &Plane<f32>, x: usize, y: usize) -> (f32, f32) {
    let row = plane.row(y);
    (row[x + 1] - row[x - 1], plane.at(x, y + 1) - plane.at(x, y - 1))
}

/// The angle of (x, y) from the x axis, -pi to pi, within 0.004 radians: a small rational fit of
/// the arctangent (Rajan et al., *IEEE Signal Processing Magazine* 23 (2006), 108-111, eq. 9; from
/// memory), enough for histograms of eight and of thirty-six directions.
pub(crate) fn direction(x: f32, y: f32) -> f32 {
    let (ax, ay) = (x.abs(), y.abs());
    // The least number there is keeps 0 of 0 from being none.
    let t = ax.min(ay) / ax.max(ay).max(f32::MIN_POSITIVE);
    let eighth = std::f32::consts::FRAC_PI_4 * t + t * (1.0 - t) * (0.2447 + 0.0663 * t);
    let quarter = if ax < ay { std::f32::consts::FRAC_PI_2 - eighth } else { eighth };
    let half = if x < 0.0 { std::f32::consts::PI - quarter } else { quarter };
    half.copysign(y)
}

/// Cells a side, with those about the sixteen, into which half of what lies at their edge falls.
const CELLS_AND_RIM: usize = 6;
/// Directions, and the first once more behind the last.
const DIRECTIONS_AND_FIRST: usize = 9;
const BINS: usize = CELLS_AND_RIM * CELLS_AND_RIM * DIRECTIONS_AND_FIRST;
type Histogram = [f32; BINS];

/// Shares a weight among the eight nearest bins of place and direction.
fn add(hist: &mut Histogram, u: f32, v: f32, a: f32, weight: f32) {
    // None is below -1, and cutting off is quicker than a call of `floor`.
    let (u0, v0, a0) = ((u + 1.0) as usize, (v + 1.0) as usize, a as usize % 8);
    let (fu, fv, fa) = (u + 1.0 - u0 as f32, v + 1.0 - v0 as f32, a - a as usize as f32);
    for (row, wv) in [(v0, 1.0 - fv), (v0 + 1, fv)] {
        for (column, wu) in [(u0, 1.0 - fu), (u0 + 1, fu)] {
            let bin = (row * CELLS_AND_RIM + column) * DIRECTIONS_AND_FIRST + a0;
            let w = weight * wv * wu;
            hist[bin] += w * (1.0 - fa);
            hist[bin + 1] += w * fa;
        }
    }
}

/// The sixteen cells in the middle, each of eight directions.
fn middle(hist: &Histogram) -> [f32; LENGTH] {
    std::array::from_fn(|i| {
        let (row, column, direction) = (i / 32 + 1, i / 8 % 4 + 1, i % 8);
        let cell = (row * CELLS_AND_RIM + column) * DIRECTIONS_AND_FIRST;
        hist[cell + direction] + if direction == 0 { hist[cell + 8] } else { 0.0 }
    })
}

fn finish(hist: &[f32; LENGTH]) -> Descriptor {
    let sum: f32 = hist.iter().sum();
    if sum <= 0.0 {
        return [i16x8::ZERO; LENGTH / 8];
    }
    // Root of shares: the sum of squares is then one.
    let root = |v: f32| ((v / sum).sqrt() * NORM + 0.5) as i16;
    std::array::from_fn(|i| i16x8::new(std::array::from_fn(|k| root(hist[8 * i + k]))))
}

/// Squared distance of two descriptors, if it is below `bound`: of most, half the numbers tell that it is not.
pub(crate) fn distance_below(a: &Descriptor, b: &Descriptor, bound: i32) -> Option<i32> {
    let part = |a: &[i16x8], b: &[i16x8]| {
        let mut lanes = i32x4::ZERO;
        for (&p, &q) in a.iter().zip(b) {
            let off = p - q;
            lanes += off.dot(off);
        }
        lanes.reduce_add()
    };
    let ((a, rest_a), (b, rest_b)) = (a.split_at(a.len() / 2), b.split_at(b.len() / 2));
    let half = part(a, b);
    if half >= bound {
        return None;
    }
    let whole = half + part(rest_a, rest_b);
    (whole < bound).then_some(whole)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_distance_is_told_only_below_its_bound() {
        let of = |seed: i16| -> Descriptor {
            std::array::from_fn(|i| i16x8::new(std::array::from_fn(|k| (seed * (8 * i + k) as i16) % 101)))
        };
        let (a, b) = (of(7), of(13));
        let all = |d: &Descriptor| d.iter().flat_map(|v| v.to_array()).collect::<Vec<_>>();
        let whole = all(&a).iter().zip(all(&b)).map(|(p, q)| i32::from(p - q).pow(2)).sum::<i32>();
        for bound in [0, whole / 4, whole] {
            assert_eq!(distance_below(&a, &b, bound), None);
        }
        assert_eq!(distance_below(&a, &b, whole + 1), Some(whole));
    }

    #[test]
    fn directions_agree_with_the_library_arctangent() {
        for i in 0..360 {
            let a = (i as f32 + 0.25).to_radians();
            let (s, c) = a.sin_cos();
            let d = (direction(3.0 * c, 3.0 * s) - s.atan2(c)).abs();
            assert!(d.min(std::f32::consts::TAU - d) < 0.004, "{i}: {d}");
        }
    }
}
