//! Ink made alike: in each part of a cut all impressions are brought to one weight of ink.
//!
//! A heavier impression is blacker, and fatter everywhere. So in each part the ink is told as a share of what solid ink is
//! there, and where its edge is drawn is chosen so that in all impressions the same share of the part is ink: that of the
//! impression in the middle. What is then lost in one was lost in a place, and not all over.

use crate::rank::median;
use rayon::prelude::*;
use sheet::{Plane, Rect};

/// Side of a cell, in units; a part is three cells by three.
const CELL: f64 = 1.5;
/// Ink above this, of 255, is print and tells how black solid ink is.
const PRINT: usize = 70;
/// Share of the print that is less black than what is taken for solid.
const SOLID: f64 = 0.85;
/// A part of which less than this share is print does not tell how black solid ink is.
const LEAST_PRINT: f64 = 0.02;
/// Of what is solid elsewhere a part must have this share to be inked well.
const WELL: f64 = 0.55;
/// The edge is drawn between these shares of solid ink, and in half of it when nothing is known.
const EDGE: [f64; 2] = [0.28, 0.74];

/// One impression made alike.
pub(super) struct Alike {
    /// Ink, 0 (none) to 255 (as the wood prints), its edge at 128.
    pub(super) ink: Plane<u8>,
    /// Ink as it is on the photograph, a little softened, 0 to 255.
    pub(super) soft: Plane<u8>,
    /// How black solid ink is in each cell, 0 to 1.
    solid: Vec<f32>,
    /// How well each cell is inked, as a share of what is usual in the impression.
    well: Vec<f32>,
    across: usize,
    cell: usize,
}

impl Alike {
    /// How black solid ink is about a place (samples), 0 to 1 and never nothing, and how well it is inked, 0 to about 1; both
    /// of the best inked of the cells that it lies in or touches.
    pub(super) fn about(&self, place: Rect) -> (f64, f64) {
        let near = place.grown(self.cell as f64);
        let middle = near.centre();
        let (x, y) = ([near.x, middle.x, near.right()], [near.y, middle.y, near.bottom()]);
        let cells = x.into_iter().flat_map(|x| y.into_iter().map(move |y| self.at(x, y)));
        let best = cells.max_by(|&p, &q| self.well[p].total_cmp(&self.well[q])).unwrap_or(0);
        (f64::from(self.solid[best]).max(0.05), f64::from(self.well[best]))
    }

    fn at(&self, x: f64, y: f64) -> usize {
        let down = self.well.len() / self.across;
        let i = (x.max(0.0) as usize / self.cell).min(self.across - 1);
        let j = (y.max(0.0) as usize / self.cell).min(down - 1);
        j * self.across + i
    }
}

/// Sums over a part of one impression.
struct Part {
    /// How black solid ink is, 0 to 255; `None` where hardly any is.
    solid: Option<f64>,
    counts: Box<[u32; 256]>,
    samples: f64,
}

/// Makes impressions of one size alike; `unit` is the samples of the unit of the placement, and from nothing to all over about the
/// edge of ink goes `softness` of solid ink.
pub(super) fn alike(inks: &[&Plane<u8>], unit: f64, softness: f64) -> Vec<Alike> {
    let (w, h) = inks.first().map_or((0, 0), |o| (o.width(), o.height()));
    let cell = ((CELL * unit).round() as usize).max(4);
    let (across, down) = (w.div_ceil(cell).max(1), h.div_ceil(cell).max(1));
    let soft: Vec<Plane<u8>> = inks.par_iter().map(|ink| softened(ink)).collect();
    let parts: Vec<Vec<Part>> = soft.par_iter().map(|ink| parts(ink, cell, across, down)).collect();
    let usual: Vec<f64> = parts.iter().map(|p| usual(p)).collect();
    let is_well = |k: usize, i: usize| parts[k][i].solid.is_some_and(|s| s >= WELL * usual[k]);
    // The share of each part that is ink, in the impression in the middle of those that are inked well.
    let share: Vec<f64> = (0..across * down)
        .map(|i| {
            let mut of: Vec<f64> =
                (0..soft.len()).filter(|&k| is_well(k, i)).map(|k| parts[k][i].share()).collect();
            if of.is_empty() {
                of = parts.iter().map(|p| p[i].share()).collect();
            }
            middle(of)
        })
        .collect();
    soft.into_par_iter()
        .zip(parts.into_par_iter().zip(usual))
        .map(|(soft, (parts, usual))| {
            let solid: Vec<f64> =
                parts.iter().map(|p| p.solid.unwrap_or(usual).max(WELL * usual).max(1.0)).collect();
            let edge: Vec<f64> =
                parts.iter().zip(&share).zip(&solid).map(|((p, &f), &s)| p.edge(f, s)).collect();
            let well = parts.iter().map(|p| (p.solid.unwrap_or(0.0) / usual.max(1.0)) as f32).collect();
            let ink = drawn(&soft, (cell, across), &edge, &solid, softness);
            let solid = solid.iter().map(|s| (s / 255.0) as f32).collect();
            Alike { ink, soft, solid, well, across, cell }
        })
        .collect()
}

