//! Lines of type, their words, and what is not type.

mod columns;
mod fit;
mod patches;
mod proof;
mod ridge;
mod runs;
mod size;
mod skew;
mod stretches;
mod trace;
mod words;

use crate::{Degrees, Plane, Point, Px, Rect};
use columns::Inked;
pub use patches::PatchKind;
use runs::Pieces;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How a side is laid out. All lengths and places are in pixels of the photograph at its original
/// size.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Layout {
    /// How far the lines of type fall to the right; 0 when there are none.
    pub skew: Degrees,
    /// The lines of type, in the order of reading.
    pub lines: Vec<Line>,
    /// What is not type.
    pub not_type: Vec<Patch>,
    /// The x-height of most of the type; `None` when no line was found.
    pub x_height: Option<Px>,
    /// From baseline to baseline in most of the type; `None` when no two lines follow each other.
    pub line_pitch: Option<Px>,
}

/// One line of type, or the part of it in one column.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Line {
    /// The baseline from left to right, following the curl of the page; at least two points.
    pub baseline: Vec<Point>,
    /// From the baseline up to the top of letters without ascenders; in a line of capitals alone, up
    /// to their tops.
    pub x_height: Px,
    /// How clearly the band from x-line to baseline stands out: the darkness gained at the x-line plus
    /// that lost at the baseline, each 0 to 1, over strips of 0.3 x-heights. Sound type has 0.4 to 0.9.
    pub contrast: f32,
    /// The box from ascenders to descenders (1.1 x-heights above the x-line, 0.8 below the baseline).
    pub bounds: Rect,
    /// Its words, from left to right.
    pub words: Vec<Word>,
}

/// One word, or what stands between two spaces.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Word {
    /// From ascenders to descenders, as for the line.
    pub bounds: Rect,
}

/// A patch of ink that is not type.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Patch {
    /// What it seems to be.
    pub kind: PatchKind,
    /// Its box.
    pub bounds: Rect,
}

/// Pixels at least this dark belong to a letter.
const DARK: u8 = 90;
/// The level worked on has a main x-height of at most this, in pixels.
const LARGEST_X_HEIGHT: f64 = 14.0;
/// So many sizes of type are looked for on a side.
const SIZES: usize = 7;

/// Finds the lines of type and what is not type.
///
/// `ink` is darkness as [`crate::ink`] gives it, of the photograph halved any number of times;
/// `reduction` is how many pixels of the photograph one of its pixels stands for, along a side. The
/// side must stand within 45 degrees of upright.
pub fn layout(ink: &Plane<u8>, reduction: f64) -> Layout {
    let (level, reduction, pieces, fall, x_height) = match working_level(ink, reduction) {
        Ok(found) => found,
        Err(fall) => {
            return Layout {
                skew: Degrees(fall.atan().to_degrees()),
                lines: Vec::new(),
                not_type: Vec::new(),
                x_height: None,
                line_pitch: None,
            };
        }
    };
    let level = &level;
    let (lines, free) = all_lines(level, &pieces, x_height, fall);
    let rough = patches::patches(&pieces, x_height, &free);
    let ground = patches::Ground::of(&pieces, x_height, &free);
    let lines: Vec<Inked> = lines.into_iter().filter(|l| ground.share_under(&l.line) < 0.5).collect();
    let order = columns::reading_order(&lines);
    let spaces: Vec<f64> = lines
        .iter()
        .flat_map(|l| l.inked.windows(2).map(|p| (p[1].from - p[0].to) / l.line.x_height))
        .collect();
    let parting = words::parting(&spaces);
    let out: Vec<Line> = order.iter().map(|&i| line(&lines[i], parting, reduction)).collect();
    Layout {
        skew: Degrees(fall.atan().to_degrees()),
        x_height: (!out.is_empty()).then_some(Px(x_height * reduction)),
        line_pitch: None,
        not_type: rough
            .iter()
            .map(|p| Patch {
                kind: p.kind,
                bounds: Rect::new(p.left, p.top, p.width(), p.height()).scaled(reduction),
            })
            .collect(),
        lines: out,
    }
}

