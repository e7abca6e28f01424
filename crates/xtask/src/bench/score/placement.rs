//! Where a tool's placement puts a point: bilinear between the nodes of its grid.

use sheet::Point;

/// A grid of places of the first photograph with their places on the second.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct PlacementGrid {
    xs: Vec<f64>,
    ys: Vec<f64>,
    /// By rows, `None` where the tool gave no node.
    nodes: Vec<Option<Point>>,
}

/// Nodes nearer than this, in pixels, stand in one row or column.
const SAME_PX: f64 = 0.01;

/// The distinct values, rising.
fn distinct(mut values: Vec<f64>) -> Vec<f64> {
    values.sort_by(f64::total_cmp);
    values.dedup_by(|b, a| *b - *a < SAME_PX);
    values
}

/// The index of the value nearest to `v`; values rise and there is one.
fn nearest(values: &[f64], v: f64) -> usize {
    let after = values.partition_point(|&u| u < v - SAME_PX);
    after.min(values.len().saturating_sub(1))
}

impl PlacementGrid {
    /// From nodes ax, ay, bx, by in any order; `None` when they do not span a cell.
    pub(crate) fn new(grid: &[[f64; 4]]) -> Option<Self> {
        let finite: Vec<_> = grid.iter().filter(|n| n.iter().all(|v| v.is_finite())).collect();
        let xs = distinct(finite.iter().map(|n| n[0]).collect());
        let ys = distinct(finite.iter().map(|n| n[1]).collect());
        if xs.len() < 2 || ys.len() < 2 {
            return None;
        }
        let mut nodes = vec![None; xs.len() * ys.len()];
        for n in finite {
            nodes[nearest(&ys, n[1]) * xs.len() + nearest(&xs, n[0])] = Some(Point::new(n[2], n[3]));
        }
        Some(Self { xs, ys, nodes })
    }

    /// The place on the second photograph of a place on the first; `None` outside the grid or where
    /// a node of the cell is missing.
    pub(crate) fn to_b(&self, p: Point) -> Option<Point> {
        let cell = |values: &[f64], v: f64| {
            let i = values.partition_point(|&u| u <= v).checked_sub(1)?.min(values.len() - 2);
            let t = (v - values[i]) / (values[i + 1] - values[i]);
            (t <= 1.0).then_some((i, t))
        };
        let ((i, u), (j, v)) = (cell(&self.xs, p.x)?, cell(&self.ys, p.y)?);
        let at = |i: usize, j: usize| self.nodes[j * self.xs.len() + i];
        let top = at(i, j)? * (1.0 - u) + at(i + 1, j)? * u;
        let low = at(i, j + 1)? * (1.0 - u) + at(i + 1, j + 1)? * u;
        Some(top * (1.0 - v) + low * v)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A grid of an affine map, which bilinear interpolation gives back exactly.
    fn grid(skip: Option<(usize, usize)>) -> PlacementGrid {
        let mut nodes = Vec::new();
        for j in 0..4 {
            for i in 0..3 {
                if skip != Some((i, j)) {
                    let (x, y) = (i as f64 * 50.0, j as f64 * 40.0);
                    nodes.push([x, y, 2.0 * x + 0.5 * y + 3.0, y - 0.25 * x]);
                }
            }
        }
        nodes.reverse();
        PlacementGrid::new(&nodes).unwrap()
    }

    #[test]
    fn an_affine_map_is_given_back() {
        let q = grid(None).to_b(Point::new(61.0, 95.0)).unwrap();
        assert!(q.distance(Point::new(122.0 + 47.5 + 3.0, 95.0 - 15.25)) < 1e-9);
        assert!(grid(None).to_b(Point::new(100.0, 120.0)).is_some(), "the last corner is on the grid");
    }

    #[test]
    fn outside_and_in_holes_there_is_no_answer() {
        assert_eq!(grid(None).to_b(Point::new(100.1, 10.0)), None);
        assert_eq!(grid(None).to_b(Point::new(-0.1, 10.0)), None);
        assert_eq!(grid(Some((1, 1))).to_b(Point::new(10.0, 10.0)), None);
        assert!(grid(Some((1, 1))).to_b(Point::new(10.0, 100.0)).is_some());
    }

    #[test]
    fn a_single_row_is_no_grid() {
        assert_eq!(PlacementGrid::new(&[[0.0, 0.0, 0.0, 0.0], [1.0, 0.0, 1.0, 0.0]]), None);
    }
}
