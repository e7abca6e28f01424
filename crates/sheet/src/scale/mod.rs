//! How many pixels of a photograph make an inch of the sheet, and how far that may be trusted.

mod tag;

pub use tag::{ResolutionTag, ResolutionUnit, TagSource};
