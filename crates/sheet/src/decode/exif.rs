//! Orientation and resolution from an EXIF block.

use exif::{In, Reader, Tag, Value};

use super::Turning;
use crate::scale::{ResolutionTag, ResolutionUnit, TagSource};

/// What an EXIF block says about how the picture stands and how large it is.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct ExifFacts {
    pub(super) turning: Turning,
    pub(super) resolution: Option<ResolutionTag>,
}

/// Reads an EXIF block that starts at its TIFF header. A block that cannot be read says nothing: a
/// photograph is not refused for a fault in what a camera noted beside it.
pub(super) fn read(block: &[u8]) -> ExifFacts {
    let Ok(fields) = Reader::new().read_raw(block.to_vec()) else {
        return ExifFacts::default();
    };
    let whole = |tag| fields.get_field(tag, In::PRIMARY).and_then(|f| f.value.get_uint(0));
    let ratio = |tag| match fields.get_field(tag, In::PRIMARY).map(|f| &f.value) {
        Some(Value::Rational(v)) => v.first().map(exif::Rational::to_f64),
        _ => None,
    };
    let unit = match whole(Tag::ResolutionUnit) {
        None | Some(2) => Some(ResolutionUnit::Inch), // inches when the tag is absent: CIPA DC-008, 4.6.4
        Some(3) => Some(ResolutionUnit::Centimetre),
        Some(_) => None,
    };
    let resolution = match (ratio(Tag::XResolution), ratio(Tag::YResolution), unit) {
        (Some(x), Some(y), Some(unit)) => ResolutionTag::new(x, y, unit, TagSource::Exif),
        _ => None,
    };
    ExifFacts { turning: Turning::from_tag(whole(Tag::Orientation).unwrap_or(1)), resolution }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_block_of_rubbish_says_nothing() {
        assert_eq!(read(b""), ExifFacts::default());
        assert_eq!(read(b"II*\0\xFF\xFF\xFF\xFF"), ExifFacts::default());
    }

    #[test]
    fn a_block_written_by_hand() {
        // Little-endian TIFF, one directory of four entries, two rationals after it.
        let mut b = b"II*\0\x08\0\0\0\x04\0".to_vec();
        let entry = |tag: u16, kind: u16, value: u32| {
            [&tag.to_le_bytes()[..], &kind.to_le_bytes(), &1u32.to_le_bytes(), &value.to_le_bytes()].concat()
        };
        b.extend(entry(0x0112, 3, 6));
        b.extend(entry(0x011A, 5, 62));
        b.extend(entry(0x011B, 5, 70));
        b.extend(entry(0x0128, 3, 3));
        b.extend([0; 4]);
        for v in [1180u32, 10, 2360, 10] {
            b.extend(v.to_le_bytes());
        }
        let facts = read(&b);
        assert_eq!(facts.turning, Turning::from_tag(6));
        let tag = facts.resolution.unwrap();
        assert_eq!((tag.x, tag.y, tag.unit), (118.0, 236.0, ResolutionUnit::Centimetre));
    }
}
