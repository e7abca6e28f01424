//! Words that another word pushed along their line, farther than words are looked for at first.
//!
//! Where a line is not justified (verse, the last line of a paragraph), a longer word pushes all that follow it along by
//! what it is longer. So they are looked for farther along the line, and believed where two or more went equally far.

use super::drift::{Line, REACH_ACROSS, Word};
use rayon::prelude::*;
use register::{Laid, Pyramid, Reach, follow};

/// How far a word is looked for along its line, in x-heights: by so much a word of eight letters is longer than one of
/// three.
const ALONG: f64 = 10.0;
/// Words that went equally far lie within so many x-heights of it.
const EQUALLY: f64 = 0.25;
/// Words that are looked for in a line, and found, at the least.
const FEWEST: usize = 2;
/// Share of all words that must have been found in their places. Of another text words are found anywhere.
const MOST_STAND: f64 = 0.5;

/// Looks farther along their lines for words that were not found.
pub(super) fn look(a: &Pyramid, b: &Pyramid, laid: &Laid, lines: &[Line], words: &mut [Vec<Word>]) {
    let found = words.iter().flatten().filter(|w| w.is_found()).count();
    let all: usize = words.iter().map(Vec::len).sum();
    if (found as f64) < MOST_STAND * all as f64 {
        return;
    }
    words.par_iter_mut().zip(lines).for_each(|(words, line)| {
        let sought: Vec<usize> = (0..words.len())
            .filter(|&k| words[k].found.is_some() && !words[k].is_found() && !words[k].astride)
            .collect();
        if sought.len() < FEWEST {
            return;
        }
        let boxes: Vec<_> = sought.iter().map(|&k| line.boxed(words[k].bounds)).collect();
        let reach = Reach::of_lines(ALONG * line.x_height, REACH_ACROSS * line.x_height, line.turn);
        let there: Vec<(usize, Word)> = sought
            .into_iter()
            .zip(follow(a, b, laid, &boxes, reach))
            .map(|(k, found)| (k, Word { found, ..words[k] }))
            .filter(|(_, word)| word.is_placed())
            .collect();
        let along = |(_, w): &(usize, Word)| w.found.map(|f| line.along(&f, laid));
        let went: Vec<f64> = there.iter().filter_map(along).collect();
        for (i, (k, word)) in there.iter().enumerate() {
            if went_together(&went, i, EQUALLY * line.x_height) {
                words[*k] = *word;
            }
        }
    });
}

/// Whether enough of the words went as far as word `i`, to within `most`.
fn went_together(went: &[f64], i: usize, most: f64) -> bool {
    went.iter().filter(|w| (**w - went[i]).abs() <= most).count() >= FEWEST
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_word_found_far_away_is_another_of_its_kind() {
        let went = [88.0, 90.0, -35.0, 140.0];
        let believed: Vec<usize> = (0..4).filter(|&i| went_together(&went, i, 5.0)).collect();
        assert_eq!(believed, [0, 1]);
    }
}
