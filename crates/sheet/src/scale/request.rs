//! What the user says about the scale.

use std::str::FromStr;

use thiserror::Error;

use crate::{MM_PER_INCH, Mm, Ppi, Px};

/// Resolutions that a photograph of a printed sheet may have, in pixels to the inch: a whole broadside in 600 pixels, to
/// a microscope (common practice, no source).
pub(super) const PLAUSIBLE: std::ops::RangeInclusive<f64> = 20.0..=5000.0;

/// What the user says about the scale; it comes before anything that the file says.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub enum ScaleRequest {
    /// Nothing: hear the file.
    #[default]
    FromFile,
    /// The resolution. Made by [`ScaleRequest::ppi`].
    Ppi(Ppi),
    /// Something of known length in the picture, a ruler for one.
    KnownLength(KnownLength),
}

impl ScaleRequest {
    /// A stated resolution, in pixels to the inch.
    ///
    /// # Errors
    /// [`ScaleRequestError::NotPositive`] unless it is finite and above zero, [`ScaleRequestError::Implausible`] when no
    /// photograph of a sheet has it.
    pub fn ppi(value: f64) -> Result<Self, ScaleRequestError> {
        let ppi = positive("resolution in pixels to the inch", value)?;
        if PLAUSIBLE.contains(&ppi) {
            Ok(Self::Ppi(Ppi(ppi)))
        } else {
            Err(ScaleRequestError::Implausible { ppi })
        }
    }
}

/// Something in the picture whose length is known. Read from `PX=MM`, as in `683=40`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KnownLength {
    px: Px,
    mm: Mm,
}

impl KnownLength {
    /// So many pixels that are so many millimetres.
    ///
    /// # Errors
    /// [`ScaleRequestError::NotPositive`] unless both are finite and above zero, [`ScaleRequestError::ImplausibleLength`]
    /// when no photograph of a sheet has the resolution that follows.
    pub fn new(px: Px, mm: Mm) -> Result<Self, ScaleRequestError> {
        positive("length in pixels", px.0)?;
        positive("length in millimetres", mm.0)?;
        let length = Self { px, mm };
        let ppi = length.ppi().0;
        if PLAUSIBLE.contains(&ppi) {
            Ok(length)
        } else {
            Err(ScaleRequestError::ImplausibleLength { px: px.0, mm: mm.0, ppi })
        }
    }

    /// How long it is in the picture.
    pub fn px(self) -> Px {
        self.px
    }

    /// How long it is.
    pub fn mm(self) -> Mm {
        self.mm
    }

    /// The resolution that follows: px / (mm / 25.4).
    pub fn ppi(self) -> Ppi {
        Ppi(self.px.0 * MM_PER_INCH / self.mm.0)
    }

    /// The relative standard deviation that follows when each end is placed to within one pixel:
    /// sqrt(1² + 1²) / px. The doubt of the ruler itself is small beside it and left out.
    pub fn relative_sd(self) -> f64 {
        std::f64::consts::SQRT_2 / self.px.0
    }
}

impl FromStr for KnownLength {
    type Err = ScaleRequestError;

    fn from_str(given: &str) -> Result<Self, Self::Err> {
        let unread = || ScaleRequestError::NotALength { given: given.to_owned() };
        let (px, mm) = given.split_once('=').ok_or_else(unread)?;
        let number = |s: &str| s.trim().parse::<f64>().map_err(|_| unread());
        Self::new(Px(number(px)?), Mm(number(mm)?))
    }
}

fn positive(what: &'static str, value: f64) -> Result<f64, ScaleRequestError> {
    if value.is_finite() && value > 0.0 {
        Ok(value)
    } else {
        Err(ScaleRequestError::NotPositive { what, value })
    }
}

/// Why what the user said about the scale makes no sense.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ScaleRequestError {
    /// Not of the form PX=MM. Write two numbers with an equals sign between.
    #[error(
        "\"{given}\" is not a known length: give pixels=millimetres, as in 683=40 for 40 mm of ruler that are 683 pixels long"
    )]
    NotALength {
        /// What was given.
        given: String,
    },
    /// A resolution that no photograph of a sheet has. Check the number.
    #[error(
        "{ppi} pixels to the inch is not the resolution of any photograph of a sheet: give one from 20 to 5000"
    )]
    Implausible {
        /// What was given.
        ppi: f64,
    },
    /// A length from which a resolution follows that no photograph of a sheet has. Check the numbers and their order.
    #[error(
        "{px} pixels for {mm} mm come to {ppi:.3} pixels to the inch, which no photograph of a sheet has (20 to 5000): \
         give the pixels first and the millimetres after, as in 683=40"
    )]
    ImplausibleLength {
        /// Pixels.
        px: f64,
        /// Millimetres.
        mm: f64,
        /// What they come to.
        ppi: f64,
    },
    /// Zero, negative, or no number. Give a number above zero.
    #[error("the {what} is {value}: give a number above zero")]
    NotPositive {
        /// Which number.
        what: &'static str,
        /// What it was.
        value: f64,
    },
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ruler_in_the_frame() {
        // 0 to 4 cm are 683 pixels in a photograph that is tagged 300 ppi.
        let length: KnownLength = "683=40".parse().unwrap();
        assert!((length.ppi().0 - 433.705).abs() < 1e-3);
        assert!((length.relative_sd() - 0.002_070_6).abs() < 1e-6);
        assert_eq!(" 683 = 40.0 ".parse(), Ok(length));
    }

    #[test]
    fn nonsense_is_refused_with_the_remedy() {
        let told = |s: &str| s.parse::<KnownLength>().unwrap_err().to_string();
        for s in ["683", "683:40", "=", "683=", "a=b", ""] {
            assert_eq!(
                told(s),
                format!(
                    "\"{s}\" is not a known length: give pixels=millimetres, as in 683=40 for 40 mm of ruler that \
                     are 683 pixels long"
                )
            );
        }
        assert_eq!(told("0=40"), "the length in pixels is 0: give a number above zero");
        assert_eq!(told("683=-40"), "the length in millimetres is -40: give a number above zero");
        assert_eq!(told("683=inf"), "the length in millimetres is inf: give a number above zero");
        assert!(ScaleRequest::ppi(f64::NAN).is_err() && ScaleRequest::ppi(0.0).is_err());
        assert!(ScaleRequest::ppi(0.001).unwrap_err().to_string().contains("from 20 to 5000"));
        assert!(told("40=683").contains("give the pixels first"), "{}", told("40=683"));
        assert!(
            told("1e-300=1e300").contains("give the pixels first")
                && told("1e300=1e-300").contains("20 to 5000")
        );
        assert_eq!(ScaleRequest::ppi(300.0), Ok(ScaleRequest::Ppi(Ppi(300.0))));
    }
}
