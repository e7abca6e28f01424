//! Units as types: a length in millimetres, a resolution, an angle.
//!
//! A number without a unit does not cross a crate border. Pixels become millimetres only through
//! a [`Ppi`], so that a photograph of unknown scale can never be quoted in millimetres.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Millimetres in one inch, exactly (international inch, 1959).
pub const MM_PER_INCH: f64 = 25.4;

/// A length on the sheet, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize, JsonSchema)]
#[serde(transparent)]
pub struct Mm(pub f64);

/// A length on a photograph, in pixels of that photograph at its original size.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize, JsonSchema)]
#[serde(transparent)]
pub struct Px(pub f64);

/// A resolution, in pixels to the inch of sheet. Always finite and positive.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize, JsonSchema)]
#[serde(transparent)]
pub struct Ppi(pub f64);

/// An angle in degrees; positive turns clockwise as the photograph is seen (y runs down).
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize, JsonSchema)]
#[serde(transparent)]
pub struct Degrees(pub f64);

impl Ppi {
    /// Pixels to the millimetre.
    pub fn px_per_mm(self) -> f64 {
        self.0 / MM_PER_INCH
    }

    /// The length on the sheet that `length` spans at this resolution.
    pub fn mm(self, length: Px) -> Mm {
        Mm(length.0 / self.px_per_mm())
    }

    /// The pixels that `length` spans at this resolution.
    pub fn px(self, length: Mm) -> Px {
        Px(length.0 * self.px_per_mm())
    }
}

impl Degrees {
    /// The same angle in radians.
    pub fn radians(self) -> f64 {
        self.0.to_radians()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_inch_at_300_ppi_is_300_pixels() {
        assert_eq!(Ppi(300.0).mm(Px(300.0)), Mm(25.4));
        assert!((Ppi(300.0).px(Mm(2.54)).0 - 30.0).abs() < 1e-9);
    }
}
