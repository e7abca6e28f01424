//! What is told of the damage of a block.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What kind of damage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum DamageClass {
    /// A gap in one line, or in a few that lie together.
    Break,
    /// A gap or nick in the frame.
    FrameNick,
    /// A crack, which takes away a narrow strip across many lines or through a solid.
    Crack,
    /// A round white spot, as an insect bores it.
    Wormhole,
    /// A piece out of the edge of the block, or a corner gone.
    LostEdge,
    /// A fine line that has gone over a good part of its length.
    WornLine,
}

impl DamageClass {
    /// All six.
    pub const ALL: [Self; 6] =
        [Self::Break, Self::FrameNick, Self::Crack, Self::Wormhole, Self::LostEdge, Self::WornLine];

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::Break => "break in a line",
            Self::FrameNick => "nick in the frame",
            Self::Crack => "crack",
            Self::Wormhole => "wormhole",
            Self::LostEdge => "lost edge",
            Self::WornLine => "worn line",
        }
    }
}

/// Whether an impression shows a damage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Shows {
    /// The damage is there.
    Present,
    /// The wood prints whole where it would be.
    Absent,
    /// It cannot be judged.
    Unclear,
}

/// Why an impression does not tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Untold {
    /// The lines beside it took too little ink: a gap may be want of ink.
    TooLittleInk,
    /// Ink has spread so far that it would have filled a gap.
    TooMuchInk,
    /// A fold of the sheet runs through it.
    Fold,
    /// It is not on the photograph, or not on the part that was named.
    OutOfFrame,
    /// It is too small for the photograph's resolution.
    TooSmall,
    /// What is seen is half-way.
    Between,
}

impl Untold {
    /// In a few words.
    pub fn words(self) -> &'static str {
        match self {
            Self::TooLittleInk => "too little ink beside it",
            Self::TooMuchInk => "ink has spread over it",
            Self::Fold => "a fold runs through it",
            Self::OutOfFrame => "not on the photograph",
            Self::TooSmall => "too small for this photograph",
            Self::Between => "neither clearly there nor clearly whole",
        }
    }
}

/// A damage of a block, and which impressions show it. Impressions are told by their places in the list that was given, from
/// 0.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Damage {
    /// What kind.
    pub class: DamageClass,
    /// Where it is in the block's own frame: x, y, w, h in mm from the top left corner of the cut as the impression prints it
    /// that is the frame; null where that has no scale.
    pub box_mm: Option<[f64; 4]>,
    /// Its size: the length of a gap, a crack, a piece or a line, the diameter of a hole, mm; null without a scale.
    pub size_mm: Option<f64>,
    /// Its size in pixels of the frame's photograph.
    pub size_px: f64,
    /// Where it is on the frame's photograph: x, y, w, h in its pixels.
    pub box_px: [f64; 4],
    /// Impressions that show it.
    pub present: Vec<usize>,
    /// Impressions in which the wood prints whole there.
    pub absent: Vec<usize>,
    /// Impressions that do not tell.
    pub unclear: Vec<usize>,
    /// What was seen in each impression of the block, in their order.
    pub seen: Vec<Seen>,
}

/// What was seen of a damage in one impression.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Seen {
    /// The impression.
    pub impression: usize,
    /// Whether it shows the damage.
    pub shows: Shows,
    /// Why it does not tell.
    pub because: Option<Untold>,
    /// How likely it shows the damage, by what was measured, 0 to 1; null where nothing could be measured.
    pub chance: Option<f64>,
    /// Where it is on this impression's photograph: x, y, w, h in its pixels; null where it is not on it.
    pub box_px: Option<[f64; 4]>,
}
