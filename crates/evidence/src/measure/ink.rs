//! How the type took the ink: how evenly, and where more and less.
//!
//! Of every word it is asked what share of the band of its short letters is dark, against the well inked words of its size of type. So heavy
//! and light faces do not count as much and little ink, and a pale photograph is not taken for a pale print.

use super::record::{InkMap, InkMeasures};
use super::{Side, TypeSize};
use crate::evenness::{of_lines, well_inked, word_inks};
use crate::record::{box_px, to_thousandths};
use sheet::{Point, Rect};

/// Fewest words of a size that tell what a well inked word is.
const FEWEST: usize = 8;
/// Sides of a cell of the map, x-heights of the text: a word or two, and two lines.
const CELL: [f64; 2] = [7.0, 5.0];
/// A word with less than this share of the ink of a well inked one is faint.
const FAINT: f64 = 0.5;
/// Faint words are one place if no more than this lies between them, x-heights.
const BESIDE: f64 = 1.2;

/// A word, and its ink as a share of that of a well inked one.
struct Inked {
    bounds: Rect,
    share: f64,
}

/// What is told of the ink; `None` of a side with too few words.
pub(super) fn ink(side: &Side, sizes: &[TypeSize]) -> Option<InkMeasures> {
    let lines = &side.layout.lines;
    let words: Vec<Inked> = sizes
        .iter()
        .flat_map(|size| {
            let of: Vec<(Rect, f64)> = size
                .lines
                .iter()
                .flat_map(|&i| lines[i].words.iter().map(|w| w.bounds).zip(word_inks(&side.ink, &lines[i])))
                .collect();
            let well = well_inked(&of.iter().map(|w| w.1).collect::<Vec<_>>());
            let told = of.len() >= FEWEST && well > 0.0;
            of.into_iter().filter(move |_| told).map(move |(bounds, ink)| Inked { bounds, share: ink / well })
        })
        .collect();
    let x_height = side.layout.x_height?.0;
    let area = words.iter().map(|w| w.bounds).reduce(Rect::united)?;
    Some(InkMeasures {
        evenness: of_lines(&side.ink, lines).map(to_thousandths),
        map: map(side, &words, area, x_height),
        faint_px: faint(&words, x_height)
            .into_iter()
            .map(|r| box_px(side.turned.box_on_photograph(r)))
            .collect(),
    })
}

/// Words by the cells they stand in.
fn map(side: &Side, words: &[Inked], area: Rect, x_height: f64) -> InkMap {
    let count = |long: f64, cell: f64| ((long / (cell * x_height)).round() as usize).max(1);
    let (columns, rows) = (count(area.w, CELL[0]), count(area.h, CELL[1]));
    let mut sums = vec![(0.0, 0.0); columns * rows];
    for word in words {
        let middle: Point = word.bounds.centre();
        let part = |at: f64, long: f64, n: usize| ((at / long * n as f64) as usize).min(n - 1);
        let cell = part(middle.y - area.y, area.h, rows) * columns + part(middle.x - area.x, area.w, columns);
        sums[cell].0 += word.share * word.bounds.w;
        sums[cell].1 += word.bounds.w;
    }
    let [w, h] = [area.w / columns as f64, area.h / rows as f64];
    let boxed =
        |i: usize| Rect::new(area.x + w * (i % columns) as f64, area.y + h * (i / columns) as f64, w, h);
    let cells = sums.iter().enumerate().filter(|(_, s)| s.1 > 0.0);
    let (places, shares) = cells
        .map(|(i, (sum, wide))| (box_px(side.turned.box_on_photograph(boxed(i))), to_thousandths(sum / wide)))
        .unzip();
    InkMap { cells_px: places, shares }
}

/// The boxes of faint words, those beside or under each other together.
fn faint(words: &[Inked], x_height: f64) -> Vec<Rect> {
    let mut out: Vec<Rect> = Vec::new();
    for word in words.iter().filter(|w| w.share < FAINT) {
        let mut one = word.bounds;
        // What it meets may meet more once they are one.
        while let Some(k) = out.iter().position(|o| o.grown(BESIDE * x_height).shared(one).is_some()) {
            one = one.united(out.swap_remove(k));
        }
        out.push(one);
    }
    out.sort_by(|p, q| q.area().total_cmp(&p.area()));
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn faint_words_that_lie_together_are_one_place() {
        let word = |x: f64, y: f64, share: f64| Inked { bounds: Rect::new(x, y, 50.0, 30.0), share };
        let words = [
            word(100.0, 100.0, 0.3),
            word(160.0, 100.0, 0.2),
            word(160.0, 145.0, 0.1),
            word(220.0, 100.0, 0.9),
            word(600.0, 100.0, 0.4),
        ];
        let found = faint(&words, 20.0);
        assert_eq!(found, [Rect::new(100.0, 100.0, 110.0, 75.0), Rect::new(600.0, 100.0, 50.0, 30.0)]);
    }
}
