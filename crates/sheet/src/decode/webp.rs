//! WebP, by way of `image-webp`.

use std::io::{Cursor, ErrorKind};

use image_webp::{DecodingError, WebPDecoder};

use super::canvas::{Canvas, Keep};
use super::photograph::FileFacts;
use super::request::Limits;
use super::tone::Layout;
use super::{DecodeError, Format, Notice, exif};

/// Decodes a WebP, lossy or lossless; of an animation the first picture.
pub(super) fn decode(bytes: &[u8], keep: Keep, limits: Limits) -> Result<(Canvas, FileFacts), DecodeError> {
    // The container gives its length, less the first eight bytes (RFC 9649, 2.4).
    let length = bytes.get(4..8).and_then(|b| b.try_into().ok()).map_or(0, u32::from_le_bytes);
    if u64::from(length) + 8 > bytes.len() as u64 {
        return Err(DecodeError::CutShort { format: Format::WebP });
    }
    let mut decoder = WebPDecoder::new(Cursor::new(bytes)).map_err(|e| told(&e))?;
    let (width, height) = decoder.dimensions();
    let mut canvas = Canvas::new(keep, width, height, limits)?;
    let layout = if decoder.has_alpha() { Layout::RGB.with_alpha() } else { Layout::RGB };
    if keep.takes(layout) {
        decoder.read_image(&mut canvas.samples).map_err(|e| told(&e))?;
    } else {
        let mut samples = vec![0; canvas.width * canvas.height * layout.samples()];
        decoder.read_image(&mut samples).map_err(|e| told(&e))?;
        canvas.lay_all(layout, &samples);
    }

    let mut facts = FileFacts::new(Format::WebP, width, height);
    if decoder.is_animated() {
        facts.notices.push(Notice::Animated { format: Format::WebP, pictures: decoder.num_frames() });
    }
    if let Some(block) = decoder.exif_metadata().ok().flatten() {
        // The specification gives the block bare; some writers put the JPEG prefix before it all the same.
        let found = exif::read(block.strip_prefix(b"Exif\0\0").unwrap_or(&block));
        facts.turned = found.turning;
        facts.resolution_tags.extend(found.resolution);
    }
    Ok((canvas, facts))
}

fn told(error: &DecodingError) -> DecodeError {
    match error {
        DecodingError::IoError(e) if e.kind() == ErrorKind::UnexpectedEof => {
            DecodeError::CutShort { format: Format::WebP }
        }
        other => DecodeError::damaged(Format::WebP, other.to_string()),
    }
}
