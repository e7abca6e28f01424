//! From the evidence to a verdict.

use super::drift::{Line, Word};
use super::lines::LineWeight;
use super::resemblance::unlike;
use super::{say, weight};
use crate::changes::{DOUBTFUL, Judged, SURE, in_line, logistic};
use crate::evenness::is_even;
use crate::one_copy;
use crate::reading::Reading;
use crate::record::{
    Change, ChangeClass, Comparison, DriftPoint, LineFinding, Placement, Residual, StraightEdge, box_px,
    to_thousandths,
};
use crate::standing::Standing;
use crate::verdict::Verdict;
use crate::words::Alignment;
use register::{CannotLay, Laid};
use sheet::Point;

/// All that was found out about two photographs that lie on each other.
pub(super) struct Evidence<'e> {
    pub(super) residual: Residual,
    pub(super) straight_edge: Vec<StraightEdge>,
    pub(super) placement: Placement,
    pub(super) lines: &'e [Line],
    pub(super) words: &'e [Vec<Word>],
    pub(super) weights: &'e [LineWeight],
    pub(super) judged: Judged,
    /// Text matched in its order, wherever it stands.
    pub(super) in_common: Option<Alignment>,
    pub(super) found_share: f64,
    pub(super) x_height: f64,
}

/// Share of the words matched in their order below which two texts differ (the definition).
pub(super) const SAME_TEXT: f64 = 0.6;
/// The same of a page of few words: two title-pages or notices share their formulas, and what stands between two
/// formulas is taken for common with them, so that the fewer words a page has the more of them are matched that are not
/// the same. Up to the first number of words this share is asked, from the second on [`SAME_TEXT`]. Of 60 simulated pairs
/// of two texts 12 had been called one, nine of them with less than this share; of 210 of one text set twice one of so
/// few words has less.
const SAME_SHORT_TEXT: f64 = 0.72;
const SHORT_TEXT: [f64; 2] = [90.0, 130.0];
/// The least share of one text that is matched where much of it took no ink: of one text over other line-ends on nine
/// such simulated pairs 0.29 to 0.57 was, so that under [`SAME_TEXT`] nothing can be said of those.
const SAME_TEXT_UNEVEN: f64 = 0.25;
/// Words needed on either side before a text is called another: two details of one sheet share none.
pub(super) const FEWEST_FOR_TEXT: usize = 20;
/// Words needed on either side to say that it is one text over other line-ends.
const FEWEST_FOR_SAME_TEXT: usize = 40;
/// Share of lines that begin alike from which two sides have the same line-ends.
const SAME_LINE_ENDS: f64 = 0.667;
/// Words that must have been judged before anything is said of the setting.
const FEWEST_JUDGED: usize = 8;
/// Share of judged words in lines set again from which the whole is another setting.
const ALL_RESET: f64 = 0.8;
/// Least share of a page's words that must stand in lines that could be judged, if the whole is another setting.
pub(super) const LEAST_JUDGED: f64 = 0.25;
/// Lines clearly set again from which type is partly reset: one may be spaced out anew about corrections (FACTS §8).
const FEWEST_CLEARLY_RESET: usize = 2;
/// Lines set again, clearly or not, and their share of those judged, from which it is.
const FEWEST_RESET_LINES: usize = 3;
const LEAST_RESET_SHARE: f64 = 0.1;

/// Counts of words by what their lines did.
struct Tally {
    judged: usize,
    reset: usize,
    other: usize,
    lines_set_again: usize,
    lines_clearly_set_again: usize,
    judged_lines: usize,
    found: usize,
    tried: usize,
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
            lines_set_again: weights.iter().filter(|w| w.is_set_again()).count(),
            lines_clearly_set_again: weights.iter().filter(|w| w.is_clearly_set_again()).count(),
            judged_lines: weights.iter().filter(|w| w.standing != Standing::Unjudged).count(),
            found: weights.iter().map(|w| w.found).sum(),
            tried: weights.iter().map(|w| w.tried).sum(),
        }
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

    /// Share of the words looked for that stand in lines that could be judged.
    fn judged_share(&self) -> f64 {
        if self.tried == 0 { 0.0 } else { self.judged as f64 / self.tried as f64 }
    }

    /// Whether most words that do not stand are other words: spaces then say nothing.
    fn by_words_alone(&self) -> bool {
        self.other > self.reset
    }

    fn reset_share(&self) -> f64 {
        if self.judged == 0 { 0.0 } else { (self.reset + self.other) as f64 / self.judged as f64 }
    }
}

