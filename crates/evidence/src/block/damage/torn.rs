//! How much an impression lacks all about a place: where ink is wanting everywhere, one gap more says little.

use super::frame::OnFrame;
use super::lost::Lost;
use super::signs::Place;

/// Side of a cell, in units, and how many cells about a place are asked to every side.
const CELL: f64 = 1.0;
const ABOUT: usize = 4;
/// Ink that is wood, of 255.
const WOOD: u8 = 160;

/// Samples that impressions lack, and those that are wood, cell by cell.
pub(super) struct Torn {
    cell: f64,
    across: usize,
    down: usize,
    lacks: Vec<Vec<u32>>,
    wood: Vec<u32>,
}

impl Torn {
    pub(super) fn of(frame: &OnFrame<'_>, lost: &Lost) -> Self {
        let cell = (CELL * frame.unit).max(1.0);
        let (w, h) = (lost.whole.width(), lost.whole.height());
        let (across, down) = ((w as f64 / cell) as usize + 1, (h as f64 / cell) as usize + 1);
        let at = |x: usize, y: usize| (y as f64 / cell) as usize * across + (x as f64 / cell) as usize;
        let mut wood = vec![0u32; across * down];
        for y in 0..h {
            for (x, &v) in lost.whole.row(y).iter().enumerate() {
                wood[at(x, y)] += u32::from(v > WOOD);
            }
        }
        let mut lacks = vec![vec![0u32; across * down]; frame.all.len()];
        for piece in &lost.pieces {
            for &(x, y) in &piece.samples {
                lacks[piece.by][at(x as usize, y as usize)] += 1;
            }
        }
        Self { cell, across, down, lacks, wood }
    }

    /// Share of the wood about a place that an impression lacks, the place itself left out.
    pub(super) fn about(&self, impression: usize, place: &Place) -> f64 {
        let (i, j) = ((place.middle.x / self.cell) as usize, (place.middle.y / self.cell) as usize);
        let span = |k: usize, most: usize| k.saturating_sub(ABOUT)..(k + ABOUT + 1).min(most);
        let (mut lacks, mut wood) = (0u32, 0u32);
        for y in span(j, self.down) {
            for x in span(i, self.across) {
                lacks += self.lacks[impression][y * self.across + x];
                wood += self.wood[y * self.across + x];
            }
        }
        let others = f64::from(lacks) - place.samples.len() as f64;
        others.max(0.0) / f64::from(wood.max(1))
    }
}
