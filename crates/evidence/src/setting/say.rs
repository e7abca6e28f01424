//! The evidence in words: reasons for the verdict, and reasons for which it could be wrong.

use super::decide::{LEAST_JUDGED, SAME_TEXT, fewer_words, same_text};
use crate::reading::Reading;
use crate::record::{ChangeClass, Comparison, LineFinding};
use crate::standing::Standing;
use crate::verdict::Verdict;

/// A message as a sentence: capital, full stop.
pub(super) fn sentence(message: &str) -> String {
    let mut letters = message.chars();
    letters.next().map_or_else(String::new, |first| {
        format!("{}{}.", first.to_uppercase(), letters.as_str().trim_end_matches('.'))
    })
}

fn counted(n: usize, one: &str, many: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {many}") }
}

/// A length in the best unit that is known: millimetres, else x-heights.
fn length(px: f64, a: &Reading, x_height: f64) -> String {
    match &a.scale {
        Some(s) => format!("{:.3} mm", px / s.ppi.px_per_mm()),
        None => format!("{:.3} of the x-height", px / x_height),
    }
}

/// Share of the print followed from which that is not what was wanting.
const FOLLOWED: f64 = 0.5;

/// Whether lines were judged that hold a fair share of the words.
fn enough_was_judged(out: &Comparison) -> bool {
    let words = |keep: fn(&LineFinding) -> bool| -> usize {
        out.lines.iter().filter(|l| keep(l)).map(|l| l.words).sum()
    };
    let judged = words(|l| l.standing != Standing::Unjudged);
    judged > 0 && judged as f64 >= LEAST_JUDGED * words(|_| true) as f64
}

/// Why the verdict is what it is.
pub(super) fn reasons(out: &mut Comparison, [a, b]: [&Reading; 2], x_height: f64, found_share: f64) {
    let count = |s: Standing| out.lines.iter().filter(|l| l.standing == s).count();
    let (same, moved, reset) = (count(Standing::Same), count(Standing::Moved), count(Standing::Reset));
    let respaced = count(Standing::Respaced);
    let (other, unjudged) = (count(Standing::OtherWords), count(Standing::Unjudged));
    let mut say = Vec::new();
    if out.verdict == Verdict::DifferentText {
        say.push(another_text(out, fewer_words(a, b)));
    } else {
        let judged = out.lines.len() - unjudged;
        let mut parts = Vec::new();
        for (n, one, many) in [
            (same, "stands as it stood", "stand as they stood"),
            (moved, "was moved whole", "were moved whole"),
            (respaced, "was spaced out anew about one place", "were spaced out anew about one place"),
            (reset, "is spaced otherwise, word by word", "are spaced otherwise, word by word"),
            (other, "holds other words in the same place", "hold other words in the same place"),
        ] {
            if n > 0 {
                parts.push(counted(n, one, many));
            }
        }
        if judged > 0 {
            say.push(format!(
                "Of {} that could be judged, {}.",
                counted(judged, "line", "lines"),
                parts.join(", ")
            ));
        }
        let short = out.lines.iter().filter(|l| l.standing == Standing::Unjudged && l.words < 3).count();
        let long = unjudged - short;
        if long > 0 {
            say.push(format!("{} could not be judged.", counted(long, "other line", "other lines")));
        }
        if short > 0 {
            let few = counted(short, "piece", "pieces");
            say.push(format!("{few} of one or two words, or of ornament, are too short to judge alone."));
        }
    }
    if let Some(px) = out.residual.median_px {
        say.push(format!(
            "Laid together, the print lies within {} of the paper's smooth motion (median of {} patches).",
            length(px, a, x_height),
            out.residual.patches
        ));
    }
    say.extend(creases(out, a, x_height));
    if let (Some(worst), true) = (
        out.straight_edge.iter().max_by_key(|e| e.fails),
        !matches!(out.verdict, Verdict::DifferentText | Verdict::Undetermined),
    ) {
        say.push(if worst.fails == 0 {
            format!(
                "A straight edge laid down the page cuts the same parts of the same letters in {}.",
                counted(worst.crossed, "line", "lines")
            )
        } else {
            format!(
                "A straight edge laid down the page cuts other parts of letters in {} of {}, by up to {}.",
                worst.fails,
                counted(worst.crossed, "line", "lines"),
                length(worst.largest_px, a, x_height)
            )
        });
    }
    if !out.changes.is_empty() {
        let kinds: Vec<String> = [
            ChangeClass::SortChanged,
            ChangeClass::SortMoved,
            ChangeClass::SortAdded,
            ChangeClass::SortLost,
            ChangeClass::LineRespaced,
        ]
        .into_iter()
        .filter_map(|k| {
            let n = out.changes.iter().filter(|c| c.class == k).count();
            (n > 0).then(|| format!("{n} with {}", k.words()))
        })
        .collect();
        let places = counted(out.changes.len(), "place differs", "places differ");
        say.push(format!("{places}: {}.", kinds.join(", ")));
    }
    if out.verdict == Verdict::Undetermined {
        say.push(if found_share < FOLLOWED {
            format!(
                "Too little of the print could be followed from one to the other ({:.0} percent).",
                found_share * 100.0
            )
        } else if enough_was_judged(out) {
            "Some lines speak for one setting and some against it, and neither outweighs the other."
                .to_owned()
        } else {
            "Too few lines of text could be judged.".to_owned()
        });
    }
    out.reasons.extend(say);
}

