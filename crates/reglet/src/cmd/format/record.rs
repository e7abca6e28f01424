//! What `reglet format --json` writes.

use schemars::JsonSchema;
use serde::Serialize;
use trade::format::{ChainLines, Evidence, Found, Place, Way, watermark_places};
use trade::lengths::Band;
use trade::paper::{Paper, Sheet};

/// What `reglet format --json` writes.
#[derive(Debug, Serialize, JsonSchema)]
pub(in crate::cmd) struct FormatRecord {
    /// What was seen of the leaf; null where a sheet was given.
    pub(super) evidence: Option<Evidence>,
    /// What it may come from; null where a sheet was given.
    pub(super) found: Option<Found>,
    /// What can mislead.
    pub(super) cautions: Vec<String>,
    /// The sheets that were asked for, and what they make.
    pub(super) sheets: Vec<SheetMakes>,
    /// The program and its version.
    pub(super) program: String,
}

/// A sheet and its leaves.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct SheetMakes {
    /// The paper, where it was named.
    pub(super) paper: Option<Paper>,
    /// The sheet.
    pub(super) sheet: Sheet,
    /// Its leaf in every format.
    pub(super) leaves: Vec<LeafOf>,
}

/// A leaf of a sheet, before trimming.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct LeafOf {
    /// The format.
    pub(super) format: &'static str,
    /// How it is folded.
    pub(super) folds: &'static str,
    /// Its height.
    pub(super) height: Band,
    /// Its width.
    pub(super) width: Band,
    /// How chain-lines run.
    pub(super) chain_lines: ChainLines,
    /// Where the watermark may fall.
    pub(super) watermark: Vec<Place>,
}

impl SheetMakes {
    /// Every leaf that a sheet makes.
    pub(super) fn of(paper: Option<Paper>, sheet: Sheet) -> Self {
        Self { paper, sheet, leaves: Way::all().map(|way| LeafOf::of(way, &sheet)).collect() }
    }
}

impl LeafOf {
    fn of(way: Way, sheet: &Sheet) -> Self {
        let (height, width) = way.leaf(sheet);
        Self {
            format: way.name(),
            folds: way.folds(),
            height,
            width,
            chain_lines: way.chain_lines(),
            watermark: watermark_places(way),
        }
    }
}
