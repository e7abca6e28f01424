//! The exact way of a point from the forme to the photograph, and back.
//!
//! Forme (mm) -> damp sheet (mm) -> the dry sheet as it lies (mm) -> photograph (px). Every step is a
//! formula with a few parameters, so that the truth can be written down and computed again anywhere.

mod crease;
mod curl;
mod lens;

use serde::{Deserialize, Serialize};
use sheet::{Degrees, Point};

pub use crease::{Crease, Fold};
pub use curl::Curl;
pub use lens::Lens;

/// A wave of cockled paper as it lies flattened under the camera: a place moves by
/// `sway * sin(2 pi (direction . p) / length + phase)`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Wave {
    /// Unit vector across the wave's crests.
    pub direction: Point,
    /// From crest to crest, in mm.
    pub length: f64,
    /// In radians.
    pub phase: f64,
    /// How far, and which way, it moves the paper, in mm.
    pub sway: Point,
}

impl Wave {
    fn at(&self, p: Point) -> Point {
        let along = self.direction.x * p.x + self.direction.y * p.y;
        self.sway * (std::f64::consts::TAU * along / self.length + self.phase).sin()
    }
}

/// How the forme was laid on the sheet: turned about a place, sheared by a bad lock-up, and shifted.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Laying {
    /// The place about which it is turned, in mm in the forme.
    pub about: Point,
    /// Clockwise.
    pub turn: Degrees,
    /// Rows slide right by this much for each mm down.
    pub shear: f64,
    /// Where the forme's origin would fall unturned, in mm from the sheet's corner.
    pub shift: Point,
}

impl Laying {
    fn to_sheet(self, p: Point) -> Point {
        let q = p - self.about;
        let q = Point::new(q.x + self.shear * q.y, q.y);
        turned(q, self.turn.radians()) + self.about + self.shift
    }

    fn to_forme(self, p: Point) -> Point {
        let q = turned(p - self.shift - self.about, -self.turn.radians());
        Point::new(q.x - self.shear * q.y, q.y) + self.about
    }
}

/// The whole way of a point, with all its parameters.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Warp {
    /// Forme to damp sheet.
    pub laying: Laying,
    /// Shrinkage on drying along x and y: 0.01 is one per cent.
    pub shrinkage: [f64; 2],
    /// Cockling.
    pub waves: Vec<Wave>,
    /// Creases, in the order in which they were made.
    pub creases: Vec<Crease>,
    /// Curl into a gutter.
    pub curl: Option<Curl>,
    /// The camera.
    pub lens: Lens,
}

impl Warp {
    /// Where a place of the forme (mm) is on the photograph (px; may lie outside it).
    pub fn to_photograph(&self, forme: Point) -> Point {
        self.lying_to_photograph(self.to_lying(forme))
    }

    /// Where a place on the photograph was in the forme (mm); `None` in the gap of an opened crease,
    /// where no forme printed, or where the view does not meet the sheet.
    pub fn to_forme(&self, photograph: Point) -> Option<Point> {
        self.lying_to_forme(self.photograph_to_lying(photograph)?)
    }

    /// Where a place of the sheet as it lies (mm) was in the forme (mm); `None` in the gap of an opened crease.
    pub fn lying_to_forme(&self, lying: Point) -> Option<Point> {
        let uncreased = self.creases.iter().rev().try_fold(lying, |p, crease| crease.back(p))?;
        let dry = self.uncockled(uncreased);
        let damp = Point::new(dry.x / (1.0 - self.shrinkage[0]), dry.y / (1.0 - self.shrinkage[1]));
        Some(self.laying.to_forme(damp))
    }

    /// Whether a place of the forme can be seen: false in paper that a crease has swallowed.
    pub fn shows(&self, forme: Point) -> bool {
        let mut p = self.cockled(self.dried(forme));
        for crease in &self.creases {
            if crease.swallows(p) {
                return false;
            }
            p = crease.forth(p);
        }
        true
    }

    /// Where a place of the forme is on the dry sheet as it lies, in mm from its top left corner.
    pub fn to_lying(&self, forme: Point) -> Point {
        let cockled = self.cockled(self.dried(forme));
        self.creases.iter().fold(cockled, |p, crease| crease.forth(p))
    }

    /// From the sheet as it lies (mm) to the photograph (px).
    pub fn lying_to_photograph(&self, lying: Point) -> Point {
        self.lens.project(self.surface(lying))
    }

    /// From the photograph (px) to the sheet as it lies (mm); `None` where the view does not meet it.
    pub fn photograph_to_lying(&self, photograph: Point) -> Option<Point> {
        let target = self.lens.undistorted(photograph);
        let mut p = self.lens.plane_guess(target);
        // Newton's method with slopes by differences; the surface is nearly flat, so it closes in at once.
        for _ in 0..30 {
            let here = self.lens.flat_projection(self.surface(p));
            let miss = target - here;
            if !(miss.x.is_finite() && miss.y.is_finite()) {
                return None;
            }
            if miss.x.abs() + miss.y.abs() < 1e-9 {
                return Some(p);
            }
            let step = 1e-4;
            let across =
                (self.lens.flat_projection(self.surface(p + Point::new(step, 0.0))) - here) * (1.0 / step);
            let down =
                (self.lens.flat_projection(self.surface(p + Point::new(0.0, step))) - here) * (1.0 / step);
            let det = across.x * down.y - across.y * down.x;
            if det.abs() < 1e-9 {
                return None;
            }
            p = p + Point::new(
                (miss.x * down.y - miss.y * down.x) / det,
                (across.x * miss.y - across.y * miss.x) / det,
            );
        }
        let miss = target - self.lens.flat_projection(self.surface(p));
        (miss.x.hypot(miss.y) < 1e-6).then_some(p)
    }

    fn dried(&self, forme: Point) -> Point {
        let damp = self.laying.to_sheet(forme);
        Point::new(damp.x * (1.0 - self.shrinkage[0]), damp.y * (1.0 - self.shrinkage[1]))
    }

    fn cockled(&self, p: Point) -> Point {
        self.waves.iter().fold(p, |q, wave| q + wave.at(p))
    }

    /// By iteration: the waves move paper by a few hundredths of their length, so each round is closer.
    fn uncockled(&self, target: Point) -> Point {
        let mut p = target;
        for _ in 0..80 {
            let miss = target - self.cockled(p);
            p = p + miss;
            if miss.x.abs() + miss.y.abs() < 1e-11 {
                break;
            }
        }
        p
    }

    fn surface(&self, lying: Point) -> [f64; 3] {
        self.curl.as_ref().map_or([lying.x, lying.y, 0.0], |curl| curl.surface(lying))
    }
}

/// Turned clockwise on the screen (y down).
fn turned(p: Point, radians: f64) -> Point {
    let (s, c) = radians.sin_cos();
    Point::new(c * p.x - s * p.y, s * p.x + c * p.y)
}

#[cfg(test)]
mod tests;
