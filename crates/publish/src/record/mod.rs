//! What is written as JSON: the comparison, and the photographs it rests on.

mod blocks;
mod many;
mod measures;

use evidence::Comparison;
use schemars::JsonSchema;
use serde::Serialize;
use sheet::decode::Format;
use sheet::scale::Scale;

pub use blocks::{BlockFound, BlocksRecord, CutFound, CutPairFound, DamageFound, DatesFound, OrderFound};
pub use many::{ManyRecord, OnCopy, PairFound, Unplaced, VariantFound};
pub use measures::{ManyMeasuresRecord, MeasuredSide, MeasuresRecord, Unread};

/// The program and its version, as every record names them.
pub const PROGRAM: &str = concat!("reglet ", env!("CARGO_PKG_VERSION"));

/// What `reglet compare --json` writes: the comparison, and the photographs it rests on.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Record {
    /// The result, at the top of the record.
    #[serde(flatten)]
    pub comparison: Comparison,
    /// The two photographs.
    pub photographs: [Photographed; 2],
    /// The program and its version.
    pub program: String,
}

/// A photograph that was looked at.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Photographed {
    /// The file as it was named.
    pub file: String,
    /// SHA-256 of the file, hexadecimal.
    pub sha256: String,
    /// Width as a viewer shows it, pixels.
    pub width_px: usize,
    /// Height as a viewer shows it, pixels.
    pub height_px: usize,
    /// Right angles it was turned by, clockwise, so that its lines run level; 0 for most. Places are told on the
    /// photograph as a viewer shows it.
    pub quarters_turned: u8,
    /// The kind of file, told by its content.
    pub format: Format,
    /// Pixels to the inch, where from, and how sure; null when unknown.
    pub scale: Option<Scale>,
    /// What was found odd in the file.
    pub notices: Vec<String>,
}

impl Record {
    /// A record of a comparison made by this version of the program.
    pub fn new(comparison: Comparison, photographs: [Photographed; 2]) -> Self {
        Self { comparison, photographs, program: PROGRAM.to_owned() }
    }
}
