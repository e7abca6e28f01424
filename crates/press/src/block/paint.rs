//! Strokes as coverage on a fine grid, where only the wood is asked about and no sheet.

use sheet::{Plane, Point, Rect};

use super::stroke::{Edge, Stroke};
use crate::pull::{Canvas, Stamp};

/// A part of a block's surface: how much of each cell stands, 0..1.
#[derive(Debug, Clone)]
pub(crate) struct Painted {
    pub cover: Plane<f32>,
    pub origin: Point,
    pub per_mm: f64,
}

impl Painted {
    /// The strokes' surface within a box, mm.
    pub(crate) fn of(strokes: &[Stroke], knife: u64, within: Rect, per_mm: f64) -> Self {
        let edge = Edge::new(knife);
        let origin = Point::new(within.x, within.y);
        let (width, height) =
            ((within.w * per_mm).ceil().max(1.0) as usize, (within.h * per_mm).ceil().max(1.0) as usize);
        let stamps: Vec<Stamp> = strokes
            .iter()
            .filter(|s| s.bounds().is_some_and(|b| b.grown(0.2).shared(within).is_some()))
            .map(|s| Stamp {
                outline: s.outline(&edge, |_| 0.0).mapped(|p| (p - origin) * per_mm),
                broken: None,
                load: 1.0,
                inks: s.inks,
            })
            .collect();
        let mut canvas = Canvas::new(width, height);
        canvas.print(&stamps);
        Self { cover: canvas.cover, origin, per_mm }
    }

    /// Every cell: its middle (mm), and how much of it stands.
    pub(crate) fn cells(&self) -> impl Iterator<Item = (Point, f32)> + '_ {
        let width = self.cover.width();
        self.cover.data().iter().enumerate().map(move |(i, &c)| {
            let at = Point::new((i % width) as f64 + 0.5, (i / width) as f64 + 0.5);
            (self.origin + at * (1.0 / self.per_mm), c)
        })
    }

    /// Area that stands, in square mm.
    pub(crate) fn area(&self) -> f64 {
        self.cover.data().iter().map(|&c| f64::from(c)).sum::<f64>() / (self.per_mm * self.per_mm)
    }
}
