//! Finding a small window of one impression in the other: normalised cross-correlation with a
//! sub-pixel peak and a doubt.

use sheet::{Plane, Point};

/// The local straight map by which a window of A is looked for in B: where the window's centre
/// goes, and the slope of the map there. All in samples of the two levels at work.
#[derive(Debug, Clone, Copy)]
pub(crate) struct LocalMap {
    pub(crate) centre: Point,
    pub(crate) slope: [[f64; 2]; 2],
}

/// A window of A, by whole samples.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Window {
    pub(crate) x: usize,
    pub(crate) y: usize,
    pub(crate) w: usize,
    pub(crate) h: usize,
}

impl Window {
    pub(crate) fn centre(self) -> Point {
        Point::new(self.x as f64 + self.w as f64 / 2.0, self.y as f64 + self.h as f64 / 2.0)
    }
}

/// Where the window was found, relative to where the map expected it, in samples of A's level.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Found {
    pub(crate) dx: f64,
    pub(crate) dy: f64,
    /// Normalised cross-correlation at the peak, -1 to 1.
    pub(crate) score: f32,
    /// The best correlation more than two samples from the peak, or -1 where none was tried.
    pub(crate) rival: f32,
    /// The peak lies on the edge of what was searched: the true place may be beyond.
    pub(crate) on_edge: bool,
    /// Standard deviations along x and y, in samples, by the Cramér-Rao bound of a shift in noise.
    pub(crate) sd: [f64; 2],
}

/// A window's ink made ready for matching.
pub(crate) struct Template {
    window: Window,
    values: Vec<f32>,
    energy: f32,
    /// Sums of squared slopes: xx, xy, yy.
    slopes: [f64; 3],
}

/// Noise of neighbouring samples is alike (ink edge, lens blur): about this many samples count as
/// one. Measured on simulated pairs of one setting; see docs/benchmarks.md.
const SAMPLES_PER_INDEPENDENT: f64 = 6.0;

/// Weakest contrast worth matching: standard deviation of ink, of 255.
const LEAST_CONTRAST: f32 = 14.0;

impl Template {
    /// The window's ink less its mean; `None` of a window too even to be placed.
    pub(crate) fn new(ink: &Plane<u8>, window: Window) -> Option<Self> {
        let mut values = Vec::with_capacity(window.w * window.h);
        for y in window.y..window.y + window.h {
            values.extend(ink.row(y)[window.x..window.x + window.w].iter().map(|&v| f32::from(v)));
        }
        let mean = values.iter().sum::<f32>() / values.len() as f32;
        values.iter_mut().for_each(|v| *v -= mean);
        let energy: f32 = values.iter().map(|v| v * v).sum();
        if energy < LEAST_CONTRAST * LEAST_CONTRAST * values.len() as f32 {
            return None;
        }
        let mut slopes = [0.0f64; 3];
        for y in 1..window.h.saturating_sub(1) {
            for x in 1..window.w.saturating_sub(1) {
                let i = y * window.w + x;
                let gx = f64::from(values[i + 1] - values[i - 1]) / 2.0;
                let gy = f64::from(values[i + window.w] - values[i - window.w]) / 2.0;
                slopes[0] += gx * gx;
                slopes[1] += gx * gy;
                slopes[2] += gy * gy;
            }
        }
        Some(Self { window, values, energy, slopes })
    }

    /// Looks for the window in `b` about where `map` puts it, up to `reach` samples away in x and
    /// in y. `scratch` is kept between calls to spare allocations.
    pub(crate) fn find(
        &self,
        b: &Plane<u8>,
        map: &LocalMap,
        reach: (usize, usize),
        scratch: &mut Scratch,
    ) -> Option<Found> {
        let (w, h) = (self.window.w, self.window.h);
        let (rw, rh) = (w + 2 * reach.0, h + 2 * reach.1);
        scratch.resample(b, map, rw, rh)?;
        let (across, down) = (2 * reach.0 + 1, 2 * reach.1 + 1);
        scratch.sums(rw, rh);
        scratch.scores.clear();
        for v in 0..down {
            for u in 0..across {
                let mut dot = 0.0f32;
                for y in 0..h {
                    let t = &self.values[y * w..(y + 1) * w];
                    let r = &scratch.region[(v + y) * rw + u..(v + y) * rw + u + w];
                    dot += product(t, r);
                }
                let spread = scratch.spread(rw, u, v, w, h);
                let score =
                    if spread > 1.0 { dot / (f64::from(self.energy) * spread).sqrt() as f32 } else { -1.0 };
                scratch.scores.push(score);
            }
        }
        self.peak(&scratch.scores, across, down, reach)
    }

