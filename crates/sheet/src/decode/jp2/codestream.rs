//! What must be known of a JPEG 2000 codestream before it is decoded: its size, and whether it is whole.
//!
//! ISO/IEC 15444-1, annex A.

/// The main measures of a codestream.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Size {
    pub(super) width: u32,
    pub(super) height: u32,
    pub(super) tiles: u64,
    pub(super) components: u16,
}

const SOC: u16 = 0xFF4F;
const SIZ: u16 = 0xFF51;
const SOT: u16 = 0xFF90;
const EOC: u16 = 0xFFD9;

impl Size {
    /// Reads the SIZ segment, which must come first (A.5.1); `None` when it does not or makes no sense.
    pub(super) fn read(stream: &[u8]) -> Option<Self> {
        if two(stream, 0)? != SOC || two(stream, 2)? != SIZ {
            return None;
        }
        // After marker, length and capabilities: the far corner and the offset of the picture, the size and
        // offset of the tiles.
        let [right, bottom, left, top, tile_w, tile_h, tile_left, tile_top] = {
            let mut fields = [0; 8];
            for (i, field) in fields.iter_mut().enumerate() {
                *field = four(stream, 8 + 4 * i)?;
            }
            fields
        };
        let tiles = |end: u32, start: u32, size: u32| {
            (size > 0).then(|| u64::from(end.saturating_sub(start)).div_ceil(u64::from(size)))
        };
        Some(Self {
            width: right.checked_sub(left)?,
            height: bottom.checked_sub(top)?,
            tiles: tiles(right, tile_left, tile_w)?.saturating_mul(tiles(bottom, tile_top, tile_h)?),
            components: two(stream, 40)?,
        })
    }
}

/// Whether the tile-parts follow one another to the end-of-codestream marker. A decoder makes a blurred
/// picture of a codestream that was cut short, without a word.
pub(super) fn is_whole(stream: &[u8]) -> bool {
    walk(stream).unwrap_or(false)
}

fn walk(stream: &[u8]) -> Option<bool> {
    let mut at = 2;
    loop {
        match two(stream, at)? {
            EOC => return Some(true),
            SOT => {
                // A length of 0 means that this, the last tile-part, reaches to the end marker (A.4.2).
                match four(stream, at + 6)? as usize {
                    0 => return Some(stream.ends_with(&EOC.to_be_bytes())),
                    length => at = at.checked_add(length.max(12))?,
                }
            }
            // Markers FF30 to FF3F stand alone; all others of the main header carry their length.
            0xFF30..=0xFF3F => at += 2,
            _ => at += 2 + usize::from(two(stream, at + 2)?).max(2),
        }
    }
}

fn two(stream: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_be_bytes(stream.get(at..at + 2)?.try_into().ok()?))
}

fn four(stream: &[u8], at: usize) -> Option<u32> {
    Some(u32::from_be_bytes(stream.get(at..at + 4)?.try_into().ok()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stream() -> Vec<u8> {
        let mut s = vec![0xFF, 0x4F, 0xFF, 0x51, 0, 41, 0, 0];
        for v in [110u32, 70, 10, 20, 50, 50, 0, 0] {
            s.extend(v.to_be_bytes());
        }
        s.extend([0, 1, 7, 1, 1]);
        // One tile-part of 12 + 4 bytes.
        s.extend([0xFF, 0x90, 0, 10, 0, 0, 0, 0, 0, 16, 0, 1, 0xFF, 0x93, 1, 2]);
        s.extend([0xFF, 0xD9]);
        s
    }

    #[test]
    fn the_size_is_the_far_corner_less_the_offset() {
        assert_eq!(Size::read(&stream()), Some(Size { width: 100, height: 50, tiles: 6, components: 1 }));
        for n in 0..42 {
            assert_eq!(Size::read(&stream()[..n]), None);
        }
    }

    #[test]
    fn a_codestream_without_its_end_is_not_whole() {
        let whole = stream();
        assert!(is_whole(&whole));
        for n in 0..whole.len() {
            assert!(!is_whole(&whole[..n]), "{n} bytes");
        }
    }
}
