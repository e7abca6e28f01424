//! One photograph made ready for comparison: done once, used against every other copy.

use crate::words::{WordPlace, WordSequence};
use register::{Features, Pyramid, features};
use sheet::scale::Scale;
use sheet::{Layout, Plane, Point, Rect, layout};

/// The ink of one photograph with all that comparison needs of it.
#[derive(Debug, Clone)]
pub struct Reading {
    /// Ink, full size and halvings.
    pub ink: Pyramid,
    /// Places that can be found again.
    pub features: Features,
    /// Lines of type and what is not type.
    pub layout: Layout,
    /// The page within the photograph.
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

/// Longer side, in samples, of the level that is laid out.
const LAID_OUT_AT: usize = 2600;

impl Reading {
    /// Reads a photograph from its brightness.
    pub fn of(luminance: &Plane<u8>, scale: Option<Scale>) -> Self {
        let inked = sheet::ink(luminance);
        let ink = Pyramid::new(inked.darkness);
        let level = ink.level_within(LAID_OUT_AT);
        let layout = layout(ink.level(level), 2f64.powi(level as i32));
        let features = features(&ink);
        let (places, line_of) = word_places(&layout);
        let words = WordSequence::new(&ink, places, &line_of);
        Self { ink, features, layout, page: inked.page, scale, words }
    }

    /// x-height of the text in pixels; `None` where no lines were found.
    pub fn x_height_px(&self) -> Option<f64> {
        self.layout.x_height.map(|x| x.0)
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

/// Every word's place in reading order, and the number of its line.
fn word_places(layout: &Layout) -> (Vec<WordPlace>, Vec<usize>) {
    let (mut places, mut line_of) = (Vec::new(), Vec::new());
    for (i, line) in layout.lines.iter().enumerate() {
        for word in &line.words {
            let x = word.bounds.centre().x;
            let (foot, slope) = on_baseline(&line.baseline, x);
            places.push(WordPlace {
                bounds: word.bounds,
                foot: Point::new(x, foot),
                slope,
                x_height: line.x_height.0,
            });
            line_of.push(i);
        }
    }
    (places, line_of)
}

/// Height and slope of a baseline at `x`; the ends are carried on.
pub(crate) fn on_baseline(baseline: &[Point], x: f64) -> (f64, f64) {
    let piece = baseline.windows(2).find(|p| x <= p[1].x).or_else(|| baseline.windows(2).last());
    match piece {
        Some([p, q]) if q.x > p.x => {
            let slope = (q.y - p.y) / (q.x - p.x);
            (p.y + slope * (x - p.x), slope)
        }
        _ => (baseline.first().map_or(0.0, |p| p.y), 0.0),
    }
}
