//! Pictures of damage that was missed, and of what was told that is not there: the place in every impression.

use std::path::Path;

use anyhow::Context as _;
use press::Picture;
use press::block::BlockPull;
use sheet::{Plane, Point, Rect};

use super::Outcome;

/// Samples a side of each picture, and how much of the photograph about the place, px.
const SIDE: u32 = 120;
const ABOUT: f64 = 22.0;

/// The impressions on the frame, made alike.
pub(super) struct OnFrame<'f> {
    pub(super) corner: Point,
    pub(super) unit_px: f64,
    pub(super) numbers: &'f [usize],
    pub(super) alike: &'f [Plane<u8>],
}

/// Draws what went wrong with a history.
pub(super) fn look(
    o: &Outcome,
    pulls: &[BlockPull],
    found: &OnFrame<'_>,
    folder: &Path,
) -> anyhow::Result<()> {
    std::fs::create_dir_all(folder).with_context(|| format!("cannot make {}", folder.display()))?;
    for (i, d) in o.truth.iter().enumerate().filter(|(i, d)| d.is_told() && !o.on.contains(&Some(*i))) {
        let boxes: Vec<Option<[f64; 4]>> = d.boxes.iter().copied().map(Some).collect();
        let name = format!("{:03}-missed-{i:02}-{:?}-{:.2}mm.png", o.planned.number, d.class, d.size_mm);
        strip(&boxes, pulls, found, o.frame, &folder.join(name))?;
    }
    let false_ones =
        o.told.iter().zip(&o.on).enumerate().filter(|(k, (_, on))| on.is_none() && !o.on_altered[*k]);
    for (k, (d, _)) in false_ones {
        let boxes: Vec<Option<[f64; 4]>> = (0..pulls.len())
            .map(|i| d.seen.iter().find(|s| s.impression == i).and_then(|s| s.box_px))
            .collect();
        let name = format!(
            "{:03}-false-{k:02}-{:?}-{:.2}mm.png",
            o.planned.number,
            d.class,
            d.size_mm.unwrap_or(0.0)
        );
        strip(&boxes, pulls, found, o.frame, &folder.join(name))?;
    }
    Ok(())
}

fn strip(
    boxes: &[Option<[f64; 4]>],
    pulls: &[BlockPull],
    found: &OnFrame<'_>,
    frame: usize,
    file: &Path,
) -> anyhow::Result<()> {
    let mut out = image::RgbImage::new(SIDE * pulls.len() as u32, 2 * SIDE);
    for (n, (place, pull)) in boxes.iter().zip(pulls).enumerate() {
        let Some([x, y, w, h]) = *place else { continue };
        let middle = Rect::new(x, y, w, h).centre();
        let half = (w.max(h) / 2.0 + 6.0).max(ABOUT);
        for j in 0..SIDE {
            for i in 0..SIDE {
                let at = |k: u32, c: f64| c - half + (f64::from(k) + 0.5) / f64::from(SIDE) * 2.0 * half;
                let (px, py) = (at(i, middle.x), at(j, middle.y));
                let p = &pull.picture;
                if px >= 0.0 && py >= 0.0 && px < p.width() as f64 && py < p.height() as f64 {
                    let v = match p {
                        Picture::Grey(p) => [p.at(px as usize, py as usize); 3],
                        Picture::Colour(p) => p.at(px as usize, py as usize),
                    };
                    let edge = i == 0 || j == 0;
                    out.put_pixel(n as u32 * SIDE + i, j, image::Rgb(if edge { [200, 0, 0] } else { v }));
                }
            }
        }
    }
    // Below, the same place of all on the frame, made alike.
    if let Some([x, y, w, h]) = boxes[frame] {
        let place = Rect::new(x, y, w, h).moved(found.corner * -1.0).scaled(1.0 / found.unit_px);
        let (middle, half) = (place.centre(), (w.max(h) / 2.0 + 6.0).max(ABOUT) / found.unit_px);
        for (number, ink) in found.numbers.iter().zip(found.alike) {
            for j in 0..SIDE {
                for i in 0..SIDE {
                    let at = |k: u32, c: f64| c - half + (f64::from(k) + 0.5) / f64::from(SIDE) * 2.0 * half;
                    let (px, py) = (at(i, middle.x), at(j, middle.y));
                    if px >= 0.0 && py >= 0.0 && px < ink.width() as f64 && py < ink.height() as f64 {
                        let v = 255 - ink.at(px as usize, py as usize);
                        out.put_pixel(*number as u32 * SIDE + i, SIDE + j, image::Rgb([v; 3]));
                    }
                }
            }
        }
    }
    out.save(file).with_context(|| format!("cannot write {}", file.display()))
}
