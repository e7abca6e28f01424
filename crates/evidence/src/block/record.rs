//! What is told of two impressions of a cut.

use super::{BlockSigns, BlockVerdict, DesignSigns};
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
    /// What was measured of the two as wholes; [`Self::composition`] is of it.
    pub design: DesignSigns,
    /// log10 of how many times likelier the two are of one design, cut twice, than of two designs, by their masses.
    pub design_log10: f64,
    /// Whether the second prints the other way round, as a copy traced onto the wood does.
    pub is_mirrored: bool,
    /// The second's width and height by those of the first, each in its own pixels, or in millimetres where both have a
    /// scale; null where the two could not be laid together.
    pub size_ratio: Option<[f64; 2]>,
    /// Whether [`Self::size_ratio`] is of millimetres.
    pub size_is_true: bool,
    /// How far the second's left, top, right and bottom edge lie within the first's, thousandths of the first's shorter side,
    /// less than 0 where they lie beyond; null where the two could not be laid together.
    pub edges_per_mille: Option<[f64; 4]>,
    /// How far lines wander against their neighbours once the second is laid on the first; null where too few were found.
    pub wandering: Option<Wandering>,
    /// Why the sizes speak against one block, where it is told: more than wood and paper leave room for; null where they do not.
    pub size_doubt: Option<String>,
    /// Why the second, of one block with the first, may be of a cast of it in metal; null where nothing says so.
    pub perhaps_a_cast: Option<String>,
    /// Parts that were judged by themselves, where the whole does not agree.
    pub pieces: Vec<PieceFound>,
    /// Parts of one block that are not the same, where both show strokes.
    pub altered: Vec<Altered>,
}

/// How far the lines of the second wander against those of the first.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Wandering {
    /// How far half of the windows lie off their neighbours' smooth motion and more, thousandths of the first cut's width.
    pub per_mille: f64,
    /// The same in millimetres; null where the first has no scale.
    pub mm: Option<f64>,
    /// How far from each other windows still lie off alike, thousandths of the first cut's width; null where that is not to be
    /// told.
    pub alike_within_per_mille: Option<f64>,
    /// The same in millimetres.
    pub alike_within_mm: Option<f64>,
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
    /// What seems to have been done.
    pub what: AlteredHow,
}

/// What seems to have been done to a part of a block.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum AlteredHow {
    /// It was plugged and cut anew, or is another block of a composite.
    CutAnew,
    /// The second lacks it: sawn off.
    SawnOff,
    /// The first lacks it: sawn off, if the second is the earlier.
    SawnOffTheFirst,
}

impl AlteredHow {
    /// For a reader.
    pub(super) fn words(self) -> &'static str {
        match self {
            Self::CutAnew => "its lines are not the same; it was cut anew, or is another block",
            Self::SawnOff => "the second ends before it, as a block does that was sawn smaller",
            Self::SawnOffTheFirst => "the first ends before it, as a block does that was sawn smaller",
        }
    }
}