impl Part {
    /// Share of it that is ink.
    fn share(&self) -> f64 {
        let Some(solid) = self.solid else { return 0.0 };
        let from = (solid / 2.0) as usize;
        f64::from(self.counts[from..].iter().sum::<u32>()) / self.samples
    }

    /// Where the edge of ink is drawn, 0 to 255, so that such a share of it is ink.
    fn edge(&self, share: f64, solid: f64) -> f64 {
        if share <= LEAST_PRINT || self.solid.is_none() {
            return 0.5 * solid;
        }
        let wanted = share * self.samples;
        let mut above = 0.0;
        let level = (0..256usize).rev().find(|&v| {
            above += f64::from(self.counts[v]);
            above >= wanted
        });
        (level.unwrap_or(0) as f64).clamp(EDGE[0] * solid, EDGE[1] * solid)
    }
}

/// How black solid ink usually is in an impression, 0 to 255: of bare paper as black as can be.
fn usual(parts: &[Part]) -> f64 {
    let solid: Vec<f64> = parts.iter().filter_map(|p| p.solid).collect();
    if solid.is_empty() { 255.0 } else { median(solid) }
}

fn parts(ink: &Plane<u8>, cell: usize, across: usize, down: usize) -> Vec<Part> {
    let mut cells = vec![[0u32; 256]; across * down];
    for y in 0..ink.height() {
        for (x, &v) in ink.row(y).iter().enumerate() {
            cells[y / cell * across + x / cell][usize::from(v)] += 1;
        }
    }
    let about = |i: usize, most: usize| i.saturating_sub(1)..(i + 2).min(most);
    (0..across * down)
        .map(|i| {
            let mut counts = Box::new([0u32; 256]);
            for y in about(i / across, down) {
                for x in about(i % across, across) {
                    let cell = &cells[y * across + x];
                    counts.iter_mut().zip(cell).for_each(|(c, v)| *c += v);
                }
            }
            let samples = f64::from(counts.iter().sum::<u32>()).max(1.0);
            let print = f64::from(counts[PRINT..].iter().sum::<u32>());
            let solid = (print >= LEAST_PRINT * samples).then(|| {
                let mut below = 0.0;
                let level = (PRINT..256).find(|&v| {
                    below += f64::from(counts[v]);
                    below >= SOLID * print
                });
                level.unwrap_or(255) as f64
            });
            Part { solid, counts, samples }
        })
        .collect()
}

/// Ink about its edge, both told cell by cell and read between their middles.
fn drawn(
    ink: &Plane<u8>,
    (cell, across): (usize, usize),
    edge: &[f64],
    solid: &[f64],
    softness: f64,
) -> Plane<u8> {
    let (w, h) = (ink.width(), ink.height());
    let down = edge.len() / across;
    let mut out = Plane::filled(w, h, 0u8);
    let between = |at: usize, most: usize| {
        let t = ((at as f64 + 0.5) / cell as f64 - 0.5).clamp(0.0, (most - 1) as f64);
        let i = (t as usize).min(most.saturating_sub(2));
        (i, (i + 1).min(most - 1), t - i as f64)
    };
    let columns: Vec<(usize, usize, f64)> = (0..w).map(|x| between(x, across)).collect();
    for y in 0..h {
        let (j, l, v) = between(y, down);
        let mix = |of: &[f64], i: usize, k: usize, u: f64| {
            let row = |j: usize| of[j * across + i] * (1.0 - u) + of[j * across + k] * u;
            row(j) * (1.0 - v) + row(l) * v
        };
        for ((out, &p), &(i, k, u)) in out.row_mut(y).iter_mut().zip(ink.row(y)).zip(&columns) {
            let (edge, solid) = (mix(edge, i, k, u), mix(solid, i, k, u));
            *out = (255.0 * (0.5 + (f64::from(p) - edge) / (softness * solid))) as u8;
        }
    }
    out
}

/// Each sample with half of its neighbours along both sides (binomial weights): single samples are noise.
fn softened(ink: &Plane<u8>) -> Plane<u8> {
    let (w, h) = (ink.width(), ink.height());
    let mut out = Plane::filled(w, h, 0u8);
    let mut column = vec![0u16; w];
    for y in 0..h {
        let (above, here, below) = (ink.row(y.saturating_sub(1)), ink.row(y), ink.row((y + 1).min(h - 1)));
        for (x, c) in column.iter_mut().enumerate() {
            *c = u16::from(above[x]) + 2 * u16::from(here[x]) + u16::from(below[x]);
        }
        for (x, v) in out.row_mut(y).iter_mut().enumerate() {
            let (l, r) = (column[x.saturating_sub(1)], column[(x + 1).min(w - 1)]);
            *v = ((l + 2 * column[x] + r + 8) / 16) as u8;
        }
    }
    out
}

/// The one in the middle; of an even number the mean of both.
fn middle(mut of: Vec<f64>) -> f64 {
    of.sort_by(f64::total_cmp);
    let n = of.len();
    if n == 0 { 0.0 } else { f64::midpoint(of[(n - 1) / 2], of[n / 2]) }
}
