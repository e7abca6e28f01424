//! What is told of one side, as it is written to JSON. Places are on the photograph as a viewer shows it, in its pixels.

use super::Length;
use schemars::JsonSchema;
use serde::Serialize;
use trade::bodies::{Fit, Leaded};

/// All that was measured of one side.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Measures {
    /// How far the lines of type fall to the right on the side set upright, degrees; null without a line that is long enough to tell.
    pub skew_degrees: Option<f64>,
    /// Standard deviation of that angle, degrees.
    pub skew_sd_degrees: Option<f64>,
    /// The sizes of type, that with most print first.
    pub types: Vec<TypeMeasures>,
    /// The lines of type, in the order of reading.
    pub lines: Vec<LineMeasures>,
    /// How the type lies on the page; null without lines.
    pub lies: Option<Lies>,
    /// How the type took the ink; null of a side with too few words to tell.
    pub ink: Option<InkMeasures>,
    /// What may have gone wrong at press, or befallen the sheet since: candidates for a person to confirm, the surest first.
    pub incidents: Vec<Incident>,
}

/// How the type took the ink.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct InkMeasures {
    /// Mean ink of the words against that of well inked ones, none counted as more than those, 0 to 1; null of too few words.
    pub evenness: Option<f64>,
    /// Where there is more and less.
    pub map: InkMap,
    /// Places whose words took less than half of what well inked words of their size did, the largest first: x, y, w, h. Words that took no
    /// ink at all are not seen, and so not among them.
    pub faint_px: Vec<[f64; 4]>,
}

/// Ink by places: of each the ink of its words against that of well inked words of their size.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct InkMap {
    /// The places that hold words: x, y, w, h.
    pub cells_px: Vec<[f64; 4]>,
    /// Of each, in the same order, the share: 1 is well inked, more is heavier.
    pub shares: Vec<f64>,
}

/// What may have gone wrong at press, or befallen the sheet since.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Incident {
    /// What it seems to be.
    pub class: IncidentClass,
    /// How sure that is, 0 to 1; to be read with the precision that the benchmark tells for such a score.
    pub score: f64,
    /// Where it is: x, y, w, h.
    pub box_px: [f64; 4],
    /// Of a crease the ends of the line that it makes; null of all else.
    pub ends_px: Option<[[f64; 2]; 2]>,
    /// Its width and height, millimetres; null without a scale.
    pub size_mm: Option<[Length; 2]>,
    /// The line of type it lies on, by its place in `lines`; null where it is on none or on several.
    pub line: Option<usize>,
}

/// Kinds of incidents.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum IncidentClass {
    /// A space or quad that stands as high as the type, and prints.
    RisenSpace,
    /// A crease that runs through the text; whether it came before printing or later is not told.
    Crease,
}

/// A size of type.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct TypeMeasures {
    /// Its lines, by their places in `lines`, from 0.
    pub lines: Vec<usize>,
    /// Most of them that follow each other: what twenty lines were scaled up from. 1 where none does.
    pub longest_run: usize,
    /// From a baseline to that of the twentieth line after it, millimetres; null without a scale, or where no two lines follow each
    /// other.
    pub twenty_lines_mm: Option<f64>,
    /// Standard deviation of it, millimetres; that of the scale is in it.
    pub sd_mm: Option<f64>,
    /// The same in pixels.
    pub twenty_lines_px: Option<Length>,
    /// From the top of the short letters of a line to the foot of those of the nineteenth after it: twenty lines as catalogues of early
    /// books measured them. Millimetres, without a scale null.
    pub twenty_lines_by_faces_mm: Option<Length>,
    /// The same in pixels.
    pub twenty_lines_by_faces_px: Option<Length>,
    /// Height of letters without ascenders, pixels; of lines in capitals alone that of the capitals.
    pub x_height_px: Length,
    /// The same in millimetres; null without a scale.
    pub x_height_mm: Option<Length>,
    /// How high its capitals stand, pixels; null where too few could be told.
    pub capitals_px: Option<Length>,
    /// The same in millimetres; without a scale null.
    pub capitals_mm: Option<Length>,
    /// How high its letters with ascenders stand, pixels; null where too few could be told.
    pub ascenders_px: Option<Length>,
    /// The same in millimetres; without a scale null.
    pub ascenders_mm: Option<Length>,
    /// How far its letters with descenders hang below the line, pixels; null where too few could be told.
    pub descenders_px: Option<Length>,
    /// The same in millimetres; without a scale null.
    pub descenders_mm: Option<Length>,
    /// From the foot of a descender to the head of an ascender in the next line, millimetres; null without a scale, or where one of the three is
    /// not told.
    pub gap_mm: Option<Length>,
    /// What that gap usually means.
    pub gap_says: Option<String>,
    /// Length of its longest lines, pixels: the measure, where lines are filled.
    pub line_length_px: Length,
    /// The same in millimetres; null without a scale.
    pub line_length_mm: Option<Length>,
    /// Bodies whose twenty lines set solid this may be, those that fit first, then those that are near; empty without a scale.
    pub bodies: Vec<Fit>,
    /// Smaller bodies that come to it with leads, the nearest first; with none that is thicker than the gap between long letters, where that is told.
    pub bodies_with_leads: Vec<Leaded>,
}

/// A line of type.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct LineMeasures {
    /// Its baseline, from left to right as it is read.
    pub baseline_px: Vec<[f64; 2]>,
    /// From the baseline to the top of letters without ascenders; in a line of capitals alone, to their tops.
    pub x_height_px: f64,
    /// The box from ascenders to descenders: x, y, w, h.
    pub box_px: [f64; 4],
    /// The size of type it is of, by its place in `types`, from 0.
    pub size: usize,
    /// Words in it, or what stands between two spaces.
    pub words: usize,
    /// How far it falls to the right against the others, degrees; null of a line too short to tell.
    pub against_others_degrees: Option<f64>,
    /// How far its middle lies below the straight line through its ends, pixels; null of a line too short to tell.
    pub bow_px: Option<f64>,
}

/// How the type lies on the page.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Lies {
    /// The page: x, y, w, h.
    pub page_px: [f64; 4],
    /// Whether the photograph shows where the page ends on all sides. Where it does not, margins are those of the picture.
    pub page_is_whole: bool,
    /// The box of all lines, borders, rules and cuts: x, y, w, h.
    pub type_area_px: [f64; 4],
    /// Width and height of the type area, millimetres; null without a scale.
    pub type_area_mm: Option<[Length; 2]>,
    /// Margins at the left, at the head, at the right and at the foot of the side set upright, pixels.
    pub margins_px: [f64; 4],
    /// The same in millimetres; null without a scale.
    pub margins_mm: Option<[Length; 4]>,
    /// Share of the page that the type area takes, 0 to 1.
    pub share: f64,
}
