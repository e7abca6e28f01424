//! All lines of a side drawn one after the other, as one long ribbon.
//!
//! Every line is drawn to one x-height, its baseline straight; spaces are drawn alike, however the line was
//! justified. So a text looks the same wherever its lines end, and nothing hangs on where a word is
//! thought to begin.

use super::holes::{beside, is_hole};
use rayon::prelude::*;
use register::Pyramid;
use sheet::{Layout, Line, Point};

/// Columns to the x-height.
const RATE: f64 = 5.0;
/// Rows of a column.
pub(super) const ROWS: usize = 8;
/// Height drawn above and below the baseline, in x-heights: old-style ascenders stand about 1.6, descenders
/// hang about 0.6 below (common practice, no source). As much above the x-line as below the baseline, so that
/// a side read upside down gives the same ribbon turned round.
const ABOVE: f64 = 1.7;
const BELOW: f64 = 0.7;
/// The rows that tell a letter from a space; above and below, neighbouring lines may reach in.
const BODY: std::ops::Range<usize> = 1..6;
/// x-height, in samples, of the level drawn from: at least this.
const DRAWN_X_HEIGHT: f64 = 4.1;
/// Ink is drawn no darker than this (of 255): a weak impression then resembles a strong one.
const DARKEST: f32 = 40.0;
/// Share of the ink of a well-filled column (four of five have less) below which a column is a space.
const BLANK: f32 = 0.15;
/// Columns to which every space is drawn: a thin space.
const SPACE: usize = 2;
/// A line whose x-height is within this share of the side's is drawn to the side's: bodies that differ,
/// differ by more, and one line is measured worse.
pub(super) const SAME_BODY: f64 = 0.15;
/// One word narrower than this, in x-heights, alone in its line is an ornament, a figure or a remnant.
const NARROWEST_LINE: f64 = 4.0;
/// A line at least this many columns long that lies on itself, moved along, better than this, is a row of
/// one ornament: of sound lines of text at most one in a hundred reaches 0.5.
const ROW_COLUMNS: usize = 40;
const MOST_REPEATED: f32 = 0.5;
/// How far it is moved along, in columns: ornaments of half a line's body to two.
const REPEATS: std::ops::RangeInclusive<usize> = 6..=30;

/// One column of the ribbon, from above downwards.
pub(super) type Column = [f32; ROWS];

/// The text of a side as one line, and how many words the layout has parted it into.
#[derive(Debug, Clone, Default)]
pub(super) struct Ribbon {
    /// Ink, 0 to [`DARKEST`].
    pub(super) columns: Vec<Column>,
    /// Where print may not be seen: before which column, and how many columns of it.
    pub(super) unseen: Vec<(usize, usize)>,
    /// Columns at which lines begin; what comes after a hole in a line begins none.
    pub(super) begins: Vec<usize>,
    /// Words in the lines drawn.
    pub(super) words: usize,
}

impl Ribbon {
    /// Draws the lines of a side in their order; ornaments are left out.
    pub(super) fn of(ink: &Pyramid, layout: &Layout) -> Self {
        let usual = usual_x_height(layout);
        let beside = beside(layout, ink.full().width() as f64);
        let strips: Vec<(usize, Vec<Column>, [f64; 2])> = (&layout.lines, beside)
            .into_par_iter()
            .map(|(line, beside)| (line.words.len(), strip(ink, line, usual), beside))
            .filter(|(words, columns, _)| is_text(*words, columns))
            .collect();
        let mut filled: Vec<f32> = strips.iter().flat_map(|(_, s, _)| s.iter().map(body)).collect();
        if filled.is_empty() {
            return Self::default();
        }
        let place = filled.len() * 4 / 5;
        let blank = BLANK * *filled.select_nth_unstable_by(place, f32::total_cmp).1;
        let mut out = Self { words: strips.iter().map(|s| s.0).sum(), ..Self::default() };
        for (_, strip, [before, after]) in &strips {
            if *before == 0.0 {
                out.begins.push(out.columns.len());
            }
            out.unseen(before * RATE);
            let mut spaces = 0;
            for column in strip {
                if body(column) < blank {
                    spaces += 1;
                } else {
                    if is_hole(spaces as f64 / RATE) {
                        out.unseen((spaces - SPACE) as f64);
                    }
                    spaces = 0;
                }
                if spaces <= SPACE {
                    out.columns.push(*column);
                }
            }
            out.unseen(after * RATE);
            out.columns.extend(std::iter::repeat_n([0.0; ROWS], SPACE.saturating_sub(spaces)));
        }
        out
    }

    /// So many columns may not be seen before the next.
    fn unseen(&mut self, columns: f64) {
        if columns >= 1.0 {
            self.unseen.push((self.columns.len(), columns.round() as usize));
        }
    }

