//! Woodblocks: designed, cut, worn through years, cut again by another hand, printed and photographed, with the truth
//! beside every photograph.
//!
//! Start at [`Block::cut`]: a design invented from a seed, as a list of [`Stroke`]s in millimetres of the block. A
//! [`Life`] is a block with all that befalls it; [`print_blocks`] makes an impression of it at a year, and
//! [`BlocksTruth`] says what is true of that. [`BlockPair`] and [`BlockHistory`] plan whole sets.
//!
//! A design is drawn from the front to the back (`drawing`), out of things (`motif`) put together by kind (`design`). Wear
//! and damage act on strokes (`wear`, `damage`, `befall`), so does a copyist (`recut`, with `fields` for shading).

mod alteration;
mod befall;
mod clip;
mod conditions;
mod curve;
mod damage;
mod design;
mod drawing;
mod face;
mod fields;
mod judged;
mod life;
mod motif;
mod paint;
mod print;
mod recut;
mod rest;
mod scenario;
mod stroke;
mod taken;
mod wear;

use serde::{Deserialize, Serialize};
use sheet::{Degrees, Mm, Rect};

use crate::chance::Chance;
use crate::fount::Founts;
pub use alteration::{Alteration, AlterationKind};
pub use damage::{Damage, DamageClass, Wound};
pub use design::BlockKind;
pub use face::{Face, Lie};
pub use judged::{LEAST_PX, Presence, Shown, Untold};
pub use life::Life;
pub use print::{BlockPull, BlocksTruth, CutTruth, Standing, Surroundings, TypeLetter, print_blocks};
pub use recut::CopyCare;
pub use rest::affine_rest;
pub use scenario::{BlockHistory, BlockPair, CutOf, PieceTruth, PrintedBlocks, PrintedHistory, Relation};
pub use stroke::{Knot, Path, Stroke, StrokeKind};
pub use wear::Wear;

/// What a block is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Material {
    /// Wood cut on the plank.
    Wood,
    /// Type metal cast from a wooden block.
    Metal,
}

/// A block as it left the cutter. Places are in mm in its own frame as it prints (not mirrored): origin at the top left
/// corner, x right, y down.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Block {
    /// What it is.
    pub kind: BlockKind,
    /// Width and height when it was cut.
    pub size: (Mm, Mm),
    /// Wood or metal.
    pub material: Material,
    /// Direction of the grain, clockwise from rightwards; without meaning for metal.
    pub grain: Degrees,
    /// Its strokes, in the order in which white is cut into black.
    pub strokes: Vec<Stroke>,
    /// The hole of a factotum.
    pub hole: Option<Rect>,
    /// The cutter's knife: the edges of the strokes hang on it.
    pub knife: u64,
    /// How far it is from level, in mm.
    pub uneven: f64,
}

impl Block {
    /// Designs and cuts a block of this width and height. The same seed gives the same block; two seeds give two designs.
    pub fn cut(founts: &Founts, kind: BlockKind, size: (Mm, Mm), seed: u64) -> Self {
        let design = design::drawn(founts, kind, (size.0.0, size.1.0), seed);
        let mut chance = Chance::new(seed, "plank");
        let along = if chance.happens(0.75) == (size.0.0 >= size.1.0) { 0.0 } else { 90.0 };
        Self {
            kind,
            size,
            material: Material::Wood,
            grain: Degrees(along + chance.normal(2.5)),
            strokes: design.strokes,
            hole: design.hole,
            knife: chance.seed(),
            uneven: chance.between(0.01, 0.05),
        }
    }

    /// The block's own outline, mm.
    pub fn bounds(&self) -> Rect {
        Rect::new(0.0, 0.0, self.size.0.0, self.size.1.0)
    }

    /// The surface as it was cut.
    pub fn face(&self) -> Face {
        Face {
            strokes: self.strokes.clone(),
            lie: Lie { grain: self.grain, ..Lie::plain(self.bounds(), sheet::Point::new(0.0, 0.0)) },
            knife: self.knife,
            uneven: self.uneven,
        }
    }
}

#[cfg(test)]
mod tests;
