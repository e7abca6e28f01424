//! The record of impressions of cuts.

use super::{Photographed, Unplaced};
use chronology::{Dated, Dates, Order};
use evidence::block::{BlockComparison, Damage};
use schemars::JsonSchema;
use serde::Serialize;

/// What `reglet blocks` writes. Impressions are told by their places in `photographs`, from 0: one cut of each.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct BlocksRecord {
    /// Every two impressions.
    pub pairs: Vec<CutPairFound>,
    /// The blocks, that of most impressions first; an impression that agrees with no other is of a block by itself.
    pub blocks: Vec<BlockFound>,
    /// What the blocks have lost, block by block, each as it is numbered on the page from 1 on.
    pub damage: Vec<DamageFound>,
    /// The order of the impressions of each block that has damage which only some of them show.
    pub order: Vec<OrderFound>,
    /// Their years; null where none was asked for.
    pub dates: Option<Vec<DatesFound>>,
    /// The cut on each photograph; null of one that could not be read or has none.
    pub cuts: Vec<Option<CutFound>>,
    /// Photographs that could not be read, or on which no cut was found, and why.
    pub unplaced: Vec<Unplaced>,
    /// What the user should know.
    pub warnings: Vec<String>,
    /// Reasons for which all this could be wrong.
    pub cautions: Vec<String>,
    /// The photographs, in the order they were named in; null of one that could not be read.
    pub photographs: Vec<Option<Photographed>>,
    /// The program and its version.
    pub program: String,
}

/// Two impressions, compared.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct CutPairFound {
    /// The first.
    pub a: usize,
    /// The second.
    pub b: usize,
    /// What was found.
    #[serde(flatten)]
    pub comparison: BlockComparison,
}

/// One block.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct BlockFound {
    /// Its impressions, in the order they were named in.
    pub impressions: Vec<usize>,
    /// The impression on whose frame everything is told: the best there is.
    pub frame: usize,
    /// Pairs among them that were told to be of two blocks, which others contradict.
    pub contradicted: Vec<[usize; 2]>,
}

/// A damage, and the block that has it.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct DamageFound {
    /// Its number on the page, from 1 within its block.
    pub number: usize,
    /// The place of its block in `blocks`, from 0.
    pub block: usize,
    /// The damage.
    #[serde(flatten)]
    pub damage: Damage,
}

/// The order of the impressions of a block.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct OrderFound {
    /// The place of the block in `blocks`, from 0.
    pub block: usize,
    /// From the earliest; impressions that nothing parts stand together.
    pub earliest_first: Vec<Vec<usize>>,
    /// How sure. Within `told` impressions are counted along the block's `impressions`, and damages along those of its
    /// `damage`, both from 0.
    pub told: Order,
}

/// The years of the impressions of a block.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct DatesFound {
    /// The place of the block in `blocks`, from 0.
    pub block: usize,
    /// The years. Impressions are counted along the block's `impressions`, from 0.
    pub told: Dates,
}

/// The cut on a photograph.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct CutFound {
    /// Where it is: x, y, w, h in pixels of the photograph.
    pub box_px: [f64; 4],
    /// Whether the user named it, or it was found.
    pub named: bool,
    /// Width and height, mm; null without a scale.
    pub size_mm: Option<[f64; 2]>,
    /// The hole of a factotum, in which type was set: x, y, w, h in pixels of the photograph.
    pub hole_px: Option<[f64; 4]>,
    /// What the user said of its year.
    pub dated: Dated,
}
