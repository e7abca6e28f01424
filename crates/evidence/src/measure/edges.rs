//! Where exactly a line of type stands: its foot and the top of its short letters, to a part of a pixel.
//!
//! Layout traces lines on ink that is halved until their letters are some pixels high. Here the full ink is added up along the line, piece by
//! piece, and each edge is where the sum passes half way from the band of the short letters to what is above or below it. Ink that spreads
//! moves the foot of every line alike, so that it adds nothing to the distance of two.

use crate::rank::median;
use crate::words::on_baseline;
use sheet::{Line, Plane, Point, Px};

/// Length of a piece, and steps across the line in which ink is added up: x-heights, pixels.
const PIECE: f64 = 9.0;
const STEP: f64 = 0.5;
/// Offsets from the baseline, x-heights, down: all that is looked at; within the short letters; beneath them, and above.
const ALL: [f64; 2] = [-1.75, 0.75];
const WITHIN: [f64; 2] = [-0.7, -0.2];
const BENEATH: [f64; 2] = [0.25, 0.5];
const ABOVE: [f64; 2] = [-1.5, -1.25];
/// How far from where layout has it an edge may lie, x-heights; and by how much the band must be darker than what is beyond, of 255.
const REACH: f64 = 0.3;
const CLEAR: f64 = 12.0;

/// The line as its ink stands: baseline and x-height, each measured where the ink is clear, and as it was where it is not.
pub(super) fn measured(ink: &Plane<u8>, line: &Line) -> Line {
    let x_height = line.x_height.0;
    let (Some(first), Some(last)) = (line.baseline.first(), line.baseline.last()) else {
        return line.clone();
    };
    let long = last.x - first.x;
    let pieces = ((long / (PIECE * x_height)).round() as usize).max(1);
    let mut baseline = Vec::with_capacity(pieces);
    let mut heights = Vec::with_capacity(pieces);
    for k in 0..pieces {
        let from = first.x + long * k as f64 / pieces as f64;
        let piece = Piece::of(ink, line, from, from + long / pieces as f64);
        let middle = from + long / pieces as f64 / 2.0;
        let Some(foot) = piece.edge(0.0, BENEATH) else { continue };
        baseline.push(Point::new(middle, on_baseline(&line.baseline, middle) + foot));
        heights.extend(piece.edge(-1.0, ABOVE).map(|top| foot - top));
    }
    if baseline.is_empty() {
        return line.clone();
    }
    if baseline.len() == 1 {
        // One place tells how far the line is off, not how it runs.
        let off = baseline[0].y - on_baseline(&line.baseline, baseline[0].x);
        baseline = line.baseline.iter().map(|p| Point::new(p.x, p.y + off)).collect();
    }
    let x_height = if heights.is_empty() { x_height } else { median(heights) };
    Line { baseline, x_height: Px(x_height), ..line.clone() }
}

/// Ink along a piece of a line, by how far below the baseline it lies.
struct Piece {
    /// Mean darkness at each step from the first offset on.
    sums: Vec<f64>,
    first: f64,
    x_height: f64,
}

impl Piece {
    fn of(ink: &Plane<u8>, line: &Line, from: f64, to: f64) -> Self {
        let x_height = line.x_height.0;
        let first = ALL[0] * x_height;
        let steps = ((ALL[1] - ALL[0]) * x_height / STEP).ceil() as usize + 1;
        let (width, height) = (ink.width(), ink.height());
        let mut sums = vec![0.0; steps];
        let columns = from.max(0.0) as usize..(to.max(0.0) as usize).min(width);
        let count = columns.len().max(1) as f64;
        for x in columns {
            let baseline = on_baseline(&line.baseline, x as f64 + 0.5);
            for (k, sum) in sums.iter_mut().enumerate() {
                // The middle of row y lies at y + 0.5.
                let y = baseline + first + STEP * k as f64 - 0.5;
                if y < 0.0 || y as usize + 1 >= height {
                    continue;
                }
                let (row, part) = (y as usize, y.fract());
                let [upper, lower] = [row, row + 1].map(|r| f64::from(ink.at(x, r)));
                *sum += upper + part * (lower - upper);
            }
        }
        Self { sums: sums.iter().map(|s| s / count).collect(), first, x_height }
    }

    fn index(&self, x_heights: f64) -> usize {
        (((x_heights * self.x_height - self.first) / STEP).round().max(0.0) as usize).min(self.sums.len() - 1)
    }

    fn mean(&self, band: [f64; 2]) -> f64 {
        let band = &self.sums[self.index(band[0])..=self.index(band[1])];
        band.iter().sum::<f64>() / band.len() as f64
    }

    /// The edge near an offset, x-heights, towards what is beyond it: pixels below the baseline. `None` where it is not clear.
    fn edge(&self, near: f64, beyond: [f64; 2]) -> Option<f64> {
        let (within, without) = (self.mean(WITHIN), self.mean(beyond));
        if within - without < CLEAR {
            return None;
        }
        let half = f64::midpoint(within, without);
        let [from, to] = [self.index(near - REACH), self.index(near + REACH)];
        let passes = (from..to).filter_map(|k| {
            let [p, q] = [self.sums[k] - half, self.sums[k + 1] - half];
            ((p > 0.0) != (q > 0.0)).then(|| self.first + STEP * (k as f64 + p / (p - q)))
        });
        passes.min_by(|p, q| {
            let far = |at: &f64| (at - near * self.x_height).abs();
            far(p).total_cmp(&far(q))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use sheet::Rect;

    fn line(foot: f64) -> Line {
        Line {
            baseline: vec![Point::new(20.0, foot), Point::new(520.0, foot)],
            x_height: Px(18.0),
            contrast: 0.6,
            bounds: Rect::new(20.0, foot - 38.0, 500.0, 53.0),
            words: Vec::new(),
        }
    }

    /// Upright strokes, some with ascenders or descenders, whose feet lie at `foot(x)`.
    fn strokes(foot: impl Fn(f64) -> f64) -> Plane<u8> {
        let mut ink = Plane::filled(560, 200, 0u8);
        for x in (30..510).filter(|x| x % 9 < 4) {
            let (top, low) = match x / 9 % 7 {
                0 => (31.0, 0.0),
                3 => (17.4, 10.0),
                _ => (17.4, 0.0),
            };
            let (from, to) = (foot(x as f64) - top, foot(x as f64) + low);
            for y in 0..200 {
                let there = (to - y as f64).clamp(0.0, 1.0) - (from - y as f64).clamp(0.0, 1.0);
                ink.row_mut(y)[x] = (220.0 * there) as u8;
            }
        }
        ink
    }

    #[test]
    fn a_line_is_measured_to_a_part_of_a_pixel_along_its_curve() {
        let foot = |x: f64| 120.3 + 0.00002 * (x - 270.0).powi(2);
        let found = measured(&strokes(foot), &line(122.0));
        for p in &found.baseline {
            assert!((p.y - foot(p.x)).abs() < 0.35, "{p:?} {}", foot(p.x));
        }
        assert!((found.x_height.0 - 17.4).abs() < 0.4, "{found:?}");
    }

    #[test]
    fn a_line_without_ink_stays_where_it_was() {
        let before = line(122.0);
        assert_eq!(measured(&Plane::filled(560, 200, 0u8), &before), before);
        assert_eq!(measured(&Plane::filled(10, 10, 255u8), &before), before);
    }
}
