//! A place as a small picture of a fixed size: what one impression shows of it and about it, beside what all show.

use super::lost::Lost;
use super::signs::Place;
use crate::block::alike::Alike;
use sheet::Plane;

/// Samples of a side.
pub(super) use crate::eye::SIDE;
/// Planes of a picture, each 0 to 255 of 1: the impression's ink as a share of what is solid there; its ink made alike; the wood
/// as whole as any shows it; what all show in the mean; the place itself.
pub(super) const PLANES: usize = 5;
/// So much of the side a place takes up at most.
const FILLS: f64 = 14.0;

/// A place in one impression.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct View(Box<[u8]>);

impl View {
    /// By rows, of each sample its five planes.
    pub fn samples(&self) -> &[u8] {
        &self.0
    }

    /// A place in the impression that is `even` when made alike; `mean` is that of all made alike.
    pub(super) fn of(place: &Place, even: &Alike, lost: &Lost, mean: &Plane<u8>) -> Self {
        let extent = place.bounds.w.max(place.bounds.h);
        // Never finer than the frame; of coarser ones so many samples by so many are averaged.
        let step = (extent / FILLS).max(1.0);
        let fine = (step.ceil() as usize).max(1);
        let size = [lost.whole.width(), lost.whole.height()];
        let along = |middle: f64, end: usize| -> Vec<Option<usize>> {
            (0..SIDE * fine)
                .map(|k| middle + ((k as f64 + 0.5) / fine as f64 - SIDE as f64 / 2.0) * step)
                .map(|at| (at >= 0.0 && at < end as f64).then_some(at as usize))
                .collect()
        };
        let middle = place.bounds.centre();
        let (columns, rows) = (along(middle.x, size[0]), along(middle.y, size[1]));
        let (solid, _) = even.about(place.bounds);
        let gain = 1.0 / solid as f32;
        let share = 1.0 / (fine * fine) as f32;
        let mut out = vec![0u8; SIDE * SIDE * PLANES];
        for (j, rows) in rows.chunks_exact(fine).enumerate() {
            for (i, columns) in columns.chunks_exact(fine).enumerate() {
                let mut sums = [0u32; 4];
                for &y in rows.iter().flatten() {
                    let of = [even.soft.row(y), even.ink.row(y), lost.whole.row(y), mean.row(y)];
                    for &x in columns.iter().flatten() {
                        sums.iter_mut().zip(of).for_each(|(s, row)| *s += u32::from(row[x]));
                    }
                }
                let at = (j * SIDE + i) * PLANES;
                for (k, sum) in sums.into_iter().enumerate() {
                    let gain = if k == 0 { gain } else { 1.0 };
                    out[at + k] = (sum as f32 * share * gain).min(255.0) as u8;
                }
            }
        }
        let add = (255.0 / step.powi(2)).min(255.0) as f32;
        let within = |v: f64, from: f64| (v - from) / step + SIDE as f64 / 2.0;
        for &(x, y) in &place.samples {
            let (i, j) = (within(f64::from(x) + 0.5, middle.x), within(f64::from(y) + 0.5, middle.y));
            if i >= 0.0 && j >= 0.0 && (i as usize) < SIDE && (j as usize) < SIDE {
                let v = &mut out[(j as usize * SIDE + i as usize) * PLANES + 4];
                *v = (f32::from(*v) + add).min(255.0) as u8;
            }
        }
        Self(out.into())
    }
}
