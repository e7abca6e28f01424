//! JPEG 2000, by way of `hayro-jpeg2000`.

mod boxes;
mod codestream;

use hayro_jpeg2000::{ColorSpace, DecodeSettings, DecoderContext, Image};

use super::canvas::{Canvas, Keep};
use super::photograph::FileFacts;
use super::request::Limits;
use super::tone::Layout;
use super::{DecodeError, Format};
use boxes::Boxes;
use codestream::{Size, is_whole};

/// Decodes a JP2 file or a bare codestream.
pub(super) fn decode(bytes: &[u8], keep: Keep, limits: Limits) -> Result<(Canvas, FileFacts), DecodeError> {
    let format = Format::Jpeg2000;
    let boxes = Boxes::read(bytes);
    let stream = boxes.codestream.ok_or(DecodeError::CutShort { format })?;
    let size = Size::read(stream).ok_or_else(|| DecodeError::damaged(format, "no size at its beginning"))?;
    limits.admit(size.width, size.height)?;
    // 65,535 is the standard's own limit (A.5.1); four colours and an alpha the most that is understood.
    if size.tiles > 65_535 {
        return Err(DecodeError::damaged(format, format!("{} tiles", size.tiles)));
    }
    if size.components > 5 {
        return Err(DecodeError::kind(format, format!("{} components", size.components)));
    }
    if boxes.cut_short || !is_whole(stream) {
        return Err(DecodeError::CutShort { format });
    }

    let told = |e: hayro_jpeg2000::DecodeError| DecodeError::damaged(format, format!("{e}"));
    let image = Image::new(bytes, &DecodeSettings::default()).map_err(told)?;
    if (image.width(), image.height()) != (size.width, size.height) {
        return Err(DecodeError::damaged(format, "two sizes in one file"));
    }
    let layout = match image.color_space().num_channels() {
        1 => Layout::GREY,
        3 => Layout::RGB,
        4 if !matches!(image.color_space(), ColorSpace::Unknown { .. }) => Layout::CMYK,
        other => return Err(DecodeError::kind(format, format!("{other} colour components"))),
    };
    let layout = if image.has_alpha() { layout.with_alpha() } else { layout };

    let mut canvas = Canvas::new(keep, size.width, size.height, limits)?;
    let mut context = DecoderContext::default();
    let decoded = image.decode(&mut context).map_err(told)?;
    let pixels = canvas.width * canvas.height;
    if decoded.components().len() != layout.samples()
        || decoded.components().iter().any(|c| c.samples().len() < pixels)
    {
        return Err(DecodeError::damaged(format, "components of different size"));
    }
    if keep.takes(layout) {
        decoded.store_u8_into(&mut canvas.samples);
    } else {
        let mut samples = vec![0; pixels * layout.samples()];
        decoded.store_u8_into(&mut samples);
        canvas.lay_all(layout, &samples);
    }

    let mut facts = FileFacts::new(format, size.width, size.height);
    facts.resolution_tags = boxes.resolutions;
    Ok((canvas, facts))
}
