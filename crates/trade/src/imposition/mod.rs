//! Imposition: which pages lie in which forme, and where they lie on the stone.
//!
//! A forme is read here as the compositor sees it who stands before the imposing stone: the print is its looking-glass
//! image. Start at [`schemes`] or [`scheme`].

mod picture;
mod plans;
mod stone;
mod units;

use crate::format::Way;
use schemars::JsonSchema;
use serde::Serialize;
use std::fmt;

pub use picture::{in_characters, svg, turning};

/// How much of a sheet one copy of the text takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Extent {
    /// A whole sheet, printed from two formes.
    Whole,
    /// Half a sheet, printed on both sides from one forme and cut in two.
    Half,
}

/// How the sheet is turned over to be printed on its other side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Turn {
    /// Left edge to the right.
    Sideways,
    /// The near edge to the far side.
    EndOverEnd,
}

/// Where the head of a page lies, for one who stands before the stone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Head {
    /// Away from him.
    Up,
    /// Towards him.
    Down,
}

impl Head {
    /// The other.
    #[must_use]
    pub fn turned(self) -> Self {
        match self {
            Self::Up => Self::Down,
            Self::Down => Self::Up,
        }
    }
}

/// Which forme.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum FormeName {
    /// The forme that holds page 1.
    Outer,
    /// The forme that holds page 2.
    Inner,
    /// The one forme of a half-sheet, which holds every page.
    HalfSheet,
    /// The same, after pages were moved in it and before the second side was printed.
    HalfSheetMoved,
}

/// A page as it lies on the stone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
pub struct LaidPage {
    /// The page of the sheet, counted from 1 through all its gatherings.
    pub page: u16,
    /// The gathering it belongs to, counted from 0 among those of the sheet.
    pub gathering: usize,
    /// The leaf within that gathering, counted from 1.
    pub leaf: u16,
    /// Whether it is the front of the leaf.
    pub is_recto: bool,
    /// Where its head lies.
    pub head: Head,
}

/// A forme on the stone.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Forme {
    /// Which.
    pub name: FormeName,
    /// Its pages in rows, the row farthest from the compositor first, each from his left hand to his right.
    pub rows: Vec<Vec<LaidPage>>,
}

/// A scheme of imposition.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Imposition {
    /// The way the sheet is parted.
    pub way: Way,
    /// The name of that way: "12° common".
    pub format: &'static str,
    /// Whether it takes a whole sheet or half of one.
    pub extent: Extent,
    /// Leaves of each gathering that comes of it.
    pub gatherings: Vec<u16>,
    /// The formes: outer and inner, or the one forme of a half-sheet; and that once more where pages are moved in it before the heap
    /// is turned.
    pub formes: Vec<Forme>,
    /// How the sheet is turned to be printed on its other side.
    pub turn: Turn,
    /// What is done with the printed sheet.
    pub making_up: &'static str,
}

impl Imposition {
    /// Pages of the sheet, or of the half-sheet.
    pub fn pages(&self) -> u16 {
        self.gatherings.iter().sum::<u16>() * 2
    }

    /// Its gatherings in words: one gathering of 12 leaves; 3 gatherings of 8 leaves; gatherings of 8 and 4 leaves.
    pub fn in_gatherings(&self) -> String {
        let counts: Vec<String> = self.gatherings.iter().map(u16::to_string).collect();
        match &self.gatherings[..] {
            [1] => "one leaf".to_owned(),
            [one] => format!("one gathering of {one} leaves"),
            [first, rest @ ..] if rest.iter().all(|n| n == first) => {
                format!("{} gatherings of {first} leaves", counts.len())
            }
            _ => format!("gatherings of {} leaves", counts.join(" and ")),
        }
    }

    /// The forme in which a page of the sheet stands; none for a page that it does not have.
    pub fn forme_of(&self, page: u16) -> Option<FormeName> {
        let has = |forme: &&Forme| forme.rows.iter().flatten().any(|laid| laid.page == page);
        self.formes.iter().find(has).map(|forme| forme.name)
    }
}

/// Every scheme known here, in the order of the formats, whole sheets before half-sheets.
pub fn schemes() -> Vec<Imposition> {
    plans::plans().iter().map(stone::laid).collect()
}

/// The scheme of a way, a whole or half sheet, gathered as asked or else in the first way that is known; none where none
/// is known: half a sheet of 1° is a leaf of half the size, printed from one page.
pub fn scheme(way: Way, extent: Extent, gathered: Option<&[u16]>) -> Option<Imposition> {
    let fits = |p: &&plans::Plan| {
        p.way == way && p.extent == extent && gathered.is_none_or(|g| g == p.gathered.as_slice())
    };
    plans::plans().iter().find(fits).map(stone::laid)
}

impl fmt::Display for FormeName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Outer => "outer",
            Self::Inner => "inner",
            Self::HalfSheet => "half-sheet",
            Self::HalfSheetMoved => "half-sheet, pages moved",
        })
    }
}
