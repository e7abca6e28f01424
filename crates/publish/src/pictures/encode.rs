//! Pictures as files.

use super::CannotDraw;
use jpeg_encoder::{ColorType, Encoder, SamplingFactor};
use sheet::{Plane, Ppi};

/// Of how fine a JPEG is, 1 to 100: above about 70 the eye finds no fault in type at its own size (common practice, no
/// source).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Quality(pub(super) u8);

/// Of a photograph, and of two inks in their colours: the edges of type must keep clean, and there is less on the paper.
pub(super) const OF_PHOTOGRAPHS: Quality = Quality(72);
pub(super) const OF_INKS: Quality = Quality(78);
/// Of what lies pale under a map.
pub(super) const OF_MAPS: Quality = Quality(50);

/// How the colour of a JPEG is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Colour {
    /// One for four pixels: photographs, whose colour is paper's.
    Halved,
    /// One for each: two inks, told apart by colour alone.
    Full,
}

/// A JPEG.
pub(super) fn jpeg(
    picture: &Plane<[u8; 3]>,
    quality: Quality,
    colour: Colour,
) -> Result<Vec<u8>, CannotDraw> {
    let size = [picture.width(), picture.height()].map(u16::try_from);
    let [Ok(width), Ok(height)] = size else { return Err(CannotDraw) };
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, quality.0);
    encoder.set_sampling_factor(match colour {
        Colour::Halved => SamplingFactor::R_4_2_0,
        Colour::Full => SamplingFactor::R_4_4_4,
    });
    encoder.encode(picture.data().as_flattened(), width, height, ColorType::Rgb).map_err(|_| CannotDraw)?;
    Ok(bytes)
}

/// A PNG, which says how many of its pixels make an inch where that is known: printed, it has the size of the sheet.
pub(crate) fn png(picture: &Plane<[u8; 3]>, ppi: Option<Ppi>) -> Result<Vec<u8>, CannotDraw> {
    let (width, height) = (u32::try_from(picture.width()), u32::try_from(picture.height()));
    let (Ok(width), Ok(height)) = (width, height) else { return Err(CannotDraw) };
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, width, height);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(png::Compression::Fast);
    if let Some(ppi) = ppi {
        let to_the_metre = (ppi.0 / 0.0254).round() as u32;
        encoder.set_pixel_dims(Some(png::PixelDimensions {
            xppu: to_the_metre,
            yppu: to_the_metre,
            unit: png::Unit::Meter,
        }));
    }
    let mut writer = encoder.write_header().map_err(|_| CannotDraw)?;
    writer.write_image_data(picture.data().as_flattened()).map_err(|_| CannotDraw)?;
    writer.finish().map_err(|_| CannotDraw)?;
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;
    use sheet::decode::{DecodeRequest, decode, decode_rgb};

    fn slope() -> Plane<[u8; 3]> {
        let mut out = Plane::filled(40, 30, [0u8; 3]);
        for y in 0..30 {
            for (x, v) in out.row_mut(y).iter_mut().enumerate() {
                *v = [(x * 5) as u8, (y * 7) as u8, 90];
            }
        }
        out
    }

    #[test]
    fn a_png_is_the_picture_and_carries_its_scale() {
        let bytes = png(&slope(), Some(Ppi(300.0))).unwrap();
        assert_eq!(decode_rgb(&bytes, &DecodeRequest::default()).unwrap().rgb.data(), slope().data());
        let file = decode(&bytes, &DecodeRequest::default()).unwrap().file;
        let (scale, _) =
            sheet::scale::scale_from(&file.resolution_tags, &sheet::scale::ScaleRequest::FromFile);
        assert!((scale.unwrap().ppi.0 - 300.0).abs() < 0.05, "{:?}", file.resolution_tags);
    }

    #[test]
    fn a_jpeg_is_near_the_picture() {
        let slope = slope();
        for colour in [Colour::Halved, Colour::Full] {
            let bytes = jpeg(&slope, Quality(85), colour).unwrap();
            let back = decode_rgb(&bytes, &DecodeRequest::default()).unwrap().rgb;
            let off = back.data().as_flattened().iter().zip(slope.data().as_flattened());
            let mean = off.map(|(p, q)| f64::from(p.abs_diff(*q))).sum::<f64>() / (40.0 * 30.0 * 3.0);
            assert!(mean < 4.0, "{colour:?}: {mean}");
        }
    }
}
