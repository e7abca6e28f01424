//! The truth beside a simulated photograph.

use serde::{Deserialize, Serialize};
use sheet::{Point, Ppi, Rect};

use crate::setting::Setting;
use crate::warp::Warp;

/// An accident of one copy: not a change of the setting.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum IncidentKind {
    /// A space or quad that has risen and prints.
    RisenSpace,
    /// Words that got next to no ink.
    MissingInk,
    /// Words with too much ink.
    TooMuchInk,
    /// A sort whose face was broken before this copy was pulled.
    BatteredSort,
    /// A hair or thread in the ink.
    Hair,
    /// A crease.
    Crease,
    /// A stain.
    Stain,
    /// A hole or tear.
    Loss,
    /// Ink of another sheet set off on this one, all over.
    SetOff,
    /// A slurred or doubled impression, all over.
    Slur,
    /// Ink beside the page.
    InkyEdge,
}

/// An accident with its place.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Incident {
    /// What happened.
    pub kind: IncidentKind,
    /// Where, on the photograph, in px; may reach beyond its edge.
    pub box_px: Rect,
}

/// All that is known of one simulated photograph.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Truth {
    /// The setting it was pulled from, every sort in its place (mm in the forme).
    pub setting: Setting,
    /// Width of the photograph in px.
    pub width: u32,
    /// Height of the photograph in px.
    pub height: u32,
    /// Its resolution at the middle.
    pub ppi: Ppi,
    /// The exact way from the forme to the photograph.
    pub warp: Warp,
    /// Accidents of this copy.
    pub incidents: Vec<Incident>,
    /// For every line and word, how much of its ink can be seen, 0..1.
    pub legible: Vec<Vec<f32>>,
}

/// Share of a box that is in the picture, of one that is framed: boxes are upright and reach beyond what leans.
const FRAMED: f64 = 0.99;

impl Truth {
    /// Where a place of the forme (mm) is on the photograph (px; may lie outside it).
    pub fn to_photograph(&self, forme: Point) -> Point {
        self.warp.to_photograph(forme)
    }

    /// Where a place on the photograph (px) was in the forme (mm); `None` where no forme printed.
    pub fn to_forme(&self, photograph: Point) -> Option<Point> {
        self.warp.to_forme(photograph)
    }

    /// The upright box on the photograph around a box in the forme.
    pub fn box_px(&self, forme: Rect) -> Rect {
        around(forme, |p| self.to_photograph(p))
    }

    /// Whether a place of the forme is in the picture and not hidden in a fold.
    pub fn shows(&self, forme: Point) -> bool {
        self.warp.shows(forme) && self.picture().holds(self.to_photograph(forme))
    }

    /// Whether a box in the forme is in the picture, but for a hair's breadth.
    pub fn frames(&self, forme: Rect) -> bool {
        let there = self.box_px(forme);
        self.picture().shared(there).is_some_and(|s| s.area() > FRAMED * there.area())
    }

    /// The whole picture, pixels.
    fn picture(&self) -> Rect {
        Rect::new(0.0, 0.0, f64::from(self.width), f64::from(self.height))
    }

    /// Where a place on this photograph is on the other, if both are pulls of one setting: through the
    /// forme, exactly. `None` where this one has no print.
    pub fn to_other(&self, other: &Self, here: Point) -> Option<Point> {
        self.to_forme(here).map(|p| other.to_photograph(p))
    }

    /// As JSON.
    ///
    /// # Errors
    /// When a number is not finite; none of this crate's are.
    pub fn to_json(&self) -> Result<String, serde_json::Error> {
        serde_json::to_string(self)
    }
}

/// The upright box around a box whose corners and sides' middles are mapped.
pub(crate) fn around(r: Rect, map: impl Fn(Point) -> Point) -> Rect {
    let c = r.centre();
    let middles =
        [Point::new(c.x, r.y), Point::new(r.right(), c.y), Point::new(c.x, r.bottom()), Point::new(r.x, c.y)];
    Rect::around(r.corners().into_iter().chain(middles).map(map)).unwrap_or(r)
}
