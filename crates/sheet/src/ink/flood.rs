//! Connected areas of a coarse grid.

use crate::Plane;

/// One connected area (neighbours share an edge).
pub(super) struct Area {
    /// Places of its cells in the grid, row by row order not kept.
    pub(super) cells: Vec<usize>,
    /// How many of them lie on the grid's border.
    pub(super) at_border: usize,
}

/// The connected areas of the cells for which `belongs` holds, in the order of their first cell.
pub(super) fn areas(grid: &Plane<u8>, belongs: impl Fn(usize) -> bool) -> Vec<Area> {
    let (w, h) = (grid.width(), grid.height());
    let mut seen = vec![false; w * h];
    let mut found = Vec::new();
    for start in 0..w * h {
        if seen[start] || !belongs(start) {
            continue;
        }
        seen[start] = true;
        let mut cells = vec![start];
        let (mut next, mut at_border) = (0, 0);
        while next < cells.len() {
            let i = cells[next];
            next += 1;
            let (x, y) = (i % w, i / w);
            at_border += usize::from(x == 0 || y == 0 || x + 1 == w || y + 1 == h);
            let mut visit = |j: usize| {
                if !seen[j] && belongs(j) {
                    seen[j] = true;
                    cells.push(j);
                }
            };
            if x > 0 {
                visit(i - 1);
            }
            if x + 1 < w {
                visit(i + 1);
            }
            if y > 0 {
                visit(i - w);
            }
            if y + 1 < h {
                visit(i + w);
            }
        }
        found.push(Area { cells, at_border });
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn areas_are_separate_and_know_their_border() {
        let p = Plane::from_vec(4, 3, vec![1, 0, 0, 0, 1, 0, 1, 0, 0, 0, 0, 0]).unwrap();
        let found = areas(&p, |i| p.data()[i] == 1);
        let sizes: Vec<_> = found.iter().map(|a| (a.cells.len(), a.at_border)).collect();
        assert_eq!(sizes, [(2, 2), (1, 0)]);
    }
}
