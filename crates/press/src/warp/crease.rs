//! A crease: a jump along a straight line across the sheet.

use serde::{Deserialize, Serialize};
use sheet::{Degrees, Point};

/// When the sheet was folded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Fold {
    /// Before it was printed, and opened since: a white gap runs through the print.
    BeforePrinting,
    /// After it was printed: a strip of print is hidden in the fold.
    AfterPrinting,
}

/// A crease across the sheet, in mm on the dry sheet. The side its normal points to is moved.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Crease {
    /// A place on it.
    pub through: Point,
    /// Direction of its normal: 0 points right, 90 down.
    pub normal: Degrees,
    /// Width of the gap or of the hidden strip at `through`, in mm.
    pub jump: f64,
    /// How much wider it grows for each mm along it (to the normal's right hand); it never turns negative.
    pub taper: f64,
    /// When the sheet was folded.
    pub fold: Fold,
}

impl Crease {
    /// How far beyond the crease a place is (mm, positive on the moved side), and the jump there.
    pub(crate) fn beyond(&self, p: Point) -> (f64, f64) {
        let (s, c) = self.normal.radians().sin_cos();
        let q = p - self.through;
        let along = c * q.y - s * q.x;
        (c * q.x + s * q.y, (self.jump + self.taper * along).max(0.0))
    }

    fn moved(&self, p: Point, by: f64) -> Point {
        let (s, c) = self.normal.radians().sin_cos();
        p + Point::new(c * by, s * by)
    }

    /// From the sheet without this crease to the sheet with it.
    pub(crate) fn forth(&self, p: Point) -> Point {
        let (beyond, jump) = self.beyond(p);
        match self.fold {
            _ if beyond <= 0.0 => p,
            Fold::BeforePrinting => self.moved(p, jump),
            Fold::AfterPrinting => self.moved(p, -jump.min(beyond)),
        }
    }

    /// The way back; `None` within the gap of an opened crease. On the line of a fold, the nearer side.
    pub(super) fn back(&self, p: Point) -> Option<Point> {
        let (beyond, jump) = self.beyond(p);
        match self.fold {
            _ if beyond <= 0.0 => Some(p),
            Fold::BeforePrinting => (beyond > jump).then(|| self.moved(p, -jump)),
            Fold::AfterPrinting => Some(self.moved(p, jump)),
        }
    }

    /// Whether a place lies in the strip that the fold hides.
    pub(super) fn swallows(&self, p: Point) -> bool {
        let (beyond, jump) = self.beyond(p);
        self.fold == Fold::AfterPrinting && beyond > 0.0 && beyond < jump
    }
}
