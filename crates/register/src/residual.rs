//! What is left of each window's displacement when its neighbours' smooth motion is taken away.

use crate::Motion;
use crate::crease::{Crease, side_of};
use crate::patches::{Grid, LEAST_SCORE};
use crate::sides::heard;
use crate::smooth::{Neighbours, Sample};
use rayon::prelude::*;
use sheet::Point;

/// One window of A, what was found of it on B, and how it moved against its neighbours.
/// Pixels of photograph A throughout.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Patch {
    /// The window's middle.
    pub at: Point,
    /// Displacement by which B's print lies off the plane view, the paper's motion included.
    pub shift: Point,
    /// Displacement against the smooth motion of the neighbours, the window's own line of type left
    /// out of them; `None` where the window was not found well or has too few neighbours.
    pub residual: Option<Point>,
    /// Normalised cross-correlation, -1 to 1.
    pub score: f32,
    /// Best correlation elsewhere in the search.
    pub rival: f32,
    /// Standard deviation of the displacement along x and y.
    pub sd: [f64; 2],
    /// The neighbours on one side explain this window and those on the other do not, as along a crease.
    pub one_sided: bool,
}

impl Patch {
    /// Whether the window was found well enough to speak of where it lies.
    pub fn is_sound(&self) -> bool {
        self.score >= LEAST_SCORE && self.sd.iter().all(|s| s.is_finite())
    }
}

/// How the lines of type run on A, so that a line is judged by the others and not by itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineGuide {
    /// Direction of the lines, radians clockwise from the x axis.
    pub turn: f64,
    /// From one line to the next, pixels of A.
    pub pitch: f64,
}

/// Width of the neighbourhood, mm, and its reach in widths. It must hold several lines above and
/// below, and be small beside a cockle.
const WIDTH_MM: f64 = 8.0;
const REACH_IN_WIDTHS: f64 = 2.0;
/// Neighbours within this share of the line pitch above or below belong to the window's own line.
const OWN_LINE: f64 = 0.75;
/// Fewest neighbours for a judgement.
const FEWEST: usize = 10;

pub(crate) fn patches(
    grid: &Grid,
    creases: &[Crease],
    px_per_mm: f64,
    LineGuide { pitch, turn }: LineGuide,
) -> Vec<Patch> {
    let width = (WIDTH_MM * px_per_mm).max(1.6 * pitch);
    let motion = Motion::of_windows(grid, creases, width);
    let cells = Neighbours::new(motion.samples(), width);
    let (sin, cos) = turn.sin_cos();
    let measured: Vec<_> = grid.found().copied().collect();
    let usual = motion.usual_scatter();
    measured
        .par_iter()
        .map_init(Vec::new, |near, m| {
            let mut patch = Patch {
                at: m.at,
                shift: m.shift,
                residual: None,
                score: m.score,
                rival: m.rival,
                sd: m.sd,
                one_sided: false,
            };
            if !m.is_sound() {
                return patch;
            }
            let above = |s: &Sample| -(s.at.x - m.at.x) * sin + (s.at.y - m.at.y) * cos;
            near.clear();
            let sides = side_of(creases, m.at);
            let kept = |s: &Sample| above(s).abs() > OWN_LINE * pitch && side_of(creases, s.at) == sides;
            cells.within(m.at, REACH_IN_WIDTHS * width, kept, near);
            if near.len() < FEWEST {
                return patch;
            }
            if let Some((told, one_sided)) = heard(m.at, m.shift, near, width, usual) {
                patch.residual = Some(m.shift - told.shift);
                patch.one_sided = one_sided;
            }
            patch
        })
        .collect()
}
