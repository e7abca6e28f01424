//! Plates of blocks: of each its best impression with the damages numbered, the picture of order, the states, the years, and
//! every damage in every impression. Their words stand in the list beside them.

mod order;

use super::{Plate, TO_A_ROW};
use crate::blocks::plot::{Breadth, draw, plot};
use crate::blocks::{BlocksPictures, OneBlockPictures, named, part};
use crate::many::numbers;
use crate::page::blocks::labels::{MARGIN, Side, labels};
use crate::page::blocks::words::roman;
use crate::page::blocks::{BlockModel, BlocksModel, DamageModel, Sign};
use crate::pictures::{CannotDraw, Canvas, INK, WHITE, black, fitted, plate_of_groups, png};
use crate::record::BlocksRecord;
use sheet::{Plane, Ppi, Rect};

/// Hands the plates of blocks to `put` one by one, so that no more than one is in memory. `model` is that of the page, made of
/// the same record and pictures.
///
/// # Errors
/// When a picture cannot be encoded, or with what `put` fails.
pub fn of_blocks<E: From<CannotDraw>>(
    record: &BlocksRecord,
    pictures: &BlocksPictures,
    model: &BlocksModel,
    mut put: impl FnMut(Plate) -> Result<(), E>,
) -> Result<(), E> {
    let with_pictures = model.blocks.iter().zip(&pictures.blocks);
    for (block, pictures) in with_pictures.filter_map(|(b, p)| Some((b, p.as_ref()?))) {
        let frame = record.photographs.get(block.frame - 1).and_then(Option::as_ref);
        let ppi = frame.and_then(|p| p.scale.as_ref()).map(|s| Ppi(s.ppi.0 * pictures.scale));
        let mut plate = |what: &str, shows: String, png: Vec<u8>| {
            put(Plate { name: format!("block-{}{what}.png", block.number), shows, png })
        };
        let n = block.number;
        plate(
            "",
            format!("Block {n}, the best impression, made of all: {}.", damages_words(&block.damages)),
            png(&composite(block, pictures)?, ppi)?,
        )?;
        if let Some(picture) = order::picture(block, pictures)? {
            let shows = format!(
                "Block {n}: impressions across, {}; damages down. A full disc: present; a ring: absent; hatched: unclear; a \
                 dagger: against the order; a heavy line: where it came.",
                in_order(block)
            );
            plate("-order", shows, png(&picture, None)?)?;
        }
        if let Some(states) = states(block, pictures)? {
            let shows = format!("Block {n}, its states: {}. What is new is ringed.", in_order(block));
            plate("-states", shows, png(&states, None)?)?;
        }
        if let Some(drawn) = block.dates.as_ref().and_then(|d| plot(d, Breadth::Wide)).and_then(|p| draw(&p))
        {
            let shows = format!(
                "Block {n}, the years of its impressions, {}: a diamond, a year that is known; in outline by the order alone, full \
                 with the rate; thick 50 percent, thin 95; hatched, beyond the dated.",
                in_order(block)
            );
            plate("-years", shows, png(&drawn, None)?)?;
        }
        for damage in &block.damages {
            let (shows, picture) = in_every_impression(n, damage, pictures, ppi)?;
            plate(&format!("-damage-{:02}", damage.number), shows, picture)?;
        }
    }
    Ok(())
}

/// Which damage is which: "1 nick in the frame; 2 wormhole".
fn damages_words(damages: &[DamageModel]) -> String {
    if damages.is_empty() {
        return "no damage was found".to_owned();
    }
    damages.iter().map(|d| format!("{} {}", d.number, d.class_words)).collect::<Vec<_>>().join("; ")
}

/// The impressions as they stand: "I: 3; II: 1 and 2".
fn in_order(block: &BlockModel) -> String {
    let from_0 = |all: &[usize]| all.iter().map(|n| n - 1).collect::<Vec<_>>();
    block.order.as_ref().map_or_else(
        || format!("impressions {} as they were named", numbers(&from_0(&block.impressions))),
        |order| {
            let states = order.states.iter();
            let all: Vec<String> =
                states.map(|s| format!("{}: {}", roman(s.rank), named(&from_0(&s.impressions)))).collect();
            all.join("; ")
        },
    )
}

