//! What tells one block from another: how the windows of two impressions lie on each other.

use super::drift::{Beside, drift};
use super::lines::LineSigns;
use super::strokes::StrokeWindow;
use super::windows::{Window, Windows};
use crate::rank::{median, quantile};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What was measured of two impressions of a cut.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BlockSigns {
    /// Windows in which both show strokes: all that follows is of these.
    pub windows: usize,
    /// Correlation of the two where the paper's motion puts one on the other: median over the windows.
    pub likeness: f64,
    /// The same of the poorest fifth.
    pub poorest: f64,
    /// Share of the windows that were found near where the motion puts them.
    pub found: f64,
    /// How far those lie from their neighbours' smooth motion, pixels of the coarser photograph: median.
    pub wandering_px: f64,
    /// The same of windows that are well inked and sharp in both, in standard deviations of their places; null where there
    /// are few.
    pub wandering_sd: Option<f64>,
    /// How far strokes lie beside each other after the smooth motion about them, measured across them, pixels of the coarser
    /// photograph; null where few windows show strokes that both have.
    pub drift_px: Option<f64>,
    /// How far strokes lie beside each other in standard deviations of the place of each window; null where few windows show
    /// strokes that both have.
    #[serde(default)]
    pub drift_sd: Option<f64>,
    /// By how much the edges of strokes stand farther out in one than in the other, against those about them, pixels of the
    /// coarser photograph: median of its size; null where few windows show strokes that both have.
    #[serde(default)]
    pub bolder_px: Option<f64>,
    /// What windows of strokes say of one block, each by itself: mean of their log odds (natural).
    #[serde(default)]
    pub windows_say: f64,
    /// What single windows of strokes, looked at as pictures, say of one block: mean of their log odds (natural); 0 where there
    /// are none.
    #[serde(default)]
    pub sight: f64,
    /// The log odds below which the poorest fifth of them lies.
    #[serde(default)]
    pub sight_poorest: f64,
    /// Longer side of the cut on the coarser photograph, pixels.
    #[serde(default)]
    pub longer_px: f64,
    /// Where lines end and meet, and how many hatch a field.
    #[serde(default)]
    pub lines: LineSigns,
    /// Correlation that the best three windows in ten reach where they are looked for: how well the photographs show what
    /// is there.
    pub shown: f64,
}

/// Contrast of a window that shows strokes: a tenth of it ink and the rest paper has 0.3 (by reckoning).
pub(super) const STROKES: f64 = 0.2;
/// Correlation, and standard deviation in pixels, of a window that is well inked and sharp.
const WELL: f32 = 0.8;
const SHARP: f64 = 0.35;
/// Fewest windows that tell anything.
const FEWEST: usize = 20;

impl BlockSigns {
    /// From the windows of a pair, the longer side of the cut in pixels of the first, and the pixels of the second to one of the first; `None` where too few show strokes in both.
    pub(super) fn of(
        seen: &Windows,
        strokes: &[StrokeWindow],
        lines: LineSigns,
        longer: f64,
        scale: f64,
    ) -> Option<Self> {
        let inked: Vec<&Window> = seen.all.iter().filter(|w| w.shows_strokes()).collect();
        if inked.len() < FEWEST {
            return None;
        }
        let likeness: Vec<f64> = inked.iter().map(|w| f64::from(w.score[0])).collect();
        let found: Vec<(&Window, f64)> =
            inked.iter().filter_map(|w| w.residual.map(|r| (*w, r.length()))).collect();
        let coarser = scale.min(1.0);
        let best: Vec<f64> = inked.iter().map(|w| f64::from(w.score[1])).collect();
        let sharp: Vec<f64> =
            found.iter().filter(|(w, _)| w.is_sharp()).filter_map(|(w, _)| w.in_sd()).collect();
        let shared: Vec<&Beside> = seen.beside.iter().filter(|w| w.is_shared()).collect();
        let usual = |of: &dyn Fn(&Beside) -> f64| {
            (shared.len() >= FEWEST).then(|| median(shared.iter().map(|w| of(w)).collect()))
        };
        let say = strokes.iter().map(|w| w.says).sum::<f64>() / strokes.len().max(1) as f64;
        Some(Self {
            drift_sd: usual(&|w| w.across.abs() / (w.sd + 0.003)),
            bolder_px: usual(&|w| coarser * w.bolder[1].abs()),
            windows_say: say,
            sight: seen.sights.iter().map(|s| s.says).sum::<f64>() / seen.sights.len().max(1) as f64,
            sight_poorest: quantile(seen.sights.iter().map(|s| s.says).collect(), 0.2).unwrap_or(0.0),
            longer_px: coarser * longer,
            lines,
            windows: inked.len(),
            likeness: median(likeness.clone()),
            poorest: quantile(likeness, 0.2).unwrap_or(0.0),
            found: found.len() as f64 / inked.len() as f64,
            wandering_px: coarser * median(found.iter().map(|f| f.1).collect()),
            wandering_sd: (sharp.len() >= FEWEST).then(|| median(sharp)),
            drift_px: drift(&seen.beside).map(|d| coarser * d),
            shown: quantile(best, 0.7).unwrap_or(0.0),
        })
    }
}

impl Window {
    /// Whether both impressions show strokes in it.
    pub(super) fn shows_strokes(&self) -> bool {
        self.contrast.iter().all(|&c| c > STROKES)
    }

    fn is_sharp(&self) -> bool {
        self.score[1] > WELL && self.sd[0].max(self.sd[1]) < SHARP
    }

    /// How far it lies from its neighbours' motion, in standard deviations, to which a tenth of a pixel is added that no
    /// window is better than.
    fn in_sd(&self) -> Option<f64> {
        let r = self.residual?;
        let of = |r: f64, sd: f64| r / sd.hypot(0.1);
        Some(of(r.x, self.sd[0]).hypot(of(r.y, self.sd[1])))
    }
}
