//! A window of strokes as a small picture of a fixed size, both impressions beside each other.

use crate::block::alike::Alike;
use crate::eye::SIDE;
use sheet::{Plane, Point, Rect};

/// Planes of a picture, each 0 to 255 of 1: both inks made alike, then both as shares of what is solid there.
pub(super) const PLANES: usize = 4;
/// A sample is a pixel of the coarser photograph, but in large cuts, whose strokes are broad, so much of the unit.
const OF_THE_UNIT: f64 = 1.0 / 8.0;

/// A window in both impressions.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SightView(Box<[u8]>);

/// Pixels of the frame to a sample.
pub(super) fn step(coarser: f64, unit: f64) -> f64 {
    (1.0 / coarser).max(OF_THE_UNIT * unit)
}

impl SightView {
    /// By rows, of each sample its four planes.
    pub fn samples(&self) -> &[u8] {
        &self.0
    }

    /// About a place on the frame, so many pixels of it to a sample.
    pub(super) fn of(at: Point, step: f64, both: [&Alike; 2]) -> Self {
        // Of a frame that is finer so many samples by so many are averaged.
        let fine = (step.round() as usize).max(1);
        let half = SIDE as f64 * step / 2.0;
        let place = Rect::new(at.x - half, at.y - half, 2.0 * half, 2.0 * half);
        let gains = both.map(|one| (1.0 / one.about(place).0) as f32);
        let planes = [&both[0].ink, &both[1].ink, &both[0].soft, &both[1].soft];
        let share = 1.0 / (fine * fine) as f32;
        let along = |middle: f64, k: usize| {
            middle + ((k as f64 + 0.5) / fine as f64 - SIDE as f64 / 2.0) * step - 0.5
        };
        let mut out = Vec::with_capacity(SIDE * SIDE * PLANES);
        for j in 0..SIDE {
            for i in 0..SIDE {
                let mut sums = [0.0f32; PLANES];
                for y in j * fine..(j + 1) * fine {
                    for x in i * fine..(i + 1) * fine {
                        let (x, y) = (along(at.x, x), along(at.y, y));
                        sums.iter_mut().zip(planes).for_each(|(s, p)| *s += between(p, x, y));
                    }
                }
                for (k, sum) in sums.into_iter().enumerate() {
                    let gain = if k < 2 { 1.0 } else { gains[k - 2] };
                    out.push((sum * share * gain).min(255.0) as u8);
                }
            }
        }
        Self(out.into())
    }
}

/// The ink at a place told in pixels from the middle of the first, between its four neighbours; none beyond the edge.
fn between(plane: &Plane<u8>, x: f64, y: f64) -> f32 {
    let (left, top) = (x.floor(), y.floor());
    if left < 0.0 || top < 0.0 || left + 1.0 >= plane.width() as f64 || top + 1.0 >= plane.height() as f64 {
        return 0.0;
    }
    let (u, v) = ((x - left) as f32, (y - top) as f32);
    let at = |i: usize, j: usize| f32::from(plane.at(left as usize + i, top as usize + j));
    let above = at(0, 0) * (1.0 - u) + at(1, 0) * u;
    let below = at(0, 1) * (1.0 - u) + at(1, 1) * u;
    above * (1.0 - v) + below * v
}
