//! Many copies: which are of one setting, and what differs within it.
//!
//! All of it goes by pairs that were laid together, of whatever copies; where two were not, nothing is assumed of them
//! but what others say.

mod alike;
mod readings;
mod settings;
mod variants;

use crate::record::Comparison;

pub use alike::InkAt;
pub(crate) use settings::linked;
pub use settings::{Contradiction, Grouped, group};
pub use variants::{OnFrame, OneSetting, SharedDifferences, Variant, shared_differences};

/// Two of many copies that were laid together; the first is the frame of the comparison.
#[derive(Debug, Clone)]
pub struct Pair {
    /// The places of both in the list of copies.
    pub copies: [usize; 2],
    /// What was found out about them.
    pub comparison: Comparison,
}

#[cfg(test)]
mod tests;