/// The verdict on two photographs that lie on each other.
pub(super) fn with_placement(a: &Reading, b: &Reading, laid: &Laid, e: Evidence<'_>) -> Comparison {
    let tally = Tally::of(e.weights);
    let (mut changes, mut doubtful): (Vec<Change>, Vec<Change>) =
        respaced(&e, laid, &tally).into_iter().partition(|c| c.score >= SURE);
    changes.extend(e.judged.sure.iter().cloned());
    doubtful.extend(e.judged.doubtful.iter().cloned());
    let raw = weight::together(e.weights.iter().filter_map(|w| w.log10_by_manner));
    let verdict = at_one_with(
        weight::calibrated(raw, tally.judged_lines),
        verdict(a, b, &tally, e.in_common, !changes.is_empty()),
        tally.by_words_alone(),
    );
    let text_share = e.in_common.map(|text| text.matched_share().max(tally.found_in_place()));
    let is_one_text = text_share.is_some_and(|share| share >= same_text(fewer_words(a, b)));
    let weight_log10 = match verdict {
        Verdict::DifferentText | Verdict::PartlyReset => None,
        // Of what may be another text the spaces say nothing.
        Verdict::Undetermined if tally.judged < FEWEST_JUDGED || !is_one_text => None,
        Verdict::DifferentSetting if tally.by_words_alone() => Some(weight::of_other_line_ends()),
        _ => Some(weight::calibrated(raw, tally.judged_lines)),
    };
    let unlike = weight_log10.and_then(|_| unlike(a, b, tally.found));
    if matches!(verdict, Verdict::DifferentText | Verdict::DifferentSetting | Verdict::Undetermined) {
        // Of another setting every word differs: places are no news.
        changes.clear();
        doubtful.clear();
    }
    if verdict == Verdict::PartlyReset {
        // Of lines that hold other words it is said that they do.
        let in_other_words =
            |c: &Change| c.line.is_some_and(|n| e.weights[n - 1].standing == Standing::OtherWords);
        changes.retain(|c| !in_other_words(c));
        doubtful.retain(|c| !in_other_words(c));
    }
    let mut out = Comparison {
        verdict,
        weight_log10,
        weight_basis: weight_log10.map(|_| weight::basis(unlike.is_none())),
        residual: e.residual,
        changes,
        doubtful,
        lines: findings(e.lines, e.words, e.weights, &e.judged.likeness),
        straight_edge: e.straight_edge,
        words_matched: text_share.map(to_thousandths),
        lines_begin_alike: begin_alike(e.in_common),
        perhaps_one_copy: perhaps_one_copy(a, b, laid, verdict),
        reasons: Vec::new(),
        cautions: Vec::new(),
        warnings: Vec::new(),
        placement: Some(e.placement),
    };
    say::reasons(&mut out, [a, b], e.x_height, e.found_share);
    out.cautions.extend(unlike.as_deref().map(say::unlike_those_behind));
    say::cautions(&mut out, a, b);
    out
}

/// What is said where two photographs of one setting may show one copy.
fn perhaps_one_copy(a: &Reading, b: &Reading, laid: &Laid, verdict: Verdict) -> Option<String> {
    let one_setting = matches!(verdict, Verdict::SameSetting | Verdict::SameSettingWithDifferences);
    let agreement = one_setting.then(|| one_copy::agreement(a, b, laid)).flatten()?;
    agreement.is_of_one_copy().then(say::perhaps_one_copy)
}

/// Weight, either way, below which the lines together say nothing of the setting: not worth more than a bare mention in
/// the scale of Kass & Raftery, *J. American Statistical Association* 90 (1995), 773-795 (from memory).
const BARE_MENTION: f64 = 0.5;

/// The verdict, unless the lines together weigh against it, or hardly for it: then nothing is sure. Where most lines that
/// differ hold other words (`other_words`) the weight of spaces says nothing.
fn at_one_with(weight: f64, verdict: Verdict, other_words: bool) -> Verdict {
    match verdict {
        Verdict::SameSetting | Verdict::SameSettingWithDifferences if weight < BARE_MENTION => {
            Verdict::Undetermined
        }
        Verdict::DifferentSetting if weight > -BARE_MENTION && !other_words => Verdict::Undetermined,
        _ => verdict,
    }
}

