//! One photograph made ready to be measured.

use super::lying::finely;
use crate::upright::{Photographed, Upright};
use register::Pyramid;
use sheet::scale::Scale;
use sheet::{Fold, Layout, Plane, Rect, Turned};

/// The side of a photograph, set upright, with all that is measured on it. Places are those of the side set upright.
#[derive(Debug, Clone)]
pub struct Side {
    /// Ink, full size and halvings.
    pub ink: Pyramid,
    /// Lines of type to a part of a pixel, and what is not type.
    pub layout: Layout,
    /// The paper's folds, as far as the light shows them.
    pub folds: Vec<Fold>,
    /// How the photograph was turned to set it upright.
    pub turned: Turned,
    /// The page within the photograph; all of it where no background shows.
    pub page: Rect,
    /// Pixels to the inch, where known.
    pub scale: Option<Scale>,
}

impl Side {
    /// Reads a photograph from its brightness.
    pub fn of(luminance: &Plane<u8>, scale: Option<Scale>) -> Self {
        let Photographed { upright, folds, page, .. } = Photographed::of(luminance);
        let Upright { ink, layout, turned, .. } = upright;
        let layout = finely(ink.full(), &layout);
        Self { ink, layout, folds, turned, page, scale }
    }
}

/// A side of one line that falls by 0.02, and nothing else; for tests.
#[cfg(test)]
pub(super) fn of_one_line(ink: Plane<u8>, baseline: Vec<sheet::Point>, x_height: f64) -> Side {
    let (w, h) = (ink.width(), ink.height());
    let (from, to) = (baseline[0].x, baseline[baseline.len() - 1].x);
    let top = baseline[0].y - 2.1 * x_height;
    let line = sheet::Line {
        baseline,
        x_height: sheet::Px(x_height),
        contrast: 0.6,
        bounds: Rect::new(from, top, to - from, 2.9 * x_height),
        words: Vec::new(),
    };
    let layout = Layout {
        skew: sheet::Degrees(0.02f64.atan().to_degrees()),
        lines: vec![line],
        not_type: Vec::new(),
        cuts: Vec::new(),
        x_height: Some(sheet::Px(x_height)),
        line_pitch: None,
    };
    let page = Rect::new(0.0, 0.0, w as f64, h as f64);
    Side {
        ink: Pyramid::new(ink),
        layout,
        folds: Vec::new(),
        turned: Turned::new(0, w, h),
        page,
        scale: None,
    }
}
