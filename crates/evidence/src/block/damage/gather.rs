//! Places at which wood is gone, put together into damages.

use super::Weighed;
use super::class::class;
use super::frame::OnFrame;
use super::lost::Lost;
use super::record::{Damage, Seen, Shows, Untold};
use super::signs::{Place, SIGNS, Seen as Asked};

/// So likely the wood must be gone in some impression, and so likely it must stand in another, for a place to be told.
const GONE: f64 = 0.6;
const STANDS: f64 = 0.3;

/// A place with everything known of it.
type Known = (usize, Place, Asked, Vec<Option<[f32; SIGNS]>>);

/// The damages of a block.
pub(super) fn gather(frame: &OnFrame<'_>, lost: &Lost, places: &[Known], weighed: &[Weighed]) -> Vec<Damage> {
    // The surest first: what others lack in the same place is the same damage.
    let sure = |i: usize| weighed[i].chances[weighed[i].by].unwrap_or(0.0);
    let mut order: Vec<usize> =
        (0..places.len()).filter(|&i| sure(i) >= GONE && !weighed[i].is_folded).collect();
    order.sort_by(|&p, &q| sure(q).total_cmp(&sure(p)).then(p.cmp(&q)));
    let mut told: Vec<usize> = Vec::new();
    for i in order {
        let stands = weighed[i].chances.iter().flatten().any(|&c| c <= STANDS);
        let is_new = told.iter().all(|&t| places[t].1.bounds.shared(places[i].1.bounds).is_none());
        if stands && is_new {
            told.push(i);
        }
    }
    told.into_iter().map(|i| damage(frame, lost, &places[i], &weighed[i])).collect()
}

fn damage(frame: &OnFrame<'_>, lost: &Lost, known: &Known, weighed: &Weighed) -> Damage {
    let (_, place, asked, _) = known;
    let seen: Vec<Seen> = frame
        .all
        .iter()
        .enumerate()
        .map(|(i, one)| {
            let chance = weighed.chances[i];
            let shown = asked.shown[i];
            let (shows, because) = match (chance, shown) {
                (Some(_), _) if weighed.boxes[i].is_some_and(|b| one.is_folded(b)) => {
                    (Shows::Unclear, Some(Untold::Fold))
                }
                (Some(c), Some(s)) if s.beside < 0.4 && c > STANDS => {
                    (Shows::Unclear, Some(Untold::TooLittleInk))
                }
                (Some(c), _) if c >= GONE => (Shows::Present, None),
                (Some(c), _) if c <= STANDS => (Shows::Absent, None),
                (Some(_), _) => (Shows::Unclear, Some(Untold::Between)),
                (None, _) => (Shows::Unclear, Some(Untold::OutOfFrame)),
            };
            let box_px = weighed.boxes[i].map(|r| [r.x, r.y, r.w, r.h]);
            Seen { impression: one.of.number, shows, because, chance, box_px }
        })
        .collect();
    let of = |wanted: Shows| seen.iter().filter(|s| s.shows == wanted).map(|s| s.impression).collect();
    let place_px = frame.on_photograph(place.bounds);
    let size_px = place.long.max(place.broad) * frame.unit_px;
    let per_mm = frame.all[0].of.cut.scale.as_ref().map(|s| s.ppi.px_per_mm());
    let origin = frame.on_photograph(frame.body);
    Damage {
        class: class(place, frame, lost),
        box_mm: per_mm.map(|k| {
            [(place_px.x - origin.x) / k, (place_px.y - origin.y) / k, place_px.w / k, place_px.h / k]
        }),
        size_mm: per_mm.map(|k| size_px / k),
        size_px,
        box_px: [place_px.x, place_px.y, place_px.w, place_px.h],
        present: of(Shows::Present),
        absent: of(Shows::Absent),
        unclear: of(Shows::Unclear),
        seen,
    }
}
