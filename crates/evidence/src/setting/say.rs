//! The evidence in words: reasons for the verdict.

use super::by_lines::LEAST_JUDGED;
use super::one_text::{
    FEWEST_FOR_TEXT, SAME_TEXT, fewer_words, have_their_line_ends, is_one_by_words, same_text,
};
use crate::reading::Reading;
use crate::record::{ChangeClass, Comparison, LineFinding};
use crate::standing::{Sorts, Standing};
use crate::verdict::Verdict;
use crate::words::Alignment;

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

/// What the lines did, in sentences.
fn lines(out: &Comparison) -> Vec<String> {
    let count = |s: Standing| out.lines.iter().filter(|l| l.standing == s).count();
    let unjudged = count(Standing::Unjudged);
    let judged = out.lines.len() - unjudged;
    let kinds = [
        (Standing::Same, "stands as it stood", "stand as they stood"),
        (Standing::Moved, "was moved whole", "were moved whole"),
        (Standing::Respaced, "was spaced out anew about one place", "were spaced out anew about one place"),
        (Standing::Reset, "is spaced otherwise, word by word", "are spaced otherwise, word by word"),
        (Standing::OtherWords, "holds other words in the same place", "hold other words in the same place"),
    ];
    let said = |(standing, one, many): (Standing, &str, &str)| {
        let n = count(standing);
        (n > 0).then(|| counted(n, one, many))
    };
    let parts: Vec<String> = kinds.into_iter().filter_map(said).collect();
    let mut say = Vec::new();
    if judged > 0 {
        let judged = counted(judged, "line", "lines");
        say.push(format!("Of {judged} that could be judged, {}.", parts.join(", ")));
    }
    say.extend(sorts(out));
    let short = out.lines.iter().filter(|l| l.standing == Standing::Unjudged && l.words < 3).count();
    let long = unjudged - short;
    if long > 0 {
        say.push(format!("{} could not be judged.", counted(long, "other line", "other lines")));
    }
    if short > 0 {
        let few = counted(short, "piece", "pieces");
        say.push(format!("{few} of one or two words, or of ornament, are too short to judge alone."));
    }
    say
}

/// How the sorts stand off their lines, in a sentence; nothing where that is not clear of any line.
fn sorts(out: &Comparison) -> Option<String> {
    let count = |s: Sorts| out.lines.iter().filter(|l| l.sorts == Some(s)).count();
    let (same, other) = (count(Sorts::Same), count(Sorts::Other));
    let stand = "the sorts stand a little above and below their line";
    let in_lines = |n: usize| counted(n, "line", "lines");
    match (same, other) {
        (0, 0) => None,
        (_, 0) => Some(format!("In {} {stand} as they did: the same pieces of type.", in_lines(same))),
        (0, _) => Some(format!("In {} {stand} otherwise: other pieces of type.", in_lines(other))),
        _ => Some(format!(
            "In {} {stand} as they did (the same pieces of type), in {} otherwise (other pieces).",
            in_lines(same),
            in_lines(other)
        )),
    }
}

/// Why nothing can be said of the setting, where the shorter side has so many words and `text` is what was matched.
fn undetermined(out: &Comparison, words: usize, text: Option<Alignment>, found_share: f64) -> String {
    let count = |s: Standing| out.lines.iter().filter(|l| l.standing == s).count();
    let judged = out.lines.len() - count(Standing::Unjudged);
    let begin_alike = have_their_line_ends(out.lines_begin_alike);
    if is_unread(out, words) {
        unread(out)
    } else if 2 * count(Standing::OtherWords) > judged && may_share_formulas(out, words, text) {
        sharing_formulas(out, text)
    } else if begin_alike && 2 * count(Standing::OtherWords) > judged {
        "Most lines seem to hold other words in the same place, and yet begin with the same words: the print was \
         followed badly."
            .to_owned()
    } else if found_share < FOLLOWED {
        let percent = found_share * 100.0;
        format!("Too little of the print could be followed from one to the other ({percent:.0} percent).")
    } else if !enough_was_judged(out) {
        "Too few lines of text could be judged.".to_owned()
    } else if count(Standing::Reset) + count(Standing::OtherWords) == 0 {
        "The lines that could be judged seem to stand as they stood; but these photographs do not tell the most careful \
         resetting from that."
            .to_owned()
    } else {
        "Some lines speak for one setting and some against it: too much to say that the type stood, too little to say \
         that it was set again."
            .to_owned()
    }
}

