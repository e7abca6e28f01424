//! What is told of two impressions of a cut.

use super::{BlockSigns, BlockVerdict};
use crate::WeightBasis;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Two impressions of a cut, compared.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BlockComparison {
    /// One block, or more than one.
    pub verdict: BlockVerdict,
    /// log10 of how many times likelier what was measured is of one block than of a design cut again; null where the two
    /// could not be laid together, or are different designs.
    pub weight_log10: Option<f64>,
    /// What the weight rests on.
    pub weight_basis: Option<WeightBasis>,
    /// The verdict in a sentence.
    pub sentence: String,
    /// Why.
    pub reasons: Vec<String>,
    /// What was measured; null where the two could not be laid together, or too little of either shows strokes.
    pub signs: Option<BlockSigns>,
    /// How alike the two are as wholes, -1 to 1: one design keeps its masses, whoever cut it.
    pub composition: f64,
    /// Whether the second prints the other way round, as a copy traced onto the wood does.
    pub is_mirrored: bool,
    /// The second's width and height by those of the first, each in its own pixels, or in millimetres where both have a
    /// scale; null where the two could not be laid together.
    pub size_ratio: Option<[f64; 2]>,
    /// Whether [`Self::size_ratio`] is of millimetres.
    pub size_is_true: bool,
    /// Parts that were judged by themselves, where the whole does not agree.
    pub pieces: Vec<PieceFound>,
    /// Parts of one block that are not the same, where both show strokes.
    pub altered: Vec<Altered>,
}

/// A part of a composite cut, judged by itself.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PieceFound {
    /// Where it is on the first: x, y, w, h in pixels of its photograph.
    pub box_a_px: [f64; 4],
    /// One block, or more than one.
    pub verdict: BlockVerdict,
    /// Its weight.
    pub weight_log10: Option<f64>,
    /// What was measured of it.
    pub signs: BlockSigns,
}

/// A part of one block that is not the same in both impressions.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Altered {
    /// Where it is on the first: x, y, w, h in pixels of its photograph.
    pub box_a_px: [f64; 4],
    /// Share of the cut's strokes that lie in it, 0 to 1.
    pub share: f64,
}
