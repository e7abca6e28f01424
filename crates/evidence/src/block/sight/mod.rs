//! What is seen of single windows of strokes: both impressions as small pictures, and what these alone say of one block.

mod view;

pub use view::SightView;

use super::alike::Alike;
use super::drift::Beside;
use crate::eye::Seer;
use rayon::prelude::*;
use sheet::Point;
use std::sync::LazyLock;
use view::PLANES;

/// So many windows are looked at of a pair, evenly taken: those of a large cut overlap, and more tell no more.
const MOST: usize = 200;

/// The fitted weights (`cargo xtask bench fit blocks`).
static FITTED: &[u8] = include_bytes!("fitted.f32");

static NET: LazyLock<Seer<PLANES, 0>> = LazyLock::new(|| Seer::read(FITTED));

/// A window of strokes as it is seen in both impressions.
#[derive(Debug, Clone, PartialEq)]
pub struct Sight {
    /// Its middle, pixels of the first cut's ink.
    pub at: Point,
    /// What is seen.
    pub view: SightView,
    /// Log odds (natural) that one block printed it twice, by this alone.
    pub says: f64,
}

/// What is seen of the windows in which both show strokes; `both` inks on one frame, `coarser` the pixels of the coarser photograph
/// to one of the frame, `unit` pixels of the frame to the unit of the placement.
pub(super) fn sights(beside: &[Beside], both: [&Alike; 2], coarser: f64, unit: f64) -> Vec<Sight> {
    let n = beside.len().min(MOST);
    let step = view::step(coarser, unit);
    (0..n)
        .into_par_iter()
        .map(|i| {
            let at = beside[i * beside.len() / n].at;
            let view = SightView::of(at, step, both);
            let says = NET.log_odds(view.samples(), &[]);
            Sight { at, view, says }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_weights_fill_the_net() {
        assert_eq!(FITTED.len(), 4 * Seer::<PLANES, 0>::NUMBERS);
    }
}
