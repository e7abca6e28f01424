//! The letters of a word, one by one: how like each is to itself on the other impression, and where it stands.

mod case;
mod leaning;
mod off_line;
mod shape;
mod usual;
mod wanted;

use crate::blobs::blobs;
use sheet::{Plane, Point, Rect};

pub(super) use case::{Case, Kinship};
use leaning::{ITSELF, Leant, leant};
pub use off_line::LetterSigns;
use shape::Shape;
pub(super) use usual::Usual;
use wanted::{Ground, Wanted};

/// One letter (or ligature, or part of one) of the first impression, looked for about its place on the second.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Letter {
    /// Its box; samples of the planes it was looked at in, or pixels of the first photograph.
    pub(crate) bounds: Rect,
    /// Correlation where the word puts it.
    here: f64,
    /// Correlation where it fits best.
    best: f64,
    /// How far off that is, right and down, in x-heights.
    off: [f64; 2],
    /// Logarithm of the ink in its box on the second over that on the first.
    ink: f64,
    /// What stands there on the first.
    first: Shape,
    /// What stands there on the second, if anything does.
    second: Option<Shape>,
    /// Its box with a little about it on the first, and the same box on the second.
    patches: [Shape; 2],
    /// Share of its ink on the first that the second lacks where it fits best, and the other way about.
    astray: [f64; 2],
    /// How it fits best leant over, if it was asked.
    leant: Option<Leant>,
}

impl Letter {
    /// Correlation where it fits best.
    pub(super) fn likeness(&self) -> f64 {
        self.best
    }

    /// How much liker itself it is there than where the word puts it.
    pub(super) fn gain(&self) -> f64 {
        self.best - self.here
    }

    /// How far off that is, right and down, in x-heights.
    pub(super) fn off(&self) -> [f64; 2] {
        self.off
    }

    /// Share of its ink on the first that the second lacks where it fits best, and the other way about.
    pub(super) fn astray(&self) -> [f64; 2] {
        self.astray
    }

    /// Likeness of what stands on the first and on the second, each in its own box or in the first's, whichever is
    /// more.
    pub(super) fn cross(&self) -> f64 {
        self.second.as_ref().map_or(self.best, |s| s.likeness(&self.first).max(self.best))
    }

    /// How much liker itself it is leant over than upright; 0 of a letter that was not asked.
    pub(super) fn lean_gain(&self) -> f64 {
        self.leant.map_or(0.0, |l| l.likeness - self.best)
    }

    /// Likeness of what stands on the second to the first turned half round.
    pub(super) fn turned(&self) -> f64 {
        self.second.as_ref().map_or(0.0, |s| s.turned().likeness(&self.first))
    }

    /// The letter with its box in pixels: samples of `unit` pixels, counted from `origin`.
    pub(super) fn placed(self, unit: f64, origin: Point) -> Self {
        Self { bounds: self.bounds.scaled(unit).moved(origin), ..self }
    }
}

/// Ink of a letter, of 255; on a pale plane this share of its solid ink, never less than the second.
const INKED: u8 = 80;
const SHARE_INKED: f32 = 0.4;
const LEAST_INKED: u8 = 40;
/// Pieces of one letter are no farther apart up and down, and overlap by no more, in x-heights.
const ONE_LETTER: f64 = 0.7;
const TOUCHING: f64 = 0.15;
/// Smaller boxes are specks, square x-heights: a point fills about 0.06.
const SPECK: f64 = 0.02;
/// Letters to the left that a piece may belong to.
const NEAR_PIECES: usize = 4;
/// Least height of a letter, and the breadth from which a piece is two that touch, in x-heights.
const LEAST_HEIGHT: f64 = 0.6;
const BROADEST: f64 = 1.5;
/// How far a letter is looked for, in x-heights: a sort stands off its line by less.
const REACH: f64 = 0.36;
/// Correlation from which a letter stands where the word puts it, and is not looked for elsewhere.
const SETTLED: f64 = 0.95;
/// How much about a letter is looked at with it, in x-heights.
const ABOUT_A_PATCH: f64 = 0.08;
/// A little ink, so that none has a logarithm: the sum of samples of 255.
const LITTLE: f64 = 100.0;

