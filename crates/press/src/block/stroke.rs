//! A stroke: what a cutter leaves standing, or takes out of what stands, in one go.

use serde::{Deserialize, Serialize};
use sheet::{Point, Rect};

use crate::fount::Outline;
use crate::noise::Noise;

/// What a stroke is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum StrokeKind {
    /// The outline of a thing, or a line within it that shows its form.
    Contour,
    /// One line of a field of shading.
    Hatch,
    /// One line of a second field laid across the first.
    CrossHatch,
    /// A rule of the frame.
    Frame,
    /// A small stroke on its own: a tuft, a dot, a vein, a feature of a face.
    Sprig,
    /// An area left standing.
    Solid,
    /// A letter cut in the block.
    Letter,
}

/// A place on the centre line of a stroke.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Knot {
    /// Where, in mm in the block's own frame.
    pub at: Point,
    /// How wide the stroke is there, in mm.
    pub width: f64,
}

/// The shape of a stroke.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Path {
    /// A line along its centre, knots at most half a millimetre apart.
    Line(Vec<Knot>),
    /// An area: closed lines in mm, filled by the non-zero rule.
    Area(Vec<Vec<Point>>),
}

/// One stroke.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Stroke {
    /// Counted through the design. A copy cut after it keeps the number; strokes that it adds have new ones.
    pub id: u32,
    /// What it is for.
    pub kind: StrokeKind,
    /// The field of shading it belongs to, from 1; 0 for none.
    pub field: u16,
    /// It prints; else it is white, cut into what was drawn before it.
    pub inks: bool,
    /// Its shape.
    pub path: Path,
}

/// How the knife left the edges of one block: a pure function of the place.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Edge {
    fine: [Noise; 2],
    slow: [Noise; 2],
}

/// How far an edge strays, in mm: fine (over 0.3 mm) and slow (over 1.2 mm). Common practice, no source.
const STRAYS: [f64; 2] = [0.018, 0.022];

impl Edge {
    pub(crate) fn new(seed: u64) -> Self {
        let pair = |purpose: &str, grain: f64| {
            [Noise::new(seed, purpose, grain), Noise::new(seed ^ 0x51de, purpose, grain)]
        };
        Self { fine: pair("edge of the knife", 0.3), slow: pair("way of the knife", 1.2) }
    }

    /// How far the left (0) or right (1) edge strays outwards at a place.
    fn strays(&self, side: usize, p: Point) -> f64 {
        STRAYS[0] * 2.0 * self.fine[side].at(p.x, p.y) + STRAYS[1] * 2.0 * self.slow[side].at(p.x, p.y)
    }

    /// How far a point on the edge of an area strays.
    fn strayed(&self, p: Point) -> Point {
        p + Point::new(self.strays(0, p), self.strays(1, p))
    }
}

impl Stroke {
    /// The box around it, in mm; `None` when it is empty.
    pub fn bounds(&self) -> Option<Rect> {
        match &self.path {
            Path::Line(knots) => {
                let most = knots.iter().map(|k| k.width).fold(0.0, f64::max) / 2.0;
                Some(Rect::around(knots.iter().map(|k| k.at))?.grown(most))
            }
            Path::Area(lines) => Rect::around(lines.iter().flatten().copied()),
        }
    }

    /// Its centre line, or the edge of an area.
    pub fn places(&self) -> Vec<Point> {
        match &self.path {
            Path::Line(knots) => knots.iter().map(|k| k.at).collect(),
            Path::Area(lines) => lines.iter().flatten().copied().collect(),
        }
    }

    /// Length of the centre line, or of the edge of an area, in mm.
    pub fn length(&self) -> f64 {
        match &self.path {
            Path::Line(knots) => knots.windows(2).map(|k| k[0].at.distance(k[1].at)).sum(),
            Path::Area(lines) => lines.iter().flat_map(|l| l.windows(2)).map(|p| p[0].distance(p[1])).sum(),
        }
    }

