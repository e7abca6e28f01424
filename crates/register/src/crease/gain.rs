//! How much better displacements are explained by a jump across a line.

use super::{Crease, Line};
use crate::lanes::{LANES, row_of, sum};
use crate::lay::LineGuide;
use crate::smooth::Sample;
use nalgebra::{SMatrix, SVector};
use wide::f32x8;

/// Lengths that the trial works with, pixels of A.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sizes {
    /// How far on either side print is asked: beyond, cockles bend the paper more than a plane can follow.
    pub(super) band: f64,
    /// Print nearer than this lies on both sides, and is not asked.
    pub(super) astride: f64,
    /// The line is tried in pieces of this length.
    pub(super) piece: f64,
    /// How far print commonly lies off its neighbours' smooth motion.
    pub(super) noise: f64,
    /// How the lines of type run.
    pub(super) lines: LineGuide,
}

/// What a trial showed.
#[derive(Debug, Clone, Copy)]
pub(super) struct Tried {
    /// Fall of the robust loss over all pieces, those of the contrary sign against it, less what chance gives.
    pub(super) gain: f64,
    /// Pieces that show the jump clearly.
    pub(super) clear: usize,
    /// Pieces with enough print on both sides to tell.
    pub(super) judged: usize,
    /// Share of the print in clear pieces that the jump explains.
    pub(super) explained: f64,
    pub(super) crease: Crease,
}

/// Fewest samples on either side of a piece.
const FEWEST: usize = 5;
/// Scales of the rounds of reweighting, in noises: the first counts all alike; then they narrow, so that the start
/// matters little.
const SCALES: [f32; 5] = [f32::INFINITY, 16.0, 6.0, 3.0, 2.0];
/// What one more coefficient gains by chance, about.
const CHANCE: f64 = 1.0;
/// Gain from which a piece shows the jump clearly.
const CLEAR: f64 = 4.0;
/// How much is left out with a line of type, in pitches: all windows that may touch it; and the steps in which it is
/// looked for.
const LEFT_OUT: f64 = 1.5;
const LEFT_OUT_STEP: f64 = 0.25;

/// Tries a line: in every piece of it a curved surface is fitted to the displacements across the line, without a
/// jump and with one.
pub(super) fn try_line(line: Line, samples: &[Sample], sizes: Sizes) -> Option<Tried> {
    let n = line.normal;
    let (first, pieces) = pieces(line, samples, sizes);
    let mut jumps: Vec<Piece> = Vec::new();
    let mut explained = (0usize, 0usize);
    for (k, told) in pieces.iter().enumerate() {
        let Some((broken, gain)) = gained(told) else { continue };
        let middle = ((first + k as i64) as f64 + 0.5) * sizes.piece;
        jumps.push(Piece { middle, jump: broken.jump, gain });
        if gain > CLEAR {
            explained.0 += broken.explained;
            explained.1 += told.len();
        }
    }
    let signed: f64 = jumps.iter().map(|j| j.jump.signum() * j.gain.max(0.0)).sum();
    let weight = |j: &Piece| if j.jump * signed > 0.0 { j.gain.max(0.0) } else { 0.0 };
    let sum: f64 = jumps.iter().map(weight).sum();
    if sum <= 0.0 {
        return None;
    }
    let mean = |of: fn(&Piece) -> f64| jumps.iter().map(|j| weight(j) * of(j)).sum::<f64>() / sum;
    let (middle, jump) = (mean(|j| j.middle), mean(|j| j.jump));
    let spread: f64 = jumps.iter().map(|j| weight(j) * (j.middle - middle).powi(2)).sum();
    let slope: f64 = jumps.iter().map(|j| weight(j) * (j.middle - middle) * (j.jump - jump)).sum();
    let against: f64 =
        jumps.iter().map(|j| if j.jump * signed > 0.0 { j.gain.min(0.0) } else { -j.gain.abs() }).sum();
    Some(Tried {
        gain: sum + against,
        clear: jumps.iter().filter(|j| weight(j) > CLEAR).count(),
        judged: jumps.len(),
        explained: explained.0 as f64 / explained.1.max(1) as f64,
        crease: Crease {
            line: Line { through: line.through + line.direction() * middle, normal: n },
            jump: jump * sizes.noise,
            taper: if spread > 0.0 { slope / spread * sizes.noise } else { 0.0 },
        },
    })
}

