//! What the text and its lines say of the setting, before the ink of any word is compared.

use super::lines::LineWeight;
use super::one_text::{
    begin_alike, fewer_words, have_their_line_ends, have_words, in_common, is_another_text, is_one_by_words,
    same_text,
};
use super::weight;
use crate::reading::Reading;
use crate::standing::Standing;
use crate::words::Alignment;

/// What is told of the setting.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Told {
    /// One setting: with or without differences the ink must say.
    OneSetting,
    /// Lines were set again among lines that stand.
    PartlyReset,
    /// The text was set twice.
    AnotherSetting,
    /// Two texts.
    AnotherText,
    /// Neither.
    Nothing,
}

impl Told {
    /// Whether lines stand, so that single places that differ are news: of another setting every word differs.
    pub(super) fn asks_for_places(self) -> bool {
        matches!(self, Self::OneSetting | Self::PartlyReset)
    }
}

/// What the text and its lines say of the setting, and by how much.
#[derive(Debug, Clone, Copy)]
pub(super) struct ByLines {
    pub(super) told: Told,
    /// Weight of the lines together, calibrated; `None` where their spaces say nothing.
    pub(super) weight_log10: Option<f64>,
    /// Share of the text that both have in its order, wherever it stands, or of the words found in their places, whichever
    /// is more; `None` where one has no words.
    pub(super) text_share: Option<f64>,
    /// Text matched in its order; `None` where it was not asked for, or one has no words.
    pub(super) in_common: Option<Alignment>,
    /// Words found where the placement puts them.
    pub(super) found: usize,
}

impl ByLines {
    /// What is told of the setting by `lines`, and by the text in common where these leave it open.
    pub(super) fn of(a: &Reading, b: &Reading, lines: &[LineWeight]) -> Self {
        let tally = Tally::of(lines);
        let raw = weight::together(lines.iter().filter_map(|w| w.log10_by_manner));
        let weight = weight::calibrated(raw, tally.judged_lines);
        let in_common = if tally.shows_one_text() { None } else { in_common(a, b) };
        let by_text = in_common.map_or(0.0, |text| text.matched_share());
        let text_share = have_words(a, b).then(|| by_text.max(tally.found_in_place()));
        let share = text_share.unwrap_or(tally.found_in_place());
        let told = at_one_with(weight, told(a, b, &tally, share, in_common), tally.by_words_alone());
        let is_one_text = text_share.is_some_and(|share| share >= same_text(fewer_words(a, b)));
        let may_be_another = tally.may_be_another(a, b, in_common);
        let weight_log10 = match told {
            Told::AnotherText | Told::PartlyReset => None,
            // Of what may be another text the spaces say nothing.
            Told::Nothing if tally.judged < FEWEST_JUDGED || !is_one_text || may_be_another => None,
            // Of what may be partly reset they say as little as of what is.
            Told::Nothing if !tally.is_set_again_whole() && tally.is_partly_reset() => None,
            Told::AnotherSetting if tally.by_words_alone() => Some(weight::of_other_line_ends()),
            _ => Some(weight),
        };
        Self { told, weight_log10, text_share, in_common, found: tally.found }
    }
}

/// Words that must have been judged before anything is said of the setting.
const FEWEST_JUDGED: usize = 8;
/// Share of the words found in their places that shows one text: more than is asked of the shortest.
const ONE_TEXT_IN_PLACE: f64 = 0.8;
/// Share of judged words in lines that do not stand from which the whole is another setting, if most of those lines were
/// set again: of a text set twice some lines look as if they were but spaced out about one place.
const ALL_RESET: f64 = 0.8;
/// Least share of a page's words that must stand in lines that could be judged, if the whole is another setting.
pub(super) const LEAST_JUDGED: f64 = 0.25;
/// Lines clearly set again from which type is partly reset: one may be spaced out anew about corrections (common practice, no source).
const FEWEST_CLEARLY_RESET: usize = 2;
/// Lines set again, clearly or not, and their share of those judged, from which it is.
const FEWEST_RESET_LINES: usize = 3;
const LEAST_RESET_SHARE: f64 = 0.1;

/// What the lines set again must weigh together against standing (log10), and those that stand against being set again,
/// if type is said to be partly reset: lines spoilt by the paper look set again, and of a text set twice a line of few
/// words looks as if it stood. Of 720 simulated pairs eight had less of the first; four of them were of one setting. Of
/// lines set twice that looked as if they stood, two on one page weighed 7.8 (docs/benchmarks.md).
const LEAST_OF_A_PART: f64 = 8.0;
/// What a line that holds other words counts for there: so rarely is it that words of one setting are not found.
const OF_OTHER_WORDS: f64 = 2.0;

