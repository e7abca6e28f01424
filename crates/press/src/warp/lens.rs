//! The camera: a pinhole with a little radial distortion.

use serde::{Deserialize, Serialize};
use sheet::{Degrees, Point};

use super::Angle;

/// A camera above the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Lens {
    /// The place of the sheet that is seen in `middle`, in mm.
    pub aims_at: Point,
    /// Where the optical axis meets the photograph, in px.
    pub middle: Point,
    /// Pixels to the mm at `aims_at`.
    pub px_per_mm: f64,
    /// From the lens to `aims_at`, in mm.
    pub distance: f64,
    /// The sheet's turn, clockwise as seen; right angles counted.
    pub roll: Degrees,
    /// The sheet tipped about the photograph's horizontal: positive brings its foot nearer.
    pub pitch: Degrees,
    /// The sheet tipped about the photograph's vertical: positive brings its right side nearer.
    pub yaw: Degrees,
    /// Radial distortion: a place at `unit` px from the middle is moved outwards by this part of it.
    pub distortion: f64,
    /// The radius at which `distortion` is counted, in px.
    pub unit: f64,
}

/// A lens with its sines and cosines worked out.
#[derive(Debug, Clone, Copy)]
pub(super) struct Eye {
    lens: Lens,
    roll: Angle,
    pitch: Angle,
    yaw: Angle,
}

impl Eye {
    pub(super) fn new(lens: Lens) -> Self {
        Self { lens, roll: Angle::of(lens.roll), pitch: Angle::of(lens.pitch), yaw: Angle::of(lens.yaw) }
    }

    /// A place in space (mm, height above the sheet last) to the photograph (px).
    pub(super) fn project(&self, place: [f64; 3]) -> Point {
        let flat = self.flat_projection(place);
        let k =
            self.lens.distortion * (flat.x * flat.x + flat.y * flat.y) / (self.lens.unit * self.lens.unit);
        self.lens.middle + flat * (1.0 + k)
    }

    /// Before distortion, in px from the middle.
    pub(super) fn flat_projection(&self, place: [f64; 3]) -> Point {
        let q = self.roll.turn(Point::new(place[0], place[1]) - self.lens.aims_at);
        // Tipped about the photograph's horizontal, then about its vertical.
        let tipped = self.pitch.turn(Point::new(q.y, place[2]));
        let tipped = (tipped.x, self.yaw.turn(Point::new(q.x, tipped.y)));
        let distance = self.lens.distance;
        Point::new(tipped.1.x, tipped.0) * (self.lens.px_per_mm * distance / (distance - tipped.1.y))
    }

    /// A place on the photograph with the distortion taken out, in px from the middle.
    pub(super) fn undistorted(&self, photograph: Point) -> Point {
        let q = photograph - self.lens.middle;
        let r = q.x.hypot(q.y);
        if r < 1e-12 {
            return q;
        }
        // Newton's method on r = f (1 + k f^2).
        let k = self.lens.distortion / (self.lens.unit * self.lens.unit);
        let mut f = r;
        for _ in 0..20 {
            let step = (f * (1.0 + k * f * f) - r) / (1.0 + 3.0 * k * f * f);
            f -= step;
            if step.abs() < 1e-12 * r {
                break;
            }
        }
        q * (f / r)
    }

    /// Where on a flat untipped sheet an undistorted place would be, in mm: a first guess.
    pub(super) fn plane_guess(&self, flat: Point) -> Point {
        self.roll.turn_back(flat * (1.0 / self.lens.px_per_mm)) + self.lens.aims_at
    }
}
