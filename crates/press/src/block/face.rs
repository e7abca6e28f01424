//! What a block prints at a time: its strokes as they are then, brought to their place in the forme.

use serde::{Deserialize, Serialize};
use sheet::{Degrees, Point, Rect};

use super::stroke::{Edge, Stroke};
use crate::fount::Outline;
use crate::noise::Noise;

/// How a block stands in the forme: from mm in the block's own frame (origin at its top left corner when it was cut)
/// to mm in the forme. Wood has moved across its grain; a cast has shrunk all ways.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Lie {
    /// The block's middle, in mm in its own frame.
    pub about: Point,
    /// Where that is in the forme, mm.
    pub at: Point,
    /// Direction of the grain, clockwise from rightwards.
    pub grain: Degrees,
    /// Shrinkage along the grain and across it since the cutting: 0.01 is one per cent.
    pub shrinkage: [f64; 2],
    /// How far the block is turned in the forme, clockwise.
    pub turn: Degrees,
}

impl Lie {
    /// A block that lies straight and has not moved, its corner at a place.
    pub fn plain(size: Rect, at: Point) -> Self {
        Self {
            about: size.centre(),
            at: at + Point::new(size.w / 2.0, size.h / 2.0),
            grain: Degrees(0.0),
            shrinkage: [0.0, 0.0],
            turn: Degrees(0.0),
        }
    }

    /// From the block (mm) to the forme (mm).
    pub fn to_forme(&self, block: Point) -> Point {
        let q = turned(block - self.about, -self.grain.radians());
        let q = Point::new(q.x * (1.0 - self.shrinkage[0]), q.y * (1.0 - self.shrinkage[1]));
        self.at + turned(q, self.grain.radians() + self.turn.radians())
    }

    /// From the forme (mm) to the block (mm).
    pub fn to_block(&self, forme: Point) -> Point {
        let q = turned(forme - self.at, -self.grain.radians() - self.turn.radians());
        let q = Point::new(q.x / (1.0 - self.shrinkage[0]), q.y / (1.0 - self.shrinkage[1]));
        self.about + turned(q, self.grain.radians())
    }
}

fn turned(p: Point, angle: f64) -> Point {
    let (s, c) = angle.sin_cos();
    Point::new(c * p.x - s * p.y, s * p.x + c * p.y)
}

/// A block's printing surface at one time.
#[derive(Debug, Clone, PartialEq)]
pub struct Face {
    /// Strokes in their order, in mm in the block's frame; white ones are cut into those before them.
    pub strokes: Vec<Stroke>,
    /// How it stands.
    pub lie: Lie,
    /// The cutter's knife: the edges of the strokes hang on it.
    pub knife: u64,
    /// How far the block is from level, in mm.
    pub uneven: f64,
}

/// One stroke ready to print.
#[derive(Debug)]
pub(crate) struct Print<'a> {
    stroke: &'a Stroke,
    face: &'a Face,
    edge: Edge,
    height: f64,
}

impl Face {
    /// Every stroke that prints or is cut out, in order.
    pub(crate) fn prints(&self) -> Vec<Print<'_>> {
        let edge = Edge::new(self.knife);
        let level = Noise::new(self.knife, "level of the block", 28.0);
        self.strokes
            .iter()
            .map(|stroke| {
                let middle = stroke.bounds().map_or(self.lie.about, Rect::centre);
                Print { stroke, face: self, edge, height: self.uneven * level.rough(middle.x, middle.y) }
            })
            .collect()
    }

    /// The same surface with its block elsewhere.
    #[must_use]
    pub fn lying(&self, lie: Lie) -> Self {
        Self { lie, ..self.clone() }
    }
}

impl Print<'_> {
    /// Whether it prints.
    pub(crate) fn inks(&self) -> bool {
        self.stroke.inks
    }

    /// Height to paper against the rest of the block, mm.
    pub(crate) fn height(&self) -> f64 {
        self.height
    }

    /// What it prints, in mm in the forme; `gain` (of a place in the forme) is how far ink goes beyond the wood, mm.
    pub(crate) fn outline(&self, gain: impl Fn(Point) -> f64) -> Outline {
        let lie = self.face.lie;
        let beyond = |p: Point| gain(lie.to_forme(p));
        self.stroke.outline(&self.edge, beyond).mapped(|p| lie.to_forme(p))
    }
}
