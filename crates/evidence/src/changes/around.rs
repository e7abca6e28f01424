//! How the ink fares about a place: the page's differing ink over a grid of small cells.
//!
//! A patch that the ink balls missed, a fold, a stain or the frisket's edge takes ink from whatever
//! stands there, over letters and lines alike; a sort that was changed leaves its neighbours alone.

use sheet::{Point, Rect};

/// Cells to the x-height.
const CELLS_TO_X_HEIGHT: f64 = 1.7;
/// About a place: from this far outside its box, in x-heights, to this far: its neighbours in the line,
/// and the lines above and below.
const FROM: f64 = 0.3;
const TO: f64 = 1.5;
/// How far straight above and below a place it is looked whether the same goes on, in x-heights: over the
/// next line.
const STRIP: f64 = 3.5;

/// Ink of one cell: in the first, in the second, in the first only, in the second only. Any unit of mass.
pub(super) type Cell = [f32; 4];

/// The page's ink by cells.
#[derive(Debug, Clone)]
pub(super) struct InkGrid {
    cell: f64,
    columns: usize,
    rows: usize,
    cells: Vec<Cell>,
    all: [f64; 4],
}

/// How the ink fares about a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Surroundings {
    /// Share of the first's ink about the place that is missing in the second, less the page's.
    pub(crate) lost: f64,
    /// Share of the second's ink about the place that is missing in the first, less the page's.
    pub(crate) gained: f64,
    /// Ink about the place, in square x-heights: how much there is to tell by.
    pub(crate) ink: f64,
    /// Share of ink that stands in one only straight above and below the place, less the page's: a fold
    /// or a tear goes on.
    pub(crate) up: f64,
}

impl InkGrid {
    /// An empty grid over a photograph of `width` by `height` pixels; `x_height` in pixels.
    pub(super) fn new(width: f64, height: f64, x_height: f64) -> Self {
        let cell = (x_height / CELLS_TO_X_HEIGHT).max(1.0);
        let (columns, rows) = ((width / cell) as usize + 1, (height / cell) as usize + 1);
        Self { cell, columns, rows, cells: vec![[0.0; 4]; columns * rows], all: [0.0; 4] }
    }

    /// The cell of a pixel; `None` outside the photograph.
    pub(super) fn index(&self, p: Point) -> Option<usize> {
        if p.x < 0.0 || p.y < 0.0 {
            return None;
        }
        let (c, r) = ((p.x / self.cell) as usize, (p.y / self.cell) as usize);
        (c < self.columns && r < self.rows).then(|| r * self.columns + c)
    }

    /// Adds what a word saw. Words may overlap a little: shares do not mind.
    pub(super) fn add(&mut self, seen: &[(usize, Cell)]) {
        for &(i, c) in seen {
            for ((cell, all), more) in self.cells[i].iter_mut().zip(&mut self.all).zip(c) {
                *cell += more;
                *all += f64::from(more);
            }
        }
    }

    /// How the ink fares about `place`, itself left out; `x_height` of its line in pixels, `unit` the area
    /// of a square x-height in the unit of mass.
    pub(super) fn about(&self, place: Rect, x_height: f64, unit: f64) -> Surroundings {
        let inner = place.grown(FROM * x_height);
        let sum = self.sum(place.grown(TO * x_height), inner);
        let far = STRIP * x_height;
        let strip = Rect::new(inner.x, inner.y - far, inner.w, inner.h + 2.0 * far);
        let up = self.sum(strip, inner);
        // A little is added, so that a place without neighbours says nothing rather than much.
        let little = 0.1 * unit;
        let share = |part: f64, whole: f64| part / (whole + little);
        let in_one = |[a, b, lost, gained]: [f64; 4]| share(lost + gained, a.max(b));
        let [a, b, lost, gained] = sum;
        let [all_a, all_b, all_lost, all_gained] = self.all;
        Surroundings {
            lost: share(lost, a) - share(all_lost, all_a),
            gained: share(gained, b) - share(all_gained, all_b),
            ink: a.max(b) / unit,
            up: in_one(up) - in_one(self.all),
        }
    }

    /// Ink of the cells in `outer` but not in `inner`.
    fn sum(&self, outer: Rect, inner: Rect) -> [f64; 4] {
        let index = |v: f64| (v / self.cell).max(0.0) as usize;
        let mut sum = [0.0f64; 4];
        for r in index(outer.y)..=index(outer.bottom()).min(self.rows - 1) {
            for c in index(outer.x)..=index(outer.right()).min(self.columns - 1) {
                let middle = Point::new((c as f64 + 0.5) * self.cell, (r as f64 + 0.5) * self.cell);
                if outer.holds(middle) && !inner.holds(middle) {
                    let cell = &self.cells[r * self.columns + c];
                    (0..4).for_each(|k| sum[k] += f64::from(cell[k]));
                }
            }
        }
        sum
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_is_told_by_its_neighbours_and_not_by_itself() {
        let mut grid = InkGrid::new(400.0, 100.0, 10.0);
        for x in 0..80 {
            let at = Point::new(f64::from(x) * 5.0 + 1.0, 50.0);
            let i = grid.index(at).unwrap();
            // Ink is lost at the place itself and, further right, everywhere.
            let lost = if (190.0..=205.0).contains(&at.x) || at.x > 300.0 { 10.0 } else { 0.0 };
            grid.add(&[(i, [10.0, 10.0 - lost, lost, 0.0])]);
        }
        let alone = grid.about(Rect::new(191.0, 48.0, 10.0, 4.0), 10.0, 100.0);
        let among = grid.about(Rect::new(350.0, 48.0, 10.0, 4.0), 10.0, 100.0);
        assert!(alone.lost < 0.0 && among.lost > 0.3, "{alone:?} {among:?}");
        assert!(grid.index(Point::new(-1.0, 3.0)).is_none());
    }
}
