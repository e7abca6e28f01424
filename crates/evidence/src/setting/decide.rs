//! From the evidence to a verdict.

use super::by_lines::{ByLines, Told};
use super::drift::{Line, Word};
use super::lines::LineWeight;
use super::one_text::{
    begin_alike, fewer_words, have_their_line_ends, is_another_text, is_one_by_words, same_text,
};
use super::resemblance::unlike;
use super::{say, weight};
use crate::cautions;
use crate::changes::{DOUBTFUL, Judged, SURE, in_line, logistic};
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
    pub(super) by_lines: ByLines,
    /// None of another setting: every word differs there, and places are no news.
    pub(super) judged: Judged,
    pub(super) found_share: f64,
    pub(super) x_height: f64,
}

/// The verdict on two photographs that lie on each other.
pub(super) fn with_placement(a: &Reading, b: &Reading, laid: &Laid, e: Evidence<'_>) -> Comparison {
    let ByLines { told, weight_log10, text_share, in_common, found } = e.by_lines;
    let (mut changes, mut doubtful) = (e.judged.sure.clone(), e.judged.doubtful.clone());
    if told == Told::OneSetting {
        let (sure, unsure): (Vec<Change>, Vec<Change>) =
            respaced(&e, laid).into_iter().partition(|c| c.score >= SURE);
        changes.splice(0..0, sure);
        doubtful.splice(0..0, unsure);
    }
    if told == Told::PartlyReset {
        // Of lines that hold other words it is said that they do.
        let in_other_words =
            |c: &Change| c.line.is_some_and(|n| e.weights[n - 1].standing == Standing::OtherWords);
        changes.retain(|c| !in_other_words(c));
        doubtful.retain(|c| !in_other_words(c));
    }
    let verdict = match told {
        Told::OneSetting if changes.is_empty() => Verdict::SameSetting,
        Told::OneSetting => Verdict::SameSettingWithDifferences,
        Told::PartlyReset => Verdict::PartlyReset,
        Told::AnotherSetting => Verdict::DifferentSetting,
        Told::AnotherText => Verdict::DifferentText,
        Told::Nothing => Verdict::Undetermined,
    };
    let per_mm = a.scale.as_ref().map(|s| s.ppi.px_per_mm());
    for change in changes.iter_mut().chain(&mut doubtful) {
        change.measure(per_mm, e.x_height);
    }
    let unlike = weight_log10.and_then(|_| unlike(a, b, found));
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
        lines_begin_alike: begin_alike(in_common),
        perhaps_one_copy: perhaps_one_copy(a, b, laid, verdict),
        reasons: Vec::new(),
        cautions: Vec::new(),
        warnings: Vec::new(),
        placement: Some(e.placement),
    };
    say::reasons(&mut out, [a, b], in_common, e.x_height, e.found_share);
    out.cautions = cautions::of_pair(verdict, true, [a, b], unlike.as_deref());
    out
}

/// What is said where two photographs of one setting may show one copy.
fn perhaps_one_copy(a: &Reading, b: &Reading, laid: &Laid, verdict: Verdict) -> Option<String> {
    let agreement = verdict.is_one_setting().then(|| one_copy::agreement(a, b, laid)).flatten()?;
    agreement.is_of_one_copy().then(say::perhaps_one_copy)
}

/// Lines spaced otherwise or moved whole, among lines that stand, as places that differ.
fn respaced(e: &Evidence<'_>, laid: &Laid) -> Vec<Change> {
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
    let differ = !have_their_line_ends(begin_alike(in_common));
    let verdict = match matched {
        Some(_) if differ && is_one_by_words(words, in_common) => Verdict::DifferentSetting,
        Some(m) if m >= same_text(words) => Verdict::Undetermined,
        Some(m) if is_another_text(a, b, m, in_common) => Verdict::DifferentText,
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
    say::reasons_without_placement(&mut out, [a, b], in_common);
    out.cautions = cautions::of_pair(out.verdict, false, [a, b], None);
    out
}

#[cfg(test)]
mod tests {
    use super::super::by_lines::tests::line;
    use super::*;

    #[test]
    fn a_line_that_may_have_slid_with_the_paper_is_doubtful() {
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
