//! What a tool said of a pair, and what it took.

use evidence::{Comparison, Standing, Verdict};
use serde::{Deserialize, Serialize};
use sheet::Point;

use super::pair::Pair;
use super::score::PlacementGrid;

/// A reported place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct Reported {
    /// The tool's word for it.
    #[serde(default)]
    pub class: String,
    /// How sure, 0 to 1.
    pub score: f64,
    /// x, y, w, h on the first photograph, pixels.
    pub box_a_px: [f64; 4],
    /// x, y, w, h on the second.
    pub box_b_px: [f64; 4],
}

/// A line of type as reported.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct ReportedLine {
    /// What it did.
    pub standing: Standing,
    /// x, y, w, h on the first photograph, pixels.
    pub box_a_px: [f64; 4],
    /// Place along the line and drift, pixels of the first photograph.
    pub drift_px: Vec<[f64; 2]>,
}

/// What a tool said of one pair.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Answer {
    /// Its verdict; `None` when it failed.
    pub verdict: Option<Verdict>,
    /// Why it failed.
    pub error: Option<String>,
    /// Log10 likelihood ratio; `None` where it gave none.
    pub weight_log10: Option<f64>,
    /// A number that is larger when one setting is likelier, for a tool without a likelihood ratio.
    pub score: Option<f64>,
    /// Median residual, millimetres.
    pub residual_mm: Option<f64>,
    /// Median residual, pixels of the first photograph.
    pub residual_px: Option<f64>,
    /// Places that differ.
    pub changes: Vec<Reported>,
    /// Places that may differ.
    pub doubtful: Vec<Reported>,
    /// Lines of the first photograph.
    pub lines: Vec<ReportedLine>,
    /// For every sealed point of the pair, its place on the second photograph.
    pub points: Vec<Option<[f64; 2]>>,
    /// Wall seconds.
    pub seconds: f64,
    /// Processor seconds of all threads.
    pub cpu_seconds: f64,
    /// Largest resident memory, bytes; `None` where it could not be had.
    pub peak_bytes: Option<u64>,
}

/// Both tools on one pair, in one run.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct Outcome {
    /// The pair.
    pub pair: Pair,
    /// What Reglet said.
    pub reglet: Answer,
    /// What the yardstick said; `None` when it was left out.
    pub yardstick: Option<Answer>,
    /// Wall seconds of the bare decoding of both photographs.
    pub decode_seconds: f64,
    /// Pixels of the larger photograph.
    pub larger_pixels: u64,
    /// Pixels of the smaller one.
    pub smaller_pixels: u64,
}

impl Answer {
    /// A failure, with what it took to fail.
    pub(crate) fn failed(error: String) -> Self {
        Self { error: Some(error), ..Self::default() }
    }

    /// From Reglet's record, asking its placement for the places of `points` (ax, ay, ...).
    pub(crate) fn from_record(record: &Comparison, points: &[[f64; 4]]) -> Self {
        let places = |changes: &[evidence::Change]| {
            changes
                .iter()
                .map(|c| Reported {
                    class: c.class.words().to_owned(),
                    score: c.score,
                    box_a_px: c.box_a_px,
                    box_b_px: c.box_b_px,
                })
                .collect()
        };
        let grid = record.placement.as_ref().and_then(|p| PlacementGrid::new(&p.grid, &p.creases));
        let to_b = |p: &[f64; 4]| grid.as_ref()?.to_b(Point::new(p[0], p[1])).map(|q| [q.x, q.y]);
        Self {
            verdict: Some(record.verdict),
            weight_log10: record.weight_log10,
            residual_mm: record.residual.median_mm,
            residual_px: record.residual.median_px,
            changes: places(&record.changes),
            doubtful: places(&record.doubtful),
            lines: record
                .lines
                .iter()
                .map(|l| ReportedLine {
                    standing: l.standing,
                    box_a_px: l.box_a_px,
                    drift_px: l.drift.iter().map(|d| [d.along_px, d.drift_px]).collect(),
                })
                .collect(),
            points: points.iter().map(to_b).collect(),
            ..Self::default()
        }
    }
}
