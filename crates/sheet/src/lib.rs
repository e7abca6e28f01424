//! A photograph becomes a side in millimetres.
//!
//! Start at [`Plane`] and [`geometry`], which fix the conventions of the house.

mod bare;
pub mod decode;
mod folds;
pub mod geometry;
mod ink;
mod layout;
mod plane;
pub mod scale;
mod through;
mod turned;
mod units;

pub use bare::BarePaper;
pub use folds::{Fold, folds};
pub use geometry::{Homography, Point, Rect};
pub use ink::{InkPlane, ink};
pub use layout::{CutKind, FoundCut, Layout, Line, Patch, PatchKind, Stand, Word, hole, layout};
pub use plane::Plane;
pub use through::{PARTS_OF_A_LEVEL, StraightMap};
pub use turned::Turned;
pub use units::{Degrees, MM_PER_INCH, Mm, Ppi, Px};
