//! Whether two impressions of a cut come from one block.
//!
//! Start at [`compare_cuts`]: two [`Cut`]s in, a [`BlockComparison`] out. A cut is made once of each impression and used
//! against every other.

mod alike;
mod altered;
mod calibration;
mod cast;
mod compare;
mod cut;
mod damage;
mod design;
mod drift;
mod edges;
mod folded;
mod laid;
mod lines;
mod masses;
mod parted;
mod reasons;
mod record;
mod sight;
mod signs;
mod size;
mod slopes;
mod strokes;
mod study;
mod verdict;
mod weight;
mod windows;

pub use compare::{BlocksCompared, compare_cuts};
pub use cut::{Cut, best_of};
pub use damage::{
    Damage, DamageClass, Damages, Impressed, Looked, SHAPES, SIGNS, Seen, Shows, Untold, View, Weighed,
    damages,
};
pub use design::DesignSigns;
pub use laid::{LaidCut, lay};
pub use lines::{LineSigns, PlacesKept};
pub use record::{Altered, AlteredHow, BlockComparison, PieceFound, Wandering};
pub use sight::{Sight, SightView};
pub use signs::BlockSigns;
pub use strokes::StrokeWindow;
pub use study::{CutPair, OneBlock, Studied, study};
pub use verdict::BlockVerdict;
