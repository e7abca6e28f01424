//! The ink of a copy in a few shades, which a script reads without a browser's picture decoder.

use std::io::Write as _;

use flate2::Compression;
use flate2::write::ZlibEncoder;
use sheet::Plane;

use super::CannotDraw;

/// Ink of a copy in sixteen shades: reduced as it is here, an edge of type has no more that the eye could tell.
///
/// Two pixels to a byte, the left one in its upper half, rows one after the other, as a zlib stream (RFC 1950): it is no
/// longer than a JPEG of the ink, and a browser unpacks it in a fifth of the time that it takes to decode a picture and
/// to read that back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shades {
    /// Width and height, pixels.
    pub size_px: [usize; 2],
    /// The stream.
    pub zlib: Vec<u8>,
}

impl Shades {
    /// Of ink: the more, the higher.
    ///
    /// # Errors
    /// When there is no memory left to write to.
    pub fn of(ink: &Plane<u8>) -> Result<Self, CannotDraw> {
        let shade = |ink: &u8| (u16::from(*ink) * 15 + 127) / 255;
        let packed: Vec<u8> = ink
            .data()
            .chunks(2)
            .map(|two| (shade(&two[0]) << 4 | two.get(1).map_or(0, shade)) as u8)
            .collect();
        let mut stream = ZlibEncoder::new(Vec::new(), Compression::new(LEVEL));
        stream.write_all(&packed).map_err(|_| CannotDraw)?;
        let zlib = stream.finish().map_err(|_| CannotDraw)?;
        Ok(Self { size_px: [ink.width(), ink.height()], zlib })
    }
}

/// Of how hard the stream is packed, 0 to 9: beyond 6 it becomes hardly shorter and takes longer.
const LEVEL: u32 = 6;

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Read as _;

    #[test]
    fn shades_are_the_ink_to_half_a_step() {
        // Odd, so that the last pixel stands alone in its byte.
        let ink = Plane::from_vec(17, 15, (0..=254).collect()).unwrap();
        let shades = Shades::of(&ink).unwrap();
        let mut packed = Vec::new();
        flate2::read::ZlibDecoder::new(&shades.zlib[..]).read_to_end(&mut packed).unwrap();
        assert_eq!((shades.size_px, packed.len()), ([17, 15], 128));
        for (i, &ink) in ink.data().iter().enumerate() {
            let shade = if i % 2 == 0 { packed[i / 2] >> 4 } else { packed[i / 2] & 15 };
            let off = i32::from(shade) * 17 - i32::from(ink);
            assert!(off.abs() <= 9, "{ink} became {shade}");
        }
    }
}
