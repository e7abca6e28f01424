//! The picture of order as a plate.

use super::sign;
use crate::blocks::{OneBlockPictures, part};
use crate::page::blocks::words::roman;
use crate::page::blocks::{BlockModel, DamageModel, RowModel, Sign};
use crate::pictures::{CannotDraw, Canvas, INK, fitted};
use sheet::{Plane, Rect};

/// A crop at its largest and at its smallest, what is under it for its sign, and what is between, pixels.
const CROP: f64 = 120.0;
const LEAST_CROP: f64 = 32.0;
const SIGN: f64 = 30.0;
const BETWEEN: f64 = 10.0;
/// Pixels that all cells have at most, and how many cells there are at most: a picture of more is for no page.
const MOST_PIXELS: f64 = 6.0e7;
const MOST_CELLS: usize = 20_000;
/// The column of numbers at the left and the rows of heads, pixels.
const LEFT: f64 = 70.0;
const RANKS: f64 = 46.0;
const NUMBERS: f64 = 34.0;
/// Radius of a sign, pixels.
const RADIUS: f64 = 8.0;

/// Impressions across, damages down, without an order as they are numbered; `None` where there are too many to draw.
pub(super) fn picture(
    block: &BlockModel,
    pictures: &OneBlockPictures,
) -> Result<Option<Plane<[u8; 3]>>, CannotDraw> {
    let unordered: Vec<RowModel> =
        block.damages.iter().map(|d| RowModel::unplaced(d.number, block)).collect();
    let rows = block.order.as_ref().map_or(&unordered, |o| &o.rows);
    let cells = rows.len() * block.impressions.len();
    if cells == 0 || cells > MOST_CELLS {
        return Ok(None);
    }
    let crop = ((MOST_PIXELS / cells as f64).sqrt() - SIGN).clamp(LEAST_CROP, CROP).floor();
    let share = crop / pictures.composite.width().max(pictures.composite.height()) as f64;
    let head = (pictures.composite.height() as f64 * share.min(1.0)).round();
    let top = RANKS + head + NUMBERS;
    let wide = LEFT + block.impressions.len() as f64 * (crop + BETWEEN);
    let high = top + rows.len() as f64 * (crop + SIGN + BETWEEN);
    let canvas = Canvas::blank(wide as usize, high as usize).ok_or(CannotDraw)?;
    let mut drawing = Drawing { canvas, block, pictures, crop };
    drawing.heads(head);
    for (i, row) in rows.iter().enumerate() {
        if let Some(damage) = block.damages.iter().find(|d| d.number == row.damage) {
            drawing.row(row, damage, top + i as f64 * (crop + SIGN + BETWEEN));
        }
    }
    Ok(Some(drawing.canvas.done()))
}

struct Drawing<'b> {
    canvas: Canvas,
    block: &'b BlockModel,
    pictures: &'b OneBlockPictures,
    /// Side of a crop.
    crop: f64,
}

impl Drawing<'_> {
    fn left(&self, column: usize) -> f64 {
        LEFT + column as f64 * (self.crop + BETWEEN)
    }

    /// The numerals, a bracket over the tied, every impression small, its number.
    fn heads(&mut self, head: f64) {
        let mut column = 0;
        for state in self.block.order.iter().flat_map(|o| &o.states) {
            let (from, to) = (self.left(column), self.left(column + state.impressions.len()) - BETWEEN);
            self.canvas.figures(&roman(state.rank), [f64::midpoint(from, to), 18.0], 18.0);
            if state.impressions.len() > 1 {
                let bracket =
                    [[from, RANKS - 4.0], [from, RANKS - 10.0], [to, RANKS - 10.0], [to, RANKS - 4.0]];
                self.canvas.stroke(&bracket, 1.5, INK, false);
            }
            column += state.impressions.len();
        }
        for (i, &number) in self.block.impressions.iter().enumerate() {
            let x = self.left(i);
            if let Some(one) = self.pictures.of(number - 1) {
                self.canvas.lay(&fitted(&one.photograph, self.crop), x as usize, RANKS as usize);
            }
            self.canvas.number(number, [x + self.crop / 2.0, RANKS + head + NUMBERS / 2.0], 17.0);
        }
    }

    fn row(&mut self, row: &RowModel, damage: &DamageModel, y: f64) {
        self.canvas.ring(damage.number, [LEFT / 2.0, y + self.crop / 2.0], 18.0);
        let b = damage.frame;
        let composite = &self.pictures.composite;
        let (w, h) = (composite.width() as f64, composite.height() as f64);
        let shown = self.pictures.about(Rect::new(b.x * w, b.y * h, b.w * w, b.h * h));
        for (i, &number) in self.block.impressions.iter().enumerate() {
            let x = self.left(i);
            let crop = self.pictures.of(number - 1).and_then(|one| part(&one.photograph, shown));
            if let Some(crop) = crop.map(|crop| fitted(&crop, self.crop)) {
                let inset = |side: usize| ((self.crop - side as f64) / 2.0).max(0.0);
                let (across, down) = (inset(crop.width()), inset(crop.height()));
                self.canvas.lay(&crop, (x + across) as usize, (y + down) as usize);
            }
            let at = [x + self.crop / 2.0, y + self.crop + SIGN / 2.0];
            if let Some(sign) = sign(damage, number) {
                draw(&mut self.canvas, sign, at);
            }
            if damage.seen.iter().any(|s| s.impression == number && s.is_odd) {
                dagger(&mut self.canvas, [at[0] + 1.6 * RADIUS, at[1]]);
            }
            for (place, is_dashed) in [(Some(row.came_after), false), (row.gone_after, true)] {
                if place == Some(i) {
                    let line = x - BETWEEN / 2.0;
                    self.canvas.stroke(&[[line, y], [line, y + self.crop + SIGN]], 4.0, INK, is_dashed);
                }
            }
        }
    }
}

/// A disc, a ring, or a hatched square.
fn draw(canvas: &mut Canvas, sign: Sign, [x, y]: [f64; 2]) {
    let r = RADIUS;
    match sign {
        Sign::Present => canvas.dot([x, y], r, true, 1.5),
        Sign::Absent => canvas.dot([x, y], r, false, 1.8),
        Sign::Unclear => {
            let square = [[x - r, y - r], [x + r, y - r], [x + r, y + r], [x - r, y + r], [x - r, y - r]];
            canvas.stroke(&square, 1.2, INK, false);
            for step in [0.5, 1.0, 1.5] {
                let c = 2.0 * r * step;
                let over = (c - 2.0 * r).max(0.0);
                let line = [[x - r + over, y - r + c - over], [x - r + c - over, y - r + over]];
                canvas.stroke(&line, 1.2, INK, false);
            }
        }
    }
}

fn dagger(canvas: &mut Canvas, [x, y]: [f64; 2]) {
    canvas.stroke(&[[x + 4.0, y - 9.0], [x + 4.0, y + 10.0]], 2.0, INK, false);
    canvas.stroke(&[[x - 1.0, y - 4.0], [x + 9.0, y - 4.0]], 2.0, INK, false);
}
