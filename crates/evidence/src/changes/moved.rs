//! Did a word move along its line, all of it together?
//!
//! A word that was moved is moved whole. Where a fold runs through a word, or much of its ink is gone, the
//! whole is found at some place between; its parts then lie elsewhere, or stay where the paper puts them.

use super::score::logistic;
use super::{DOUBTFUL, LineOfWords};
use crate::reading::Reading;
use crate::record::ChangeClass;
use crate::standing::SAME_WORD;
use register::{Followed, Laid, Reach, follow};
use sheet::{Point, Rect};

/// Drift, in x-heights and in standard deviations, from which a word has moved.
const MOVED: f64 = 0.07;
const MOVED_SDS: f64 = 5.0;
/// A word has no more room than this between its neighbours, in x-heights: twice the common space of
/// a third of the em (common practice, no source). What seems to move further was taken for another.
const ROOM: f64 = 1.2;
/// Breadth of a part that can be followed by itself, in x-heights: about a letter.
const PART: f64 = 0.7;
/// A part has moved with its word if it lies within this share of the word's drift, or this many
/// x-heights, of where the word puts it.
const TOGETHER: [f64; 2] = [0.3, 0.05];
/// One part in so many may be found elsewhere: a letter fits others too.
const STRAYS: usize = 4;
/// How far beyond the drift a part is looked for, in x-heights.
const BEYOND: f64 = 0.3;
/// What is narrower is no word, x-heights: the end of one at the photograph's edge.
const NARROWEST: f64 = 0.3;
/// A word too narrow to have parts must be found as well as this, and have moved so many standard deviations.
const NARROW_SCORE: f32 = 0.8;
const NARROW_SDS: f64 = 8.0;
/// The next words stand still, or went along, to within this share of the word's drift; so many of them are asked
/// to either side. Spaces go from one side of a word to the other; what dies away from word to word is paper.
const ALONE: f64 = 0.22;
const ASKED: usize = 2;
/// How much of the drift must be seen against the words next to it.
const APART: f64 = 0.6;

/// Whether word `k` of a line moved along it, and how surely; `by_a_fold`: whether a fold runs beside it or
/// through it.
pub(super) fn moved(
    line: &LineOfWords,
    k: usize,
    by_a_fold: impl Fn() -> bool,
    a: &Reading,
    b: &Reading,
    laid: &Laid,
) -> Option<(ChangeClass, f64)> {
    let (word, x_height) = (&line.words[k], line.x_height);
    let drift = word.drift_along?;
    let whole = word.found.filter(|_| word.is_found)?;
    let far = drift.abs() / x_height;
    if word.bounds.w < NARROWEST * x_height {
        return None;
    }
    if !(MOVED..ROOM).contains(&far) || drift.abs() < MOVED_SDS * word.drift_sd {
        return None;
    }
    let count = (word.bounds.w / (PART * x_height)).floor() as usize;
    let turn = a.layout.skew.radians();
    let (sin, cos) = turn.sin_cos();
    let along = |p: Point| p.x * cos + p.y * sin;
    let is_whole = || {
        let reach = Reach::of_lines(drift.abs() + BEYOND * x_height, BEYOND * x_height, turn);
        let found = follow(&a.ink, &b.ink, laid, &parts(word.bounds, count.max(1)), reach);
        let off = |part: &Followed| along(part.shift - whole.shift).abs();
        let most = (TOGETHER[0] * drift.abs()).max(TOGETHER[1] * x_height);
        let is_clear = count >= 2
            || drift.abs() > NARROW_SDS * word.drift_sd
                && found.iter().flatten().any(|part| part.score >= NARROW_SCORE);
        is_clear && moved_whole(&found, off, most)
    };
    let sure = moved_alone(line, k, drift)
        && apart_from_next(line, k, drift, along(whole.shift), along)
        && is_whole()
        && (!by_a_fold() || stands_between(line, k, drift));
    let score = logistic(40.0 * (far - MOVED));
    Some((ChangeClass::SortMoved, if sure { score } else { score.min(DOUBTFUL) }))
}

