//! Sheets that did not fare well, drawn: what is there in teal, what was told in ochre, dashed.

use std::path::Path;

use anyhow::Context as _;
use image::{Rgb, RgbImage};
use sheet::{FoundCut, Plane, Rect};

use super::make::SheetTruth;

/// The longer side of a picture, pixels.
const LONGEST: usize = 1100;

/// Draws a sheet.
pub(super) fn draw(
    luminance: &Plane<u8>,
    truth: &SheetTruth,
    found: &[FoundCut],
    to: &Path,
) -> anyhow::Result<()> {
    let (mut small, mut scale) = (luminance.clone(), 1.0);
    while small.width().max(small.height()) > LONGEST {
        (small, scale) = (small.halved(), scale / 2.0);
    }
    let mut picture = RgbImage::from_fn(small.width() as u32, small.height() as u32, |x, y| {
        Rgb([small.at(x as usize, y as usize); 3])
    });
    for cut in &truth.cuts {
        frame(&mut picture, cut.inked.scaled(scale), [0x0B, 0x64, 0x70], 1);
    }
    for cut in found {
        frame(&mut picture, cut.bounds.scaled(scale), [0xB4, 0x61, 0x0F], 4);
        if let Some(hole) = cut.hole {
            frame(&mut picture, hole.scaled(scale), [0xB4, 0x61, 0x0F], 2);
        }
    }
    picture.save(to).with_context(|| format!("cannot write {}", to.display()))
}

/// Draws a box two pixels thick, of each `dash` pixels but one.
fn frame(picture: &mut RgbImage, r: Rect, colour: [u8; 3], dash: i64) {
    let (l, t, b, e) = (r.x as i64, r.y as i64, r.bottom() as i64, r.right() as i64);
    let level = (l..=e).flat_map(|x| [(x, t), (x, t + 1), (x, b), (x, b - 1)]);
    let upright = (t..=b).flat_map(|y| [(l, y), (l + 1, y), (e, y), (e - 1, y)]);
    for (x, y) in level.chain(upright) {
        let is_gap = dash > 1 && (x + y) / dash % 2 == 0;
        if !is_gap && x >= 0 && y >= 0 && x < i64::from(picture.width()) && y < i64::from(picture.height()) {
            picture.put_pixel(x as u32, y as u32, Rgb(colour));
        }
    }
}
