//! How a photograph must be turned to stand as the camera saw it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How stored pixels are turned and mirrored to make the picture: the eight values of the EXIF and TIFF
/// tag Orientation (CIPA DC-008, 4.6.4; TIFF 6.0, page 36). Each is a mirroring, then a turn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
pub struct Turning {
    /// Whether left and right are exchanged first.
    pub mirrored: bool,
    /// Then right angles clockwise, 0 to 3.
    pub quarters: u8,
}

impl Turning {
    /// The turning that an Orientation tag asks for; values other than 1 to 8 ask for nothing.
    pub fn from_tag(orientation: u32) -> Self {
        let (mirrored, quarters) = match orientation {
            2 => (true, 0),
            3 => (false, 2),
            4 => (true, 2),
            5 => (true, 3),
            6 => (false, 1),
            7 => (true, 1),
            8 => (false, 3),
            _ => (false, 0),
        };
        Self { mirrored, quarters }
    }

    /// Whether nothing is to be done.
    pub fn is_nothing(self) -> bool {
        self == Self::default()
    }

    /// Whether rows become columns.
    pub fn swaps_sides(self) -> bool {
        self.quarters % 2 == 1
    }

    /// Where the pixel that ends in column `x`, row `y` of the turned picture is stored.
    ///
    /// `width` and `height` are those of the stored picture.
    fn stored_at(self, x: usize, y: usize, width: usize, height: usize) -> (usize, usize) {
        let (column, row) = match self.quarters {
            0 => (x, y),
            1 => (y, height - 1 - x),
            2 => (width - 1 - x, height - 1 - y),
            _ => (width - 1 - y, x),
        };
        (if self.mirrored { width - 1 - column } else { column }, row)
    }

    /// The samples of the turned picture; `N` samples a pixel, `width * height` pixels as stored.
    pub(super) fn apply<const N: usize>(self, samples: Vec<u8>, width: usize, height: usize) -> Vec<u8> {
        /// Squares of this side stay in the nearest cache while rows become columns.
        const SIDE: usize = 32;
        if self.is_nothing() || samples.is_empty() {
            return samples;
        }
        let (out_w, out_h) = if self.swaps_sides() { (height, width) } else { (width, height) };
        let mut turned = vec![0u8; samples.len()];
        let (stored, _) = samples.as_chunks::<N>();
        let (out, _) = turned.as_chunks_mut::<N>();
        for top in (0..out_h).step_by(SIDE) {
            for left in (0..out_w).step_by(SIDE) {
                for y in top..(top + SIDE).min(out_h) {
                    for x in left..(left + SIDE).min(out_w) {
                        let (column, row) = self.stored_at(x, y, width, height);
                        out[y * out_w + x] = stored[row * width + column];
                    }
                }
            }
        }
        turned
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The stored picture `1 2 3 / 4 5 6` under each Orientation, from the figure "Orientation" of
    /// TIFF 6.0, page 36: where row 0 and column 0 of the stored picture come to lie.
    #[test]
    fn the_eight_orientations() {
        let rows: [&[u8]; 8] = [
            &[1, 2, 3, 4, 5, 6], // row 0 on top, column 0 at left
            &[3, 2, 1, 6, 5, 4], // top, right
            &[6, 5, 4, 3, 2, 1], // bottom, right
            &[4, 5, 6, 1, 2, 3], // bottom, left
            &[1, 4, 2, 5, 3, 6], // row 0 at left, column 0 on top
            &[4, 1, 5, 2, 6, 3], // right, top
            &[6, 3, 5, 2, 4, 1], // right, bottom
            &[3, 6, 2, 5, 1, 4], // left, bottom
        ];
        for (i, expected) in rows.iter().enumerate() {
            let turning = Turning::from_tag(i as u32 + 1);
            assert_eq!(turning.apply::<1>(vec![1, 2, 3, 4, 5, 6], 3, 2), *expected, "orientation {}", i + 1);
            assert_eq!(turning.swaps_sides(), i >= 4);
        }
        assert!(Turning::from_tag(0).is_nothing() && Turning::from_tag(9).is_nothing());
    }

    #[test]
    fn three_samples_stay_together() {
        let turned = Turning::from_tag(6).apply::<3>(vec![1, 2, 3, 4, 5, 6], 1, 2);
        assert_eq!(turned, [4, 5, 6, 1, 2, 3]);
    }
}