/// The letters of a word whose two planes, with the pieces on each, lie on each other; `gains` bring their solid ink
/// to one darkness, `detail` is in samples to the x-height.
pub(super) fn letters(
    planes: [&Plane<u8>; 2],
    pieces: &[Vec<Pieced>; 2],
    gains: [f32; 2],
    detail: f64,
) -> Vec<Letter> {
    let reach = (REACH * detail).round() as isize;
    let [ours, theirs] = [0, 1].map(|side| boxes(&pieces[side], detail));
    let ground = Ground::of(planes[1]);
    ours.into_iter().filter_map(|r| letter(planes, &ground, gains, r, &theirs, detail, reach)).collect()
}

/// A box in samples: left, top, right, foot; the ends beyond.
pub(super) type Span = [usize; 4];

/// The boxes of all letters, left to right.
fn boxes(pieces: &[Pieced], detail: f64) -> Vec<Span> {
    let mut boxes: Vec<Span> = pieces
        .iter()
        .map(|p| p.span)
        .filter(|[_, y0, _, y1]| (y1 - y0) as f64 >= LEAST_HEIGHT * detail)
        .flat_map(|[x0, y0, x1, y1]| {
            let count = ((x1 - x0) as f64 / (BROADEST * detail)).ceil().max(1.0) as usize;
            let edge = move |k: usize| x0 + (x1 - x0) * k / count;
            (0..count).map(move |k| [edge(k), y0, edge(k + 1), y1])
        })
        .collect();
    boxes.sort_unstable();
    boxes
}

/// A letter or a point of an impression, as it is cut out.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Sign {
    /// Its box; samples, or pixels of the first photograph.
    pub(crate) bounds: Rect,
    pub(crate) shape: Shape,
    /// The parts of a point of several, as a colon is of two; none of a letter.
    pub(crate) parts: Vec<Shape>,
}

impl Sign {
    /// Best likeness to any of `others`; of a point of several parts that of its least like part, if that is more: a
    /// semicolon may be the only one of a page, but there are commas.
    pub(crate) fn best_likeness<'s>(&self, others: &(impl Iterator<Item = &'s Self> + Clone)) -> f64 {
        let whole = others.clone().map(|o| o.shape.likeness(&self.shape)).fold(-1.0, f64::max);
        let of_part = |part: &Shape| {
            let all = others.clone().flat_map(|o| o.parts.iter().chain([&o.shape]));
            all.map(|o| o.likeness(part)).fold(-1.0, f64::max)
        };
        self.parts.iter().map(of_part).reduce(f64::min).map_or(whole, |least| least.max(whole))
    }

    /// The sign with its box in pixels: samples of `unit` pixels, counted from `origin`.
    pub(super) fn placed(self, unit: f64, origin: Point) -> Self {
        Self { bounds: self.bounds.scaled(unit).moved(origin), ..self }
    }
}

/// All letters and points of a plane, from its pieces; boxes in samples.
pub(super) fn signs(plane: &Plane<u8>, pieces: &[Pieced], detail: f64) -> Vec<Sign> {
    let is_low = |[_, y0, _, y1]: &Span| ((y1 - y0) as f64) < LEAST_HEIGHT * detail;
    let is_speck = |[x0, y0, x1, y1]: &Span| (((x1 - x0) * (y1 - y0)) as f64) < SPECK * detail * detail;
    let all = pieces.iter().filter(|p| !is_speck(&p.span));
    all.map(|p| {
        let [x0, y0, x1, y1] = p.span.map(|v| v as f64);
        let is_point = p.pieces.len() > 1 && p.pieces.iter().all(is_low);
        let pieces = p.pieces.iter().filter(|s| is_point && !is_speck(s));
        Sign {
            bounds: Rect::new(x0, y0, x1 - x0, y1 - y0),
            shape: Shape::cut(plane, p.span),
            parts: pieces.map(|&s| Shape::cut(plane, s)).collect(),
        }
    })
    .collect()
}

/// The boxes of the letters of a plane, in samples; `detail` is in samples to the x-height.
pub(crate) fn letter_boxes(plane: &Plane<u8>, detail: f64) -> Vec<Rect> {
    let whole = |[x0, y0, x1, y1]: Span| {
        let [x, y, right, foot] = [x0, y0, x1, y1].map(|v| v as f64);
        Rect::new(x, y, right - x, foot - y)
    };
    boxes(&pieced(plane, detail), detail).into_iter().map(whole).collect()
}

