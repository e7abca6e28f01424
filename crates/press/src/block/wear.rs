//! Slow wear of every line, and the slow shrinking of the plank.

use serde::{Deserialize, Serialize};

use super::stroke::{Path, Stroke};
use crate::chance::Chance;
use crate::noise::Noise;

/// How a block wears.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Wear {
    /// How much wider its lines get in a hundred years, in mm: crushed lines spread, scrubbed ones thin (negative).
    pub widening: f64,
    /// How far thin lines are broken up after a hundred years, 0..1.
    pub ragged: f64,
    /// Shrinkage across the grain that it comes to, as a share (wood: at most 0.01, as cherry
    /// across the rings for four percent less moisture, by shrinkage tabulated for panel paintings; metal: none).
    pub shrinkage: f64,
    /// Years in which two thirds of that are reached.
    pub settling: f64,
    /// Where lines wear.
    pub seed: u64,
}

/// Lines thinner than this, in mm, break up.
const THIN: f64 = 0.34;
/// What wear alone leaves of a line: a gap is a break, and is told as one.
const LEAST: f64 = 0.4;

impl Wear {
    /// Drawn for a block of wood (or metal, which neither shrinks nor frays as much).
    pub fn drawn(wood: bool, seed: u64) -> Self {
        let mut chance = Chance::new(seed, "wear of a block");
        Self {
            widening: chance.between(-0.05, 0.06),
            ragged: chance.between(0.3, 0.9) * if wood { 1.0 } else { 0.5 },
            shrinkage: if wood { chance.between(0.002, 0.009) } else { 0.0 },
            settling: chance.between(8.0, 40.0),
            seed: chance.seed(),
        }
    }

    /// Shrinkage across the grain after so many years, as a share.
    pub fn shrunk(&self, years: f64) -> f64 {
        self.shrinkage * (1.0 - (-years.max(0.0) / self.settling).exp())
    }

    /// Wears strokes by so many years.
    pub(super) fn on(&self, strokes: &mut [Stroke], years: f64) {
        let age = years.max(0.0) / 100.0;
        let fray = Noise::new(self.seed, "fraying", 0.9);
        let place = Noise::new(self.seed, "where lines wear", 14.0);
        for stroke in strokes.iter_mut().filter(|s| s.inks) {
            let Path::Line(knots) = &mut stroke.path else { continue };
            for k in knots {
                let here = 1.0 + 0.8 * place.at(k.at.x, k.at.y);
                let thin = (1.0 - k.width / THIN).clamp(0.0, 1.0).sqrt();
                let bitten =
                    self.ragged * age.min(1.5) * thin * (fray.at(k.at.x, k.at.y) * 1.7).max(0.0) * here;
                let least = LEAST * k.width;
                k.width = (k.width * (1.0 - bitten) + self.widening * age * here).max(least);
            }
        }
    }
}
