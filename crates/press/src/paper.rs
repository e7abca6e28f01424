//! The sheet: its making, its shrinking, and what time has done to it.

use serde::{Deserialize, Serialize};
use sheet::{Degrees, Mm};

use crate::chance::Chance;
use crate::warp::Fold;

/// A crease asked for.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct CreaseWish {
    /// Width of the gap or of the strip hidden.
    pub jump: Mm,
    /// When the sheet was folded.
    pub fold: Fold,
}

/// A sheet of paper as it is today.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Paper {
    /// Its colour in full light, red, green, blue.
    pub tone: [u8; 3],
    /// From chain-line to chain-line.
    pub chain: Mm,
    /// Chain-lines run across the page, not down it.
    pub chains_across: bool,
    /// How plainly chain- and wire-lines show, 0..1.
    pub laid: f64,
    /// How rough and cloudy the sheet is, 0..1.
    pub rough: f64,
    /// Shrinkage along x and y since it was printed damp, in hundredths (1 is one per cent).
    pub shrinkage: [f64; 2],
    /// How far cockling moves places of the sheet; 0 for flat paper.
    pub cockle: Mm,
    /// Creases.
    pub creases: Vec<CreaseWish>,
    /// Spots of foxing.
    pub foxing: u16,
    /// Stains of damp.
    pub stains: u8,
    /// Specks of dirt.
    pub specks: u16,
    /// Tears from the edge.
    pub tears: u8,
    /// Holes.
    pub holes: u8,
    /// How strongly the back shows through, 0..1.
    pub show_through: f64,
}

impl Paper {
    /// Good white paper that has lain flat ever since.
    pub fn good() -> Self {
        Self {
            tone: [226, 218, 200],
            chain: Mm(24.0),
            chains_across: false,
            laid: 0.3,
            rough: 0.2,
            shrinkage: [0.8, 0.5],
            cockle: Mm(0.0),
            creases: Vec::new(),
            foxing: 0,
            stains: 0,
            specks: 4,
            tears: 0,
            holes: 0,
            show_through: 0.0,
        }
    }

    /// Paper as it comes from the centuries: `trouble` from 0 (well kept) to 1 (a wreck).
    pub fn drawn(trouble: f64, seed: u64) -> Self {
        let mut chance = Chance::new(seed, "paper");
        let t = trouble.clamp(0.0, 1.0);
        // White, yellowed, brown, blue-grey, grey.
        let tones = [
            [228.0, 221.0, 205.0],
            [217.0, 203.0, 176.0],
            [189.0, 164.0, 128.0],
            [176.0, 184.0, 188.0],
            [203.0, 200.0, 192.0],
        ];
        let tone = if chance.happens(0.6) { tones[chance.below(2)] } else { *chance.pick(&tones) };
        let shift = chance.about(9.0);
        let creases = if chance.happens(0.75 * t) { chance.whole(1, 2) } else { 0 };
        Self {
            tone: tone.map(|c: f64| (c + shift) as u8),
            chain: Mm(chance.between(19.0, 29.0)),
            chains_across: chance.happens(0.4),
            laid: chance.between(0.1, 0.75),
            rough: chance.between(0.1, 0.35 + 0.5 * t),
            shrinkage: [chance.between(0.1, 1.0 + 1.5 * t), chance.between(0.0, 0.7 + t)],
            cockle: Mm(if t > 0.1 { chance.between(0.0, 0.6 * t) } else { 0.0 }),
            creases: (0..creases)
                .map(|_| CreaseWish {
                    jump: Mm(chance.between(0.2, 0.4 + 1.1 * t)),
                    fold: if chance.happens(0.3) { Fold::BeforePrinting } else { Fold::AfterPrinting },
                })
                .collect(),
            foxing: chance.below(1 + (60.0 * t) as usize) as u16,
            stains: chance.below(1 + (4.0 * t) as usize) as u8,
            specks: chance.below(5 + (60.0 * t) as usize) as u16,
            tears: chance.below(1 + (3.0 * t) as usize) as u8,
            holes: chance.below(1 + (4.0 * t) as usize) as u8,
            show_through: if chance.happens(0.3 + 0.4 * t) {
                chance.between(0.05, 0.2 + 0.5 * t)
            } else {
                0.0
            },
        }
    }
}

/// Turns a crease may take: along, across, or anyhow.
pub(crate) fn crease_direction(chance: &mut Chance) -> Degrees {
    let base = *chance.pick(&[0.0, 90.0, 90.0, 35.0]);
    Degrees(base + chance.normal(4.0))
}
