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

/// A straight line across which the paper's motion jumps. Pixels of photograph A.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crease {
    /// A place on it, amid the print that shows it.
    through: Point,
    /// Unit vector across it.
    normal: Point,
    /// How far what lies on the normal's side is displaced along the normal against the other side, at
    /// `through`, and how much more for each pixel along the line (the normal turned a quarter clockwise).
    jump: f64,
    taper: f64,
}

impl Crease {
    /// How far a place lies beyond the crease, to the normal's side; negative on the other.
    pub fn beyond(&self, p: Point) -> f64 {
        let d = p - self.through;
        d.x * self.normal.x + d.y * self.normal.y
    }

    /// A place on it.
    pub fn through(&self) -> Point {
        self.through
    }

    /// Unit vector across it.
    pub fn normal(&self) -> Point {
        self.normal
    }

    /// The jump where a place is nearest to it, along the normal: how far the print beyond lies off.
    pub fn jump_beside(&self, p: Point) -> f64 {
        let jump = self.jump + self.taper * self.along(p);
        // A jump dies away; it does not turn into its contrary.
        if jump * self.jump > 0.0 { jump } else { 0.0 }
    }

    fn along(&self, p: Point) -> f64 {
        let d = p - self.through;
        -d.x * self.normal.y + d.y * self.normal.x
    }
}

/// On which side of each crease a place lies: one bit a crease.
pub(crate) fn side_of(creases: &[Crease], p: Point) -> usize {
    creases.iter().enumerate().map(|(i, c)| usize::from(c.beyond(p) > 0.0) << i).sum()
}
