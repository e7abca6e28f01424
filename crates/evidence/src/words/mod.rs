//! How much of the text of one side is on the other in its order, whatever the line-ends.
//!
//! Nothing is read, and no word is taken for a word: the layout parts words otherwise at other
//! resolutions. The lines are drawn one after the other as a ribbon; short windows of one ribbon are looked for
//! everywhere on the other; where many windows follow each other on both, the text is the same.

mod chain;
mod holes;
mod ribbon;
mod windows;

use chain::Ribbons;
use rayon::prelude::*;
use register::Pyramid;
use ribbon::Ribbon;
pub(crate) use ribbon::on_baseline;
use sheet::Layout;
use windows::{Anchor, Band};

/// The text of one side in reading order, drawn for comparison.
#[derive(Debug, Clone)]
pub(crate) struct WordSequence {
    ribbon: Ribbon,
    band: Band,
}

/// How much text two sides share, in steps of the ribbons.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(crate) struct Alignment {
    matched: usize,
    /// The stretches in common, overlaps counted twice, and what of them is in step: windows a stride apart on both.
    followed: usize,
    in_step: usize,
    /// Text of the one that is not on the other, though it ought to be.
    other: usize,
    /// Lines of the first that begin amid text in common.
    begin: usize,
    /// Those of them at whose first word a line of the second begins too.
    begin_alike: usize,
}

/// A line begins where another does if not more steps lie between: 1.6 x-heights, two letters.
const ALIKE: usize = 4;
/// Beginnings needed to say how many are alike.
const FEWEST_BEGINNINGS: usize = 4;

impl WordSequence {
    /// Draws the text; `layout` is in pixels of the full size of `ink`.
    pub(crate) fn new(ink: &Pyramid, layout: &Layout) -> Self {
        let ribbon = Ribbon::of(ink, layout);
        Self { band: Band::of(&ribbon), ribbon }
    }

    /// Number of words, as the layout parts them, ornaments left out.
    pub(crate) fn len(&self) -> usize {
        self.ribbon.words
    }

    /// Whether there is none.
    pub(crate) fn is_empty(&self) -> bool {
        self.ribbon.words == 0
    }
}

/// How much wider the second ribbon may have to be drawn to lie on the first: x-heights are measured to a
/// few percent, and a window bears half of one such step.
const RATIOS: [f64; 5] = [0.934, 0.967, 1.0, 1.033, 1.066];

/// What the two sides have in common. The second may stand upside down.
pub(crate) fn align(a: &WordSequence, b: &WordSequence) -> Alignment {
    let drawn = RATIOS.into_par_iter().map(|ratio| Band::of(&b.ribbon.drawn_out(ratio)));
    let ways: Vec<(f32, Band)> = drawn
        .flat_map_iter(|upright| [upright.turned(), upright])
        .map(|band| (a.band.found_on(&band), band))
        .collect();
    let Some((_, band)) = ways.into_iter().max_by(|p, q| p.0.total_cmp(&q.0)) else {
        return Alignment::default();
    };
    counted(Ribbons { a: &a.band, b: &band }, &a.band.anchors(&band))
}

/// Counts what is matched and what is other text.
///
/// Between two stretches in common, all that stands on the side that has more is other text, but for what goes into
/// a hole on the side that has less. (So a short text whose pieces are found by chance all over a long one is not
/// in it.) Before the first and after the last, what only one side has may be off the other photograph: of a detail
/// against the whole sheet nothing is held against it.
fn counted(ribbons: Ribbons<'_>, anchors: &[Anchor]) -> Alignment {
    let mut sum = Alignment::default();
    // How far either side has been read.
    let (mut a, mut b) = (0, 0);
    for (k, s) in chain::in_common(anchors, ribbons).iter().enumerate() {
        let begin: Vec<usize> = ribbons.a.begins.iter().filter_map(|&at| s.on_b(at)).collect();
        sum.begin += begin.len();
        let is_alike = |at: &&usize| ribbons.b.begins.iter().any(|b| b.abs_diff(**at) <= ALIKE);
        sum.begin_alike += begin.iter().filter(is_alike).count();
        let gaps = (s.a.0.saturating_sub(a), s.b.0.saturating_sub(b));
        sum.other += if k == 0 {
            gaps.0.min(gaps.1)
        } else {
            gaps.0.max(gaps.1) - ribbons.forgiven((a, s.a.0.max(a)), (b, s.b.0.max(b)))
        };
        sum.followed += s.long();
        sum.in_step += s.in_step();
        // Where two stretches overlap, the first has it.
        sum.matched += s.long().saturating_sub(a.saturating_sub(s.a.0));
        (a, b) = (a.max(s.a.1), b.max(s.b.1));
    }
    sum.other += ribbons.a.len().saturating_sub(a).min(ribbons.b.len().saturating_sub(b));
    sum
}

impl Alignment {
    /// Share of the text that is matched in its order, 0 to 1, by length on the ribbons.
    pub(crate) fn matched_share(&self) -> f64 {
        self.matched as f64 / (self.matched + self.other).max(1) as f64
    }

    /// Share of the stretches in common, 0 to 1, in which window follows window at the same step on both sides. One text is
    /// in step but where its print is bad; what two texts seem to share is put together of pieces that are a little off.
    pub(crate) fn share_in_step(&self) -> f64 {
        (self.in_step as f64 / self.followed.max(1) as f64).min(1.0)
    }

    /// Share of the lines of the first, of those that begin amid text in common, that begin with the same word as a
    /// line of the second, 0 to 1; `None` of fewer than four. One setting and one set line for line have all of them,
    /// but for what was measured badly; over other line-ends about one in four is so by chance.
    pub(crate) fn lines_begin_alike(&self) -> Option<f64> {
        (self.begin >= FEWEST_BEGINNINGS).then(|| self.begin_alike as f64 / self.begin as f64)
    }
}

#[cfg(test)]
mod tests;
