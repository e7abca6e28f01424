//! Small windows on a regular grid over A, each looked for on B.

use crate::template::{Scratch, Search, Template, Window};
use crate::{PaperMap, Pyramid};
use rayon::prelude::*;
use sheet::{Point, StraightMap};

/// What was measured of one window of A. Pixels of photograph A throughout.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Measured {
    pub(crate) at: Point,
    /// B lies at `view(at + shift)`.
    pub(crate) shift: Point,
    pub(crate) score: f32,
    pub(crate) rival: f32,
    pub(crate) on_edge: bool,
    pub(crate) sd: [f64; 2],
}

impl Measured {
    /// Whether the window was found well enough to speak of where it lies.
    pub(crate) fn is_sound(&self) -> bool {
        self.score >= LEAST_SCORE && !self.on_edge && self.sd[0].is_finite() && self.sd[1].is_finite()
    }
}

/// Correlation from which a window's place is believed.
pub(crate) const LEAST_SCORE: f32 = 0.55;
/// Correlation below which a window is also looked for where its neighbour was found before.
const DOUBTFUL_SCORE: f32 = 0.8;

/// Reach, in samples, within which print has one place: the strokes of type lie farther apart.
const NEAR: usize = 3;

/// One round of matching: how large the windows are and where they are looked for.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Round {
    /// Level of A's pyramid, and of B's.
    pub(crate) level_a: usize,
    pub(crate) level_b: usize,
    /// Side of a window, distance between windows and reach of the search, in samples of A's level.
    pub(crate) side: usize,
    pub(crate) step: f64,
    pub(crate) reach: usize,
}

/// The windows of one round in rows, `None` where A has nothing to hold on to or B nothing there.
#[derive(Debug, Clone)]
pub(crate) struct Grid {
    across: usize,
    down: usize,
    /// Distance between windows and offset of the first centre, in pixels of A.
    step: f64,
    first: f64,
    cells: Vec<Option<Measured>>,
}

impl Grid {
    pub(crate) fn found(&self) -> impl Iterator<Item = &Measured> {
        self.cells.iter().flatten()
    }

    /// Side of a window, pixels of A.
    pub(crate) fn side(&self) -> f64 {
        2.0 * self.first
    }

    /// The sound measurement nearest to a place, no further than one step away.
    fn nearest(&self, p: Point) -> Option<&Measured> {
        let cell = |v: f64, n: usize| (((v - self.first) / self.step).round().max(0.0) as usize).min(n - 1);
        let (cx, cy) = (cell(p.x, self.across), cell(p.y, self.down));
        self.cells[cy * self.across + cx].as_ref().filter(|m| m.is_sound())
    }
}

/// Looks on B for every window of A of one round, each about where `map` puts it; and, where that
/// answers poorly, about where the same print was found in the round before.
pub(crate) fn measure(
    a: &Pyramid,
    b: &Pyramid,
    map: &PaperMap,
    round: &Round,
    before: Option<&Grid>,
) -> Grid {
    let level = a.level(round.level_a);
    let unit = 2f64.powi(round.level_a as i32);
    let fit = |extent: usize| {
        if extent < round.side { 0 } else { ((extent - round.side) as f64 / round.step) as usize + 1 }
    };
    let (across, down) = (fit(level.width()), fit(level.height()));
    let cells = (0..across * down)
        .into_par_iter()
        .map_init(Scratch::default, |scratch, i| {
            let window = Window {
                x: ((i % across) as f64 * round.step) as usize,
                y: ((i / across) as f64 * round.step) as usize,
                w: round.side,
                h: round.side,
            };
            let template = Template::new(level, window)?;
            follow(&template, window, b, map, round, before, unit, scratch)
        })
        .collect();
    Grid { across, down, step: round.step * unit, first: round.side as f64 / 2.0 * unit, cells }
}

#[allow(clippy::too_many_arguments, reason = "one private call; a struct would only rename the list")]
fn follow(
    template: &Template,
    window: Window,
    b: &Pyramid,
    map: &PaperMap,
    round: &Round,
    before: Option<&Grid>,
    unit: f64,
    scratch: &mut Scratch,
) -> Option<Measured> {
    let at = window.centre() * unit;
    let down_b = 2f64.powi(-(round.level_b as i32));
    let plane = b.level(round.level_b);
    let paper = map.paper.at(at).0;
    let search = if round.reach <= NEAR { Search::Uphill } else { Search::All };
    let try_at = |start: Point, scratch: &mut Scratch| -> Option<Measured> {
        // `start` is an extra shift against the map; both are in pixels of A.
        let (centre, slope) = map.to_b_with_slope(at + start);
        let local = StraightMap { centre, slope }.between_levels(unit, down_b);
        let f = template.find(plane, &local, (round.reach, round.reach), search, scratch)?;
        Some(Measured {
            at,
            shift: paper + start + Point::new(f.dx, f.dy) * unit,
            score: f.score,
            rival: f.rival,
            on_edge: f.on_edge,
            sd: f.sd.map(|s| s * unit),
        })
    };
    let first = try_at(Point::new(0.0, 0.0), scratch);
    let poor = first.is_none_or(|m| m.score < DOUBTFUL_SCORE || m.on_edge);
    let Some(old) = before.and_then(|g| g.nearest(at)).filter(|_| poor) else { return first };
    let start = old.shift - paper;
    if start.length() < round.reach as f64 * unit / 2.0 {
        return first;
    }
    match (first, try_at(start, scratch)) {
        (Some(f), Some(s)) => Some(if s.score > f.score { s } else { f }),
        (f, s) => f.or(s),
    }
}
