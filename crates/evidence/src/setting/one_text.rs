//! Whether two sides carry one text, and over the same line-ends, by the words that both have in their order.

use crate::evenness::is_even;
use crate::reading::Reading;
use crate::record::to_thousandths;
use crate::words::{Alignment, align};

/// Share of the words matched in their order below which two texts differ (the definition).
pub(super) const SAME_TEXT: f64 = 0.6;
/// The same of a page of few words: two title-pages or notices share their formulas, and what stands between two
/// formulas is taken for common with them, so that the fewer words a page has the more of them are matched that are not
/// the same. Up to the first number of words this share is asked, from the second on [`SAME_TEXT`]. Of 60 simulated pairs
/// of two texts 12 had been called one, nine of them with less than this share; of 210 of one text set twice one of so
/// few words has less.
const SAME_SHORT_TEXT: f64 = 0.72;
const SHORT_TEXT: [f64; 2] = [90.0, 130.0];
/// What the share matched and the share of it that is in step must come to together, if words alone show that two sides
/// carry one text: on a page of up to the first number of words, and from the second on. Of 80 simulated pairs of one text
/// over other line-ends the 44 of sound photographs have 1.35 and more, but for one of 248 words with 1.16; of 80 of two
/// texts none has more than 1.31: of verse full of formulas nine words in ten seem to be matched, but not in step. Of 170
/// words and more no two texts had [`SAME_TEXT`] matched.
const MATCHED_AND_IN_STEP: [f64; 2] = [1.34, 1.1];
const SHORT_TEXT_BY_WORDS: [f64; 2] = [130.0, 170.0];
/// From so much together it is not said that there are two texts: of pairs of two texts on which less is matched than is
/// asked of one all have less.
const NOT_ANOTHER: f64 = 1.24;
/// The same where much of one side took no ink: of one text over other line-ends on ten such simulated pairs, of which 0.24
/// to 0.6 was matched, all but one have 0.84 and more; of two texts 0.6 to 0.87.
const NOT_ANOTHER_UNEVEN: f64 = 0.8;
/// Words needed on either side before a text is called another: two details of one sheet share none.
pub(super) const FEWEST_FOR_TEXT: usize = 20;
/// Words needed on either side to say that it is one text over other line-ends.
const FEWEST_FOR_SAME_TEXT: usize = 40;
/// Share of lines that begin alike from which two sides have the same line-ends.
const SAME_LINE_ENDS: f64 = 0.667;

/// What two sides have of one text in its order, wherever it stands; `None` where one has no words.
pub(super) fn in_common(a: &Reading, b: &Reading) -> Option<Alignment> {
    have_words(a, b).then(|| align(&a.words, &b.words))
}

/// Whether words were found on both sides.
pub(super) fn have_words(a: &Reading, b: &Reading) -> bool {
    !a.words.is_empty() && !b.words.is_empty()
}

/// Share of so many words, those of the side that has fewer, which must be matched in their order if both are one text.
pub(super) fn same_text(words: usize) -> f64 {
    of_so_many(words, SHORT_TEXT, [SAME_SHORT_TEXT, SAME_TEXT])
}

/// What is asked of a page of so many words, if of one of `few` words `short` is asked, of one of `many` `long`, and in
/// proportion between.
fn of_so_many(words: usize, [few, many]: [f64; 2], [short, long]: [f64; 2]) -> f64 {
    let from_many = ((many - words as f64) / (many - few)).clamp(0.0, 1.0);
    long + (short - long) * from_many
}

/// Whether words alone show that two sides, of which the shorter has so many words, carry one text.
pub(super) fn is_one_by_words(words: usize, text: Option<Alignment>) -> bool {
    let asked = of_so_many(words, SHORT_TEXT_BY_WORDS, MATCHED_AND_IN_STEP);
    let is_one =
        |t: Alignment| t.matched_share() >= SAME_TEXT && t.matched_share() + t.share_in_step() >= asked;
    words >= FEWEST_FOR_SAME_TEXT && text.is_some_and(is_one)
}

/// Whether two sides of which too small a share of the words, `share`, is matched or found in its place for one text carry
/// two: of few words, or where what is matched is in step, or much took no ink and something is found, that cannot be said.
pub(super) fn is_another_text(a: &Reading, b: &Reading, share: f64, text: Option<Alignment>) -> bool {
    let least = if [a, b].into_iter().all(is_even) { NOT_ANOTHER } else { NOT_ANOTHER_UNEVEN };
    let in_step = text.map_or(0.0, |text| text.share_in_step());
    fewer_words(a, b) >= FEWEST_FOR_TEXT && share + in_step < least
}

/// Words of the side that has fewer.
pub(super) fn fewer_words(a: &Reading, b: &Reading) -> usize {
    a.words.len().min(b.words.len())
}

/// Whether the lines of both begin with the same words, as far as that can be told. Then what seems to be other words was
/// not found, or not read, and shows no other setting.
pub(super) fn have_their_line_ends(begin_alike: Option<f64>) -> bool {
    begin_alike.is_some_and(|share| share > SAME_LINE_ENDS)
}

/// Share of the lines that begin with the same word in both, of those that could be looked at.
pub(super) fn begin_alike(in_common: Option<Alignment>) -> Option<f64> {
    in_common.and_then(|text| text.lines_begin_alike()).map(to_thousandths)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_few_words_more_must_be_matched() {
        let asked: Vec<f64> = [20, 90, 110, 130, 400].map(same_text).to_vec();
        assert!(asked.windows(2).all(|w| w[0] >= w[1]), "{asked:?}");
        assert!((asked[0] - SAME_SHORT_TEXT).abs() < 1e-9 && (asked[4] - SAME_TEXT).abs() < 1e-9);
    }
}
