//! From an upright side back to the photograph it was turned from.

use crate::{Homography, Point, Rect};

/// How a photograph was turned by right angles so that its lines of type run level.
///
/// Everything is measured on the upright side, and told in pixels of the photograph as it was taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turned {
    quarters: u8,
    /// Size of the photograph before it was turned, pixels.
    width: f64,
    height: f64,
}

impl Turned {
    /// A photograph of `width` by `height` pixels turned clockwise by so many right angles.
    pub fn new(quarters: u8, width: usize, height: usize) -> Self {
        Self { quarters: quarters % 4, width: width as f64, height: height as f64 }
    }

    /// The same photograph turned by some more.
    #[must_use]
    pub fn more(self, quarters: u8) -> Self {
        Self { quarters: (self.quarters + quarters) % 4, ..self }
    }

    /// Right angles it was turned by, clockwise, 0 to 3.
    pub fn quarters(self) -> u8 {
        self.quarters
    }

    /// Where a place of the upright side is on the photograph.
    pub fn on_photograph(self, p: Point) -> Point {
        match self.quarters {
            0 => p,
            1 => Point::new(p.y, self.height - p.x),
            2 => Point::new(self.width - p.x, self.height - p.y),
            _ => Point::new(self.width - p.y, p.x),
        }
    }

    /// Where a place of the photograph is on the upright side.
    pub fn upright(self, p: Point) -> Point {
        match self.quarters {
            0 => p,
            1 => Point::new(self.height - p.y, p.x),
            2 => Point::new(self.width - p.x, self.height - p.y),
            _ => Point::new(p.y, self.width - p.x),
        }
    }

    /// A box of the upright side on the photograph.
    pub fn box_on_photograph(self, r: Rect) -> Rect {
        let (p, q) = (Point::new(r.x, r.y), Point::new(r.right(), r.bottom()));
        between(self.on_photograph(p), self.on_photograph(q))
    }

    /// A box of the photograph on the upright side.
    pub fn upright_box(self, r: Rect) -> Rect {
        let (p, q) = (Point::new(r.x, r.y), Point::new(r.right(), r.bottom()));
        between(self.upright(p), self.upright(q))
    }

    /// [`Self::on_photograph`] as a map.
    pub fn map(self) -> Homography {
        let at = |x: f64, y: f64| self.on_photograph(Point::new(x, y));
        let (o, x, y) = (at(0.0, 0.0), at(1.0, 0.0), at(0.0, 1.0));
        Homography::from_rows([[x.x - o.x, y.x - o.x, o.x], [x.y - o.y, y.y - o.y, o.y], [0.0, 0.0, 1.0]])
    }
}

/// The box with two opposite corners.
fn between(p: Point, q: Point) -> Rect {
    Rect::new(p.x.min(q.x), p.y.min(q.y), (q.x - p.x).abs(), (q.y - p.y).abs())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Plane;

    #[test]
    fn places_go_where_the_samples_go_and_back() {
        let mut photograph = Plane::filled(7, 4, 0u8);
        photograph.row_mut(1)[5] = 9;
        for quarters in 0..4 {
            let turned = Turned::new(quarters, 7, 4);
            let p = turned.upright(Point::new(5.5, 1.5));
            assert_eq!(photograph.turned(quarters).at(p.x as usize, p.y as usize), 9);
            assert_eq!(turned.on_photograph(p), Point::new(5.5, 1.5));
            assert!(turned.map().map(p).distance(Point::new(5.5, 1.5)) < 1e-12);
            let r = Rect::new(1.0, 2.0, 3.0, 1.0);
            assert_eq!(turned.box_on_photograph(turned.upright_box(r)), r);
        }
    }
}
