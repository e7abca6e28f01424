//! What comes out of the decoder.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Format, Notice, Turning};
use crate::Plane;
use crate::scale::ResolutionTag;

/// A decoded photograph: its brightness, and what its file says about it.
#[derive(Debug, Clone, PartialEq)]
pub struct Photograph {
    /// Brightness, 0 black to 255 white, turned as the camera held it. All coordinates anywhere are
    /// those of this plane. Luma with the weights of Rec. ITU-R BT.601-7; transparent parts are white.
    pub luminance: Plane<u8>,
    /// What the file says about itself.
    pub file: FileFacts,
}

/// A decoded photograph in colour, for plates; otherwise as [`Photograph`].
#[derive(Debug, Clone, PartialEq)]
pub struct RgbPhotograph {
    /// Red, green and blue of every pixel, turned as the camera held it, as stored (no profile applied).
    pub rgb: Plane<[u8; 3]>,
    /// What the file says about itself.
    pub file: FileFacts,
}

/// What a file says about itself, and what was done to read it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FileFacts {
    /// The kind of file, told by its content.
    pub format: Format,
    /// Width as stored, before turning, in pixels.
    pub stored_width: u32,
    /// Height as stored, before turning, in pixels.
    pub stored_height: u32,
    /// How the stored pixels were turned.
    pub turned: Turning,
    /// The page that was taken, from 1, of a file that has pages.
    pub page: Option<u32>,
    /// Every resolution that the file gives, for the picture as turned. Not to be believed blindly.
    pub resolution_tags: Vec<ResolutionTag>,
    /// What the user should know.
    pub notices: Vec<Notice>,
}

impl FileFacts {
    /// Facts of a file of which only kind and size are known yet.
    pub(super) fn new(format: Format, width: u32, height: u32) -> Self {
        Self {
            format,
            stored_width: width,
            stored_height: height,
            turned: Turning::default(),
            page: None,
            resolution_tags: Vec::new(),
            notices: Vec::new(),
        }
    }
}
