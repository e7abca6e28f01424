//! Finding a small window of one impression in the other: normalised cross-correlation with a
//! sub-pixel peak and a doubt.

use sheet::{PARTS_OF_A_LEVEL, Plane, Point, StraightMap};
use wide::{i16x8, i32x4};

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

/// Which of the places in reach are tried.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Search {
    /// All: also how well the window fits elsewhere is asked.
    All,
    /// From the middle up to where none beside it is better: the place is known to a sample or two.
    Uphill,
}

/// No correlation is as low.
const UNTRIED: f32 = -2.0;

/// A window's ink made ready for matching.
pub(crate) struct Template {
    window: Window,
    /// Ink less its mean in quarters of a level, in rows of `stride`, the rest of each row zero: whole lanes, no
    /// remainders.
    values: Vec<i16x8>,
    /// Lanes in a row.
    stride: usize,
    /// Their sum: what rounding leaves of it.
    rest: i32,
    /// Sum of squares of the ink less its mean, square levels.
    energy: f32,
    /// Sums of squared slopes: xx, xy, yy.
    slopes: [f64; 3],
}

/// Noise of neighbouring samples is alike (ink edge, lens blur): about this many samples count as
/// one. Measured on simulated pairs of one setting; see docs/benchmarks.md.
pub(crate) const SAMPLES_PER_INDEPENDENT: f64 = 6.0;

/// Numbers multiplied at once.
const LANES: usize = 8;
/// Parts of a level of ink that are told apart: products of whole numbers are twice as quick as those of fractions.
const PARTS: f32 = 4.0;

/// Weakest contrast worth matching: standard deviation of ink, of 255.
const LEAST_CONTRAST: f32 = 14.0;

impl Template {
    /// The window's ink less its mean; `None` of a window too even to be placed.
    pub(crate) fn new(ink: &Plane<u8>, window: Window) -> Option<Self> {
        let (w, h) = (window.w, window.h);
        let row = |y: usize| &ink.row(window.y + y)[window.x..window.x + w];
        // In whole numbers, which are summed in lanes.
        let (mut sum, mut squares) = (0u64, 0u64);
        for y in 0..h {
            sum += u64::from(row(y).iter().map(|&v| u32::from(v)).sum::<u32>());
            squares += u64::from(row(y).iter().map(|&v| u32::from(v) * u32::from(v)).sum::<u32>());
        }
        let n = (w * h) as f32;
        let mean = sum as f32 / n;
        let energy = (squares as f64 - (sum * sum) as f64 / f64::from(n)) as f32;
        if energy < LEAST_CONTRAST * LEAST_CONTRAST * n {
            return None;
        }
        let mut slopes = [0i64; 3];
        for y in 1..h.saturating_sub(1) {
            let of_row = slopes_of_row([row(y - 1), row(y), row(y + 1)]);
            slopes.iter_mut().zip(of_row).for_each(|(all, s)| *all += i64::from(s));
        }
        let mean_in_parts = (mean * PARTS + 0.5) as i16;
        let stride = w.next_multiple_of(LANES);
        let mut less_mean = vec![0i16; stride * h];
        for (y, to) in less_mean.chunks_exact_mut(stride).enumerate() {
            to.iter_mut().zip(row(y)).for_each(|(to, &v)| *to = i16::from(v) * PARTS as i16 - mean_in_parts);
        }
        Some(Self {
            window,
            values: less_mean.chunks_exact(LANES).map(i16x8::from_slice_unaligned).collect(),
            stride: stride / LANES,
            // Small, though neither of the two is of a large window.
            rest: (PARTS as i64 * sum as i64 - i64::from(mean_in_parts) * (w * h) as i64) as i32,
            energy,
            // Of differences over two samples.
            slopes: slopes.map(|s| s as f64 / 4.0),
        })
    }

    /// Looks for the window in `b` about where `map` puts it, up to `reach` samples away in x and
    /// in y. `scratch` is kept between calls to spare allocations.
    pub(crate) fn find(
        &self,
        b: &Plane<u8>,
        map: &StraightMap,
        reach: (usize, usize),
        search: Search,
        scratch: &mut Scratch,
    ) -> Option<Found> {
        let (w, h) = (self.window.w, self.window.h);
        let (across, down) = (2 * reach.0 + 1, 2 * reach.1 + 1);
        scratch.resample(b, map, w + 2 * reach.0, h + 2 * reach.1)?;
        scratch.sum_columns(h, down);
        let mut scores = std::mem::take(&mut scratch.scores);
        scores.clear();
        match search {
            Search::All => {
                for v in 0..down {
                    let row = scratch.window_sums(v, w, across);
                    scores.extend(row.enumerate().map(|(u, sums)| self.score(scratch, u, v, sums)));
                }
            }
            Search::Uphill => {
                scores.resize(across * down, UNTRIED);
                self.climb(scratch, &mut scores, (across, down), reach);
            }
        }
        let found = self.peak(&scores, across, down, reach);
        scratch.scores = scores;
        // What was tried on the way up is no rival.
        found.map(|f| if search == Search::Uphill { Found { rival: -1.0, ..f } } else { f })
    }

