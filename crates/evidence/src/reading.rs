//! One photograph made ready for comparison: done once, used against every other copy.

use crate::evenness::ink_share;
use crate::upright::{Photographed, Upright};
use crate::words::WordSequence;
use register::{Features, Pyramid, features};
use sheet::scale::Scale;
use sheet::{BarePaper, Fold, Layout, Line, Plane, Rect, Turned};

/// The ink of one photograph with all that comparison needs of it. Places are those of the side set upright.
#[derive(Debug, Clone)]
pub struct Reading {
    /// Ink, full size and halvings.
    pub ink: Pyramid,
    /// Places that can be found again.
    pub features: Features,
    /// Lines of type and what is not type.
    pub layout: Layout,
    /// Its paper.
    pub paper: BarePaper,
    /// The paper's folds, as far as the light shows them.
    pub folds: Vec<Fold>,
    /// How the photograph was turned to set it upright.
    pub turned: Turned,
    /// The page within the side.
    pub page: Rect,
    /// Pixels to the millimetre, where known.
    pub scale: Option<Scale>,
    /// The words in reading order.
    pub(crate) words: WordSequence,
}

/// An x-height that stands for any text where neither scale nor lines are known, mm: pica and
/// English roman stand at 1.6 to 2.0 (common practice, no source). It only sets how large a window
/// is matched; no figure is ever reported with it.
const USUAL_X_HEIGHT_MM: f64 = 1.7;
/// Longer side, mm, of a photograph of which nothing at all is known.
const USUAL_SIDE_MM: f64 = 250.0;
/// x-heights, mm, of the text of a sheet, from diamond to canon (bodies of 1.5 and 17 mm, T. B. Reed, *History of the
/// Old English Letter Foundries* (1887), of which the x-height is about four tenths; common practice, no source), and longer
/// sides of what is photographed, from a slip to two sheets pasted together. A scale that puts them elsewhere is not true, and windows are not sized by it.
const X_HEIGHTS_MM: [f64; 2] = [0.6, 8.0];
const SIDES_MM: [f64; 2] = [30.0, 2000.0];

/// x-height, pixels, below which one letter cannot be told from another: three strokes and two gaps of an `e` need five.
const LEAST_LEGIBLE_PX: f64 = 5.0;

/// x-height, pixels, from which on more of them show no more: that of a pica at 250 to 300 ppi.
const WELL_SHOWN_PX: f64 = 18.0;

impl Reading {
    /// Reads a photograph from its brightness.
    pub fn of(luminance: &Plane<u8>, scale: Option<Scale>) -> Self {
        let Photographed { upright, paper, folds, page } = Photographed::of(luminance);
        let Upright { ink, layout, turned, .. } = upright;
        let features = features(&ink);
        let words = WordSequence::new(&ink, &layout);
        Self { ink, features, layout, paper, folds, turned, page, scale, words }
    }

    /// x-height of the text in pixels; `None` where no lines were found.
    pub fn x_height_px(&self) -> Option<f64> {
        self.layout.x_height.map(|x| x.0)
    }

    /// How much of its text a photograph shows, and how well: the length of its words in x-heights, less where letters are
    /// too small to show what they are. Of several copies that with most is the best to lay the others on.
    pub fn text_shown(&self) -> f64 {
        let of_line = |line: &Line| line.words.iter().map(|w| w.bounds.w).sum::<f64>() / line.x_height.0;
        let length: f64 = self.layout.lines.iter().map(of_line).sum();
        self.x_height_px().map_or(0.0, |x| length * (x / WELL_SHOWN_PX).min(1.0))
    }

    /// Whether its letters are large enough for single sorts to be judged.
    pub(crate) fn letters_are_legible(&self) -> bool {
        self.x_height_px().is_none_or(|x| x >= LEAST_LEGIBLE_PX)
    }

    /// Share of a box that ink covers, 0 to 1; the box in pixels of the upright photograph.
    pub(crate) fn ink_share(&self, place: Rect) -> f64 {
        ink_share(&self.ink, place)
    }

    /// Pixels to the millimetre: known, or guessed from the type for the size of windows alone.
    pub fn working_px_per_mm(&self) -> f64 {
        let (usual, _) = self.px_per_mm_by_what_is_seen();
        let believed = self.scale.as_ref().filter(|_| !self.scale_is_belied());
        believed.map_or(usual, |scale| scale.ppi.px_per_mm())
    }

    /// Whether the type, or the whole photograph, would have a size by the scale taken that neither has.
    pub(crate) fn scale_is_belied(&self) -> bool {
        let (_, [least, most]) = self.px_per_mm_by_what_is_seen();
        self.scale.as_ref().is_some_and(|scale| !(least..=most).contains(&scale.ppi.px_per_mm()))
    }

    /// Pixels to the millimetre as the type, or without any the photograph's longer side, would have it: what is usual,
    /// and the least and the most there may be.
    fn px_per_mm_by_what_is_seen(&self) -> (f64, [f64; 2]) {
        let side = || self.ink.full().width().max(self.ink.full().height()) as f64;
        let (seen, usual, [least, most]) = self
            .x_height_px()
            .map_or_else(|| (side(), USUAL_SIDE_MM, SIDES_MM), |x| (x, USUAL_X_HEIGHT_MM, X_HEIGHTS_MM));
        (seen / usual, [seen / most, seen / least])
    }
}
