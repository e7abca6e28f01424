//! Following single boxes of print (a word, a letter, an ornament) from A to B.

use crate::template::{Scratch, Search, Template, Window};
use crate::{Laid, Pyramid};
use rayon::prelude::*;
use sheet::{Point, Rect, StraightMap};

/// A box of print on A and what was found of it on B. Pixels of A.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Followed {
    /// The box's middle.
    pub at: Point,
    /// Displacement by which it lies off the plane view, the paper's motion included; comparable
    /// with [`crate::Patch::shift`].
    pub shift: Point,
    /// Normalised cross-correlation, -1 to 1.
    pub score: f32,
    /// Best correlation elsewhere in the search, -1 where none was tried.
    pub rival: f32,
    /// Standard deviation of the displacement along x and y.
    pub sd: [f64; 2],
    /// The best place lies at the end of the search: the true one may be beyond.
    pub on_edge: bool,
}

/// How far from where the paper's motion puts it a box is looked for, pixels of A.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// Along x.
    pub x: f64,
    /// Along y.
    pub y: f64,
}

impl Reach {
    /// So far along lines of type and across them; `turn` is their direction, radians clockwise from the x axis.
    pub fn of_lines(along: f64, across: f64, turn: f64) -> Self {
        let (sin, cos) = (turn.sin().abs(), turn.cos().abs());
        Self { x: along * cos + across * sin, y: along * sin + across * cos }
    }
}

/// Samples a box should be wide and high, at the least, in the level it is first looked for in.
const FIRST_HEIGHT: f64 = 9.0;
/// Reach of the second search, in samples of the finest level used.
const SECOND_REACH: usize = 3;

/// Looks on B for each box of A, about where the map puts it. `None` where A's box holds nothing to
/// match or B's place lies off the photograph.
///
/// The search goes in two steps: over the whole reach at a level in which a box is about nine
/// samples high, then within three samples at the level the placement was measured at.
pub fn follow(a: &Pyramid, b: &Pyramid, laid: &Laid, boxes: &[Rect], reach: Reach) -> Vec<Option<Followed>> {
    boxes
        .par_iter()
        .map_init(Scratch::default, |scratch, r| follow_one(a, b, laid, *r, reach, scratch))
        .collect()
}

/// Looks on B for each box of A, within three samples of the level the placement was measured at about where a
/// drift of its own puts it.
pub fn follow_near(a: &Pyramid, b: &Pyramid, laid: &Laid, boxes: &[(Rect, Point)]) -> Vec<Option<Followed>> {
    let unit = laid.unit * SECOND_REACH as f64;
    let finest = laid.unit.log2().round() as usize;
    boxes
        .par_iter()
        .map_init(Scratch::default, |scratch, (r, drift)| {
            at_level(a, b, laid, *r, finest, *drift, Reach { x: unit, y: unit }, Search::Uphill, scratch)
        })
        .collect()
}

fn follow_one(
    a: &Pyramid,
    b: &Pyramid,
    laid: &Laid,
    bounds: Rect,
    reach: Reach,
    scratch: &mut Scratch,
) -> Option<Followed> {
    let finest = laid.unit.log2().round() as usize;
    let first = ((bounds.h.min(bounds.w) / FIRST_HEIGHT).max(1.0).log2().floor() as usize).max(finest);
    let rough = at_level(a, b, laid, bounds, first, Point::new(0.0, 0.0), reach, Search::All, scratch)?;
    if first == finest {
        return Some(rough);
    }
    let (paper, _) = laid.map.paper.at(rough.at);
    let mut level = first;
    let mut found = rough;
    while level > finest {
        level = level.saturating_sub(2).max(finest);
        let unit = 2f64.powi(level as i32) * SECOND_REACH as f64;
        let near = Reach { x: unit, y: unit };
        let next = at_level(a, b, laid, bounds, level, found.shift - paper, near, Search::Uphill, scratch)?;
        found = Followed { rival: rough.rival, on_edge: rough.on_edge || next.on_edge, ..next };
    }
    Some(found)
}

#[allow(clippy::too_many_arguments, reason = "one private call; a struct would only rename the list")]
fn at_level(
    a: &Pyramid,
    b: &Pyramid,
    laid: &Laid,
    bounds: Rect,
    level: usize,
    start: Point,
    reach: Reach,
    search: Search,
    scratch: &mut Scratch,
) -> Option<Followed> {
    let unit = 2f64.powi(level as i32);
    let plane = a.level(level);
    let x = (bounds.x / unit).floor().max(0.0) as usize;
    let y = (bounds.y / unit).floor().max(0.0) as usize;
    let right = ((bounds.right() / unit).ceil().max(0.0) as usize).min(plane.width());
    let low = ((bounds.bottom() / unit).ceil().max(0.0) as usize).min(plane.height());
    if right < x + 3 || low < y + 3 {
        return None;
    }
    let window = Window { x, y, w: right - x, h: low - y };
    let template = Template::new(plane, window)?;
    let at = window.centre() * unit;
    let (paper, _) = laid.map.paper.at(at);
    let (centre, slope) = laid.map.to_b_with_slope(at + start);
    let level_b = laid.level_of_b(level);
    let down_b = 2f64.powi(-(level_b as i32));
    let local = StraightMap { centre, slope }.between_levels(unit, down_b);
    let samples = |v: f64| (v / unit).ceil().max(1.0) as usize;
    let f = template.find(b.level(level_b), &local, (samples(reach.x), samples(reach.y)), search, scratch)?;
    Some(Followed {
        at,
        shift: paper + start + Point::new(f.dx, f.dy) * unit,
        score: f.score,
        rival: f.rival,
        sd: f.sd.map(|s| s * unit),
        on_edge: f.on_edge,
    })
}
