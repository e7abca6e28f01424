//! Paper, and the page on its background.

use super::envelope::{closing, extreme, smoothed};
use super::flood::areas;
use crate::{Plane, Rect};

/// Radius of the closing that removes letters, in cells. Common practice, no source.
const LETTER: usize = 3;
/// Radius of the closing that gives solid ink the paper around it, in cells: a solid as wide as a
/// twelfth of the picture is still filled.
const SOLID: usize = 20;
/// A background is darker than this share of the page's brightness. Tables and black cloth measured
/// on library photographs have 0.05 to 0.35; gutter shadows seldom fall below a half.
const TABLE: f32 = 0.45;
/// A background touches at least this share of the picture's border; less may be a letter cut off.
const TABLE_BORDER: f32 = 0.05;
/// A second bright area (the facing page) counts as page from this share of the largest's size; a
/// ruler or a colour chart is smaller.
const SECOND_PAGE: f32 = 0.35;
/// A bridge up to twice this many cells wide does not join two bright areas.
const NECK: usize = 3;
/// Cells darker than this share of the paper around them are solid ink, or shadow if they reach the
/// border.
const SOLID_SHARE: f32 = 0.8;

/// The brightness of bare paper at every cell, from the brightest part of every cell; 0 outside the
/// page. Where nothing is page the whole picture is.
pub(super) fn paper(bright: &Plane<u8>) -> Plane<u8> {
    let mut level = closing(bright, LETTER);
    let outside = outside(&level);
    for (v, &out) in level.data_mut().iter_mut().zip(&outside) {
        *v = if out { 0 } else { (*v).max(1) };
    }
    fill_solids(&mut level);
    // One cell more of erosion than of dilation: at the page's edge the darker side wins, so that
    // neither the edge nor the shadow under it becomes ink.
    let mut eroded = extreme(&level, 1, u8::min);
    if eroded.data().iter().all(|&v| v == 0) {
        eroded = level;
    }
    smoothed(&eroded)
}

/// The box of all page cells, in cells; `None` when the page fills the picture or there is none.
pub(super) fn bounds(paper: &Plane<u8>) -> Option<Rect> {
    let (mut left, mut top, mut right, mut bottom) = (usize::MAX, usize::MAX, 0, 0);
    for y in 0..paper.height() {
        let row = paper.row(y);
        if let (Some(l), Some(r)) = (row.iter().position(|&v| v > 0), row.iter().rposition(|&v| v > 0)) {
            (left, right) = (left.min(l), right.max(r + 1));
            (top, bottom) = (top.min(y), y + 1);
        }
    }
    (right > 0).then(|| Rect::new(left as f64, top as f64, (right - left) as f64, (bottom - top) as f64))
}

/// Which cells are background: dark areas that reach the border, and bright islands in them.
fn outside(level: &Plane<u8>) -> Vec<bool> {
    let (w, h) = (level.width(), level.height());
    let page = f32::from(percentile(level.data(), 0.8));
    let perimeter = (2 * (w + h)) as f32;
    let mut out = vec![false; w * h];
    for area in areas(level, |i| f32::from(level.data()[i]) < TABLE * page) {
        if area.at_border as f32 >= TABLE_BORDER * perimeter {
            area.cells.iter().for_each(|&i| out[i] = true);
        }
    }
    without_islands(w, h, &out)
}

/// Adds the bright areas far smaller than the largest one to what is outside. Areas joined only by a
/// neck (page and ruler both lying on a pale strip) count as two.
fn without_islands(w: usize, h: usize, out: &[bool]) -> Vec<bool> {
    let mut inside = Plane::filled(w, h, 0u8);
    inside.data_mut().iter_mut().zip(out).for_each(|(v, &out)| *v = u8::from(!out));
    let core = extreme(&inside, NECK, u8::min);
    let islands = areas(&core, |i| core.data()[i] > 0);
    let largest = islands.iter().map(|a| a.cells.len()).max().unwrap_or(0);
    if largest == 0 {
        return out.to_vec();
    }
    let mut kept = Plane::filled(w, h, 0u8);
    for island in islands.iter().filter(|a| a.cells.len() as f32 >= SECOND_PAGE * largest as f32) {
        island.cells.iter().for_each(|&i| kept.row_mut(i / w)[i % w] = 1);
    }
    let reach = extreme(&kept, NECK, u8::max);
    inside.data().iter().zip(reach.data()).map(|(&i, &r)| i == 0 || r == 0).collect()
}

/// Gives solid ink the paper around it.
fn fill_solids(level: &mut Plane<u8>) {
    let around = closing(level, SOLID);
    let dark = |i: usize| f32::from(level.data()[i]) < SOLID_SHARE * f32::from(around.data()[i]);
    let w = level.width();
    let mut filled = level.clone();
    for area in areas(level, dark) {
        // Outside cells are 0 and so dark: an area that holds one is shadow, like one at the border.
        if area.at_border == 0 && area.cells.iter().all(|&i| level.data()[i] > 0) {
            area.cells.iter().for_each(|&i| filled.row_mut(i / w)[i % w] = around.data()[i]);
        }
    }
    *level = filled;
}

/// The value below which the given share of the samples lies.
fn percentile(data: &[u8], share: f64) -> u8 {
    let mut counts = [0usize; 256];
    for &v in data {
        counts[usize::from(v)] += 1;
    }
    let wanted = (data.len() as f64 * share) as usize;
    let mut sum = 0;
    counts
        .iter()
        .position(|&c| {
            sum += c;
            sum > wanted
        })
        .map_or(255, |v| v as u8)
}