    /// The ribbon drawn `ratio` times as wide.
    pub(super) fn drawn_out(&self, ratio: f64) -> Self {
        let wide = |columns: usize| (columns as f64 * ratio) as usize;
        let Some(last) = self.columns.len().checked_sub(1) else { return Self::default() };
        let at = |k: usize| &self.columns[k.min(last)];
        let columns = (0..wide(self.columns.len()))
            .map(|i| {
                let x = ((i as f64 + 0.5) / ratio - 0.5).max(0.0);
                let (k, part) = (x as usize, x.fract() as f32);
                std::array::from_fn(|r| at(k)[r] + part * (at(k + 1)[r] - at(k)[r]))
            })
            .collect();
        let unseen = self.unseen.iter().map(|&(before, n)| (wide(before), wide(n))).collect();
        let begins = self.begins.iter().map(|&column| wide(column)).collect();
        Self { columns, unseen, begins, words: self.words }
    }
}

/// The x-height of the middle word of the side, in pixels; lines of one or two words are left out, since
/// most of them are ornaments.
fn usual_x_height(layout: &Layout) -> f64 {
    let text = layout.lines.iter().filter(|l| l.words.len() > 2);
    let mut heights: Vec<f64> = text.flat_map(|l| l.words.iter().map(|_| l.x_height.0)).collect();
    heights.sort_by(f64::total_cmp);
    let main = || layout.x_height.map_or(1.0, |x| x.0);
    heights.get(heights.len() / 2).copied().unwrap_or_else(main)
}

/// Ink of a column where letters without ascenders stand.
fn body(column: &Column) -> f32 {
    column[BODY].iter().sum()
}

/// One line, from its first word to its last.
fn strip(ink: &Pyramid, line: &Line, usual: f64) -> Vec<Column> {
    let (Some(first), Some(last)) = (line.words.first(), line.words.last()) else { return Vec::new() };
    let own = line.x_height.0;
    let x_height = if (own / usual - 1.0).abs() < SAME_BODY { usual } else { own };
    let level = ((x_height / DRAWN_X_HEIGHT).max(1.0).log2().floor() as usize).min(ink.depth() - 1);
    let (plane, unit) = (ink.level(level), 2f64.powi(level as i32));
    let (left, step) = (first.bounds.x, x_height / RATE);
    let row = (ABOVE + BELOW) * x_height / ROWS as f64;
    let n = ((last.bounds.right() - left) / step).ceil().max(1.0) as usize;
    (0..n)
        .map(|c| {
            let x = left + (c as f64 + 0.5) * step;
            let top = on_baseline(&line.baseline, x) - ABOVE * x_height;
            std::array::from_fn(|r| {
                plane.sample(x / unit, (top + (r as f64 + 0.5) * row) / unit).min(DARKEST)
            })
        })
        .collect()
}

/// Whether a line is text rather than an ornament or a row of them.
fn is_text(words: usize, columns: &[Column]) -> bool {
    let is_crumb = words <= 1 && (columns.len() as f64) < NARROWEST_LINE * RATE;
    let is_row = columns.len() >= ROW_COLUMNS && repeated(columns) > MOST_REPEATED;
    !is_crumb && !is_row
}

/// How well a line lies on itself when it is moved along, at its best: -1 to 1.
fn repeated(columns: &[Column]) -> f32 {
    let n = columns.len();
    let mean: Column = std::array::from_fn(|r| columns.iter().map(|c| c[r]).sum::<f32>() / n as f32);
    let level = |c: &Column| -> Column { std::array::from_fn(|r| c[r] - mean[r]) };
    let columns: Vec<Column> = columns.iter().map(level).collect();
    let product = |p: &[Column], q: &[Column]| {
        p.iter().zip(q).flat_map(|(p, q)| p.iter().zip(q)).map(|(x, y)| x * y).sum()
    };
    let own: f32 = product(&columns, &columns);
    let moved = |by: usize| {
        let both: f32 = product(&columns[by..], &columns);
        both / own.max(1.0) * n as f32 / (n - by) as f32
    };
    REPEATS.take_while(|by| by * 3 <= n * 2).map(moved).fold(-1.0, f32::max)
}

/// Height of a baseline at `x`, in pixels; the ends are carried on.
pub(crate) fn on_baseline(baseline: &[Point], x: f64) -> f64 {
    let piece = baseline.windows(2).find(|p| x <= p[1].x).or_else(|| baseline.windows(2).last());
    match piece {
        Some([p, q]) if q.x > p.x => p.y + (q.y - p.y) / (q.x - p.x) * (x - p.x),
        _ => baseline.first().map_or(0.0, |p| p.y),
    }
}
