//! How much of the text of one side is on the other in its order, whatever the line-ends.
//!
//! Nothing is read, and no word is taken for a word: the layout parts words otherwise at other
//! resolutions. The lines are drawn one after the other as a ribbon; short windows of one ribbon are looked for
//! everywhere on the other; where many windows follow each other on both, the text is the same.

mod chain;
mod ribbon;
mod windows;

use chain::Stretch;
use rayon::prelude::*;
use register::Pyramid;
pub(crate) use ribbon::on_baseline;
use ribbon::{Column, Ribbon, drawn_out};
use sheet::Layout;
use windows::Band;

/// The text of one side in reading order, drawn for comparison.
#[derive(Debug, Clone)]
pub(crate) struct WordSequence {
    columns: Vec<Column>,
    band: Band,
    words: usize,
}

/// The stretches of text that two sides share.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Alignment {
    stretches: Vec<Stretch>,
    /// Lengths of both ribbons as they were compared, in steps.
    lengths: (usize, usize),
}

impl WordSequence {
    /// Draws the text; `layout` is in pixels of the full size of `ink`.
    pub(crate) fn new(ink: &Pyramid, layout: &Layout) -> Self {
        let ribbon = Ribbon::of(ink, layout);
        Self { band: Band::of(&ribbon.columns), words: ribbon.words, columns: ribbon.columns }
    }

    /// Number of words, as the layout parts them, ornaments left out.
    pub(crate) fn len(&self) -> usize {
        self.words
    }

    /// Whether there is none.
    pub(crate) fn is_empty(&self) -> bool {
        self.words == 0
    }
}

/// How much wider the second ribbon may have to be drawn to lie on the first: x-heights are measured to a
/// few percent, and a window bears half of one such step.
const RATIOS: [f64; 5] = [0.934, 0.967, 1.0, 1.033, 1.066];

/// What the two sides have in common. The second may stand upside down.
pub(crate) fn align(a: &WordSequence, b: &WordSequence) -> Alignment {
    let drawn = RATIOS.into_par_iter().map(|ratio| Band::of(&drawn_out(&b.columns, ratio)));
    let ways: Vec<(f32, Band)> = drawn
        .flat_map_iter(|upright| [upright.turned(), upright])
        .map(|band| (a.band.found_on(&band), band))
        .collect();
    let Some((_, band)) = ways.into_iter().max_by(|p, q| p.0.total_cmp(&q.0)) else {
        return Alignment::default();
    };
    Alignment { stretches: chain::in_common(&a.band.anchors(&band)), lengths: (a.band.len(), band.len()) }
}

/// Share of the text that is matched in its order, 0 to 1, by length on the ribbons.
///
/// Between two stretches in common, all that stands on the side that has more is other text. (So a short text
/// whose pieces are found by chance all over a long one is not in it.) Before the first and after the last,
/// what only one side has may be off the other photograph: of a detail against the whole sheet nothing is
/// held against it.
pub(crate) fn matched_share(alignment: &Alignment) -> f64 {
    let (mut matched, mut other) = (0usize, 0usize);
    // How far either side has been read.
    let (mut a, mut b) = (0, 0);
    for (k, s) in alignment.stretches.iter().enumerate() {
        let gaps = (s.a.0.saturating_sub(a), s.b.0.saturating_sub(b));
        other += if k == 0 { gaps.0.min(gaps.1) } else { gaps.0.max(gaps.1) };
        matched += s.a.1.saturating_sub(s.a.0.max(a));
        (a, b) = (a.max(s.a.1), b.max(s.b.1));
    }
    other += alignment.lengths.0.saturating_sub(a).min(alignment.lengths.1.saturating_sub(b));
    matched as f64 / (matched + other).max(1) as f64
}

#[cfg(test)]
mod tests;
