//! How many pixels of a photograph make an inch of the sheet, and how far that may be trusted.
//!
//! Start at [`scale_from`]. What a file says of itself ([`ResolutionTag`]) is heard, never believed
//! blindly; what the user says ([`ScaleRequest`]) comes first; and no scale at all is an answer too.

mod judge;
mod notice;
mod request;
mod tag;

pub use judge::{METADATA_RELATIVE_SD, STATED_RELATIVE_SD, scale_from};
pub use notice::ScaleNotice;
pub use request::{KnownLength, ScaleRequest, ScaleRequestError};
pub use tag::{ResolutionTag, ResolutionUnit, TagSource};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{Mm, Ppi, Px};

/// The scale of a photograph, with its doubt and its ground.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Scale {
    /// Pixels to the inch of sheet, the same along rows and columns.
    pub ppi: Ppi,
    /// Standard deviation of the resolution as a share of it: 0.01 is one percent. Every length in
    /// millimetres has at least this relative doubt.
    pub relative_sd: f64,
    /// Where it came from.
    pub source: ScaleSource,
}

/// Where a scale came from.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case", tag = "from")]
pub enum ScaleSource {
    /// A tag of the file.
    Metadata {
        /// Which.
        tag: TagSource,
    },
    /// The user stated the resolution.
    StatedPpi,
    /// The user measured something of known length in the picture.
    KnownLength {
        /// How long it is in the picture.
        px: Px,
        /// How long it is.
        mm: Mm,
    },
}
