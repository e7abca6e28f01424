//! Lines of type, their words, and what is not type.

mod border;
mod chain;
mod columns;
mod cuts;
mod feet;
mod fit;
mod mend;
mod ornament;
mod patches;
mod pitch;
mod proof;
mod ridge;
mod runs;
mod size;
mod skew;
mod stretches;
mod text;
mod trace;
mod words;

use crate::{Degrees, Plane, Point, Px, Rect};
use columns::Inked;
pub use cuts::{CutKind, FoundCut, hole};
pub use feet::Stand;
pub use patches::PatchKind;
use runs::Pieces;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

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
    /// The cuts, largest first.
    pub cuts: Vec<FoundCut>,
    /// The x-height of the text: the size in which most letters stand; `None` when no line was found.
    pub x_height: Option<Px>,
    /// From baseline to baseline, across the lines, in the text; `None` when no two lines follow each other.
    pub line_pitch: Option<Px>,
}

impl Layout {
    /// Whether what was found reads as text: most of it in lines of some words, the words of letters. Where a
    /// side has any text, that of a side turned by a quarter does not.
    pub fn is_legible(&self) -> bool {
        text::legibility(&self.lines) >= text::LEGIBLE
    }

    /// Whether the lines stand on their feet or on their heads; `ink` and `reduction` as for [`layout`].
    pub fn stand(&self, ink: &Plane<u8>, reduction: f64) -> Stand {
        feet::stand(ink, reduction, &self.lines)
    }
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
/// Skew and size of type are first looked for with a long side of at most this many pixels: the 4 pixels
/// of the smallest x-height are then a line of type to 9 pixels, 120 lines to the page.
const COARSE: usize = 1100;
/// The level worked on has a main x-height of at most this, in pixels.
const LARGEST_X_HEIGHT: f64 = 14.0;
/// See [`is_print`]. On real sides 99 percent of true lines have 0.2 or more, most over 0.35; grain
/// and show-through mostly under 0.2.
const PRINT_CONTRAST: f64 = 0.22;
/// Lines at least this long, in x-heights, show how wide the spaces of a side are.
const WORDY: f64 = 10.0;
/// So many sizes of type are looked for on a side.
const SIZES: usize = 6;

/// Finds the lines of type and what is not type.
///
/// `ink` is darkness as [`crate::ink()`] gives it, of the photograph halved any number of times;
/// `reduction` is how many pixels of the photograph one of its pixels stands for, along a side. The
/// side must stand within 45 degrees of upright.
pub fn layout(ink: &Plane<u8>, reduction: f64) -> Layout {
    let given = reduction;
    let Working { level, reduction, pieces, fall, x_height, is_sure } = match working_level(ink, reduction) {
        Ok(found) => found,
        Err(Bare { level, reduction, pieces, fall }) => {
            return Layout {
                skew: Degrees(fall.atan().to_degrees()),
                lines: Vec::new(),
                not_type: Vec::new(),
                cuts: cuts::only(&level, &pieces, fall).iter().map(|c| c.scaled(reduction)).collect(),
                x_height: None,
                line_pitch: None,
            };
        }
    };
    let strips = border::strips(&level, &pieces, x_height, fall);
    let (level, pieces) = without(level, pieces, &strips, fall);
    let level = &level;
    let (lines, mut free) = all_lines(level, &pieces, x_height, fall);
    let mut lines = mend::mended(level, lines, fall);
    let found = lines.len();
    lines.retain(|l| !ornament::is_scroll(l, x_height));
    if lines.len() < found {
        // What stood on them is no type.
        free.fill(true);
        take(&pieces, &lines, &mut free);
    }
    let lines = if is_print(&lines) { lines } else { Vec::new() };
    let (mut lines, rough) = patches::parted(&pieces, x_height, &free, lines);
    // What stood on lines that were strokes of a cut is free again.
    free.fill(true);
    take(&pieces, &lines, &mut free);
    let side = cuts::Side { level, pieces: &pieces, x_height, fall, lines: &lines };
    let mut cuts = cuts::cuts(&side, &free);
    let rough = strips.iter().map(|s| s.patch(fall)).chain(rough).collect::<Vec<_>>();
    let order = columns::reading_order(&lines);
    let times = reduction / given;
    for l in &mut lines {
        l.stretches = stretches::measured(ink, times, &l.line, l.slant);
    }
    let mut length = 0.0;
    let mut spaces: Vec<f64> = Vec::new();
    for l in lines.iter().filter(|l| l.line.width() >= WORDY * l.line.x_height) {
        length += l.line.width() / l.line.x_height;
        spaces.extend(l.stretches.windows(2).map(|p| (p[1].from - p[0].to) / l.line.x_height));
    }
    let parting = words::parting(&spaces, length);
    let mut out: Vec<Line> = order.iter().map(|&i| line(&lines[i], parting, reduction)).collect();
    let legibility = text::legibility(&out);
    if !is_sure && legibility < text::LEGIBLE {
        out.clear();
    }
    if legibility <= 0.0
        && let Some(only) = cuts::only(level, &pieces, fall)
    {
        cuts = vec![only];
    }
    let fitted: Vec<&fit::Fitted> = lines.iter().map(|l| &l.line).collect();
    let text = text::x_height(&out).map(|x| x.0 / reduction);
    let pitch = text.and_then(|text| pitch::line_pitch(&fitted, text, fall));
    Layout {
        skew: Degrees(fall.atan().to_degrees()),
        x_height: text.map(|x| Px(x * reduction)),
        line_pitch: pitch.map(|p| Px(p * reduction)),
        cuts: cuts.iter().map(|c| c.scaled(reduction)).collect(),
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

/// The level that is worked on.
struct Working<'a> {
    level: Cow<'a, Plane<u8>>,
    reduction: f64,
    pieces: Pieces,
    /// Rows its lines fall for every column.
    fall: f64,
    /// The main x-height, in its pixels.
    x_height: f64,
    /// Whether the ink falls into bands of that height better than into lower ones.
    is_sure: bool,
}

/// A level without type.
struct Bare<'a> {
    level: Cow<'a, Plane<u8>>,
    reduction: f64,
    pieces: Pieces,
    fall: f64,
}

/// Halves the ink until the type is small enough to be quick. `Err` when there is no type.
fn working_level<'a>(ink: &'a Plane<u8>, reduction: f64) -> Result<Working<'a>, Bare<'a>> {
    let mut levels: Vec<Cow<'_, Plane<u8>>> = vec![Cow::Borrowed(ink)];
    while levels[levels.len() - 1].width().max(levels[levels.len() - 1].height()) > COARSE {
        levels.push(Cow::Owned(levels[levels.len() - 1].halved()));
    }
    let mut level = levels.len() - 1;
    let mut pieces = runs::pieces(&levels[level], DARK);
    let (w, h) = (pieces.width as f64, pieces.height as f64);
    let small = |c: &runs::Component| c.height() < h / 10.0 && c.width() < w / 3.0;
    let projection = skew::Projection::of(&pieces, |i| small(&pieces.parts[i]));
    let fall = projection.sharpest().radians().tan();
    let bare = |mut levels: Vec<Cow<'a, Plane<u8>>>, level: usize, pieces| {
        let reduction = reduction * f64::from(1u32 << level);
        Bare { level: levels.swap_remove(level), reduction, pieces, fall }
    };
    let Some(mut size) = size::main_size(&pieces, fall, size::SMALLEST..=h / 12.0) else {
        return Err(bare(levels, level, pieces));
    };
    // The finest level whose type is not larger than need be.
    while level > 0 && size * 2.0 <= LARGEST_X_HEIGHT {
        level -= 1;
        size *= 2.0;
    }
    let mut is_sure = true;
    if level + 1 < levels.len() {
        pieces = runs::pieces(&levels[level], DARK);
        let least = 0.8 * size;
        let Some(found) = size::main_size(&pieces, fall, least..=size * 1.3) else {
            return Err(bare(levels, level, pieces));
        };
        size = found;
        // Type weighs most at its own size; grain, and lines that run up the side, the more the smaller.
        is_sure = size > least;
    }
    let scale = reduction * f64::from(1u32 << level);
    Ok(Working { level: levels.swap_remove(level), reduction: scale, pieces, fall, x_height: size, is_sure })
}

