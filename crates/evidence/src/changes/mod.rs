//! The places that differ, word by word.

mod blobs;
mod score;
mod spread;
mod word;

use crate::reading::Reading;
use crate::record::{Change, ChangeClass, box_px};
use rayon::prelude::*;
use register::{Followed, Laid};
use sheet::Rect;

pub use score::Signs;
pub use word::WordDifference;

/// A word of the first photograph with what is known of it on the second.
#[derive(Debug, Clone, Copy)]
pub(crate) struct WordAtHand {
    pub(crate) bounds: Rect,
    pub(crate) found: Option<Followed>,
    pub(crate) is_found: bool,
    pub(crate) drift_along: Option<f64>,
    pub(crate) drift_sd: f64,
}

/// A line of words.
#[derive(Debug, Clone)]
pub(crate) struct LineOfWords {
    pub(crate) stands: bool,
    pub(crate) x_height: f64,
    pub(crate) words: Vec<WordAtHand>,
}

/// The places that differ: those that move the verdict, and those that are doubtful.
#[derive(Debug, Clone, Default)]
pub(crate) struct Judged {
    pub(crate) sure: Vec<Change>,
    pub(crate) doubtful: Vec<Change>,
}

/// Score from which a place moves the verdict.
pub(crate) const SURE: f64 = 0.5;
/// Score below which a place is not worth a look.
const WORTH_A_LOOK: f64 = 0.1;

/// Judges every word of every line that stands, then the second photograph's words that have no
/// counterpart.
pub(crate) fn judge(a: &Reading, b: &Reading, laid: &Laid, lines: &[LineOfWords], x_height: f64) -> Judged {
    let mut found: Vec<Change> = signs(a, b, laid, lines)
        .into_iter()
        .filter_map(|(line, signs)| {
            let (class, score) = signs.judge();
            (score >= WORTH_A_LOOK).then(|| Change {
                class,
                score: (score * 1000.0).round() / 1000.0,
                box_a_px: box_px(signs.place),
                box_b_px: box_px(on_b(laid, signs.place)),
                line: Some(line + 1),
            })
        })
        .collect();
    found.extend(added(a, b, laid, x_height));
    let (sure, doubtful) = found.into_iter().partition(|c| c.score >= SURE && c.class.moves_the_verdict());
    Judged { sure: joined(sure), doubtful }
}

/// What was seen of every word of the lines that stand, with the number of its line from 0.
pub(crate) fn signs(a: &Reading, b: &Reading, laid: &Laid, lines: &[LineOfWords]) -> Vec<(usize, Signs)> {
    let usual = usual(a, b, laid, lines);
    lines
        .iter()
        .enumerate()
        .filter(|(_, l)| l.stands)
        .flat_map(|(i, l)| {
            let usual = &usual;
            l.words.iter().enumerate().filter_map(move |(k, w)| {
                let d = usual.differences[i][k]?;
                Some((i, Signs::of(w, &d, usual.around(lines, i, k), l.x_height)))
            })
        })
        .collect()
}

/// What is usual on these two photographs.
struct Usual {
    differences: Vec<Vec<Option<WordDifference>>>,
    likeness: f64,
    /// Log ratio of the second's ink to the first's.
    ink_ratio: f64,
}

fn usual(a: &Reading, b: &Reading, laid: &Laid, lines: &[LineOfWords]) -> Usual {
    let differences: Vec<Vec<Option<WordDifference>>> = lines
        .par_iter()
        .map(|l| {
            l.words
                .iter()
                .map(|w| {
                    let found = w.found?;
                    // A word that was not found is laid where the paper puts it.
                    let paper = laid.map.paper.at(found.at).0;
                    let found = if w.is_found { found } else { Followed { shift: paper, ..found } };
                    let around = w.bounds.grown(0.15 * l.x_height);
                    l.stands
                        .then(|| word::difference(&a.ink, &b.ink, laid, around, &found, l.x_height))
                        .flatten()
                })
                .collect()
        })
        .collect();
    let all: Vec<&WordDifference> = differences.iter().flatten().flatten().collect();
    let middle =
        |pick: fn(&WordDifference) -> f64| crate::standing::median(all.iter().map(|d| pick(d)).collect());
    Usual { likeness: middle(|d| d.likeness), ink_ratio: middle(ink_ratio), differences }
}

fn ink_ratio(d: &WordDifference) -> f64 {
    // A little is added to both, so that a word gone altogether gives a large number and no endless one.
    ((d.ink[1] + 0.05) / (d.ink[0] + 0.05)).ln()
}

