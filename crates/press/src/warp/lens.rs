//! The camera: a pinhole with a little radial distortion.

use serde::{Deserialize, Serialize};
use sheet::{Degrees, Point};

use super::turned;

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

impl Lens {
    /// A place in space (mm, height above the sheet last) to the photograph (px).
    pub(super) fn project(&self, place: [f64; 3]) -> Point {
        let flat = self.flat_projection(place);
        let k = self.distortion * (flat.x * flat.x + flat.y * flat.y) / (self.unit * self.unit);
        self.middle + flat * (1.0 + k)
    }

    /// Before distortion, in px from the middle.
    pub(super) fn flat_projection(&self, place: [f64; 3]) -> Point {
        let q = turned(Point::new(place[0], place[1]) - self.aims_at, self.roll.radians());
        let (sp, cp) = self.pitch.radians().sin_cos();
        let (y, z) = (q.y * cp - place[2] * sp, q.y * sp + place[2] * cp);
        let (sy, cy) = self.yaw.radians().sin_cos();
        let (x, z) = (q.x * cy - z * sy, q.x * sy + z * cy);
        Point::new(x, y) * (self.px_per_mm * self.distance / (self.distance - z))
    }

    /// A place on the photograph with the distortion taken out, in px from the middle.
    pub(super) fn undistorted(&self, photograph: Point) -> Point {
        let q = photograph - self.middle;
        let r = q.x.hypot(q.y);
        if r < 1e-12 {
            return q;
        }
        // Newton's method on r = f (1 + k f^2).
        let k = self.distortion / (self.unit * self.unit);
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
        turned(flat * (1.0 / self.px_per_mm), -self.roll.radians()) + self.aims_at
    }
}
