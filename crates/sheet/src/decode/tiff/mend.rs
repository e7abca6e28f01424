//! Labels in the directories of a TIFF that keep the `tiff` crate from reading a sound picture, and are
//! overwritten in a copy of the file:
//!
//! - indexed colour is called grey, so that the indexes come out unpacked; the palette is applied here;
//! - a Predictor under a coding that has none is ignored by every reader, but must be one that exists for
//!   the crate: a book scanner's program of 2014 leaves whatever was in memory there.

use std::borrow::Cow;
use std::collections::BTreeSet;

/// Tags and values of TIFF 6.0.
const COMPRESSION: u16 = 259;
const PHOTOMETRIC: u16 = 262;
const PREDICTOR: u16 = 317;
const BLACK_IS_ZERO: u16 = 1;
const PALETTE: u16 = 3;
const NO_PREDICTOR: u16 = 1;
/// LZW, Deflate by its two numbers, Zstandard: the codings that a predictor may come before.
const PREDICTED: [u16; 4] = [5, 8, 32_946, 50_000];

/// A file whose labels the `tiff` crate accepts.
pub(super) struct Mended<'a> {
    pub(super) file: Cow<'a, [u8]>,
    /// Offsets of the directories whose samples are indexes.
    pub(super) indexed: BTreeSet<u64>,
}

/// Walks the chain of directories. What cannot be walked is left for the crate to complain of.
pub(super) fn mend(file: &[u8], most: usize) -> Mended<'_> {
    let mut mended = Mended { file: Cow::Borrowed(file), indexed: BTreeSet::new() };
    let words = Words::of(file);
    let mut seen = BTreeSet::new();
    let mut next = words.offset(if words.big { 8 } else { 4 });
    while let Some(at) = next.filter(|&at| at != 0 && seen.insert(at) && seen.len() <= most) {
        next = words.directory(at as usize, &mut mended);
    }
    mended
}

/// Numbers of the file in its byte order and offset size.
struct Words<'a> {
    file: &'a [u8],
    little: bool,
    big: bool,
}

impl<'a> Words<'a> {
    fn of(file: &'a [u8]) -> Self {
        Self { file, little: file.starts_with(b"II"), big: matches!(file.get(2..4), Some([43, 0] | [0, 43])) }
    }

    fn two(&self, at: usize) -> Option<u16> {
        let bytes = self.file.get(at..at.checked_add(2)?)?.try_into().ok()?;
        Some(if self.little { u16::from_le_bytes(bytes) } else { u16::from_be_bytes(bytes) })
    }

    /// An offset: 4 bytes, or 8 in a BigTIFF.
    fn offset(&self, at: usize) -> Option<u64> {
        let size = if self.big { 8 } else { 4 };
        let bytes = self.file.get(at..at.checked_add(size)?)?;
        let push = |sum: u64, &b: &u8| sum << 8 | u64::from(b);
        Some(if self.little { bytes.iter().rev().fold(0, push) } else { bytes.iter().fold(0, push) })
    }

    /// Mends one directory and gives the offset of the next.
    fn directory(&self, at: usize, mended: &mut Mended<'_>) -> Option<u64> {
        // The number of entries, then the entries: tag, kind, count, value.
        let (head, entry, value) = if self.big { (8, 20, 12) } else { (2, 12, 8) };
        let entries = if self.big { self.offset(at)? as usize } else { usize::from(self.two(at)?) };
        let (mut compression, mut predictor) = (1, None);
        for i in 0..entries {
            let place = at.checked_add(head + entry * i)?;
            match self.two(place)? {
                COMPRESSION => compression = self.two(place + value)?,
                PREDICTOR => predictor = Some(place + value),
                PHOTOMETRIC if self.two(place + value)? == PALETTE => {
                    mended.indexed.insert(at as u64);
                    self.overwrite(mended, place + value, BLACK_IS_ZERO);
                }
                _ => {}
            }
        }
        let left_over =
            |&place: &usize| self.two(place) != Some(NO_PREDICTOR) && !PREDICTED.contains(&compression);
        if let Some(place) = predictor.filter(left_over) {
            self.overwrite(mended, place, NO_PREDICTOR);
        }
        self.offset(at.checked_add(head + entry * entries)?)
    }

    fn overwrite(&self, mended: &mut Mended<'_>, at: usize, value: u16) {
        let bytes = if self.little { value.to_le_bytes() } else { value.to_be_bytes() };
        if let Some(place) = mended.file.to_mut().get_mut(at..at + 2) {
            place.copy_from_slice(&bytes);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A little-endian TIFF of one directory whose entries are SHORTs.
    fn file(entries: &[(u16, u16)]) -> Vec<u8> {
        let mut b = b"II*\0\x08\0\0\0".to_vec();
        b.extend((entries.len() as u16).to_le_bytes());
        for (tag, value) in entries {
            b.extend([&tag.to_le_bytes()[..], &[3, 0, 1, 0, 0, 0], &value.to_le_bytes(), &[0, 0]].concat());
        }
        b.extend([0; 4]);
        b
    }

    #[test]
    fn a_sound_file_is_not_copied() {
        let bytes = file(&[(COMPRESSION, 5), (PHOTOMETRIC, 1), (PREDICTOR, 2)]);
        assert!(matches!(mend(&bytes, 9).file, Cow::Borrowed(_)));
    }

    #[test]
    fn a_predictor_left_over_under_jpeg_is_taken_away() {
        let bytes = file(&[(COMPRESSION, 7), (PHOTOMETRIC, 2), (PREDICTOR, 64_592)]);
        assert_eq!(*mend(&bytes, 9).file, file(&[(COMPRESSION, 7), (PHOTOMETRIC, 2), (PREDICTOR, 1)]));
    }

    #[test]
    fn indexes_are_called_grey_and_remembered() {
        let bytes = file(&[(COMPRESSION, 1), (PHOTOMETRIC, 3)]);
        let mended = mend(&bytes, 9);
        assert_eq!(*mended.file, file(&[(COMPRESSION, 1), (PHOTOMETRIC, 1)]));
        assert_eq!(mended.indexed, BTreeSet::from([8]));
    }

    #[test]
    fn loops_and_broken_ends_are_left_alone() {
        let mut bytes = file(&[(COMPRESSION, 1)]);
        let end = bytes.len();
        bytes[end - 4..].copy_from_slice(&8u32.to_le_bytes());
        assert!(mend(&bytes, 9).indexed.is_empty());
        for n in 0..bytes.len() {
            let _ = mend(&bytes[..n], 9);
        }
        let _ = mend(b"MM\0+\0\x08\0\0\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF", 9);
    }
}
