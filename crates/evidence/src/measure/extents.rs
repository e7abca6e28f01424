//! How high capitals and long letters stand, and how deep they hang.
//!
//! Nothing is read: letters are told by their shapes. What stands on the line and has ink over most of its breadth above the short letters is a capital;
//! what has it over a part only is a letter with an ascender (b, d, h, k); what is as high as a short letter and hangs below the line has a
//! descender. Narrow letters are left out, for a capital I and a small l look alike.

use super::Length;
use crate::blobs::{Blob, blobs};
use crate::rank::median;
use crate::words::on_baseline;
use rayon::prelude::*;
use sheet::{Line, Plane};

/// Ink, of 255, at the edge of a letter.
const EDGE: u8 = 110;
/// About a line so much is looked at, above and below the baseline, x-heights.
const LOOKED_AT: [f64; 2] = [2.4, 1.1];
/// Breadths of letters that are told by their shapes, x-heights.
const BROAD: [f64; 2] = [0.6, 1.5];
/// What ends so near the baseline, x-heights, stands on it; and what ends so near the x-line is a short letter.
const ON_THE_LINE: f64 = 0.16;
const SHORT: f64 = 0.16;
/// Long letters rise above this, and are no higher; and hang below this, and no lower: x-heights.
const RISES: [f64; 2] = [1.22, 2.2];
const HANGS: [f64; 2] = [0.25, 1.0];
/// Above this, x-heights, ink is looked for: a capital has it over this share of its breadth and more, a letter with an ascender over this and less.
const ABOVE: f64 = 1.2;
const CAPITAL: f64 = 0.62;
const ASCENDER: f64 = 0.5;
/// What is lower than ascenders by so much, x-heights, is no ligature of them.
const LOWER: f64 = 0.06;
/// Fewest letters that tell.
const FEWEST: usize = 4;
/// No height is surer than a part of a pixel.
const LEAST_SD: f64 = 0.15;

/// Heights of a size of type as it printed, pixels from the baseline; `None` of what too few letters show.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Extents {
    pub(super) capitals: Option<Length>,
    pub(super) ascenders: Option<Length>,
    pub(super) descenders: Option<Length>,
}

/// What kind of letter a shape is, and its height or depth, pixels.
enum Letter {
    Capital(f64),
    Ascender(f64),
    Descender(f64),
}

/// The extents of the letters of these lines.
pub(super) fn extents(ink: &Plane<u8>, lines: &[&Line]) -> Extents {
    if lines.is_empty() {
        return Extents::default();
    }
    let letters: Vec<Letter> = lines.par_iter().flat_map_iter(|l| of_line(ink, l)).collect();
    let all = |of: fn(&Letter) -> Option<f64>| letters.iter().filter_map(of).collect::<Vec<f64>>();
    let ascenders = length(&all(|l| if let Letter::Ascender(h) = l { Some(*h) } else { None }));
    let descenders = length(&all(|l| if let Letter::Descender(h) = l { Some(*h) } else { None }));
    let broad = all(|l| if let Letter::Capital(h) = l { Some(*h) } else { None });
    // Ligatures of long letters are broad above, too, and as high as these. Capitals of most faces are lower.
    let x_height = median(lines.iter().map(|l| l.x_height.0).collect());
    let most = ascenders.map_or(f64::INFINITY, |a| a.value - LOWER * x_height);
    let lower: Vec<f64> = broad.iter().copied().filter(|h| *h <= most).collect();
    let capitals = length(if lower.len() >= FEWEST { &lower } else { &broad });
    Extents { capitals, ascenders, descenders }
}

fn length(all: &[f64]) -> Option<Length> {
    if all.len() < FEWEST {
        return None;
    }
    let Length { value, sd } = Length::median(all);
    Some(Length { value, sd: sd.max(LEAST_SD) })
}