/// Whether the words to either side are seen to stand: print that slid into a fold took its neighbours along.
fn stands_between(line: &LineOfWords, k: usize, drift: f64) -> bool {
    let stands = |j: Option<usize>| {
        let next = j.and_then(|j| line.words.get(j)?.drift_along);
        next.is_some_and(|d| d.abs() < ALONE * drift.abs())
    };
    stands(k.checked_sub(1)) && stands(Some(k + 1))
}

/// Whether the next words stand still or went along: a step and no slope. One at least must be seen to stand.
fn moved_alone(line: &LineOfWords, k: usize, drift: f64) -> bool {
    let near = k.saturating_sub(ASKED)..(k + ASKED + 1).min(line.words.len());
    let most = ALONE * drift.abs();
    let drifts: Vec<f64> = near.filter(|&j| j != k).filter_map(|j| line.words[j].drift_along).collect();
    drifts.iter().any(|d| d.abs() < most) && drifts.iter().all(|d| d.abs() < most || (d - drift).abs() < most)
}

/// Whether the word was displaced otherwise than the words next to it, unless they went along: what is told of
/// the paper may be wrong beside a crease, and then all words there seem to have moved.
fn apart_from_next(line: &LineOfWords, k: usize, drift: f64, own: f64, along: impl Fn(Point) -> f64) -> bool {
    let next = [k.checked_sub(1), Some(k + 1)].into_iter().flatten().filter_map(|j| line.words.get(j));
    next.filter(|w| w.is_found && w.drift_along.is_none_or(|d| (d - drift).abs() > ALONE * drift.abs()))
        .filter_map(|w| w.found)
        .all(|f| (own - along(f.shift)) * drift.signum() > APART * drift.abs())
}

/// A word's box in `count` parts of like breadth.
fn parts(word: Rect, count: usize) -> Vec<Rect> {
    let breadth = word.w / count as f64;
    (0..count).map(|i| Rect::new(word.x + i as f64 * breadth, word.y, breadth, word.h)).collect()
}

/// Whether a word's parts, as they were found, moved as it did: no more than `most` off it.
fn moved_whole(parts: &[Option<Followed>], off: impl Fn(&Followed) -> f64, most: f64) -> bool {
    let found = || parts.iter().flatten().filter(|f| f.score >= SAME_WORD && !f.on_edge);
    let together = found().filter(|f| off(f) < most).count();
    2 * together > parts.len() && found().count() - together <= parts.len() / STRAYS
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::changes::WordAtHand;
    use crate::standing::Standing;

    fn line(drifts: &[Option<f64>]) -> LineOfWords {
        let word = |(i, &drift_along): (usize, &Option<f64>)| WordAtHand {
            bounds: Rect::new(100.0 * i as f64, 0.0, 80.0, 30.0),
            foot: 25.0,
            found: None,
            is_found: drift_along.is_some(),
            astride: false,
            drift_along,
            drift_sd: 0.3,
        };
        let words = drifts.iter().enumerate().map(word).collect();
        LineOfWords { standing: Standing::Same, x_height: 20.0, words }
    }

    #[test]
    fn a_word_moved_alone_has_a_neighbour_that_stands() {
        assert!(moved_alone(&line(&[Some(0.1), Some(8.0), Some(-0.2)]), 1, 8.0));
        assert!(moved_alone(&line(&[Some(0.1), Some(8.0), Some(7.5)]), 1, 8.0), "both went");
        assert!(!moved_alone(&line(&[Some(3.0), Some(8.0), Some(4.0)]), 1, 8.0), "a slope");
        assert!(!moved_alone(&line(&[None, Some(8.0), Some(7.5)]), 1, 8.0), "none is seen to stand");
        assert!(!moved_alone(&line(&[Some(8.0)]), 0, 8.0));
    }

    #[test]
    fn beside_a_fold_the_words_to_either_side_must_stand() {
        assert!(stands_between(&line(&[Some(0.1), Some(8.0), Some(-0.2)]), 1, 8.0));
        assert!(!stands_between(&line(&[Some(0.1), Some(8.0), Some(7.5)]), 1, 8.0));
        assert!(!stands_between(&line(&[Some(0.1), Some(8.0), None]), 1, 8.0));
        assert!(!stands_between(&line(&[Some(0.1), Some(8.0)]), 1, 8.0), "at the end of its line");
    }
}
