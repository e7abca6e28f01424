//! What is left of each window's displacement when its neighbours' smooth motion is taken away.

use crate::Motion;
use crate::crease::Crease;
use crate::patches::{Grid, LEAST_SCORE};
use sheet::Point;

/// One window of A, what was found of it on B, and how it moved against its neighbours.
/// Pixels of photograph A throughout.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Patch {
    /// The window's middle.
    pub at: Point,
    /// Displacement by which B's print lies off the plane view, the paper's motion included.
    pub shift: Point,
    /// Displacement against the smooth motion of the neighbours that share no ink with the window; `None` where it was
    /// not found well or has too few of them.
    pub residual: Option<Point>,
    /// Normalised cross-correlation, -1 to 1.
    pub score: f32,
    /// Best correlation elsewhere in the search.
    pub rival: f32,
    /// Standard deviation of the displacement along x and y.
    pub sd: [f64; 2],
}

impl Patch {
    /// Whether the window was found well enough to speak of where it lies.
    pub fn is_sound(&self) -> bool {
        self.score >= LEAST_SCORE && self.sd.iter().all(|s| s.is_finite())
    }
}

/// Width of the neighbourhood, in sides of a window: that by which windows are told best (docs/benchmarks.md).
const WIDTH: f64 = 1.7;
/// Windows this many sides apart share no ink to speak of.
const APART: f64 = 0.98;

/// The windows of a grid, each against the motion that the windows about it tell.
pub(crate) fn patches(grid: &Grid, creases: &[Crease]) -> Vec<Patch> {
    let side = grid.side();
    let motion = Motion::of_windows(grid, creases, WIDTH * side);
    let sound: Vec<Point> = grid.found().filter(|m| m.is_sound()).map(|m| m.at).collect();
    let mut told = motion.without(&sound, APART * side).into_iter();
    grid.found()
        .map(|m| Patch {
            at: m.at,
            shift: m.shift,
            residual: m.is_sound().then(|| told.next()).flatten().flatten().map(|told| m.shift - told.shift),
            score: m.score,
            rival: m.rival,
            sd: m.sd,
        })
        .collect()
}