/// A letter or a point, and the pieces it is of.
pub(super) struct Pieced {
    span: Span,
    pieces: Vec<Span>,
}

/// All letters and points: pieces that stand over one another are one (an i and its point, a pale letter that broke).
pub(super) fn pieced(plane: &Plane<u8>, detail: f64) -> Vec<Pieced> {
    let mut all: Vec<Pieced> = Vec::new();
    let mut pieces: Vec<Span> = blobs(plane, inked(plane))
        .all
        .iter()
        .map(|b| b.bounds)
        .filter(|&[x0, y0, x1, y1]| {
            let is_low = ((y1 - y0) as f64) < LEAST_HEIGHT * detail;
            // What is cut by the side of the plane is a neighbour's, and seen whole there; what hangs in from above
            // or below is another line's.
            x0 > 0 && x1 < plane.width() && !(is_low && (y0 == 0 || y1 == plane.height()))
        })
        .collect();
    pieces.sort_unstable();
    for piece in pieces {
        match all.iter_mut().rev().take(NEAR_PIECES).find(|p| stand_over(&p.span, &piece, detail)) {
            Some(p) => {
                let l = p.span;
                p.span = [l[0].min(piece[0]), l[1].min(piece[1]), l[2].max(piece[2]), l[3].max(piece[3])];
                p.pieces.push(piece);
            }
            None => all.push(Pieced { span: piece, pieces: vec![piece] }),
        }
    }
    all
}

/// Whether two pieces stand over one another: beside each other they would be two letters.
fn stand_over(p: &Span, q: &Span, detail: f64) -> bool {
    let shared = |m: usize, n: usize, o: usize, r: usize| n.min(r) as f64 - m.max(o) as f64;
    let across = shared(p[0], p[2], q[0], q[2]);
    let narrower = (p[2] - p[0]).min(q[2] - q[0]) as f64;
    let down = shared(p[1], p[3], q[1], q[3]);
    across >= 0.5 * narrower && (-ONE_LETTER * detail..TOUCHING * detail).contains(&down)
}

/// Ink of a letter on a plane: less on a pale one.
fn inked(plane: &Plane<u8>) -> u8 {
    let solid = crate::changes::word::solid(plane);
    (SHARE_INKED * solid).clamp(f32::from(LEAST_INKED), f32::from(INKED)) as u8
}

fn letter(
    [a, b]: [&Plane<u8>; 2],
    ground: &Ground,
    gains: [f32; 2],
    span: Span,
    theirs: &[Span],
    detail: f64,
    reach: isize,
) -> Option<Letter> {
    let wanted = Wanted::new(a, span)?;
    let (here, there) = wanted.at(ground, 0, 0)?;
    let (best, step) = if here < SETTLED { wanted.best(ground, here, reach) } else { (here, (0, 0)) };
    let leant = (best < ITSELF).then(|| leant(&wanted, b, step, best)).flatten();
    let shared = |s: &Span| {
        span[2].min(s[2]).saturating_sub(span[0].max(s[0]))
            * span[3].min(s[3]).saturating_sub(span[1].max(s[1]))
    };
    let second = theirs.iter().filter(|s| shared(s) > 0).max_by_key(|s| shared(s));
    let about = (ABOUT_A_PATCH * detail).round().max(1.0) as usize;
    let patch = [
        span[0].saturating_sub(about),
        span[1].saturating_sub(about),
        (span[2] + about).min(a.width()),
        (span[3] + about).min(a.height()),
    ];
    let [x0, y0, x1, y1] = span.map(|v| v as f64);
    Some(Letter {
        bounds: Rect::new(x0, y0, x1 - x0, y1 - y0),
        here,
        best,
        off: [step.0 as f64 / detail, step.1 as f64 / detail],
        ink: ((there + LITTLE) / (wanted.sum + LITTLE)).ln(),
        first: Shape::cut(a, span),
        second: second.map(|&s| Shape::cut(b, s)),
        patches: [a, b].map(|p| Shape::cut(p, patch)),
        astray: astray([a, b], gains, span, step),
        leant,
    })
}

