//! Which histories of blocks are printed.

use press::block::{BlockHistory, BlockKind, Surroundings};
use rand::{RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use serde::{Deserialize, Serialize};
use sheet::{Mm, Ppi};

use crate::bench::set::Set;

/// A history to be printed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub(super) struct Planned {
    /// Its number in the set, from 0.
    pub(super) number: usize,
    /// What is asked of the press.
    pub(super) history: BlockHistory,
}

/// Impressions that survive.
const IMPRESSIONS: [usize; 7] = [2, 3, 4, 5, 6, 8, 12];
/// Larger sides, mm.
const SIZES: [f64; 7] = [20.0, 30.0, 42.0, 55.0, 70.0, 90.0, 120.0];
/// Resolutions of the photographs, in turn. Half are at 300, for which figures are asked (DESIGN §5).
const PPI: [[f64; 2]; 8] = [
    [300.0, 300.0],
    [300.0, 300.0],
    [300.0, 300.0],
    [300.0, 300.0],
    [400.0, 300.0],
    [200.0, 300.0],
    [600.0, 400.0],
    [150.0, 200.0],
];
/// A photograph no wider than this is enough, px.
const MOST_PX: f64 = 2400.0;

/// The histories of a set; the sets share no seed.
pub(super) fn plan(set: Set, count: usize) -> Vec<Planned> {
    let first_seed: u64 = match set {
        Set::Sealed => 0x5EA1_DA3A_0000_0000,
        Set::Fit => 0x0F17_DA3A_0000_0000,
        _ => 0x0DE7_DA3A_0000_0000,
    };
    (0..count)
        .map(|number| Planned { number, history: history(number, first_seed + number as u64) })
        .collect()
}

fn history(number: usize, seed: u64) -> BlockHistory {
    let mut chance = ChaCha8Rng::seed_from_u64(seed);
    let letter = char::from(b'A' + chance.random_range(0..26u8));
    let kinds = BlockKind::ALL
        .map(|k| if let BlockKind::Initial { .. } = k { BlockKind::Initial { letter } } else { k });
    let kind = kinds[number % kinds.len()];
    let mut size = SIZES[chance.random_range(0..SIZES.len())];
    if matches!(kind, BlockKind::Pictorial | BlockKind::HeadPiece) {
        size = size.max(30.0);
    }
    if matches!(kind, BlockKind::Initial { .. } | BlockKind::Factotum) {
        size = size.min(60.0);
    }
    let ppi = PPI[chance.random_range(0..PPI.len())].map(|p| Ppi(p.min(MOST_PX / (size / 25.4))));
    let years = chance.random_range(15.0..80.0);
    // A larger block has more to lose, as pairs have it; six in its life at least, or there is nothing to look for.
    let area: f64 = size * size / 3600.0;
    let rate = (chance.random_range(0.2..1.0) * area.powf(0.7)).max(6.0 / years);
    let among =
        if chance.random_bool(0.3) && size <= 42.0 { Surroundings::Type } else { Surroundings::Alone };
    BlockHistory {
        kind,
        size: Mm(size),
        impressions: IMPRESSIONS[chance.random_range(0..IMPRESSIONS.len())],
        years,
        rate,
        plugged: chance.random_bool(0.15),
        level: [0, 1, 1, 2, 2, 3][chance.random_range(0..6)],
        ppi,
        among,
        seed,
    }
}
