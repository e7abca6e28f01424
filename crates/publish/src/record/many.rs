//! The record of many copies.

use super::Photographed;
use evidence::many::{Contradiction, Variant};
use evidence::{Comparison, Residual, Verdict};
use schemars::JsonSchema;
use serde::Serialize;

/// What `reglet compare` writes of three photographs or more. Copies are told by their places in `photographs`, from 0.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct ManyRecord {
    /// The copies of each setting, the largest first; a copy that agrees with no other is a setting by itself.
    pub settings: Vec<Vec<usize>>,
    /// Within each setting, in the same order, the copies that agree wherever they could be judged.
    pub groups_within: Vec<Vec<Vec<usize>>>,
    /// The places at which copies of one setting differ.
    pub variants: Vec<VariantFound>,
    /// Copies that agree with two others, which do not agree with each other.
    pub contradictions: Vec<Contradiction>,
    /// Copies that could not be placed, and why.
    pub unplaced: Vec<Unplaced>,
    /// Every two that were laid together.
    pub pairs: Vec<PairFound>,
    /// What the user should know.
    pub warnings: Vec<String>,
    /// Reasons for which all this could be wrong.
    pub cautions: Vec<String>,
    /// The photographs, in the order they were named in; null of one that could not be read.
    pub photographs: Vec<Option<Photographed>>,
    /// The program and its version.
    pub program: String,
}

/// A place at which copies of one setting differ, and where each copy has it.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct VariantFound {
    /// The place, and who agrees there.
    #[serde(flatten)]
    pub variant: Variant,
    /// Where it lies on the photograph of each copy that was laid on the frame.
    pub on_copies: Vec<OnCopy>,
}

/// A place on the photograph of a copy.
#[derive(Debug, Clone, Copy, Serialize, JsonSchema)]
pub struct OnCopy {
    /// The copy.
    pub copy: usize,
    /// The place: x, y, w, h in pixels of its photograph.
    pub box_px: [f64; 4],
}

/// A copy that could not be placed.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Unplaced {
    /// Its place in the list.
    pub copy: usize,
    /// Its name.
    pub file: String,
    /// Why.
    pub reason: String,
}

/// Two copies that were laid together.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct PairFound {
    /// Both; the first is the frame.
    pub copies: [usize; 2],
    /// The verdict on their setting.
    pub verdict: Verdict,
    /// Its weight, as for a single pair.
    pub weight_log10: Option<f64>,
    /// How much of the print moved on its own.
    pub residual: Residual,
    /// How many places differ and move the verdict.
    pub changes: usize,
    /// How many may differ.
    pub doubtful: usize,
    /// Why.
    pub reasons: Vec<String>,
    /// Said when both may show one copy.
    pub perhaps_one_copy: Option<String>,
}

impl PairFound {
    /// What is kept of a comparison.
    pub fn of(copies: [usize; 2], c: &Comparison) -> Self {
        Self {
            copies,
            verdict: c.verdict,
            weight_log10: c.weight_log10,
            residual: c.residual,
            changes: c.changes.len(),
            doubtful: c.doubtful.len(),
            reasons: c.reasons.clone(),
            perhaps_one_copy: c.perhaps_one_copy.clone(),
        }
    }
}