/// Counts of words by what their lines did.
struct Tally {
    judged: usize,
    reset: usize,
    other: usize,
    /// In lines that stand as they stood, or were moved whole.
    stand: usize,
    lines_set_again: usize,
    lines_clearly_set_again: usize,
    judged_lines: usize,
    found: usize,
    tried: usize,
    /// What lines set again weigh together against standing, and what those that stand weigh for it, log10.
    weights_of_parts: [f64; 2],
}

impl Tally {
    fn of(weights: &[LineWeight]) -> Self {
        let words = |keep: &dyn Fn(&LineWeight) -> bool| -> usize {
            weights.iter().filter(|w| keep(w)).map(|w| w.tried).sum()
        };
        Self {
            judged: words(&|w| w.standing != Standing::Unjudged),
            reset: words(&|w| w.standing == Standing::Reset),
            other: words(&|w| w.standing == Standing::OtherWords),
            stand: words(&|w| matches!(w.standing, Standing::Same | Standing::Moved)),
            lines_set_again: weights.iter().filter(|w| w.is_set_again()).count(),
            lines_clearly_set_again: weights.iter().filter(|w| w.is_clearly_set_again()).count(),
            judged_lines: weights.iter().filter(|w| w.standing != Standing::Unjudged).count(),
            found: weights.iter().map(|w| w.found).sum(),
            tried: weights.iter().map(|w| w.tried).sum(),
            weights_of_parts: [
                weights.iter().filter(|w| w.is_set_again()).map(of_a_line_set_again).sum(),
                weights.iter().filter(|w| w.stands()).filter_map(|w| w.log10).sum(),
            ],
        }
    }

    /// Whether both parts of what is partly reset weigh enough.
    fn parts_are_sure(&self) -> bool {
        self.weights_of_parts.iter().all(|w| *w >= LEAST_OF_A_PART)
    }

    /// Whether lines were set again among lines that stand.
    fn is_partly_reset(&self) -> bool {
        let enough = LEAST_RESET_SHARE * self.judged_lines as f64;
        self.lines_clearly_set_again >= FEWEST_CLEARLY_RESET
            || self.lines_set_again >= FEWEST_RESET_LINES && self.lines_set_again as f64 >= enough
    }

    /// Share of the words found where the placement puts them.
    fn found_in_place(&self) -> f64 {
        if self.tried == 0 { 0.0 } else { self.found as f64 / self.tried as f64 }
    }

    /// Whether the two may carry two texts, though enough is matched for one. Other line-ends have no residual; then the
    /// words alone must show that it is one text, and ballads or title-pages share their formulas.
    fn may_be_another(&self, a: &Reading, b: &Reading, in_common: Option<Alignment>) -> bool {
        self.by_words_alone() && !is_one_by_words(fewer_words(a, b), in_common)
    }

    /// Whether so many words were found in their places that it is one text over the same line-ends, whatever else is
    /// matched.
    fn shows_one_text(&self) -> bool {
        self.found_in_place() >= ONE_TEXT_IN_PLACE && !self.by_words_alone()
    }

    /// Share of the words looked for that stand in lines that could be judged.
    fn judged_share(&self) -> f64 {
        if self.tried == 0 { 0.0 } else { self.judged as f64 / self.tried as f64 }
    }

    /// Whether most words that do not stand are other words: spaces then say nothing.
    fn by_words_alone(&self) -> bool {
        self.other > self.reset
    }

    /// Whether hardly a line stands, and most were set again.
    fn is_set_again_whole(&self) -> bool {
        let judged = self.judged as f64;
        self.stand as f64 <= (1.0 - ALL_RESET) * judged && 2 * (self.reset + self.other) > self.judged
    }
}

/// Weight, either way, below which the lines together say nothing of the setting: not worth more than a bare mention in
/// the scale of Kass & Raftery, *J. American Statistical Association* 90 (1995), 773-795 (from memory).
const BARE_MENTION: f64 = 0.5;

/// What is told, unless the lines together weigh against it, or hardly for it: then nothing is sure. Where most lines that
/// differ hold other words (`other_words`) the weight of spaces says nothing.
fn at_one_with(weight: f64, told: Told, other_words: bool) -> Told {
    match told {
        Told::OneSetting if weight < BARE_MENTION => Told::Nothing,
        Told::AnotherSetting if weight > -BARE_MENTION && !other_words => Told::Nothing,
        _ => told,
    }
}

