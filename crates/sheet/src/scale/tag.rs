//! What a file says about its own resolution, as it says it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::fmt;

use crate::MM_PER_INCH;

/// Where in a file a resolution was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum TagSource {
    /// The density of a JPEG's JFIF segment (ITU-T T.871, 10.1).
    Jfif,
    /// XResolution, YResolution and ResolutionUnit of an EXIF block (CIPA DC-008, 4.6.4).
    Exif,
    /// The same tags of a TIFF directory (TIFF 6.0, section 8).
    Tiff,
    /// The `pHYs` chunk of a PNG (PNG 3rd edition, 11.3.4.3).
    Png,
    /// The capture resolution box `resc` of a JP2 file (ISO/IEC 15444-1, I.5.3.7.1): what the scanner did.
    Jp2Capture,
    /// The default display resolution box `resd` of a JP2 file (I.5.3.7.2): how it wishes to be shown.
    Jp2Display,
    /// The pixels of a picture over the size at which a PDF page places it.
    Pdf,
}

/// The unit in which a file gives its resolution.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum ResolutionUnit {
    /// Pixels to the inch.
    Inch,
    /// Pixels to the centimetre.
    Centimetre,
    /// Pixels to the metre.
    Metre,
}

impl ResolutionUnit {
    /// The unit in millimetres.
    fn mm(self) -> f64 {
        match self {
            Self::Inch => MM_PER_INCH,
            Self::Centimetre => 10.0,
            Self::Metre => 1000.0,
        }
    }
}

/// A resolution that a file gives for itself, with the number and unit that it used. `x` runs along the
/// rows of the picture **as turned** by its EXIF orientation, `y` down its columns. Not yet believed: see
/// [`super::scale_from`].
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ResolutionTag {
    /// Pixels to the unit along a row. Finite and positive.
    pub x: f64,
    /// Pixels to the unit down a column. Finite and positive.
    pub y: f64,
    /// The unit.
    pub unit: ResolutionUnit,
    /// Where it was found.
    pub source: TagSource,
}

impl ResolutionTag {
    /// A tag, when both numbers are finite and positive; files also hold 0 and 0/0, which say nothing.
    pub fn new(x: f64, y: f64, unit: ResolutionUnit, source: TagSource) -> Option<Self> {
        let sound = |v: f64| v.is_finite() && v > 0.0;
        (sound(x) && sound(y)).then_some(Self { x, y, unit, source })
    }

    /// Pixels to the inch along a row.
    pub fn ppi_x(&self) -> f64 {
        self.x * MM_PER_INCH / self.unit.mm()
    }

    /// Pixels to the inch down a column.
    pub fn ppi_y(&self) -> f64 {
        self.y * MM_PER_INCH / self.unit.mm()
    }

    /// The tag of the picture turned by a quarter: rows have become columns.
    #[must_use]
    pub(crate) fn swapped(self) -> Self {
        Self { x: self.y, y: self.x, ..self }
    }
}

impl fmt::Display for TagSource {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Jfif => "the JFIF density",
            Self::Exif => "the EXIF resolution",
            Self::Tiff => "the TIFF resolution",
            Self::Png => "the PNG pHYs chunk",
            Self::Jp2Capture => "the JP2 capture resolution",
            Self::Jp2Display => "the JP2 display resolution",
            Self::Pdf => "the size on the PDF page",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_become_inches() {
        let tag = |v, unit| ResolutionTag::new(v, 2.0 * v, unit, TagSource::Tiff).unwrap();
        assert!((tag(300.0, ResolutionUnit::Inch).ppi_x() - 300.0).abs() < 1e-9);
        assert!((tag(100.0, ResolutionUnit::Centimetre).ppi_x() - 254.0).abs() < 1e-9);
        assert!((tag(11811.0, ResolutionUnit::Metre).ppi_y() - 2.0 * 299.9994).abs() < 1e-6);
    }

    #[test]
    fn a_number_that_says_nothing_makes_no_tag() {
        for v in [0.0, -3.0, f64::NAN, f64::INFINITY] {
            assert_eq!(ResolutionTag::new(v, 300.0, ResolutionUnit::Inch, TagSource::Jfif), None);
            assert_eq!(ResolutionTag::new(300.0, v, ResolutionUnit::Inch, TagSource::Jfif), None);
        }
    }
}
