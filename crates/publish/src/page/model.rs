//! What the page shows, as plain values. All words are ready to be read: the page only sets them.

use crate::pictures::{PictureSet, ResidualMap, Strips};
use evidence::Standing;

/// Everything on the page of one comparison.
#[derive(Debug, Clone)]
pub struct PageModel {
    /// What was compared, as the heading of the window: "Order of the council, two copies".
    pub title: String,
    /// The verdict in plain words: "One setting of type, with differences".
    pub verdict_words: String,
    /// Why, a sentence each, the weightiest first.
    pub verdict_reasons: Vec<String>,
    /// Why it could be wrong and what it does not say, a sentence each.
    pub cautions: Vec<String>,
    /// The weight of the evidence; none where the verdict has none (a different text, *undetermined*).
    pub weight: Option<WeightModel>,
    /// How well the two lie together, in words: "median 0.021 mm (0.25 px)".
    pub residual_words: String,
    /// The two photographs, the first and the second.
    pub sides: [SideModel; 2],
    /// What there is to look at; none when nothing could be drawn.
    pub pictures: Option<PictureSet>,
    /// The places that differ, in the order of the walk.
    pub changes: Vec<ChangeModel>,
    /// What is said where there is none, a sentence.
    pub no_changes: String,
    /// The lines of type, from the top.
    pub lines: Vec<LineModel>,
    /// The unit of every [`DriftPoint::drift`]: "mm", "x-heights" or "px".
    pub drift_unit: String,
    /// How far each patch of print lies off the smooth motion of the paper; none where nothing was laid.
    pub residuals: Option<ResidualMap>,
    /// The straight edges laid across the page.
    pub edges: Vec<EdgeModel>,
    /// What could not be judged and why, a sentence each.
    pub not_judged: Vec<String>,
    /// What the reader must know about the photographs or the run, a sentence each.
    pub warnings: Vec<String>,
    /// The program and its version: "reglet 0.1.0".
    pub program: String,
    /// The command that made the page, as it was typed.
    pub command: String,
}

/// The weight of the evidence.
#[derive(Debug, Clone)]
pub struct WeightModel {
    /// log10 of the likelihood ratio: above 0 for one setting, below 0 for two.
    pub log10: f64,
    /// The same in words, with what stands behind it: how many pairs, whether simulated or real.
    pub words: String,
}

/// One of the two photographs.
#[derive(Debug, Clone)]
pub struct SideModel {
    /// The name of the file, without its folder.
    pub file_name: String,
    /// The SHA-256 of the file in hexadecimal, where it was taken.
    pub sha256: Option<String>,
    /// Width and height of the photograph in pixels, as it is seen (turned by its EXIF tag).
    pub size_px: [u32; 2],
    /// The scale, where it comes from and how sure it is: "300 ppi, from the JFIF header, unchecked".
    pub scale_words: String,
}

/// A box on the frame of the first photograph, as shares (0 to 1) of its width and height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FrameBox {
    /// Left edge.
    pub x: f64,
    /// Top edge.
    pub y: f64,
    /// Width.
    pub w: f64,
    /// Height.
    pub h: f64,
}

/// A box in pixels of an original photograph: x, y, w, h.
pub type PxBox = [i64; 4];

/// One place that differs.
#[derive(Debug, Clone)]
pub struct ChangeModel {
    /// What it is, in words: "sort changed", "ink missing in the second".
    pub class_words: String,
    /// How sure it is, 0 to 1.
    pub score: f64,
    /// Whether it is too doubtful to move the verdict.
    pub doubtful: bool,
    /// Where it is on the frame of the first photograph.
    pub frame: FrameBox,
    /// Where it is on the first photograph.
    pub box_a_px: PxBox,
    /// Where it is on the second photograph.
    pub box_b_px: PxBox,
    /// How large it is on the sheet, in words, where that is known.
    pub size_words: Option<String>,
}

/// One line of type.
#[derive(Debug, Clone)]
pub struct LineModel {
    /// Its number from the top, from 1.
    pub number: usize,
    /// Where it is on the frame of the first photograph.
    pub frame: FrameBox,
    /// How it stands.
    pub standing: Standing,
    /// How its sorts stand off it, in words: "as before".
    pub sorts_words: String,
    /// The drift along it in words: "0.03 mm at most".
    pub drift_words: String,
    /// The drift along it, from left to right.
    pub drift: Vec<DriftPoint>,
}

/// The drift at one place of a line: how far the second's ink lies to the right of where the smooth
/// motion of its neighbourhood would put it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DriftPoint {
    /// How far along the line, 0 (its left end) to 1.
    pub at: f64,
    /// The drift, in [`PageModel::drift_unit`]; to the right is positive.
    pub drift: f64,
}

/// A straight edge laid across the page in both impressions.
#[derive(Debug, Clone)]
pub struct EdgeModel {
    /// Its number, from 1 at the left.
    pub number: usize,
    /// What it shows, in a sentence.
    pub words: String,
    /// A strip of each photograph along it; none where no picture could be drawn.
    pub strips: Option<Strips>,
    /// The edge as a box of the frame, as wide as the strips.
    pub frame: FrameBox,
    /// The lines of type that it crosses, from the top.
    pub crossings: Vec<CrossingModel>,
}

/// Where a straight edge crosses a line of type.
#[derive(Debug, Clone)]
pub struct CrossingModel {
    /// The line's number.
    pub line: usize,
    /// How far down the strips, as a share of their height.
    pub down: f64,
    /// How far off the edge the same letters lie in the second, in words: "0.31 mm".
    pub off_words: String,
    /// Whether that is more than measuring error.
    pub fails: bool,
}
