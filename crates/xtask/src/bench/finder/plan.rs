//! Which sheets are printed.

use press::block::{BlockKind, Surroundings};
use rand::{RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use serde::{Deserialize, Serialize};
use sheet::{MM_PER_INCH, Mm, Ppi};

use crate::bench::set::Set;

/// What is on a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "subject")]
pub(super) enum Subject {
    /// One block.
    Block {
        /// Its kind.
        block: BlockKind,
        /// Alone or among type.
        among: Surroundings,
    },
    /// Pictures side by side, half a millimetre apart at most: one composite cut, told as one box.
    Composite {
        /// How many.
        pieces: u8,
    },
    /// One block, and the photograph cut down to it.
    Cropped {
        /// Its kind.
        block: BlockKind,
        /// White left about it.
        margin: Mm,
    },
    /// A page of text, with a head-piece, initial, border of type ornaments or rules, or none of them.
    Page,
}

impl Subject {
    /// Its name in the tables.
    pub(super) fn name(self) -> &'static str {
        match self {
            Self::Block { among: Surroundings::Type, .. } => "a block among type",
            Self::Block { .. } => "a block alone",
            Self::Composite { .. } => "blocks side by side",
            Self::Cropped { .. } => "cut down to the cut",
            Self::Page => "pages of text",
        }
    }
}

/// A sheet to be printed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub(super) struct Planned {
    /// Its number in the set, from 0.
    pub(super) number: usize,
    /// What is on it.
    pub(super) subject: Subject,
    /// Larger side of the block.
    pub(super) size: Mm,
    /// Resolution.
    pub(super) ppi: Ppi,
    /// Difficulty, 0 to 4.
    pub(super) level: u8,
    /// Everything else.
    pub(super) seed: u64,
}

/// Larger sides, mm.
const SIZES: [f64; 8] = [15.0, 20.0, 30.0, 42.0, 60.0, 85.0, 115.0, 150.0];
/// Resolutions: what libraries deliver.
const PPI: [f64; 7] = [300.0, 200.0, 150.0, 400.0, 300.0, 250.0, 600.0];
/// A photograph's longer side is about this at most: a page of 200 mm at 600 ppi.
const MOST_PX: f64 = 4800.0;

/// The sheets of a set; the sets share no seed.
pub(super) fn plan(set: Set, count: usize) -> Vec<Planned> {
    let first_seed: u64 = match set {
        Set::Sealed => 0x5EA1_F1D0_0000_0000,
        _ => 0x0DE7_F1D0_0000_0000,
    };
    (0..count).map(|number| sheet(number, first_seed + number as u64)).collect()
}

fn sheet(number: usize, seed: u64) -> Planned {
    let mut chance = ChaCha8Rng::seed_from_u64(seed);
    let letter = char::from(b'A' + chance.random_range(0..26u8));
    let kinds = BlockKind::ALL
        .map(|k| if let BlockKind::Initial { .. } = k { BlockKind::Initial { letter } } else { k });
    // Kinds go round apart from what surrounds them.
    let block = kinds[(number + number / 10) % kinds.len()];
    let subject = match number % 10 {
        0..=4 => Subject::Block { block, among: Surroundings::Type },
        5 => Subject::Block { block, among: Surroundings::Alone },
        6 => Subject::Composite { pieces: chance.random_range(2..=3) },
        7 => Subject::Cropped { block, margin: Mm([0.0, 1.0, 4.0][(number / 10) % 3]) },
        _ => Subject::Page,
    };
    let mut size = SIZES[chance.random_range(0..SIZES.len())];
    // What is smaller than a picture is not cut as one (common practice, no source).
    if matches!(subject, Subject::Composite { .. })
        || matches!(block, BlockKind::Pictorial | BlockKind::HeadPiece)
    {
        size = size.max(30.0);
    }
    if matches!(block, BlockKind::Initial { .. } | BlockKind::Factotum) {
        size = size.min(60.0);
    }
    // The sheet about the block is larger than it.
    let whole = match subject {
        Subject::Page => 260.0,
        Subject::Block { among: Surroundings::Type, .. } => size + 130.0,
        Subject::Composite { .. } => 2.0 * size,
        _ => size + 30.0,
    };
    let most = MOST_PX / (whole / MM_PER_INCH);
    let ppi = Ppi(PPI[chance.random_range(0..PPI.len())].min(most.floor()).max(150.0));
    Planned { number, subject, size: Mm(size), ppi, level: chance.random_range(0..5u8), seed }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_of_block_comes_among_type_and_the_sets_share_no_seed() {
        let (dev, sealed) = (plan(Set::Dev, 70), plan(Set::Sealed, 70));
        assert!(dev.iter().all(|d| sealed.iter().all(|s| s.seed != d.seed)));
        for kind in BlockKind::ALL {
            let is_it = |p: &&Planned| {
                matches!(p.subject, Subject::Block { block, among: Surroundings::Type }
                    if std::mem::discriminant(&block) == std::mem::discriminant(&kind))
            };
            assert!(dev.iter().filter(is_it).count() > 1, "{kind:?}");
        }
    }
}
