//! Where on a photograph a change of the forme is to be seen.

use press::{Change, Moved, Setting, Truth};
use sheet::Rect;

/// The printed word a change lies in, or its whole line, with what was itself changed there: in millimetres of the forme.
pub(super) fn place(setting: &Setting, change: &Change, own: Option<Rect>) -> Option<Rect> {
    let line = setting.lines.get(change.line);
    let word = line.and_then(|line| match change.word {
        Some(word) => line.words.get(word)?.bounds(),
        None => line.bounds(),
    });
    match (word, own) {
        (Some(word), Some(own)) => Some(word.united(own)),
        (word, own) => word.or(own),
    }
}

/// A word that moved along with a change, in millimetres of the forme.
pub(super) fn moved_along(setting: &Setting, change: &Change, moved: &Moved) -> Option<Rect> {
    let words = &setting.lines.get(change.line)?.words;
    words.iter().find(|w| (w.token, w.part) == (moved.token, moved.part))?.bounds()
}

/// A place of the forme on its photograph: x, y, w, h in pixels.
pub(super) fn on_photograph(truth: &Truth, place: Option<Rect>) -> Option<[f64; 4]> {
    place.map(|place| truth.box_px(place)).map(|r| [r.x, r.y, r.w, r.h])
}
