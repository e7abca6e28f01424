//! Formats: what a sheet becomes when it is folded, and which sheet and folding a leaf may come from.
//!
//! [`Way`] goes from the sheet to the leaf; [`fitting()`] goes back, and never to one answer where the evidence leaves two.

mod candidate;
mod cautions;
mod fitting;
mod place;
mod way;

pub use candidate::{Agreement, Candidate, Evidence, Found, Trim};
pub use cautions::cautions;
pub use fitting::{FormatError, MOST_LEAF, ONE_BINDING, TWO_BINDINGS, fitting};
pub use place::{Across, Down, OnLeaf, Place, PlaceError, watermark, watermark_places};
pub use way::{ChainLines, Side, Way};
