//! The baseline and the x-line of a traced line, from the edges of its band of ink.

use super::trace::{Track, at};
use crate::Plane;
use nalgebra::{DMatrix, DVector};

/// Height of the strips compared above and below an edge, in x-heights.
const STRIP: f64 = 0.3;
/// The band is looked at this far above and below its middle, in x-heights.
const REACH: f64 = 1.6;
/// Steps to the pixel in which a profile is sampled down.
const FINE: f64 = 2.0;

/// How many places on the line the expected slope is worth: it steadies short lines only.
const EXPECTED: f64 = 1.0;

/// A line of type with its edges, in pixels of the level.
#[derive(Debug, Clone)]
pub(super) struct Fitted {
    pub(super) left: f64,
    pub(super) right: f64,
    /// y of the baseline as a polynomial of (x - centre) / scale.
    curve: Vec<f64>,
    centre: f64,
    scale: f64,
    pub(super) x_height: f64,
    /// Contrast at the baseline plus that at the x-line, in darkness 0 to 1.
    pub(super) contrast: f64,
}

impl Fitted {
    /// The baseline's y at a column; beyond the ends it goes on straight.
    pub(super) fn baseline(&self, x: f64) -> f64 {
        let inside = x.clamp(self.left, self.right);
        let at = |x: f64| {
            let u = (x - self.centre) / self.scale;
            self.curve.iter().rev().fold(0.0, |sum, c| sum * u + c)
        };
        at(inside) + (x - inside) * self.fall(inside)
    }

    /// Rows the baseline falls for every pixel at a column.
    pub(super) fn fall(&self, x: f64) -> f64 {
        let u = (x.clamp(self.left, self.right) - self.centre) / self.scale;
        let powers = self.curve.iter().enumerate().skip(1);
        powers.map(|(i, c)| i as f64 * c * u.powi(i as i32 - 1)).sum::<f64>() / self.scale
    }

    /// A straight line of type.
    #[cfg(test)]
    pub(super) fn straight(left: f64, right: f64, y: f64, fall: f64, x_height: f64) -> Self {
        let scale = (right - left) / 2.0;
        let centre = f64::midpoint(left, right);
        let curve = vec![y + fall * scale, fall * scale];
        Self { left, right, curve, centre, scale, x_height, contrast: 0.5 }
    }

    /// The same line on a level `times` as large.
    pub(super) fn scaled(&self, times: f64) -> Self {
        Self {
            left: self.left * times,
            right: self.right * times,
            curve: self.curve.iter().map(|c| c * times).collect(),
            centre: self.centre * times,
            scale: self.scale * times,
            x_height: self.x_height * times,
            contrast: self.contrast,
        }
    }

    /// The same line from one column to another.
    pub(super) fn between(&self, left: f64, right: f64) -> Self {
        Self { left, right, ..self.clone() }
    }

    /// Whether a good part of this line's band lies over the letters of another.
    pub(super) fn lies_on(&self, o: &Self) -> bool {
        let (from, to) = (self.left.max(o.left), self.right.min(o.right));
        if to - from < 0.25 * self.width() {
            return false;
        }
        let x = f64::midpoint(from, to);
        let (a, b) = (self.baseline(x), o.baseline(x));
        let shared = a.min(b + 0.4 * o.x_height) - (a - self.x_height).max(b - 1.3 * o.x_height);
        shared > 0.4 * self.x_height
    }

    pub(super) fn width(&self) -> f64 {
        self.right - self.left
    }
}

/// Fits the baseline of a track; `None` when its band has no edges. `fall` is the slope to use when
/// the line is too short to show its own.
pub(super) fn fit(ink: &Plane<u8>, track: &Track, x_height: f64, fall: f64) -> Option<Fitted> {
    let middle = smoothed(track, 2.0 * x_height);
    let (left, right) = (middle.first()?.0, middle.last()?.0);
    let step = 2.5 * x_height;
    let blocks = Blocks::of(ink, &middle, left, right, step / 2.0, x_height);
    let whole = blocks.profile(left, right);
    let (x_line, base, contrast) = whole.edges(x_height)?;
    let size = base - x_line;
    let mut places = Vec::new();
    let count = ((right - left) / step).floor().max(1.0);
    for i in 0..count as usize {
        let x = left + (i as f64 + 0.5) * (right - left) / count;
        let near = blocks.profile(x - 0.9 * step, x + 0.9 * step);
        if let Some((off, weight)) = near.edge_near(base, 0.35 * x_height, x_height) {
            places.push((x, at(&middle, x) + off, weight));
        }
    }
    let (centre, scale) = (f64::midpoint(left, right), ((right - left) / 2.0).max(x_height));
    let ratio = (right - left) / x_height;
    let degree = match ratio {
        ..6.0 => 0,
        6.0..25.0 => 1,
        25.0..60.0 => 2,
        _ => 3,
    };
    let curve = if degree == 0 || places.len() < degree + 2 {
        let mean = weighted_mean(&places, centre, fall).unwrap_or(at(&middle, centre) + base);
        vec![mean, fall * scale]
    } else {
        robust(&places, centre, scale, degree, fall * scale)?
    };
    Some(Fitted { left, right, curve, centre, scale, x_height: size, contrast })
}

