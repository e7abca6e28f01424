//! Each line of type weighed: stands, moved whole, set again, or not to be judged.

use super::drift::{Line, Word, error_of_placing};
use crate::reading::Reading;
use crate::standing::{Likelihoods, Placing, Shares, Standing, WordDrift, weigh, without_strays};
use register::Laid;
use sheet::{Layout, Rect};

/// What a line did, and how surely.
#[derive(Debug, Clone, Copy)]
pub(super) struct LineWeight {
    pub(super) standing: Standing,
    /// Natural logarithms of the likelihoods; `None` when there is nothing to weigh.
    pub(super) likelihoods: Option<Likelihoods>,
    /// Log10 of the likelihood if it stands (or was moved whole) over that if it was set again.
    pub(super) log10: Option<f64>,
    /// Words found on the second photograph.
    pub(super) found: usize,
    /// Words whose place on the second photograph can be looked at.
    pub(super) tried: usize,
    /// Error of placing a word on this pair of photographs, pixels of A.
    pub(super) error: f64,
}

impl LineWeight {
    /// Whether the line's print tells where the paper is.
    pub(super) fn stands(&self) -> bool {
        self.standing == Standing::Same
    }
}

/// No word is placed better than this, in samples of the level measured at, and in x-heights.
const LEAST_ERROR_SAMPLES: f64 = 0.06;
const LEAST_ERROR_X_HEIGHTS: f64 = 0.008;
/// Nor is it placed worse, where it is found at all: in one setting half of all patches lie within 0.015
/// x-heights along their line, down to 150 ppi (docs/benchmarks.md).
const MOST_ERROR_SAMPLES: f64 = 0.25;
const MOST_ERROR_X_HEIGHTS: f64 = 0.02;
/// Words looked for from which a line can be said to hold other words.
const FEWEST_FOR_OTHER: usize = 3;

/// The lines of a layout as the drift needs them.
pub(super) fn of(layout: &Layout) -> Vec<Line> {
    layout
        .lines
        .iter()
        .map(|l| Line {
            words: l.words.iter().map(|w| w.bounds).collect(),
            bounds: l.bounds,
            x_height: l.x_height.0,
            turn: slope(l),
        })
        .collect()
}

fn slope(line: &sheet::Line) -> f64 {
    match (line.baseline.first(), line.baseline.last()) {
        (Some(p), Some(q)) if q.x > p.x => (q.y - p.y).atan2(q.x - p.x),
        _ => 0.0,
    }
}

/// Weighs every line by the drifts of its words.
pub(super) fn weigh_all(
    words: &[Vec<Word>],
    lines: &[Line],
    laid: &Laid,
    x_height: f64,
    pitch: f64,
    b: &Reading,
) -> Vec<LineWeight> {
    let least = (LEAST_ERROR_SAMPLES * laid.unit).max(LEAST_ERROR_X_HEIGHTS * x_height);
    let most = (MOST_ERROR_SAMPLES * laid.unit).max(MOST_ERROR_X_HEIGHTS * x_height);
    let placing = error_of_placing(words, [least, most], pitch);
    let mut weights: Vec<LineWeight> =
        words.iter().zip(lines).map(|(words, line)| weigh_line(words, line, laid, &placing, b)).collect();
    let likelihoods: Vec<Likelihoods> = weights.iter().filter_map(|w| w.likelihoods).collect();
    let shares = Shares::of(&likelihoods);
    for w in &mut weights {
        if let Some(l) = w.likelihoods {
            w.standing = shares.standing(&l, w.found);
            w.log10 = Some(shares.log10_ratio(&l));
        }
    }
    weights
}

/// Weighs one line; what it did is said once all lines are known.
fn weigh_line(words: &[Word], line: &Line, laid: &Laid, placing: &Placing, b: &Reading) -> LineWeight {
    let tried: Vec<&Word> =
        words.iter().filter(|w| w.found.is_some() && has_ink(w.bounds, laid, b)).collect();
    let drifts: Vec<WordDrift> = tried
        .iter()
        .filter_map(|w| w.drift.map(|d| WordDrift { along: w.bounds.centre().x, drift: d.along, sd: d.sd }))
        .collect();
    let found = tried.iter().filter(|w| w.is_found()).count();
    let unjudged = LineWeight {
        standing: Standing::Unjudged,
        likelihoods: None,
        log10: None,
        found,
        tried: tried.len(),
        error: placing.white.hypot(placing.smooth),
    };
    if tried.len() >= FEWEST_FOR_OTHER && 2 * found < tried.len() {
        return LineWeight { standing: Standing::OtherWords, ..unjudged };
    }
    let drifts = without_strays(&drifts, placing);
    if drifts.is_empty() {
        return unjudged;
    }
    LineWeight {
        likelihoods: Some(weigh(&drifts, placing, line.x_height)),
        found: found.min(drifts.len()),
        ..unjudged
    }
}

/// Whether B has any ink where the word should stand: a place the inking missed is no evidence.
fn has_ink(bounds: Rect, laid: &Laid, b: &Reading) -> bool {
    let corners = bounds.corners().map(|p| laid.map.to_b(p));
    let Some(there) = Rect::around(corners) else { return false };
    let level = b.ink.level_within(2000);
    let plane = b.ink.level(level);
    let unit = b.ink.full().width() as f64 / plane.width() as f64;
    let r = there.scaled(1.0 / unit);
    let (x0, y0) = (r.x.max(0.0) as usize, r.y.max(0.0) as usize);
    let (x1, y1) = (
        (r.right().max(0.0) as usize).min(plane.width()),
        (r.bottom().max(0.0) as usize).min(plane.height()),
    );
    if x1 <= x0 || y1 <= y0 {
        return false;
    }
    let dark = (y0..y1).flat_map(|y| &plane.row(y)[x0..x1]).filter(|&&v| v > DARK).count();
    dark as f64 > LEAST_INKED * ((x1 - x0) * (y1 - y0)) as f64
}

/// Ink that is print, of 255, and the share of a word's box it must cover.
const DARK: u8 = 90;
const LEAST_INKED: f64 = 0.04;

/// Share of the judged words that stand in lines that stand.
pub(super) fn standing_share(weights: &[LineWeight]) -> f64 {
    let count = |keep: fn(&LineWeight) -> bool| -> usize {
        weights.iter().filter(|w| keep(w)).map(|w| w.tried).sum()
    };
    let judged = count(|w| w.standing != Standing::Unjudged);
    if judged == 0 { 0.0 } else { count(LineWeight::stands) as f64 / judged as f64 }
}
