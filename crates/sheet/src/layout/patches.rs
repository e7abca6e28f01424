//! What is not type: cuts, initials, borders, rules.

use super::runs::{Component, Pieces};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What a patch of ink that is not type seems to be. A proposal from its shape alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum PatchKind {
    /// A picture or a large ornament.
    Cut,
    /// A thin straight line.
    Rule,
    /// A long narrow band of ornament, or a frame about other things.
    Border,
    /// A large letter or small square cut beside the beginning of a line of type.
    Initial,
    /// Ink that is none of these: dirt, a page's edge, handwriting, a stamp.
    Unknown,
}

/// A patch in pixels of the level.
#[derive(Debug, Clone, Copy)]
pub(super) struct Rough {
    pub(super) kind: PatchKind,
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
    /// Pixels of ink in it.
    pub(super) area: f64,
}

impl Rough {
    fn of(c: &Component) -> Self {
        Self {
            kind: PatchKind::Unknown,
            left: f64::from(c.left),
            top: f64::from(c.top),
            right: f64::from(c.right),
            bottom: f64::from(c.bottom),
            area: f64::from(c.area),
        }
    }

    pub(super) fn width(&self) -> f64 {
        self.right - self.left
    }

    pub(super) fn height(&self) -> f64 {
        self.bottom - self.top
    }

    /// Whether both, grown by `by`, meet.
    fn near(&self, o: &Self, by: f64) -> bool {
        self.left < o.right + by
            && o.left < self.right + by
            && self.top < o.bottom + by
            && o.top < self.bottom + by
    }

    fn join(&mut self, o: &Self) {
        self.left = self.left.min(o.left);
        self.top = self.top.min(o.top);
        self.right = self.right.max(o.right);
        self.bottom = self.bottom.max(o.bottom);
        self.area += o.area;
    }

    /// Whether most of a box lies inside.
    pub(super) fn covers(&self, left: f64, top: f64, right: f64, bottom: f64) -> bool {
        let w = self.right.min(right) - self.left.max(left);
        let h = self.bottom.min(bottom) - self.top.max(top);
        w > 0.0 && h > 0.0 && w * h >= 0.6 * (right - left) * (bottom - top)
    }

    /// Whether it is filled with ink rather than standing about something: its own ink covers at
    /// least a tenth of its box.
    pub(super) fn is_filled(&self) -> bool {
        self.area >= 0.1 * self.width() * self.height()
    }
}

/// Gathers the free components that are too large for type into patches, each with the small ones
/// that lie in it.
pub(super) fn patches(pieces: &Pieces, x_height: f64, free: &[bool]) -> Vec<Rough> {
    let large = |c: &Component| c.width().max(c.height()) > 3.6 * x_height;
    let mut out: Vec<Rough> = Vec::new();
    for (c, _) in pieces.parts.iter().zip(free).filter(|(c, free)| **free && large(c)) {
        let mut patch = Rough::of(c);
        // Joining may bring it near others: until nothing changes.
        while let Some(i) = out.iter().position(|p| p.near(&patch, 0.7 * x_height)) {
            let other = out.swap_remove(i);
            patch.join(&other);
        }
        out.push(patch);
    }
    for (c, _) in pieces.parts.iter().zip(free).filter(|(c, free)| **free && !large(c)) {
        let (x, y) = c.middle();
        if let Some(p) = out.iter_mut().find(|p| x >= p.left && x < p.right && y >= p.top && y < p.bottom) {
            p.area += f64::from(c.area);
        }
    }
    for patch in &mut out {
        patch.kind = kind(patch, x_height);
    }
    out
}

/// The kind of a patch by its shape.
fn kind(patch: &Rough, x_height: f64) -> PatchKind {
    let (w, h) = (patch.width() / x_height, patch.height() / x_height);
    let (long, thin) = (w.max(h), w.min(h));
    let fill = patch.area / (patch.width() * patch.height());
    if thin < 1.0 && long > 6.0 * thin {
        PatchKind::Rule
    } else if fill < 0.1 && thin > 6.0 {
        PatchKind::Border
    } else if long > 4.0 * thin && thin > 1.0 {
        PatchKind::Border
    } else if fill > 0.1 && long < 16.0 && long < 2.5 * thin {
        PatchKind::Initial
    } else if fill > 0.1 && thin > 4.0 {
        PatchKind::Cut
    } else {
        PatchKind::Unknown
    }
}
