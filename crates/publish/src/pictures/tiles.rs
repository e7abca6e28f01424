//! A picture cut into tiles, at full size and halved, so that a browser decodes only what is looked at.

use super::CannotDraw;
use super::encode::{Colour, OF_INKS, OF_PHOTOGRAPHS, Quality, jpeg};
use super::halved::halved;
use rayon::prelude::*;
use sheet::Plane;
use std::borrow::Cow;

/// Side of a tile, pixels: some twenty cover a screen.
pub const TILE: usize = 512;
/// Longer side, pixels, of the picture that is seen at once and printed: enough to read type.
const LONGEST_WHOLE: usize = 2000;

/// A picture that can be looked at closely: the whole, reduced, and what is finer in tiles.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tiled {
    /// The whole side as a JPEG, reduced.
    pub whole: Vec<u8>,
    /// Width and height of the reduced whole, pixels.
    pub whole_px: [usize; 2],
    /// What is finer than the whole, the finest first; none of a picture that is small.
    pub levels: Vec<Level>,
}

/// One size of a picture, in tiles.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Level {
    /// Width and height, pixels.
    pub size_px: [usize; 2],
    /// The tiles row by row, each a JPEG of [`TILE`] pixels a side, those at the right and the foot smaller.
    pub tiles: Vec<Vec<u8>>,
}

impl Tiled {
    /// Cuts a photograph into tiles.
    ///
    /// # Errors
    /// When it cannot be encoded.
    pub fn of_photograph(picture: &Plane<[u8; 3]>) -> Result<Self, CannotDraw> {
        Self::new(picture, OF_PHOTOGRAPHS, Colour::Halved)
    }

    /// Cuts a picture of two inks in their colours into tiles.
    ///
    /// # Errors
    /// When it cannot be encoded.
    pub fn of_inks(picture: &Plane<[u8; 3]>) -> Result<Self, CannotDraw> {
        Self::new(picture, OF_INKS, Colour::Full)
    }

    fn new(picture: &Plane<[u8; 3]>, quality: Quality, colour: Colour) -> Result<Self, CannotDraw> {
        let mut picture = Cow::Borrowed(picture);
        let mut levels = Vec::new();
        while picture.width().max(picture.height()) > LONGEST_WHOLE {
            levels.push(Level::new(&picture, quality, colour)?);
            picture = Cow::Owned(halved(&picture));
        }
        let whole_px = [picture.width(), picture.height()];
        Ok(Self { whole: jpeg(&picture, quality, colour)?, whole_px, levels })
    }
}

impl Level {
    fn new(picture: &Plane<[u8; 3]>, quality: Quality, colour: Colour) -> Result<Self, CannotDraw> {
        let (w, h) = (picture.width(), picture.height());
        let corners: Vec<(usize, usize)> =
            (0..h).step_by(TILE).flat_map(|y| (0..w).step_by(TILE).map(move |x| (x, y))).collect();
        let tile = |&(x, y): &(usize, usize)| {
            let part = picture.crop(x, y, TILE.min(w - x), TILE.min(h - y));
            jpeg(&part, quality, colour)
        };
        Ok(Self { size_px: [w, h], tiles: corners.par_iter().map(tile).collect::<Result<_, _>>()? })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use sheet::decode::{DecodeRequest, decode_rgb};

    #[test]
    fn tiles_lie_where_the_picture_has_them() {
        let mut picture = Plane::filled(2100, 1100, [240u8; 3]);
        for y in 600..700 {
            picture.row_mut(y)[1200..1300].fill([20; 3]);
        }
        let tiled = Tiled::new(&picture, OF_INKS, Colour::Full).unwrap();
        assert_eq!(tiled.whole_px, [1050, 550]);
        let [level] = &tiled.levels[..] else { panic!("one level is finer") };
        assert_eq!((level.size_px, level.tiles.len()), ([2100, 1100], 15));
        // 1200, 600 lies in the third tile of the second row.
        let tile = decode_rgb(&level.tiles[5 + 2], &DecodeRequest::default()).unwrap().rgb;
        assert!(tile.at(1250 - 1024, 650 - 512)[0] < 40 && tile.at(100, 50)[0] > 220);
        let last = decode_rgb(&level.tiles[14], &DecodeRequest::default()).unwrap().rgb;
        assert_eq!((last.width(), last.height()), (2100 - 2048, 1100 - 1024));
    }

    #[test]
    fn a_small_picture_is_whole() {
        let tiled = Tiled::new(&Plane::filled(3, 2, [0; 3]), OF_INKS, Colour::Halved).unwrap();
        assert_eq!((tiled.whole_px, tiled.levels.len()), ([3, 2], 0));
    }
}