    /// The same stroke with every place moved.
    #[must_use]
    pub fn mapped(&self, rule: impl Fn(Point) -> Point) -> Self {
        let path = match &self.path {
            Path::Line(knots) => Path::Line(knots.iter().map(|k| Knot { at: rule(k.at), ..*k }).collect()),
            Path::Area(lines) => {
                Path::Area(lines.iter().map(|l| l.iter().map(|&p| rule(p)).collect()).collect())
            }
        };
        Self { path, ..self.clone() }
    }

    /// What it prints (or takes out), in mm: `gain` is how far ink goes beyond the wood there.
    pub(crate) fn outline(&self, edge: &Edge, gain: impl Fn(Point) -> f64) -> Outline {
        let sign = if self.inks { 1.0 } else { -1.0 };
        match &self.path {
            Path::Line(knots) => line_outline(knots, edge, |p| sign * gain(p)),
            Path::Area(lines) => {
                let whole = Outline(lines.clone());
                let middle = whole.bounds().map_or(Point::new(0.0, 0.0), Rect::centre);
                whole.divided(0.3).mapped(|p| edge.strayed(p)).spread(sign * gain(middle))
            }
        }
    }
}

/// A stroke thinner than this (mm) leaves no ink: the wood has gone.
const LEAST_WIDTH: f64 = 0.03;

fn line_outline(knots: &[Knot], edge: &Edge, gain: impl Fn(Point) -> f64) -> Outline {
    let n = knots.len();
    if n < 2 {
        return Outline::default();
    }
    let mut lines = Vec::new();
    let (mut left, mut right): (Vec<Point>, Vec<Point>) = (Vec::new(), Vec::new());
    let close = |left: &mut Vec<Point>, right: &mut Vec<Point>, lines: &mut Vec<Vec<Point>>| {
        if left.len() > 1 {
            let whole: Vec<Point> = left.iter().copied().chain(right.iter().rev().copied()).collect();
            lines.push(whole);
        }
        left.clear();
        right.clear();
    };
    for i in 0..n {
        let (a, b) = (knots[i.saturating_sub(1)].at, knots[(i + 1).min(n - 1)].at);
        let d = b - a;
        let long = d.length();
        if long < 1e-9 {
            continue;
        }
        let along = d * (1.0 / long);
        let normal = Point::new(along.y, -along.x);
        let Knot { at, width } = knots[i];
        if width < LEAST_WIDTH {
            close(&mut left, &mut right, &mut lines);
            continue;
        }
        // A hair line cannot stray by more than a part of itself.
        let most = 0.35 * width;
        let half = |side: usize| (width / 2.0 + gain(at) + edge.strays(side, at).clamp(-most, most)).max(0.0);
        let (l, r) = (half(0), half(1));
        // Round ends: ink draws a corner round.
        let first = left.is_empty();
        if first {
            let back = along * (-0.35 * (l + r));
            left.push(at + back + normal * (0.45 * l));
            right.push(at + back - normal * (0.45 * r));
        }
        left.push(at + normal * l);
        right.push(at - normal * r);
        if i == n - 1 {
            let on = along * (0.35 * (l + r));
            left.push(at + on + normal * (0.45 * l));
            right.push(at + on - normal * (0.45 * r));
        }
    }
    close(&mut left, &mut right, &mut lines);
    Outline(lines)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_straight_stroke_prints_its_width_and_more_ink_prints_wider() {
        let knots = (0..=20).map(|i| Knot { at: Point::new(f64::from(i) * 0.5, 3.0), width: 0.5 }).collect();
        let stroke =
            Stroke { id: 0, kind: StrokeKind::Contour, field: 0, inks: true, path: Path::Line(knots) };
        let edge = Edge::new(1);
        let (thin, fat) = (stroke.outline(&edge, |_| 0.0), stroke.outline(&edge, |_| 0.05));
        // Ten millimetres by half a millimetre, and a tenth more across.
        assert!((thin.area().abs() - 5.2).abs() < 0.3, "{}", thin.area());
        assert!((fat.area().abs() - thin.area().abs() - 1.0).abs() < 0.1);
    }
}