/// The slope from the middle of one line to that of another to its right, or the first's own when they
/// lie above each other.
pub(super) fn slope_between(a: &Fitted, b: &Fitted) -> f64 {
    let (p, q) = (f64::midpoint(a.left, a.right), f64::midpoint(b.left, b.right));
    if q - p < a.x_height { a.fall(p) } else { (b.baseline(q) - a.baseline(p)) / (q - p) }
}

/// The mean height of the places at `centre`, when all lie on lines of one slope.
fn weighted_mean(places: &[(f64, f64, f64)], centre: f64, fall: f64) -> Option<f64> {
    let weight: f64 = places.iter().map(|p| p.2).sum();
    let sum: f64 = places.iter().map(|p| p.2 * (p.1 - (p.0 - centre) * fall)).sum();
    (weight > 0.0).then(|| sum / weight)
}

/// A polynomial through (x, y, weight) by iteratively reweighted least squares with Tukey's
/// biweight at 4.685 times the scaled median residual (Beaton & Tukey 1974).
///
/// `slope` is what is expected of the linear term; it counts as much as [`EXPECTED`] places at an end.
fn robust(
    places: &[(f64, f64, f64)],
    centre: f64,
    scale: f64,
    degree: usize,
    slope: f64,
) -> Option<Vec<f64>> {
    let n = degree + 1;
    let mut extra = vec![1.0; places.len()];
    let mut curve = vec![0.0; n];
    for _ in 0..5 {
        let mut normal = DMatrix::<f64>::zeros(n, n);
        let mut right = DVector::<f64>::zeros(n);
        for (&(x, y, w), e) in places.iter().zip(&extra) {
            let u = (x - centre) / scale;
            let powers: Vec<f64> = (0..n).map(|i| u.powi(i as i32)).collect();
            for i in 0..n {
                right[i] += w * e * powers[i] * y;
                for j in 0..n {
                    normal[(i, j)] += w * e * powers[i] * powers[j];
                }
            }
        }
        let usual = EXPECTED * normal[(0, 0)] / places.len() as f64;
        normal[(1, 1)] += usual;
        right[1] += usual * slope;
        // A whisper of damping on the bends, so that few places do not swing the ends.
        for i in 2..n {
            normal[(i, i)] += 1e-3 * normal[(0, 0)];
        }
        curve = normal.cholesky()?.solve(&right).iter().copied().collect();
        let off = |x: f64, y: f64| {
            let u = (x - centre) / scale;
            y - curve.iter().rev().fold(0.0, |sum, c| sum * u + c)
        };
        let mut sizes: Vec<f64> = places.iter().map(|p| off(p.0, p.1).abs()).collect();
        sizes.sort_by(f64::total_cmp);
        let bound = 4.685 * (1.4826 * sizes[sizes.len() / 2]).max(0.15);
        for (e, p) in extra.iter_mut().zip(places) {
            let r = off(p.0, p.1) / bound;
            *e = if r.abs() < 1.0 { (1.0 - r * r).powi(2) } else { 0.0 };
        }
    }
    Some(curve)
}

/// A track averaged along its length over `reach` to both sides.
fn smoothed(track: &Track, reach: f64) -> Track {
    let (mut from, mut to) = (0, 0);
    let mut sum = 0.0;
    track
        .iter()
        .map(|&(x, _)| {
            while to < track.len() && track[to].0 <= x + reach {
                sum += track[to].1;
                to += 1;
            }
            while track[from].0 < x - reach {
                sum -= track[from].1;
                from += 1;
            }
            // Off-centre windows at the ends would bend a sloping line level: their mean x counts.
            (
                x,
                sum / (to - from) as f64
                    + (x - f64::midpoint(track[from].0, track[to - 1].0)) * slope(track, from, to),
            )
        })
        .collect()
}

/// Slope from end to end of a stretch of a track, by the means of its halves.
fn slope(track: &Track, from: usize, to: usize) -> f64 {
    let half = (to - from) / 2;
    if half == 0 {
        return 0.0;
    }
    let mean = |part: &[(f64, f64)]| {
        let n = part.len() as f64;
        (part.iter().map(|p| p.0).sum::<f64>() / n, part.iter().map(|p| p.1).sum::<f64>() / n)
    };
    let (a, b) = (mean(&track[from..from + half]), mean(&track[to - half..to]));
    (b.1 - a.1) / (b.0 - a.0)
}

/// Mean darkness by the distance from a track's middle.
struct Profile {
    /// Sums from the top, so that a strip's mean is one difference; darkness 0 to 1.
    sums: Vec<f64>,
    reach: f64,
}

