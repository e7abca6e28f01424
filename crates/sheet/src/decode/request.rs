//! What the caller asks of the decoder.

use std::num::NonZeroU32;

use super::DecodeError;

/// What to decode, and how much of it may be decoded.
#[derive(Debug, Clone, Default)]
pub struct DecodeRequest {
    /// The page of a PDF or of a TIFF of several pages, counted from 1; `None` takes the only page of
    /// a PDF and the largest picture of a TIFF.
    pub page: Option<NonZeroU32>,
    /// The most that may be decoded.
    pub limits: Limits,
    /// The extension that the user's file carries, with or without its point. It decides nothing: the
    /// kind of a file is told by its content. It serves to say so when the two disagree.
    pub extension: Option<String>,
}

/// The most that may be decoded. Both are checked before anything is allocated for pixels.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    /// The most pixels, width times height. 250 megapixels unless said otherwise: more than the
    /// largest page images that libraries deliver (common practice, no source), and about 1 GB of work.
    pub max_pixels: u64,
    /// The most bytes of a file. 2 GiB unless said otherwise.
    pub max_bytes: u64,
}

impl Default for Limits {
    fn default() -> Self {
        Self { max_pixels: 250_000_000, max_bytes: 2 << 30 }
    }
}

impl Limits {
    /// Width and height as sizes in memory, when a picture of that size may be decoded.
    ///
    /// # Errors
    /// [`DecodeError::NoPixels`] when a side is zero, [`DecodeError::TooManyPixels`] above the limit.
    pub(super) fn admit(self, width: u32, height: u32) -> Result<(usize, usize), DecodeError> {
        if width == 0 || height == 0 {
            return Err(DecodeError::NoPixels);
        }
        if u64::from(width) * u64::from(height) > self.max_pixels {
            return Err(DecodeError::TooManyPixels { width, height, max_pixels: self.max_pixels });
        }
        Ok((width as usize, height as usize))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_header_of_thirty_thousand_squared_is_refused() {
        let limits = Limits::default();
        assert!(matches!(limits.admit(30_000, 30_000), Err(DecodeError::TooManyPixels { .. })));
        assert!(matches!(limits.admit(u32::MAX, u32::MAX), Err(DecodeError::TooManyPixels { .. })));
        assert!(matches!(limits.admit(0, 7), Err(DecodeError::NoPixels)));
        assert_eq!(limits.admit(1, 1).unwrap(), (1, 1));
    }
}
