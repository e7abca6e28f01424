//! What is done to a block on purpose: a plug, a strip sawn off, lines cut again.

use serde::{Deserialize, Serialize};
use sheet::{Point, Rect};

use super::stroke::{Knot, Path, Stroke, StrokeKind};
use crate::noise::Noise;

/// What was done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum AlterationKind {
    /// A piece was let in and its part of the design cut anew.
    Plug,
    /// A strip was sawn off.
    CutDown,
    /// Lines were entered again with the knife: they stand thinner and cleaner.
    ReEntered,
}

/// One alteration. Places in mm in the block's frame.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Alteration {
    /// What was done.
    pub kind: AlterationKind,
    /// Where.
    pub place: Rect,
    /// The year.
    pub year: f64,
    /// The hand that did it.
    pub hand: u64,
}

/// How far a line cut anew in a plug lies from where it lay, spread in mm; of a line entered again. Common practice,
/// no source.
const MOVED: [f64; 2] = [0.22, 0.03];
/// What is left of the width of a line that is entered again.
const ENTERED: f64 = 0.74;

impl Alteration {
    /// Does it to strokes.
    pub(super) fn make(&self, strokes: &mut Vec<Stroke>) {
        match self.kind {
            AlterationKind::CutDown => strokes.push(white(self.place)),
            AlterationKind::Plug => {
                self.redraw(strokes, MOVED[0], 1.0);
                strokes.extend(self.seam());
            }
            AlterationKind::ReEntered => self.redraw(strokes, MOVED[1], ENTERED),
        }
    }

    fn redraw(&self, strokes: &mut [Stroke], moved: f64, width: f64) {
        let way = |salt: u64| Noise::new(self.hand ^ salt, "a line entered again", 1.8);
        let (x, y, heavy) = (way(1), way(2), way(3));
        // Noise has a spread of 0.42.
        let by = moved / 0.42;
        let shift = |p: Point| {
            let c = self.place.centre();
            // Lines meet the old ones at the seam.
            let inside = (1.0
                - (2.0 * (p.x - c.x).abs() / self.place.w)
                    .max(2.0 * (p.y - c.y).abs() / self.place.h)
                    .powi(4))
            .max(0.0);
            p + Point::new(x.at(p.x, p.y), y.at(p.x, p.y)) * (by * inside)
        };
        for stroke in strokes {
            if stroke.bounds().is_none_or(|b| b.shared(self.place).is_none()) {
                continue;
            }
            let line_width = if matches!(stroke.path, Path::Line(_)) && stroke.inks { width } else { 1.0 };
            match &mut stroke.path {
                Path::Line(knots) => {
                    for k in knots.iter_mut().filter(|k| self.place.holds(k.at)) {
                        let weight = line_width * (1.0 + 0.4 * heavy.at(k.at.x, k.at.y));
                        *k = Knot { at: shift(k.at), width: k.width * weight };
                    }
                }
                Path::Area(lines) => {
                    for p in lines.iter_mut().flatten() {
                        if self.place.holds(*p) {
                            *p = shift(*p);
                        }
                    }
                }
            }
        }
    }

    /// Joints of a plug print as hair lines of white, mostly along two sides.
    fn seam(&self) -> Vec<Stroke> {
        let c = self.place.corners();
        (0..4)
            .filter(|i| (self.hand >> i) & 1 == 1)
            .map(|i| {
                let (a, b) = (c[i], c[(i + 1) % 4]);
                let knots =
                    (0..=12).map(|k| Knot { at: a + (b - a) * (f64::from(k) / 12.0), width: 0.09 }).collect();
                Stroke {
                    id: u32::MAX,
                    kind: StrokeKind::Contour,
                    field: 0,
                    inks: false,
                    path: Path::Line(knots),
                }
            })
            .collect()
    }
}

fn white(place: Rect) -> Stroke {
    let path = Path::Area(vec![place.corners().to_vec()]);
    Stroke { id: u32::MAX, kind: StrokeKind::Solid, field: 0, inks: false, path }
}
