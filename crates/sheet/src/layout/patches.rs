//! What is not type: cuts, initials, borders, rules.

use super::fit::Fitted;
use super::runs::{Component, Pieces};
use crate::Plane;
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
}

/// Where the ink of large free components lies, on a grid of x-heights.
pub(super) struct Ground {
    inked: Plane<u8>,
    cell: f64,
}

impl Ground {
    pub(super) fn of(pieces: &Pieces, x_height: f64, free: &[bool]) -> Self {
        let cell = x_height.max(2.0).floor();
        let n = cell as usize;
        let mut inked = Plane::filled(pieces.width.div_ceil(n).max(1), pieces.height.div_ceil(n).max(1), 0u8);
        for run in &pieces.runs {
            let part = run.part as usize;
            if free[part] && is_large(&pieces.parts[part], x_height) {
                let row = inked.row_mut(run.y as usize / n);
                row[run.from as usize / n..=(run.to as usize - 1) / n].fill(1);
            }
        }
        Self { inked, cell }
    }

    /// Share of a line's band that lies on such ink, or between such ink.
    pub(super) fn share_under(&self, line: &Fitted) -> f64 {
        let n = (line.width() / self.cell).ceil().max(1.0);
        let mut under = 0.0;
        for i in 0..n as usize {
            let x = line.left + (i as f64 + 0.5) * line.width() / n;
            let y = line.baseline(x) - line.x_height / 2.0;
            let (column, row) = ((x / self.cell) as isize, (y / self.cell) as isize);
            let near = |dx: isize, dy: isize| self.inked.at_clamped(column + dx, row + dy) > 0;
            under +=
                f64::from(u8::from(near(0, 0) || near(-1, 0) && near(1, 0) || near(0, -1) && near(0, 1)));
        }
        under / n
    }
}

/// Whether a component is too large for a letter of the main type.
fn is_large(c: &Component, x_height: f64) -> bool {
    c.width().max(c.height()) > 3.6 * x_height
}

/// Gathers the free components that are too large for type into patches, each with the small ones
/// that lie in it.
pub(super) fn patches(pieces: &Pieces, x_height: f64, free: &[bool]) -> Vec<Rough> {
    let large = |c: &Component| is_large(c, x_height);
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
