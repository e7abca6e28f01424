//! Which pairs of blocks are printed.

use press::block::{AlterationKind, BlockKind, BlockPair, CopyCare, CutOf, Relation, Surroundings};
use rand::{RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use serde::{Deserialize, Serialize};
use sheet::{Mm, Ppi};

use crate::bench::set::Set;

/// A pair to be printed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub(super) struct Planned {
    /// Its number in the set, from 0.
    pub(super) number: usize,
    /// What is asked of the press.
    pub(super) pair: BlockPair,
}

/// Larger sides, mm.
const SIZES: [f64; 8] = [15.0, 20.0, 30.0, 42.0, 60.0, 85.0, 115.0, 150.0];
/// Resolutions of the first and the second: what libraries deliver, alike or not.
const PPI: [[f64; 2]; 9] = [
    [300.0, 300.0],
    [200.0, 200.0],
    [400.0, 400.0],
    [150.0, 150.0],
    [300.0, 200.0],
    [600.0, 300.0],
    [250.0, 400.0],
    [150.0, 300.0],
    [300.0, 300.0],
];
/// A pixel's worth of photographs is enough: a block of 150 mm at 600 ppi fills 12 megapixels.
const MOST_PX: f64 = 2400.0;

/// The pairs of a set; the sets share no seed.
pub(super) fn plan(set: Set, count: usize) -> Vec<Planned> {
    let first_seed: u64 = match set {
        Set::Sealed => 0x5EA1_B10C_0000_0000,
        Set::Fit => 0x0F17_B10C_0000_0000,
        _ => 0x0DE7_B10C_0000_0000,
    };
    (0..count).map(|number| Planned { number, pair: pair(number, first_seed + number as u64) }).collect()
}

fn pair(number: usize, seed: u64) -> BlockPair {
    let mut chance = ChaCha8Rng::seed_from_u64(seed);
    let relation = relation(number);
    let composite = number % 13 == 6 && !matches!(relation, Relation::Unrelated);
    let letter = char::from(b'A' + chance.random_range(0..26u8));
    let kinds = BlockKind::ALL
        .map(|k| if let BlockKind::Initial { .. } = k { BlockKind::Initial { letter } } else { k });
    let block = kinds[chance.random_range(0..kinds.len())];
    let cut = if composite {
        CutOf::Composite { pieces: chance.random_range(2..=3) }
    } else {
        CutOf::One { block }
    };
    let mut size = SIZES[chance.random_range(0..SIZES.len())];
    // What is smaller than a picture is not cut as one (common practice, no source).
    if composite || matches!(block, BlockKind::Pictorial | BlockKind::HeadPiece) {
        size = size.max(30.0);
    }
    if matches!(block, BlockKind::Initial { .. } | BlockKind::Factotum) && !composite {
        size = size.min(60.0);
    }
    let ppi = PPI[chance.random_range(0..PPI.len())].map(|p| Ppi(p.min(MOST_PX / (size / 25.4)).max(150.0)));
    let among = if chance.random_bool(0.3) && size <= 42.0 && !composite {
        Surroundings::Type
    } else {
        Surroundings::Alone
    };
    BlockPair {
        relation,
        cut,
        size: Mm(size),
        years: chance.random_range(0.0..80.0),
        level: chance.random_range(0..5u8),
        ppi_a: ppi[0],
        ppi_b: ppi[1],
        among: [among; 2],
        seed,
    }
}

/// Of twenty pairs nine are of one block, two of an altered one, seven cut again, two other designs.
fn relation(number: usize) -> Relation {
    let of = |care| Relation::ReCut { care };
    match number % 20 {
        0 => Relation::Cast,
        1 => Relation::SameBlockAltered { what: AlterationKind::Plug },
        2 => Relation::SameBlockAltered {
            what: if number % 40 < 20 { AlterationKind::CutDown } else { AlterationKind::ReEntered },
        },
        3 => Relation::OtherDesign,
        4 => Relation::Unrelated,
        5 => of(CopyCare::Coarse),
        6 => of(CopyCare::Usual),
        7 | 8 => of(CopyCare::Close),
        9..=11 => of(CopyCare::Traced),
        _ => Relation::SameBlock,
    }
}
