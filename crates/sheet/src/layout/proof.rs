//! Whether a traced line is type.

use super::chain::THINNEST;
use super::fit::Fitted;
use super::runs::{Component, Pieces};

/// A band fainter than this is grain; see [`Fitted::contrast`].
const FAINTEST: f64 = 0.15;
/// Type smaller than this share of the main type is not looked for.
const SMALLEST: f64 = 0.18;
/// Type smaller than this share of it must come in lines of some length, or it is the points and broken
/// pieces of larger type.
const SMALL: f64 = 0.7;
/// Short lines this near the picture's border are scraps of a facing page or of its edge, in x-heights.
const BORDER: f64 = 1.0;

/// Looks at the components that stand on a line.
pub(super) struct Proof<'a> {
    /// By the row of their middle.
    parts: Vec<&'a Component>,
    main: f64,
    width: f64,
    height: f64,
}

/// What stands on a line.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Standing {
    /// Ink of the components that could be letters or touching letters of the line's size.
    pub(super) letters: f64,
    /// Ink of all components that reach into the line, as far as they do.
    pub(super) all: f64,
    /// How many could be letters.
    pub(super) count: usize,
    /// How many of those stand on the baseline.
    on_line: usize,
    /// The same ink, summed over the mean widths of its strokes.
    strokes: f64,
}

impl<'a> Proof<'a> {
    /// For a level and the x-height of its main type.
    pub(super) fn of(pieces: &'a Pieces, main: f64) -> Self {
        let parts = pieces.parts.iter().filter(|c| c.area > 2).collect();
        Self { parts, main, width: pieces.width as f64, height: pieces.height as f64 }
    }

    /// The x-height of the main type.
    pub(super) fn main(&self) -> f64 {
        self.main
    }

    /// Measures what stands on a line.
    pub(super) fn standing(&self, line: &Fitted) -> Standing {
        let h = line.x_height;
        let mut out = Standing::default();
        for c in &self.parts {
            let (left, right) = (f64::from(c.left).max(line.left), f64::from(c.right).min(line.right));
            if right <= left {
                continue;
            }
            let base = line.baseline(f64::midpoint(left, right));
            let shared = f64::from(c.bottom).min(base) - f64::from(c.top).max(base - h);
            if shared < 0.3 * h.min(c.height()) {
                continue;
            }
            // The share of its ink that lies in the band, as if ink were spread evenly over its box.
            let share = (right - left) / c.width() * (shared / c.height()).min(1.0);
            let ink = f64::from(c.area) * share;
            out.all += ink;
            let above = base - f64::from(c.top);
            let below = f64::from(c.bottom) - base;
            if c.height() >= 0.5 * h && above <= 2.2 * h && below <= 1.2 * h && c.width() <= 14.0 * h {
                out.letters += ink;
                out.strokes += ink * f64::from(c.area) / f64::from(c.runs);
                out.count += 1;
                out.on_line += usize::from(below.abs() <= 0.35 * h);
            }
        }
        out
    }

    /// Whether most of the ink on a line is letters, and the line no scrap at the picture's border.
    pub(super) fn is_type(&self, line: &Fitted) -> bool {
        let h = line.x_height;
        let s = self.standing(line);
        if s.count == 0
            || line.contrast < FAINTEST
            || s.letters < 0.5 * s.all
            || line.width() < 0.3 * h
            || h < SMALLEST * self.main
        {
            return false;
        }
        // The cross-strokes of capitals, or the tops of a row of letters, have none on the line.
        if s.on_line * 4 < s.count {
            return false;
        }
        if h < SMALL * self.main && (line.width() < 6.0 * h || s.count < 6 || line.contrast < 2.0 * FAINTEST)
        {
            return false;
        }
        // A large "line" of fine strokes is ornament.
        if h > 1.5 * self.main && s.strokes < THINNEST * h * s.letters {
            return false;
        }
        let y = line.baseline(line.left);
        let margin = line.left.min(self.width - line.right).min(y - h).min(self.height - y);
        margin > BORDER * self.main || line.width() > 8.0 * h
    }
}
