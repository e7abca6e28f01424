//! Was a sort exchanged for another, or does it stand off its line?

use super::{Letter, Shape};
use crate::changes::around::InkGrid;
use crate::changes::score::{logistic, short_of};
use crate::record::ChangeClass;

/// What is usual of the letters of lines that stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Usual {
    /// Median correlation of a letter with itself on the other impression, and its fifth hundredth.
    best: f64,
    lower: f64,
}

/// Fewest letters that tell what is usual.
const FEWEST: usize = 20;
/// Correlation from which a letter is itself, and how far it may then be off, in x-heights.
const ITSELF: f64 = 0.9;
const STANDS: f64 = 0.08;
/// Log ratio of ink below which nothing of a letter's size stands in its place: that is ink lost, no exchange.
const THERE: f64 = -1.2;
/// Neighbours of a letter are nearer than this, in x-heights.
const NEXT: f64 = 0.8;
/// A neighbour's likeness where there is none to ask, less the median.
const NO_NEIGHBOUR: f64 = 0.05;

/// Degrees by which a sort may lean, and how far up or down it may then be off, in x-heights.
const LEANINGS: [f64; 4] = [6.0, 9.0, 12.0, 15.0];
const LEANS_IN_PLACE: f64 = 0.1;
/// How much less like itself than the median letter a sort may be, leant over; how much liker than upright it must be
/// at even odds; and how fast the odds rise. Of 15 900 letters of simulated pairs of one setting that are unlike
/// themselves these leave four, all of which lean (development set).
const LEAST_USUAL: f64 = 0.06;
const LEAST_GAIN: f64 = 0.06;
const GAIN_SLOPE: f64 = 60.0;

impl Usual {
    /// Median correlation of a letter with itself on the other impression.
    pub(crate) fn likeness(&self) -> f64 {
        self.best
    }

    /// From the letters of all lines that stand; `None` of too few.
    pub(crate) fn of<'l>(letters: impl Iterator<Item = &'l Letter>) -> Option<Self> {
        let mut best: Vec<f64> = letters.map(|l| l.best).collect();
        best.sort_by(f64::total_cmp);
        let n = best.len();
        (n >= FEWEST).then(|| Self { best: best[n / 2], lower: best[n / 20] })
    }
}

/// Score from which a letter is worth having its like looked for.
const WORTH_A_LOOK: f64 = 0.1;

/// What happened to letter `k` of a word, and how surely; `None` of a letter that stands and is itself.
///
/// A letter that was exchanged is unlike itself, and what stands there instead is a letter too: its like is
/// found elsewhere on the sheet (`alike`: all letters of lines that stand), or it is the first turned half
/// round. A fold, a blot or missing ink makes a shape that is like no other. Both scores are logistic
/// regressions on the letters of 200 simulated pairs of one setting, with and without differences
/// (docs/benchmarks.md).
pub(crate) fn judge(
    word: &[Letter],
    k: usize,
    x_height: f64,
    usual: &Usual,
    grid: &InkGrid,
    alike: &[&Letter],
) -> Option<(ChangeClass, f64)> {
    let letter = &word[k];
    let off = letter.off[0].hypot(letter.off[1]);
    if letter.ink <= THERE || (letter.best > ITSELF && off < STANDS) {
        return None;
    }
    let second = letter.second.as_ref()?;
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
        next: near.iter().map(|m| m.best).reduce(f64::min).unwrap_or(usual.best - NO_NEIGHBOUR),
        next_off: near.iter().map(|m| m.off[0].hypot(m.off[1])).fold(0.0, f64::max),
        ink: letter.ink.abs(),
        breadth: (letter.bounds.w / x_height).ln(),
        up: grid.about(letter.bounds, x_height, x_height * x_height).up,
    };
    let leaning = leaning(letter, second, usual);
    if leaning >= WORTH_A_LOOK {
        return Some((ChangeClass::SortMoved, leaning));
    }
    let shifted = if off >= STANDS { logistic(signs.shifted(1.0)) } else { 0.0 };
    let exchanged =
        if letter.best < ITSELF { logistic(signs.exchanged(usual, letter.best, Likes::ALL)) } else { 0.0 };
    if shifted.max(exchanged) < WORTH_A_LOOK {
        return None;
    }
    let of_first = most_like(&letter.first, letter, alike, |l| Some(&l.first));
    let of_second = most_like(second, letter, alike, |l| l.second.as_ref());
    let likes = Likes { of_first, of_second, turned: second.turned().likeness(&letter.first) };
    let cross = second.likeness(&letter.first).max(letter.best);
    let shifted = if shifted > 0.0 { logistic(signs.shifted(of_first)) } else { 0.0 };
    let exchanged = if exchanged > 0.0 { logistic(signs.exchanged(usual, cross, likes)) } else { 0.0 };
    Some(if shifted > exchanged {
        (ChangeClass::SortMoved, shifted)
    } else {
        (ChangeClass::SortChanged, exchanged)
    })
}

/// How surely a sort leans on the second that stood upright on the first: leant over it must be as like itself as
/// letters here are, and clearly liker than upright.
fn leaning(letter: &Letter, second: &Shape, usual: &Usual) -> f64 {
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
    if likeness < usual.best - LEAST_USUAL {
        0.0
    } else {
        logistic(GAIN_SLOPE * (likeness - upright - LEAST_GAIN))
    }
}

/// The best likeness of a shape to that of any other letter; -1 if there is none of its size.
fn most_like<'l>(
    shape: &Shape,
    own: &Letter,
    all: &[&'l Letter],
    of: impl Fn(&'l Letter) -> Option<&'l Shape>,
) -> f64 {
    all.iter()
        .filter(|l| !std::ptr::eq(**l, own))
        .filter_map(|l| of(l))
        .map(|other| shape.likeness(other))
        .fold(-1.0, f64::max)
}

/// Whether what stands in a place are letters.
#[derive(Debug, Clone, Copy)]
struct Likes {
    /// Best likeness of the first's letter to another of the first.
    of_first: f64,
    /// Best likeness of the second's letter to another of the second.
    of_second: f64,
    /// Likeness of the second's, turned half round, to the first's.
    turned: f64,
}

impl Likes {
    /// As sure as can be.
    const ALL: Self = Self { of_first: 1.0, of_second: 1.0, turned: 1.0 };
}

/// What speaks for or against a letter's having changed, before its like is looked for.
struct Signs {
    best: f64,
    gain: f64,
    off: [f64; 2],
    /// The least likeness of a neighbouring letter: a fold spoils several.
    next: f64,
    /// How far the neighbour farthest off is off, x-heights.
    next_off: f64,
    ink: f64,
    breadth: f64,
    /// Ink in one only straight above and below.
    up: f64,
}

impl Signs {
    /// Log odds that other letters stand there; `cross` is how like the two letters are.
    fn exchanged(&self, usual: &Usual, cross: f64, likes: Likes) -> f64 {
        let second = likes.of_second.max(likes.turned);
        -7.962 + 2.799 * short_of(self.best) + 2.929 * short_of(cross)
            - 1.607 * short_of(usual.best)
            - 0.372 * short_of(usual.lower)
            - 1.248 * short_of(likes.of_first)
            - 1.321 * short_of(likes.of_first.min(second))
            + 12.177 * (likes.turned - 0.6).max(0.0)
            - 4.564 * self.up
            + 1.202 * self.breadth
            - 0.233 * short_of(self.next)
            - 1.157 * self.ink
    }

    /// Log odds that the letter stands higher or lower than it stood.
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
