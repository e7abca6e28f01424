//! Whether two sides carry one text, and over the same line-ends, by the words that both have in their order.

use crate::evenness::is_even;
use crate::reading::Reading;
use crate::record::to_thousandths;
use crate::words::Alignment;

/// Share of the words matched in their order below which two texts differ (the definition).
pub(super) const SAME_TEXT: f64 = 0.6;
/// The same of a page of few words: two title-pages or notices share their formulas, and what stands between two
/// formulas is taken for common with them, so that the fewer words a page has the more of them are matched that are not
/// the same. Up to the first number of words this share is asked, from the second on [`SAME_TEXT`]. Of 60 simulated pairs
/// of two texts 12 had been called one, nine of them with less than this share; of 210 of one text set twice one of so
/// few words has less.
const SAME_SHORT_TEXT: f64 = 0.72;
const SHORT_TEXT: [f64; 2] = [90.0, 130.0];
/// The same where words alone must show it. Of 80 simulated pairs of one text over other line-ends 21 have up to 161
/// words, and of those but four 0.91 and more is matched, all of them sound photographs; of pairs of two texts up to 0.89,
/// of two ballads of 140 words.
const SAME_SHORT_TEXT_BY_WORDS: f64 = 0.9;
const SHORT_TEXT_BY_WORDS: [f64; 2] = [130.0, 170.0];
/// The least share of one text that is matched where much of it took no ink: of one text over other line-ends on nine
/// such simulated pairs 0.29 to 0.57 was, so that under [`SAME_TEXT`] nothing can be said of those.
const SAME_TEXT_UNEVEN: f64 = 0.25;
/// Words needed on either side before a text is called another: two details of one sheet share none.
pub(super) const FEWEST_FOR_TEXT: usize = 20;
/// Words needed on either side to say that it is one text over other line-ends.
const FEWEST_FOR_SAME_TEXT: usize = 40;
/// Share of lines that begin alike from which two sides have the same line-ends.
const SAME_LINE_ENDS: f64 = 0.667;

/// Share of so many words, those of the side that has fewer, which must be matched in their order if both are one text.
pub(super) fn same_text(words: usize) -> f64 {
    of_so_many(words, SHORT_TEXT, SAME_SHORT_TEXT)
}

/// The same if words alone must show it, which is so where the line-ends differ.
fn same_text_by_words(words: usize) -> f64 {
    of_so_many(words, SHORT_TEXT_BY_WORDS, SAME_SHORT_TEXT_BY_WORDS)
}

/// The share that is asked of a page of so many words, if of one of `few` words `short` is, and of one of `many`
/// [`SAME_TEXT`].
fn of_so_many(words: usize, [few, many]: [f64; 2], short: f64) -> f64 {
    let from_many = ((many - words as f64) / (many - few)).clamp(0.0, 1.0);
    SAME_TEXT + (short - SAME_TEXT) * from_many
}

/// Whether words alone show that two sides, of which the shorter has so many words, carry one text, if such a share is
/// matched.
pub(super) fn is_one_by_words(words: usize, share: f64) -> bool {
    words >= FEWEST_FOR_SAME_TEXT && share >= same_text_by_words(words)
}

/// Whether two sides of which too small a share of the words is matched for one text carry two: of few words, or where
/// much took no ink, that cannot be said.
pub(super) fn is_another_text(a: &Reading, b: &Reading, share: f64) -> bool {
    let can_be_told = || share < SAME_TEXT_UNEVEN || [a, b].into_iter().all(is_even);
    fewer_words(a, b) >= FEWEST_FOR_TEXT && can_be_told()
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
        assert!(same_text_by_words(70) > 0.84, "two title-pages share their formulas");
        assert!((same_text_by_words(400) - SAME_TEXT).abs() < 1e-9);
    }
}
