//! The impressions of a block, all on the frame of the best of them.

use crate::block::Cut;
use register::{Laid, PaperMap, overlay};
use sheet::{Plane, Point, Rect};

/// Longest side of the frame on which damage is looked for, samples: 150 mm at 400 ppi. What is finer is no longer damage but
/// the grain of the paper.
const LONGEST: usize = 2400;

/// An impression of the block, and how it lies on the frame.
#[derive(Debug, Clone, Copy)]
pub struct Impressed<'c> {
    /// Its place in the list that was given.
    pub number: usize,
    /// The impression.
    pub cut: &'c Cut,
    /// How it lies on the frame; `None` of the frame itself.
    pub laid: Option<&'c Laid>,
}

/// All impressions on one frame.
pub(super) struct OnFrame<'c> {
    /// Pixels of the frame's photograph to a sample.
    pub(super) unit_px: f64,
    /// Samples of the unit in which the frame's cut is laid: about a sixtieth of its longer side.
    pub(super) unit: f64,
    /// The cut on the frame, samples.
    pub(super) body: Rect,
    pub(super) all: Vec<One<'c>>,
}

/// One of them.
pub(super) struct One<'c> {
    pub(super) of: Impressed<'c>,
    /// Its ink on the frame, 0 to 255.
    pub(super) ink: Plane<u8>,
    /// Samples of the frame to one of its pixels, at least 1: how coarse it is there.
    pub(super) coarse: f64,
    /// What is left of the cut on its photograph, pixels of its ink.
    within: Rect,
}

impl<'c> OnFrame<'c> {
    /// Draws all of them on the first, which is the frame.
    pub(super) fn of(impressions: &[Impressed<'c>]) -> Option<Self> {
        let frame = impressions.first()?.cut;
        let level = frame.ink.level_within(LONGEST);
        let unit_px = f64::from(1u32 << level);
        let base = frame.ink.level(level);
        let size = (base.width(), base.height());
        let all = impressions.iter().map(|&of| {
            let full = of.cut.ink.full();
            let within = Rect::new(0.0, 0.0, full.width() as f64, full.height() as f64);
            let (ink, coarse) = match of.laid {
                None => (base.clone(), 1.0),
                Some(laid) => {
                    // Of a photograph that is finer than the frame as much is taken together as falls on a sample.
                    let per_sample = laid.scale * unit_px;
                    let level = (per_sample.max(1.0).log2().floor() as usize).min(of.cut.ink.depth() - 1);
                    let unit_b = f64::from(1u32 << level);
                    let ink = overlay(&laid.map, of.cut.ink.level(level), unit_b, size, unit_px, 0u8);
                    (ink, (1.0 / per_sample).max(1.0))
                }
            };
            One { of, ink, coarse, within }
        });
        Some(Self {
            unit_px,
            unit: frame.unit() / unit_px,
            body: frame.body.scaled(1.0 / unit_px),
            all: all.collect(),
        })
    }

    /// A place of the frame (samples) on the photograph of its impression set upright, pixels.
    pub(super) fn on_photograph(&self, place: Rect) -> Rect {
        place.scaled(self.unit_px).moved(self.all[0].of.cut.corner)
    }

    /// The same on the photograph of each, as [`One::on_photograph`] tells it.
    pub(super) fn places(&self, place: Rect) -> Vec<Option<Rect>> {
        self.all.iter().map(|one| one.on_photograph(place, self.unit_px)).collect()
    }
}

impl One<'_> {
    /// A place of the frame (samples of so many pixels) on this impression's photograph set upright, pixels; `None` where it
    /// is not wholly on it.
    pub(super) fn on_photograph(&self, place: Rect, unit_px: f64) -> Option<Rect> {
        let place = place.scaled(unit_px);
        let there = self.map().map_or(place, |map| map.box_on_b(place));
        let is_on = there.corners().iter().all(|&c: &Point| self.within.holds(c));
        is_on.then(|| there.moved(self.of.cut.corner))
    }

    /// Whether a fold of its sheet runs through a place on its photograph (pixels of it set upright).
    pub(super) fn is_folded(&self, there: Rect) -> bool {
        let place = there.moved(self.of.cut.corner * -1.0);
        self.of.cut.folds.iter().any(|f| f.crosses(place))
    }

    fn map(&self) -> Option<&PaperMap> {
        self.of.laid.map(|l| &l.map)
    }
}
