//! JPEG, by way of `zune-jpeg`.

mod markers;

use zune_core::bytestream::ZCursor;
use zune_core::colorspace::ColorSpace;
use zune_core::options::DecoderOptions;
use zune_jpeg::JpegDecoder;
use zune_jpeg::errors::DecodeErrors;

use super::canvas::{Canvas, Keep};
use super::photograph::FileFacts;
use super::request::Limits;
use super::tone::{Layout, ycbcr_to_rgb};
use super::{DecodeError, Format, exif};
use markers::Segments;

/// Decodes a JPEG. Of a YCbCr file only the Y is computed when only the brightness is kept: the colour is
/// neither brought to full size nor converted. `light` says whether CMYK counts light instead of ink; when it
/// is not told, files with Adobe's marker do.
pub(super) fn decode(
    bytes: &[u8],
    keep: Keep,
    limits: Limits,
    light: Option<bool>,
) -> Result<(Canvas, FileFacts), DecodeError> {
    let segments = Segments::read(bytes);
    readable(&segments)?;
    let mut decoder = JpegDecoder::new_with_options(ZCursor::new(bytes), options());
    let whole = segments.end.is_some() && segments.is_finished();
    decoder.decode_headers().map_err(|e| told(e, whole))?;
    let (Some(info), Some(stored)) = (decoder.info(), decoder.input_colorspace()) else {
        return Err(DecodeError::damaged(Format::Jpeg, "no picture header"));
    };
    let (width, height) = (u32::from(info.width), u32::from(info.height));
    limits.admit(width, height)?;
    let end = segments.end.filter(|_| whole).ok_or(DecodeError::CutShort { format: Format::Jpeg })?;

    let (wanted, layout) = match (stored, keep) {
        (ColorSpace::Luma, _) | (ColorSpace::YCbCr, Keep::Luminance) => (ColorSpace::Luma, Layout::GREY),
        (ColorSpace::RGB, _) | (ColorSpace::YCbCr, Keep::Rgb) => (ColorSpace::RGB, Layout::RGB),
        (ColorSpace::YCbCr, Keep::Both) => (ColorSpace::YCbCr, Layout::YCBCR),
        (ColorSpace::CMYK | ColorSpace::YCCK, _) => (stored, Layout::CMYK),
        _ => {
            let kind = format!("{} colour components", info.components);
            return Err(DecodeError::kind(Format::Jpeg, kind));
        }
    };
    // The decoder takes an end marker that comes too early for rows of zeros, but notices when the bytes run
    // out. So it gets bytes that end where the marker stands, with as many beyond as it reads ahead. Of 4:4:0
    // it decodes too many rows, and needs the marker to invent them from; progressive scans end with markers.
    let scan;
    if !segments.is_progressive() && !segments.is_coarse_down() {
        scan = [&bytes[..end], &[0; READ_AHEAD]].concat();
        decoder = JpegDecoder::new_with_options(ZCursor::new(&scan), options());
        decoder.decode_headers().map_err(|e| told(e, true))?;
    }
    // Strict from here on: a lenient decoder fills what is missing with grey.
    decoder.set_options(options().jpeg_set_out_colorspace(wanted).set_strict_mode(true));

    let mut canvas = Canvas::new(keep, width, height, limits)?;
    let failed = |e| told(e, true);
    if keep.takes(layout) {
        decoder.decode_into(&mut canvas.samples).map_err(failed)?;
    } else {
        let mut samples = vec![0; canvas.width * canvas.height * layout.samples()];
        decoder.decode_into(&mut samples).map_err(failed)?;
        if stored == ColorSpace::YCCK {
            ycck_to_cmyk(&mut samples);
        }
        if light.unwrap_or(segments.adobe) && layout == Layout::CMYK {
            for v in &mut samples {
                *v = 255 - *v;
            }
        }
        canvas.lay_all(layout, &samples);
    }

    let mut facts = FileFacts::new(Format::Jpeg, width, height);
    facts.resolution_tags.extend(segments.density);
    if let Some(block) = segments.exif {
        let found = exif::read(block);
        facts.turned = found.turning;
        facts.resolution_tags.extend(found.resolution);
    }
    Ok((canvas, facts))
}

