//! The places that differ, word by word.

mod around;
mod blobs;
mod letters;
mod moved;
mod score;
mod spread;
mod word;

use crate::reading::Reading;
use crate::record::{Change, ChangeClass, box_px};
use rayon::prelude::*;
use register::{Followed, Laid};
use sheet::{Point, Rect};

use around::InkGrid;
use letters::{Letter, Usual};
use score::Signs;
pub(crate) use score::logistic;
use word::WordDifference;

/// A word of the first photograph with what is known of it on the second.
#[derive(Debug, Clone, Copy)]
pub(crate) struct WordAtHand {
    pub(crate) bounds: Rect,
    pub(crate) found: Option<Followed>,
    pub(crate) is_found: bool,
    /// A crease runs through it.
    pub(crate) astride: bool,
    pub(crate) drift_along: Option<f64>,
    pub(crate) drift_sd: f64,
}

impl WordAtHand {
    /// Where it was found, if in one place: one that was not is laid where the paper puts it.
    fn placed(&self) -> Option<Followed> {
        self.found.filter(|_| self.is_found && !self.astride)
    }

    /// Its displacement by itself against the paper's, pixels of the first.
    fn own_shift(&self, laid: &Laid) -> Point {
        self.placed().map_or(Point::new(0.0, 0.0), |f| f.shift - laid.map.paper.at(f.at).0)
    }
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
    let page = PageOfWords::of(a, b, laid, lines, x_height);
    let alike: Vec<&Letter> = standing(&page.differences, lines).flat_map(|d| &d.letters).collect();
    let mut found: Vec<Change> = Vec::new();
    for (i, line) in lines.iter().enumerate().filter(|(_, l)| l.stands || l.is_reset) {
        for (k, (word, difference)) in line.words.iter().zip(&page.differences[i]).enumerate() {
            let Some(difference) = difference else { continue };
            let own = word.own_shift(laid);
            let change = |(class, score): (ChangeClass, f64), place: Rect| {
                (score >= WORTH_A_LOOK).then(|| in_line(i, class, score, place, own, laid))
            };
            let moved = line.stands.then(|| moved::moved(line, k, a, b, laid)).flatten();
            if let Some(moved) = moved {
                found.extend(change(moved, word.bounds));
                if moved.1 >= SURE {
                    continue;
                }
            }
            for place in &difference.places {
                let signs = Signs::of(place, difference, &page, line.x_height);
                let grown = place.bounds.grown(0.15 * line.x_height);
                found.extend(change(signs.judge(), grown));
            }
            let Some(usual) = page.letters.filter(|_| line.stands) else { continue };
            for (n, letter) in difference.letters.iter().enumerate() {
                let judged =
                    letters::judge(&difference.letters, n, line.x_height, &usual, &page.grid, &alike);
                found.extend(judged.and_then(|j| change(j, letter.bounds.grown(0.1 * line.x_height))));
            }
        }
    }
    found.extend(added(a, b, laid, x_height));
    let found = without_doubles(found);
    let (sure, doubtful) = found.into_iter().partition(|c| c.score >= SURE && c.class.moves_the_verdict());
    Judged { sure: joined(sure), doubtful, likeness: page.likeness_of_lines() }
}

/// How far the white about a word is looked at, in x-heights, if no other word comes before: a point may
/// have been added there.
const BEYOND_THE_END: f64 = 0.8;
/// The widest space that is looked at whole from both sides, in x-heights.
const WHOLE_SPACE: f64 = 2.0;

/// The box looked at for word `k`: with the white on either side, whole, so that a risen space is not cut.
fn with_white(line: &LineOfWords, k: usize) -> Rect {
    let r = line.words[k].bounds;
    let (end, most) = (BEYOND_THE_END * line.x_height, WHOLE_SPACE * line.x_height);
    let room = |gap: Option<f64>| gap.map_or(end, |g| g.clamp(0.1 * line.x_height, most));
    let left = room(k.checked_sub(1).map(|j| r.x - line.words[j].bounds.right()));
    let right = room(line.words.get(k + 1).map(|n| n.bounds.x - r.right()));
    Rect::new(r.x - left, r.y, r.w + left + right, r.h)
}

/// What is seen of all words, and what is usual on these two photographs.
#[derive(Debug)]
pub(crate) struct PageOfWords {
    differences: Vec<Vec<Option<WordDifference>>>,
    grid: InkGrid,
    /// Median likeness of the words of lines that stand.
    likeness: f64,
    /// Median of the least likeness of a letter's breadth.
    least_part: f64,
    /// Differing ink below which nine words in ten stay, square x-heights.
    noise: f64,
    /// What is usual of the letters of lines that stand.
    letters: Option<Usual>,
}

