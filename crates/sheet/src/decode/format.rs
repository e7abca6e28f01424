//! What kind of file the bytes are, told by how they begin and never by a name.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::fmt;

use super::DecodeError;

/// A kind of file that is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Format {
    /// JPEG (ISO/IEC 10918).
    Jpeg,
    /// PNG (ISO/IEC 15948).
    Png,
    /// TIFF 6.0, BigTIFF too.
    Tiff,
    /// WebP (RFC 9649).
    WebP,
    /// JPEG 2000 (ISO/IEC 15444-1), in its JP2 wrapping or as a bare codestream.
    Jpeg2000,
    /// PDF (ISO 32000), for the photographs on its pages.
    Pdf,
}

impl Format {
    /// The extensions that files of this kind carry, in lower case.
    pub fn extensions(self) -> &'static [&'static str] {
        match self {
            Self::Jpeg => &["jpg", "jpeg", "jpe", "jfif"],
            Self::Png => &["png", "apng"],
            Self::Tiff => &["tif", "tiff", "btf", "tf8", "ptif"],
            Self::WebP => &["webp"],
            Self::Jpeg2000 => &["jp2", "j2k", "jpf", "jpx", "jpm", "j2c", "jpc"],
            Self::Pdf => &["pdf"],
        }
    }

    /// What the bytes are.
    ///
    /// # Errors
    /// [`DecodeError::Empty`] of no bytes, [`DecodeError::ForeignFormat`] of a known kind that is not
    /// read, [`DecodeError::NotAPicture`] of anything else.
    pub fn of(bytes: &[u8]) -> Result<Self, DecodeError> {
        if bytes.is_empty() {
            return Err(DecodeError::Empty);
        }
        if let Some(foreign) = foreign(bytes) {
            return Err(foreign);
        }
        let starts = |magic: &[u8]| bytes.starts_with(magic);
        if starts(&[0xFF, 0xD8, 0xFF]) {
            Ok(Self::Jpeg)
        } else if starts(b"\x89PNG\r\n\x1a\n") {
            Ok(Self::Png)
        } else if starts(b"II*\0") || starts(b"MM\0*") || starts(b"II+\0") || starts(b"MM\0+") {
            Ok(Self::Tiff)
        } else if starts(b"RIFF") && bytes.get(8..12) == Some(b"WEBP") {
            Ok(Self::WebP)
        } else if starts(b"\0\0\0\x0cjP  \r\n\x87\n") || starts(&[0xFF, 0x4F, 0xFF, 0x51]) {
            Ok(Self::Jpeg2000)
        } else if holds(&bytes[..bytes.len().min(1024)], b"%PDF-") {
            // ISO 32000-1, annex H.3.4.1: readers look for the header within the first 1,024 bytes.
            Ok(Self::Pdf)
        } else {
            Err(DecodeError::NotAPicture { begins: beginning(bytes) })
        }
    }
}

impl fmt::Display for Format {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Jpeg => "JPEG",
            Self::Png => "PNG",
            Self::Tiff => "TIFF",
            Self::WebP => "WebP",
            Self::Jpeg2000 => "JPEG 2000",
            Self::Pdf => "PDF",
        })
    }
}

/// The remedy for camera raw files, which [`super::tiff`] meets too.
pub(super) const DEVELOP: &str = "develop it in the camera's own program and save it as a TIFF or JPEG";
const CONVERT: &str =
    "open it in a program that shows it and save it as a PNG, or as a JPEG of the best quality";

/// The error for a known kind that is not read.
fn foreign(bytes: &[u8]) -> Option<DecodeError> {
    let starts = |magic: &[u8]| bytes.starts_with(magic);
    let (name, remedy) = if bytes.get(4..8) == Some(b"ftyp") {
        // ISO/IEC 14496-12: the brand stands right after the box type.
        match bytes.get(8..12)? {
            b"avif" | b"avis" => ("AVIF", CONVERT),
            b"heic" | b"heix" | b"hevc" | b"hevx" | b"heim" | b"heis" | b"mif1" | b"msf1" => (
                "HEIC",
                "set the telephone to save photographs as JPEG (most compatible), or export this one as a JPEG of \
                 the best quality",
            ),
            b"crx " => ("Camera raw (CR3)", DEVELOP),
            _ => ("Film", "save a still of it as a PNG, or take a photograph"),
        }
    } else if starts(b"GIF87a") || starts(b"GIF89a") {
        ("GIF", CONVERT)
    } else if starts(b"BM") && bytes.get(6..10) == Some(&[0; 4]) {
        ("BMP", CONVERT)
    } else if starts(b"8BPS") {
        ("PSD", "flatten it and save it as a TIFF or PNG")
    } else if starts(&[0xFF, 0x0A]) || starts(b"\0\0\0\x0cJXL ") {
        ("JPEG XL", CONVERT)
    } else if starts(b"AT&TFORM") {
        ("DjVu", "ask the library for the page image itself, or save the page as a PNG of at least 300 ppi")
    } else if starts(b"FUJIFILMCCD-RAW") || starts(b"IIRO") || starts(b"IIRS") || starts(b"IIU\0") {
        ("Camera raw", DEVELOP)
    } else if starts(b"II*\0") && bytes.get(8..10) == Some(b"CR") {
        ("Camera raw (CR2)", DEVELOP)
    } else if is_svg(bytes) {
        ("SVG", "it is a drawing, not a photograph: save it as a PNG of at least 300 ppi")
    } else if is_html(bytes) {
        ("Web page (HTML)", "the address led to a page about the picture: download the picture itself")
    } else {
        return None;
    };
    Some(DecodeError::ForeignFormat { name, remedy })
}

