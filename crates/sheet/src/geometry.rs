//! Points, boxes, and the plane projective map from one photograph to another.
//!
//! The convention is that of [`crate::Plane`]: origin at the top left corner, y down.

use nalgebra::{Matrix3, SMatrix, SVector, Vector3};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A place on a photograph, in pixels.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Point {
    /// Rightwards from the left edge.
    pub x: f64,
    /// Downwards from the top edge.
    pub y: f64,
}

impl Point {
    /// A point from its coordinates.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The straight distance to another point.
    pub fn distance(self, other: Self) -> f64 {
        // Not `hypot`: its care for overflow costs ten times as much, and pixels never overflow.
        ((self.x - other.x).powi(2) + (self.y - other.y).powi(2)).sqrt()
    }
}

impl Point {
    /// The straight distance from the origin.
    pub fn length(self) -> f64 {
        (self.x * self.x + self.y * self.y).sqrt()
    }
}

impl std::ops::Add for Point {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        Self::new(self.x + o.x, self.y + o.y)
    }
}

impl std::ops::Sub for Point {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        Self::new(self.x - o.x, self.y - o.y)
    }
}

impl std::ops::Mul<f64> for Point {
    type Output = Self;
    fn mul(self, k: f64) -> Self {
        Self::new(self.x * k, self.y * k)
    }
}

/// An upright box, in pixels.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Rect {
    /// Left edge.
    pub x: f64,
    /// Top edge.
    pub y: f64,
    /// Width; never negative.
    pub w: f64,
    /// Height; never negative.
    pub h: f64,
}

impl Rect {
    /// A box from its left, top, width and height.
    pub const fn new(x: f64, y: f64, w: f64, h: f64) -> Self {
        Self { x, y, w, h }
    }

    /// The smallest box that holds all points; `None` of no points.
    pub fn around(points: impl IntoIterator<Item = Point>) -> Option<Self> {
        points.into_iter().fold(None, |sofar: Option<Self>, p| {
            Some(sofar.map_or(Self::new(p.x, p.y, 0.0, 0.0), |r| r.united(Self::new(p.x, p.y, 0.0, 0.0))))
        })
    }

    /// Right edge.
    pub fn right(self) -> f64 {
        self.x + self.w
    }

    /// Lower edge.
    pub fn bottom(self) -> f64 {
        self.y + self.h
    }

    /// The middle.
    pub fn centre(self) -> Point {
        Point::new(self.x + self.w / 2.0, self.y + self.h / 2.0)
    }

    /// The four corners, clockwise from the top left.
    pub fn corners(self) -> [Point; 4] {
        [
            Point::new(self.x, self.y),
            Point::new(self.right(), self.y),
            Point::new(self.right(), self.bottom()),
            Point::new(self.x, self.bottom()),
        ]
    }

    /// The smallest box that holds both.
    #[must_use]
    pub fn united(self, o: Self) -> Self {
        let (x, y) = (self.x.min(o.x), self.y.min(o.y));
        Self::new(x, y, self.right().max(o.right()) - x, self.bottom().max(o.bottom()) - y)
    }

    /// The part shared by both; `None` when they do not meet.
    pub fn shared(self, o: Self) -> Option<Self> {
        let (x, y) = (self.x.max(o.x), self.y.max(o.y));
        let (r, b) = (self.right().min(o.right()), self.bottom().min(o.bottom()));
        (r > x && b > y).then(|| Self::new(x, y, r - x, b - y))
    }

    /// Whether the point lies in the box.
    pub fn holds(self, p: Point) -> bool {
        p.x >= self.x && p.x < self.right() && p.y >= self.y && p.y < self.bottom()
    }

    /// Grown by `by` on every side.
    #[must_use]
    pub fn grown(self, by: f64) -> Self {
        Self::new(self.x - by, self.y - by, (self.w + 2.0 * by).max(0.0), (self.h + 2.0 * by).max(0.0))
    }

    /// Shifted by `by`.
    #[must_use]
    pub fn moved(self, by: Point) -> Self {
        Self::new(self.x + by.x, self.y + by.y, self.w, self.h)
    }

    /// Every coordinate multiplied by `k`.
    #[must_use]
    pub fn scaled(self, k: f64) -> Self {
        Self::new(self.x * k, self.y * k, self.w * k, self.h * k)
    }

    /// Area in square pixels.
    pub fn area(self) -> f64 {
        self.w * self.h
    }
}

/// A plane projective map (homography) between two photographs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Homography(Matrix3<f64>);

impl Homography {
    /// The map that leaves every point where it is.
    pub fn identity() -> Self {
        Self(Matrix3::identity())
    }

    /// From nine coefficients, row by row.
    pub fn from_rows(m: [[f64; 3]; 3]) -> Self {
        Self(Matrix3::from_fn(|r, c| m[r][c]))
    }

    /// The nine coefficients, row by row, the last one 1 where it can be.
    pub fn rows(&self) -> [[f64; 3]; 3] {
        let k = if self.0[(2, 2)].abs() > 1e-12 { self.0[(2, 2)] } else { 1.0 };
        std::array::from_fn(|r| std::array::from_fn(|c| self.0[(r, c)] / k))
    }

