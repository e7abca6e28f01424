//! Reads the ink: settings, changes, blocks, what is measured of a side, and the weight of the evidence.
//!
//! Start at [`compare`]: two [`Reading`]s in, a [`Comparison`] out. A reading is one photograph made
//! ready; it is made once and used against every other copy.

mod blobs;
pub mod block;
pub mod cautions;
mod changes;
mod evenness;
mod eye;
pub mod many;
pub mod measure;
#[cfg(test)]
mod noise;
mod one_copy;
mod rank;
mod reading;
mod record;
mod setting;
mod standing;
mod turned_back;
mod upright;
mod verdict;
mod words;

pub use changes::{LetterSigns, Signs, View, Weighed, WeighedLetter, WeighedPlace};
pub use reading::Reading;
pub use record::{
    Change, ChangeClass, Comparison, Crossing, DriftPoint, FoundCrease, LineFinding, PatchResidual,
    Placement, Residual, StraightEdge, WeightBasis,
};
pub use setting::{Compared, compare};
pub use standing::{MANNERS, Sorts, Standing};
pub use verdict::Verdict;