/// The gain of a crease when that line of type is left out without which it is least: a line that was moved jumps as
/// all print beyond a crease does.
pub(super) fn gain_without_a_line(crease: &Crease, samples: &[Sample], sizes: Sizes) -> f64 {
    let (_, pieces) = pieces(crease.line, samples, sizes);
    let down = || pieces.iter().flatten().map(|s| s.down);
    let (top, foot) = (down().fold(f64::INFINITY, f64::min), down().fold(f64::NEG_INFINITY, f64::max));
    let steps = ((foot - top) / LEFT_OUT_STEP).ceil().max(0.0) as usize;
    let gain = |told: &[Told]| {
        let (broken, gain) = gained(told)?;
        Some(if broken.jump * crease.jump > 0.0 { gain } else { -gain.abs() })
    };
    let whole: Vec<Option<f64>> = pieces.iter().map(|told| gain(told)).collect();
    let without = |step: usize| -> f64 {
        let from = top + step as f64 * LEFT_OUT_STEP - LEFT_OUT / 2.0;
        let left_out = from..from + LEFT_OUT;
        let of_piece = |(told, whole): (&Vec<Told>, &Option<f64>)| {
            if !told.iter().any(|s| left_out.contains(&s.down)) {
                return *whole;
            }
            gain(&told.iter().filter(|s| !left_out.contains(&s.down)).copied().collect::<Vec<_>>())
        };
        pieces.iter().zip(&whole).filter_map(of_piece).sum()
    };
    (0..=steps).map(without).fold(f64::INFINITY, f64::min)
}

/// The print beside a line, piece by piece along it, and the number along the line of the first piece.
fn pieces(line: Line, samples: &[Sample], sizes: Sizes) -> (i64, Vec<Vec<Told>>) {
    let n = line.normal;
    let mut pieces: Vec<Vec<Told>> = Vec::new();
    let mut first = i64::MAX;
    let (sin, cos) = sizes.lines.turn.sin_cos();
    let within: Vec<(i64, Told)> = samples
        .iter()
        .filter_map(|s| {
            let across = line.beyond(s.at);
            if across.abs() > sizes.band || across.abs() < sizes.astride {
                return None;
            }
            let along = line.along(s.at);
            let piece = (along / sizes.piece).floor();
            first = first.min(piece as i64);
            let told = Told {
                across: across / sizes.band,
                along: 2.0 * (along / sizes.piece - piece) - 1.0,
                moved: (s.shift.x * n.x + s.shift.y * n.y) / sizes.noise,
                down: (s.at.y * cos - s.at.x * sin) / sizes.lines.pitch,
            };
            Some((piece as i64, told))
        })
        .collect();
    for (piece, told) in within {
        let k = (piece - first) as usize;
        if pieces.len() <= k {
            pieces.resize_with(k + 1, Vec::new);
        }
        pieces[k].push(told);
    }
    (first, pieces)
}

/// The surface with a jump through the displacements of a piece, and the fall of the loss by the jump, less what chance
/// gives. `None` without enough print on both sides.
fn gained(told: &[Told]) -> Option<(Fit, f64)> {
    let beyond = told.iter().filter(|s| s.across > 0.0).count();
    if beyond < FEWEST || told.len() - beyond < FEWEST {
        return None;
    }
    let columns = Columns::of(told);
    let (smooth, broken) = (columns.fit::<5>()?, columns.fit::<COEFFICIENTS>()?);
    let gain = (smooth.loss - broken.loss - CHANCE).max(-CHANCE);
    Some((broken, gain))
}