    fn peak(&self, scores: &[f32], across: usize, down: usize, reach: (usize, usize)) -> Option<Found> {
        let (best, &score) = scores.iter().enumerate().max_by(|p, q| p.1.total_cmp(q.1))?;
        let (u, v) = (best % across, best / across);
        let rival = scores
            .iter()
            .enumerate()
            .filter(|(i, _)| (i % across).abs_diff(u) > 2 || (i / across).abs_diff(v) > 2)
            .map(|(_, &s)| s)
            .fold(-1.0f32, f32::max);
        let on_edge =
            (reach.0 > 0 && (u == 0 || u + 1 == across)) || (reach.1 > 0 && (v == 0 || v + 1 == down));
        let (sx, sy, rise) = if on_edge || across < 3 || down < 3 {
            (0.0, 0.0, 0.0)
        } else {
            summit(|i, j| f64::from(scores[(v as isize + j) as usize * across + (u as isize + i) as usize]))
        };
        Some(Found {
            dx: u as f64 - reach.0 as f64 + sx,
            dy: v as f64 - reach.1 as f64 + sy,
            score: (score + rise as f32).min(1.0),
            rival,
            on_edge,
            sd: self.doubt(score),
        })
    }

    /// Cramér-Rao bound for the shift of a known pattern in noise: the inverse of the summed outer
    /// products of its slopes over the noise variance. The noise is what the peak leaves unexplained.
    fn doubt(&self, score: f32) -> [f64; 2] {
        let n = self.values.len() as f64;
        let unexplained = f64::from(1.0 - (score * score).clamp(0.0, 0.9999));
        let noise = unexplained * f64::from(self.energy) / n * SAMPLES_PER_INDEPENDENT;
        let [xx, xy, yy] = self.slopes;
        let det = xx * yy - xy * xy;
        if det <= 1e-9 * (xx * yy).max(1.0) {
            return [f64::INFINITY, f64::INFINITY];
        }
        [(noise * yy / det).sqrt(), (noise * xx / det).sqrt()]
    }
}

/// The top of the quadratic surface through the nine values about a peak: its offset, and its height
/// over the middle value's place. Least squares over all nine, so that one noisy value moves it little.
fn summit(at: impl Fn(isize, isize) -> f64) -> (f64, f64, f64) {
    let (mut gx, mut gy, mut xx, mut yy, mut xy) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for j in -1..=1 {
        for i in -1..=1 {
            let (v, x, y) = (at(i, j), i as f64, j as f64);
            gx += x * v / 6.0;
            gy += y * v / 6.0;
            xy += x * y * v / 4.0;
            xx += v * (x * x - 2.0 / 3.0);
            yy += v * (y * y - 2.0 / 3.0);
        }
    }
    let det = xx * yy - xy * xy;
    if xx >= 0.0 || yy >= 0.0 || det <= 0.0 {
        return (0.0, 0.0, 0.0);
    }
    let x = ((xy * gy - yy * gx) / det).clamp(-0.75, 0.75);
    let y = ((xy * gx - xx * gy) / det).clamp(-0.75, 0.75);
    (x, y, (gx * x + gy * y).max(0.0) / 2.0)
}

fn product(a: &[f32], b: &[f32]) -> f32 {
    let mut lanes = [0.0f32; 8];
    let (ca, cb) = (a.chunks_exact(8), b.chunks_exact(8));
    let rest: f32 = ca.remainder().iter().zip(cb.remainder()).map(|(p, q)| p * q).sum();
    for (p, q) in ca.zip(cb) {
        for i in 0..8 {
            lanes[i] += p[i] * q[i];
        }
    }
    lanes.iter().sum::<f32>() + rest
}

/// Room for one search, kept from window to window.
#[derive(Default)]
pub(crate) struct Scratch {
    region: Vec<f32>,
    sums: Vec<[f64; 2]>,
    scores: Vec<f32>,
}

