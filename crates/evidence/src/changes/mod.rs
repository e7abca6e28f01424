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

use score::Signs;
use word::WordDifference;

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
    /// It stands as it stood.
    pub(crate) stands: bool,
    /// It is spaced otherwise: its words' ink is compared, their places are not.
    pub(crate) is_reset: bool,
    pub(crate) x_height: f64,
    pub(crate) words: Vec<WordAtHand>,
}

/// The places that differ: those that move the verdict, and those that are doubtful.
#[derive(Debug, Clone, Default)]
pub(crate) struct Judged {
    pub(crate) sure: Vec<Change>,
    pub(crate) doubtful: Vec<Change>,
    /// Line by line, how like its words are against the lines that stand.
    pub(crate) likeness: Vec<Option<f64>>,
}

/// Score from which a place moves the verdict.
pub(crate) const SURE: f64 = 0.5;
/// Score below which a place is not worth a look.
const WORTH_A_LOOK: f64 = 0.1;

/// Judges every word of every line that stands, then the second photograph's words that have no
/// counterpart.
pub(crate) fn judge(a: &Reading, b: &Reading, laid: &Laid, lines: &[LineOfWords], x_height: f64) -> Judged {
    let usual = usual(a, b, laid, lines);
    let mut found: Vec<Change> = signs(&usual, lines)
        .into_iter()
        .filter_map(|(line, signs)| {
            let (class, score) = signs.judge();
            let place = signs.place_of(class);
            (score >= WORTH_A_LOOK).then(|| Change {
                class,
                score: (score * 1000.0).round() / 1000.0,
                box_a_px: box_px(place),
                box_b_px: box_px(on_b(laid, place)),
                line: Some(line + 1),
            })
        })
        .collect();
    found.extend(added(a, b, laid, x_height));
    let (sure, doubtful) = found.into_iter().partition(|c| c.score >= SURE && c.class.moves_the_verdict());
    Judged { sure: joined(sure), doubtful, likeness: likeness_of_lines(&usual) }
}

/// What was seen of every word of the lines that stand, with the number of its line from 0.
fn signs(usual: &Usual, lines: &[LineOfWords]) -> Vec<(usize, Signs)> {
    let mut out = Vec::new();
    for (i, line) in lines.iter().enumerate().filter(|(_, l)| l.stands || l.is_reset) {
        for (k, word) in line.words.iter().enumerate() {
            if let Some(d) = &usual.differences[i][k] {
                let drift = if line.stands { word.drift_along } else { None };
                let word = WordAtHand { drift_along: drift, ..*word };
                out.push((i, Signs::of(&word, d, usual.around(lines, i, k), line.x_height)));
            }
        }
    }
    out
}

/// What is usual on these two photographs.
struct Usual {
    differences: Vec<Vec<Option<WordDifference>>>,
    likeness: f64,
    least_part: f64,
    noise: f64,
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
                    word::difference(&a.ink, &b.ink, laid, around, &found, l.x_height)
                })
                .collect()
        })
        .collect();
    let standing: Vec<&WordDifference> = differences
        .iter()
        .zip(lines)
        .filter(|(_, l)| l.stands)
        .flat_map(|(d, _)| d.iter().flatten())
        .collect();
    let quantile = |share: f64, pick: fn(&WordDifference) -> f64| {
        let mut values: Vec<f64> = standing.iter().map(|d| pick(d)).collect();
        values.sort_by(f64::total_cmp);
        values.get((values.len().saturating_sub(1) as f64 * share) as usize).copied().unwrap_or(0.0)
    };
    Usual {
        likeness: quantile(0.5, |d| d.likeness),
        least_part: quantile(0.5, |d| d.least_part),
        noise: quantile(NOISE_SHARE, |d| d.lost.max(d.gained)),
        ink_ratio: quantile(0.5, ink_ratio),
        differences,
    }
}

/// What three words in four stay below is noise of ink and lens; changes are rarer than one in four.
const NOISE_SHARE: f64 = 0.75;

/// How like the words of each line are, laid on themselves, less what is usual in the lines that
/// stand: other pieces of type never print quite alike. `None` of a line without words to compare.
fn likeness_of_lines(usual: &Usual) -> Vec<Option<f64>> {
    usual
        .differences
        .iter()
        .map(|line| {
            let all: Vec<f64> = line.iter().flatten().map(|d| d.likeness).collect();
            (!all.is_empty()).then(|| crate::standing::median(all) - usual.likeness)
        })
        .collect()
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
    /// Median of the least likeness of a letter's breadth.
    pub(crate) least_part: f64,
    /// Differing ink below which three words in four stay, square x-heights.
    pub(crate) noise: f64,
    /// Median log ratio of ink among the near words, against the page's.
    pub(crate) ink_ratio: f64,
    /// The page's.
    pub(crate) page_ink_ratio: f64,
}

impl Usual {
    fn around(&self, lines: &[LineOfWords], i: usize, k: usize) -> Around {
        let (line, word) = (&lines[i], &lines[i].words[k]);
        let reach = word.bounds.grown(2.5 * line.x_height);
        let mut near = Vec::new();
        for (j, line) in lines.iter().enumerate().take(i + 3).skip(i.saturating_sub(2)) {
            for (m, other) in line.words.iter().enumerate() {
                if (j, m) != (i, k)
                    && reach.shared(other.bounds).is_some()
                    && let Some(d) = &self.differences[j][m]
                {
                    near.push(ink_ratio(d));
                }
            }
        }
        Around {
            likeness: self.likeness,
            least_part: self.least_part,
            noise: self.noise,
            ink_ratio: if near.is_empty() { self.ink_ratio } else { crate::standing::median(near) },
            page_ink_ratio: self.ink_ratio,
        }
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