/// The best impression at full size, a box about every damage and its number in the margin.
fn composite(block: &BlockModel, pictures: &OneBlockPictures) -> Result<Plane<[u8; 3]>, CannotDraw> {
    let print = black(&pictures.composite);
    let (w, h) = (print.width() as f64, print.height() as f64);
    // Wide enough for a ring on a small block.
    let margin = (MARGIN * w).max(40.0).round();
    let high = (0.02 * w.min(h)).max(9.0);
    let mut canvas = Canvas::blank(print.width() + 2 * margin as usize, print.height()).ok_or(CannotDraw)?;
    canvas.lay(&print, margin as usize, 0);
    let line = (w / 900.0).max(1.0);
    for (damage, label) in block.damages.iter().zip(labels(&block.damages)) {
        let b = damage.frame;
        let place = Rect::new(margin + b.x * w, b.y * h, b.w * w, b.h * h).grown(3.0 * line);
        let (at, edge) = match label.side {
            Side::Left => (0.5 * margin, place.x),
            Side::Right => (w + 1.5 * margin, place.right()),
        };
        let y = label.down * h;
        let leader = [[at, y], [edge, place.centre().y]];
        canvas.stroke(&leader, 3.0 * line, WHITE, false);
        canvas.stroke(&leader, line, INK, false);
        canvas.frame([place.x, place.y, place.w, place.h], 1.3 * line);
        canvas.ring(damage.number, [at, y], high);
    }
    Ok(canvas.done())
}

/// Longest side of an impression in the film strip, the longest strip, and what is between, pixels: of many impressions
/// each is smaller.
const OF_STATES: f64 = 640.0;
const LONGEST: f64 = 24_000.0;
const BETWEEN: f64 = 24.0;
const HEAD: f64 = 64.0;

/// The film strip; `None` without an order.
fn states(block: &BlockModel, pictures: &OneBlockPictures) -> Result<Option<Plane<[u8; 3]>>, CannotDraw> {
    let Some(order) = &block.order else { return Ok(None) };
    let all: usize = order.states.iter().map(|s| s.impressions.len()).sum();
    let long = OF_STATES.min(LONGEST / all.max(1) as f64);
    let composite = &pictures.composite;
    let share = (long / composite.width().max(composite.height()) as f64).min(1.0);
    let [w, h] = [composite.width(), composite.height()].map(|side| (side as f64 * share).round());
    let wide = all as f64 * (w + BETWEEN) + BETWEEN;
    let mut canvas = Canvas::blank(wide as usize, (h + HEAD + 2.0 * BETWEEN) as usize).ok_or(CannotDraw)?;
    let mut x = BETWEEN;
    for state in &order.states {
        let end = x + state.impressions.len() as f64 * (w + BETWEEN) - BETWEEN;
        canvas.stroke(&[[x, HEAD - 8.0], [end, HEAD - 8.0]], 2.0, INK, false);
        canvas.figures(&roman(state.rank), [f64::midpoint(x, end), 28.0], 24.0);
        for &number in &state.impressions {
            if let Some(one) = pictures.of(number - 1) {
                canvas.lay(&fitted(&one.photograph, long), x as usize, HEAD as usize);
            }
            let is_new =
                |d: &&DamageModel| state.new.contains(&d.number) && sign(d, number) == Some(Sign::Present);
            for damage in block.damages.iter().filter(is_new) {
                let b = damage.frame;
                let place = Rect::new(x + b.x * w, HEAD + b.y * h, b.w * w, b.h * h).grown(9.0);
                canvas.ellipse([place.x, place.y, place.w, place.h], 2.0);
                canvas.number(damage.number, [place.right() + 12.0, place.y], 16.0);
            }
            canvas.number(number, [x + w / 2.0, HEAD + h + BETWEEN], 20.0);
            x += w + BETWEEN;
        }
    }
    Ok(Some(canvas.done()))
}

fn sign(damage: &DamageModel, impression: usize) -> Option<Sign> {
    damage.seen.iter().find(|s| s.impression == impression).map(|s| s.sign)
}

/// A damage in every impression, those that show it first, each sign in rows of its own.
fn in_every_impression(
    block: usize,
    damage: &DamageModel,
    pictures: &OneBlockPictures,
    ppi: Option<Ppi>,
) -> Result<(String, Vec<u8>), CannotDraw> {
    let b = damage.frame;
    let (w, h) = (pictures.composite.width() as f64, pictures.composite.height() as f64);
    let shown = pictures.about(Rect::new(b.x * w, b.y * h, b.w * w, b.h * h));
    let mut parties = Vec::new();
    let mut groups = Vec::new();
    for sign in [Sign::Present, Sign::Absent, Sign::Unclear] {
        let of: Vec<usize> =
            damage.seen.iter().filter(|s| s.sign == sign).map(|s| s.impression - 1).collect();
        if of.is_empty() {
            continue;
        }
        parties.push(format!("{} in {}", sign.word(), numbers(&of)));
        let seen = of.iter().filter_map(|&i| part(&pictures.of(i)?.photograph, shown));
        groups.push(seen.collect());
    }
    let shows = format!(
        "Block {block}, damage {}, {}, {} at {}: {}; each in rows of its own.",
        damage.number,
        damage.class_words,
        damage.size_words,
        damage.place_words,
        parties.join("; ")
    );
    Ok((shows, plate_of_groups(&groups, TO_A_ROW, ppi)?))
}

#[cfg(test)]
mod tests;
