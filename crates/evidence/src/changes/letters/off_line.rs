//! Does a sort stand off its line, or lean?

use super::{Letter, Shape, Usual};
use crate::changes::around::InkGrid;
use crate::changes::score::logistic;
use crate::changes::signs::short_of;

/// How far a letter may be off that stands, in x-heights.
const STANDS: f64 = 0.08;
/// Log ratio of ink below which nothing of a letter's size stands in its place: that is ink lost.
const THERE: f64 = -1.2;
/// Neighbours of a letter are nearer than this, in x-heights.
const NEXT: f64 = 0.8;
/// A neighbour's likeness where there is none to ask, less the median.
const NO_NEIGHBOUR: f64 = 0.05;
/// Score from which a letter is worth having its like looked for.
const WORTH_A_LOOK: f64 = 0.1;

/// Degrees by which a sort may lean, and how far up or down it may then be off, in x-heights.
const LEANINGS: [f64; 4] = [6.0, 9.0, 12.0, 15.0];
const LEANS_IN_PLACE: f64 = 0.1;
/// A letter is asked whether it leans if it is less like itself than this.
const ITSELF: f64 = 0.9;
/// How much less like itself than the median letter a sort may be, leant over; how much liker than upright it must be
/// at even odds; and how fast the odds rise. Of 15 900 letters of simulated pairs of one setting that are unlike
/// themselves these leave four, all of which lean (development set).
const LEAST_USUAL: f64 = 0.06;
const LEAST_GAIN: f64 = 0.06;
const GAIN_SLOPE: f64 = 60.0;

/// How surely (0 to 1) letter `k` of a word stands higher or lower than it stood, or leans; `alike` are all letters of
/// lines that stand.
///
/// The first is a logistic regression on the letters of 200 simulated pairs of one setting, with and without
/// differences (docs/benchmarks.md).
pub(crate) fn off_line(
    word: &[Letter],
    k: usize,
    x_height: f64,
    usual: Usual,
    grid: &InkGrid,
    alike: &[&Letter],
) -> f64 {
    let letter = &word[k];
    let off = letter.off[0].hypot(letter.off[1]);
    let (Some(second), true) = (&letter.second, letter.ink > THERE) else { return 0.0 };
    if letter.best > ITSELF && off < STANDS {
        return 0.0;
    }
    let leaning = leaning(letter, second, usual);
    if leaning >= WORTH_A_LOOK || off < STANDS {
        return leaning;
    }
    let near: Vec<&Letter> = word
        .iter()
        .enumerate()
        .filter(|(j, m)| {
            *j != k
                && m.bounds.x < letter.bounds.right() + NEXT * x_height
                && m.bounds.right() > letter.bounds.x - NEXT * x_height
        })
        .map(|(_, m)| m)
        .collect();
    let signs = Signs {
        best: letter.best,
        gain: letter.best - letter.here,
        off: letter.off,
        next: near.iter().map(|m| m.best).reduce(f64::min).unwrap_or(usual.likeness() - NO_NEIGHBOUR),
        next_off: near.iter().map(|m| m.off[0].hypot(m.off[1])).fold(0.0, f64::max),
        breadth: (letter.bounds.w / x_height).ln(),
        up: grid.about(letter.bounds, x_height, x_height * x_height).up,
    };
    if logistic(signs.shifted(1.0)) < WORTH_A_LOOK {
        return 0.0;
    }
    let others = alike.iter().filter(|l| !std::ptr::eq(**l, letter));
    let like = others.map(|l| letter.first.likeness(&l.first)).fold(-1.0, f64::max);
    logistic(signs.shifted(like))
}

/// How surely a sort leans on the second that stood upright on the first: leant over it must be as like itself as
/// letters here are, and clearly liker than upright.
fn leaning(letter: &Letter, second: &Shape, usual: Usual) -> f64 {
    if letter.off[1].abs() > LEANS_IN_PLACE {
        return 0.0;
    }
    let upright = letter.best.max(second.likeness(&letter.first));
    let likeness = LEANINGS
        .iter()
        .flat_map(|d| [-d, *d])
        .filter_map(|d| letter.first.tilted(d))
        .map(|tilted| second.likeness(&tilted))
        .fold(-1.0, f64::max);
    if likeness < usual.likeness() - LEAST_USUAL {
        0.0
    } else {
        logistic(GAIN_SLOPE * (likeness - upright - LEAST_GAIN))
    }
}

/// What speaks for or against a letter's standing off its line.
struct Signs {
    best: f64,
    gain: f64,
    off: [f64; 2],
    /// The least likeness of a neighbouring letter: a fold spoils several.
    next: f64,
    /// How far the neighbour farthest off is off, x-heights.
    next_off: f64,
    breadth: f64,
    /// Ink in one only straight above and below.
    up: f64,
}

impl Signs {
    /// Log odds that the letter stands higher or lower than it stood; `like` is its likeness to another letter of the
    /// first.
    fn shifted(&self, like: f64) -> f64 {
        -11.814 - 2.181 * short_of(self.best) + 3.026 * self.gain - 18.012 * self.off[0].abs()
            + 11.575 * self.off[1].abs()
            - 8.480 * self.next_off
            - 0.815 * short_of(self.next)
            + 1.390 * self.breadth
            - 1.367 * self.up
            - 0.857 * short_of(like)
    }
}
