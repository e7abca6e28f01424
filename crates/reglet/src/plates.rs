//! The pictures of a comparison: each photograph, and both inks on one frame.

use crate::page::{Picture, PictureKind, PictureSet};
use anyhow::{Context as _, Result};
use evidence::Reading;
use image::codecs::jpeg::JpegEncoder;
use image::codecs::png::PngEncoder;
use image::{ExtendedColorType, ImageEncoder as _};
use register::{Laid, overlay};
use sheet::Plane;

/// Longer side of a picture on the page, in pixels: enough to read type, small enough to send.
const LONGEST: usize = 2400;
const JPEG_QUALITY: u8 = 82;

/// DESIGN §3: ink only in the first, only in the second, in both; and bare paper.
const ONLY_FIRST: [f32; 3] = [180.0, 97.0, 15.0];
const ONLY_SECOND: [f32; 3] = [11.0, 100.0, 112.0];
const BOTH: [f32; 3] = [42.0, 38.0, 35.0];
const PAPER: [f32; 3] = [252.0, 250.0, 244.0];
/// What is drawn where the second photograph ends.
const TABLE: [u8; 3] = [236, 233, 226];

/// Draws the pictures, set upright; when the two could not be laid together, the second as it is.
///
/// # Errors
/// When a picture cannot be encoded.
pub(crate) fn plates(
    colour_a: &Plane<[u8; 3]>,
    colour_b: &Plane<[u8; 3]>,
    a: &Reading,
    b: &Reading,
    laid: Option<&Laid>,
) -> Result<PictureSet> {
    let upright = |colour: &Plane<[u8; 3]>, reading: &Reading| colour.turned(reading.turned.quarters());
    let (colour_a, colour_b) = (upright(colour_a, a), upright(colour_b, b));
    let (first, level) = reduced(colour_a, |p| p.width().max(p.height()) > LONGEST);
    let Some(laid) = laid else {
        let (second, _) = reduced(colour_b, |p| p.width().max(p.height()) > LONGEST);
        return Ok(PictureSet { first: jpeg(&first)?, second: jpeg(&second)?, together: None });
    };
    let size = (first.width(), first.height());
    let unit = 2f64.powi(level as i32);
    // B is reduced first to about the same detail, or drawing it would pick stray pixels.
    let level_b = laid.level_of_b(level).min(b.ink.depth() - 1);
    let mut steps = 0;
    let (small_b, _) = reduced(colour_b, |_| {
        steps += 1;
        steps <= level_b
    });
    let unit_b = 2f64.powi(level_b as i32);
    let second = overlay(&laid.map, &small_b, unit_b, size, unit, TABLE);
    let ink_b = overlay(&laid.map, b.ink.level(level_b), unit_b, size, unit, 0);
    let together = both(a.ink.level(level), &ink_b, size);
    Ok(PictureSet { first: jpeg(&first)?, second: jpeg(&second)?, together: Some(png(&together)?) })
}

/// Halves a picture while `more` says so; the picture and how often it was halved.
fn reduced(
    mut picture: Plane<[u8; 3]>,
    mut more: impl FnMut(&Plane<[u8; 3]>) -> bool,
) -> (Plane<[u8; 3]>, usize) {
    let mut level = 0;
    while picture.width() > 1 && picture.height() > 1 && more(&picture) {
        let (w, h) = (picture.width() / 2, picture.height() / 2);
        let mut half = Plane::filled(w, h, [0u8; 3]);
        for y in 0..h {
            let (top, low) = (picture.row(2 * y), picture.row(2 * y + 1));
            for (x, out) in half.row_mut(y).iter_mut().enumerate() {
                *out = std::array::from_fn(|k| {
                    let sum = u16::from(top[2 * x][k])
                        + u16::from(top[2 * x + 1][k])
                        + u16::from(low[2 * x][k])
                        + u16::from(low[2 * x + 1][k]);
                    ((sum + 2) / 4) as u8
                });
            }
        }
        picture = half;
        level += 1;
    }
    (picture, level)
}

/// Both inks in their colours: where they agree black, where one stands alone its own.
fn both(a: &Plane<u8>, b: &Plane<u8>, (width, height): (usize, usize)) -> Plane<[u8; 3]> {
    let mut out = Plane::filled(width, height, [0u8; 3]);
    for y in 0..height {
        for (x, pixel) in out.row_mut(y).iter_mut().enumerate() {
            let (p, q) = (f32::from(a.at(x, y)) / 255.0, f32::from(b.at(x, y)) / 255.0);
            let shared = p.min(q);
            let (first, second) = (p - shared, q - shared);
            let paper = 1.0 - p.max(q);
            *pixel = std::array::from_fn(|k| {
                (paper * PAPER[k] + shared * BOTH[k] + first * ONLY_FIRST[k] + second * ONLY_SECOND[k])
                    .round() as u8
            });
        }
    }
    out
}

fn jpeg(picture: &Plane<[u8; 3]>) -> Result<Picture> {
    let mut bytes = Vec::new();
    JpegEncoder::new_with_quality(&mut bytes, JPEG_QUALITY)
        .write_image(
            picture.data().as_flattened(),
            picture.width() as u32,
            picture.height() as u32,
            ExtendedColorType::Rgb8,
        )
        .context("a picture for the page cannot be encoded")?;
    Ok(encoded(PictureKind::Jpeg, picture, bytes))
}

fn png(picture: &Plane<[u8; 3]>) -> Result<Picture> {
    let mut bytes = Vec::new();
    PngEncoder::new(&mut bytes)
        .write_image(
            picture.data().as_flattened(),
            picture.width() as u32,
            picture.height() as u32,
            ExtendedColorType::Rgb8,
        )
        .context("a picture for the page cannot be encoded")?;
    Ok(encoded(PictureKind::Png, picture, bytes))
}

fn encoded(kind: PictureKind, picture: &Plane<[u8; 3]>, bytes: Vec<u8>) -> Picture {
    Picture { kind, size_px: [picture.width() as u32, picture.height() as u32], bytes }
}
