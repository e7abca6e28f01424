//! Where a tool's placement puts a point: smooth between the nodes of its grid, but for creases.

use evidence::FoundCrease;
use nalgebra::{SMatrix, SVector};
use sheet::Point;

/// A grid of places of the first photograph with their places on the second.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct PlacementGrid {
    xs: Vec<f64>,
    ys: Vec<f64>,
    /// By rows, `None` where the tool gave no node.
    nodes: Vec<Option<Point>>,
    /// Lines across which it jumps: two places on each.
    creases: Vec<[Point; 2]>,
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
    pub(crate) fn new(grid: &[[f64; 4]], creases: &[FoundCrease]) -> Option<Self> {
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
        Some(Self { xs, ys, nodes, creases: creases.iter().map(|c| [c.from_px, c.to_px]).collect() })
    }

    /// The place on the second photograph of a place on the first; `None` outside the grid or where
    /// a node of the cell is missing.
    ///
    /// The nodes about a place that lie on its side of every crease are asked: a surface is fitted to their
    /// places, nearer ones counting more.
    pub(crate) fn to_b(&self, p: Point) -> Option<Point> {
        let cell = |values: &[f64], v: f64| {
            let i = values.partition_point(|&u| u <= v).checked_sub(1)?.min(values.len() - 2);
            let t = (v - values[i]) / (values[i + 1] - values[i]);
            (t <= 1.0).then_some((i, t))
        };
        let ((i, u), (j, v)) = (cell(&self.xs, p.x)?, cell(&self.ys, p.y)?);
        let at = |i: usize, j: usize| self.nodes[j * self.xs.len() + i];
        let corners = [at(i, j)?, at(i + 1, j)?, at(i, j + 1)?, at(i + 1, j + 1)?];
        let sides = self.sides(p);
        let mut near = Vec::new();
        for n in j.saturating_sub(REACH)..(j + REACH + 2).min(self.ys.len()) {
            for m in i.saturating_sub(REACH)..(i + REACH + 2).min(self.xs.len()) {
                if let Some(q) = at(m, n).filter(|_| self.sides(Point::new(self.xs[m], self.ys[n])) == sides)
                {
                    near.push(([m as f64 - i as f64 - u, n as f64 - j as f64 - v], q));
                }
            }
        }
        surface::<10>(&near).or_else(|| surface::<6>(&near)).or_else(|| surface::<3>(&near)).or_else(|| {
            let top = corners[0] * (1.0 - u) + corners[1] * u;
            let low = corners[2] * (1.0 - u) + corners[3] * u;
            Some(top * (1.0 - v) + low * v)
        })
    }

    /// On which side of each crease a place lies.
    fn sides(&self, p: Point) -> Vec<bool> {
        let side = |[a, b]: &[Point; 2]| (p.x - a.x) * (b.y - a.y) > (p.y - a.y) * (b.x - a.x);
        self.creases.iter().map(side).collect()
    }
}

/// Nodes asked on either side of a cell.
const REACH: usize = 2;

/// The middle of a polynomial surface of `N` coefficients through places told with their distance, in cells;
/// `None` of too few.
fn surface<const N: usize>(near: &[([f64; 2], Point)]) -> Option<Point> {
    if near.len() < N + N / 3 {
        return None;
    }
    let mut normal = SMatrix::<f64, N, N>::zeros();
    let (mut x, mut y) = (SVector::<f64, N>::zeros(), SVector::<f64, N>::zeros());
    for &([u, v], q) in near {
        let all = [1.0, u, v, u * u, u * v, v * v, u * u * u, u * u * v, u * v * v, v * v * v];
        let basis = SVector::<f64, N>::from_fn(|i, _| all[i]);
        let weight = (-(u * u + v * v)).exp();
        normal += basis * basis.transpose() * weight;
        x += basis * (weight * q.x);
        y += basis * (weight * q.y);
    }
    // Nodes of one row alone tell no surface.
    let factor = normal.cholesky()?;
    let least = factor.l_dirty().diagonal().min();
    (least > 1e-4).then(|| Point::new(factor.solve(&x)[0], factor.solve(&y)[0]))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A grid of an affine map, which a surface gives back exactly.
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
        PlacementGrid::new(&nodes, &[]).unwrap()
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
        assert_eq!(PlacementGrid::new(&[[0.0, 0.0, 0.0, 0.0], [1.0, 0.0, 1.0, 0.0]], &[]), None);
    }

    #[test]
    fn a_crease_is_a_jump_and_all_else_is_smooth() {
        // A slanted crease; beyond it everything lies 5 further right. Elsewhere the map bends.
        let crease =
            FoundCrease { from_px: Point::new(0.0, 33.0), to_px: Point::new(200.0, 113.0), jump_px: 5.0 };
        let beyond = |p: Point| p.x * 80.0 < (p.y - 33.0) * 200.0;
        let map = |p: Point| Point::new(p.x + 1e-3 * p.y * p.y + if beyond(p) { 5.0 } else { 0.0 }, p.y);
        let nodes: Vec<[f64; 4]> = (0..21 * 21)
            .map(|i| {
                let p = Point::new(f64::from(i % 21) * 10.0, f64::from(i / 21) * 10.0);
                let q = map(p);
                [p.x, p.y, q.x, q.y]
            })
            .collect();
        let grid = PlacementGrid::new(&nodes, &[crease]).unwrap();
        for p in
            [Point::new(83.0, 61.0), Point::new(83.0, 66.0), Point::new(151.0, 92.0), Point::new(14.0, 187.0)]
        {
            let q = grid.to_b(p).unwrap();
            assert!(q.distance(map(p)) < 0.01, "{p:?}: {q:?} against {:?}", map(p));
        }
    }
}
