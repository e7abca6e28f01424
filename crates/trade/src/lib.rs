//! What the hand-press trade knew, as values: type, paper, formats, gatherings and how pages lie on the stone.
//!
//! Everything here computes only. Each figure names the published source it comes from, or says that it has none.

pub mod bodies;
pub mod format;
pub mod gatherings;
pub mod imposition;
pub mod lengths;
pub mod paper;