/// The words about one word, itself left out.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Around {
    /// Median likeness of the page's words.
    pub(crate) likeness: f64,
    /// Median log ratio of ink among the near words, against the page's.
    pub(crate) ink_ratio: f64,
    /// The page's.
    pub(crate) page_ink_ratio: f64,
}

impl Usual {
    fn around(&self, lines: &[LineOfWords], i: usize, k: usize) -> Around {
        let Some(w) = lines.get(i).and_then(|l| l.words.get(k)) else {
            return Around {
                likeness: self.likeness,
                ink_ratio: self.ink_ratio,
                page_ink_ratio: self.ink_ratio,
            };
        };
        let reach = w.bounds.grown(2.5 * lines[i].x_height);
        let mut near = Vec::new();
        for j in i.saturating_sub(2)..(i + 3).min(lines.len()) {
            for (m, other) in lines[j].words.iter().enumerate() {
                if (j, m) != (i, k)
                    && reach.shared(other.bounds).is_some()
                    && let Some(d) = &self.differences[j][m]
                {
                    near.push(ink_ratio(d));
                }
            }
        }
        let ink_ratio = if near.is_empty() { self.ink_ratio } else { crate::standing::median(near) };
        Around { likeness: self.likeness, ink_ratio, page_ink_ratio: self.ink_ratio }
    }
}

/// Words of the second photograph that fall where the first has no print.
fn added(a: &Reading, b: &Reading, laid: &Laid, x_height: f64) -> Vec<Change> {
    let level = a.ink.level_within(2000);
    let plane = a.ink.level(level);
    let unit = a.ink.full().width() as f64 / plane.width() as f64;
    b.layout
        .lines
        .iter()
        .flat_map(|l| &l.words)
        .filter_map(|w| {
            let corners: Option<Vec<_>> = w.bounds.corners().into_iter().map(|p| laid.map.to_a(p)).collect();
            let there = Rect::around(corners?)?;
            let inside = there.x >= 0.0
                && there.y >= 0.0
                && there.right() < a.ink.full().width() as f64
                && there.bottom() < a.ink.full().height() as f64;
            let on_page = a.page.shared(there).is_some_and(|s| s.area() > 0.9 * there.area());
            if !inside || !on_page {
                return None;
            }
            let taken = a
                .layout
                .lines
                .iter()
                .flat_map(|l| &l.words)
                .any(|v| v.bounds.grown(0.3 * x_height).shared(there).is_some());
            let bare = ink_share(plane, there.scaled(1.0 / unit)) < 0.01;
            (!taken && bare).then(|| Change {
                class: ChangeClass::SortAdded,
                // A blot or a note in ink looks the same: seen, but not sure.
                score: 0.45,
                box_a_px: box_px(there),
                box_b_px: box_px(w.bounds),
                line: None,
            })
        })
        .collect()
}

fn ink_share(plane: &sheet::Plane<u8>, r: Rect) -> f64 {
    let (x0, y0) = (r.x.max(0.0) as usize, r.y.max(0.0) as usize);
    let (x1, y1) = (
        (r.right().max(0.0) as usize).min(plane.width()),
        (r.bottom().max(0.0) as usize).min(plane.height()),
    );
    if x1 <= x0 || y1 <= y0 {
        return 0.0;
    }
    let dark = (y0..y1).flat_map(|y| &plane.row(y)[x0..x1]).filter(|&&v| v > 90).count();
    dark as f64 / ((x1 - x0) * (y1 - y0)) as f64
}

fn on_b(laid: &Laid, r: Rect) -> Rect {
    Rect::around(r.corners().map(|p| laid.map.to_b(p))).unwrap_or(r)
}

/// Neighbouring moved words of one line become one place.
fn joined(changes: Vec<Change>) -> Vec<Change> {
    let mut out: Vec<Change> = Vec::new();
    for c in changes {
        if let Some(last) = out.last_mut()
            && last.class == ChangeClass::SortMoved
            && c.class == ChangeClass::SortMoved
            && last.line == c.line
        {
            last.box_a_px = united(last.box_a_px, c.box_a_px);
            last.box_b_px = united(last.box_b_px, c.box_b_px);
            last.score = last.score.max(c.score);
            continue;
        }
        out.push(c);
    }
    out
}

fn united(p: [f64; 4], q: [f64; 4]) -> [f64; 4] {
    box_px(Rect::new(p[0], p[1], p[2], p[3]).united(Rect::new(q[0], q[1], q[2], q[3])))
}
