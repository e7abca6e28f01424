//! One photograph made ready for comparison: done once, used against every other copy.

use crate::upright::Upright;
use crate::words::WordSequence;
use register::{Features, Pyramid, features};
use sheet::scale::Scale;
use sheet::{BarePaper, Fold, Layout, Plane, Rect, Turned};

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

/// Longer side at which the share of ink in a box is looked at, samples.
const LOOKED_AT: usize = 2000;
/// Ink that is print, of 255.
const DARK: u8 = 90;

impl Reading {
    /// Reads a photograph from its brightness.
    pub fn of(luminance: &Plane<u8>, scale: Option<Scale>) -> Self {
        let inked = sheet::ink(luminance);
        let paper = BarePaper::of(luminance, &inked);
        let folds = sheet::folds(&paper, inked.page);
        let Upright { ink, layout, turned, .. } = Upright::of(inked.darkness);
        let features = features(&ink);
        let words = WordSequence::new(&ink, &layout);
        let upright = |f: Fold| Fold { from: turned.upright(f.from), to: turned.upright(f.to), ..f };
        let folds = folds.into_iter().map(upright).collect();
        let (paper, page) = (paper.turned(turned.quarters()), turned.upright_box(inked.page));
        Self { ink, features, layout, paper, folds, turned, page, scale, words }
    }

    /// x-height of the text in pixels; `None` where no lines were found.
    pub fn x_height_px(&self) -> Option<f64> {
        self.layout.x_height.map(|x| x.0)
    }

    /// Share of a box that ink covers, 0 to 1; the box in pixels of the upright photograph.
    pub(crate) fn ink_share(&self, place: Rect) -> f64 {
        let plane = self.ink.level(self.ink.level_within(LOOKED_AT));
        let r = place.scaled(plane.width() as f64 / self.ink.full().width() as f64);
        let within =
            |from: f64, to: f64, most: usize| from.max(0.0) as usize..(to.max(0.0) as usize).min(most);
        let (across, down) = (within(r.x, r.right(), plane.width()), within(r.y, r.bottom(), plane.height()));
        let all = across.len() * down.len();
        if all == 0 {
            return 0.0;
        }
        let dark = down.flat_map(|y| &plane.row(y)[across.clone()]).filter(|&&v| v > DARK).count();
        dark as f64 / all as f64
    }

    /// Pixels to the millimetre: known, or guessed from the type for the size of windows alone.
    pub fn working_px_per_mm(&self) -> f64 {
        if let Some(scale) = &self.scale {
            return scale.ppi.px_per_mm();
        }
        self.x_height_px().map_or_else(
            || self.ink.full().width().max(self.ink.full().height()) as f64 / USUAL_SIDE_MM,
            |x| x / USUAL_X_HEIGHT_MM,
        )
    }
}