    /// Tries the middle and what is about it, then what is about the best of these, until none about it is better.
    fn climb(
        &self,
        scratch: &Scratch,
        scores: &mut [f32],
        (across, down): (usize, usize),
        middle: (usize, usize),
    ) {
        let mut top = middle;
        loop {
            let mut best = (UNTRIED, top);
            for v in top.1.saturating_sub(1)..=(top.1 + 1).min(down - 1) {
                for u in top.0.saturating_sub(1)..=(top.0 + 1).min(across - 1) {
                    let score = &mut scores[v * across + u];
                    if *score == UNTRIED {
                        *score = self.score(scratch, u, v, scratch.window_sum(u, v, self.window.w));
                    }
                    if *score > best.0 {
                        best = (*score, (u, v));
                    }
                }
            }
            if scores[top.1 * across + top.0] >= best.0 {
                return;
            }
            top = best.1;
        }
    }

    /// Normalised cross-correlation with the region at (u, v), whose sum and sum of squares are known.
    fn score(&self, scratch: &Scratch, u: usize, v: usize, (sum, squares): (i64, i64)) -> f32 {
        let mean = sum as f64 / (self.window.w * self.window.h) as f64;
        let spread = squares as f64 - sum as f64 * mean;
        if spread <= f64::from(PARTS * PARTS) {
            return -1.0;
        }
        let together = self.product(scratch, u, v) as f64 - f64::from(self.rest) * mean;
        (together / (f64::from(PARTS) * (f64::from(self.energy) * spread).sqrt())) as f32
    }

