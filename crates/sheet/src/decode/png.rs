//! PNG, by way of the `png` crate.

use std::io::{Cursor, ErrorKind};

use png::{BitDepth, ColorType, Decoder, DecodingError, Transformations, Unit};

use super::canvas::{Canvas, Keep};
use super::photograph::FileFacts;
use super::request::Limits;
use super::tone::{Layout, narrowed};
use super::{DecodeError, Format, Notice, exif};
use crate::scale::{ResolutionTag, ResolutionUnit, TagSource};

/// Decodes a PNG row by row, so that little more than the canvas is held. Interlaced files are decoded
/// whole first.
pub(super) fn decode(bytes: &[u8], keep: Keep, limits: Limits) -> Result<(Canvas, FileFacts), DecodeError> {
    let mut decoder = Decoder::new(Cursor::new(bytes));
    decoder.set_ignore_text_chunk(true);
    decoder.set_ignore_iccp_chunk(true);
    // Palettes to RGB, 1, 2 and 4 bits to 8, transparent colours to alpha; 16 bits are ours to round.
    decoder.set_transformations(Transformations::EXPAND);
    let header = decoder.read_header_info().map_err(|e| told(&e))?;
    let (width, height) = (header.width, header.height);
    let mut canvas = Canvas::new(keep, width, height, limits)?;
    let mut reader = decoder.read_info().map_err(|e| told(&e))?;

    let (colour, depth) = reader.output_color_type();
    let layout = match colour {
        ColorType::Grayscale => Layout::GREY,
        ColorType::GrayscaleAlpha => Layout::GREY.with_alpha(),
        ColorType::Rgb => Layout::RGB,
        ColorType::Rgba => Layout::RGB.with_alpha(),
        ColorType::Indexed => return Err(DecodeError::damaged(Format::Png, "palette missing")),
    };
    let deep = depth == BitDepth::Sixteen;

    if reader.info().interlaced {
        let size = reader.output_buffer_size().ok_or(DecodeError::NoPixels)?;
        let mut samples = vec![0; size];
        reader.next_frame(&mut samples).map_err(|e| told(&e))?;
        if deep {
            samples = narrow(&samples);
        }
        canvas.lay_all(layout, &samples);
    } else {
        for y in 0..canvas.height {
            let row = reader.next_row().map_err(|e| told(&e))?;
            let row = row.ok_or(DecodeError::CutShort { format: Format::Png })?;
            if deep {
                canvas.lay(0, y, layout, &narrow(row.data()));
            } else {
                canvas.lay(0, y, layout, row.data());
            }
        }
    }

    let mut facts = FileFacts::new(Format::Png, width, height);
    let info = reader.info();
    if let Some(animation) = info.animation_control {
        facts.notices.push(Notice::Animated { format: Format::Png, pictures: animation.num_frames });
    }
    if let Some(size) = info.pixel_dims.filter(|d| d.unit == Unit::Meter) {
        let (x, y) = (f64::from(size.xppu), f64::from(size.yppu));
        facts.resolution_tags.extend(ResolutionTag::new(x, y, ResolutionUnit::Metre, TagSource::Png));
    }
    if let Some(block) = &info.exif_metadata {
        let found = exif::read(block);
        facts.turned = found.turning;
        facts.resolution_tags.extend(found.resolution);
    }
    Ok((canvas, facts))
}

/// Big-endian 16-bit samples as 8 bits.
fn narrow(samples: &[u8]) -> Vec<u8> {
    samples.as_chunks::<2>().0.iter().map(|&two| narrowed(u16::from_be_bytes(two))).collect()
}

fn told(error: &DecodingError) -> DecodeError {
    match error {
        DecodingError::IoError(e) if e.kind() == ErrorKind::UnexpectedEof => {
            DecodeError::CutShort { format: Format::Png }
        }
        other => DecodeError::damaged(Format::Png, other.to_string()),
    }
}