/// Darkness summed by the distance from a track's middle, for every block of columns.
struct Blocks {
    /// Block after block, from the top of each.
    bins: Vec<u32>,
    /// Columns looked at in each.
    counts: Vec<u32>,
    /// Bins of a block.
    depth: usize,
    reach: f64,
    left: f64,
    /// Width of a block in pixels.
    step: f64,
}

impl Blocks {
    /// Looks at every second column.
    fn of(ink: &Plane<u8>, middle: &Track, left: f64, right: f64, step: f64, x_height: f64) -> Self {
        let reach = (REACH * x_height).ceil();
        let depth = (2.0 * reach * FINE) as usize + 1;
        let count = ((right - left) / step).ceil().max(1.0) as usize;
        let mut out = Self { bins: vec![0; depth * count], counts: vec![0; count], depth, reach, left, step };
        let mut x = left.max(0.0).floor() as usize;
        let end = right.min(ink.width() as f64 - 1.0);
        while x as f64 <= end {
            let block = (((x as f64 + 0.5 - left) / step).max(0.0) as usize).min(count - 1);
            out.counts[block] += 1;
            let bins = &mut out.bins[block * depth..(block + 1) * depth];
            // Fixed point with 16 bits: the row of each bin is a step on from the last.
            let mut row = ((at(middle, x as f64 + 0.5) - reach) * 65536.0) as i64;
            let step_down = (65536.0 / FINE) as i64;
            for bin in bins {
                let y = row >> 16;
                if y >= 0 && y < ink.height() as i64 {
                    *bin += u32::from(ink.at(x, y as usize));
                }
                row += step_down;
            }
            x += 2;
        }
        out
    }

    /// The profile of the blocks from one column to another.
    fn profile(&self, from: f64, to: f64) -> Profile {
        let last = self.counts.len() - 1;
        let place = |x: f64| (((x - self.left) / self.step).max(0.0) as usize).min(last);
        let (a, b) = (place(from), place(to));
        let columns: u32 = self.counts[a..=b].iter().sum();
        let unit = 1.0 / (255.0 * f64::from(columns.max(1)));
        let mut sums = vec![0.0; self.depth + 1];
        for i in 0..self.depth {
            let bin: u32 = (a..=b).map(|block| self.bins[block * self.depth + i]).sum();
            sums[i + 1] = sums[i] + f64::from(bin) * unit;
        }
        Profile { sums, reach: self.reach }
    }
}

impl Profile {
    /// Mean darkness between two distances from the middle.
    fn mean(&self, from: f64, to: f64) -> f64 {
        let last = self.sums.len() - 1;
        let place = |d: f64| (((d + self.reach) * FINE).round().max(0.0) as usize).min(last);
        let (a, b) = (place(from), place(to));
        if b > a { (self.sums[b] - self.sums[a]) / (b - a) as f64 } else { 0.0 }
    }

    /// How much darker it is above `d` than below, over strips of a share of the x-height.
    fn drop(&self, d: f64, x_height: f64) -> f64 {
        let strip = (STRIP * x_height).max(1.0);
        self.mean(d - strip, d) - self.mean(d, d + strip)
    }

    /// The x-line and the baseline as distances from the middle, and the contrast of both.
    fn edges(&self, x_height: f64) -> Option<(f64, f64, f64)> {
        let steps = (REACH * x_height * FINE) as i32;
        let mut best: Option<(f64, f64, f64, f64)> = None;
        for i in -steps..0 {
            let top = f64::from(i) / FINE;
            let rise = -self.drop(top, x_height);
            if rise <= 0.0 {
                continue;
            }
            for j in 0..steps {
                let base = f64::from(j) / FINE;
                let size = (base - top) / x_height;
                if !(0.55..=1.8).contains(&size) {
                    continue;
                }
                let fall = self.drop(base, x_height);
                // Sizes far from what the band was found at must earn it.
                let score = (fall + rise) * (1.0 - 0.5 * size.ln().powi(2));
                if fall > 0.0 && best.is_none_or(|b| score > b.3) {
                    best = Some((top, base, fall + rise, score));
                }
            }
        }
        best.map(|b| (b.0, b.1, b.2))
    }

    /// The sharpest drop within `reach` of `about`, to a fraction of a step, with its contrast.
    fn edge_near(&self, about: f64, reach: f64, x_height: f64) -> Option<(f64, f64)> {
        let steps = (reach * FINE).ceil() as i32;
        let drops: Vec<f64> =
            (-steps - 1..=steps + 1).map(|i| self.drop(about + f64::from(i) / FINE, x_height)).collect();
        let best = (1..drops.len() - 1).max_by(|&a, &b| drops[a].total_cmp(&drops[b]))?;
        if drops[best] <= 0.0 {
            return None;
        }
        let bend = drops[best - 1] - 2.0 * drops[best] + drops[best + 1];
        let off = if bend < 0.0 {
            (0.5 * (drops[best - 1] - drops[best + 1]) / bend).clamp(-0.5, 0.5)
        } else {
            0.0
        };
        Some((about + (best as f64 - 1.0 - f64::from(steps) + off) / FINE, drops[best]))
    }
}
