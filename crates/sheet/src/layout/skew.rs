//! The direction of the lines of type, from projection profiles.

use super::runs::Pieces;
use crate::Degrees;

/// Lines are looked for up to this far from level, in degrees; beyond it a quarter turn is nearer.
pub(super) const WIDEST: f64 = 45.0;

/// So many places of ink are projected at most when the direction is known to a degree.
const DOTS: usize = 20_000;
/// Before that all of the ink is, in cells of so many columns and rows: a sample of it would be rough, and
/// fewer columns slower.
const CELL: (usize, usize) = (8, 2);

/// How sharply the ink falls into rows when it is projected along each of the directions.
///
/// The profile of middles of runs is summed along lines that fall `tan(angle)` rows a column; its
/// sharpness is the sum of the squared differences of neighbouring rows. From memory of common practice
/// (projection profiles for skew); no single source.
pub(super) struct Projection {
    /// Ink by its place: x, y, pixels. Long runs are cut up.
    dots: Vec<Dot>,
    /// The same in cells.
    cells: Vec<Dot>,
    height: f32,
    width: f32,
}

/// A place and how much ink stands there.
type Dot = (f32, f32, f32);

impl Projection {
    /// From the pieces of a level; `taken` says which components count.
    pub(super) fn of(pieces: &Pieces, taken: impl Fn(usize) -> bool) -> Self {
        let mut dots = Vec::with_capacity(pieces.runs.len());
        let (columns, rows) = (pieces.width.div_ceil(CELL.0), pieces.height.div_ceil(CELL.1));
        let mut inked = vec![0u16; columns * rows];
        for run in pieces.runs.iter().filter(|r| taken(r.part as usize)) {
            let row = &mut inked[run.y as usize / CELL.1 * columns..][..columns];
            let (mut from, to) = (run.from, run.to);
            while from < to {
                let column = from as usize / CELL.0;
                let end = to.min((column as u32 + 1) * CELL.0 as u32);
                dots.push(((from + end) as f32 / 2.0, run.y as f32, (end - from) as f32));
                row[column] += (end - from) as u16;
                from = end;
            }
        }
        // A page has far more than are needed.
        let stride = dots.len().div_ceil(DOTS).max(1);
        let dots = dots.into_iter().step_by(stride).collect();
        let middle = |i: usize, size: usize| (i as f32 + 0.5) * size as f32;
        let cells =
            inked.iter().enumerate().filter(|(_, n)| **n > 0).map(|(i, &n)| {
                (middle(i % columns, CELL.0), middle(i / columns, CELL.1) - 0.5, f32::from(n))
            });
        Self { dots, cells: cells.collect(), height: pieces.height as f32, width: pieces.width as f32 }
    }

    /// Sharpness of the profile along one direction, in bins of so many pixels.
    fn sharpness(&self, dots: &[Dot], angle: f64, bin: f32) -> f64 {
        let (sine, cosine) = (angle.to_radians().sin() as f32 / bin, angle.to_radians().cos() as f32 / bin);
        let first = (-self.width * sine).min(0.0);
        let bins = (self.height * cosine + (self.width * sine).abs()) as usize + 3;
        let mut profile = vec![0f32; bins];
        for &(x, y, n) in dots {
            // Ink on a line that falls keeps its distance across the line. It is shared between two
            // bins: whole steps would beat with the rows of pixels near 0 and 45 degrees.
            let d = y * cosine - x * sine - first;
            let bin = d as usize;
            let part = d - bin as f32;
            profile[bin] += n * (1.0 - part);
            profile[bin + 1] += n * part;
        }
        profile.windows(3).map(|p| f64::from(p[2] - p[0]).powi(2)).sum()
    }

    /// The sharpest direction within [`WIDEST`] of level, to about 0.05 degree.
    pub(super) fn sharpest(&self) -> Degrees {
        let reach = WIDEST as i32;
        let around = |about: f64, step: f64, reach: i32, dots: &[Dot], bin: f32| {
            let angles = (-reach..=reach).map(|i| about + f64::from(i) * step);
            let tried = angles.map(|a| (self.sharpness(dots, a, bin), a));
            tried.fold((-1.0, about), |best, t| if t.0 > best.0 { t } else { best }).1
        };
        let mut angle = around(0.0, 1.0, reach, &self.cells, CELL.1 as f32);
        for step in [0.25, 0.0625] {
            angle = around(angle, step, 4, &self.dots, 1.0);
        }
        Degrees(angle)
    }
}
