//! The direction of the lines of type, from projection profiles.

use super::runs::Pieces;
use crate::Degrees;

/// Lines are looked for up to this far from level, in degrees; beyond it a quarter turn is nearer.
pub(super) const WIDEST: f64 = 45.0;

/// So many places of ink are projected at most.
const DOTS: usize = 20_000;

/// How sharply the ink falls into rows when it is projected along each of the directions.
///
/// The profile of middles of runs is summed along lines that fall `tan(angle)` rows a column; its
/// sharpness is the sum of the squared differences of neighbouring rows. From memory of common practice
/// (projection profiles for skew); no single source.
pub(super) struct Projection {
    /// Ink by its place: x, y, pixels. Long runs are cut up.
    dots: Vec<(f32, f32, f32)>,
    height: f32,
    width: f32,
}

impl Projection {
    /// From the pieces of a level; `taken` says which components count.
    pub(super) fn of(pieces: &Pieces, taken: impl Fn(usize) -> bool) -> Self {
        let mut dots = Vec::with_capacity(pieces.runs.len());
        for run in pieces.runs.iter().filter(|r| taken(r.part as usize)) {
            let y = run.y as f32;
            let (mut from, to) = (run.from, run.to);
            while from < to {
                let end = to.min(from + 8);
                dots.push(((from + end) as f32 / 2.0, y, (end - from) as f32));
                from = end;
            }
        }
        // A page has far more than are needed.
        let stride = dots.len().div_ceil(DOTS).max(1);
        let dots = dots.into_iter().step_by(stride).collect();
        Self { dots, height: pieces.height as f32, width: pieces.width as f32 }
    }

    /// Sharpness of the profile along one direction.
    pub(super) fn sharpness(&self, angle: Degrees) -> f64 {
        let (sine, cosine) = (angle.radians().sin() as f32, angle.radians().cos() as f32);
        let first = (-self.width * sine).min(0.0);
        let bins = (self.height * cosine + (self.width * sine).abs()) as usize + 3;
        let mut profile = vec![0f32; bins];
        for &(x, y, n) in &self.dots {
            // Ink on a line that falls keeps its distance across the line. It is shared between two
            // bins: whole steps would beat with the rows of pixels near 0 and 45 degrees.
            let d = y * cosine - x * sine - first;
            let (bin, part) = (d as usize, d.fract());
            profile[bin] += n * (1.0 - part);
            profile[bin + 1] += n * part;
        }
        profile.windows(3).map(|p| f64::from(p[2] - p[0]).powi(2)).sum()
    }

    /// The sharpest direction within `reach` degrees of `about`, to about 0.05 degree.
    pub(super) fn sharpest(&self, about: Degrees, reach: f64) -> (Degrees, f64) {
        let (mut best, mut step) = ((about, self.sharpness(about)), 1.0f64.min(reach / 2.0));
        let mut reach = reach;
        loop {
            let centre = best.0.0;
            let n = (reach / step).round() as i32;
            for i in -n..=n {
                let angle = Degrees(centre + f64::from(i) * step);
                let sharp = self.sharpness(angle);
                if sharp > best.1 {
                    best = (angle, sharp);
                }
            }
            if step <= 0.06 {
                return best;
            }
            reach = step;
            step /= 4.0;
        }
    }
}
