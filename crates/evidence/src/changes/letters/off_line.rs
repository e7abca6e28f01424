//! Does a sort stand off its line, or lean?

use super::Letter;
use super::leaning::{ITSELF, MOST_LEANING};
use super::usual::off_others;
use crate::changes::page::PageOfWords;
use crate::changes::signs::short_of;
use crate::changes::word::WordDifference;
use serde::Serialize;
use sheet::Rect;

/// How far a letter may be off that stands, in x-heights.
const STANDS: f64 = 0.08;
/// Log ratio of ink below which nothing of a letter's size stands in its place: that is ink lost.
const THERE: f64 = -1.2;
/// Neighbours of a letter are nearer than this, in x-heights.
const NEXT: f64 = 0.8;
/// A neighbour's likeness where there is none to ask, less the median.
const NO_NEIGHBOUR: f64 = 0.05;
/// A little length, x-heights, so that none has a logarithm.
const SHORT: f64 = 0.02;
/// Beyond these more says no more: a letter off, leaning likeness gained, from a crease or a fold, x-heights.
const FARTHEST: f64 = 0.45;
const MOST_GAINED: f64 = 0.4;
const FAR: f64 = 6.0;

/// What is seen of a letter that is unlike itself or off its place, and about it. Lengths in x-heights; what a likeness
/// lacks of full likeness as its natural logarithm.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize)]
pub struct LetterSigns {
    /// What it lacks of likeness to itself where it fits best.
    pub itself: f64,
    /// The same where the word puts it.
    pub here: f64,
    /// How much liker itself it is where it fits best than where the word puts it.
    pub gain: f64,
    /// How far it is off the other letters of its word, along the line.
    pub aside: f64,
    /// The same across the line.
    pub up_or_down: f64,
    /// Logarithm of how far letters of the page commonly are, along the line.
    pub usual_aside: f64,
    /// The same across the line.
    pub usual_up_or_down: f64,
    /// By what factor it is farther off than they, along the line; a logarithm.
    pub aside_above: f64,
    /// The same across the line.
    pub up_or_down_above: f64,
    /// How far the others of its word are off at most, along the line or across it.
    pub others_off: f64,
    /// What letters of the page commonly lack of likeness to themselves.
    pub usual: f64,
    /// What the least alike of the letters beside it lacks.
    pub next: f64,
    /// How far the one of them farthest off is off.
    pub next_off: f64,
    /// How many letters its word has.
    pub letters: f64,
    /// How much liker it is leant over than upright, on the second.
    pub lean_gain: f64,
    /// What it lacks of likeness leant over.
    pub leant: f64,
    /// By how much it leans then, as a share of the most that is asked.
    pub lean: f64,
    /// Logarithm of its ink on the second over that on the first.
    pub ink: f64,
    /// Of its ink, laid where it fits best, the share that stands on one only: the greater.
    pub greater: f64,
    /// The lesser.
    pub lesser: f64,
    /// Logarithm of its breadth.
    pub breadth: f64,
    /// Logarithm of its height.
    pub height: f64,
    /// Correlation of its word, less what is usual on the page.
    pub word: f64,
    /// Share of ink about it that stands on the first only.
    pub lost_about: f64,
    /// The same on the second only.
    pub gained_about: f64,
    /// Share of ink that stands in one only straight above and below: a fold goes on.
    pub over_and_under: f64,
    /// From it to the nearest crease.
    pub crease: f64,
    /// From it to the nearest fold that the paper shows, on either photograph.
    pub fold: f64,
    /// Logarithm of the mass of differing ink below which nine words of the page in ten stay, square x-heights.
    pub noise: f64,
    /// Logarithm of the x-height in pixels.
    pub pixels: f64,
}

impl LetterSigns {
    /// Of letter `k` of a word, which lies `there` on the second. `None` of a letter that stands and is like itself, and
    /// where there is nothing.
    pub(in crate::changes) fn of(
        seen: &WordDifference,
        k: usize,
        page: &PageOfWords,
        there: Rect,
        x_height: f64,
    ) -> Option<Self> {
        let (word, letter) = (&seen.letters, &seen.letters[k]);
        let usual = page.letters?;
        let off = off_others(word, k).map(f64::abs);
        let is_there = letter.second.is_some() && letter.ink > THERE;
        if !is_there || (letter.best > ITSELF && off[0].hypot(off[1]) < STANDS) {
            return None;
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
        let far = |l: &Letter| l.off[0].hypot(l.off[1]);
        let next = near.iter().map(|m| m.best).reduce(f64::min).unwrap_or(usual.likeness() - NO_NEIGHBOUR);
        let around = page.around(letter.bounds, x_height);
        let above = |off: f64, usual: f64| ((off + SHORT) / (usual + SHORT)).ln();
        Some(Self {
            itself: short_of(letter.best),
            here: short_of(letter.here),
            gain: (letter.best - letter.here).min(0.5),
            aside: off[0].min(FARTHEST),
            up_or_down: off[1].min(FARTHEST),
            usual_aside: (usual.off()[0] + SHORT).ln(),
            usual_up_or_down: (usual.off()[1] + SHORT).ln(),
            aside_above: above(off[0], usual.off()[0]),
            up_or_down_above: above(off[1], usual.off()[1]),
            others_off: (0..word.len())
                .filter(|j| *j != k)
                .map(|j| far(&word[j]))
                .fold(0.0, f64::max)
                .min(FARTHEST),
            usual: short_of(usual.likeness()),
            next: short_of(next),
            next_off: near.iter().map(|m| far(m)).fold(0.0, f64::max).min(FARTHEST),
            letters: word.len().min(8) as f64,
            lean_gain: letter.lean_gain().clamp(-MOST_GAINED, MOST_GAINED),
            leant: short_of(letter.leant.map_or(letter.best, |l| l.likeness)),
            lean: letter.leant.map_or(0.0, |l| l.degrees.abs() / MOST_LEANING),
            ink: letter.ink.clamp(-1.5, 1.5),
            greater: letter.astray[0].max(letter.astray[1]),
            lesser: letter.astray[0].min(letter.astray[1]),
            breadth: (letter.bounds.w / x_height).ln(),
            height: (letter.bounds.h / x_height).ln(),
            word: (seen.likeness - page.likeness).max(-0.6),
            lost_about: around.lost.min(FARTHEST),
            gained_about: around.gained.min(FARTHEST),
            over_and_under: around.up.clamp(-0.05, 0.3),
            crease: page.to_crease(letter.bounds.centre(), x_height).min(FAR),
            fold: page.to_fold(letter.bounds, there, x_height).min(FAR),
            noise: page.noise_on_log(),
            pixels: x_height.ln(),
        })
    }
}
