//! Did a word move along its line, all of it together?
//!
//! A word that was moved is moved whole. Where a fold runs through a word, or much of its ink is gone, the
//! whole is found at some place between; its parts then lie elsewhere, or stay where the paper puts them.

use super::WordAtHand;
use super::score::logistic;
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
/// Breadth of a part that can be followed by itself, in x-heights: one to two letters.
const PART: f64 = 1.3;
/// A part has moved with its word if it lies within this share of the word's drift, or this many
/// x-heights, of where the word puts it.
const TOGETHER: [f64; 2] = [0.3, 0.05];
/// How far beyond the drift a part is looked for, in x-heights.
const BEYOND: f64 = 0.3;
/// Score of a word that seems moved but has not enough parts to show it: it is looked at, no more.
const ONE_PART: f64 = 0.4;

/// Whether a word moved along its line, and how surely.
pub(super) fn moved(
    word: &WordAtHand,
    x_height: f64,
    a: &Reading,
    b: &Reading,
    laid: &Laid,
) -> Option<(ChangeClass, f64)> {
    let drift = word.drift_along?;
    let whole = word.found.filter(|_| word.is_found)?;
    let far = drift.abs() / x_height;
    if !(MOVED..ROOM).contains(&far) || drift.abs() < MOVED_SDS * word.drift_sd {
        return None;
    }
    let count = (word.bounds.w / (PART * x_height)).floor() as usize;
    if count < 2 {
        return (count > 0).then_some((ChangeClass::SortMoved, ONE_PART));
    }
    let (sin, cos) = a.layout.skew.radians().sin_cos();
    let along = |p: Point| p.x * cos + p.y * sin;
    let room = drift.abs() + BEYOND * x_height;
    let reach = Reach {
        x: room * cos.abs() + BEYOND * x_height * sin.abs(),
        y: room * sin.abs() + BEYOND * x_height * cos.abs(),
    };
    let breadth = word.bounds.w / count as f64;
    let parts: Vec<Rect> = (0..count)
        .map(|k| Rect::new(word.bounds.x + k as f64 * breadth, word.bounds.y, breadth, word.bounds.h))
        .collect();
    let with_word = |part: &Followed| {
        let off = along(part.shift - whole.shift).abs();
        off < (TOGETHER[0] * drift.abs()).max(TOGETHER[1] * x_height)
    };
    let found: Vec<bool> = follow(&a.ink, &b.ink, laid, &parts, reach)
        .iter()
        .flatten()
        .filter(|f| f.score >= SAME_WORD && !f.on_edge)
        .map(with_word)
        .collect();
    let together = found.iter().filter(|&&t| t).count();
    let sure = 2 * together > count && found.len() == together;
    let score = logistic(40.0 * (far - MOVED));
    Some((ChangeClass::SortMoved, if sure { score } else { score.min(ONE_PART) }))
}
