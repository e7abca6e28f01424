//! A page that curls down into the gutter of a book.

use serde::{Deserialize, Serialize};
use sheet::{Degrees, Point};

/// The page falls away towards the gutter: at a distance `s` along the paper it slopes by
/// `steepness * exp(-s / reach)`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Curl {
    /// The line of the gutter, in mm across the sheet as it lies.
    pub gutter: f64,
    /// The page lies to the right of the gutter (else to its left).
    pub to_the_right: bool,
    /// Slope at the gutter.
    pub steepness: Degrees,
    /// How far the slope reaches, in mm.
    pub reach: f64,
}

impl Curl {
    /// A place of the sheet as a place in space: x, y, and height above the flat part, in mm.
    ///
    /// Sine and cosine of the slope are taken to the third and fourth order of their series, so that the
    /// integrals along the paper are closed formulas; that series *is* the definition of the surface.
    pub(super) fn surface(&self, p: Point) -> [f64; 3] {
        let side = if self.to_the_right { 1.0 } else { -1.0 };
        let signed = (p.x - self.gutter) * side;
        let (s, t, l) = (signed.abs(), self.steepness.radians(), self.reach);
        let e = (-s / l).exp();
        let (e2, e3) = (e * e, e * e * e);
        let across = s - t * t * l / 4.0 * (1.0 - e2) + t.powi(4) * l / 96.0 * (1.0 - e2 * e2);
        let fall = -t * l * e + t.powi(3) * l / 18.0 * e3;
        [self.gutter + side * across.copysign(signed), p.y, fall]
    }

    /// Slope of the paper at a place, as the sine of its angle.
    pub(crate) fn slope(&self, p: Point) -> f64 {
        let s = (p.x - self.gutter).abs();
        (self.steepness.radians() * (-s / self.reach).exp()).sin()
    }

    /// How far from the gutter, in mm; negative on the facing page.
    pub(crate) fn gutter_distance(&self, p: Point) -> f64 {
        if self.to_the_right { p.x - self.gutter } else { self.gutter - p.x }
    }
}
