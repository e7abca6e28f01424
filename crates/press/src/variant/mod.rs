//! What becomes of a setting: corrected at press, set again in part, or set again throughout.

mod correction;
mod edit;
mod resetting;

use serde::{Deserialize, Serialize};
use sheet::{Mm, Point, Rect};

use crate::setting::{Line, Setting};
pub use resetting::Reset;

/// What was done to a setting at one place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ChangeClass {
    /// One letter put in for another.
    LetterChanged,
    /// A letter turned upside down (or a turned one put right).
    LetterTurned,
    /// One word put in for another, the line spaced again.
    WordChanged,
    /// A word moved between its neighbours.
    WordMoved,
    /// A point put in.
    PointAdded,
    /// A point taken out.
    PointRemoved,
    /// A sort dropped out, its place left empty.
    SortLost,
    /// A sort shifted off its line or turned askew.
    SortShifted,
    /// A whole line moved up or down.
    LineMoved,
    /// A whole line set again.
    LineReset,
}

impl ChangeClass {
    /// What is done at press to a setting that otherwise stays; [`Self::LineReset`] is not among them.
    pub const AT_PRESS: [Self; 9] = [
        Self::LetterChanged,
        Self::LetterTurned,
        Self::WordChanged,
        Self::WordMoved,
        Self::PointAdded,
        Self::PointRemoved,
        Self::SortLost,
        Self::SortShifted,
        Self::LineMoved,
    ];

    /// What is done to single sorts and points at press, each of them many times in a pair to fit by.
    pub const OF_SORTS: [Self; 6] = [
        Self::LetterChanged,
        Self::LetterTurned,
        Self::PointAdded,
        Self::PointRemoved,
        Self::SortLost,
        Self::SortShifted,
    ];
}

/// A word that moved along because of a change in its line.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Moved {
    /// The word of the text.
    pub token: u32,
    /// Its part, when it is divided.
    pub part: u8,
    /// How far its first sort moved, in mm in the forme.
    pub by: Point,
}

/// One change against the base setting.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Change {
    /// What was done.
    pub class: ChangeClass,
    /// Number of the line, the same in both states.
    pub line: usize,
    /// Number of the word in the line; `None` when it is about the whole line.
    pub word: Option<usize>,
    /// Where it was in the base state, in mm in the forme; `None` for a point put in.
    pub before: Option<Rect>,
    /// Where it is in the changed state, in mm in the forme; `None` for what was lost or taken out.
    pub after: Option<Rect>,
    /// Words of the line that moved by at least 0.02 mm.
    pub moved: Vec<Moved>,
    /// The furthest that anything moved: the middle of what was changed, or a word along with it.
    pub furthest: Mm,
    /// Whether a reader of two photographs can be asked to see it: set when a pair is photographed.
    pub judgeable: bool,
}

impl Change {
    /// A change with the words that moved in its line.
    fn seen(
        class: ChangeClass,
        line: usize,
        word: Option<usize>,
        boxes: [Option<Rect>; 2],
        base: &Line,
        now: &Line,
    ) -> Self {
        let moved = moved(base, now);
        let own = match boxes {
            [Some(was), Some(is)] => was.centre().distance(is.centre()),
            _ => 0.0,
        };
        let furthest = moved.iter().map(|m| m.by.x.hypot(m.by.y)).fold(own, f64::max);
        Self {
            class,
            line,
            word,
            before: boxes[0],
            after: boxes[1],
            moved,
            furthest: Mm(furthest),
            judgeable: true,
        }
    }
}

/// The words of a line that stand elsewhere now, by 0.02 mm or more.
fn moved(base: &Line, now: &Line) -> Vec<Moved> {
    base.words
        .iter()
        .zip(&now.words)
        .filter_map(|(was, is)| {
            // Where the sort stands in the line, not where its own cast sets its face.
            let stands = |w: &crate::setting::Word| w.sorts.first().map(|s| s.at - s.shift);
            let by = stands(is)? - stands(was)?;
            (by.x.hypot(by.y) >= 0.02).then_some(Moved { token: was.token, part: was.part, by })
        })
        .collect()
}

/// The number that the next sort put into a setting takes.
fn next_id(setting: &Setting) -> u32 {
    setting.sorts().map(|(_, _, s)| s.id + 1).max().unwrap_or(0)
}

#[cfg(test)]
mod tests;
