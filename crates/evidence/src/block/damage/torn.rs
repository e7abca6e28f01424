//! How much an impression lacks all about a place: where ink is wanting everywhere, one gap more says little.

use super::frame::OnFrame;
use super::lost::Lost;
use super::signs::Place;
use crate::block::alike::Alike;

/// Side of a cell, in units, and how many cells about a place are asked to every side.
const CELL: f64 = 1.0;
const ABOUT: usize = 4;
/// Ink that is wood, of 255.
const WOOD: u8 = 160;
/// A place with less ink than this share of what is solid is bare; with more it took some, as wood does that is there.
const BARE: f64 = 0.2;
/// A piece of no more samples is a speck, as uneven ink leaves everywhere.
const SPECK: usize = 10;

/// What impressions lack about a place, each as a share of the wood there, the place itself left out.
#[derive(Debug, Clone, Copy)]
pub(super) struct About {
    /// All that is lacking.
    pub(super) lacks: f64,
    /// What is lacking but took a little ink.
    pub(super) grey: f64,
    /// What is lacking in specks.
    pub(super) specks: f64,
}

/// Counts of samples, cell by cell.
pub(super) struct Torn {
    cell: f64,
    across: usize,
    down: usize,
    /// Of each impression: lacking, grey, in specks.
    lacks: Vec<Vec<[u32; 3]>>,
    wood: Vec<u32>,
}

impl Torn {
    pub(super) fn of(frame: &OnFrame<'_>, even: &[Alike], lost: &Lost) -> Self {
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
        let mut lacks = vec![vec![[0u32; 3]; across * down]; frame.all.len()];
        for piece in &lost.pieces {
            let even = &even[piece.by];
            let (solid, _) = even.about(piece.bounds);
            let bare = BARE * solid * 255.0;
            let is_speck = piece.samples.len() <= SPECK;
            for &(x, y) in &piece.samples {
                let cell = &mut lacks[piece.by][at(x as usize, y as usize)];
                cell[0] += 1;
                cell[1] += u32::from(f64::from(even.soft.at(x as usize, y as usize)) > bare);
                cell[2] += u32::from(is_speck);
            }
        }
        Self { cell, across, down, lacks, wood }
    }

    /// What an impression lacks about a place.
    pub(super) fn about(&self, impression: usize, place: &Place) -> About {
        let (i, j) = ((place.middle.x / self.cell) as usize, (place.middle.y / self.cell) as usize);
        let span = |k: usize, most: usize| k.saturating_sub(ABOUT)..(k + ABOUT + 1).min(most);
        let (mut lacks, mut wood) = ([0u32; 3], 0u32);
        for y in span(j, self.down) {
            for x in span(i, self.across) {
                let cell = self.lacks[impression][y * self.across + x];
                lacks.iter_mut().zip(cell).for_each(|(l, c)| *l += c);
                wood += self.wood[y * self.across + x];
            }
        }
        let share = |n: f64| (n / f64::from(wood.max(1))).clamp(0.0, 1.0);
        About {
            lacks: share(f64::from(lacks[0]) - place.samples.len() as f64),
            grey: share(f64::from(lacks[1])),
            specks: share(f64::from(lacks[2])),
        }
    }
}
