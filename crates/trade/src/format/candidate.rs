//! What was seen of a leaf, and what it may come from.

use super::{ChainLines, Place, Way};
use crate::lengths::{Band, Mm};
use crate::paper::Paper;
use schemars::JsonSchema;
use serde::Serialize;

/// What was seen of a leaf. At least one of the three must be given.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Evidence {
    /// Its height and width.
    pub leaf: Option<(Mm, Mm)>,
    /// How chain-lines run in it.
    pub chain_lines: Option<ChainLines>,
    /// Where the watermark lies.
    pub watermark: Option<Place>,
    /// The year of printing, about.
    pub year: Option<i32>,
    /// Whether its edges are uncut.
    pub is_uncut: bool,
}

/// Whether a piece of evidence speaks for a candidate.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Agreement {
    /// It is as it should be.
    Agrees,
    /// It lies next to where it should be.
    Nearly,
    /// It is not.
    Contradicts,
    /// Nothing was said of it.
    NotGiven,
}

/// What must have been cut off.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Trim {
    /// From head and foot together; below zero where the leaf is larger than the sheet allows.
    pub height: Band,
    /// From the fore-edge.
    pub width: Band,
}

/// A format, on a paper, that the leaf may come from.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Candidate {
    /// The way the sheet was parted.
    pub way: Way,
    /// Its name.
    pub format: &'static str,
    /// The paper; null where no leaf was measured.
    pub paper: Option<Paper>,
    /// Height of the untrimmed leaf on that paper.
    pub untrimmed_height: Option<Band>,
    /// Width of it.
    pub untrimmed_width: Option<Band>,
    /// What must have been cut off.
    pub trim: Option<Trim>,
    /// Whether the chain-lines speak for it.
    pub chain_lines: Agreement,
    /// Whether the watermark does.
    pub watermark: Agreement,
    /// Whether the year falls in the period of the paper's list.
    pub year: Agreement,
    /// How far the leaf lies from what one ordinary binding would leave, millimetres; 0 where it fits.
    pub distance_mm: Mm,
}

impl Candidate {
    /// Whether chain-lines or watermark speak against it.
    pub fn contradicts(&self) -> bool {
        [self.chain_lines, self.watermark].contains(&Agreement::Contradicts)
    }

    /// Contradictions first, then doubts: the smaller, the better.
    pub(super) fn rank(&self) -> (u8, u8, u8) {
        let count =
            |what: Agreement| [self.chain_lines, self.watermark].iter().filter(|a| **a == what).count() as u8;
        (
            count(Agreement::Contradicts),
            u8::from(self.year == Agreement::Contradicts),
            count(Agreement::Nearly),
        )
    }

    /// How much paper must have been cut off at the least, millimetres, of two that fit alike.
    pub(super) fn slack(&self) -> f64 {
        self.trim.map_or(0.0, |t| t.height.middle().0.abs() + t.width.middle().0.abs())
    }
}

/// What a leaf may come from.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Found {
    /// The candidates, the best first. A candidate against which chain-lines or watermark speak comes after all others.
    pub candidates: Vec<Candidate>,
    /// The formats that nothing speaks against, each once, the best first.
    pub formats: Vec<&'static str>,
}
