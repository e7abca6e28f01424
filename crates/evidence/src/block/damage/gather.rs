//! Places at which wood is gone, put together into damages.

use super::class::{SHAPES, class, shapes};
use super::frame::OnFrame;
use super::joined::{Wood, joined};
use super::record::{Damage, DamageClass, Seen, Shows, Untold};
use super::signs::{Place, Seen as Asked};
use super::{Known, Weighed};

/// So likely the wood must be gone in some impression, and so likely it must stand in another, for a place to be told.
const GONE: f64 = 0.6;
const STANDS: f64 = 0.3;

/// Pieces that are at least so likely gone may be part of a damage that is told.
const PART: f64 = 0.4;
/// Wood that stands prints so much of its ink, 0 to 1.
const PRINTS: f64 = 0.45;
/// About a damage so much of the wood that stands must print, 0 to 1, or a gap may be want of ink.
const SOUND: f64 = 0.4;

/// Height of a row, units.
const ROWS: f64 = 4.0;

/// The damages of a block, with what was measured of the shape of each; `ask` asks all impressions about a place.
pub(super) fn gather(
    frame: &OnFrame<'_>,
    places: &[Known],
    weighed: &[Weighed],
    wood: Wood<'_>,
    ask: impl Fn(&Place) -> Asked,
) -> Vec<(Damage, [f32; SHAPES])> {
    // The surest first: what others lack in the same place is the same damage.
    let sure = |i: usize| weighed[i].chances[weighed[i].by].unwrap_or(0.0);
    let mut order: Vec<usize> =
        (0..places.len()).filter(|&i| sure(i) >= PART && !weighed[i].is_folded).collect();
    order.sort_by(|&p, &q| sure(q).total_cmp(&sure(p)).then(p.cmp(&q)));
    let mut told: Vec<usize> = Vec::new();
    for i in order {
        let stands = weighed[i].chances.iter().flatten().any(|&c| c <= STANDS);
        let is_new = told.iter().all(|&t| places[t].place.bounds.shared(places[i].place.bounds).is_none());
        if stands && is_new {
            told.push(i);
        }
    }
    let told = {
        let known: Vec<&Place> = told.iter().map(|&i| &places[i].place).collect();
        let of: Vec<&Weighed> = told.iter().map(|&i| &weighed[i]).collect();
        joined(&told, &known, &of, wood, frame.unit)
    };
    let mut out: Vec<(Place, Damage, [f32; SHAPES])> = told
        .into_iter()
        .filter(|group| group.iter().any(|&i| sure(i) >= GONE))
        .map(|mut group| {
            group.sort_by(|&p, &q| sure(q).total_cmp(&sure(p)).then(p.cmp(&q)));
            let place = together(&group, places);
            // About one piece of a hole there may be nothing but the hole: the ink beside it is that about all of it.
            let whole = (group.len() > 1).then(|| ask(&place));
            let asked = whole.as_ref().unwrap_or(&places[group[0]].asked);
            let shapes = shapes(&place, group.len(), frame);
            let class = class(&shapes, &place, group.len(), frame);
            let damage = damage(frame, &place, class, asked, &weighed[group[0]]);
            (place, damage, shapes)
        })
        .collect();
    // As one reads: by rows, and along them.
    let row = |p: &Place| (p.middle.y / (ROWS * frame.unit)) as usize;
    out.sort_by(|(p, ..), (q, ..)| row(p).cmp(&row(q)).then(p.middle.x.total_cmp(&q.middle.x)));
    out.into_iter().map(|(_, damage, shapes)| (damage, shapes)).collect()
}

/// The place of several that are one damage.
fn together(group: &[usize], places: &[Known]) -> Place {
    let mut place = places[group[0]].place.clone();
    for &i in &group[1..] {
        place.samples.extend(&places[i].place.samples);
        place.bounds = place.bounds.united(places[i].place.bounds);
    }
    if group.len() > 1 {
        place.samples.sort_unstable();
        place.samples.dedup();
        place.middle = place.bounds.centre();
        (place.long, place.broad) =
            (place.bounds.w.hypot(place.bounds.h), place.bounds.w.min(place.bounds.h));
    }
    place
}

/// A damage of a class at a place, with what was seen of the surest of its pieces.
fn damage(
    frame: &OnFrame<'_>,
    place: &Place,
    class: DamageClass,
    asked: &Asked,
    weighed: &Weighed,
) -> Damage {
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
                (Some(c), Some(s)) if s.beside < SOUND && c > STANDS => {
                    (Shows::Unclear, Some(Untold::TooLittleInk))
                }
                (Some(c), _) if c >= GONE => (Shows::Present, None),
                // Where there is no ink the wood is not seen to stand.
                (Some(c), Some(s)) if c <= STANDS && s.spread < PRINTS => {
                    (Shows::Unclear, Some(Untold::TooLittleInk))
                }
                (Some(c), _) if c <= STANDS => (Shows::Absent, None),
                (Some(_), _) => (Shows::Unclear, Some(Untold::Between)),
                (None, _) => (Shows::Unclear, Some(Untold::OutOfFrame)),
            };
            let box_px = one
                .on_photograph(place.bounds, frame.unit_px)
                .or(weighed.boxes[i])
                .map(|r| [r.x, r.y, r.w, r.h]);
            Seen { impression: one.of.number, shows, because, chance, box_px }
        })
        .collect();
    let of = |wanted: Shows| seen.iter().filter(|s| s.shows == wanted).map(|s| s.impression).collect();
    let place_px = frame.on_photograph(place.bounds);
    let size_px = place.long.max(place.broad) * frame.unit_px;
    let per_mm = frame.all[0].of.cut.scale.as_ref().map(|s| s.ppi.px_per_mm());
    let origin = frame.on_photograph(frame.body);
    Damage {
        class,
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