/// Halves the ink until the type is small enough to be quick; the level, its reduction, its pieces,
/// the fall of its lines and the main x-height. `Err` with the fall when there is no type.
fn working_level(ink: &Plane<u8>, reduction: f64) -> Result<(Plane<u8>, f64, Pieces, f64, f64), f64> {
    let mut levels = vec![ink.clone()];
    while levels[levels.len() - 1].width().max(levels[levels.len() - 1].height()) > 1100 {
        levels.push(levels[levels.len() - 1].halved());
    }
    let mut level = levels.len() - 1;
    let mut pieces = runs::pieces(&levels[level], DARK);
    let (w, h) = (pieces.width as f64, pieces.height as f64);
    let small = |c: &runs::Component| c.height() < h / 10.0 && c.width() < w / 3.0;
    let projection = skew::Projection::of(&pieces, |i| small(&pieces.parts[i]));
    let fall = projection.sharpest(Degrees(0.0), skew::WIDEST).0.radians().tan();
    let all = |_: usize| true;
    let mut size = size::main_size(&pieces, fall, size::SMALLEST..=h / 12.0, all).ok_or(fall)?;
    // The finest level whose type is not larger than need be.
    while level > 0 && size * 2.0 <= LARGEST_X_HEIGHT {
        level -= 1;
        size *= 2.0;
    }
    if level + 1 < levels.len() {
        pieces = runs::pieces(&levels[level], DARK);
        size = size::main_size(&pieces, fall, size * 0.7..=size * 1.45, all).ok_or(fall)?;
    }
    let scale = reduction * f64::from(1u32 << level);
    Ok((levels.swap_remove(level), scale, pieces, fall, size))
}

/// The lines of every size of type, largest share of ink first, each taking its components away; and
/// the components that are left.
fn all_lines(level: &Plane<u8>, pieces: &Pieces, main: f64, fall: f64) -> (Vec<Inked>, Vec<bool>) {
    let mut free = vec![true; pieces.parts.len()];
    let mut lines: Vec<Inked> = Vec::new();
    let mut size = Some(main);
    for _ in 0..SIZES {
        let Some(x_height) = size else { break };
        let found = lines_of_size(level, pieces, x_height, fall, &free);
        take(pieces, &found, &mut free);
        lines.extend(found);
        // What suited this size and is in no line is no type of this size.
        for (part, c) in pieces.parts.iter().enumerate() {
            if size::suits(c, 0.8 * x_height) && c.height() < 1.5 * x_height {
                free[part] = false;
            }
        }
        size = size::main_size(pieces, fall, 0.6 * main..=8.0 * main, |i| free[i]);
    }
    (lines, free)
}

/// The lines of about one size, among the free components.
fn lines_of_size(level: &Plane<u8>, pieces: &Pieces, x_height: f64, fall: f64, free: &[bool]) -> Vec<Inked> {
    let grid =
        ridge::Grid::of(pieces, x_height, fall, |i| free[i] && size::suits(&pieces.parts[i], x_height));
    let crests = grid.crests(x_height, size::FAINTEST);
    let tracks = trace::tracks(&grid, &crests, x_height, fall);
    let inked: Vec<Inked> = tracks
        .iter()
        .filter_map(|track| fit::fit(level, track, x_height, fall))
        .map(|line| {
            let (left, right) = (line.left - 0.5 * x_height, line.right + 0.5 * x_height);
            Inked { inked: stretches::inked(level, &line, left, right), line }
        })
        .collect();
    let seen = proof::Proof::of(pieces);
    columns::parted(inked).into_iter().filter(|l| seen.is_type(&l.line)).collect()
}

/// Takes the components that stand on a line away from those that are free.
fn take(pieces: &Pieces, lines: &[Inked], free: &mut [bool]) {
    for (part, c) in pieces.parts.iter().enumerate() {
        let (x, _) = c.middle();
        let on = |l: &&Inked| {
            let (l, h) = (&l.line, l.line.x_height);
            let base = l.baseline(x);
            let shared = f64::from(c.bottom).min(base) - f64::from(c.top).max(base - h);
            x > l.left - 0.5 * h
                && x < l.right + 0.5 * h
                && size::suits(c, h)
                && shared >= 0.4 * c.height().min(h)
        };
        if free[part] && lines.iter().any(|l| on(&l)) {
            free[part] = false;
        }
    }
}

/// A finished line in pixels of the photograph.
fn line(l: &Inked, parting: Option<f64>, reduction: f64) -> Line {
    let (h, f) = (l.line.x_height, &l.line);
    let steps = (f.width() / (4.0 * h)).ceil().max(1.0);
    let baseline: Vec<Point> = (0..=steps as usize)
        .map(|i| {
            let x = f.left + f.width() * i as f64 / steps;
            Point::new(x, f.baseline(x)) * reduction
        })
        .collect();
    let bounds = |from: f64, to: f64| {
        let (a, b) = (f.baseline(from), f.baseline(to));
        let (top, bottom) = (a.min(b) - 2.1 * h, a.max(b) + 0.8 * h);
        Rect::new(from, top, to - from, bottom - top).scaled(reduction)
    };
    Line {
        baseline,
        x_height: Px(h * reduction),
        contrast: f.contrast as f32,
        bounds: bounds(f.left, f.right),
        words: words::words(&l.inked, h, parting)
            .iter()
            .map(|w| Word { bounds: bounds(w.from, w.to) })
            .collect(),
    }
}
