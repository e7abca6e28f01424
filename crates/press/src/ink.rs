//! The beater and the puller: how a forme is inked and brought down on the sheet.

use serde::{Deserialize, Serialize};
use sheet::{Degrees, Mm};

use crate::chance::Chance;

/// A second, faint impression beside the first, because sheet or forme moved in the pull.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Slur {
    /// How far the sheet moved.
    pub by: Mm,
    /// Which way.
    pub towards: Degrees,
    /// Strength of the second impression against the first, 0..1.
    pub strength: f64,
}

/// How one sheet was inked and pulled.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Ink {
    /// Ink on the type: 1 is a good black, 0.6 grey and broken.
    pub strength: f64,
    /// How much the beating varies over the forme, 0..1.
    pub unevenness: f64,
    /// Share of the forme that the balls missed (friars), 0..0.6.
    pub missed: f64,
    /// Share of the forme with too much ink (monks), where counters fill, 0..0.3.
    pub overinked: f64,
    /// How far ink is squeezed beyond the face of the type.
    pub squash: Mm,
    /// How much darker the rim of a letter prints than its middle, 0..1.
    pub rim: f64,
    /// How mottled the film of ink is within a letter, 0..1.
    pub mottle: f64,
    /// A slurred or doubled impression.
    pub slur: Option<Slur>,
    /// Share of the spaces and quads that have risen and print.
    pub risen_spaces: f64,
    /// Depth of type masked at one edge by the frisket; 0 for none.
    pub bite: Mm,
    /// Strength of ink set off from another sheet, 0..1.
    pub set_off: f64,
    /// Hairs and threads caught in the ink.
    pub hairs: u8,
    /// Sorts battered since the base copy was pulled: their faces are broken in this copy.
    pub battered: u8,
    /// Ink on the furniture beside the page: a smudged edge, 0..1.
    pub inky_edge: f64,
    /// Colour of the ink as photographed in full light, red, green, blue.
    pub colour: [u8; 3],
    /// How a woodblock takes it; type takes ink as the rest says.
    #[serde(default)]
    pub on_wood: OnWood,
}

/// How unevenly a woodblock takes ink. Its broad blacks share the pull among more surface than type does, so that they print grey
/// and speckled, and its face is not as level. Seen on photographs of initials and of the cuts of chapbooks; amounts are common
/// practice, no source.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct OnWood {
    /// How much less ink the midst of a broad black takes than its edges, 0..1.
    pub starved: f64,
    /// How many hollows of the paper stay white in the blacks, from a tenth of a millimetre to half of one, 0..1.
    pub speckled: f64,
    /// How much the ink varies from one dab of the balls to the next, a few millimetres apart, 0..1.
    pub dabbed: f64,
    /// How far the edge of the ink strays from the edge of the wood, to and fro along every stroke and anew in every pull
    /// (standard deviation, over about a tenth of a millimetre of edge).
    #[serde(default = "even")]
    pub ragged: Mm,
}

/// Edges as clean as the wood's.
fn even() -> Mm {
    Mm(0.0)
}

/// Least straying of an edge, and what trouble adds to it at most, in mm. Edges of real impressions of one block lie about 0.26 px
/// apart along a stroke, in photographs of mostly 300 ppi; with clean edges those of printed ones lay 0.15 to 0.23 px apart.
const RAGGED: [f64; 2] = [0.01, 0.05];

impl Default for OnWood {
    /// Wood that takes ink as type does.
    fn default() -> Self {
        Self { starved: 0.0, speckled: 0.0, dabbed: 0.0, ragged: even() }
    }
}

impl OnWood {
    /// What a day's work at the press brings: `trouble` from 0 (as good as it gets) to 1 (bad).
    pub fn drawn(trouble: f64, seed: u64) -> Self {
        let mut chance = Chance::new(seed, "ink on wood");
        let t = trouble.clamp(0.0, 1.0);
        // Most impressions have a little of each, few have much.
        let mut some = |most: f64| (0.15 + t) / 1.15 * most * chance.unit().powf(1.4);
        let (starved, speckled, dabbed) = (some(1.0), some(1.0), some(1.0));
        Self { starved, speckled, dabbed, ragged: Mm(RAGGED[0] + some(RAGGED[1])) }
    }
}

impl Ink {
    /// A careful pull, such as a proof.
    pub fn good() -> Self {
        Self {
            strength: 1.0,
            unevenness: 0.15,
            missed: 0.0,
            overinked: 0.0,
            squash: Mm(0.025),
            rim: 0.35,
            mottle: 0.3,
            slur: None,
            risen_spaces: 0.0,
            bite: Mm(0.0),
            set_off: 0.0,
            hairs: 0,
            battered: 0,
            inky_edge: 0.0,
            colour: [38, 34, 31],
            on_wood: OnWood::default(),
        }
    }

    /// What a day's work at the press brings: `trouble` from 0 (as good as it gets) to 1 (bad).
    pub fn drawn(trouble: f64, seed: u64) -> Self {
        let mut chance = Chance::new(seed, "ink");
        let t = trouble.clamp(0.0, 1.0);
        let some = |chance: &mut Chance, p: f64, most: f64| {
            if chance.happens(p * t) { chance.between(0.2, 1.0) * most } else { 0.0 }
        };
        let slurred = chance.happens(0.35 * t);
        let black = chance.between(24.0, 62.0);
        Self {
            strength: 1.0 + chance.normal(0.05) - chance.between(0.0, 0.22) * t,
            unevenness: 0.15 + chance.between(0.1, 0.5) * t,
            missed: some(&mut chance, 0.6, 0.28),
            overinked: some(&mut chance, 0.5, 0.16),
            squash: Mm((0.02 + chance.between(-0.012, 0.05) * (0.3 + t)).max(0.0)),
            rim: chance.between(0.1, 0.7),
            mottle: chance.between(0.15, 0.5 + 0.5 * t),
            slur: slurred.then(|| Slur {
                by: Mm(chance.between(0.15, 0.5)),
                towards: Degrees(chance.between(0.0, 360.0)),
                strength: chance.between(0.08, 0.3),
            }),
            risen_spaces: some(&mut chance, 0.7, 0.03),
            bite: Mm(some(&mut chance, 0.2, 5.0)),
            set_off: some(&mut chance, 0.4, 0.12),
            hairs: chance.below(1 + (4.0 * t) as usize) as u8,
            inky_edge: some(&mut chance, 0.3, 0.8),
            battered: if chance.happens(0.4 * t) { chance.whole(1, 2) as u8 } else { 0 },
            colour: [
                black + chance.between(0.0, 9.0),
                black + chance.about(2.0),
                black - chance.between(0.0, 7.0),
            ]
            .map(|c| c as u8),
            on_wood: OnWood::default(),
        }
    }
}
