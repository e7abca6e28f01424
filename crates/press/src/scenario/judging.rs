//! Whether a photograph shows a change well enough that a reader can be asked for it.

use crate::truth::Truth;
use crate::variant::{Change, ChangeClass};

/// A word can be judged when this much of its ink is to be seen.
pub(super) const JUDGEABLE_INK: f32 = 0.6;

/// Whether a photograph shows the place of a change well enough to judge it, whichever state it is of.
pub fn can_be_judged(change: &Change, on: &Truth) -> bool {
    let line = on.legible.get(change.line).map_or(&[][..], Vec::as_slice);
    let ink = match change.word {
        Some(word) => line.get(word).copied().unwrap_or(0.0),
        None if line.is_empty() => 0.0,
        None => line.iter().sum::<f32>() / line.len() as f32,
    };
    ink >= JUDGEABLE_INK && !is_cut_off(change, on) && !is_hidden_by_accident(change, on)
}

/// What was changed is not wholly on the photograph: of a line most of its words must be, which their ink tells.
fn is_cut_off(change: &Change, truth: &Truth) -> bool {
    change.word.is_some()
        && [change.before, change.after].into_iter().flatten().any(|place| !truth.frames(place))
}

/// A small change under a hole, tear, hair or risen space, or at a battered sort, cannot be asked for.
fn is_hidden_by_accident(change: &Change, truth: &Truth) -> bool {
    use crate::truth::IncidentKind::{BatteredSort, Crease, Hair, Loss, RisenSpace};
    if change.class == ChangeClass::LineReset || change.class == ChangeClass::LineMoved {
        return false;
    }
    let Some(place) = change.after.or(change.before).map(|r| truth.box_px(r)) else { return false };
    truth
        .incidents
        .iter()
        .filter(|i| {
            matches!(i.kind, BatteredSort | Hair | Loss | RisenSpace)
                || (i.kind == Crease && i.box_px.area() < 4.0 * place.area())
        })
        .any(|i| i.box_px.shared(place).is_some_and(|s| s.area() > 0.1 * place.area()))
}
