//! A setting: one composition of type, with every sort in its place.

mod line;

use std::sync::Arc;

use serde::{Deserialize, Serialize};
use sheet::{Mm, Point, Rect};

use crate::block::Face;
use crate::layout::Layout;
pub use line::{Fill, Line, Sort, Word};

/// What a cut or ornament is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "kind")]
pub enum CutKind {
    /// A head-piece across the page, cut in wood.
    HeadPiece,
    /// An initial cut in wood.
    Initial {
        /// The letter shown.
        letter: char,
    },
    /// A brass rule.
    Rule,
    /// One sort of type ornament.
    Ornament {
        /// Which of the house's ornaments.
        design: u8,
    },
    /// A woodblock, or a cast of one, of a design of its own.
    Block,
}

/// A cut, rule or ornament in the forme.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Cut {
    /// What it is.
    #[serde(flatten)]
    pub kind: CutKind,
    /// Where it stands in the forme, in mm, before it is turned about its middle.
    pub place: Rect,
    /// How far it is turned clockwise, in degrees.
    pub turn: f64,
    /// Which piece of wood or metal it is.
    pub piece: u64,
    /// Height to paper against the type.
    pub height: Mm,
    /// What a [`CutKind::Block`] prints; it prints nothing without. Not written down: it is made again from its seed.
    #[serde(skip)]
    pub face: Option<Arc<Face>>,
}

/// A composition of type. Places are in mm in the forme as it prints (not mirrored): origin at the top
/// left of the type page, x right, y down.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Setting {
    /// Names the composition; corrected states keep it, a new composition has another.
    pub id: String,
    /// How it was laid out.
    pub layout: Layout,
    /// The type page, borders and all; its origin may be negative because of the border.
    pub page: Rect,
    /// The lines in reading order.
    pub lines: Vec<Line>,
    /// Cuts, rules and ornaments.
    pub cuts: Vec<Cut>,
    /// How worn the type is, 0..1.
    pub age: f64,
    /// The seed it was composed from.
    pub seed: u64,
}

impl Setting {
    /// Every sort, with the numbers of its line and word.
    pub fn sorts(&self) -> impl Iterator<Item = (usize, usize, &Sort)> {
        self.lines.iter().enumerate().flat_map(|(l, line)| {
            line.words.iter().enumerate().flat_map(move |(w, word)| word.sorts.iter().map(move |s| (l, w, s)))
        })
    }

    /// The sheet's size: the page with its margins.
    pub fn sheet_size(&self) -> (Mm, Mm) {
        let m = 2.0 * self.layout.margin.0;
        (Mm(self.page.w + m), Mm(self.page.h + m))
    }

    /// Where the forme's origin falls on the sheet, in mm from the sheet's top left corner.
    pub fn origin_on_sheet(&self) -> Point {
        let m = self.layout.margin.0;
        Point::new(m - self.page.x, m - self.page.y)
    }
}
