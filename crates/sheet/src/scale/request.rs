//! What the user says about the scale.

use std::str::FromStr;

use thiserror::Error;

use crate::{MM_PER_INCH, Mm, Ppi, Px};

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
    /// [`ScaleRequestError::NotPositive`] unless it is finite and above zero.
    pub fn ppi(value: f64) -> Result<Self, ScaleRequestError> {
        positive("resolution in pixels to the inch", value).map(|v| Self::Ppi(Ppi(v)))
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
    /// [`ScaleRequestError::NotPositive`] unless both are finite and above zero.
    pub fn new(px: Px, mm: Mm) -> Result<Self, ScaleRequestError> {
        positive("length in pixels", px.0)?;
        positive("length in millimetres", mm.0)?;
        Ok(Self { px, mm })
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
        assert_eq!(ScaleRequest::ppi(300.0), Ok(ScaleRequest::Ppi(Ppi(300.0))));
    }
}
