//! How many pixels of a photograph make an inch of the sheet, and how far that may be trusted.

mod tag;

pub use tag::{ResolutionTag, ResolutionUnit, TagSource};

/// Stand-in until the scale module is merged.
#[derive(Debug, Clone, PartialEq)]
pub struct Scale {
    /// Pixels to the inch.
    pub ppi: crate::Ppi,
}