/// What is told of the setting where such a share of the text is matched.
fn told(a: &Reading, b: &Reading, tally: &Tally, share: f64, in_common: Option<Alignment>) -> Told {
    let words = fewer_words(a, b);
    if share < same_text(words) && !is_one_by_words(words, in_common) {
        let is_another = is_another_text(a, b, share, in_common);
        return if is_another { Told::AnotherText } else { Told::Nothing };
    }
    if tally.judged < FEWEST_JUDGED {
        return Told::Nothing;
    }
    if tally.is_set_again_whole() {
        // The few lines that could be judged may be those that the paper spoiled.
        let too_few = tally.judged_share() < LEAST_JUDGED;
        let followed_badly = tally.by_words_alone() && have_their_line_ends(begin_alike(in_common));
        if tally.may_be_another(a, b, in_common) || too_few || followed_badly {
            Told::Nothing
        } else {
            Told::AnotherSetting
        }
    } else if !tally.is_partly_reset() {
        Told::OneSetting
    } else if tally.parts_are_sure() {
        Told::PartlyReset
    } else {
        Told::Nothing
    }
}

/// What a line set again weighs against standing, log10.
fn of_a_line_set_again(line: &LineWeight) -> f64 {
    line.log10.map_or(OF_OTHER_WORDS, |log10| -log10)
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crate::standing::{CARES, Likelihoods, MANNERS};

    /// A line that was found to do the one now and the other while all print told the paper's motion; `clear`: how much
    /// likelier it was set again than anything else, natural logarithm.
    pub(in crate::setting) fn line(standing: Standing, by_all_print: Standing, clear: f64) -> LineWeight {
        LineWeight {
            standing,
            likelihoods: Some(Likelihoods {
                same: -clear,
                moved: -clear,
                respaced: -clear,
                reset: [0.0; CARES],
            }),
            log10: Some(0.0),
            log10_by_manner: Some([0.0; MANNERS]),
            spaced_log10: 12.0,
            found: 5,
            tried: 6,
            error: 0.1,
            off_height: false,
            by_all_print,
            sorts: None,
        }
    }

    fn is_partly_reset(among: usize, lines: &[LineWeight]) -> bool {
        let stands = line(Standing::Same, Standing::Same, -5.0);
        let all: Vec<LineWeight> = lines.iter().copied().chain(vec![stands; among]).collect();
        Tally::of(&all).is_partly_reset()
    }

    #[test]
    fn two_lines_clearly_set_again_are_a_part_and_one_is_a_correction() {
        let clear = line(Standing::Reset, Standing::Reset, 6.0);
        assert!(is_partly_reset(60, &[clear; 2]));
        assert!(!is_partly_reset(60, &[clear]));
        let respaced_as_well = line(Standing::Reset, Standing::Reset, 1.0);
        assert!(!is_partly_reset(60, &[respaced_as_well; 3]));
        assert!(is_partly_reset(20, &[respaced_as_well; 3]));
    }

    #[test]
    fn a_text_of_which_no_line_stands_was_set_twice() {
        let lines = |of: [(Standing, usize); 3]| -> Vec<LineWeight> {
            of.into_iter().flat_map(|(s, n)| vec![line(s, s, 6.0); n]).collect()
        };
        let whole = |of| Tally::of(&lines(of)).is_set_again_whole();
        assert!(whole([(Standing::Reset, 19), (Standing::Respaced, 7), (Standing::Same, 0)]));
        assert!(whole([(Standing::Reset, 17), (Standing::Respaced, 0), (Standing::Same, 3)]));
        assert!(!whole([(Standing::Reset, 12), (Standing::Respaced, 2), (Standing::Same, 7)]), "a part");
        assert!(!whole([(Standing::Reset, 3), (Standing::Respaced, 9), (Standing::Same, 0)]), "spaced out");
    }

    #[test]
    fn a_part_must_weigh_something() {
        let weighing = |standing, log10| LineWeight { log10, ..line(standing, standing, 6.0) };
        let parts_are_sure = |set_again: &[LineWeight], stand: f64| {
            let stand = weighing(Standing::Same, Some(stand));
            Tally::of(&[set_again, &[stand; 3]].concat()).parts_are_sure()
        };
        let (faint, clear) = (weighing(Standing::Reset, Some(-1.5)), weighing(Standing::Reset, Some(-4.5)));
        assert!(parts_are_sure(&[clear; 2], 6.0));
        assert!(!parts_are_sure(&[faint; 3], 6.0), "spoilt by the paper");
        assert!(!parts_are_sure(&[clear; 9], 2.0), "set twice, and three lines look as if they stood");
        assert!(parts_are_sure(&[weighing(Standing::OtherWords, None); 4], 6.0));
    }

    #[test]
    fn lines_that_slid_together_are_not_set_again() {
        for by_all_print in [Standing::Same, Standing::Unjudged] {
            let slid = line(Standing::Reset, by_all_print, 30.0);
            assert!(!is_partly_reset(5, &[slid; 4]), "{by_all_print:?}");
        }
    }
}
