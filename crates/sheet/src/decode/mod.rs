//! From the bytes of a file to a photograph.
//!
//! Start at [`decode`]. The kind of a file is told by its content ([`Format`]); its size is checked
//! against [`Limits`] from the header, before anything is allocated; of the picture only the brightness is
//! kept, one byte a pixel, turned as the camera held it. What the file says of its resolution is handed on
//! unbelieved ([`crate::scale`] judges it). Half a picture is an error, never a picture.

mod bits;
mod canvas;
mod error;
mod exif;
mod fax;
mod format;
mod jbig2;
mod jp2;
mod jpeg;
mod notice;
mod pdf;
mod photograph;
mod png;
mod request;
mod tiff;
mod tone;
mod turning;
mod webp;

pub use error::DecodeError;
pub use format::Format;
pub use notice::Notice;
pub use photograph::{FileFacts, Photograph, RgbPhotograph};
pub use request::{DecodeRequest, Limits};
pub use turning::Turning;

use crate::Plane;
use crate::scale::ResolutionTag;
use canvas::{Canvas, Keep};

/// Decodes the brightness of a photograph: JPEG, PNG, TIFF, WebP, JPEG 2000, or a page image of a PDF.
///
/// # Errors
/// Whatever is wrong with the bytes, with the remedy: see [`DecodeError`]. Never panics, whatever the bytes.
pub fn decode(bytes: &[u8], ask: &DecodeRequest) -> Result<Photograph, DecodeError> {
    let (canvas, file) = upright(bytes, ask, Keep::Luminance)?;
    let plane = Plane::from_vec(canvas.width, canvas.height, canvas.samples);
    let luminance = plane.ok_or(DecodeError::NoPixels)?;
    Ok(Photograph { luminance, file })
}

/// Decodes a photograph in colour, three bytes a pixel; otherwise as [`decode`].
///
/// # Errors
/// As [`decode`].
pub fn decode_rgb(bytes: &[u8], ask: &DecodeRequest) -> Result<RgbPhotograph, DecodeError> {
    let (canvas, file) = upright(bytes, ask, Keep::Rgb)?;
    let pixels = canvas.samples.as_chunks::<3>().0.to_vec();
    let rgb = Plane::from_vec(canvas.width, canvas.height, pixels).ok_or(DecodeError::NoPixels)?;
    Ok(RgbPhotograph { rgb, file })
}

/// Decodes the brightness of a photograph and its colour at once: the same as [`decode`] and [`decode_rgb`], for less.
///
/// # Errors
/// As [`decode`].
pub fn decode_in_colour(
    bytes: &[u8],
    ask: &DecodeRequest,
) -> Result<(Photograph, Plane<[u8; 3]>), DecodeError> {
    let (canvas, file) = upright(bytes, ask, Keep::Both)?;
    let pixels = canvas.samples.as_chunks::<4>().0;
    let luminance = pixels.iter().map(|p| p[0]).collect();
    let rgb = pixels.iter().map(|&[_, r, g, b]| [r, g, b]).collect();
    let luminance = Plane::from_vec(canvas.width, canvas.height, luminance).ok_or(DecodeError::NoPixels)?;
    let rgb = Plane::from_vec(canvas.width, canvas.height, rgb).ok_or(DecodeError::NoPixels)?;
    Ok((Photograph { luminance, file }, rgb))
}

/// Decodes, then turns the picture and what is said of it.
fn upright(bytes: &[u8], ask: &DecodeRequest, keep: Keep) -> Result<(Canvas, FileFacts), DecodeError> {
    if bytes.len() as u64 > ask.limits.max_bytes {
        return Err(DecodeError::TooManyBytes { bytes: bytes.len() as u64, max_bytes: ask.limits.max_bytes });
    }
    let format = Format::of(bytes)?;
    let limits = ask.limits;
    if let (Some(page), Format::Jpeg | Format::Png | Format::WebP | Format::Jpeg2000) = (ask.page, format)
        && page.get() > 1
    {
        return Err(DecodeError::NoSuchPage { asked: page.get(), pages: 1 });
    }
    let (mut canvas, mut file) = match format {
        Format::Jpeg => jpeg::decode(bytes, keep, limits, None),
        Format::Png => png::decode(bytes, keep, limits),
        Format::Tiff => tiff::decode(bytes, ask.page, keep, limits),
        Format::WebP => webp::decode(bytes, keep, limits),
        Format::Jpeg2000 => jp2::decode(bytes, keep, limits),
        Format::Pdf => pdf::decode(bytes, ask.page, keep, limits),
    }?;
    if let Some(notice) = wrong_extension(ask.extension.as_deref(), format) {
        file.notices.insert(0, notice);
    }
    let (width, height) = (canvas.width, canvas.height);
    canvas.samples = match keep {
        Keep::Luminance => file.turned.apply::<1>(canvas.samples, width, height),
        Keep::Rgb => file.turned.apply::<3>(canvas.samples, width, height),
        Keep::Both => file.turned.apply::<4>(canvas.samples, width, height),
    };
    if file.turned.swaps_sides() {
        (canvas.width, canvas.height) = (height, width);
        file.resolution_tags = file.resolution_tags.into_iter().map(ResolutionTag::swapped).collect();
    }
    Ok((canvas, file))
}

/// The notice that an extension which names some kind of file names the wrong one.
fn wrong_extension(extension: Option<&str>, format: Format) -> Option<Notice> {
    let extension = extension?.trim_start_matches('.').to_lowercase();
    let fits = format.extensions().contains(&extension.as_str());
    (!extension.is_empty() && !fits).then_some(Notice::WrongExtension { extension, format })
}
