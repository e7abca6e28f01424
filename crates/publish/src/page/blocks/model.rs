//! What the page of blocks shows, as plain values. Impressions, damages and blocks are told by their numbers, from 1.

use crate::page::{FrameBox, SideModel};
use crate::pictures::{Overview, Small};
use chronology::Dated;

/// Everything on the page of blocks.
#[derive(Debug, Clone)]
pub struct BlocksModel {
    /// What was compared.
    pub title: String,
    /// The result in one sentence.
    pub verdict_words: String,
    /// What was found, a sentence each.
    pub findings: Vec<String>,
    /// Why it could be wrong and what it does not say, a sentence each.
    pub cautions: Vec<String>,
    /// What the reader must know about the photographs or the run, a sentence each.
    pub warnings: Vec<String>,
    /// Terms and what they are.
    pub measures: Vec<(String, String)>,
    /// All photographs, in the order they were named in.
    pub impressions: Vec<ImpressionModel>,
    /// The blocks, that of most impressions first.
    pub blocks: Vec<BlockModel>,
    /// Every two that were compared.
    pub pairs: Vec<CutPairModel>,
    /// What is doubtful of the whole, a sentence each; what is of one block stands with it.
    pub doubts: Vec<String>,
    /// The program and its version.
    pub program: String,
    /// The command that made the page.
    pub command: String,
}

/// One photograph and the cut on it.
#[derive(Debug, Clone)]
pub struct ImpressionModel {
    /// Its number.
    pub number: usize,
    /// Its photograph.
    pub side: SideModel,
    /// The block it is of.
    pub block: Option<usize>,
    /// Why it could not be placed.
    pub why_not: Option<String>,
    /// Where the cut is and how large, in words; none without one.
    pub cut_words: Option<String>,
    /// What was said of its year.
    pub dated: Dated,
    /// The cut as it is photographed.
    pub cut: Option<Small>,
    /// The impression on the frame of its block; none where its block has no other.
    pub shown: Option<Overview>,
    /// The same as small as a head of a column.
    pub head: Option<Small>,
}

/// The history of one block.
#[derive(Debug, Clone)]
pub struct BlockModel {
    /// Its number.
    pub number: usize,
    /// What is said of it, a sentence or two.
    pub words: String,
    /// Its impressions, the earliest first where there is an order, else as they were named.
    pub impressions: Vec<usize>,
    /// The impression on whose frame everything is told.
    pub frame: usize,
    /// Its best impression, made of all.
    pub composite: Option<Small>,
    /// What it has lost.
    pub damages: Vec<DamageModel>,
    /// The order of its impressions.
    pub order: Option<OrderModel>,
    /// Their years.
    pub dates: Option<DatesModel>,
    /// What is doubtful, a sentence each.
    pub doubts: Vec<String>,
}

/// A damage of a block.
#[derive(Debug, Clone)]
pub struct DamageModel {
    /// Its number within the block.
    pub number: usize,
    /// What it is.
    pub class_words: String,
    /// Where it is: "12.1, 30.4 mm", or in pixels of the frame's photograph.
    pub place_words: String,
    /// How large it is.
    pub size_words: String,
    /// Where it is on the frame.
    pub frame: FrameBox,
    /// What every impression of the block shows of it.
    pub seen: Vec<SeenModel>,
    /// Where it is in each picture of it.
    pub within: FrameBox,
}

/// What an impression shows of a damage.
#[derive(Debug, Clone)]
pub struct SeenModel {
    /// The impression.
    pub impression: usize,
    /// Whether it shows it.
    pub sign: Sign,
    /// Why it does not tell.
    pub because: Option<String>,
    /// How likely it shows it by what was measured, 0 to 1.
    pub chance: Option<f64>,
    /// Whether it stands against the order.
    pub is_odd: bool,
    /// The place in this impression.
    pub crop: Option<Small>,
}

/// Whether a damage is seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sign {
    /// It is there.
    Present,
    /// The wood prints whole.
    Absent,
    /// It cannot be judged.
    Unclear,
}

impl Sign {
    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Present => "present",
            Self::Absent => "absent",
            Self::Unclear => "unclear",
        }
    }
}

