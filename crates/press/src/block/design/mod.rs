//! Designs: what a block shows, invented from a seed.

mod arms;
mod device;
mod factotum;
mod frame;
mod head_piece;
mod initial;
mod pictorial;
mod tail_piece;

use serde::{Deserialize, Serialize};
use sheet::{Mm, Rect};

use super::drawing::Drawing;
use super::stroke::Stroke;
use crate::fount::Founts;

/// What a block is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "kind")]
pub enum BlockKind {
    /// A letter in a frame, on a decorated ground.
    Initial {
        /// The letter shown.
        letter: char,
    },
    /// A frame or ornament with a square hole, into which a letter of type is set.
    Factotum,
    /// An ornament for the head of a page or chapter.
    HeadPiece,
    /// An ornament for the end of a chapter.
    TailPiece,
    /// A coat of arms.
    Arms,
    /// The emblem of a printer or bookseller, with a motto.
    Device,
    /// A picture.
    Pictorial,
}

impl BlockKind {
    /// Every kind, the initial with one of the letters.
    pub const ALL: [Self; 7] = [
        Self::Initial { letter: 'A' },
        Self::Factotum,
        Self::HeadPiece,
        Self::TailPiece,
        Self::Arms,
        Self::Device,
        Self::Pictorial,
    ];

    /// The width and height of a block of this kind, for its larger side: a design for one of the two is not
    /// squeezed into another.
    pub fn size(self, larger: Mm, seed: u64) -> (Mm, Mm) {
        let mut chance = crate::chance::Chance::new(seed, "proportions of a block");
        let share = match self {
            Self::Initial { .. } | Self::Factotum => chance.between(0.92, 1.0),
            Self::HeadPiece => chance.between(0.2, 0.34),
            Self::TailPiece => chance.between(0.62, 0.9),
            Self::Arms | Self::Device => chance.between(0.74, 0.9),
            Self::Pictorial => chance.between(0.68, 0.95),
        };
        let lies = match self {
            Self::HeadPiece | Self::TailPiece => true,
            Self::Initial { .. } | Self::Factotum | Self::Arms | Self::Device => false,
            Self::Pictorial => chance.happens(0.6),
        };
        let (long, short) = (larger, Mm(larger.0 * share));
        if lies { (long, short) } else { (short, long) }
    }
}

/// A design drawn on a block: its strokes, in the order in which they are cut, and the hole of a factotum.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Design {
    pub strokes: Vec<Stroke>,
    pub hole: Option<Rect>,
}

/// Draws a design on a block of this size (mm). The same seed gives the same design.
pub(super) fn drawn(founts: &Founts, kind: BlockKind, size: (f64, f64), seed: u64) -> Design {
    let bounds = Rect::new(0.0, 0.0, size.0, size.1);
    let mut drawing = Drawing::new(bounds, seed);
    let mut hole = None;
    match kind {
        BlockKind::Initial { letter } => initial::draw(&mut drawing, founts, letter, bounds),
        BlockKind::Factotum => hole = Some(factotum::draw(&mut drawing, bounds)),
        BlockKind::HeadPiece => head_piece::draw(&mut drawing, bounds),
        BlockKind::TailPiece => tail_piece::draw(&mut drawing, bounds),
        BlockKind::Arms => arms::draw(&mut drawing, founts, bounds),
        BlockKind::Device => device::draw(&mut drawing, founts, bounds),
        BlockKind::Pictorial => pictorial::draw(&mut drawing, bounds),
    }
    Design { strokes: drawing.strokes(), hole }
}
