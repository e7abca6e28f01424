//! A line of type as a strip: straight, and of one size whatever the type and the photograph.

use crate::measure::Side;
use crate::words::on_baseline;
use rayon::prelude::*;
use sheet::{Line, Point, Rect};

/// Samples of a strip to an x-height.
const TO_AN_X_HEIGHT: usize = 8;
/// Rows of a strip, and how many of them lie above the baseline: from above the ascenders to below the descenders.
pub const STRIP_ROWS: usize = 32;
const ABOVE: usize = 21;
/// Samples, along the line, of what is judged as one place: an x-height.
pub const STRIP_CELL: usize = 8;
/// So many x-heights more are drawn at either end.
const BEYOND: f64 = 2.0;

/// A line of type, and the white it stands in, drawn straight; its letters eight samples high. Places on it are those of the side
/// set upright.
#[derive(Debug, Clone)]
pub struct Strip {
    /// Ink, 0 to 255, by rows; [`STRIP_ROWS`] of them.
    pub samples: Vec<u8>,
    /// Samples in a row, a multiple of [`STRIP_CELL`].
    pub width: usize,
    baseline: Vec<Point>,
    x_height: f64,
    left: f64,
    /// Rise of the baseline beyond its ends, for every pixel along it.
    slope: f64,
}

/// All lines of a side as strips.
pub fn strips(side: &Side) -> Vec<Strip> {
    let lines = &side.layout.lines;
    (0..lines.len()).into_par_iter().map(|i| Strip::of(side, &lines[i], reach(lines, i))).collect()
}

/// How far the white may reach in which a line stands: as far as lines of about its size that it lies among.
fn reach(lines: &[Line], i: usize) -> (f64, f64) {
    let own = &lines[i];
    let ends = |l: &Line| (l.bounds.x, l.bounds.right());
    let (from, to) = ends(own);
    lines
        .iter()
        .filter(|l| (l.x_height.0 / own.x_height.0).ln().abs() < ALIKE)
        .map(ends)
        .filter(|(l, r)| l.max(from) < r.min(to))
        .fold((from, to), |(p, q), (l, r)| (p.min(l), q.max(r)))
}

/// Lines whose x-heights differ by less than this, natural logarithm, are of about one size.
const ALIKE: f64 = 0.2;

impl Strip {
    fn of(side: &Side, line: &Line, (from, to): (f64, f64)) -> Self {
        let x_height = line.x_height.0;
        let step = x_height / TO_AN_X_HEIGHT as f64;
        let left = from - BEYOND * x_height;
        let long = (to - from) + 2.0 * BEYOND * x_height;
        let width = ((long / step / STRIP_CELL as f64).ceil() as usize).max(1) * STRIP_CELL;
        // The level that has about as many samples as the strip.
        let level = (step.max(1.0).log2().floor() as usize).min(side.ink.depth() - 1);
        let times = 2f64.powi(level as i32);
        let plane = side.ink.level(level);
        let mut strip = Self {
            samples: vec![0; width * STRIP_ROWS],
            width,
            baseline: line.baseline.clone(),
            x_height,
            left,
            slope: side.layout.skew.radians().tan(),
        };
        for x in 0..width {
            let top = strip.at(x as f64 + 0.5, 0.5);
            for y in 0..STRIP_ROWS {
                let there = Point::new(top.x / times, (top.y + step * y as f64) / times);
                if plane.holds(there) {
                    strip.samples[y * width + x] = plane.sample(there.x, there.y).round() as u8;
                }
            }
        }
        strip
    }

    /// Cells along the strip.
    pub fn cells(&self) -> usize {
        self.width / STRIP_CELL
    }

    /// Where a place of the strip, in its samples, lies on the side set upright.
    pub fn at(&self, x: f64, y: f64) -> Point {
        let step = self.x_height / TO_AN_X_HEIGHT as f64;
        let along = self.left + step * x;
        Point::new(along, self.foot(along) + step * (y - ABOVE as f64))
    }

    /// Where a place of the side lies on the strip, in its samples.
    pub fn on_strip(&self, p: Point) -> Point {
        let step = self.x_height / TO_AN_X_HEIGHT as f64;
        Point::new((p.x - self.left) / step, (p.y - self.foot(p.x)) / step + ABOVE as f64)
    }

    /// The box of the side that a box of the strip lies in.
    pub fn box_at(&self, r: Rect) -> Rect {
        Rect::around(r.corners().map(|p| self.at(p.x, p.y))).unwrap_or(r)
    }

    /// The baseline, and beyond its ends as the lines of the side fall.
    fn foot(&self, x: f64) -> f64 {
        let (Some(first), Some(last)) = (self.baseline.first(), self.baseline.last()) else { return 0.0 };
        if x < first.x {
            first.y + self.slope * (x - first.x)
        } else if x > last.x {
            last.y + self.slope * (x - last.x)
        } else {
            on_baseline(&self.baseline, x)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::side::of_one_line as side;
    use sheet::Plane;

    #[test]
    fn places_of_a_strip_and_of_the_side_are_each_others_way_back() {
        let baseline = vec![Point::new(100.0, 202.0), Point::new(400.0, 208.0)];
        let side = side(Plane::filled(600, 400, 0u8), baseline, 20.0);
        let strip = &strips(&side)[0];
        assert_eq!((strip.samples.len(), strip.width % STRIP_CELL), (strip.width * STRIP_ROWS, 0));
        for (x, y) in [(0.0, 0.0), (77.0, 21.0), (strip.width as f64, 31.0)] {
            let back = strip.on_strip(strip.at(x, y));
            assert!((back.x - x).abs() < 1e-9 && (back.y - y).abs() < 1e-9);
        }
        // The baseline is where it is, also beyond the end of the line.
        let beyond = strip.at(strip.width as f64, 21.0);
        assert!(beyond.x > 400.0 && (beyond.y - (200.0 + 0.02 * beyond.x)).abs() < 1e-9);
    }

    #[test]
    fn a_falling_line_is_level_on_its_strip() {
        let mut ink = Plane::filled(600, 400, 0u8);
        for x in 100..400 {
            let foot = 200.0 + 0.02 * f64::from(x);
            (foot as usize - 20..foot as usize).for_each(|y| ink.row_mut(y)[x as usize] = 200);
        }
        let side = side(ink, vec![Point::new(100.0, 202.0), Point::new(400.0, 208.0)], 20.0);
        let strip = &strips(&side)[0];
        let row =
            |y: usize| strip.samples[y * strip.width..][..strip.width].iter().filter(|v| **v > 150).count();
        assert!(row(17) > 110 && row(19) > 110, "{} {}", row(17), row(19));
        assert_eq!((row(11), row(23)), (0, 0));
    }
}