/// A displacement as a trial sees it: place in bands across and half pieces along, displacement across in noises.
#[derive(Debug, Clone, Copy)]
struct Told {
    across: f64,
    along: f64,
    moved: f64,
    /// Across the lines of type, in their pitch.
    down: f64,
}

/// What a piece of a line showed: its middle along the line, its jump in noises, the fall of the loss by it.
struct Piece {
    middle: f64,
    jump: f64,
    gain: f64,
}

/// A fitted surface.
struct Fit {
    /// Robust loss (Cauchy's).
    loss: f64,
    /// The jump; 0 of a surface without.
    jump: f64,
    /// Displacements that lie within [`EXPLAINED`] noises of it.
    explained: usize,
}

/// A displacement this near to the fitted surface, in noises, is explained by it.
const EXPLAINED: f32 = 3.0;
/// Coefficients of a surface: constant, slopes and curves across and along, and the jump.
const COEFFICIENTS: usize = 6;

/// The print beside a piece of a line by columns, eight to a row.
///
/// In single precision, from the first displacement: losses are right to a hundredth, and none less than some units tells
/// anything.
struct Columns(Vec<Row>);

struct Row {
    /// The terms of the surface there; beyond the last displacement they are 0.
    terms: [f32x8; COEFFICIENTS],
    moved: f32x8,
    /// 1 for a displacement, 0 beyond the last.
    there: f32x8,
}

impl Columns {
    fn of(told: &[Told]) -> Self {
        let start = told.first().map_or(0.0, |s| s.moved);
        let row = |row: &[Told]| {
            let (there, across, along) =
                (row_of(row, |_| 1.0), row_of(row, |s| s.across), row_of(row, |s| s.along));
            let half = row_of(row, |s| 0.5f64.copysign(s.across));
            Row {
                terms: [there, across, along, across * across, along * along, half],
                moved: row_of(row, |s| s.moved - start),
                there,
            }
        };
        Self(told.chunks(LANES).map(row).collect())
    }

    /// Fits a surface of `N` coefficients, of which the sixth is a jump.
    fn fit<const N: usize>(&self) -> Option<Fit> {
        let mut found = [f32x8::ZERO; N];
        let mut jump = 0.0;
        for scale in SCALES {
            let per_scale = f32x8::splat(1.0 / scale);
            let (mut products, mut by_moved) = ([[f32x8::ZERO; N]; N], [f32x8::ZERO; N]);
            for row in &self.0 {
                let left = row.left(&found) * per_scale;
                let weight = row.there / (f32x8::ONE + left * left);
                for i in 0..N {
                    let weighed = weight * row.terms[i];
                    by_moved[i] += weighed * row.moved;
                    // Cholesky reads the lower half alone.
                    for (sum, term) in products[i][..=i].iter_mut().zip(row.terms) {
                        *sum += weighed * term;
                    }
                }
            }
            let normal = SMatrix::<f64, N, N>::from_fn(|i, j| sum(products[i][j]));
            let normal = normal + SMatrix::identity() * 1e-6;
            let solved = normal.cholesky()?.solve(&SVector::<f64, N>::from_fn(|i, _| sum(by_moved[i])));
            found = std::array::from_fn(|i| f32x8::splat(solved[i] as f32));
            jump = if N == COEFFICIENTS { solved[N - 1] } else { 0.0 };
        }
        let (mut loss, mut explained) = (f32x8::ZERO, f32x8::ZERO);
        for row in &self.0 {
            let left = row.left(&found);
            loss += (f32x8::ONE + left * left).ln() * row.there;
            explained += left.abs().simd_lt(f32x8::splat(EXPLAINED)) & row.there;
        }
        Some(Fit { loss: sum(loss), jump, explained: sum(explained) as usize })
    }
}

impl Row {
    /// What the surface leaves of the displacements; nothing beyond the last.
    fn left<const N: usize>(&self, found: &[f32x8; N]) -> f32x8 {
        found.iter().zip(self.terms).fold(self.moved, |left, (&c, term)| left - c * term)
    }
}
