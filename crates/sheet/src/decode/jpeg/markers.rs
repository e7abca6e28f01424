//! The marker segments of a JPEG: what stands beside the picture, and whether the picture is whole.
//!
//! ITU-T T.81, annex B; the JFIF segment is ITU-T T.871, clause 10.

use crate::scale::{ResolutionTag, ResolutionUnit, TagSource};

use std::collections::BTreeMap;

/// What the segments say.
#[derive(Debug, Default)]
pub(super) struct Segments<'a> {
    /// The density of the JFIF segment, when it has a unit.
    pub(super) density: Option<ResolutionTag>,
    /// The EXIF block, from its TIFF header on.
    pub(super) exif: Option<&'a [u8]>,
    /// Whether an Adobe segment is present: its CMYK counts light instead of ink.
    pub(super) adobe: bool,
    /// The kind of coding: the second byte of the start-of-frame marker.
    pub(super) frame: Option<u8>,
    /// Bits of a sample.
    pub(super) bits: u8,
    /// Components of the frame.
    components: u8,
    /// Components of the first scan.
    first_scan: Option<u8>,
    /// The largest sampling factors, across and down.
    sampling: (u8, u8),
    /// Where the end-of-image marker stands; `None` of a file that was cut short.
    pub(super) end: Option<usize>,
    /// The lowest bit that the scans of a progressive file have brought, of each band of each component.
    lowest: BTreeMap<(u8, u8), u8>,
}

const SOI: u8 = 0xD8;
const EOI: u8 = 0xD9;
const SOS: u8 = 0xDA;
/// Start of a progressive frame with Huffman coding, the only progressive kind that is read.
const SOF2: u8 = 0xC2;

impl<'a> Segments<'a> {
    /// Reads the segments. Never fails: a file that breaks off merely has no end.
    pub(super) fn read(bytes: &'a [u8]) -> Self {
        let mut found = Self::default();
        let mut at = 2;
        while let Some(marker) = next_marker(bytes, &mut at) {
            match marker {
                EOI => {
                    found.end = Some(at - 2);
                    break;
                }
                // Markers without a length: TEM, restarts, a second start of image.
                0x01 | 0xD0..=SOI => {}
                _ => {
                    let Some(body) = segment(bytes, &mut at) else { break };
                    found.note(marker, body);
                    // The common case, without walking the scan: a file that ends as it should.
                    if marker == SOS && !found.is_progressive() && bytes.ends_with(&[0xFF, EOI]) {
                        found.end = Some(bytes.len() - 2);
                        break;
                    }
                }
            }
        }
        found
    }

    /// Whether the coefficients come in several scans, coarse ones first.
    pub(super) fn is_progressive(&self) -> bool {
        self.frame == Some(SOF2)
    }

    /// Whether colour is coarser down the columns and not along the rows (4:4:0).
    pub(super) fn is_coarse_down(&self) -> bool {
        self.sampling.0 == 1 && self.sampling.1 > 1
    }

    /// Whether the components of a file that is not progressive come one after another, with some of them
    /// coarser down the columns.
    pub(super) fn is_apart_and_coarse(&self) -> bool {
        let apart = self.first_scan.is_some_and(|n| n < self.components);
        apart && !self.is_progressive() && self.sampling.1 > 1
    }

    /// Whether the scans of a progressive file bring every bit of all that they began: when its last scans
    /// are missing, a decoder makes a coarse picture without a word.
    pub(super) fn is_finished(&self) -> bool {
        !self.is_progressive() || self.lowest.values().all(|&bit| bit == 0)
    }

    fn note(&mut self, marker: u8, body: &'a [u8]) {
        match marker {
            0xE0 if self.density.is_none() => self.density = jfif_density(body),
            0xE1 if self.exif.is_none() => self.exif = body.strip_prefix(b"Exif\0\0"),
            0xEE => self.adobe |= body.starts_with(b"Adobe"),
            // All starts of frame but the tables and extensions that stand among them.
            0xC0..=0xCF if !matches!(marker, 0xC4 | 0xC8 | 0xCC) && self.frame.is_none() => {
                self.frame = Some(marker);
                self.bits = body.first().copied().unwrap_or(0);
                // Precision, height, width, count; then of each component its name, sampling, table (B.2.2).
                let sampling = body.iter().skip(7).step_by(3);
                self.sampling = sampling.fold((0, 0), |(h, v), s| (h.max(s >> 4), v.max(s & 0x0F)));
                self.components = body.get(5).copied().unwrap_or(0);
            }
            SOS => {
                self.first_scan = self.first_scan.or(body.first().copied());
                if self.is_progressive() {
                    self.note_scan(body);
                }
            }
            _ => {}
        }
    }

    /// Components, then the first and last coefficient, then the bits before and after (B.2.3).
    fn note_scan(&mut self, body: &[u8]) {
        let Some((&count, rest)) = body.split_first() else { return };
        let Some((components, [first, _, bits, ..])) = rest.split_at_checked(2 * usize::from(count)) else {
            return;
        };
        for component in components.chunks_exact(2) {
            self.lowest.insert((component[0], u8::from(*first > 0)), bits & 0x0F);
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
        let place = Some(HEAD.len() + SCAN.len());
        assert_eq!(Segments::read(&[HEAD, SCAN, end].concat()).end, place);
        assert_eq!(Segments::read(&[HEAD, SCAN, end, b"trailing bytes"].concat()).end, place);
        assert_eq!(Segments::read(&[HEAD, SCAN].concat()).end, None);
        // An end marker within an application segment (a thumbnail) does not count.
        assert_eq!(Segments::read(&[HEAD, b"\xFF\xE1\0\x06\xFF\xD9\xFF\xD9", SCAN].concat()).end, None);
        for n in 0..HEAD.len() {
            assert_eq!(Segments::read(&HEAD[..n]).end, None);
        }
    }

    #[test]
    fn a_progressive_picture_needs_its_last_scans() {
        let frame: &[u8] = b"\xFF\xC2\0\x0B\x08\0\x10\0\x10\x01\x01\x11\0";
        let scan = |first: u8, last: u8, bits: u8| {
            [&[0xFF, SOS, 0, 8, 1, 1, 0, first, last, bits][..], &[0x12, 0x34]].concat()
        };
        let all = [scan(0, 0, 1), scan(1, 63, 2), scan(0, 0, 0x10), scan(1, 63, 0x21), scan(1, 63, 0x10)];
        for scans in 1..=all.len() {
            let file = [HEAD, frame, &all[..scans].concat(), &[0xFF, EOI]].concat();
            assert_eq!(Segments::read(&file).is_finished(), scans == all.len(), "{scans} scans");
        }
    }
}
