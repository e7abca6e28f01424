//! What the page of many copies shows, as plain values. Copies are told by their numbers, from 1.

use crate::page::{FrameBox, PxBox, SideModel};
use crate::pictures::{Overview, Small};

/// Everything on the page of many copies.
#[derive(Debug, Clone)]
pub struct ManyModel {
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
    /// What contradicts itself, a sentence each.
    pub contradictions: Vec<String>,
    /// Terms and what they are.
    pub measures: Vec<(String, String)>,
    /// All copies, in the order they were named in.
    pub copies: Vec<CopyModel>,
    /// The settings, the largest first.
    pub settings: Vec<SettingModel>,
    /// Every two that were laid together.
    pub pairs: Vec<PairModel>,
    /// The program and its version.
    pub program: String,
    /// The command that made the page.
    pub command: String,
}

/// One copy.
#[derive(Debug, Clone)]
pub struct CopyModel {
    /// Its number.
    pub number: usize,
    /// Its photograph.
    pub side: SideModel,
    /// The setting it is of.
    pub setting: Option<usize>,
    /// Why it could not be placed.
    pub why_not: Option<String>,
    /// The copy seen whole.
    pub shown: Option<Overview>,
}

/// One setting.
#[derive(Debug, Clone)]
pub struct SettingModel {
    /// Its number.
    pub number: usize,
    /// What is said of it.
    pub words: String,
    /// Its copies, as places in [`ManyModel::copies`], from 0.
    pub copies: Vec<usize>,
    /// The copies that agree in every place, likewise.
    pub groups: Vec<Vec<usize>>,
    /// The places in which its copies differ.
    pub places: Vec<PlaceModel>,
}

/// A place in which copies of one setting differ.
#[derive(Debug, Clone)]
pub struct PlaceModel {
    /// What differs, in words.
    pub class_words: String,
    /// The line it lies in.
    pub line: Option<usize>,
    /// How sure, 0 to 1.
    pub score: f64,
    /// Where it is on the photograph of the frame.
    pub box_px: PxBox,
    /// The number of the copy that is the frame.
    pub on: usize,
    /// Where it is on the frame.
    pub frame: FrameBox,
    /// Where it is in each picture of it.
    pub within: Option<FrameBox>,
    /// The readings, the frame's first: of each the numbers of its copies, and what they show.
    pub readings: Vec<Vec<(usize, Option<Small>)>>,
    /// The copies in which it is not clear: numbers, and what they show.
    pub unclear: Vec<(usize, Option<Small>)>,
}

/// Two copies that were laid together.
#[derive(Debug, Clone)]
pub struct PairModel {
    /// Their numbers.
    pub copies: [usize; 2],
    /// What was found.
    pub verdict_words: String,
    /// Its weight.
    pub weight_log10: Option<f64>,
    /// Places that differ.
    pub places: usize,
}