/// Why the verdict is what it is.
pub(super) fn reasons(
    out: &mut Comparison,
    [a, b]: [&Reading; 2],
    text: Option<Alignment>,
    x_height: f64,
    found_share: f64,
) {
    let mut say = match out.verdict {
        Verdict::DifferentText => vec![another_text(out, fewer_words(a, b))],
        _ => lines(out),
    };
    say.extend(other_line_ends(out));
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
        say.push(undetermined(out, fewer_words(a, b), text, found_share));
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

/// Whether too few of the words are matched for one text, of which the shorter has so many words, and yet it is not said
/// that there are two.
fn is_unread(out: &Comparison, words: usize) -> bool {
    let matched = out.words_matched.is_some_and(|share| share < same_text(words));
    matched && words >= FEWEST_FOR_TEXT && out.verdict == Verdict::Undetermined
}

fn unread(out: &Comparison) -> String {
    format!(
        "{:.0} percent of the words are matched in their order; but many words of one photograph took little ink, and the \
         others may be there as well.",
        out.words_matched.unwrap_or(0.0) * 100.0
    )
}

/// Whether so much is matched that two texts may have in common, of which the shorter has so many words.
fn may_share_formulas(out: &Comparison, words: usize, text: Option<Alignment>) -> bool {
    let matched = |share: f64| share >= same_text(words) && !is_one_by_words(words, text);
    words >= FEWEST_FOR_TEXT && out.words_matched.is_some_and(matched)
}

fn sharing_formulas(out: &Comparison, text: Option<Alignment>) -> String {
    format!(
        "{:.0} percent of the words seem to be matched in their order, but only {:.0} percent of that piece after piece \
         without a break: two ballads or title-pages that share their formulas may have as much in common.",
        out.words_matched.unwrap_or(0.0) * 100.0,
        text.map_or(0.0, |t| t.share_in_step()) * 100.0
    )
}

/// That the line-ends differ, where two settings show it.
fn other_line_ends(out: &Comparison) -> Option<String> {
    let alike = out.lines_begin_alike.filter(|share| !have_their_line_ends(Some(*share)))?;
    (out.verdict == Verdict::DifferentSetting).then(|| {
        format!(
            "The line-ends differ: {:.0} percent of the lines begin with the same word in both.",
            100.0 * alike
        )
    })
}

/// Why two photographs that could not be laid together got their verdict.
pub(super) fn reasons_without_placement(
    out: &mut Comparison,
    [a, b]: [&Reading; 2],
    text: Option<Alignment>,
) {
    let (wa, wb) = (a.words.len(), b.words.len());
    let say = match out.verdict {
        Verdict::DifferentSetting => format!(
            "{:.0} percent of the words are matched in their order, but the two do not lie on each other.",
            out.words_matched.unwrap_or(0.0) * 100.0
        ),
        Verdict::DifferentText => another_text(out, fewer_words(a, b)),
        _ if is_unread(out, fewer_words(a, b)) => unread(out),
        _ if may_share_formulas(out, fewer_words(a, b), text) => sharing_formulas(out, text),
        _ if have_their_line_ends(out.lines_begin_alike) => {
            "Both carry the same text, and their lines begin with the same words; of the setting nothing can be said \
             unless they are laid on each other."
                .to_owned()
        }
        _ => {
            format!("Too few words were found to compare the texts ({wa} in the first, {wb} in the second).")
        }
    };
    out.reasons.push(say);
    out.reasons.extend(other_line_ends(out));
}

/// That both photographs may be of one copy.
pub(super) fn perhaps_one_copy() -> String {
    "Beside the type the paper of both photographs shows the same grain in the same places: perhaps this is one copy, \
     photographed twice. Then that they agree says nothing of how many copies were printed from one setting; compare the \
     shelf-marks, stains and tears."
        .to_owned()
}
