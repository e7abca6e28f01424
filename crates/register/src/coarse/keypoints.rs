//! Places that can be found again at another size and turn: blobs of ink in scale space.
//!
//! Extrema of differences of Gaussians (Lowe, *Int. J. Computer Vision* 60 (2004), 91-110, §3-5),
//! with the number kept spread evenly over the sheet, so that a dense border of ornaments cannot
//! crowd out the text.

use super::blur::{blur, thinned};
use super::descriptor::{direction, slope};
use rayon::prelude::*;
use sheet::Plane;

/// A blob: its place and size on the plane it was found in, and the direction of its gradients.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Keypoint {
    pub(crate) x: f32,
    pub(crate) y: f32,
    /// Standard deviation of the blur at which the blob answers most.
    pub(crate) sigma: f32,
    /// Main direction of gradients, radians, clockwise from the x axis.
    pub(crate) turn: f32,
    strength: f32,
    octave: usize,
    layer: usize,
}

/// One octave of scale space: `SCALES + 3` blurs of a plane reduced by 2^octave.
pub(crate) struct Octave {
    pub(crate) blurred: Vec<Plane<f32>>,
    pub(crate) step: f32,
}

/// Scales in an octave (Lowe §3.2 finds 3 repeats best).
const SCALES: usize = 3;
/// Blur of the first layer of an octave (Lowe §3.3).
pub(crate) const FIRST_SIGMA: f32 = 1.6;
/// Blur that a photograph is taken to have already.
const NATIVE_SIGMA: f32 = 0.5;
/// Smallest answer of a blob, in ink of 0 to 1 (Lowe's 0.03 over the number of scales).
const WEAKEST: f32 = 0.01;
/// Largest ratio of principal curvatures (Lowe §4.1).
const EDGE_RATIO: f32 = 10.0;
/// Samples of a row that are asked at once.
const STRIDE: usize = 16;
/// The sheet is cut into this many cells a side; each keeps its share of the strongest blobs.
const CELLS: usize = 10;

pub(crate) fn octaves(plane: &Plane<f32>) -> Vec<Octave> {
    let mut out: Vec<Octave> = Vec::new();
    let mut room = Vec::new();
    let mut base = blur(plane, &mut room, (FIRST_SIGMA.powi(2) - NATIVE_SIGMA.powi(2)).sqrt());
    let mut step = 1.0;
    let ratio = 2f32.powf(1.0 / SCALES as f32);
    while base.width().min(base.height()) >= 24 && out.len() < 5 {
        let mut blurred = vec![base];
        for s in 1..SCALES + 3 {
            let before = FIRST_SIGMA * ratio.powi(s as i32 - 1);
            let next = blur(&blurred[s - 1], &mut room, before * (ratio * ratio - 1.0).sqrt());
            blurred.push(next);
        }
        base = thinned(&blurred[SCALES]);
        out.push(Octave { blurred, step });
        step *= 2.0;
    }
    out
}

/// The strongest blobs of a plane of ink (0 to 1), at most `most` of them, spread over it; their turn is not told yet.
pub(crate) fn blobs(octaves: &[Octave], most: usize) -> Vec<Keypoint> {
    let mut found: Vec<Keypoint> = Vec::new();
    for (o, octave) in octaves.iter().enumerate() {
        for layer in 1..=SCALES {
            found.extend(extrema(Differences(&octave.blurred[layer - 1..]), o, layer, octave.step));
        }
    }
    let Some(first) = octaves.first() else { return Vec::new() };
    spread(found, first.blurred[0].width(), first.blurred[0].height(), most)
}

/// Differences of neighbouring blurs, from the first given on. They are taken where they are asked for: few samples
/// are, and five planes of them would weigh as much as all else.
#[derive(Clone, Copy)]
struct Differences<'o>(&'o [Plane<f32>]);

impl Differences<'_> {
    fn at(self, layer: usize, x: usize, y: usize) -> f32 {
        self.0[layer + 1].at(x, y) - self.0[layer].at(x, y)
    }
}

