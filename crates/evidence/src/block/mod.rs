//! Whether two impressions of a cut come from one block.
//!
//! Start at [`compare_cuts`]: two [`Cut`]s in, a [`BlockComparison`] out. A cut is made once of each impression and used
//! against every other.

mod calibration;
mod compare;
mod cut;
mod damage;
mod drift;
mod laid;
mod pieces;
mod record;
mod signs;
mod study;
mod verdict;
mod weight;
mod windows;

pub use compare::{BlocksCompared, compare_cuts};
pub use cut::{Cut, best_of};
pub use damage::{Damage, DamageClass, Damages, Impressed, SIGNS, Seen, Shows, Untold, Weighed, damages};
pub use laid::{LaidCut, lay};
pub use record::{Altered, BlockComparison, PieceFound};
pub use signs::BlockSigns;
pub use study::{CutPair, OneBlock, Studied, study};
pub use verdict::BlockVerdict;
