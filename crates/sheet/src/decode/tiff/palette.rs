//! Indexed pictures, which the `tiff` crate refuses, relabelled as grey so that it unpacks the indexes.

use super::super::{DecodeError, Format};
use super::directory::Reader;

/// The tag PhotometricInterpretation, and its value for grey.
const PHOTOMETRIC: u16 = 262;
const BLACK_IS_ZERO: u16 = 1;

/// A copy of the file in which the directory where `reader` stands calls its samples grey.
pub(super) fn relabelled(file: &[u8], reader: &mut Reader<'_>) -> Result<Vec<u8>, DecodeError> {
    let directory = reader.ifd_pointer().map_or(usize::MAX, |p| p.0 as usize);
    let little = file.starts_with(b"II");
    let big = matches!(file.get(2..4), Some([43, 0] | [0, 43]));
    let mut copy = file.to_vec();
    // An entry is tag (2 bytes), kind (2), count (4, or 8 in a BigTIFF), value; the number of entries
    // comes before them in 2 bytes, or 8.
    let (first, size, value) = if big { (8, 20, 12) } else { (2, 12, 8) };
    let two = |at: usize| -> Option<u16> {
        let bytes = file.get(at..at + 2)?.try_into().ok()?;
        Some(if little { u16::from_le_bytes(bytes) } else { u16::from_be_bytes(bytes) })
    };
    let mut at = directory.saturating_add(first);
    while let Some(tag) = two(at) {
        if tag == PHOTOMETRIC {
            if let Some(place) = copy.get_mut(at + value..at + value + 2) {
                let label = if little { BLACK_IS_ZERO.to_le_bytes() } else { BLACK_IS_ZERO.to_be_bytes() };
                place.copy_from_slice(&label);
                return Ok(copy);
            }
        }
        at += size;
    }
    Err(DecodeError::damaged(Format::Tiff, "directory cut short"))
}