impl Scratch {
    /// B's ink as it would lie on A: `w` by `h` samples about the map's centre. `None` when less
    /// than three quarters of it lies on B.
    fn resample(&mut self, b: &Plane<u8>, map: &LocalMap, w: usize, h: usize) -> Option<()> {
        let [[xx, xy], [yx, yy]] = map.slope;
        let place = |i: f64, j: f64| {
            let (x, y) = (i - w as f64 / 2.0, j - h as f64 / 2.0);
            Point::new(map.centre.x + xx * x + xy * y, map.centre.y + yx * x + yy * y)
        };
        let (bw, bh) = (b.width() as f64, b.height() as f64);
        let on = |p: Point| p.x >= 0.0 && p.y >= 0.0 && p.x < bw && p.y < bh;
        let (fw, fh) = (w as f64, h as f64);
        let probes = [(0.1, 0.1), (0.9, 0.1), (0.9, 0.9), (0.1, 0.9), (0.5, 0.5)];
        if probes.iter().filter(|&&(i, j)| on(place(i * fw, j * fh))).count() < 4 {
            return None;
        }
        self.region.clear();
        self.region.reserve(w * h);
        let inside = [(0.0, 0.0), (fw, 0.0), (fw, fh), (0.0, fh)].iter().all(|&(i, j)| {
            let p = place(i, j);
            p.x >= 1.0 && p.y >= 1.0 && p.x < bw - 1.0 && p.y < bh - 1.0
        });
        let (data, stride) = (b.data(), b.width());
        for j in 0..h {
            let start = place(0.5, j as f64 + 0.5);
            if inside {
                let (mut x, mut y) = (start.x as f32 - 0.5, start.y as f32 - 0.5);
                let (sx, sy) = (xx as f32, yx as f32);
                for _ in 0..w {
                    let (ix, iy) = (x as usize, y as usize);
                    let (ax, ay) = (x - ix as f32, y - iy as f32);
                    let i = iy * stride + ix;
                    let (top, low) = (&data[i..i + 2], &data[i + stride..i + stride + 2]);
                    let t = f32::from(top[0]) + ax * (f32::from(top[1]) - f32::from(top[0]));
                    let l = f32::from(low[0]) + ax * (f32::from(low[1]) - f32::from(low[0]));
                    self.region.push(t + ay * (l - t));
                    x += sx;
                    y += sy;
                }
            } else {
                for i in 0..w {
                    self.region.push(b.sample(start.x + xx * i as f64, start.y + yx * i as f64));
                }
            }
        }
        Some(())
    }

    /// Running sums of values and of squares, with a row and a column of zeros before them.
    fn sums(&mut self, w: usize, h: usize) {
        let stride = w + 1;
        self.sums.clear();
        self.sums.resize(stride * (h + 1), [0.0; 2]);
        for y in 0..h {
            let mut row = [0.0f64; 2];
            for x in 0..w {
                let v = f64::from(self.region[y * w + x]);
                row[0] += v;
                row[1] += v * v;
                let above = self.sums[y * stride + x + 1];
                self.sums[(y + 1) * stride + x + 1] = [above[0] + row[0], above[1] + row[1]];
            }
        }
    }

    /// Sum of squares about the mean in the part at (u, v).
    fn spread(&self, region_w: usize, u: usize, v: usize, w: usize, h: usize) -> f64 {
        let s = region_w + 1;
        let sum = |k: usize| {
            self.sums[(v + h) * s + u + w][k] - self.sums[v * s + u + w][k] - self.sums[(v + h) * s + u][k]
                + self.sums[v * s + u][k]
        };
        sum(1) - sum(0) * sum(0) / (w * h) as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A plane of smooth blots whose exact value is known between samples too.
    fn blots(dx: f64, dy: f64) -> Plane<u8> {
        let mut p = Plane::filled(64, 64, 0u8);
        let spots =
            [(20.0, 22.0, 3.0), (36.0, 30.0, 2.5), (28.0, 40.0, 3.5), (44.0, 44.0, 2.0), (40.0, 20.0, 2.8)];
        for y in 0..64 {
            for x in 0..64 {
                let v: f64 = spots
                    .iter()
                    .map(|&(cx, cy, s): &(f64, f64, f64)| {
                        let (u, w) = (x as f64 + 0.5 - cx - dx, y as f64 + 0.5 - cy - dy);
                        200.0 * (-(u * u + w * w) / (2.0 * s * s)).exp()
                    })
                    .sum();
                p.row_mut(y)[x] = v.min(255.0) as u8;
            }
        }
        p
    }

    #[test]
    fn a_planted_shift_is_found_to_a_twentieth_of_a_sample() {
        let a = blots(0.0, 0.0);
        let window = Window { x: 16, y: 16, w: 32, h: 32 };
        let t = Template::new(&a, window).unwrap();
        for (dx, dy) in [(1.3, -0.7), (-2.4, 1.32), (0.5, 0.5), (0.0, 0.0)] {
            let b = blots(dx, dy);
            let map = LocalMap { centre: window.centre(), slope: [[1.0, 0.0], [0.0, 1.0]] };
            let f = t.find(&b, &map, (4, 4), &mut Scratch::default()).unwrap();
            assert!((f.dx - dx).abs() < 0.05 && (f.dy - dy).abs() < 0.05, "{dx} {dy}: {f:?}");
            assert!(f.score > 0.99);
        }
    }

    #[test]
    fn even_paper_has_no_template() {
        let a = Plane::filled(40, 40, 30u8);
        assert!(Template::new(&a, Window { x: 4, y: 4, w: 20, h: 20 }).is_none());
    }
}
