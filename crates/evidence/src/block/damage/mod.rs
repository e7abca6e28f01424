//! What a block has lost, and which of its impressions show it.
//!
//! Start at [`damages`], or at [`Looked`] for what lies behind it. All impressions are drawn on the frame of the best (`frame`) and brought to one weight of ink
//! (`block::alike`). What one lacks of the ink that others show (`lost`) is a place, of which every impression is asked (`signs`) and
//! a small network says how likely the wood is gone there (`chance`). Pieces of one crack are put together and every damage
//! gets its name (`class`).

mod chance;
mod class;
mod class_net;
mod frame;
mod gather;
mod joined;
mod lost;
mod net;
mod record;
mod seen;
mod signs;
mod torn;
mod view;

use super::alike::{Alike, alike};
use frame::OnFrame;
use gather::gather;
use joined::Wood;
use lost::{Lost, lost};
use rayon::prelude::*;
use sheet::{Plane, Rect};
use signs::{Place, Seen as Asked};
use torn::Torn;

pub use class::SHAPES;
pub use frame::Impressed;
pub use record::{Damage, DamageClass, Seen, Shows, Untold};
pub use signs::SIGNS;
pub use view::View;

/// Ink made alike is drawn with edges so soft, as a share of solid ink: a gap that is filled a little is still one.
const SOFTNESS: f64 = 0.6;

/// The damage of a block, and its wood.
#[derive(Debug, Clone)]
pub struct Damages {
    /// The damage, in reading order of its places.
    pub damages: Vec<Damage>,
    /// The wood as whole as any impression shows it, ink 0 to 255 on the frame.
    pub whole: Plane<u8>,
    /// Pixels of the frame's photograph to a sample of `whole`.
    pub unit_px: f64,
}

/// A place that was weighed.
#[derive(Debug, Clone)]
pub struct Weighed {
    /// The impression that lacks ink there, counted along the list that was given.
    pub by: usize,
    /// Where, on each impression's photograph set upright: pixels; `None` where it is not on it.
    pub boxes: Vec<Option<Rect>>,
    /// Whether a fold of its sheet runs through it in the impression that lacks ink.
    pub is_folded: bool,
    /// Whether it was likely enough, by its signs, to be looked at.
    pub is_likely: bool,
    /// What was measured in each impression.
    pub signs: Vec<Option<[f32; SIGNS]>>,
    /// How likely the wood is gone there in each.
    pub chances: Vec<Option<f64>>,
}

/// A place with everything that was asked of it.
struct Known {
    place: Place,
    asked: Asked,
}

/// Impressions of a block on one frame, made alike, with every place at which one of them lacks ink weighed.
pub struct Looked<'c> {
    frame: OnFrame<'c>,
    even: Vec<Alike>,
    lost: Lost,
    /// What all show in the mean.
    mean: Plane<u8>,
    places: Vec<Known>,
    weighed: Vec<Weighed>,
}

/// The damage of a block by its impressions, the first of which is the frame; `None` of none.
pub fn damages(impressions: &[Impressed<'_>]) -> Option<Damages> {
    Some(Looked::at(impressions)?.damages())
}

impl<'c> Looked<'c> {
    /// Looks at the impressions of a block, the first of which is the frame; `None` of none.
    pub fn at(impressions: &[Impressed<'c>]) -> Option<Self> {
        let frame = OnFrame::of(impressions)?;
        let inks: Vec<&Plane<u8>> = frame.all.iter().map(|one| &one.ink).collect();
        let even = alike(&inks, frame.unit, SOFTNESS);
        let lost = lost(&frame, &even);
        let mean = mean(&even);
        let torn = Torn::of(&frame, &even, &lost);
        let (places, weighed) = lost
            .pieces
            .par_iter()
            .map(|piece| {
                let place = Place::of(piece, &frame, &lost);
                let asked = Asked::of(&place, &frame, &even, &lost);
                let signs: Vec<_> = (0..impressions.len())
                    .map(|i| asked.signs(&place, i, &frame, torn.about(i, &place)))
                    .collect();
                let boxes = frame.places(place.bounds);
                let is_likely = chance::is_likely(signs[piece.by].as_ref());
                let weighed = Weighed {
                    by: piece.by,
                    is_folded: boxes[piece.by].is_some_and(|b| frame.all[piece.by].is_folded(b)),
                    boxes,
                    is_likely,
                    chances: chance::of(&signs, is_likely, |i| View::of(&place, &even[i], &lost, &mean)),
                    signs,
                };
                (Known { place, asked }, weighed)
            })
            .unzip();
        Some(Self { frame, even, lost, mean, places, weighed })
    }

    /// Every place that was weighed, for fitting.
    pub fn weighed(&self) -> &[Weighed] {
        &self.weighed
    }

    /// A weighed place, by its number, as it is seen in an impression, for fitting.
    pub fn view(&self, place: usize, impression: usize) -> View {
        View::of(&self.places[place].place, &self.even[impression], &self.lost, &self.mean)
    }

    /// Pixels of the frame's photograph to a sample, and each impression's ink on the frame, brought to one weight with the
    /// others, 0 to 255; in the order of the list that was given.
    pub fn alike(&self) -> (f64, impl Iterator<Item = &Plane<u8>>) {
        (self.frame.unit_px, self.even.iter().map(|e| &e.ink))
    }

    /// The damage, with what was measured of the shape of each, for fitting.
    pub fn told(&self) -> Vec<(Damage, [f32; SHAPES])> {
        let ask = |place: &Place| Asked::of(place, &self.frame, &self.even, &self.lost);
        let wood = Wood { whole: &self.lost.whole, even: &self.even };
        gather(&self.frame, &self.places, &self.weighed, wood, ask)
    }

    /// The damage, and the wood.
    pub fn damages(self) -> Damages {
        let damages = self.told().into_iter().map(|(damage, _)| damage).collect();
        Damages { damages, whole: self.lost.whole, unit_px: self.frame.unit_px }
    }
}

impl std::fmt::Debug for Looked<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Looked").field("weighed", &self.weighed.len()).finish_non_exhaustive()
    }
}

/// Sample by sample the mean of all impressions made alike.
fn mean(even: &[Alike]) -> Plane<u8> {
    let (w, h) = even.first().map_or((0, 0), |e| (e.ink.width(), e.ink.height()));
    let mut sums = vec![0u32; w * h];
    for e in even {
        sums.iter_mut().zip(e.ink.data()).for_each(|(s, &v)| *s += u32::from(v));
    }
    let n = even.len().max(1) as u32;
    let means = sums.into_iter().map(|s| (s / n) as u8).collect();
    Plane::from_vec(w, h, means).unwrap_or_else(|| Plane::filled(w, h, 0))
}
