//! Whether a traced line is type.

use super::fit::Fitted;
use super::runs::{Component, Pieces};

/// Looks at the components that stand on a line.
pub(super) struct Proof<'a> {
    /// By the row of their middle.
    parts: Vec<&'a Component>,
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
}

impl<'a> Proof<'a> {
    pub(super) fn of(pieces: &'a Pieces) -> Self {
        Self { parts: pieces.parts.iter().filter(|c| c.area > 2).collect() }
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
                out.count += 1;
            }
        }
        out
    }

    /// Whether most of the ink on a line is letters.
    pub(super) fn is_type(&self, line: &Fitted) -> bool {
        let s = self.standing(line);
        s.count > 0 && s.letters >= 0.5 * s.all && line.width() >= 0.3 * line.x_height
    }
}