/// The level without strips of ornament, and its pieces.
fn without<'a>(
    level: Cow<'a, Plane<u8>>,
    pieces: Pieces,
    strips: &[border::Strip],
    fall: f64,
) -> (Cow<'a, Plane<u8>>, Pieces) {
    if strips.is_empty() {
        return (level, pieces);
    }
    let mut bare = level.into_owned();
    for strip in strips {
        strip.clear(&mut bare, fall);
    }
    let pieces = runs::pieces(&bare, DARK);
    (Cow::Owned(bare), pieces)
}

/// The lines of every size of type, each taking its components away: display lines first, then from the
/// size in which most of the ink falls into bands to the one with least. And the components that are left.
fn all_lines(level: &Plane<u8>, pieces: &Pieces, main: f64, fall: f64) -> (Vec<Inked>, Vec<bool>) {
    let mut free = vec![true; pieces.parts.len()];
    let proof = proof::Proof::of(pieces, main);
    let mut lines: Vec<Inked> = Vec::new();
    let chains = chain::chains(pieces, main, fall);
    let display = chains.iter().filter_map(|c| inked(level, &c.track, c.x_height, c.fall, 0)).collect();
    accept(display, &proof, pieces, &mut free, &mut lines);
    let mut tried: Vec<f64> = Vec::new();
    let mut size = Some(main);
    while let Some(x_height) = size {
        let suits = |i: usize| free[i] && size::suits(&pieces.parts[i], x_height);
        let grid = ridge::Grid::of(pieces, x_height, fall, ridge::Fineness::Trace, suits);
        let crests = grid.crests(size::FAINTEST);
        let found: Vec<Inked> = trace::tracks(&grid, &crests, x_height, fall)
            .iter()
            .filter_map(|track| inked(level, track, x_height, fall, tried.len() + 1))
            .collect();
        accept(columns::parted(found), &proof, pieces, &mut free, &mut lines);
        tried.push(x_height);
        if tried.len() == SIZES {
            break;
        }
        size = size::next_size(pieces, main, &tried, &free);
    }
    (lines, free)
}

