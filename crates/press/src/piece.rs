//! A single piece of type: how it was cast and what it has suffered. It keeps both wherever it is set.

use std::collections::BTreeMap;

use crate::chance::{Chance, mixed};
use crate::fount::Face;

/// A hurt to the face of a piece, in ems from the baseline at the left side of the sort.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Flaw {
    /// Where along the outline the hurt is: 0..1 of all its points.
    pub at: f64,
    /// How far it reaches, in ems.
    pub reach: f64,
    /// Longer than wide by this factor: above 4 it is a crack.
    pub stretch: f64,
    /// Direction of its length, in radians.
    pub angle: f64,
}

/// What is peculiar to one piece.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Piece {
    /// Set width against the nominal, in ems: moulds and justifying of matrices.
    pub width: f64,
    /// How far its face stands off the line, in ems.
    pub lift: f64,
    /// How far its face is turned on its body, in degrees.
    pub turn: f64,
    /// Height to paper against the others, in mm.
    pub height: f64,
    /// Wear of the face: every edge printed further out by this, in ems.
    pub wear: f64,
    /// Breaks and nicks.
    pub flaws: Vec<Flaw>,
}

impl Piece {
    /// The piece with this number; always the same. `age` 0..1: how worn the fount is.
    ///
    /// Spreads are common practice without a source: a line wanders by some hundredths of a millimetre.
    pub(crate) fn numbered(number: u64, age: f64) -> Self {
        let mut chance = Chance::new(number, "piece of type");
        let hurt = chance.unit() < 0.03 + 0.12 * age;
        let mut flaws = Vec::new();
        if hurt {
            for _ in 0..chance.whole(1, 2) {
                flaws.push(Flaw {
                    at: chance.unit(),
                    reach: chance.between(0.02, 0.07),
                    stretch: if chance.happens(0.3) { 6.0 } else { chance.between(1.0, 2.0) },
                    angle: chance.about(1.6),
                });
            }
        }
        Self {
            width: chance.normal(0.0022),
            lift: chance.normal(0.006),
            turn: chance.normal(0.35),
            height: chance.normal(0.012 + 0.012 * age),
            wear: (chance.normal(0.003) + 0.004 * age).max(-0.006),
            flaws,
        }
    }
}

/// A pair of cases that a compositor takes his pieces from: none twice in one setting.
#[derive(Debug)]
pub(crate) struct Case {
    house: u64,
    start: u64,
    taken: BTreeMap<(Face, char), u64>,
}

/// Pieces of one letter in a case. A prime, so that any stride visits all of them.
const STOCK: u64 = 2003;

impl Case {
    /// The cases of a house as they lie when the setting of `seed` is begun.
    pub(crate) fn new(house: u64, seed: u64) -> Self {
        Self { house, start: mixed(seed, "hand in the case"), taken: BTreeMap::new() }
    }

    /// The next piece of a letter.
    pub(crate) fn take(&mut self, face: Face, glyph: char) -> u64 {
        let taken = self.taken.entry((face, glyph)).or_insert(0);
        *taken += 1;
        let stride = 1 + self.start % (STOCK - 1);
        let place = (self.start / STOCK % STOCK + *taken * stride) % STOCK;
        mixed(self.house ^ (place << 32) ^ u64::from(u32::from(glyph)), face_name(face))
    }
}

fn face_name(face: Face) -> &'static str {
    match face {
        Face::EnglishRoman => "english roman",
        Face::EnglishItalic => "english italic",
        Face::PicaRoman => "pica roman",
        Face::PicaItalic => "pica italic",
        Face::GreatPrimerRoman => "great primer roman",
        Face::GreatPrimerItalic => "great primer italic",
        Face::FrenchCanonRoman => "french canon roman",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_setting_takes_no_piece_twice_and_two_settings_take_others() {
        let (mut first, mut second) = (Case::new(1, 10), Case::new(1, 11));
        let a: Vec<u64> = (0..300).map(|_| first.take(Face::PicaRoman, 'e')).collect();
        let b: Vec<u64> = (0..300).map(|_| second.take(Face::PicaRoman, 'e')).collect();
        let distinct: std::collections::BTreeSet<_> = a.iter().collect();
        assert_eq!(distinct.len(), 300);
        // Both draw on one stock of 2003, so a few dozen pieces meet again; in the same place, hardly any.
        assert!(a.iter().zip(&b).filter(|(x, y)| x == y).count() < 4);
    }
}