/// Whether the head of the file is XML or text with an `svg` element.
fn is_svg(bytes: &[u8]) -> bool {
    let head = bytes[..bytes.len().min(1024)].trim_ascii_start();
    let head = head.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(head);
    head.starts_with(b"<") && holds(head, b"<svg")
}

/// Whether the file is a web page, as failed downloads are.
fn is_html(bytes: &[u8]) -> bool {
    let head = bytes[..bytes.len().min(256)].trim_ascii_start().to_ascii_lowercase();
    head.starts_with(b"<!doctype html") || head.starts_with(b"<html")
}

/// Whether `part` occurs in `bytes`.
fn holds(bytes: &[u8], part: &[u8]) -> bool {
    bytes.windows(part.len()).any(|w| w == part)
}

/// The first bytes for a message: in quotes when they are plain text, else in hexadecimal.
fn beginning(bytes: &[u8]) -> String {
    let head = &bytes[..bytes.len().min(12)];
    if head.iter().all(|b| (0x20..0x7F).contains(b)) {
        format!("\"{}\"", String::from_utf8_lossy(head))
    } else {
        head.iter().take(8).map(|b| format!("{b:02X}")).collect::<Vec<_>>().join(" ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kinds_are_told_by_content() {
        for (bytes, format) in [
            (&b"\xFF\xD8\xFF\xE0"[..], Format::Jpeg),
            (b"\x89PNG\r\n\x1a\n....", Format::Png),
            (b"II*\0\x08\0\0\0", Format::Tiff),
            (b"MM\0+\0\x08", Format::Tiff),
            (b"RIFF\x10\0\0\0WEBPVP8 ", Format::WebP),
            (b"\0\0\0\x0cjP  \r\n\x87\n", Format::Jpeg2000),
            (b"\xFF\x4F\xFF\x51\0", Format::Jpeg2000),
            (b"junk before\n%PDF-1.4\n", Format::Pdf),
        ] {
            assert_eq!(Format::of(bytes), Ok(format));
        }
    }

    #[test]
    fn known_kinds_that_are_not_read_are_named_with_a_remedy() {
        for (bytes, name) in [
            (&b"\0\0\0\x18ftypheic\0\0\0\0"[..], "HEIC"),
            (b"\0\0\0\x18ftypavif\0\0\0\0", "AVIF"),
            (b"GIF89a\x01\0\x01\0", "GIF"),
            (b"BM\x46\0\0\0\0\0\0\0\x36\0\0\0", "BMP"),
            (b"<?xml version=\"1.0\"?>\n<svg xmlns=\"\">", "SVG"),
            (b"II*\0\x10\0\0\0CR\x02\0", "Camera raw (CR2)"),
            (b"<!DOCTYPE html><html>", "Web page (HTML)"),
        ] {
            let Err(e @ DecodeError::ForeignFormat { name: found, .. }) = Format::of(bytes) else {
                panic!("{name} was not named")
            };
            assert_eq!(found, name);
            assert!(e.to_string().starts_with(&format!("{name} files are not read: ")));
        }
    }

    #[test]
    fn anything_else_is_not_a_picture() {
        assert_eq!(Format::of(b""), Err(DecodeError::Empty));
        assert_eq!(
            Format::of(b"Dear Sir, I send you"),
            Err(DecodeError::NotAPicture { begins: "\"Dear Sir, I \"".into() })
        );
        assert_eq!(Format::of(&[0, 1, 2]), Err(DecodeError::NotAPicture { begins: "00 01 02".into() }));
    }
}
