//! How often rows and columns pass from paper to ink: what tells a cut from a letter, a stain, and a black edge.

use super::super::DARK;
use super::Side;
use crate::Rect;

/// A cut's middle row and middle column together pass to ink so often. Of 42 initials of real photographs (development) all
/// have 16 and more, at 200 samples a side; of 23 large letters without a ground all have 14 or fewer, most 3 to 7, stains
/// and edges 2 to 4. At the level that is worked on fine hatching closes up, and fewer are left.
const LETTER: f64 = 9.0;
/// The same of what is too large for a letter of type, or has a frame.
const STAIN: f64 = 6.0;
const FRAMED: f64 = 4.0;
/// A letter is no larger, in x-heights.
const LARGEST_LETTER: f64 = 12.0;
/// A band is so much wider than high.
const BAND: f64 = 2.5;
/// A band that is so like itself, moved along, is of type ornaments. Of 15 bands cut in wood (real, development) none is more
/// than 0.17, of 12 across a page of type ornaments none less than 0.32.
const PERIODIC: f64 = 0.3;

/// Whether what fills a box looks like a cut, not like a letter, a stain or a band of type ornaments.
pub(super) fn is_cut(side: &Side<'_>, r: Rect) -> bool {
    let is_framed = is_framed(side, r);
    let least = match r.w.max(r.h) <= LARGEST_LETTER * side.x_height {
        _ if is_framed => FRAMED,
        true => LETTER,
        false => STAIN,
    };
    let [rows, columns] = passes(side, r);
    rows + columns >= least && (is_framed || r.w < BAND * r.h || likeness(side, r) < PERIODIC)
}

/// Share of each edge of a box that is inked, of a cut with a frame, within this share of its shorter side.
const FRAME: (f64, f64) = (0.7, 0.04);

/// Whether ink lies along all four edges of a box.
pub(super) fn is_framed(side: &Side<'_>, r: Rect) -> bool {
    let near = (FRAME.1 * r.w.min(r.h)).max(2.0);
    let level = side.level;
    let inked = |x: f64, y: f64| level.at_clamped(x as isize, y as isize) >= DARK;
    let steps = near.ceil() as usize;
    let share = |along: f64, is_inked: &dyn Fn(f64, f64) -> bool| {
        let n = along.max(1.0) as usize;
        let on = (0..n).filter(|&i| (0..=steps).any(|k| is_inked(i as f64, k as f64))).count();
        on as f64 / n as f64
    };
    [
        share(r.w, &|i, k| inked(r.x + i, r.y + k)),
        share(r.w, &|i, k| inked(r.x + i, r.bottom() - 1.0 - k)),
        share(r.h, &|i, k| inked(r.x + k, r.y + i)),
        share(r.h, &|i, k| inked(r.right() - 1.0 - k, r.y + i)),
    ]
    .iter()
    .all(|s| *s >= FRAME.0)
}

/// Whether what fills a box with straight sides is one blot.
pub(super) fn is_stain(side: &Side<'_>, r: Rect) -> bool {
    let [rows, columns] = passes(side, r);
    rows + columns < FRAMED
}

/// How often the middle one of the rows, and of the columns, passes from paper to ink.
pub(super) fn passes(side: &Side<'_>, r: Rect) -> [f64; 2] {
    let level = side.level;
    let [l, t] = [r.x.max(0.0) as usize, r.y.max(0.0) as usize];
    let right = (r.right().ceil() as usize).min(level.width()).max(l);
    let bottom = (r.bottom().ceil() as usize).min(level.height()).max(t);
    let mut rows = Vec::with_capacity(bottom - t);
    let mut columns = vec![0u32; right - l];
    let mut above = vec![false; right - l];
    for y in t..bottom {
        let (mut count, mut before) = (0u32, false);
        for (x, &v) in level.row(y)[l..right].iter().enumerate() {
            let is_ink = v >= DARK;
            count += u32::from(is_ink && !before);
            columns[x] += u32::from(is_ink && !above[x]);
            before = is_ink;
            above[x] = is_ink;
        }
        rows.push(count);
    }
    [rows, columns].map(|mut counts| {
        counts.sort_unstable();
        counts.get(counts.len() / 2).map_or(0.0, |&c| f64::from(c))
    })
}

/// Samples of a band's height, to compare it with itself.
const HIGH: usize = 24;

/// How like a band is to itself, moved along by a third of its height or more, and up or down by a sample: the largest
/// correlation, 0 for none. What runs along the whole band (rules, its own edges) does not count.
pub(super) fn likeness(side: &Side<'_>, r: Rect) -> f64 {
    let step = r.h / HIGH as f64;
    let wide = (r.w / step) as usize;
    let mut band: Vec<f64> = Vec::with_capacity(HIGH * wide);
    for y in 0..HIGH {
        let row: Vec<f64> =
            (0..wide).map(|x| mean(side, r.x + x as f64 * step, r.y + y as f64 * step, step)).collect();
        let middle = row.iter().sum::<f64>() / wide.max(1) as f64;
        band.extend(row.iter().map(|v| v - middle));
    }
    let mut best = 0.0f64;
    for by in HIGH / 3..wide * 3 / 5 {
        for down in 0..3 {
            let (mut both, mut here, mut there) = (0.0, 0.0, 0.0);
            for y in 1..HIGH - 1 {
                let p = &band[y * wide..(y + 1) * wide - by];
                let q = &band[(y + down - 1) * wide + by..(y + down) * wide];
                for (p, q) in p.iter().zip(q) {
                    both += p * q;
                    here += p * p;
                    there += q * q;
                }
            }
            best = best.max(both / (here * there).sqrt().max(1e-9));
        }
    }
    best
}

/// The mean darkness of a small square.
fn mean(side: &Side<'_>, x: f64, y: f64, size: f64) -> f64 {
    let (l, t) = (x as isize, y as isize);
    let (e, b) = (((x + size) as isize).max(l + 1), ((y + size) as isize).max(t + 1));
    let sum: f64 = (t..b)
        .flat_map(|y| (l..e).map(move |x| (x, y)))
        .map(|(x, y)| f64::from(side.level.at_clamped(x, y)))
        .sum();
    sum / ((e - l) * (b - t)) as f64
}
