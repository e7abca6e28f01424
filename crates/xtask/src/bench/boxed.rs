//! A photograph read as the command reads it, and the cut in a box of it.

use evidence::block::Cut;
use sheet::scale::Scale;
use sheet::{BarePaper, Fold, Plane, Rect};

/// The ink and the folds of a photograph.
#[derive(Debug)]
pub(super) struct Read {
    pub(super) ink: Plane<u8>,
    pub(super) folds: Vec<Fold>,
}

impl Read {
    pub(super) fn of(luminance: &Plane<u8>) -> Self {
        let inked = sheet::ink(luminance);
        let folds = sheet::folds(&BarePaper::of(luminance, &inked), inked.page);
        Self { ink: inked.darkness, folds }
    }

    /// The cut in a box; `None` where that is off the photograph.
    pub(super) fn cut(&self, place: Rect, scale: Option<Scale>) -> Option<Cut> {
        Some(Cut::of(&self.ink, place, scale)?.with_folds(&self.folds))
    }
}
