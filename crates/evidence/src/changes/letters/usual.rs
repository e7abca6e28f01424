//! What is usual of the letters of a page.

use super::Letter;
use crate::rank::{median, quantile};

/// What is usual of the letters of lines that stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Usual {
    /// Median correlation of a letter with itself on the other impression.
    best: f64,
    /// How far nine letters in ten are off those beside them at most, along the line and across it, x-heights.
    off: [f64; 2],
}

/// Fewest letters that tell what is usual.
const FEWEST: usize = 20;
/// So many stay below what is usual.
const SHARE: f64 = 0.9;
/// Letters less like themselves do not tell where the others of their word stand.
const TELLS: f64 = 0.6;

impl Usual {
    /// From the words of all lines that stand; `None` of too few letters.
    pub(crate) fn of<'l>(words: impl Iterator<Item = &'l [Letter]>) -> Option<Self> {
        let (mut best, mut off) = (Vec::new(), [Vec::new(), Vec::new()]);
        for word in words {
            for (k, letter) in word.iter().enumerate() {
                best.push(letter.best);
                let o = off_others(word, k);
                (0..2).for_each(|i| off[i].push(o[i].abs()));
            }
        }
        if best.len() < FEWEST {
            return None;
        }
        let [aside, up_or_down] = off.map(|o| quantile(o, SHARE));
        Some(Self { best: quantile(best, 0.5)?, off: [aside?, up_or_down?] })
    }

    /// Median correlation of a letter with itself on the other impression.
    pub(crate) fn likeness(self) -> f64 {
        self.best
    }

    /// How far nine letters in ten are off those beside them at most, along the line and across it, x-heights.
    pub(crate) fn off(self) -> [f64; 2] {
        self.off
    }
}

/// How far letter `k` of a word is off the others of it, right and down, x-heights; off its place if it is alone.
pub(crate) fn off_others(word: &[Letter], k: usize) -> [f64; 2] {
    let tell = || word.iter().enumerate().filter(|(j, l)| *j != k && l.best > TELLS);
    if tell().next().is_none() {
        return word[k].off;
    }
    [0, 1].map(|i| word[k].off[i] - median(tell().map(|(_, l)| l.off[i]).collect()))
}