    /// Sum over the window of its values times those of the region at (u, v).
    fn product(&self, scratch: &Scratch, u: usize, v: usize) -> i64 {
        // So many rows stay below 2^31 in every lane, however wide a word is.
        const ROWS: usize = 8;
        let mut sum = 0i64;
        for (rows, y) in self.values.chunks(ROWS * self.stride).zip((v..).step_by(ROWS)) {
            let mut lanes = i32x4::ZERO;
            for (row, y) in rows.chunks_exact(self.stride).zip(y..) {
                let start = y * scratch.stride + u;
                let other = &scratch.region[start..start + self.stride * LANES];
                for (&p, q) in row.iter().zip(other.chunks_exact(LANES)) {
                    lanes += p.dot(i16x8::from_slice_unaligned(q));
                }
            }
            sum += i64::from(lanes.reduce_add());
        }
        sum
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
        let n = (self.window.w * self.window.h) as f64;
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

/// Sums of squared slopes of the middle one of three rows, but for its ends: xx, xy, yy; each slope over two samples. No
/// window is 30,000 samples broad.
fn slopes_of_row([up, row, low]: [&[u8]; 3]) -> [i32; 3] {
    let beside = row.iter().zip(row.get(2..).unwrap_or_default());
    let about = up.iter().zip(low).skip(1);
    beside.zip(about).fold([0; 3], |[xx, xy, yy], ((&left, &right), (&up, &low))| {
        let gx = i32::from(i16::from(right) - i16::from(left));
        let gy = i32::from(i16::from(low) - i16::from(up));
        [xx + gx * gx, xy + gx * gy, yy + gy * gy]
    })
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

/// Room for one search, kept from window to window.
#[derive(Default)]
pub(crate) struct Scratch {
    /// B's ink as it would lie on A, in [`PARTS`] of a level and rows of `stride`, of which `width` hold ink.
    region: Vec<i16>,
    stride: usize,
    width: usize,
    /// Sums of each column over a window's height, from each row on that it may begin at: of values, and of squares.
    sums: Vec<i32>,
    squares: Vec<i32>,
    scores: Vec<f32>,
}

impl Scratch {
    /// B's ink as it would lie on A: `w` by `h` samples about the map's centre. `None` when less
    /// than three quarters of it lies on B.
    fn resample(&mut self, b: &Plane<u8>, map: &StraightMap, w: usize, h: usize) -> Option<()> {
        let (fw, fh) = (0.4 * w as f64, 0.4 * h as f64);
        let probes = [(-fw, -fh), (fw, -fh), (fw, fh), (-fw, fh), (0.0, 0.0)];
        if probes.iter().filter(|&&(x, y)| b.holds(map.to(x, y))).count() < 4 {
            return None;
        }
        self.width = w;
        // Room for a window's last lanes, which hold zeros, to reach beyond the row.
        self.stride = w + LANES;
        self.region.clear();
        self.region.resize(self.stride * h, 0);
        for (y, row) in self.region.chunks_exact_mut(self.stride).enumerate() {
            b.row_through(map, [w, h], y, row, |v| (v / (PARTS_OF_A_LEVEL / PARTS as u16)) as i16);
        }
        Some(())
    }

    /// Sums the columns over `h` rows, from each of the first `down` rows on.
    fn sum_columns(&mut self, h: usize, down: usize) {
        let (width, stride) = (self.width, self.stride);
        for sums in [&mut self.sums, &mut self.squares] {
            sums.clear();
            sums.resize(width * down, 0);
        }
        for row in self.region.chunks_exact(stride).take(h) {
            for ((s, q), &v) in self.sums.iter_mut().zip(&mut self.squares).zip(&row[..width]) {
                let v = i32::from(v);
                *s += v;
                *q += v * v;
            }
        }
        for v in 1..down {
            let (out, into) = (&self.region[(v - 1) * stride..], &self.region[(v - 1 + h) * stride..]);
            moved_down(&mut self.sums, width, v, (out, into), |v| v);
            moved_down(&mut self.squares, width, v, (out, into), |v| v * v);
        }
    }

    /// Sum of values and of squares of the region at (u, v), `w` samples wide.
    fn window_sum(&self, u: usize, v: usize, w: usize) -> (i64, i64) {
        let from = v * self.width + u;
        let sum = |s: &[i32]| s[from..from + w].iter().map(|&x| i64::from(x)).sum();
        (sum(&self.sums), sum(&self.squares))
    }

    /// The same of all regions of row `v`, each from the one before.
    fn window_sums(&self, v: usize, w: usize, across: usize) -> impl Iterator<Item = (i64, i64)> {
        let at = move |s: &[i32], x: usize| i64::from(s[v * self.width + x]);
        let mut sums = self.window_sum(0, v, w);
        (0..across).map(move |u| {
            if u > 0 {
                sums.0 += at(&self.sums, u + w - 1) - at(&self.sums, u - 1);
                sums.1 += at(&self.squares, u + w - 1) - at(&self.squares, u - 1);
            }
            sums
        })
    }
}

/// Sums of columns from row `v` on, from those from the row before: without what `of` makes of the row that goes out, and
/// with what it makes of the one that comes in.
fn moved_down(
    sums: &mut [i32],
    width: usize,
    v: usize,
    (out, into): (&[i16], &[i16]),
    of: impl Fn(i32) -> i32,
) {
    let (before, here) = sums.split_at_mut(v * width);
    let before = &before[(v - 1) * width..];
    for (((s, b), &o), &i) in here[..width].iter_mut().zip(before).zip(out).zip(into) {
        *s = b + of(i32::from(i)) - of(i32::from(o));
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
            let map = StraightMap { centre: window.centre(), slope: [[1.0, 0.0], [0.0, 1.0]] };
            let f = t.find(&b, &map, (4, 4), Search::All, &mut Scratch::default()).unwrap();
            assert!((f.dx - dx).abs() < 0.05 && (f.dy - dy).abs() < 0.05, "{dx} {dy}: {f:?}");
            assert!(f.score > 0.99);
            // Uphill it comes to the same place, and asks for nothing farther.
            let uphill = t.find(&b, &map, (4, 4), Search::Uphill, &mut Scratch::default()).unwrap();
            assert_eq!((uphill.dx, uphill.dy, uphill.score), (f.dx, f.dy, f.score));
            assert!(uphill.rival <= -1.0);
        }
    }

    #[test]
    fn even_paper_has_no_template() {
        let a = Plane::filled(40, 40, 30u8);
        assert!(Template::new(&a, Window { x: 4, y: 4, w: 20, h: 20 }).is_none());
    }

    /// Every score of a search, against `skimage.feature.match_template` (Lewis, *Fast Normalized
    /// Cross-Correlation*, 1995).
    #[test]
    fn correlations_are_those_of_scikit_image() {
        let plane = crate::speckled::speckled(90, 80);
        let (side, reach) = (24usize, 10usize);
        let window = Window { x: 30, y: 26, w: side, h: side };
        let arguments = ["ncc", "90", "80", "30", "26", "24"].map(str::to_owned);
        let Some(theirs) = outside::kernel(&arguments, plane.data()) else { return };
        let across = 90 - side + 1;
        let mut scratch = Scratch::default();
        let map = StraightMap { centre: window.centre(), slope: [[1.0, 0.0], [0.0, 1.0]] };
        let template = Template::new(&plane, window).unwrap();
        let found = template.find(&plane, &map, (reach, reach), Search::All, &mut scratch).unwrap();
        let mut worst = 0.0f32;
        for (i, ours) in scratch.scores.iter().enumerate() {
            let (u, v) = (i % (2 * reach + 1), i / (2 * reach + 1));
            worst = worst.max((ours - theirs[(window.y - reach + v) * across + window.x - reach + u]).abs());
        }
        assert!(worst < 1e-4, "largest difference {worst}");
        assert!(found.score > 0.9999 && found.dx.abs() < 0.05 && found.dy.abs() < 0.05, "{found:?}");
    }
}
