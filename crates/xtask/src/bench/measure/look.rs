//! Pictures of what was missed and of what was told and is none.

use std::path::Path;

use anyhow::Context as _;
use sheet::decode::{DecodeRequest, decode_rgb};
use sheet::{Plane, Rect};

use super::incidents::OfClass;

/// About a place so many times its size is shown, and pixels at least.
const ABOUT: f64 = 4.0;
const LEAST: f64 = 120.0;

/// Draws the places of a sheet that did not fare well into a folder, each a PNG named after what it is.
pub(super) fn draw(
    photograph: &Path,
    number: usize,
    classes: &[OfClass],
    folder: &Path,
) -> anyhow::Result<()> {
    if classes.iter().all(|c| c.missed.is_empty() && c.wrong.is_empty()) {
        return Ok(());
    }
    let bytes = std::fs::read(photograph).with_context(|| format!("cannot read {}", photograph.display()))?;
    let rgb = decode_rgb(&bytes, &DecodeRequest::default())?.rgb;
    for class in classes {
        let class_name = class.class.replace(' ', "-");
        for (what, places) in [("missed", &class.missed), ("wrong", &class.wrong)] {
            for (k, place) in places.iter().enumerate() {
                let cut = about(&rgb, *place);
                let file = folder.join(format!("{class_name}-{what}-{number:04}-{k:02}.png"));
                let (w, h) = (cut.width() as u32, cut.height() as u32);
                let image = image::RgbImage::from_raw(w, h, cut.data().as_flattened().to_vec());
                image
                    .context("a picture has no pixels")?
                    .save(&file)
                    .with_context(|| format!("cannot write {}", file.display()))?;
            }
        }
    }
    Ok(())
}

/// The part of the photograph about a place, the place in a frame.
fn about(rgb: &Plane<[u8; 3]>, place: Rect) -> Plane<[u8; 3]> {
    let middle = place.centre();
    let [w, h] = [place.w, place.h].map(|side| (ABOUT * side).max(LEAST));
    let whole = Rect::new(0.0, 0.0, rgb.width() as f64, rgb.height() as f64);
    let part = Rect::new(middle.x - w / 2.0, middle.y - h / 2.0, w, h).shared(whole).unwrap_or(whole);
    let mut cut = rgb.crop(part.x as usize, part.y as usize, part.w as usize, part.h as usize);
    let frame = place.grown(2.0).moved(sheet::Point::new(-part.x.floor(), -part.y.floor()));
    let (width, height) = (cut.width(), cut.height());
    let clamp = |v: f64, most: usize| (v.max(0.0) as usize).min(most.saturating_sub(1));
    let (l, r) = (clamp(frame.x, width), clamp(frame.right(), width));
    let (t, b) = (clamp(frame.y, height), clamp(frame.bottom(), height));
    for x in l..=r {
        cut.row_mut(t)[x] = [220, 30, 30];
        cut.row_mut(b)[x] = [220, 30, 30];
    }
    for y in t..=b {
        cut.row_mut(y)[l] = [220, 30, 30];
        cut.row_mut(y)[r] = [220, 30, 30];
    }
    cut
}
