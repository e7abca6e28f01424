//! The parts of a cut that lie on each other where the whole does not: a composite shares some of its blocks with another.

use super::windows::{Window, Windows};
use sheet::Rect;
use std::collections::BTreeMap;

/// Correlation, within reach, that windows of a shared piece have among their neighbours (mean of five by five).
const LIKE: f64 = 0.66;
/// Neighbours to either side.
const NEAR: i64 = 2;
/// A piece has so many windows, and so great a share of all.
const FEWEST: usize = 60;
const LEAST_SHARE: f64 = 0.06;

/// A piece: the windows that lie in it, by their numbers.
pub(super) struct Piece {
    pub(super) place: Rect,
    pub(super) windows: Vec<usize>,
}

/// Pieces in which the two agree, the largest first.
pub(super) fn pieces(seen: &Windows) -> Vec<Piece> {
    let grid = Grid::of(seen, Window::shows_strokes);
    let is_like = |at: (i64, i64)| {
        let near: Vec<f64> = around(at, NEAR)
            .filter_map(|c| grid.0.get(&c))
            .map(|&i| f64::from(seen.all[i].score[1]))
            .collect();
        near.len() > 4 && near.iter().sum::<f64>() / near.len() as f64 >= LIKE
    };
    let strokes = grid.0.len();
    let like = Grid(grid.0.iter().filter(|(at, _)| is_like(**at)).map(|(at, i)| (*at, *i)).collect());
    let mut out: Vec<Piece> = like
        .groups()
        .into_iter()
        .filter(|within| within.len() >= FEWEST && within.len() as f64 >= LEAST_SHARE * strokes as f64)
        .filter_map(|within| Some(Piece { place: seen.around(&within)?, windows: within }))
        .collect();
    out.sort_by_key(|p: &Piece| std::cmp::Reverse(p.windows.len()));
    out
}

/// Windows of a kind that lie beside each other, the largest group first.
pub(super) fn together(seen: &Windows, wanted: impl Fn(&Window) -> bool) -> Vec<Vec<usize>> {
    let mut groups = Grid::of(seen, wanted).groups();
    groups.sort_by_key(|g| std::cmp::Reverse(g.len()));
    groups
}

/// Windows by their place in rows and columns.
struct Grid(BTreeMap<(i64, i64), usize>);

impl Grid {
    fn of(seen: &Windows, wanted: impl Fn(&Window) -> bool) -> Self {
        let Some(first) = seen.all.first() else { return Self(BTreeMap::new()) };
        let cell = |w: &Window| {
            let at = w.at - first.at;
            ((at.x / seen.step).round() as i64, (at.y / seen.step).round() as i64)
        };
        Self(seen.all.iter().enumerate().filter(|(_, w)| wanted(w)).map(|(i, w)| (cell(w), i)).collect())
    }

    /// Those that hang together, each group in the order of the windows.
    fn groups(mut self) -> Vec<Vec<usize>> {
        let mut out = Vec::new();
        while let Some((start, i)) = self.0.pop_first() {
            let (mut within, mut edge) = (vec![i], vec![start]);
            while let Some(at) = edge.pop() {
                for next in around(at, 1) {
                    if let Some(i) = self.0.remove(&next) {
                        within.push(i);
                        edge.push(next);
                    }
                }
            }
            within.sort_unstable();
            out.push(within);
        }
        out
    }
}

fn around((x, y): (i64, i64), by: i64) -> impl Iterator<Item = (i64, i64)> {
    (y - by..=y + by).flat_map(move |j| (x - by..=x + by).map(move |i| (i, j)))
}
