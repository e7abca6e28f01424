//! Where print of a line is not to be seen: a patch that took no ink, a line cut off by the edge of the photograph.
//!
//! What the other side has there is no other text. How much it may have is told by the page alone: as much as goes
//! into the hole, if the lines about it are full.

use super::ribbon::{SAME_BODY, on_baseline};
use sheet::{Layout, Line};

/// A space in a line wider than this, in x-heights, is a hole; and so is what a line is shorter than the lines about
/// it on the left or on the right by.
const HOLE: f64 = 3.0;
/// So many lines before and after tell how wide the text stands.
const ABOUT: usize = 4;
/// A line that begins or ends this near to the edge of the photograph, in x-heights, may be cut off there; and the
/// share of its breadth that may be lost.
const EDGE: f64 = 2.0;
const CUT_OFF: f64 = 0.3;
/// Two pieces whose baselines are this near to each other, in x-heights, stand in one line.
const LEVEL: f64 = 0.6;

/// Whether a space in a line, in x-heights, is a hole.
pub(super) fn is_hole(space: f64) -> bool {
    space > HOLE
}

/// How much print before and after each line of a side may not be seen, in its x-heights; `breadth` of the
/// photograph in pixels.
pub(super) fn beside(layout: &Layout, breadth: f64) -> Vec<[f64; 2]> {
    let lines = &layout.lines;
    let mut out: Vec<[f64; 2]> = (0..lines.len()).map(|i| short_of(lines, i, breadth)).collect();
    // Pieces of one line, parted by a hole.
    for i in 1..lines.len() {
        if let Some(gap) = parted(&lines[i - 1], &lines[i]) {
            out[i - 1][1] = 0.0;
            out[i][0] = if is_hole(gap) { gap } else { 0.0 };
        }
    }
    out
}

/// How far a line stops short of the lines about it, left and right, or of its own length beyond the edge.
fn short_of(lines: &[Line], i: usize, breadth: f64) -> [f64; 2] {
    let (own, x) = (&lines[i], lines[i].x_height.0);
    let about = lines[i.saturating_sub(ABOUT)..(i + ABOUT + 1).min(lines.len())].iter().filter(|l| {
        (l.x_height.0 / x - 1.0).abs() < SAME_BODY
            && l.bounds.x < own.bounds.right()
            && own.bounds.x < l.bounds.right()
    });
    let (left, right) =
        about.fold((f64::MAX, f64::MIN), |(l, r), line| (l.min(line.bounds.x), r.max(line.bounds.right())));
    // A line in the middle is short on both sides, and has no hole.
    let short = (own.bounds.x - left - (right - own.bounds.right())) / x;
    let edge = [own.bounds.x / x, (breadth - own.bounds.right()) / x];
    std::array::from_fn(|k| {
        let short = if k == 0 { short } else { -short };
        let hole = if is_hole(short) { short } else { 0.0 };
        if edge[k] < EDGE { hole.max(CUT_OFF * (right - left) / x) } else { hole }
    })
}

/// The space between two pieces of one line, in x-heights; `None` of two lines.
fn parted(left: &Line, right: &Line) -> Option<f64> {
    let gap = right.bounds.x - left.bounds.right();
    let x = left.x_height.0;
    let height = |l: &Line, at: f64| on_baseline(&l.baseline, at);
    let step = height(left, left.bounds.right()) - height(right, right.bounds.x);
    (gap > 0.0 && step.abs() < LEVEL * x).then_some(gap / x)
}