/// The words of lines that stand.
fn standing<'d>(
    differences: &'d [Vec<Option<WordDifference>>],
    lines: &'d [LineOfWords],
) -> impl Iterator<Item = &'d WordDifference> {
    differences.iter().zip(lines).filter(|(_, l)| l.stands).flat_map(|(d, _)| d.iter().flatten())
}

/// What nine words in ten stay below is noise of ink and lens; changes are rarer.
const NOISE_SHARE: f64 = 0.9;

impl PageOfWords {
    fn of(a: &Reading, b: &Reading, laid: &Laid, lines: &[LineOfWords], x_height: f64) -> Self {
        let size = a.ink.full();
        let mut grid = InkGrid::new(size.width() as f64, size.height() as f64, x_height);
        let differences: Vec<Vec<Option<WordDifference>>> = lines
            .par_iter()
            .map(|l| {
                (0..l.words.len())
                    .map(|k| {
                        let w = &l.words[k];
                        w.found?;
                        let white = with_white(l, k);
                        word::difference(&a.ink, &b.ink, laid, white, w.placed(), l.x_height, &grid)
                    })
                    .collect()
            })
            .collect();
        differences.iter().flatten().flatten().for_each(|d| grid.add(&d.cells));
        let standing = || standing(&differences, lines);
        let quantile = |share: f64, pick: fn(&WordDifference) -> f64| {
            let mut values: Vec<f64> = standing().map(pick).collect();
            values.sort_by(f64::total_cmp);
            values.get((values.len().saturating_sub(1) as f64 * share) as usize).copied().unwrap_or(0.0)
        };
        Self {
            likeness: quantile(0.5, |d| d.likeness),
            least_part: quantile(0.5, |d| d.least_part),
            noise: quantile(NOISE_SHARE, |d| d.places.first().map_or(0.0, |p| p.lost.max(p.gained))),
            letters: Usual::of(standing().flat_map(|d| &d.letters)),
            grid,
            differences,
        }
    }

    /// How like the words of each line are, laid on themselves, less what is usual in the lines that
    /// stand: other pieces of type never print quite alike. `None` of a line without words to compare.
    fn likeness_of_lines(&self) -> Vec<Option<f64>> {
        self.differences
            .iter()
            .map(|line| {
                let all: Vec<f64> = line.iter().flatten().map(|d| d.likeness).collect();
                (!all.is_empty()).then(|| crate::standing::median(all) - self.likeness)
            })
            .collect()
    }
}

/// The places without those that a neighbouring word, or the next line, saw more surely.
fn without_doubles(mut found: Vec<Change>) -> Vec<Change> {
    found.sort_by(|p, q| q.score.total_cmp(&p.score));
    let rect = |c: &Change| Rect::new(c.box_a_px[0], c.box_a_px[1], c.box_a_px[2], c.box_a_px[3]);
    let mut kept: Vec<Change> = Vec::new();
    for c in found {
        let r = rect(&c);
        let seen = kept
            .iter()
            .any(|k| rect(k).shared(r).is_some_and(|s| s.area() > 0.5 * r.area().min(rect(k).area())));
        if !seen {
            kept.push(c);
        }
    }
    kept.sort_by(|p, q| p.line.cmp(&q.line).then(p.box_a_px[0].total_cmp(&q.box_a_px[0])));
    kept
}

/// Share of ink below which a place is bare.
const BARE: f64 = 0.01;

/// Words of the second photograph that fall where the first has no print.
fn added(a: &Reading, b: &Reading, laid: &Laid, x_height: f64) -> Vec<Change> {
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
            let bare = a.ink_share(there) < BARE;
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

/// A place of the first photograph that differs, in the line of index `line`; on the second it lies where the paper
/// puts it and `own`, the displacement of its word by itself.
pub(crate) fn in_line(
    line: usize,
    class: ChangeClass,
    score: f64,
    place: Rect,
    own: Point,
    laid: &Laid,
) -> Change {
    let there = Rect::around(place.corners().map(|p| laid.map.to_b(p + own))).unwrap_or(place);
    Change {
        class,
        score: (score * 1000.0).round() / 1000.0,
        box_a_px: box_px(place),
        box_b_px: box_px(there),
        line: Some(line + 1),
    }
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