/// Decodes a JPEG that is one strip or tile of a TIFF. `tables` is the JPEG of tables that all strips
/// share, or empty; `stored` says what the samples mean, which the TIFF decides and not the JPEG; `size`
/// is that of the strip. Gives the samples, what they mean now, and how many a row has.
pub(super) fn decode_strip(
    strip: &[u8],
    tables: &[u8],
    stored: Layout,
    keep: Keep,
    size: (u32, u32),
    limits: Limits,
) -> Result<(Vec<u8>, Layout, usize), DecodeError> {
    // The tables end, and the strip begins, with a marker that must not stand in the middle.
    let joined = match (tables.len().checked_sub(2), strip.get(2..)) {
        (Some(end), Some(scan)) => [&tables[..end], scan].concat(),
        _ => strip.to_vec(),
    };
    readable(&Segments::read(&joined))?;
    let mut decoder = JpegDecoder::new_with_options(ZCursor::new(joined.as_slice()), options());
    decoder.decode_headers().map_err(|e| told(e, true))?;
    let (Some(info), Some(inner)) = (decoder.info(), decoder.input_colorspace()) else {
        return Err(DecodeError::damaged(Format::Jpeg, "no picture header"));
    };
    let (width, height) = (u32::from(info.width), u32::from(info.height));
    limits.admit(width, height)?;
    if width > size.0.next_multiple_of(64) {
        return Err(DecodeError::damaged(Format::Jpeg, "a strip wider than the picture"));
    }
    let (wanted, layout) = match (stored, keep) {
        (Layout::YCBCR, Keep::Luminance) if inner == ColorSpace::YCbCr => (ColorSpace::Luma, Layout::GREY),
        _ => (inner, stored),
    };
    if inner.num_components() != stored.samples() {
        return Err(DecodeError::damaged(Format::Jpeg, "a strip with other samples than the picture"));
    }
    decoder.set_options(options().jpeg_set_out_colorspace(wanted).set_strict_mode(true));
    let samples = decoder.decode().map_err(|e| told(e, true))?;
    Ok((samples, layout, width as usize * layout.samples()))
}

/// Bytes that `zune-jpeg` reads ahead of what it decodes: a 64-bit buffer.
const READ_AHEAD: usize = 8;

/// Refuses the kinds of JPEG that are not read, by name.
fn readable(segments: &Segments<'_>) -> Result<(), DecodeError> {
    // ITU-T T.81, table B.1.
    let kind = match segments.frame {
        Some(0xC3) => "lossless JPEG",
        Some(0xC5..=0xC7) => "hierarchical coding",
        Some(0xC9..=0xCF) => "arithmetic coding",
        Some(_) if segments.bits > 8 => "12 bits a sample",
        // `zune-jpeg` 0.5.15 makes a wrong picture of these, or panics; all is well when they are progressive.
        Some(_) if segments.is_apart_and_coarse() => "coarse colour in scans of its own",
        _ => return Ok(()),
    };
    Err(DecodeError::kind(Format::Jpeg, kind))
}

/// Lenient towards headers, which cameras and scanners write carelessly; sizes are ours to limit.
fn options() -> DecoderOptions {
    DecoderOptions::default()
        .set_strict_mode(false)
        .set_max_width(usize::from(u16::MAX))
        .set_max_height(usize::from(u16::MAX))
}

/// YCCK is CMYK whose C, M and Y, taken as the complements of R, G and B, were turned into YCbCr
/// (Adobe technical note 5116, section 18).
fn ycck_to_cmyk(samples: &mut [u8]) {
    for [c, m, y, _] in samples.as_chunks_mut::<4>().0 {
        [*c, *m, *y] = ycbcr_to_rgb([*c, *m, *y]).map(|v| 255 - v);
    }
}

/// The decoder's error as ours. `whole` tells a file that ends too early from one that is damaged.
fn told(error: DecodeErrors, whole: bool) -> DecodeError {
    match error {
        DecodeErrors::Unsupported(scheme) => DecodeError::kind(Format::Jpeg, format!("{scheme:?}")),
        DecodeErrors::ZeroError => DecodeError::NoPixels,
        _ if !whole => DecodeError::CutShort { format: Format::Jpeg },
        DecodeErrors::ExhaustedData | DecodeErrors::FormatStatic("Premature end of buffer") => {
            DecodeError::CutShort { format: Format::Jpeg }
        }
        DecodeErrors::Format(reason) => DecodeError::damaged(Format::Jpeg, reason),
        DecodeErrors::FormatStatic(reason) => DecodeError::damaged(Format::Jpeg, reason),
        other => DecodeError::damaged(Format::Jpeg, format!("{other:?}")),
    }
}
