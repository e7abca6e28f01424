//! Reads the ink: settings, changes, and the weight of the evidence.
mod standing;
mod verdict;
mod words;
pub use standing::{Likelihoods, Standing, WordDrift, weigh};
pub use verdict::Verdict;
pub use words::{WordMatch, WordPlace, WordSequence, align, matched_share};
