//! The two settings of a pair.

use sheet::Mm;

use super::ScenarioKind;
use crate::chance::Chance;
use crate::compose::{Care, ComposeError, compose};
use crate::fount::Founts;
use crate::layout::Layout;
use crate::setting::Setting;
use crate::text::{Commission, PageKind, Spelling, Text};
use crate::variant::{Change, ChangeClass, Reset};

/// Two settings, what differs, and what is on the backs of the sheets.
pub(super) struct Pair {
    pub a: Setting,
    pub b: Setting,
    pub back: Setting,
    pub changes: Vec<Change>,
    pub care: Option<Care>,
}

/// Pages that are drawn until one bears its words: now and then a long word does not fit a narrow measure.
const DRAWS: usize = 8;

/// Draws the two settings of a pair.
///
/// # Errors
/// [`ComposeError`] where no text drawn goes with its layout.
pub(super) fn settings(
    founts: &Founts,
    kind: ScenarioKind,
    level: u8,
    ppi: f64,
    chance: &mut Chance,
) -> Result<Pair, ComposeError> {
    for _ in 1..DRAWS {
        match drawn(founts, kind, level, ppi, chance) {
            Err(ComposeError::MeasureTooNarrow { .. }) => {}
            drawn => return drawn,
        }
    }
    drawn(founts, kind, level, ppi, chance)
}

fn drawn(
    founts: &Founts,
    kind: ScenarioKind,
    level: u8,
    ppi: f64,
    chance: &mut Chance,
) -> Result<Pair, ComposeError> {
    let page = match kind {
        // A resetting is judged line by line, so the text must run to some lines of prose.
        ScenarioKind::PartlyReset | ScenarioKind::OtherLineEnds => {
            *chance.pick(&[PageKind::Order, PageKind::BookLeaf, PageKind::Notice])
        }
        ScenarioKind::SameSettingWithDifferences
        | ScenarioKind::MuchCorrected
        | ScenarioKind::TooLittleShared => {
            *chance.pick(&[PageKind::Order, PageKind::BookLeaf, PageKind::Notice, PageKind::Ballad])
        }
        _ => *chance.pick(&PageKind::ALL),
    };
    // Sheets photographed at high resolution are kept small: a leaf, not a broadside.
    let words = if ppi > 350.0 { chance.whole(70, 130) } else { chance.whole(110, 260) };
    let old = chance.happens(0.35);
    let spelling = Spelling { long_s: !chance.happens(0.12), u_and_v: old, i_for_j: old };
    let commission = Commission { kind: page, spelling, words, frame: chance.seed(), body: chance.seed() };
    let layout = Layout::drawn(page, chance.seed());
    let age = f64::from(level) * 0.16 + chance.between(0.0, 0.3);
    let text = Text::invented(&commission);
    let a = compose(founts, &layout, &text, age, chance.seed())?;
    let back_text = Text::invented(&Commission { body: chance.seed(), ..commission });
    let back = compose(founts, &layout, &back_text, age, chance.seed())?;
    let care = Care::ALL[match level {
        0 => 0,
        1 => chance.below(2),
        2 => chance.whole(1, 2),
        3 => 2,
        _ => chance.whole(2, 3),
    }];
    let mut pair = Pair { b: a.clone(), a, back, changes: Vec::new(), care: None };
    match kind {
        ScenarioKind::SameSetting | ScenarioKind::OneCopy => {}
        ScenarioKind::TooLittleShared => {
            if chance.happens(0.5) {
                pair.b = pair.a.reset(founts, reset(care, chance), chance.seed())?;
            }
        }
        ScenarioKind::SameSettingWithDifferences => {
            let mut wishes: Vec<ChangeClass> = Vec::new();
            for _ in 0..chance.whole(if level < 2 { 3 } else { 1 }, 6) {
                wishes.push(*chance.pick(&ChangeClass::AT_PRESS));
            }
            (pair.b, pair.changes) = pair.a.corrected(founts, &wishes, chance.seed())?;
        }
        ScenarioKind::MuchCorrected => {
            (pair.b, pair.changes) =
                pair.a.corrected_throughout(founts, &ChangeClass::OF_SORTS, chance.seed())?;
        }
        ScenarioKind::PartlyReset => {
            let lines = reset_lines(&pair.a, chance);
            let how = Reset { new_skeleton: false, ..reset(care, chance) };
            (pair.b, pair.changes) = pair.a.partly_reset(founts, &lines, how, chance.seed())?;
            pair.care = Some(care);
        }
        ScenarioKind::DifferentSetting => {
            pair.b = pair.a.reset(founts, reset(care, chance), chance.seed())?;
            pair.care = Some(care);
        }
        ScenarioKind::OtherLineEnds => {
            let other = Layout { measure: Mm(layout.measure.0 * measure_change(chance)), ..layout };
            let respelt = text.respelt(0.3, chance.seed());
            pair.b = compose(founts, &other, &respelt, age, chance.seed())?;
        }
        ScenarioKind::DifferentText => {
            let other = other_text(&text, commission, chance);
            pair.b = compose(founts, &layout, &other, age, chance.seed())?;
        }
    }
    Ok(pair)
}

/// Texts with more of their words in common order are one text, whatever else is new: a margin below the 60
/// percent that the verdict asks for, as some words cannot be read.
const MOST_SHARED: f64 = 0.5;
/// Texts that are tried with the same frame.
const TRIES: usize = 6;

/// Another text. Commonly with the same frame: headings, formulas, border and head-piece agree, the matter
/// does not. Where the formulas make up most of it, the frame is another too.
fn other_text(text: &Text, commission: Commission, chance: &mut Chance) -> Text {
    let mut frame = if chance.happens(0.7) { commission.frame } else { chance.seed() };
    let mut other = Text::invented(&Commission { frame, body: chance.seed(), ..commission });
    for tried in 1..4 * TRIES {
        if text.shared_in_order(&other) < MOST_SHARED {
            break;
        }
        if tried >= TRIES {
            frame = chance.seed();
        }
        other = Text::invented(&Commission { frame, body: chance.seed(), ..commission });
    }
    other
}

fn reset(care: Care, chance: &mut Chance) -> Reset {
    let respelt = if care <= Care::Ordinary && chance.happens(0.5) { 0.25 } else { 0.0 };
    Reset { care, respelt, new_skeleton: chance.happens(0.6) }
}

/// A third to a half of the lines of the text, in one run or scattered; never nearly all.
fn reset_lines(setting: &Setting, chance: &mut Chance) -> Vec<usize> {
    let lines = setting.text_lines();
    let n = (lines.len() as f64 * chance.between(0.2, 0.5)).round().max(3.0) as usize;
    let n = n.min(lines.len() * 2 / 3);
    if chance.happens(0.65) {
        let start = chance.below(lines.len() - n + 1);
        lines[start..start + n].to_vec()
    } else {
        chance.some_of(lines.len(), n).into_iter().map(|i| lines[i]).collect()
    }
}

fn measure_change(chance: &mut Chance) -> f64 {
    if chance.happens(0.5) { chance.between(0.86, 0.95) } else { chance.between(1.04, 1.12) }
}
