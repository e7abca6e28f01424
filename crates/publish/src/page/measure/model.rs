//! What the page of a measured side is told.

use crate::page::{FrameBox, SideModel};
use crate::pictures::Tiled;

/// A measured side, all its words ready to be read.
#[derive(Debug, Clone)]
pub struct MeasuresModel {
    /// The name of the file.
    pub title: String,
    /// The result in one sentence.
    pub verdict_words: String,
    /// What was found, a sentence each.
    pub findings: Vec<String>,
    /// Why it could be wrong, a sentence each.
    pub cautions: Vec<String>,
    /// What the reader must know of the photograph, a sentence each.
    pub warnings: Vec<String>,
    /// Figures of the whole side, and what they are of.
    pub measures: Vec<(String, String)>,
    /// The photograph.
    pub side: SideModel,
    /// The photograph as it is looked at.
    pub picture: Tiled,
    /// The sizes of type, that with most print first.
    pub sizes: Vec<SizeModel>,
    /// The lines of type, in the order of reading.
    pub lines: Vec<LineModel>,
    /// The box of all that the forme printed.
    pub type_area: Option<FrameBox>,
    /// The page, where all of it is in the photograph.
    pub page: Option<FrameBox>,
    /// Places of the text, and how much ink their words took against well inked ones.
    pub ink: Vec<(FrameBox, f64)>,
    /// What may have gone wrong, the surest first.
    pub incidents: Vec<IncidentModel>,
    /// The program and its version.
    pub program: String,
    /// The command that made the page, as it was typed.
    pub command: String,
}

/// A size of type.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SizeModel {
    /// Its number, from 1.
    pub number: usize,
    /// How many lines it has.
    pub lines: usize,
    /// Twenty lines from baseline to baseline.
    pub twenty: String,
    /// Twenty lines by their faces.
    pub by_faces: String,
    /// Most lines that follow each other.
    pub from_run: usize,
    /// Height of letters without ascenders.
    pub x_height: String,
    /// How high its capitals, its letters with ascenders, and how deep those with descenders: "3.0; 3.2; 1.0 mm".
    pub extents: String,
    /// What the gap between its lines says, a sentence.
    pub gap: Option<String>,
    /// Its longest lines.
    pub longest: String,
    /// What body it may be.
    pub bodies: String,
}

/// A line of type.
#[derive(Debug, Clone, PartialEq)]
pub struct LineModel {
    /// Its number, from 1.
    pub number: usize,
    /// The number of its size.
    pub size: usize,
    /// How many words it has.
    pub words: usize,
    /// How far it falls to the right against the others, degrees.
    pub falls: Option<f64>,
    /// How far its middle sags, pixels.
    pub bow_px: Option<f64>,
    /// Its box.
    pub frame: FrameBox,
    /// Its baseline, in shares of the photograph.
    pub baseline: Vec<[f64; 2]>,
}

/// What may have gone wrong.
#[derive(Debug, Clone, PartialEq)]
pub struct IncidentModel {
    /// What it may be: "a risen space or quad".
    pub class_words: String,
    /// How sure that is, 0 to 1.
    pub score: f64,
    /// Its box.
    pub frame: FrameBox,
    /// Of a crease the ends of its line, in shares of the photograph.
    pub ends: Option<[[f64; 2]; 2]>,
    /// Where it is, and how large.
    pub where_words: String,
}
