//! The exact way of a point from the forme to the photograph, and back.
//!
//! Forme (mm) -> damp sheet (mm) -> the dry sheet as it lies (mm) -> photograph (px). Every step is a
//! formula with a few parameters, so that the truth can be written down and computed again anywhere.

mod crease;
mod curl;
mod lens;
mod way;

use serde::{Deserialize, Serialize};
use sheet::{Degrees, Point};

pub use crease::{Crease, Fold};
pub use curl::Curl;
pub use lens::Lens;
pub use way::Way;

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
    /// The same way with its sines and cosines worked out, for many points.
    pub fn way(&self) -> Way<'_> {
        Way::new(self)
    }

    /// Where a place of the forme (mm) is on the photograph (px; may lie outside it).
    pub fn to_photograph(&self, forme: Point) -> Point {
        self.way().to_photograph(forme)
    }

    /// Where a place on the photograph was in the forme (mm); `None` in the gap of an opened crease,
    /// where no forme printed, or where the view does not meet the sheet.
    pub fn to_forme(&self, photograph: Point) -> Option<Point> {
        self.way().to_forme(photograph)
    }

    /// Whether a place of the forme can be seen: false in paper that a crease has swallowed.
    pub fn shows(&self, forme: Point) -> bool {
        self.way().shows(forme)
    }
}

/// Sine and cosine of an angle.
#[derive(Debug, Clone, Copy)]
struct Angle {
    sin: f64,
    cos: f64,
}

impl Angle {
    fn of(degrees: Degrees) -> Self {
        let (sin, cos) = degrees.radians().sin_cos();
        Self { sin, cos }
    }

    /// Turned clockwise on the screen (y down).
    fn turn(self, p: Point) -> Point {
        Point::new(self.cos * p.x - self.sin * p.y, self.sin * p.x + self.cos * p.y)
    }

    /// Turned anticlockwise.
    fn turn_back(self, p: Point) -> Point {
        Point::new(self.cos * p.x + self.sin * p.y, self.cos * p.y - self.sin * p.x)
    }
}

#[cfg(test)]
mod tests;
