//! What a block has lost, and which of its impressions show it.
//!
//! Start at [`damages`]. All impressions are drawn on the frame of the best (`frame`) and brought to one weight of ink
//! (`block::alike`). What one lacks of the ink that others show (`lost`) is a place, of which every impression is asked (`signs`) and
//! a small network says how likely the wood is gone there (`chance`). Pieces of one crack are put together and every damage
//! gets its name (`class`).

mod chance;
mod class;
mod frame;
mod gather;
mod joined;
mod lost;
mod net;
mod record;
mod signs;
mod torn;

use super::alike::alike;
use frame::OnFrame;
use gather::gather;
use lost::lost;
use rayon::prelude::*;
use sheet::{Plane, Rect};
use signs::{Place, Seen as Asked};
use torn::Torn;

pub use frame::Impressed;
pub use record::{Damage, DamageClass, Seen, Shows, Untold};
pub use signs::SIGNS;

/// Ink made alike is drawn with edges so soft, as a share of solid ink: a gap that is filled a little is still one.
const SOFTNESS: f64 = 0.6;

/// The damage of a block, and its impressions on one frame.
#[derive(Debug, Clone)]
pub struct Damages {
    /// The damage, in reading order of its places.
    pub damages: Vec<Damage>,
    /// The wood as whole as any impression shows it, ink 0 to 255 on the frame.
    pub whole: Plane<u8>,
    /// Pixels of the frame's photograph to a sample of `whole`.
    pub unit_px: f64,
    /// Each impression's ink on the frame, brought to one weight with the others, 0 to 255; in the order of the list given.
    pub alike: Vec<Plane<u8>>,
    /// Every place that was weighed, for fitting.
    pub weighed: Vec<Weighed>,
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
    /// What was measured in each impression.
    pub signs: Vec<Option<[f32; SIGNS]>>,
    /// How likely the wood is gone there in each.
    pub chances: Vec<Option<f64>>,
}

/// A place with everything that was asked of it.
struct Known {
    /// The impression that lacks ink there.
    by: usize,
    place: Place,
    asked: Asked,
    signs: Vec<Option<[f32; SIGNS]>>,
}

/// The damage of a block by its impressions, the first of which is the frame; `None` of none.
pub fn damages(impressions: &[Impressed<'_>]) -> Option<Damages> {
    let frame = OnFrame::of(impressions)?;
    let inks: Vec<&Plane<u8>> = frame.all.iter().map(|one| &one.ink).collect();
    let even = alike(&inks, frame.unit, SOFTNESS);
    let lost = lost(&frame, &even);
    let torn = Torn::of(&frame, &even, &lost);
    let places: Vec<Known> = lost
        .pieces
        .par_iter()
        .map(|piece| {
            let place = Place::of(piece, &frame, &lost);
            let asked = Asked::of(&place, &frame, &even, &lost);
            let signs = (0..impressions.len())
                .map(|i| asked.signs(&place, i, &frame, torn.about(i, &place)))
                .collect();
            Known { by: piece.by, place, asked, signs }
        })
        .collect();
    let weighed: Vec<Weighed> = places
        .iter()
        .map(|k| (k, frame.places(k.place.bounds)))
        .map(|(k, boxes)| Weighed {
            by: k.by,
            is_folded: boxes[k.by].is_some_and(|b| frame.all[k.by].is_folded(b)),
            boxes,
            signs: k.signs.clone(),
            chances: k.signs.iter().map(|s| s.as_ref().map(chance::of)).collect(),
        })
        .collect();
    let damages = gather(&frame, &places, &weighed, |place| Asked::of(place, &frame, &even, &lost));
    let alike = even.into_iter().map(|e| e.ink).collect();
    Some(Damages { damages, whole: lost.whole, unit_px: frame.unit_px, alike, weighed })
}
