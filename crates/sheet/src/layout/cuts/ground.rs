//! Pieces of ink that lie close together.

use super::super::runs::Pieces;
use super::margin::Margin;
use crate::{Plane, Rect};

/// What lies in each cell of a grid: ink pixels, and the extent of what they belong to.
pub(super) struct Ground {
    ink: Plane<u32>,
    /// Extents of ink in a cell: left, top, right, bottom.
    extent: Vec<[f64; 4]>,
}

/// Cells that hang together.
pub(super) struct Group {
    pub(super) bounds: Rect,
    pub(super) cells: usize,
    pub(super) ink: f64,
    /// Whether it is a frame with all that is in it.
    pub(super) is_framed: bool,
}

impl Group {
    /// Both as one, without a frame.
    pub(super) fn and(&self, o: &Self) -> Self {
        Self {
            bounds: self.bounds.united(o.bounds),
            cells: self.cells + o.cells,
            ink: self.ink + o.ink,
            is_framed: false,
        }
    }
}

impl Ground {
    /// The ink of some pieces on cells so many pixels wide, but for the black about the page.
    pub(super) fn of(pieces: &Pieces, is_of_one: &[bool], cell: f64, margin: &Margin) -> Self {
        let across = (pieces.width as f64 / cell).ceil().max(1.0) as usize;
        let down = (pieces.height as f64 / cell).ceil().max(1.0) as usize;
        let mut ink = Plane::filled(across, down, 0u32);
        let none = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
        let mut extent = vec![none; across * down];
        for run in pieces.runs.iter().filter(|r| is_of_one[r.part as usize]) {
            let row = (f64::from(run.y) / cell) as usize;
            for (from, to) in margin.left_of(run) {
                for column in (from / cell) as usize..=(((to - 1.0) / cell) as usize).min(across - 1) {
                    let (left, right) = (from.max(column as f64 * cell), to.min((column + 1) as f64 * cell));
                    ink.row_mut(row)[column] += (right - left).max(0.0).round() as u32;
                    let e = &mut extent[row * across + column];
                    *e = [
                        e[0].min(left),
                        e[1].min(f64::from(run.y)),
                        e[2].max(right),
                        e[3].max(f64::from(run.y) + 1.0),
                    ];
                }
            }
        }
        Self { ink, extent }
    }

    pub(super) fn groups(&self) -> Vec<Group> {
        let (across, down) = (self.ink.width(), self.ink.height());
        let mut seen = Plane::filled(across, down, false);
        let mut out = Vec::new();
        for start in (0..down).flat_map(|y| (0..across).map(move |x| (x, y))) {
            if seen.at(start.0, start.1) || self.ink.at(start.0, start.1) == 0 {
                continue;
            }
            seen.row_mut(start.1)[start.0] = true;
            let (mut open, mut cells, mut ink) = (vec![start], 0, 0.0);
            let mut e = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
            while let Some((x, y)) = open.pop() {
                cells += 1;
                ink += f64::from(self.ink.at(x, y));
                let c = self.extent[y * across + x];
                e = [e[0].min(c[0]), e[1].min(c[1]), e[2].max(c[2]), e[3].max(c[3])];
                for (i, j) in (y.saturating_sub(1)..=(y + 1).min(down - 1))
                    .flat_map(|j| (x.saturating_sub(1)..=(x + 1).min(across - 1)).map(move |i| (i, j)))
                {
                    if !seen.at(i, j) && self.ink.at(i, j) > 0 {
                        seen.row_mut(j)[i] = true;
                        open.push((i, j));
                    }
                }
            }
            out.push(Group {
                bounds: Rect::new(e[0], e[1], e[2] - e[0], e[3] - e[1]),
                cells,
                ink,
                is_framed: false,
            });
        }
        out
    }
}

impl Group {
    /// Share of the cells of its box that hold ink; they are so many pixels wide.
    pub(super) fn cells_inked(&self, cell: f64) -> f64 {
        let all = (self.bounds.w / cell).ceil() * (self.bounds.h / cell).ceil();
        self.cells as f64 / all.max(1.0)
    }
}
