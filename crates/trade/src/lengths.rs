//! Lengths, and bands of them. A length never goes without its unit, and a name of the trade is a band.

use schemars::JsonSchema;
use serde::Serialize;

/// A length in millimetres.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, JsonSchema)]
#[serde(transparent)]
pub struct Mm(pub f64);

/// Millimetres in an English foot of today. (By its definition: a foot is 0.3048 m.)
pub const MM_PER_FOOT: f64 = 304.8;

/// Millimetres in an inch.
pub const MM_PER_INCH: f64 = MM_PER_FOOT / 12.0;

/// From one length to another, both within it; the first is never the larger.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Band {
    /// The least, millimetres.
    pub least_mm: Mm,
    /// The most, millimetres.
    pub most_mm: Mm,
}

impl Band {
    /// The band between two lengths in any order, millimetres.
    pub const fn new(a: f64, b: f64) -> Self {
        if a <= b {
            Self { least_mm: Mm(a), most_mm: Mm(b) }
        } else {
            Self { least_mm: Mm(b), most_mm: Mm(a) }
        }
    }

    /// A band of one length, millimetres.
    pub const fn of(length: f64) -> Self {
        Self::new(length, length)
    }

    /// The middle.
    pub fn middle(self) -> Mm {
        Mm(f64::midpoint(self.least_mm.0, self.most_mm.0))
    }

    /// The band a whole number of times as small.
    #[must_use]
    pub fn divided(self, by: u16) -> Self {
        Self::new(self.least_mm.0 / f64::from(by), self.most_mm.0 / f64::from(by))
    }

    /// The band with its lower and upper end each multiplied.
    #[must_use]
    pub fn times(self, least: f64, most: f64) -> Self {
        Self::new(self.least_mm.0 * least, self.most_mm.0 * most)
    }

    /// How far a length lies outside: 0 within, positive above, negative below.
    pub fn outside(self, length: Mm) -> Mm {
        Mm(if length.0 > self.most_mm.0 {
            length.0 - self.most_mm.0
        } else if length.0 < self.least_mm.0 {
            length.0 - self.least_mm.0
        } else {
            0.0
        })
    }
}

/// Whether a length can be measured at all: finite, above zero and at most `most`.
pub(crate) fn measurable(length: Mm, most: Mm) -> bool {
    length.0 > 0.0 && length.0 <= most.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_band_knows_how_far_outside_a_length_lies() {
        let band = Band::new(86.0, 82.0);
        assert_eq!((band.least_mm, band.most_mm, band.middle()), (Mm(82.0), Mm(86.0), Mm(84.0)));
        assert_eq!([80.0, 84.0, 87.5].map(|x| band.outside(Mm(x))), [Mm(-2.0), Mm(0.0), Mm(1.5)]);
        assert_eq!(band.divided(2), Band::new(41.0, 43.0));
    }

    #[test]
    fn what_is_no_length_cannot_be_measured() {
        for nonsense in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(!measurable(Mm(nonsense), Mm(2000.0)));
        }
        assert!(measurable(Mm(0.1), Mm(2000.0)));
    }
}
