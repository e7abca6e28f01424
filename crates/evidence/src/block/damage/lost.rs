//! Pieces of ink that one impression lacks where others show it.

use super::frame::OnFrame;
use crate::blobs::blobs;
use crate::block::alike::Alike;
use rayon::prelude::*;
use sheet::{Plane, Rect};

/// Ink that is lacking, of 255, from which it is looked at.
const LACKING: u8 = 100;
/// Fewest samples of a piece.
const FEWEST: usize = 3;
/// Pieces of one impression, at most, the largest first: of what is so torn nothing is told place by place.
const MOST: usize = 2000;
/// An impression that is so many times coarser than the frame is allowed to lie one sample more beside it.
const COARSE: f64 = 2.2;

/// A piece that an impression lacks.
#[derive(Debug, Clone)]
pub(super) struct Piece {
    /// The impression, counted along the frame's.
    pub(super) by: usize,
    /// Its samples: x, y.
    pub(super) samples: Vec<(u32, u32)>,
    /// The box about them, samples.
    pub(super) bounds: Rect,
}

/// What all impressions together show of the wood, and what each lacks of it.
pub(super) struct Lost {
    /// The most ink that any shows, 0 to 255: the wood before it lost anything, as far as impressions go back.
    pub(super) whole: Plane<u8>,
    /// Each impression's ink, spread by as much as it may lie beside its place.
    pub(super) spread: Vec<Plane<u8>>,
    pub(super) pieces: Vec<Piece>,
}

/// Looks for what each impression lacks.
pub(super) fn lost(frame: &OnFrame<'_>, even: &[Alike]) -> Lost {
    let spread: Vec<Plane<u8>> = even
        .par_iter()
        .zip(&frame.all)
        .map(|(e, one)| {
            let once = spread_once(&e.ink);
            if one.coarse >= COARSE { spread_once(&once) } else { once }
        })
        .collect();
    let whole = most(even.iter().map(|e| &e.ink));
    let pieces = spread
        .par_iter()
        .enumerate()
        .flat_map_iter(|(by, ink)| {
            let lacks = Plane::from_vec(
                whole.width(),
                whole.height(),
                whole.data().iter().zip(ink.data()).map(|(w, v)| w.saturating_sub(*v)).collect(),
            );
            lacks.map_or_else(Vec::new, |lacks| pieces(&lacks, by))
        })
        .collect();
    Lost { whole, spread, pieces }
}

fn pieces(lacks: &Plane<u8>, by: usize) -> Vec<Piece> {
    let found = blobs(lacks, LACKING);
    let mut out: Vec<Piece> = found
        .all
        .iter()
        .map(|b| {
            let [l, t, r, d] = b.bounds;
            let bounds = Rect::new(l as f64, t as f64, (r - l) as f64, (d - t) as f64);
            Piece { by, samples: Vec::with_capacity(b.area as usize), bounds }
        })
        .collect();
    for (i, &of) in found.of.iter().enumerate() {
        if let Some(piece) = (of as usize).checked_sub(1).and_then(|n| out.get_mut(n)) {
            piece.samples.push(((i % lacks.width()) as u32, (i / lacks.width()) as u32));
        }
    }
    out.retain(|p| p.samples.len() >= FEWEST);
    out.truncate(MOST);
    out
}

/// Each sample as the most inked of itself and its eight neighbours.
fn spread_once(ink: &Plane<u8>) -> Plane<u8> {
    let (w, h) = (ink.width(), ink.height());
    let mut out = Plane::filled(w, h, 0u8);
    let mut column = vec![0u8; w];
    for y in 0..h {
        let (above, here, below) = (ink.row(y.saturating_sub(1)), ink.row(y), ink.row((y + 1).min(h - 1)));
        for (x, c) in column.iter_mut().enumerate() {
            *c = above[x].max(here[x]).max(below[x]);
        }
        for (x, v) in out.row_mut(y).iter_mut().enumerate() {
            *v = column[x].max(column[x.saturating_sub(1)]).max(column[(x + 1).min(w - 1)]);
        }
    }
    out
}

/// Sample by sample the most of several planes of one size.
fn most<'p>(mut planes: impl Iterator<Item = &'p Plane<u8>>) -> Plane<u8> {
    let mut out = planes.next().cloned().unwrap_or_else(|| Plane::filled(0, 0, 0));
    for plane in planes {
        out.data_mut().iter_mut().zip(plane.data()).for_each(|(o, &v)| *o = (*o).max(v));
    }
    out
}