fn of_line(ink: &Plane<u8>, line: &Line) -> Vec<Letter> {
    let x_height = line.x_height.0;
    let feet = line.baseline.iter().map(|p| p.y);
    let (highest, lowest) = feet.fold((f64::INFINITY, 0.0f64), |(a, b), y| (a.min(y), b.max(y)));
    let within = |v: f64, most: usize| (v.max(0.0) as usize).min(most);
    let (left, right) = (within(line.bounds.x, ink.width()), within(line.bounds.right(), ink.width()));
    let top = within(highest - LOOKED_AT[0] * x_height, ink.height());
    let foot = within(lowest + LOOKED_AT[1] * x_height, ink.height());
    if right <= left || foot <= top {
        return Vec::new();
    }
    let part = ink.crop(left, top, right - left, foot - top);
    let shapes = blobs(&part, EDGE);
    let letter = |(k, blob): (usize, &Blob)| {
        let [l, t, r, b] = blob.bounds;
        let middle = left as f64 + (l + r) as f64 / 2.0;
        let baseline = on_baseline(&line.baseline, middle) - top as f64;
        let (rises, hangs) = ((baseline - t as f64) / x_height, (b as f64 - baseline) / x_height);
        let wide = (r - l) as f64 / x_height;
        if !(BROAD[0]..BROAD[1]).contains(&wide) || t == 0 || b == part.height() {
            return None;
        }
        if (rises - 1.0).abs() <= SHORT && (HANGS[0]..HANGS[1]).contains(&hangs) {
            return Some(Letter::Descender(hangs * x_height));
        }
        if hangs.abs() > ON_THE_LINE || !(RISES[0]..RISES[1]).contains(&rises) {
            return None;
        }
        let above = (baseline - ABOVE * x_height).max(0.0) as usize;
        let own = k as u32 + 1;
        let inked = (l..r).filter(|&x| (t..above).any(|y| shapes.of[y * part.width() + x] == own)).count();
        let share = inked as f64 / (r - l) as f64;
        if share >= CAPITAL {
            Some(Letter::Capital(rises * x_height))
        } else {
            (share <= ASCENDER).then_some(Letter::Ascender(rises * x_height))
        }
    };
    shapes.all.iter().enumerate().filter_map(letter).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use sheet::{Point, Px, Rect};

    #[test]
    fn letters_are_told_by_their_shapes() {
        let mut ink = Plane::filled(800, 120, 0u8);
        let mut fill = |[x, y, w, h]: [usize; 4]| (y..y + h).for_each(|y| ink.row_mut(y)[x..x + w].fill(220));
        for k in 0..6 {
            let x = 20 + 120 * k;
            // H: two stems and a bar with serifs, 31 high; h: a stem of 34 and a short one; p: a stem that hangs by 11; n: short.
            let capital =
                [[x, 49, 4, 31], [x + 16, 49, 4, 31], [x, 62, 20, 3], [x - 2, 49, 9, 2], [x + 13, 49, 9, 2]];
            let long = [[x + 32, 46, 4, 34], [x + 44, 60, 4, 20], [x + 32, 60, 16, 3]];
            let hanging = [[x + 60, 60, 4, 31], [x + 72, 60, 4, 20], [x + 60, 60, 16, 3]];
            let short = [[x + 88, 60, 4, 20], [x + 100, 60, 4, 20], [x + 88, 60, 16, 3]];
            capital.into_iter().chain(long).chain(hanging).chain(short).for_each(&mut fill);
        }
        let line = Line {
            baseline: vec![Point::new(10.0, 80.0), Point::new(790.0, 80.0)],
            x_height: Px(20.0),
            contrast: 0.6,
            bounds: Rect::new(10.0, 38.0, 780.0, 58.0),
            words: Vec::new(),
        };
        let found = extents(&ink, &[&line]);
        let heights = [found.capitals, found.ascenders, found.descenders].map(|l| l.map(|l| l.value));
        assert_eq!(heights, [Some(31.0), Some(34.0), Some(11.0)]);
        assert_eq!(extents(&Plane::filled(800, 120, 0u8), &[&line]), Extents::default());
    }
}