    /// A turn (positive clockwise on the screen), a scale, then a shift: x' = s R x + t.
    pub fn similarity(scale: f64, radians: f64, shift: Point) -> Self {
        let (s, c) = radians.sin_cos();
        Self::from_rows([[scale * c, -scale * s, shift.x], [scale * s, scale * c, shift.y], [0.0, 0.0, 1.0]])
    }

    /// The same scale both ways, about the origin.
    pub fn scaling(k: f64) -> Self {
        Self::similarity(k, 0.0, Point::new(0.0, 0.0))
    }

    /// Where a point goes.
    pub fn map(&self, p: Point) -> Point {
        let v = self.0 * Vector3::new(p.x, p.y, 1.0);
        Point::new(v.x / v.z, v.y / v.z)
    }

    /// This map after `first`.
    #[must_use]
    pub fn after(&self, first: &Self) -> Self {
        Self(self.0 * first.0)
    }

    /// The way back; `None` when the map is flat.
    pub fn inverse(&self) -> Option<Self> {
        self.0.try_inverse().map(Self)
    }

    /// The local linear part at a point: [[dx'/dx, dx'/dy], [dy'/dx, dy'/dy]].
    pub fn jacobian(&self, p: Point) -> [[f64; 2]; 2] {
        let m = &self.0;
        let v = m * Vector3::new(p.x, p.y, 1.0);
        let (u, w) = (v.x / v.z, v.y / v.z);
        [
            [(m[(0, 0)] - u * m[(2, 0)]) / v.z, (m[(0, 1)] - u * m[(2, 1)]) / v.z],
            [(m[(1, 0)] - w * m[(2, 0)]) / v.z, (m[(1, 1)] - w * m[(2, 1)]) / v.z],
        ]
    }

    /// The weighted least-squares map from points to points (normalised direct linear transform:
    /// Hartley & Zisserman, *Multiple View Geometry*, 2nd edn 2004, algorithm 4.2).
    ///
    /// `pairs` holds (from, to, weight). `None` of fewer than four pairs or degenerate ones.
    pub fn fit(pairs: &[(Point, Point, f64)]) -> Option<Self> {
        if pairs.len() < 4 {
            return None;
        }
        let norm = |pick: &dyn Fn(&(Point, Point, f64)) -> Point| {
            let n = pairs.len() as f64;
            let c = pairs.iter().map(pick).fold(Point::new(0.0, 0.0), |a, p| a + p) * (1.0 / n);
            let d = pairs.iter().map(|q| pick(q).distance(c)).sum::<f64>() / n;
            (d > 1e-9).then(|| {
                let k = std::f64::consts::SQRT_2 / d;
                Self::similarity(k, 0.0, Point::new(-c.x * k, -c.y * k))
            })
        };
        let (from, to) = (norm(&|q| q.0)?, norm(&|q| q.1)?);
        let mut normal = SMatrix::<f64, 9, 9>::zeros();
        for &(p, q, w) in pairs {
            let (p, q) = (from.map(p), to.map(q));
            let r1 = SVector::<f64, 9>::from([-p.x, -p.y, -1.0, 0.0, 0.0, 0.0, q.x * p.x, q.x * p.y, q.x]);
            let r2 = SVector::<f64, 9>::from([0.0, 0.0, 0.0, -p.x, -p.y, -1.0, q.y * p.x, q.y * p.y, q.y]);
            normal += (r1 * r1.transpose() + r2 * r2.transpose()) * w;
        }
        let eigen = normal.symmetric_eigen();
        let smallest = eigen.eigenvalues.imin();
        let h = eigen.eigenvectors.column(smallest);
        let m = Matrix3::new(h[0], h[1], h[2], h[3], h[4], h[5], h[6], h[7], h[8]);
        let whole = Self(to.inverse()?.0 * m * from.0);
        let k = whole.0[(2, 2)];
        let scaled = Self(whole.0 / if k.abs() > 1e-12 { k } else { 1.0 });
        (scaled.0.iter().all(|v| v.is_finite()) && scaled.0.determinant().abs() > 1e-12).then_some(scaled)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_known_map_is_fitted_back() {
        let h = Homography::from_rows([[1.1, 0.1, 20.0], [-0.08, 0.95, 7.0], [1e-5, -2e-5, 1.0]]);
        let pairs: Vec<_> = [(0.0, 0.0), (900.0, 10.0), (870.0, 1200.0), (30.0, 1100.0), (400.0, 700.0)]
            .iter()
            .map(|&(x, y)| (Point::new(x, y), h.map(Point::new(x, y)), 1.0))
            .collect();
        let g = Homography::fit(&pairs).unwrap();
        let p = Point::new(321.0, 654.0);
        assert!(g.map(p).distance(h.map(p)) < 1e-6);
        assert!(h.inverse().unwrap().map(h.map(p)).distance(p) < 1e-9);
    }

    #[test]
    fn the_jacobian_is_the_slope_of_the_map() {
        let h = Homography::from_rows([[1.1, 0.1, 20.0], [-0.08, 0.95, 7.0], [1e-5, -2e-5, 1.0]]);
        let (p, e) = (Point::new(300.0, 200.0), 1e-4);
        let j = h.jacobian(p);
        let dx = (h.map(Point::new(p.x + e, p.y)) - h.map(p)) * (1.0 / e);
        assert!((dx.x - j[0][0]).abs() < 1e-5 && (dx.y - j[1][0]).abs() < 1e-5);
    }
}