#[allow(clippy::needless_bitwise_bool, reason = "all are asked at once, without a branch")]
fn extrema(d: Differences<'_>, octave: usize, layer: usize, step: f32) -> Vec<Keypoint> {
    let (w, h) = (d.0[1].width(), d.0[1].height());
    if w < 5 || h < 5 {
        return Vec::new();
    }
    let rows: Vec<Vec<Keypoint>> = (2..h - 2)
        .into_par_iter()
        .map(|y| {
            let mut out = Vec::new();
            let row: Vec<f32> =
                d.0[2].row(y).iter().zip(d.0[1].row(y)).map(|(wide, narrow)| wide - narrow).collect();
            let weakest = 0.8 * WEAKEST;
            for from in (2..w - 2).step_by(STRIDE) {
                let to = (from + STRIDE).min(w - 2);
                let near = row[from - 1..to - 1].iter().zip(&row[from..to]).zip(&row[from + 1..=to]);
                // Most are no extremum of their own row.
                let mut tops = [false; STRIDE];
                for (top, ((&l, &v), &r)) in tops.iter_mut().zip(near) {
                    *top = (v >= weakest) & (l < v) & (r < v) | (v <= -weakest) & (l > v) & (r > v);
                }
                for x in (from..to).filter(|x| tops[x - from]) {
                    if is_extremum(d, x, y, row[x]) {
                        out.extend(blob(d, x, y, octave, layer, step));
                    }
                }
            }
            out
        })
        .collect();
    rows.into_iter().flatten().collect()
}

/// The blob of an extremum, to a fraction of a sample.
fn blob(d: Differences<'_>, x: usize, y: usize, octave: usize, layer: usize, step: f32) -> Option<Keypoint> {
    let (dx, dy, ds, value) = refine(d, x, y)?;
    if value.abs() < WEAKEST || is_edge(|x, y| d.at(1, x, y), x, y) {
        return None;
    }
    let scale = layer as f32 + ds;
    Some(Keypoint {
        // Sample i of this octave stands over sample i * step of the plane; its centre
        // is half a sample further by the convention of `Plane`.
        x: (x as f32 + dx) * step + 0.5,
        y: (y as f32 + dy) * step + 0.5,
        sigma: FIRST_SIGMA * 2f32.powf(scale / SCALES as f32) * step,
        turn: 0.0,
        strength: value.abs(),
        octave,
        layer: (scale.round() as usize).clamp(1, SCALES),
    })
}

fn is_extremum(d: Differences<'_>, x: usize, y: usize, v: f32) -> bool {
    let beyond = |other: f32| if v > 0.0 { v <= other } else { v >= other };
    for layer in 0..3 {
        for yy in y - 1..=y + 1 {
            let rows = [&d.0[layer + 1], &d.0[layer]].map(|p| &p.row(yy)[x - 1..=x + 1]);
            for (i, (wide, narrow)) in rows[0].iter().zip(rows[1]).enumerate() {
                let centre = layer == 1 && yy == y && i == 1;
                if !centre && beyond(wide - narrow) {
                    return false;
                }
            }
        }
    }
    true
}

/// The extremum's offset in x, y and scale, each within half a step, and its value.
fn refine(d: Differences<'_>, x: usize, y: usize) -> Option<(f32, f32, f32, f32)> {
    let at = |l: usize, i: isize, j: isize| d.at(l, (x as isize + i) as usize, (y as isize + j) as usize);
    let v = at(1, 0, 0);
    let g = nalgebra::Vector3::new(
        (at(1, 1, 0) - at(1, -1, 0)) / 2.0,
        (at(1, 0, 1) - at(1, 0, -1)) / 2.0,
        (at(2, 0, 0) - at(0, 0, 0)) / 2.0,
    );
    let xx = at(1, 1, 0) + at(1, -1, 0) - 2.0 * v;
    let yy = at(1, 0, 1) + at(1, 0, -1) - 2.0 * v;
    let ss = at(2, 0, 0) + at(0, 0, 0) - 2.0 * v;
    let xy = (at(1, 1, 1) - at(1, -1, 1) - at(1, 1, -1) + at(1, -1, -1)) / 4.0;
    let xs = (at(2, 1, 0) - at(2, -1, 0) - at(0, 1, 0) + at(0, -1, 0)) / 4.0;
    let ys = (at(2, 0, 1) - at(2, 0, -1) - at(0, 0, 1) + at(0, 0, -1)) / 4.0;
    let hessian = nalgebra::Matrix3::new(xx, xy, xs, xy, yy, ys, xs, ys, ss);
    let o = -hessian.try_inverse()? * g;
    // A blob whose peak lies more than a sample away is found again there, or is none.
    (o.amax() <= 1.0).then(|| (o.x, o.y, o.z, v + 0.5 * g.dot(&o)))
}