/// Share of so many words, those of the side that has fewer, which must be matched in their order if both are one text.
pub(super) fn same_text(words: usize) -> f64 {
    let [short, long] = SHORT_TEXT;
    let from_long = ((long - words as f64) / (long - short)).clamp(0.0, 1.0);
    SAME_TEXT + (SAME_SHORT_TEXT - SAME_TEXT) * from_long
}

/// Whether two sides of which too small a share of the words is matched for one text carry two: of few words, or where
/// much took no ink, that cannot be said.
fn is_another_text(a: &Reading, b: &Reading, share: f64) -> bool {
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

fn begin_alike(in_common: Option<Alignment>) -> Option<f64> {
    in_common.and_then(|text| text.lines_begin_alike()).map(to_thousandths)
}

fn verdict(a: &Reading, b: &Reading, tally: &Tally, in_common: Option<Alignment>, differs: bool) -> Verdict {
    let share = in_common.map_or(0.0, |text| text.matched_share()).max(tally.found_in_place());
    if share < same_text(fewer_words(a, b)) {
        let another = is_another_text(a, b, share);
        return if another { Verdict::DifferentText } else { Verdict::Undetermined };
    }
    if tally.judged < FEWEST_JUDGED {
        return Verdict::Undetermined;
    }
    let reset = tally.reset_share();
    // Other line-ends have no residual; then the words alone must show that it is one text, and two title-pages
    // or colophons of one printer share too many of their few words.
    if reset >= ALL_RESET && tally.by_words_alone() && fewer_words(a, b) < FEWEST_FOR_SAME_TEXT {
        Verdict::Undetermined
    } else if reset >= ALL_RESET && tally.judged_share() < LEAST_JUDGED {
        // The few lines that could be judged may be those that the paper spoiled.
        Verdict::Undetermined
    } else if reset >= ALL_RESET && tally.by_words_alone() && have_their_line_ends(begin_alike(in_common)) {
        Verdict::Undetermined
    } else if reset >= ALL_RESET {
        Verdict::DifferentSetting
    } else if tally.is_partly_reset() {
        Verdict::PartlyReset
    } else if differs {
        Verdict::SameSettingWithDifferences
    } else {
        Verdict::SameSetting
    }
}

/// Lines spaced otherwise or moved whole, among lines that stand, as places that differ.
fn respaced(e: &Evidence<'_>, laid: &Laid, tally: &Tally) -> Vec<Change> {
    if tally.is_partly_reset() {
        return Vec::new();
    }
    let lines = e.lines.iter().zip(e.weights).enumerate();
    lines
        .filter_map(|(i, (line, w))| {
            let (class, score) = match w.standing {
                Standing::Moved => (ChangeClass::SortMoved, score_of_moving(w)),
                Standing::Reset | Standing::Respaced => (ChangeClass::LineRespaced, score_of_spacing(w)),
                _ => return None,
            };
            Some(in_line(i, class, score, line.bounds, Point::new(0.0, 0.0), laid))
        })
        .collect()
}

/// Score of a line that was raised or lowered: that it was is sure, or it is not said.
const RAISED_SCORE: f64 = 0.9;
/// Words from which a line is said to have slid along itself: a few slide with the paper beside a fold. Of six such
/// lines with fewer words none had been moved (720 simulated pairs); of 60 off their height all but two had.
const FEWEST_FOR_SLIDING: usize = 6;

/// How surely a line was moved whole (0 to 1): off its height, or along itself.
fn score_of_moving(w: &LineWeight) -> f64 {
    if w.off_height || w.found >= FEWEST_FOR_SLIDING { RAISED_SCORE } else { DOUBTFUL }
}

/// How surely one line alone, among lines that stand, was spaced otherwise (0 to 1). A few words of it beside a
/// fold or a tear say as much for that as one in ten million; a line spaced out at press says far more
/// (looked at on simulated pairs; docs/benchmarks.md).
fn score_of_spacing(w: &LineWeight) -> f64 {
    let score = logistic((w.spaced_log10 - ONE_LINE) / 2.0);
    // Set again of the same pieces: it is the paper, unless about a correction, which would have been told.
    let same_pieces = w.standing == Standing::Reset && w.has_the_same_sorts();
    let may_be_paper = w.by_all_print == Standing::Same || same_pieces;
    if may_be_paper || w.found < FEWEST_FOR_ONE_LINE { score.min(DOUBTFUL) } else { score.min(RAISED_SCORE) }
}

/// Log10 of the likelihood from which one line alone is said to be spaced otherwise, and its words.
const ONE_LINE: f64 = 8.0;
const FEWEST_FOR_ONE_LINE: usize = 4;

fn findings(
    lines: &[Line],
    words: &[Vec<Word>],
    weights: &[LineWeight],
    likeness: &[Option<f64>],
) -> Vec<LineFinding> {
    lines
        .iter()
        .zip(words)
        .zip(weights)
        .enumerate()
        .map(|(i, ((line, words), weight))| LineFinding {
            number: i + 1,
            standing: weight.standing,
            weight_log10: weight.log10.map(|v| (v * 100.0).round() / 100.0),
            box_a_px: box_px(line.bounds),
            words_found: weight.found,
            likeness: likeness.get(i).copied().flatten().map(to_thousandths),
            words: words.len(),
            sorts: weight.sorts,
            drift: words
                .iter()
                .filter_map(|w| {
                    w.drift.map(|d| DriftPoint {
                        along_px: w.bounds.centre().x.round(),
                        drift_px: (d.along * 100.0).round() / 100.0,
                        sd_px: (d.error().hypot(weight.error) * 100.0).round() / 100.0,
                    })
                })
                .collect(),
        })
        .collect()
}

/// The verdict on two photographs that could not be laid on each other.
pub(super) fn without_placement(
    a: &Reading,
    b: &Reading,
    why: CannotLay,
    in_common: Option<Alignment>,
) -> Comparison {
    let words = fewer_words(a, b);
    let matched = in_common.map(|text| text.matched_share());
    let can_be_said = words >= FEWEST_FOR_SAME_TEXT && !have_their_line_ends(begin_alike(in_common));
    let verdict = match matched {
        Some(m) if m >= same_text(words) && can_be_said => Verdict::DifferentSetting,
        Some(m) if m >= same_text(words) => Verdict::Undetermined,
        Some(m) if is_another_text(a, b, m) => Verdict::DifferentText,
        _ => Verdict::Undetermined,
    };
    let weight_log10 = (verdict == Verdict::DifferentSetting).then(weight::of_other_line_ends);
    let mut out = Comparison {
        verdict,
        weight_log10,
        // The pairs behind it could all be laid together.
        weight_basis: weight_log10.map(|_| weight::basis(false)),
        residual: Residual::default(),
        changes: Vec::new(),
        doubtful: Vec::new(),
        lines: Vec::new(),
        straight_edge: Vec::new(),
        words_matched: matched.map(to_thousandths),
        lines_begin_alike: begin_alike(in_common),
        perhaps_one_copy: None,
        reasons: vec![say::sentence(&why.to_string())],
        cautions: Vec::new(),
        warnings: Vec::new(),
        placement: None,
    };
    say::reasons_without_placement(&mut out, a, b);
    say::cautions(&mut out, a, b);
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standing::{CARES, Likelihoods, MANNERS};

    #[test]
    fn of_few_words_more_must_be_matched() {
        let asked: Vec<f64> = [20, 90, 110, 130, 400].map(same_text).to_vec();
        assert!(asked.windows(2).all(|w| w[0] >= w[1]), "{asked:?}");
        assert!((asked[0] - SAME_SHORT_TEXT).abs() < 1e-9 && (asked[4] - SAME_TEXT).abs() < 1e-9);
    }

    /// A line that was found to do the one now and the other while all print told the paper's motion; `clear`: how much
    /// likelier it was set again than anything else, natural logarithm.
    fn line(standing: Standing, by_all_print: Standing, clear: f64) -> LineWeight {
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
    fn lines_that_slid_together_are_not_set_again() {
        for by_all_print in [Standing::Same, Standing::Unjudged] {
            let slid = line(Standing::Reset, by_all_print, 30.0);
            assert!(!is_partly_reset(5, &[slid; 4]), "{by_all_print:?}");
        }
        let slid = line(Standing::Reset, Standing::Same, 30.0);
        assert!(score_of_spacing(&slid) < SURE);
        assert!(score_of_spacing(&LineWeight { by_all_print: Standing::Reset, ..slid }) > SURE);
    }

    #[test]
    fn a_few_words_that_slid_along_their_line_are_doubtful_and_a_raised_line_is_not() {
        let slid = line(Standing::Moved, Standing::Moved, -5.0);
        assert!(score_of_moving(&slid) < SURE);
        assert!(score_of_moving(&LineWeight { found: 8, ..slid }) > SURE);
        assert!(score_of_moving(&LineWeight { off_height: true, ..slid }) > SURE);
    }
}
