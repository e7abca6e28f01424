//! A small picture: a place in one copy, or a copy seen whole.

use super::encode::{Colour, OF_INKS, OF_PHOTOGRAPHS, jpeg};
use super::{CannotDraw, Shades};
use sheet::Plane;

/// A JPEG that is shown as it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Small {
    /// Width and height, pixels.
    pub size_px: [usize; 2],
    /// The file.
    pub jpeg: Vec<u8>,
}

impl Small {
    /// Of a photograph.
    ///
    /// # Errors
    /// When it cannot be encoded.
    pub fn photograph(picture: &Plane<[u8; 3]>) -> Result<Self, CannotDraw> {
        let jpeg = jpeg(picture, OF_PHOTOGRAPHS, Colour::Halved)?;
        Ok(Self { size_px: [picture.width(), picture.height()], jpeg })
    }

    /// Of ink as it is drawn.
    ///
    /// # Errors
    /// When it cannot be encoded.
    pub fn ink(picture: &Plane<[u8; 3]>) -> Result<Self, CannotDraw> {
        let jpeg = jpeg(picture, OF_INKS, Colour::Halved)?;
        Ok(Self { size_px: [picture.width(), picture.height()], jpeg })
    }
}

/// A copy seen whole, on the frame of its setting.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Overview {
    /// The photograph.
    pub photograph: Small,
    /// Its ink, of the same size.
    pub ink: Shades,
}