/// What creases do to the print, where there are any. Between two settings a jump of the print may be the compositor's.
fn creases(out: &Comparison, a: &Reading, x_height: f64) -> Option<String> {
    if matches!(out.verdict, Verdict::DifferentSetting | Verdict::DifferentText) {
        return None;
    }
    let folds = out.placement.as_ref().map(|p| &p.creases).filter(|c| !c.is_empty())?;
    let widest = folds.iter().map(|c| c.jump_px).fold(0.0, f64::max);
    Some(format!(
        "The paper of one copy or of both is creased along {}: the print beyond is displaced by up to {}, and words that \
         a crease runs through have no say.",
        counted(folds.len(), "line", "lines"),
        length(widest, a, x_height)
    ))
}

/// Why two texts are not one, of which the shorter has so many words.
fn another_text(out: &Comparison, words: usize) -> String {
    let (share, least) = (out.words_matched.unwrap_or(0.0), same_text(words));
    let so_few = if least > SAME_TEXT { ", on a page of so few words," } else { "" };
    format!(
        "Only {:.0} percent of the words are matched in their order; under {:.0}{so_few} is another text.",
        share * 100.0,
        least * 100.0
    )
}

/// Why two photographs that could not be laid together got their verdict.
pub(super) fn reasons_without_placement(out: &mut Comparison, a: &Reading, b: &Reading) {
    let (wa, wb) = (a.words.len(), b.words.len());
    let say = match out.verdict {
        Verdict::DifferentSetting => format!(
            "{:.0} percent of the words are matched in their order, at other places of the lines: the line-ends differ.",
            out.words_matched.unwrap_or(0.0) * 100.0
        ),
        Verdict::DifferentText => another_text(out, fewer_words(a, b)),
        _ => {
            format!("Too few words were found to compare the texts ({wa} in the first, {wb} in the second).")
        }
    };
    out.reasons.push(say);
}

/// That a weight rests on pairs unlike this one, and why.
pub(super) fn unlike_those_behind(why: &str) -> String {
    format!("The weight was calibrated on pairs unlike this one ({why}): it may be too large or too small.")
}

/// That both photographs may be of one copy.
pub(super) fn perhaps_one_copy() -> String {
    "Beside the type the paper of both photographs shows the same grain in the same places: perhaps this is one copy, \
     photographed twice. Then that they agree says nothing of how many copies were printed from one setting; compare the \
     shelf-marks, stains and tears."
        .to_owned()
}

/// Reasons for which the verdict could be wrong.
pub(super) fn cautions(out: &mut Comparison, a: &Reading, b: &Reading) {
    let mut say: Vec<String> = Vec::new();
    match out.verdict {
        Verdict::SameSetting | Verdict::SameSettingWithDifferences => {
            say.push(
                "Plates cast from type, and photographic facsimiles, lie together just as well.".to_owned(),
            );
        }
        Verdict::Undetermined => {}
        _ => say.push("A machine finding is a proposal: look at the places before you quote it.".to_owned()),
    }
    if out.verdict == Verdict::SameSettingWithDifferences {
        say.push(
            "Differences may come from correction at press, from an accident, or from standing type printed again later; \
             which state came first is not said."
                .to_owned(),
        );
    }
    if a.scale.is_none() || b.scale.is_none() {
        say.push(
            "The scale of one photograph or both is unknown: lengths are in pixels and x-heights.".to_owned(),
        );
    }
    say.push(
        "This is evidence, not authentication or valuation. Follow the holding library's handling rules and consult a \
         conservator before you touch a sheet."
            .to_owned(),
    );
    out.cautions.extend(say);
}
