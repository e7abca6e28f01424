//! A line of type: words of sorts with white between them, filled out to the measure.

use serde::{Deserialize, Serialize};
use sheet::{Degrees, Mm, Point, Rect};

use crate::fount::{Face, reading};
use crate::text::{Role, Style};

/// One piece of type in its place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Sort {
    /// Counted through the setting; a sort put in later has a number of its own.
    pub id: u32,
    /// The sort: a letter, or a ligature in the private area (see [`crate::reading`]).
    pub glyph: char,
    /// The face.
    pub face: Face,
    /// The body it is cast on.
    pub body: Mm,
    /// Which piece of metal: the same number is the same piece, with the same damage.
    pub piece: u64,
    /// Room it takes in the line, letter-space counted.
    pub width: Mm,
    /// Baseline at the left side of the sort, in mm in the forme.
    pub at: Point,
    /// How far it is turned clockwise about the middle of its body.
    pub turn: Degrees,
    /// Set upside down.
    pub upside_down: bool,
    /// Height to paper against its fellows; high sorts print heavy, low ones weak.
    pub height: Mm,
    /// Moved off its place by an accident, in mm.
    pub shift: Point,
}

impl Sort {
    /// Where a place of its face (ems from the baseline at its left side, y down) stands in the forme, in
    /// mm: turned about the middle of its body.
    pub fn to_forme(&self, ems: Point) -> Point {
        let middle = self.bounds().centre();
        let on_body = ems * self.body.0 + self.at - middle;
        let on_body = if self.upside_down { on_body * -1.0 } else { on_body };
        let (s, c) = self.turn.radians().sin_cos();
        Point::new(c * on_body.x - s * on_body.y, s * on_body.x + c * on_body.y) + middle
    }

    /// The box of its body above and below the baseline, in mm: a quarter of the body below it.
    pub fn bounds(&self) -> Rect {
        let b = self.body.0;
        Rect::new(self.at.x, self.at.y - 0.75 * b, self.width.0, b)
    }
}

/// A printed word, or a part of one divided at a line's end.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Word {
    /// The word of the text: the same number in another setting of the text is the same word.
    pub token: u32,
    /// 0, or 1 for the second part of a divided word (or the rest after a large first letter).
    pub part: u8,
    /// The letters as they read, long s and all.
    pub text: String,
    /// How it is set.
    pub style: Style,
    /// Its sorts in order.
    pub sorts: Vec<Sort>,
}

impl Word {
    /// Room it takes in the line.
    pub fn width(&self) -> Mm {
        Mm(self.sorts.iter().map(|s| s.width.0).sum())
    }

    /// The box around its sorts, in mm in the forme; `None` when it has none.
    pub fn bounds(&self) -> Option<Rect> {
        self.sorts.iter().map(Sort::bounds).reduce(Rect::united)
    }

    /// Reads the text again from its sorts.
    pub(crate) fn reread(&mut self) {
        self.text = self.sorts.iter().map(|s| reading(s.glyph)).collect();
    }
}

/// How a line is filled out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Fill {
    /// Spaced out to the full measure.
    Justified,
    /// In the middle.
    Centred,
    /// At the left, with quads after it.
    Left,
    /// At the right, with quads before it.
    Right,
}

/// A line of type.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Line {
    /// What it is on the page.
    pub role: Role,
    /// Its column, from 0.
    pub column: u8,
    /// How it is filled out.
    pub fill: Fill,
    /// Left end of the measure it is set to, in mm in the forme.
    pub left: Mm,
    /// The measure it is set to.
    pub width: Mm,
    /// Its baseline, in mm down the forme.
    pub baseline: Mm,
    /// Body of its type.
    pub body: Mm,
    /// Words in order.
    pub words: Vec<Word>,
    /// White after each word but the last.
    pub gaps: Vec<Mm>,
}

impl Line {
    /// Words and the white between them.
    pub fn set_width(&self) -> Mm {
        let words: f64 = self.words.iter().map(|w| w.width().0).sum();
        Mm(words + self.gaps.iter().map(|g| g.0).sum::<f64>())
    }

    /// Puts every sort in its place along the line; what stands off the line by its own cast stays so.
    pub(crate) fn lay(&mut self) {
        let slack = self.width.0 - self.set_width().0;
        let mut x = self.left.0
            + match self.fill {
                Fill::Justified | Fill::Left => 0.0,
                Fill::Centred => slack / 2.0,
                Fill::Right => slack,
            };
        for (i, word) in self.words.iter_mut().enumerate() {
            for sort in &mut word.sorts {
                sort.at = Point::new(x, self.baseline.0) + sort.shift;
                x += sort.width.0;
            }
            x += self.gaps.get(i).map_or(0.0, |g| g.0);
        }
    }

    /// The box around the line's words, in mm in the forme; `None` when it is empty.
    pub fn bounds(&self) -> Option<Rect> {
        self.words.iter().filter_map(Word::bounds).reduce(Rect::united)
    }

    /// The white spaces of the line, in mm in the forme: those between words and at both ends.
    pub fn spaces(&self) -> Vec<Rect> {
        let row = |from: f64, to: f64| {
            Rect::new(from, self.baseline.0 - 0.75 * self.body.0, to - from, self.body.0)
        };
        let ends: Vec<(f64, f64)> = self
            .words
            .iter()
            .filter_map(|w| Some((w.sorts.first()?.at.x, w.sorts.last().map(|s| s.at.x + s.width.0)?)))
            .collect();
        let mut out = Vec::new();
        let mut from = self.left.0;
        for (start, end) in ends {
            out.push(row(from, start));
            from = end;
        }
        out.push(row(from, self.left.0 + self.width.0));
        out.retain(|r| r.w > 0.08 * self.body.0);
        out
    }
}
