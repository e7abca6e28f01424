//! The marker segments of a JPEG: what stands beside the picture, and whether the picture is whole.
//!
//! ITU-T T.81, annex B; the JFIF segment is ITU-T T.871, clause 10.

use crate::scale::{ResolutionTag, ResolutionUnit, TagSource};

/// What the segments before the first scan say.
#[derive(Debug, Default)]
pub(super) struct Segments<'a> {
    /// The density of the JFIF segment, when it has a unit.
    pub(super) density: Option<ResolutionTag>,
    /// The EXIF block, from its TIFF header on.
    pub(super) exif: Option<&'a [u8]>,
    /// Whether an Adobe segment is present: its CMYK counts light instead of ink.
    pub(super) adobe: bool,
    /// Whether the end-of-image marker follows the scans.
    pub(super) whole: bool,
}

const SOI: u8 = 0xD8;
const EOI: u8 = 0xD9;
const SOS: u8 = 0xDA;

impl<'a> Segments<'a> {
    /// Reads the segments. Never fails: a file that breaks off is merely not whole.
    pub(super) fn read(bytes: &'a [u8]) -> Self {
        let mut found = Self::default();
        let mut at = 2;
        while let Some(marker) = next_marker(bytes, &mut at) {
            match marker {
                EOI => {
                    found.whole = true;
                    break;
                }
                // Markers without a length: TEM, restarts, a second start of image.
                0x01 | 0xD0..=SOI => {}
                _ => {
                    let Some(body) = segment(bytes, &mut at) else { break };
                    found.note(marker, body);
                    // The common case, without walking the scan: a file that ends as it should.
                    if marker == SOS && bytes.ends_with(&[0xFF, EOI]) {
                        found.whole = true;
                        break;
                    }
                }
            }
        }
        found
    }

    fn note(&mut self, marker: u8, body: &'a [u8]) {
        match marker {
            0xE0 if self.density.is_none() => self.density = jfif_density(body),
            0xE1 if self.exif.is_none() => self.exif = body.strip_prefix(b"Exif\0\0"),
            0xEE => self.adobe |= body.starts_with(b"Adobe"),
            _ => {}
        }
    }
}

/// The next marker at or after `at`; entropy-coded bytes between are passed over. Leaves `at` behind it.
fn next_marker(bytes: &[u8], at: &mut usize) -> Option<u8> {
    loop {
        *at += bytes.get(*at..)?.iter().position(|&b| b == 0xFF)?;
        // A marker may be preceded by any number of fill bytes FF; FF 00 is a coded byte.
        while bytes.get(*at) == Some(&0xFF) {
            *at += 1;
        }
        let marker = *bytes.get(*at)?;
        *at += 1;
        if marker != 0 {
            return Some(marker);
        }
    }
}

/// The body of the segment whose length stands at `at`. Leaves `at` behind it.
fn segment<'a>(bytes: &'a [u8], at: &mut usize) -> Option<&'a [u8]> {
    let length = usize::from(u16::from_be_bytes(bytes.get(*at..*at + 2)?.try_into().ok()?));
    let body = bytes.get(*at + 2..*at + length.max(2))?;
    *at += length.max(2);
    Some(body)
}

/// Xdensity and Ydensity; unit 0 gives only the shape of a pixel and is no resolution.
fn jfif_density(body: &[u8]) -> Option<ResolutionTag> {
    let [_, _, unit, x1, x0, y1, y0, ..] = *body.strip_prefix(b"JFIF\0")? else { return None };
    let unit = match unit {
        1 => ResolutionUnit::Inch,
        2 => ResolutionUnit::Centimetre,
        _ => return None,
    };
    let number = |high, low| f64::from(u16::from_be_bytes([high, low]));
    ResolutionTag::new(number(x1, x0), number(y1, y0), unit, TagSource::Jfif)
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEAD: &[u8] = b"\xFF\xD8\xFF\xE0\0\x10JFIF\0\x01\x02\x01\x01\x2C\x01\x2C\0\0";
    const SCAN: &[u8] = b"\xFF\xDA\0\x03\0\x12\xFF\0\x34\xFF\xD0\x56";

    #[test]
    fn the_density_is_found() {
        let tag = Segments::read(HEAD).density.unwrap();
        assert_eq!(
            (tag.x, tag.y, tag.unit, tag.source),
            (300.0, 300.0, ResolutionUnit::Inch, TagSource::Jfif)
        );
        let aspect: Vec<u8> = HEAD.iter().enumerate().map(|(i, &b)| if i == 13 { 0 } else { b }).collect();
        assert_eq!(Segments::read(&aspect).density, None);
    }

    #[test]
    fn a_picture_is_whole_only_with_its_end_marker() {
        let end: &[u8] = b"\xFF\xD9";
        assert!(Segments::read(&[HEAD, SCAN, end].concat()).whole);
        assert!(Segments::read(&[HEAD, SCAN, end, b"trailing bytes"].concat()).whole);
        assert!(!Segments::read(&[HEAD, SCAN].concat()).whole);
        // An end marker within an application segment (a thumbnail) does not count.
        assert!(!Segments::read(&[HEAD, b"\xFF\xE1\0\x06\xFF\xD9\xFF\xD9", SCAN].concat()).whole);
        for n in 0..HEAD.len() {
            assert!(!Segments::read(&HEAD[..n]).whole);
        }
    }
}
