//! The boxes of a JP2 file: where the codestream lies, and the resolutions it was given.
//!
//! ISO/IEC 15444-1, annex I.

use crate::scale::{ResolutionTag, ResolutionUnit, TagSource};

/// What the boxes hold that the decoder does not tell.
#[derive(Debug, Default)]
pub(super) struct Boxes<'a> {
    /// The codestream, as much of it as there is.
    pub(super) codestream: Option<&'a [u8]>,
    /// Capture and display resolution, in the order found.
    pub(super) resolutions: Vec<ResolutionTag>,
    /// Whether the box of the codestream promises more bytes than the file has.
    pub(super) cut_short: bool,
}

impl<'a> Boxes<'a> {
    /// Walks the boxes of a file; a bare codestream is taken as it is.
    pub(super) fn read(bytes: &'a [u8]) -> Self {
        let mut found = Self::default();
        if bytes.starts_with(&[0xFF, 0x4F]) {
            found.codestream = Some(bytes);
        } else {
            found.walk(bytes, 0);
        }
        found
    }

    fn walk(&mut self, mut bytes: &'a [u8], depth: u8) {
        while let Some(next) = Next::read(bytes) {
            match &next.kind {
                b"jp2c" if self.codestream.is_none() => {
                    self.codestream = Some(next.body);
                    self.cut_short = next.cut_short;
                }
                // The header box holds the resolution box, which holds the two resolutions.
                b"jp2h" | b"res " if depth < 2 => self.walk(next.body, depth + 1),
                b"resc" => self.resolutions.extend(resolution(next.body, TagSource::Jp2Capture)),
                b"resd" => self.resolutions.extend(resolution(next.body, TagSource::Jp2Display)),
                _ => {}
            }
            bytes = next.rest;
        }
    }
}

/// The first box of some bytes, and what follows it.
struct Next<'a> {
    kind: [u8; 4],
    body: &'a [u8],
    rest: &'a [u8],
    cut_short: bool,
}

impl<'a> Next<'a> {
    /// Length, kind, then a longer length when the first is 1; a length of 0 reaches to the end (I.4).
    fn read(bytes: &'a [u8]) -> Option<Self> {
        let (length, rest) = bytes.split_first_chunk::<4>()?;
        let (kind, rest) = rest.split_first_chunk::<4>()?;
        let (body_length, rest) = match u32::from_be_bytes(*length) {
            0 => (rest.len() as u64, rest),
            1 => {
                let (long, rest) = rest.split_first_chunk::<8>()?;
                (u64::from_be_bytes(*long).checked_sub(16)?, rest)
            }
            short => (u64::from(short).checked_sub(8)?, rest),
        };
        let cut_short = body_length > rest.len() as u64;
        let (body, rest) = rest.split_at(body_length.min(rest.len() as u64) as usize);
        Some(Self { kind: *kind, body, rest, cut_short })
    }
}

/// Vertical, then horizontal: numerator, denominator; then the powers of ten; pixels to the metre (I.5.3.7.1).
fn resolution(body: &[u8], source: TagSource) -> Option<ResolutionTag> {
    let two = |at: usize| Some(f64::from(u16::from_be_bytes(body.get(at..at + 2)?.try_into().ok()?)));
    let power = |at: usize| Some(10f64.powi(i32::from(body.get(at)?.cast_signed())));
    let y = two(0)? / two(2)? * power(8)?;
    let x = two(4)? / two(6)? * power(9)?;
    ResolutionTag::new(x, y, ResolutionUnit::Metre, source)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn boxed(kind: &str, body: &[u8]) -> Vec<u8> {
        [&(body.len() as u32 + 8).to_be_bytes()[..], kind.as_bytes(), body].concat()
    }

    #[test]
    fn the_capture_resolution_is_found_in_its_nest() {
        // 11811 / 1 * 10^0 down, 1181 / 10 * 10^2 across: about 300 ppi both ways.
        let body = [11811u16, 1, 1181, 10].map(u16::to_be_bytes).concat();
        let resc = boxed("resc", &[&body[..], &[0, 2]].concat());
        let file = [boxed("jp2h", &boxed("res ", &resc)), boxed("jp2c", &[0xFF, 0x4F])].concat();
        let found = Boxes::read(&file);
        let tag = found.resolutions[0];
        assert!((tag.ppi_y() - 299.9994).abs() < 1e-3 && (tag.ppi_x() - 299.974).abs() < 1e-3);
        assert_eq!(tag.source, TagSource::Jp2Capture);
        assert_eq!((found.codestream, found.cut_short), (Some(&[0xFF, 0x4F][..]), false));
        assert!(Boxes::read(&file[..file.len() - 1]).cut_short);
    }

    #[test]
    fn a_denominator_of_zero_says_nothing() {
        assert_eq!(resolution(&[0, 1, 0, 0, 0, 1, 0, 0, 0, 0], TagSource::Jp2Capture), None);
        assert_eq!(resolution(&[0, 1], TagSource::Jp2Capture), None);
    }
}
