//! The whole result of comparing two photographs, as it is written to JSON.
//!
//! Boxes are x, y, w, h in pixels of each photograph as a viewer shows it (turned by its EXIF tag).

use crate::{Sorts, Standing, Verdict};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use sheet::{Point, Rect};

/// Everything that was found out about two impressions.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Comparison {
    /// The verdict on the setting.
    pub verdict: Verdict,
    /// Log10 of the likelihood of the evidence if all that is compared stands from one setting, over
    /// that if the same text was set again. Null for a different text and where nothing can be judged.
    pub weight_log10: Option<f64>,
    /// What stands behind the weight.
    pub weight_basis: Option<WeightBasis>,
    /// How much of the print moved on its own, after the smooth motion of the paper is taken away.
    pub residual: Residual,
    /// Places that differ and move the verdict.
    pub changes: Vec<Change>,
    /// Places that may differ but do not move the verdict: ink, paper or resolution leave them open.
    pub doubtful: Vec<Change>,
    /// The lines of type of the first photograph, from the top.
    pub lines: Vec<LineFinding>,
    /// The straight-edge test of the handbooks: upright lines laid across the page.
    pub straight_edge: Vec<StraightEdge>,
    /// Share of the words of both sides matched in their order, 0 to 1, or of those found in their places where eight in
    /// ten are; null where no words were found.
    pub words_matched: Option<f64>,
    /// Share of the lines of the first that begin with the same word as a line of the second, of those that begin amid
    /// text matched, 0 to 1; null of fewer than four, and where eight words in ten were found in their places. Over other
    /// line-ends about one in four is so by chance.
    pub lines_begin_alike: Option<f64>,
    /// Said when the two photographs may show one and the same copy.
    pub perhaps_one_copy: Option<String>,
    /// Why the verdict is what it is, in sentences.
    pub reasons: Vec<String>,
    /// Reasons for which it could be wrong, in sentences.
    pub cautions: Vec<String>,
    /// What the user should know of these two files.
    pub warnings: Vec<String>,
    /// How the second photograph lies on the first; null where they could not be laid together.
    pub placement: Option<Placement>,
}

/// What a weight rests on.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct WeightBasis {
    /// Simulated pairs that the weight was calibrated on.
    pub simulated_pairs: usize,
    /// Real pairs, counted by edition, that it was calibrated on.
    pub real_pairs: usize,
    /// The largest weight, either way, that so many pairs can support.
    pub largest: f64,
    /// Whether these photographs resemble those.
    pub resembles: bool,
}

/// The median displacement of a patch against the smooth motion of those about it that share no ink with it.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Residual {
    /// Millimetres of sheet; null when the scale of the first photograph is unknown.
    pub median_mm: Option<f64>,
    /// Pixels of the first photograph; null when the two could not be laid together.
    pub median_px: Option<f64>,
    /// x-heights of the text; null when no lines of type were found.
    pub median_x_heights: Option<f64>,
    /// Median of its part along the lines of type alone, pixels of the first photograph. What lines set
    /// again show; against [`Self::across_px`], for lines keep their height whoever sets them.
    pub along_px: Option<f64>,
    /// Median of its part across the lines alone: paper and measuring.
    pub across_px: Option<f64>,
    /// 95th percentile, pixels of the first photograph.
    pub p95_px: Option<f64>,
    /// Patches with a residual.
    pub patches: usize,
    /// Patches that hold print but could not be judged.
    pub unjudged: usize,
}

/// What kind of difference a place shows, from the first photograph to the second. Which state came
/// first is not said.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum ChangeClass {
    /// Other sorts stand here.
    SortChanged,
    /// The same sorts stand elsewhere in the line.
    SortMoved,
    /// Sorts stand in the second where there is paper in the first.
    SortAdded,
    /// Sorts stand in the first where there is paper in the second.
    SortLost,
    /// The words of a line are spaced otherwise.
    LineRespaced,
    /// Ink is missing in one and the letter seems the same.
    InkMissing,
    /// Ink that is no letter: a risen space, a blot, a hair, a stain.
    InkExtra,
}

impl ChangeClass {
    /// Whether it is a difference of the setting, and not of ink or paper.
    pub fn moves_the_verdict(self) -> bool {
        !matches!(self, Self::InkMissing | Self::InkExtra)
    }

    /// Plain words for a reader, as after "a place with".
    pub fn words(self) -> &'static str {
        match self {
            Self::SortChanged => "other sorts",
            Self::SortMoved => "sorts moved",
            Self::SortAdded => "print in the second only",
            Self::SortLost => "print in the first only",
            Self::LineRespaced => "a line spaced otherwise",
            Self::InkMissing => "ink missing",
            Self::InkExtra => "extra ink, no letter",
        }
    }
}

/// A place that differs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Change {
    /// What kind of difference.
    pub class: ChangeClass,
    /// How sure, 0 to 1.
    pub score: f64,
    /// The place on the first photograph: x, y, w, h in pixels.
    pub box_a_px: [f64; 4],
    /// The place on the second photograph: x, y, w, h in pixels.
    pub box_b_px: [f64; 4],
    /// Its breadth along the lines and its height across them, millimetres of sheet; null when the scale of the first
    /// photograph is unknown.
    pub size_mm: Option<[f64; 2]>,
    /// The same in x-heights of the text.
    pub size_x_heights: Option<[f64; 2]>,
    /// The line of the first photograph it lies in, counted from 1; null outside the lines.
    pub line: Option<usize>,
}

