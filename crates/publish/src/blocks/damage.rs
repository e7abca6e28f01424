//! The damages of a block, told and cut out.

use super::pictures::{self, OneBlockPictures};
use crate::page::FrameBox;
use crate::page::blocks::{DamageModel, SeenModel, Sign};
use crate::pictures::CannotDraw;
use crate::record::{DamageFound, OrderFound};
use evidence::block::{Damage, Seen, Shows};
use sheet::Rect;

/// A damage with what each impression shows of it, in this order, each crop no longer than this.
pub(super) fn damage(
    found: &DamageFound,
    impressions: &[usize],
    pictures: Option<&OneBlockPictures>,
    crops: Option<f64>,
) -> Result<DamageModel, CannotDraw> {
    let d = &found.damage;
    let place = pictures.map(|p| p.place(d.box_px));
    let shown = pictures.zip(place).map(|(p, place)| p.about(place));
    let seen = impressions
        .iter()
        .map(|&i| {
            let told = d.seen.iter().find(|s| s.impression == i);
            let crop = match (pictures.and_then(|p| p.of(i)), shown, crops) {
                (Some(one), Some(shown), Some(long)) => pictures::crop(&one.photograph, shown, long)?,
                _ => None,
            };
            Ok(SeenModel {
                impression: i + 1,
                sign: sign(d, told, i),
                because: told.and_then(|s| s.because).map(|b| b.words().to_owned()),
                chance: told.and_then(|s| s.chance),
                is_odd: false,
                crop,
            })
        })
        .collect::<Result<_, CannotDraw>>()?;
    let frame = pictures.zip(place).map(|(p, place)| {
        let whole = Rect::new(0.0, 0.0, p.composite.width() as f64, p.composite.height() as f64);
        share(place, whole)
    });
    Ok(DamageModel {
        number: found.number,
        class_words: d.class.name().to_owned(),
        place_words: place_words(d),
        size_words: size_words(d),
        frame: frame.unwrap_or(NOWHERE),
        within: place.zip(shown).map_or(NOWHERE, |(place, shown)| share(place, shown)),
        seen,
    })
}

const NOWHERE: FrameBox = FrameBox { x: 0.0, y: 0.0, w: 0.0, h: 0.0 };

/// A box as shares of another.
fn share(place: Rect, of: Rect) -> FrameBox {
    let (w, h) = (of.w.max(1e-9), of.h.max(1e-9));
    FrameBox { x: (place.x - of.x) / w, y: (place.y - of.y) / h, w: place.w / w, h: place.h / h }
}

fn sign(d: &Damage, told: Option<&Seen>, impression: usize) -> Sign {
    match told.map(|s| s.shows) {
        Some(Shows::Present) => Sign::Present,
        Some(Shows::Absent) => Sign::Absent,
        None if d.present.contains(&impression) => Sign::Present,
        None if d.absent.contains(&impression) => Sign::Absent,
        Some(Shows::Unclear) | None => Sign::Unclear,
    }
}

fn place_words(d: &Damage) -> String {
    d.box_mm.map_or_else(
        || format!("{:.0}, {:.0} px", d.box_px[0], d.box_px[1]),
        |[x, y, ..]| format!("{x:.1}, {y:.1} mm"),
    )
}

fn size_words(d: &Damage) -> String {
    d.size_mm.map_or_else(|| format!("{:.0} px", d.size_px), |mm| format!("{mm:.1} mm"))
}

/// Marks what stands against the order; `impressions` are those of the block, as the order counts them.
pub(super) fn mark_odd(damages: &mut [DamageModel], order: &OrderFound, impressions: &[usize]) {
    let against = order.told.contradictions.cells.iter().map(|c| (c.damage, c.impression));
    let of_rows = &order.told.arrangement.damages;
    let odd = of_rows.iter().flat_map(|row| row.odd.iter().map(|odd| (row.damage, odd.impression)));
    for (damage, impression) in against.chain(odd) {
        let number = impressions.get(impression).map(|i| i + 1);
        let seen = damages.get_mut(damage).into_iter().flat_map(|d| &mut d.seen);
        for seen in seen.filter(|s| Some(s.impression) == number) {
            seen.is_odd = true;
        }
    }
}