/// Whether the lines of a side stand out as print does, rather than as grain and show-through: half of
/// their length has this contrast.
fn is_print(lines: &[Inked]) -> bool {
    let all: f64 = lines.iter().map(|l| l.line.width()).sum();
    let clear: f64 = lines.iter().filter(|l| l.line.contrast >= PRINT_CONTRAST).map(|l| l.line.width()).sum();
    clear >= 0.5 * all
}

/// A track with its edges and its inked stretches.
fn inked(level: &Plane<u8>, track: &trace::Track, x_height: f64, fall: f64, pass: usize) -> Option<Inked> {
    let line = fit::fit(level, track, x_height, fall)?;
    let (left, right) = (line.left - 0.5 * x_height, line.right + 0.5 * x_height);
    let (slant, stretches) = stretches::inked(level, &line, left, right);
    Some(Inked { line, slant, stretches, pass, cut: false })
}

/// Keeps the lines that are type and lie on no line kept before, and takes their components away.
fn accept(
    found: Vec<Inked>,
    proof: &proof::Proof<'_>,
    pieces: &Pieces,
    free: &mut [bool],
    lines: &mut Vec<Inked>,
) {
    let kept: Vec<Inked> = found
        .into_iter()
        .filter(|l| {
            proof.is_type(&l.line)
                && !ornament::is_ornament(l, proof.main())
                && !lines.iter().any(|o| l.line.lies_on(&o.line))
        })
        .collect();
    take(pieces, &kept, free);
    lines.extend(kept);
}

/// Takes the components of lines away from those that are free: letters that stand in the band, and
/// what is small and lies about it (points, accents, broken pieces, tails).
fn take(pieces: &Pieces, lines: &[Inked], free: &mut [bool]) {
    for (part, c) in
        pieces.parts.iter().enumerate().filter(|(i, _)| free[*i]).map(|(i, c)| (i, *c)).collect::<Vec<_>>()
    {
        let (x, y) = c.middle();
        let on = |l: &Inked| {
            let (l, h) = (&l.line, l.line.x_height);
            if x <= l.left - 0.5 * h || x >= l.right + 0.5 * h {
                return false;
            }
            let base = l.baseline(x);
            let shared = f64::from(c.bottom).min(base) - f64::from(c.top).max(base - h);
            let stands = size::suits(&c, h) && shared >= 0.4 * c.height().min(h);
            stands
                || c.height() <= 1.5 * h && c.width() <= 4.0 * h && y > base - 1.9 * h && y < base + 0.8 * h
        };
        if lines.iter().any(on) {
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
        words: words::words(&l.stretches, h, parting)
            .iter()
            .map(|w| Word { bounds: bounds(w.from, w.to) })
            .collect(),
    }
}