impl Change {
    /// Tells its size from its box on the first side, set upright.
    pub(crate) fn measure(&mut self, px_per_mm: Option<f64>, x_height: f64) {
        let [_, _, w, h] = self.box_a_px;
        let size = |unit: f64| [w, h].map(|v| (v / unit * 100.0).round() / 100.0);
        self.size_mm = px_per_mm.map(size);
        self.size_x_heights = (x_height > 0.0).then(|| size(x_height));
    }
}

/// What a line of type did.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LineFinding {
    /// Counted from 1 at the top of the first photograph.
    pub number: usize,
    /// What it did.
    pub standing: Standing,
    /// Log10 of the likelihood if it stands over that if it was set again; null if unjudged.
    pub weight_log10: Option<f64>,
    /// Its place on the first photograph: x, y, w, h in pixels.
    pub box_a_px: [f64; 4],
    /// Words found on the second photograph, of those it has.
    pub words_found: usize,
    /// Words it has.
    pub words: usize,
    /// How like its words are to the second's, laid on themselves, against what is usual in the lines that
    /// stand (0; below: other pieces of type, or poor ink); null without words to compare, and of pages on which no
    /// line stands.
    pub likeness: Option<f64>,
    /// Whether its sorts stand a little above or below it as they did (the same pieces of type) or otherwise (other
    /// pieces); null if that is not clear.
    pub sorts: Option<Sorts>,
    /// The drift along the line, word by word.
    pub drift: Vec<DriftPoint>,
}

/// How far one word lies from where the paper's motion puts it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct DriftPoint {
    /// The word's middle along its line, pixels of the first photograph: its x, or its y where lines run up or
    /// down the photograph.
    pub along_px: f64,
    /// Drift along the line, pixels of the first photograph, positive the way it is read.
    pub drift_px: f64,
    /// Its standard deviation if the word stands.
    pub sd_px: f64,
}

/// One straight edge laid across the page.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct StraightEdge {
    /// Its upper end on the first photograph, pixels.
    pub from_px: Point,
    /// Its lower end.
    pub to_px: Point,
    /// Lines it crosses in which a judgement was possible.
    pub crossed: usize,
    /// Of these, lines in which it cuts the second impression at another place, beyond measuring error.
    pub fails: usize,
    /// The largest such distance, pixels of the first photograph; 0 where it fails in none.
    pub largest_px: f64,
    /// The lines it crosses, from the top.
    pub crossings: Vec<Crossing>,
}

/// Where a straight edge crosses a line of type.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Crossing {
    /// The line, counted from 1.
    pub line: usize,
    /// The place on the first photograph, pixels.
    pub at_px: Point,
    /// How far off the edge the same letters lie in the second impression, pixels of the first, positive the way the
    /// line is read.
    pub off_px: f64,
    /// Its standard deviation if the line stands.
    pub sd_px: f64,
    /// Whether that is beyond measuring error.
    pub fails: bool,
}

/// How the second photograph lies on the first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Placement {
    /// The plane view, nine coefficients by rows: pixels of the first (after the paper's motion is
    /// added) to pixels of the second.
    pub view: [[f64; 3]; 3],
    /// Turn of the second against the first, degrees, positive clockwise.
    pub turn_degrees: f64,
    /// Pixels of the second to one of the first, in the middle of the first.
    pub scale: f64,
    /// Places of the first and where they lie on the second, over a grid: ax, ay, bx, by in pixels.
    pub grid: Vec<[f64; 4]>,
    /// Straight lines across which the sheet of either copy jumps: folds, open or shut. Between the nodes of the grid
    /// the placement is smooth but for these.
    pub creases: Vec<FoundCrease>,
    /// Share of the first photograph's print that was found on the second, 0 to 1.
    pub found_share: f64,
    /// Side of a patch, pixels of the first.
    pub patch_px: f64,
    /// The patches of the first that hold print: the map of the residual.
    pub patches: Vec<PatchResidual>,
}

/// A small patch of print, and how it moved against its neighbours.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PatchResidual {
    /// Its middle on the first photograph, pixels.
    pub at_px: Point,
    /// How far its print lies in the second from where the smooth motion of the paper puts it, pixels of the first, right
    /// and down; null where it could not be found again.
    pub residual_px: Option<[f64; 2]>,
}

/// A crease in either copy, on the first photograph.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FoundCrease {
    /// Where the line enters the photograph, and where it leaves it.
    pub from_px: Point,
    /// The other end.
    pub to_px: Point,
    /// Width of the strip that is hidden in the one and seen in the other, in the middle of the line, pixels of the
    /// first.
    pub jump_px: f64,
}

/// A share, a weight or a place as it is written to a record: rounded to thousandths.
pub(crate) fn to_thousandths(v: f64) -> f64 {
    (v * 1000.0).round() / 1000.0
}

/// A box as it was written to a record.
pub(crate) fn rect([x, y, w, h]: [f64; 4]) -> Rect {
    Rect::new(x, y, w, h)
}

/// A box as it is written to a record: rounded to a tenth of a pixel.
pub(crate) fn box_px(r: Rect) -> [f64; 4] {
    [r.x, r.y, r.w, r.h].map(|v| (v * 10.0).round() / 10.0)
}
