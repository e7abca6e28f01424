//! Each line of type weighed: stands, moved whole, set again, or not to be judged.

use super::drift::{Line, Word, error_of_placing};
use super::height;
use crate::reading::Reading;
use crate::standing::{BySorts, Likelihoods, MANNERS, Placing, Sorts, Standing, WordDrift, together, weigh};
use crate::words::on_baseline;
use register::Laid;
use sheet::{Fold, Layout, Point, Rect};

/// What a line did, and how surely.
#[derive(Debug, Clone, Copy)]
pub(super) struct LineWeight {
    pub(super) standing: Standing,
    /// Natural logarithms of the likelihoods; `None` when there is nothing to weigh.
    pub(super) likelihoods: Option<Likelihoods>,
    /// Log10 of the likelihood if it stands (or was moved whole) over that if it was set again.
    pub(super) log10: Option<f64>,
    /// The same, by manners in which it was set again.
    pub(super) log10_by_manner: Option<[f64; MANNERS]>,
    /// Log10 of the likelihood if it was spaced otherwise, about one place or all along, over that if it stands.
    pub(super) spaced_log10: f64,
    /// Words found on the second photograph.
    pub(super) found: usize,
    /// Words whose place on the second photograph can be looked at.
    pub(super) tried: usize,
    /// Error of placing a word on this pair of photographs, pixels of A.
    pub(super) error: f64,
    /// What its sorts say clearly, if anything.
    pub(super) sorts: Option<Sorts>,
    /// It seems to stand off the height that its neighbours give it.
    pub(super) off_height: bool,
    /// What it seemed to have done while all print told where the paper is, that of lines set again as well.
    pub(super) by_all_print: Standing,
}

/// A line is clearly set again if that is so much likelier than that it stands, and than that it was spaced out about
/// one place: natural logarithms.
const CLEARLY: [f64; 2] = [3.0, 1.5];

impl LineWeight {
    /// Whether nothing speaks against the line's standing where it stood: it may help to tell where the
    /// paper is. If its words seem set again while its sorts are the same, it is the paper that was told badly.
    pub(super) fn may_stand(&self) -> bool {
        match self.standing {
            Standing::Same => true,
            Standing::Unjudged => self.has_the_same_sorts() || self.log10.is_none_or(|v| v > 0.0),
            Standing::Reset => self.has_the_same_sorts(),
            _ => false,
        }
    }

    /// Whether its sorts are clearly the same pieces of type.
    pub(super) fn has_the_same_sorts(&self) -> bool {
        self.sorts == Some(Sorts::Same)
    }

    /// Whether it holds other words, or was set again by whatever print the paper's motion is told, and of other sorts as
    /// far as these say anything. Where a fold was not found, lines slide together: against those that stand they seem set
    /// again, against each other they do not.
    pub(super) fn is_set_again(&self) -> bool {
        self.standing == Standing::OtherWords
            || self.standing == Standing::Reset
                && self.by_all_print == Standing::Reset
                && !self.has_the_same_sorts()
    }

    /// Whether it was set again, which no correction in the line explains.
    pub(super) fn is_clearly_set_again(&self) -> bool {
        let clear = self.likelihoods.is_some_and(|l| {
            let reset = l.reset.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            reset - l.same >= CLEARLY[0] && reset - l.respaced >= CLEARLY[1]
        });
        clear && self.standing == Standing::Reset && self.is_set_again()
    }

    /// Whether the line stands where it stood.
    pub(super) fn stands(&self) -> bool {
        self.standing == Standing::Same
    }
}

/// No word is placed better than this, in samples of the level measured at, and in x-heights.
const LEAST_ERROR_SAMPLES: f64 = 0.06;
const LEAST_ERROR_X_HEIGHTS: f64 = 0.01;
/// Nor is it placed worse, where it is found at all: in one setting half of all patches lie within 0.015
/// x-heights along their line, down to 150 ppi (docs/benchmarks.md).
const MOST_ERROR_SAMPLES: f64 = 0.25;
const MOST_ERROR_X_HEIGHTS: f64 = 0.024;
/// Words looked for from which a line can be said to hold other words.
const FEWEST_FOR_OTHER: usize = 3;

/// The lines of a layout as the drift needs them.
pub(super) fn of(layout: &Layout) -> Vec<Line> {
    layout
        .lines
        .iter()
        .map(|l| Line {
            words: l.words.iter().map(|w| of_its_own(w.bounds, l)).collect(),
            bounds: l.bounds,
            x_height: l.x_height.0,
            turn: slope(l),
        })
        .collect()
}

/// A word's box without what hangs into it from the lines above and below, and the height of its baseline.
fn of_its_own(word: Rect, line: &sheet::Line) -> (Rect, f64) {
    let foot = on_baseline(&line.baseline, word.centre().x);
    let top = word.y.max(foot - ABOVE * line.x_height.0);
    let low = word.bottom().min(foot + BELOW * line.x_height.0);
    let own =
        if low - top < line.x_height.0 / 2.0 { word } else { Rect::new(word.x, top, word.w, low - top) };
    (own, foot)
}

/// How far a line's own print reaches above and below its baseline, in x-heights: old-style ascenders
/// stand about 1.6, descenders hang about 0.6 below (common practice, no source).
const ABOVE: f64 = 1.75;
const BELOW: f64 = 0.75;

