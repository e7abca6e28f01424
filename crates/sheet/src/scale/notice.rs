//! What the user should know about the scale that was taken, or was not.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::fmt;

use super::TagSource;
use crate::Ppi;

/// What the user should know about the scale that was taken, or was not.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case", tag = "notice")]
pub enum ScaleNotice {
    /// Neither the user nor the file gives a resolution that can be used: lengths are in pixels.
    Unknown,
    /// The scale is the file's own word.
    Unmeasured {
        /// What the file says.
        ppi: Ppi,
        /// Where it says so.
        tag: TagSource,
    },
    /// A tag holds the value that programs write when they know nothing; it was not used.
    Default {
        /// The value, rounded.
        ppi: Ppi,
        /// Which tag.
        tag: TagSource,
    },
    /// A tag gives different resolutions along rows and columns; it was not used.
    Unequal {
        /// Along rows.
        x: Ppi,
        /// Down columns.
        y: Ppi,
        /// Which tag.
        tag: TagSource,
    },
    /// A tag gives a resolution that no photograph of a sheet has; it was not used.
    Implausible {
        /// The value.
        ppi: Ppi,
        /// Which tag.
        tag: TagSource,
    },
    /// Two tags of the file contradict one another; neither was used.
    Conflict {
        /// What the first says.
        first: Ppi,
        /// The first.
        first_tag: TagSource,
        /// What the other says.
        second: Ppi,
        /// The other.
        second_tag: TagSource,
    },
    /// The user's scale was taken, though the file says otherwise.
    Overridden {
        /// The user's.
        taken: Ppi,
        /// The file's.
        left: Ppi,
        /// Where the file says so.
        tag: TagSource,
    },
}

impl fmt::Display for ScaleNotice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unknown => write!(
                f,
                "The scale is unknown, so lengths are given in pixels and x-heights. Give the resolution, or a \
                 known length in the picture, to have millimetres"
            ),
            Self::Unmeasured { ppi, tag } => write!(
                f,
                "The scale of {:.0} ppi is what the file says ({tag}), and nobody measured it: such tags are often \
                 those of the camera's or scanner's program, and two books in our sample are wrong by 45 and 41 \
                 percent. Give a known length in the picture (a ruler), or the resolution, to be sure of millimetres",
                ppi.0
            ),
            Self::Default { ppi, tag } => write!(
                f,
                "The file says {:.0} ppi ({tag}), which programs write when they do not know; it was not used",
                ppi.0
            ),
            Self::Unequal { x, y, tag } => write!(
                f,
                "The file says {:.0} ppi along and {:.0} ppi down the picture ({tag}); a photograph has one scale, so \
                 neither was used",
                x.0, y.0
            ),
            Self::Implausible { ppi, tag } => write!(
                f,
                "The file says {:.3} ppi ({tag}), which no photograph of a sheet has; it was not used",
                ppi.0
            ),
            Self::Conflict { first, first_tag, second, second_tag } => write!(
                f,
                "The file contradicts itself: {:.0} ppi ({first_tag}) and {:.0} ppi ({second_tag}); neither was used",
                first.0, second.0
            ),
            Self::Overridden { taken, left, tag } => write!(
                f,
                "The scale given, {:.0} ppi, was taken; the file says {:.0} ppi ({tag})",
                taken.0, left.0
            ),
        }
    }
}
