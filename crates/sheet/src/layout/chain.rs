//! Display lines: large letters that stand apart are chained one to the next.
//!
//! Spaced capitals leave gaps that a band of ink cannot be followed across, but their feet stand on
//! one line.

use super::runs::{Component, Pieces};
use super::trace::Track;

/// A display letter is at least this high, and at most that, in x-heights of the main type: above the
/// capitals and ascenders of the main type, below a cut.
const LOWEST: f64 = 1.9;
const HIGHEST: f64 = 14.0;
/// The next letter begins at most this far on, in heights of the larger of the two.
const NEXT: f64 = 2.4;
/// Feet of neighbours differ by at most this, in heights of the larger.
const FEET: f64 = 0.16;
/// Heights of neighbours differ by at most this factor: capitals beside small letters.
const HEIGHTS: f64 = 1.9;
/// See [`strangers`].
const STRANGERS: f64 = 0.35;
/// So many letters make a line.
const LETTERS: usize = 3;

/// A chain of letters: the middle of its band, its x-height.
pub(super) struct Chain {
    pub(super) track: Track,
    pub(super) x_height: f64,
    /// Rows it falls for every pixel.
    pub(super) fall: f64,
}

/// The chains of large letters; `fall` is the rows a line falls for every
/// pixel.
pub(super) fn chains(pieces: &Pieces, main: f64, fall: f64) -> Vec<Chain> {
    let is_letter = |c: &Component| {
        let (w, h) = (c.width(), c.height());
        (LOWEST * main..HIGHEST * main).contains(&h)
            && w <= 2.5 * h
            && w >= 0.12 * h
            && stroke(c) >= THINNEST * h
            && stroke(c) <= 0.6 * h
    };
    let mut letters: Vec<&Component> = pieces.parts.iter().filter(|c| is_letter(c)).collect();
    letters.sort_by(|a, b| a.left.cmp(&b.left).then(a.top.cmp(&b.top)));
    let foot = |c: &Component| f64::from(c.bottom) - c.middle().0 * fall;
    let mut next: Vec<Option<usize>> = vec![None; letters.len()];
    let mut has_previous = vec![false; letters.len()];
    for (i, a) in letters.iter().enumerate() {
        let follows = |b: &Component| {
            let large = a.height().max(b.height());
            let gap = f64::from(b.left) - f64::from(a.right);
            gap > -0.3 * large
                && gap <= NEXT * large
                && (foot(a) - foot(b)).abs() <= FEET * large
                && large <= HEIGHTS * a.height().min(b.height())
        };
        // The larger of two is at most so much higher than this one; from the left, all beyond are too far.
        let farthest = f64::from(a.right) + NEXT * HEIGHTS * a.height();
        next[i] = (i + 1..letters.len())
            .take_while(|&j| f64::from(letters[j].left) <= farthest)
            .filter(|&j| !has_previous[j])
            .find(|&j| follows(letters[j]));
        if let Some(j) = next[i] {
            has_previous[j] = true;
        }
    }
    let mut out = Vec::new();
    for start in (0..letters.len()).filter(|&i| !has_previous[i]) {
        let mut members = vec![letters[start]];
        let mut at = start;
        while let Some(j) = next[at] {
            members.push(letters[j]);
            at = j;
        }
        if members.len() >= LETTERS && strangers(pieces, &members, fall, main) < STRANGERS {
            out.push(chain(&members, fall));
        }
    }
    out
}

/// The mean width of a component's strokes along the line, against its height, is at least this in a
/// letter. Measured: letters of display lines 0.13 to 0.45, cuts and ornaments mostly below.
pub(super) const THINNEST: f64 = 0.1;

/// Ink of others among a chain's letters, as a share of theirs: pieces of body type, when letters that
/// touch those of the next line have been taken for large ones.
fn strangers(pieces: &Pieces, members: &[&Component], fall: f64, main: f64) -> f64 {
    let foot = |c: &Component| f64::from(c.bottom) - c.middle().0 * fall;
    let own: f64 = members.iter().map(|c| f64::from(c.area)).sum();
    let (left, right) = (members[0].left, members[members.len() - 1].right);
    let base = members.iter().map(|c| foot(c)).fold(f64::NEG_INFINITY, f64::max);
    let top = members.iter().map(|c| foot(c) - c.height()).fold(f64::INFINITY, f64::min);
    let all: f64 = pieces
        .parts
        .iter()
        .filter(|c| c.left >= left && c.right <= right && c.height() >= 0.6 * main)
        .filter(|c| foot(c) <= base + 0.2 * main && foot(c) - c.height() >= top - 0.2 * main)
        .map(|c| f64::from(c.area))
        .sum();
    (all - own).max(0.0) / own
}

/// The mean length of a component's runs.
fn stroke(c: &Component) -> f64 {
    f64::from(c.area) / f64::from(c.runs)
}

/// A chain's band, from the feet and the usual height of its letters.
fn chain(members: &[&Component], fall: f64) -> Chain {
    let mut heights: Vec<f64> = members.iter().map(|c| c.height()).collect();
    heights.sort_by(f64::total_cmp);
    let x_height = heights[heights.len() * 2 / 5];
    let mut track = Track::new();
    let fall = if members.len() >= 4 { slope(members).unwrap_or(fall) } else { fall };
    let mut feet: Vec<f64> = members.iter().map(|c| f64::from(c.bottom) - c.middle().0 * fall).collect();
    feet.sort_by(f64::total_cmp);
    let usual = feet[feet.len() / 2];
    let (left, right) = members
        .iter()
        .fold((f64::INFINITY, 0.0f64), |(l, r), c| (l.min(f64::from(c.left)), r.max(f64::from(c.right))));
    let steps = ((right - left) / x_height).ceil().max(1.0);
    for i in 0..=steps as usize {
        let x = left + (right - left) * i as f64 / steps;
        track.push((x, usual + x * fall - x_height / 2.0));
    }
    Chain { track, x_height, fall }
}

/// The slope of the letters' feet: the median over all pairs (Theil 1950, Sen 1968).
fn slope(members: &[&Component]) -> Option<f64> {
    let feet: Vec<(f64, f64)> = members.iter().map(|c| (c.middle().0, f64::from(c.bottom))).collect();
    let mut slopes = Vec::new();
    for (i, p) in feet.iter().enumerate() {
        slopes.extend(feet[i + 1..].iter().filter(|q| q.0 - p.0 > 1.0).map(|q| (q.1 - p.1) / (q.0 - p.0)));
    }
    slopes.sort_by(f64::total_cmp);
    slopes.get(slopes.len() / 2).copied()
}
