//! Creases: straight lines across which the paper's motion jumps.
//!
//! A fold hides a strip of print, and a fold that was there before printing and is open now leaves a gap in it:
//! what lies beyond has moved towards the fold or away from it, all of it together. So a crease is a straight
//! line, its jump lies across it and changes little along it. A line of type that was set again is no crease: it
//! moves along itself, and the next line does not go with it.

mod gain;
mod search;
#[cfg(test)]
mod tests;

use sheet::Point;

pub(crate) use search::find;

/// A straight line. Pixels of photograph A.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Line {
    through: Point,
    /// Unit vector across it.
    normal: Point,
}

impl Line {
    /// How far a place lies to the normal's side; negative on the other.
    fn beyond(&self, p: Point) -> f64 {
        let d = p - self.through;
        d.x * self.normal.x + d.y * self.normal.y
    }

    /// Its direction, the normal turned a quarter clockwise.
    fn direction(&self) -> Point {
        Point::new(-self.normal.y, self.normal.x)
    }

    /// How far along it a place lies from `through`.
    fn along(&self, p: Point) -> f64 {
        let (d, t) = (p - self.through, self.direction());
        d.x * t.x + d.y * t.y
    }
}

/// A straight line across which the paper's motion jumps. Pixels of photograph A.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crease {
    /// It goes through a place amid the print that shows it.
    line: Line,
    /// How far what lies on the normal's side is displaced along the normal against the other side, where the line
    /// goes through, and how much more for each pixel along it.
    jump: f64,
    taper: f64,
}

impl Crease {
    /// One with the same jump all along it.
    #[cfg(test)]
    pub(crate) fn straight(through: Point, normal: Point, jump: f64) -> Self {
        Self { line: Line { through, normal }, jump, taper: 0.0 }
    }

    /// How far a place lies beyond the crease, to the normal's side; negative on the other.
    pub fn beyond(&self, p: Point) -> f64 {
        self.line.beyond(p)
    }

    /// A place on it.
    pub fn through(&self) -> Point {
        self.line.through
    }

    /// Unit vector across it.
    pub fn normal(&self) -> Point {
        self.line.normal
    }

    /// The same crease, turned so many radians clockwise about the place it goes through and moved along its normal.
    pub(crate) fn moved(&self, turn: f64, step: f64) -> Self {
        let (sin, cos) = turn.sin_cos();
        let n = self.line.normal;
        let normal = Point::new(n.x * cos - n.y * sin, n.x * sin + n.y * cos);
        Self { line: Line { through: self.line.through + normal * step, normal }, ..*self }
    }

    /// The jump where a place is nearest to it, along the normal: how far the print beyond lies off.
    pub fn jump_beside(&self, p: Point) -> f64 {
        let jump = self.jump + self.taper * self.line.along(p);
        // A jump dies away; it does not turn into its contrary.
        if jump * self.jump > 0.0 { jump } else { 0.0 }
    }
}

/// On which side of each crease a place lies: one bit a crease.
pub(crate) fn side_of(creases: &[Crease], p: Point) -> usize {
    creases.iter().enumerate().map(|(i, c)| usize::from(c.beyond(p) > 0.0) << i).sum()
}
