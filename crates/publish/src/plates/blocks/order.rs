//! The picture of order as a plate.

use super::sign;
use crate::blocks::{OneBlockPictures, part};
use crate::page::blocks::words::roman;
use crate::page::blocks::{BlockModel, DamageModel, RowModel, Sign};
use crate::pictures::{CannotDraw, Canvas, INK, fitted};
use sheet::{Plane, Rect};

/// A crop, what is under it for its sign, and what is between, pixels.
const CROP: f64 = 120.0;
const SIGN: f64 = 30.0;
const BETWEEN: f64 = 10.0;
/// The column of numbers at the left and the rows of heads, pixels.
const LEFT: f64 = 70.0;
const RANKS: f64 = 46.0;
const NUMBERS: f64 = 34.0;
/// Radius of a sign, pixels.
const RADIUS: f64 = 8.0;

/// Impressions across, damages down; without an order as they are numbered.
pub(super) fn picture(block: &BlockModel, pictures: &OneBlockPictures) -> Result<Plane<[u8; 3]>, CannotDraw> {
    let unordered: Vec<RowModel> =
        block.damages.iter().map(|d| RowModel::unplaced(d.number, block)).collect();
    let rows = block.order.as_ref().map_or(&unordered, |o| &o.rows);
    let share = CROP / pictures.composite.width().max(pictures.composite.height()) as f64;
    let head = (pictures.composite.height() as f64 * share.min(1.0)).round();
    let top = RANKS + head + NUMBERS;
    let size = [
        LEFT + block.impressions.len() as f64 * (CROP + BETWEEN),
        top + rows.len() as f64 * (CROP + SIGN + BETWEEN),
    ];
    let mut canvas = Canvas::blank(size[0] as usize, size[1] as usize).ok_or(CannotDraw)?;
    heads(&mut canvas, block, pictures, head);
    for (i, row) in rows.iter().enumerate() {
        let Some(damage) = block.damages.iter().find(|d| d.number == row.damage) else { continue };
        let y = top + i as f64 * (CROP + SIGN + BETWEEN);
        canvas.ring(damage.number, [LEFT / 2.0, y + CROP / 2.0], 18.0);
        one_row(&mut canvas, block, row, damage, pictures, y);
    }
    Ok(canvas.done())
}

fn left(column: usize) -> f64 {
    LEFT + column as f64 * (CROP + BETWEEN)
}

/// The numerals, a bracket over the tied, every impression small, its number.
fn heads(canvas: &mut Canvas, block: &BlockModel, pictures: &OneBlockPictures, head: f64) {
    let mut column = 0;
    for state in block.order.iter().flat_map(|o| &o.states) {
        let (from, to) = (left(column), left(column + state.impressions.len()) - BETWEEN);
        canvas.figures(&roman(state.rank), [f64::midpoint(from, to), 18.0], 18.0);
        if state.impressions.len() > 1 {
            let bracket = [[from, RANKS - 4.0], [from, RANKS - 10.0], [to, RANKS - 10.0], [to, RANKS - 4.0]];
            canvas.stroke(&bracket, 1.5, INK, false);
        }
        column += state.impressions.len();
    }
    for (i, &number) in block.impressions.iter().enumerate() {
        if let Some(one) = pictures.of(number - 1) {
            canvas.lay(&fitted(&one.photograph, CROP), left(i) as usize, RANKS as usize);
        }
        canvas.number(number, [left(i) + CROP / 2.0, RANKS + head + NUMBERS / 2.0], 17.0);
    }
}

fn one_row(
    canvas: &mut Canvas,
    block: &BlockModel,
    row: &RowModel,
    damage: &DamageModel,
    pictures: &OneBlockPictures,
    y: f64,
) {
    let b = damage.frame;
    let (w, h) = (pictures.composite.width() as f64, pictures.composite.height() as f64);
    let shown = pictures.about(Rect::new(b.x * w, b.y * h, b.w * w, b.h * h));
    for (i, &number) in block.impressions.iter().enumerate() {
        let x = left(i);
        if let Some(crop) = pictures.of(number - 1).and_then(|one| part(&one.photograph, shown)) {
            let crop = fitted(&crop, CROP);
            let inset = |side: usize| ((CROP - side as f64) / 2.0).max(0.0);
            canvas.lay(&crop, (x + inset(crop.width())) as usize, (y + inset(crop.height())) as usize);
        }
        let is_odd = damage.seen.iter().any(|s| s.impression == number && s.is_odd);
        let at = [x + CROP / 2.0, y + CROP + SIGN / 2.0];
        if let Some(sign) = sign(damage, number) {
            draw(canvas, sign, at);
        }
        if is_odd {
            dagger(canvas, [at[0] + 24.0, at[1]]);
        }
        for (place, is_dashed) in [(Some(row.came_after), false), (row.gone_after, true)] {
            if place == Some(i) {
                let line = x - BETWEEN / 2.0;
                canvas.stroke(&[[line, y], [line, y + CROP + SIGN]], 4.0, INK, is_dashed);
            }
        }
    }
}

/// A disc, a ring, or a hatched square.
fn draw(canvas: &mut Canvas, sign: Sign, [x, y]: [f64; 2]) {
    match sign {
        Sign::Present => canvas.dot([x, y], RADIUS, true, 1.5),
        Sign::Absent => canvas.dot([x, y], RADIUS, false, 1.8),
        Sign::Unclear => {
            let r = RADIUS;
            canvas.stroke(
                &[[x - r, y - r], [x + r, y - r], [x + r, y + r], [x - r, y + r], [x - r, y - r]],
                1.2,
                INK,
                false,
            );
            for step in [0.5, 1.0, 1.5] {
                let c = 2.0 * r * step;
                let over = (c - 2.0 * r).max(0.0);
                canvas.stroke(
                    &[[x - r + over, y - r + c - over], [x - r + c - over, y - r + over]],
                    1.2,
                    INK,
                    false,
                );
            }
        }
    }
}

fn dagger(canvas: &mut Canvas, [x, y]: [f64; 2]) {
    canvas.stroke(&[[x, y - 9.0], [x, y + 10.0]], 2.0, INK, false);
    canvas.stroke(&[[x - 5.0, y - 4.0], [x + 5.0, y - 4.0]], 2.0, INK, false);
}