fn is_edge(d: impl Fn(usize, usize) -> f32, x: usize, y: usize) -> bool {
    let v = d(x, y);
    let xx = d(x + 1, y) + d(x - 1, y) - 2.0 * v;
    let yy = d(x, y + 1) + d(x, y - 1) - 2.0 * v;
    let xy = (d(x + 1, y + 1) - d(x - 1, y + 1) - d(x + 1, y - 1) + d(x - 1, y - 1)) / 4.0;
    let (trace, det) = (xx + yy, xx * yy - xy * xy);
    det <= 0.0 || trace * trace * EDGE_RATIO >= (EDGE_RATIO + 1.0).powi(2) * det
}

/// At most `most`, taken cell by cell in turn, strongest first.
fn spread(mut found: Vec<Keypoint>, w: usize, h: usize, most: usize) -> Vec<Keypoint> {
    found.sort_by(|a, b| {
        b.strength.total_cmp(&a.strength).then(a.y.total_cmp(&b.y)).then(a.x.total_cmp(&b.x))
    });
    if found.len() <= most {
        return found;
    }
    let mut cells: Vec<Vec<Keypoint>> = vec![Vec::new(); CELLS * CELLS];
    for k in found {
        let cx = ((k.x / w as f32 * CELLS as f32) as usize).min(CELLS - 1);
        let cy = ((k.y / h as f32 * CELLS as f32) as usize).min(CELLS - 1);
        cells[cy * CELLS + cx].push(k);
    }
    let mut out = Vec::with_capacity(most);
    for round in 0.. {
        let before = out.len();
        for cell in &cells {
            if let Some(k) = cell.get(round)
                && out.len() < most
            {
                out.push(*k);
            }
        }
        if out.len() == before || out.len() >= most {
            break;
        }
    }
    out
}

/// The blob once for each main direction of its gradients (Lowe §5): the strongest, and any within
/// a fifth of it.
pub(crate) fn directions(k: &Keypoint, octaves: &[Octave]) -> Vec<Keypoint> {
    const BINS: usize = 36;
    let octave = &octaves[k.octave];
    let plane = &octave.blurred[k.layer];
    let (cx, cy) = ((k.x - 0.5) / octave.step, (k.y - 0.5) / octave.step);
    let sigma = 1.5 * k.sigma / octave.step;
    let r = (3.0 * sigma).round() as isize;
    let mut bins = [0.0f32; BINS];
    // Every second sample is enough where the blur is wide.
    let stride = ((k.sigma / octave.step) * 0.75).floor().max(1.0) as usize;
    let falls: Vec<(isize, f32)> =
        (-r..=r).step_by(stride).map(|i| (i, (-((i * i) as f32) / (2.0 * sigma * sigma)).exp())).collect();
    for &(j, near_j) in &falls {
        for &(i, near_i) in &falls {
            let (x, y) = (cx.round() as isize + i, cy.round() as isize + j);
            if x < 1 || y < 1 || x + 1 >= plane.width() as isize || y + 1 >= plane.height() as isize {
                continue;
            }
            let (gx, gy) = slope(plane, x as usize, y as usize);
            let a = direction(gx, gy) / std::f32::consts::TAU;
            let a = if a < 0.0 { a + 1.0 } else { a };
            bins[((a * BINS as f32) as usize).min(BINS - 1)] += near_i * near_j * (gx * gx + gy * gy).sqrt();
        }
    }
    for _ in 0..4 {
        let old = bins;
        for i in 0..BINS {
            bins[i] = (old[(i + BINS - 1) % BINS] + old[i] + old[(i + 1) % BINS]) / 3.0;
        }
    }
    let top = bins.iter().copied().fold(0.0f32, f32::max);
    (0..BINS)
        .filter_map(|i| {
            let (p, c, n) = (bins[(i + BINS - 1) % BINS], bins[i], bins[(i + 1) % BINS]);
            if c <= p || c < n || c < 0.8 * top {
                return None;
            }
            let peak = i as f32 + 0.5 + 0.5 * (p - n) / (p - 2.0 * c + n);
            Some(Keypoint { turn: peak / BINS as f32 * std::f32::consts::TAU, ..*k })
        })
        .collect()
}

impl Keypoint {
    /// The octave's plane and the factor from the input plane to it.
    pub(crate) fn plane<'a>(&self, octaves: &'a [Octave]) -> (&'a Plane<f32>, f32) {
        let octave = &octaves[self.octave];
        (&octave.blurred[self.layer], octave.step)
    }
}
