//! The printing surface brought to paper: which part of each pixel is covered, and how well it was inked.

use rayon::prelude::*;
use sheet::{Plane, Point, Rect};
use swash::zeno::{Command, Mask, Scratch, Vector};

use crate::fount::Outline;

/// Something to print: an outline in px, what is broken off it, and how much ink it takes (1 is right).
#[derive(Debug, Clone)]
pub(crate) struct Stamp {
    pub outline: Outline,
    pub broken: Option<Outline>,
    pub load: f32,
    /// It prints; else it is cut out of what was printed before it.
    pub inks: bool,
}

/// Coverage (0..1) and load of every pixel.
#[derive(Debug, Clone)]
pub(crate) struct Canvas {
    pub cover: Plane<f32>,
    pub load: Plane<f32>,
}

/// The covered part of a small box of pixels, 255 for all of it.
struct Tile {
    x: usize,
    y: usize,
    width: usize,
    cover: Vec<u8>,
    load: f32,
    inks: bool,
}

impl Canvas {
    pub(crate) fn new(width: usize, height: usize) -> Self {
        Self { cover: Plane::filled(width, height, 0.0), load: Plane::filled(width, height, 1.0) }
    }

    /// Prints everything; the order is that of the list, however many threads there are.
    pub(crate) fn print(&mut self, stamps: &[Stamp]) {
        let (width, height) = (self.cover.width(), self.cover.height());
        // In portions, so that the tiles of a large sheet need not all be held at once.
        for portion in stamps.chunks(512) {
            let tiles: Vec<Option<Tile>> = portion
                .par_iter()
                .map_init(Scratch::new, |scratch, stamp| tile(stamp, width, height, scratch))
                .collect();
            for tile in tiles.into_iter().flatten() {
                self.lay(&tile);
            }
        }
    }

    fn lay(&mut self, tile: &Tile) {
        for (i, row) in tile.cover.chunks(tile.width).enumerate() {
            let range = tile.x..tile.x + tile.width;
            let cover = &mut self.cover.row_mut(tile.y + i)[range.clone()];
            let load = &mut self.load.row_mut(tile.y + i)[range];
            for ((c, l), &new) in cover.iter_mut().zip(load).zip(row) {
                let new = f32::from(new) / 255.0;
                if new > 0.0 && !tile.inks {
                    *c *= 1.0 - new;
                } else if new > 0.0 {
                    let sum = *c + new;
                    *l = (*l * *c + tile.load * new) / sum;
                    *c = sum.min(1.0);
                }
            }
        }
    }
}

/// Changes the samples that a closed shape (in px) covers: `rule` is given the sample and how much of it
/// is covered, 0..1.
pub(crate) fn blend(plane: &mut Plane<f32>, outline: &Outline, rule: impl Fn(f32, f32) -> f32) {
    let stamp = Stamp { outline: outline.clone(), broken: None, load: 1.0, inks: true };
    if let Some(tile) = tile(&stamp, plane.width(), plane.height(), &mut Scratch::new()) {
        for (i, covers) in tile.cover.chunks(tile.width).enumerate() {
            let row = &mut plane.row_mut(tile.y + i)[tile.x..tile.x + tile.width];
            for (sample, &cover) in row.iter_mut().zip(covers).filter(|(_, c)| **c > 0) {
                *sample = rule(*sample, f32::from(cover) / 255.0);
            }
        }
    }
}

fn tile(stamp: &Stamp, width: usize, height: usize, scratch: &mut Scratch) -> Option<Tile> {
    let bounds = stamp.outline.bounds()?;
    let seen = bounds.shared(Rect::new(0.0, 0.0, width as f64, height as f64))?;
    let (x, y) = (seen.x.floor() as usize, seen.y.floor() as usize);
    let (w, h) =
        ((seen.right().ceil() as usize).min(width) - x, (seen.bottom().ceil() as usize).min(height) - y);
    if w == 0 || h == 0 {
        return None;
    }
    let origin = Point::new(x as f64, y as f64);
    let mut cover = rastered(&stamp.outline, origin, w, h, scratch);
    if let Some(broken) = &stamp.broken {
        let gone = rastered(broken, origin, w, h, scratch);
        for (c, g) in cover.iter_mut().zip(gone) {
            *c = (u16::from(*c) * u16::from(255 - g) / 255) as u8;
        }
    }
    Some(Tile { x, y, width: w, cover, load: stamp.load, inks: stamp.inks })
}

/// Exact area coverage of an outline in a box of `w` by `h` pixels at `origin`.
fn rastered(outline: &Outline, origin: Point, w: usize, h: usize, scratch: &mut Scratch) -> Vec<u8> {
    let mut path = Vec::new();
    for line in &outline.0 {
        for (i, &p) in line.iter().enumerate() {
            let local = p - origin;
            let local = Vector::new(local.x as f32, local.y as f32);
            path.push(if i == 0 { Command::MoveTo(local) } else { Command::LineTo(local) });
        }
        path.push(Command::Close);
    }
    let mut cover = vec![0u8; w * h];
    Mask::with_scratch(&path[..], scratch).size(w as u32, h as u32).render_into(&mut cover, None);
    cover
}

#[cfg(test)]
mod tests {
    use super::*;

    fn filled(outline: &Outline, width: usize, height: usize) -> Plane<f32> {
        let mut plane = Plane::filled(width, height, 0.0);
        blend(&mut plane, outline, |_, cover| cover);
        plane
    }

    #[test]
    fn coverage_is_the_area_of_the_pixel_that_is_covered() {
        let cover = filled(&Outline::rectangle(Rect::new(1.25, 1.5, 2.0, 1.0)), 5, 4);
        let want = [(1, 1, 0.375), (2, 1, 0.5), (3, 1, 0.125), (1, 2, 0.375), (2, 2, 0.5), (0, 0, 0.0)];
        for (x, y, part) in want {
            assert!((cover.at(x, y) - part).abs() < 0.01, "{x} {y}: {}", cover.at(x, y));
        }
        let total: f32 = cover.data().iter().sum();
        assert!((total - 2.0).abs() < 0.02);
    }

    #[test]
    fn a_shape_beyond_the_edge_is_cut_off() {
        let cover = filled(&Outline::rectangle(Rect::new(-3.0, -3.0, 5.0, 5.0)), 4, 4);
        assert!((cover.data().iter().sum::<f32>() - 4.0).abs() < 0.02);
        let none = filled(&Outline::rectangle(Rect::new(10.0, 10.0, 5.0, 5.0)), 4, 4);
        assert!(none.data().iter().all(|c| c.abs() < 1e-9));
    }
}
