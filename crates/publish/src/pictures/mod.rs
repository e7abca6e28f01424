//! What there is to look at: each photograph, the second laid onto the first, both inks together.

mod canvas;
mod encode;
mod fitted;
mod frame;
mod halved;
mod inks;
mod joined;
mod map;
mod shades;
mod small;
mod tiles;

use sheet::{Plane, Ppi};
use thiserror::Error;

pub(crate) use canvas::{ADVANCE, Canvas, INK, WHITE};
pub(crate) use encode::png;
pub(crate) use map::HATCHED;

pub use fitted::{black, fitted};
pub use frame::{OnFrame, Shown};
pub use halved::reduced;
pub use map::{PatchStroke, ResidualMap};
pub use shades::Shades;
pub use small::{Overview, Small};
pub use tiles::{Level, TILE, Tiled};

/// A picture could not be encoded: it is larger than its format allows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
#[error("a picture for the page could not be made; with --no-page, or --json, the result comes without")]
pub struct CannotDraw;

/// What is drawn where a photograph ends that is laid on another's frame: the table under it.
pub const TABLE: [u8; 3] = [236, 233, 226];

/// Pictures of one place in many copies, a group for each reading, so many to a row, as a PNG; `ppi` is that of all.
///
/// # Errors
/// When it cannot be encoded.
pub fn plate_of_groups(
    groups: &[Vec<Plane<[u8; 3]>>],
    to_a_row: usize,
    ppi: Option<Ppi>,
) -> Result<Vec<u8>, CannotDraw> {
    png(&joined::in_rows(groups, to_a_row), ppi)
}

/// What there is to look at of two photographs, all on the frame of the first where they were laid together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PictureSet {
    /// The first photograph.
    pub first: Tiled,
    /// The second, laid onto the first; as it is where the two could not be laid together.
    pub second: Tiled,
    /// Both inks together; none where the two could not be laid together.
    pub together: Option<Tiled>,
}

/// A part of both impressions, of one size and place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Strips {
    /// Width and height, pixels.
    pub size_px: [usize; 2],
    /// Of the first, a JPEG.
    pub first: Vec<u8>,
    /// Of the second as it lies on the first, a JPEG.
    pub second: Vec<u8>,
}
