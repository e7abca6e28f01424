//! A finished photograph, and its bytes as a file.

use std::io::Cursor;

use image::codecs::jpeg::{JpegEncoder, PixelDensity};
use image::codecs::png::PngEncoder;
use image::{ExtendedColorType, ImageEncoder};
use rayon::prelude::*;
use sheet::{Plane, Ppi};
use thiserror::Error;

/// A photograph, in grey or in colour.
#[derive(Debug, Clone, PartialEq)]
pub enum Picture {
    /// Luminance, 0 black to 255 white.
    Grey(Plane<u8>),
    /// Red, green, blue.
    Colour(Plane<[u8; 3]>),
}

/// Why a photograph could not be made into a file.
#[derive(Debug, Error)]
pub enum PictureError {
    /// The encoder refused it: JPEG holds at most 65,535 px a side.
    #[error("a photograph of {width} x {height} px cannot be written as {format}: {reason}")]
    Refused {
        /// Width in px.
        width: usize,
        /// Height in px.
        height: usize,
        /// The format asked for.
        format: &'static str,
        /// The encoder's reason.
        reason: String,
    },
}

impl Picture {
    /// Width in px.
    pub fn width(&self) -> usize {
        match self {
            Self::Grey(p) => p.width(),
            Self::Colour(p) => p.width(),
        }
    }

    /// Height in px.
    pub fn height(&self) -> usize {
        match self {
            Self::Grey(p) => p.height(),
            Self::Colour(p) => p.height(),
        }
    }

    /// Luminance (Rec. 601 weights, as JPEG has them).
    pub fn luminance(&self) -> Plane<u8> {
        match self {
            Self::Grey(plane) => plane.clone(),
            Self::Colour(plane) => {
                let mut grey = Plane::filled(plane.width(), plane.height(), 0u8);
                grey.data_mut().par_iter_mut().zip(plane.data()).for_each(|(g, [r, green, b])| {
                    let sum = 299 * u32::from(*r) + 587 * u32::from(*green) + 114 * u32::from(*b);
                    *g = ((sum + 500) / 1000) as u8;
                });
                grey
            }
        }
    }

    /// As a baseline JPEG of a quality from 1 to 100, with a resolution tag when one is asked for (which
    /// need not be the true one).
    ///
    /// # Errors
    /// [`PictureError::Refused`] when the picture is too large for the format.
    pub fn to_jpeg(&self, quality: u8, tag: Option<Ppi>) -> Result<Vec<u8>, PictureError> {
        let mut bytes = Vec::new();
        let mut encoder = JpegEncoder::new_with_quality(&mut bytes, quality.clamp(1, 100));
        if let Some(ppi) = tag {
            encoder.set_pixel_density(PixelDensity::dpi(ppi.0.round().clamp(1.0, 65_535.0) as u16));
        }
        self.encoded(encoder, "JPEG")?;
        Ok(bytes)
    }

    /// As a PNG, without a resolution tag.
    ///
    /// # Errors
    /// [`PictureError::Refused`] when the picture is too large for the format.
    pub fn to_png(&self) -> Result<Vec<u8>, PictureError> {
        let mut bytes = Cursor::new(Vec::new());
        self.encoded(PngEncoder::new(&mut bytes), "PNG")?;
        Ok(bytes.into_inner())
    }

    fn encoded(&self, encoder: impl ImageEncoder, format: &'static str) -> Result<(), PictureError> {
        let (width, height) = (self.width(), self.height());
        let (data, kind) = match self {
            Self::Grey(plane) => (plane.data(), ExtendedColorType::L8),
            Self::Colour(plane) => (plane.data().as_flattened(), ExtendedColorType::Rgb8),
        };
        encoder.write_image(data, width as u32, height as u32, kind).map_err(|e| PictureError::Refused {
            width,
            height,
            format,
            reason: e.to_string(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_jpeg_carries_the_tag_it_was_given() {
        let picture = Picture::Grey(Plane::filled(40, 30, 200));
        let bytes = picture.to_jpeg(90, Some(Ppi(287.0))).unwrap();
        // JFIF 1.02, section 5: after "JFIF\0" the version, the unit (1 = inch), then the density.
        let at = bytes.windows(5).position(|w| w == b"JFIF\0").unwrap();
        assert_eq!(bytes[at + 7], 1);
        assert_eq!(u16::from_be_bytes([bytes[at + 8], bytes[at + 9]]), 287);
        let back = image::load_from_memory(&bytes).unwrap().to_luma8();
        assert!(back.pixels().all(|p| p.0[0].abs_diff(200) < 3));
    }

    #[test]
    fn luminance_weighs_the_colours() {
        let picture = Picture::Colour(Plane::filled(2, 2, [255, 0, 0]));
        assert_eq!(picture.luminance().at(0, 0), 76);
    }
}