fn slope(line: &sheet::Line) -> f64 {
    match (line.baseline.first(), line.baseline.last()) {
        (Some(p), Some(q)) if q.x > p.x => (q.y - p.y).atan2(q.x - p.x),
        _ => 0.0,
    }
}

/// What a line is weighed with besides its words.
#[derive(Clone, Copy)]
pub(super) struct Page<'p> {
    pub(super) laid: &'p Laid,
    pub(super) x_height: f64,
    pub(super) pitch: f64,
    pub(super) b: &'p Reading,
    /// Folds at which no crease was found, on A.
    pub(super) folds: &'p [Fold],
    /// What the sorts of each line say.
    pub(super) by_sorts: &'p [BySorts],
}

/// Weighs every line by the drifts of its words, and by its sorts.
pub(super) fn weigh_all(words: &[Vec<Word>], lines: &[Line], page: &Page<'_>) -> Vec<LineWeight> {
    let Page { laid, x_height, pitch, .. } = *page;
    let least = (LEAST_ERROR_SAMPLES * laid.unit).max(LEAST_ERROR_X_HEIGHTS * x_height);
    let most = (MOST_ERROR_SAMPLES * laid.unit).max(MOST_ERROR_X_HEIGHTS * x_height);
    let placing = error_of_placing(words, [least, most], pitch);
    let (mut weights, by_words): (Vec<LineWeight>, Vec<Option<Likelihoods>>) = words
        .iter()
        .zip(lines)
        .zip(page.by_sorts)
        .map(|((words, line), sorts)| weigh_line(words, line, &placing, sorts, page))
        .unzip();
    let with_sorts = by_words.iter().zip(page.by_sorts);
    let both: Vec<(Likelihoods, BySorts)> =
        with_sorts.filter_map(|(words, sorts)| Some(((*words)?, *sorts))).collect();
    let (of_page, shares) = together(&both);
    let weighed = weights.iter_mut().zip(&by_words).filter(|(_, by_words)| by_words.is_some());
    for ((w, _), l) in weighed.zip(of_page) {
        w.log10_by_manner = Some(shares.log10_by_manner(&l));
        let l = l.likelihoods;
        w.likelihoods = Some(l);
        w.standing = shares.standing(&l, w.found);
        w.log10 = Some(shares.log10_ratio(&l));
        w.spaced_log10 = shares.log10_spaced(&l);
    }
    height::judge(&mut weights, words, lines);
    weights
}

/// Weighs one line by its words, if they can be; what it did is said once all lines are known.
fn weigh_line(
    words: &[Word],
    line: &Line,
    placing: &Placing,
    sorts: &BySorts,
    page: &Page<'_>,
) -> (LineWeight, Option<Likelihoods>) {
    let Page { laid, b, folds, .. } = *page;
    let can_be_tried = |w: &Word| w.found.is_some() && !w.astride && has_ink(w.bounds, laid, b);
    let tried: Vec<(usize, &Word)> = words.iter().enumerate().filter(|(_, w)| can_be_tried(w)).collect();
    let drifts: Vec<WordDrift> = tried
        .iter()
        .filter_map(|&(number, w)| {
            let along = w.bounds.centre().x;
            let part = parted(folds, w.bounds.centre());
            w.drift.map(|d| WordDrift { number, along, drift: d.along, sd: d.sd, paper: d.paper, part })
        })
        .collect();
    let found = tried.iter().filter(|(_, w)| w.is_found()).count();
    let unjudged = LineWeight {
        standing: Standing::Unjudged,
        likelihoods: None,
        log10: None,
        log10_by_manner: None,
        spaced_log10: 0.0,
        found,
        tried: tried.len(),
        error: placing.white.hypot(placing.smooth),
        off_height: false,
        by_all_print: Standing::Unjudged,
        sorts: sorts.told(),
    };
    if tried.len() >= FEWEST_FOR_OTHER && 2 * found < tried.len() {
        return (LineWeight { standing: Standing::OtherWords, ..unjudged }, None);
    }
    if drifts.is_empty() {
        return (unjudged, None);
    }
    let by_words = weigh(&drifts, placing, line.x_height);
    (LineWeight { found: found.min(drifts.len()), ..unjudged }, Some(by_words))
}

/// Which of the parts that folds make of the side a place is in.
pub(super) fn parted(folds: &[Fold], at: Point) -> u32 {
    folds.iter().fold(0, |part, f| part << 1 | u32::from(f.beyond(at) > 0.0))
}

/// Whether B has any ink where the word should stand: a place the inking missed is no evidence.
fn has_ink(bounds: Rect, laid: &Laid, b: &Reading) -> bool {
    let corners = bounds.corners().map(|p| laid.map.to_b(p));
    let Some(there) = Rect::around(corners) else { return false };
    b.ink_share(there) > LEAST_INKED
}

/// Share of a word's box that ink must cover.
const LEAST_INKED: f64 = 0.04;

/// Share of the judged words that stand in lines that stand.
pub(super) fn standing_share(weights: &[LineWeight]) -> f64 {
    let count = |keep: fn(&LineWeight) -> bool| -> usize {
        weights.iter().filter(|w| keep(w)).map(|w| w.tried).sum()
    };
    let judged = count(|w| w.standing != Standing::Unjudged);
    if judged == 0 { 0.0 } else { count(LineWeight::stands) as f64 / judged as f64 }
}