/// The order of the impressions of a block.
#[derive(Debug, Clone)]
pub struct OrderModel {
    /// The states, the earliest first: impressions of one state are tied.
    pub states: Vec<StateModel>,
    /// The damages from the first that came; those seen nowhere are left out.
    pub rows: Vec<RowModel>,
    /// The chance, 0 to 1, that the impression of the row came before that of the column, both as in
    /// [`BlockModel::impressions`].
    pub before: Vec<Vec<f64>>,
    /// How the pairs stand by the table alone, likewise; none of an impression with itself.
    pub stand: Vec<Vec<Option<Stand>>>,
    /// What no order explains, a sentence each.
    pub contradictions: Vec<String>,
    /// How the chances were found and how often cells are read wrongly, a sentence each.
    pub notes: Vec<String>,
    /// What was taken for likely beforehand, a sentence each.
    pub priors: Vec<String>,
}

/// How two impressions stand by the table alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stand {
    /// One has damage that the other lacks.
    Parted,
    /// Nothing parts them.
    Tied,
    /// Each has damage that the other lacks.
    Contradicted,
}

/// A state of the block.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StateModel {
    /// Its rank, from 1.
    pub rank: usize,
    /// The impressions that show it.
    pub impressions: Vec<usize>,
    /// The damages that it shows and earlier ones do not; of the first state those that were there from the first.
    pub new: Vec<usize>,
}

/// A row of the picture of order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RowModel {
    /// The damage.
    pub damage: usize,
    /// How many impressions of the order were printed before it came.
    pub came_after: usize,
    /// How many were printed before it was made good, where that is likelier than not.
    pub gone_after: Option<usize>,
    /// How likely it came just there, 0 to 1.
    pub chance: f64,
}

impl RowModel {
    /// Of a damage whose place in the order is not known: as if it came after all.
    pub(crate) fn unplaced(damage: usize, block: &BlockModel) -> Self {
        Self { damage, came_after: block.impressions.len(), gone_after: None, chance: 0.0 }
    }
}

/// The years of the impressions of a block.
#[derive(Debug, Clone)]
pub struct DatesModel {
    /// Every impression, as in [`BlockModel::impressions`].
    pub rows: Vec<YearRow>,
    /// The rate, in a sentence or two.
    pub rate_words: String,
    /// How the model fares, a sentence each.
    pub checks: Vec<String>,
    /// Dated impressions that were taken for undated.
    pub held_out: Vec<HeldOutModel>,
    /// What the reader must know, a sentence each.
    pub warnings: Vec<String>,
    /// What was taken for likely beforehand, a sentence each.
    pub priors: Vec<String>,
}

/// The year of one impression.
#[derive(Debug, Clone)]
pub struct YearRow {
    /// The impression.
    pub impression: usize,
    /// What it is called.
    pub name: String,
    /// What was said of its year.
    pub dated: Dated,
    /// By the order alone.
    pub by_order: Option<YearModel>,
    /// With the rate.
    pub with_rate: Option<YearModel>,
    /// The dated impressions between which the order puts it, in words.
    pub bounds_words: String,
    /// What the plain straight line says, in words.
    pub plain_words: Option<String>,
}

/// A year with its doubt. Years are points of time: 1590.0 is the middle of 1590.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct YearModel {
    /// As likely earlier as later.
    pub median: f64,
    /// Between these with 50 percent.
    pub half: [f64; 2],
    /// Between these with 95 percent.
    pub nearly_all: [f64; 2],
    /// Whether it rests on how far past the known years it may lie.
    pub rests_on_window: bool,
    /// How likely it lies beyond the dated impressions, 0 to 1.
    pub beyond: f64,
}

/// A dated impression that was taken for undated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeldOutModel {
    /// The impression.
    pub impression: usize,
    /// Its year.
    pub known: f64,
    /// As likely earlier as later.
    pub median: f64,
    /// Between these with 50 percent.
    pub half: [f64; 2],
    /// Between these with 95 percent.
    pub nearly_all: [f64; 2],
    /// Whether it lies beyond the dated impressions that are left.
    pub is_beyond: bool,
}

/// Two impressions that were compared.
#[derive(Debug, Clone)]
pub struct CutPairModel {
    /// Their numbers.
    pub impressions: [usize; 2],
    /// What was found.
    pub verdict_words: String,
    /// Its weight.
    pub weight_log10: Option<f64>,
    /// How alike they are as wholes, and how large the second is beside the first, in words.
    pub likeness_words: String,
    /// Why, a sentence each.
    pub reasons: Vec<String>,
}
