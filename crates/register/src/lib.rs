//! Lays one impression over another and says how well it lies.
//!
//! Start at [`lay()`]: it takes two [`Pyramid`]s of ink and their [`Features`], finds a coarse
//! placement without assuming anything of size, turn or crop, follows the paper's own motion, and
//! gives back the map with the residual of every patch. Coordinates are those of [`sheet::Plane`].

mod coarse;
mod crease;
mod field;
mod fine;
mod follow;
mod lanes;
mod lay;
mod map;
mod motion;
mod needed;
mod overlay;
mod patches;
mod pieces;
mod pyramid;
mod residual;
mod settle;
mod sides;
mod smooth;
#[cfg(test)]
mod speckled;
mod template;

pub use coarse::{Coarse, Features, Whole, by_quarters, by_whole, coarse, features};
pub use crease::Crease;
pub use field::Field;
pub use follow::{Followed, Reach, follow, follow_near};
pub use lay::{CannotLay, Guide, Laid, LineGuide, lay, lay_cut};
pub use map::PaperMap;
pub use motion::Motion;
pub use overlay::{Frame, Part, Sample, overlay, overlay_part};
pub use pieces::{Pieces, pieces};
pub use pyramid::Pyramid;
pub use residual::Patch;
pub use smooth::Agreed;
