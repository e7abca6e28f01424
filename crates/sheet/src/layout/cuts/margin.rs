//! The black about a page that was photographed in black and white: print that touches it is no part of it.

use super::super::runs::{Pieces, Run};
use crate::Plane;

/// A cell is black when this share of it is ink.
const FULL: f64 = 0.85;
/// Black cells in a row, as a share of the photograph's height or width: no stroke of a cut is so long and so thick.
const IN_A_ROW: f64 = 0.1;
/// What they make together is this long, as the same share.
const LONG: f64 = 0.4;

/// Long bars of black.
pub(super) struct Margin {
    cell: f64,
    /// `None` where there is none.
    cells: Option<Plane<bool>>,
}

impl Margin {
    /// No black.
    pub(super) fn none() -> Self {
        Self { cell: 1.0, cells: None }
    }

    /// The black about the page of some pieces, told on cells so many pixels wide: half an x-height is finer than any
    /// black, and thicker than the frames of cuts.
    pub(super) fn of(pieces: &Pieces, cell: f64) -> Self {
        let cell = cell.max(3.0);
        let (width, height) = (pieces.width as f64, pieces.height as f64);
        let (across, down) =
            ((width / cell).ceil().max(1.0) as usize, (height / cell).ceil().max(1.0) as usize);
        let mut ink = Plane::filled(across, down, 0.0f32);
        // Only pieces as long as the black can be of it.
        let is_long: Vec<bool> =
            pieces.parts.iter().map(|c| c.height() >= LONG * height || c.width() >= LONG * width).collect();
        if !is_long.iter().any(|l| *l) {
            return Self { cell, cells: None };
        }
        for run in pieces.runs.iter().filter(|r| is_long[r.part as usize]) {
            let row = ink.row_mut((f64::from(run.y) / cell) as usize);
            let (from, to) = (f64::from(run.from), f64::from(run.to));
            let (first, last) = ((from / cell) as usize, (((to - 1.0) / cell) as usize).min(across - 1));
            for (column, inked) in row.iter_mut().enumerate().take(last + 1).skip(first) {
                let shared = to.min((column + 1) as f64 * cell) - from.max(column as f64 * cell);
                *inked += shared.max(0.0) as f32;
            }
        }
        let is_full = |x: usize, y: usize| {
            let wide = ((x + 1) as f64 * cell).min(width) - x as f64 * cell;
            let high = ((y + 1) as f64 * cell).min(height) - y as f64 * cell;
            f64::from(ink.at(x, y)) >= FULL * (wide * high).max(1.0)
        };
        let mut bars = Plane::filled(across, down, false);
        let least = |n: usize| ((IN_A_ROW * n as f64) as usize).max(6);
        for x in 0..across {
            for (from, to) in stretches(down, |y| is_full(x, y), least(down)) {
                (from..to).for_each(|y| bars.row_mut(y)[x] = true);
            }
        }
        for y in 0..down {
            for (from, to) in stretches(across, |x| is_full(x, y), least(across)) {
                bars.row_mut(y)[from..to].fill(true);
            }
        }
        let cells = long_ones(&bars);
        Self { cell, cells }
    }

    /// What is left of a run of ink: columns from..to.
    pub(super) fn left_of(&self, run: &Run) -> Vec<(f64, f64)> {
        let (from, to) = (f64::from(run.from), f64::from(run.to));
        let Some(cells) = &self.cells else { return vec![(from, to)] };
        let row = cells.row(((f64::from(run.y) / self.cell) as usize).min(cells.height() - 1));
        let mut out: Vec<(f64, f64)> = Vec::new();
        for (column, black) in row.iter().enumerate().skip((from / self.cell) as usize) {
            let (left, right) = (column as f64 * self.cell, (column + 1) as f64 * self.cell);
            if left >= to {
                break;
            }
            if !black {
                let end = to.min(right);
                match out.last_mut() {
                    Some(last) if last.1 >= left => last.1 = end,
                    _ => out.push((from.max(left), end)),
                }
            }
        }
        out
    }
}

/// Stretches from..to of places that are so, at least so long.
fn stretches(n: usize, is_so: impl Fn(usize) -> bool, least: usize) -> Vec<(usize, usize)> {
    let (mut out, mut from) = (Vec::new(), None);
    for i in 0..=n {
        match (i < n && is_so(i), from) {
            (true, None) => from = Some(i),
            (false, Some(start)) => {
                if i - start >= least {
                    out.push((start, i));
                }
                from = None;
            }
            _ => {}
        }
    }
    out
}

/// The cells that hang together over much of the photograph, and those next to them.
fn long_ones(bars: &Plane<bool>) -> Option<Plane<bool>> {
    let (across, down) = (bars.width(), bars.height());
    let around = |x: usize, y: usize| {
        (y.saturating_sub(1)..=(y + 1).min(down - 1))
            .flat_map(move |j| (x.saturating_sub(1)..=(x + 1).min(across - 1)).map(move |i| (i, j)))
    };
    let mut seen = Plane::filled(across, down, false);
    let mut black: Option<Plane<bool>> = None;
    for start in (0..down).flat_map(|y| (0..across).map(move |x| (x, y))) {
        if !bars.at(start.0, start.1) || seen.at(start.0, start.1) {
            continue;
        }
        seen.row_mut(start.1)[start.0] = true;
        let (mut open, mut group) = (vec![start], Vec::new());
        while let Some((x, y)) = open.pop() {
            group.push((x, y));
            for (i, j) in around(x, y).filter(|&(i, j)| bars.at(i, j)) {
                if !seen.at(i, j) {
                    seen.row_mut(j)[i] = true;
                    open.push((i, j));
                }
            }
        }
        let extent = |of: fn(&(usize, usize)) -> usize| {
            let (least, most) = (group.iter().map(of).min(), group.iter().map(of).max());
            least.zip(most).map_or(0, |(a, b)| b + 1 - a) as f64
        };
        if extent(|c| c.0) >= LONG * across as f64 || extent(|c| c.1) >= LONG * down as f64 {
            let black = black.get_or_insert_with(|| Plane::filled(across, down, false));
            for (i, j) in group.iter().flat_map(|&(x, y)| around(x, y)) {
                black.row_mut(j)[i] = true;
            }
        }
    }
    black
}

#[cfg(test)]
mod tests {
    use super::super::super::runs;
    use super::*;

    #[test]
    fn a_black_bar_is_margin_and_the_print_that_touches_it_and_a_frame_are_not() {
        let mut ink = Plane::filled(400, 300, 0u8);
        for y in 0..300 {
            ink.row_mut(y)[20..50].fill(255);
            // A rule.
            ink.row_mut(y)[390..393].fill(255);
        }
        for y in 40..60 {
            (50..300).filter(|x| x % 8 < 4).for_each(|x| ink.row_mut(y)[x] = 255);
        }
        let pieces = runs::pieces(&ink, 90);
        let margin = Margin::of(&pieces, 5.0);
        for run in &pieces.runs {
            let left = margin.left_of(run);
            match run.from {
                20 => assert!(left.iter().all(|l| l.1 <= 60.0), "{left:?}"),
                from if from > 60 => assert_eq!(left, [(f64::from(from), f64::from(run.to))]),
                _ => {}
            }
            if run.from == 20 && !(35..65).contains(&run.y) {
                assert!(left.is_empty(), "{left:?}");
            }
        }
    }
}