/// Shares of the ink of a box that stand on the first only, and on the second only, `step` off.
fn astray(
    [a, b]: [&Plane<u8>; 2],
    gains: [f32; 2],
    [x0, y0, x1, y1]: Span,
    step: (isize, isize),
) -> [f64; 2] {
    let (mut all, mut only) = ([0.0f64; 2], [0.0f64; 2]);
    for y in y0..y1 {
        let other = y.checked_add_signed(step.1).filter(|&y| y < b.height());
        for x in x0..x1 {
            let v = f64::from(f32::from(a.row(y)[x]) * gains[0]);
            let at = other.zip(x.checked_add_signed(step.0).filter(|&x| x < b.width()));
            let u = at.map_or(0.0, |(y, x)| f64::from(f32::from(b.row(y)[x]) * gains[1]));
            all[0] += v;
            all[1] += u;
            only[0] += (v - u).max(0.0);
            only[1] += (u - v).max(0.0);
        }
    }
    [0, 1].map(|k| only[k] / (all[k] + LITTLE))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The letters of two planes that are as dark as each other.
    pub(super) fn letters_of(a: &Plane<u8>, b: &Plane<u8>, detail: f64) -> Vec<Letter> {
        letters([a, b], &[a, b].map(|p| pieced(p, detail)), [1.0; 2], detail)
    }

    /// A plane with three letters: two posts and a ring, ten samples high.
    fn word(ring_down: usize) -> Plane<u8> {
        let mut p = Plane::filled(60, 30, 0u8);
        for y in 10..20 {
            for x in [5, 6, 7, 45, 46, 47] {
                p.row_mut(y)[x] = 255;
            }
        }
        for y in 10..20 {
            for x in 20..30 {
                let edge = !(12..18).contains(&y) || !(22..28).contains(&x);
                p.row_mut(y + ring_down)[x] = if edge { 255 } else { 0 };
            }
        }
        p
    }

    #[test]
    fn a_letter_that_stands_lower_is_found_lower() {
        let all = letters_of(&word(0), &word(3), 10.0);
        assert_eq!(all.len(), 3);
        assert!((all[1].off[1] - 0.3).abs() < 1e-9 && all[1].off[0].abs() < 1e-9, "{:?}", all[1].off);
        assert!(all[1].best > 0.99 && all[1].here < 0.7);
        assert!(all[0].here > 0.99 && all[2].here > 0.99);
    }

    #[test]
    fn nothing_is_like_paper() {
        let all = letters_of(&word(0), &Plane::filled(60, 30, 0u8), 10.0);
        assert!(all.iter().all(|l| l.best < 0.1 && l.second.is_none() && l.ink < -2.0));
    }

    /// A point, round as the lens makes it.
    const ROUND: [[u8; 3]; 3] = [[120, 200, 120], [200, 255, 200], [120, 200, 120]];

    #[test]
    fn a_colon_is_one_sign_of_two_parts_and_an_i_is_a_letter() {
        let mut p = Plane::filled(40, 30, 0u8);
        for (x, y) in [(6, 10), (6, 17), (20, 4)] {
            (0..3).for_each(|k| p.row_mut(y + k)[x..x + 3].copy_from_slice(&ROUND[k]));
        }
        (10..20).for_each(|y| p.row_mut(y)[20..23].fill(255));
        let all = signs(&p, &pieced(&p, 10.0), 10.0);
        assert_eq!(all.len(), 2, "{all:?}");
        assert_eq!((all[0].parts.len(), all[1].parts.len()), (2, 0));
        assert!((all[0].bounds.h - 10.0).abs() < 1e-9 && (all[1].bounds.h - 16.0).abs() < 1e-9);
        // A full point is like either part of the colon, though no colon is like it.
        let mut point = Plane::filled(20, 30, 0u8);
        (17..20).for_each(|y| point.row_mut(y)[6..9].copy_from_slice(&ROUND[y - 17]));
        let point = signs(&point, &pieced(&point, 10.0), 10.0);
        assert!(all[0].best_likeness(&point.iter()) > 0.95);
        assert!(all[1].best_likeness(&point.iter()) < 0.0);
    }
}
