//! Damage to a block: what breaks, when, and what it takes out of the print.

use serde::{Deserialize, Serialize};
use sheet::{Point, Rect};

use super::curve::{across, towards, unit};
use super::stroke::{Path, Stroke, StrokeKind};
use crate::noise::Noise;

/// What kind of damage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DamageClass {
    /// A gap in one line.
    Break,
    /// A gap or nick in the frame.
    FrameBreak,
    /// A crack along the grain, which lengthens and widens.
    Crack,
    /// A wormhole: a round white spot.
    Wormhole,
    /// A piece out of the edge of the block.
    Chip,
    /// A corner gone.
    LostCorner,
}

/// What damage takes away. Places in mm in the block's frame.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "is")]
pub enum Wound {
    /// A gap in the stroke of this number, its middle at a place.
    Gap {
        /// The stroke.
        stroke: u32,
        /// Where.
        at: Point,
    },
    /// A round hole.
    Hole {
        /// Where.
        at: Point,
    },
    /// A crack from a place on.
    Crack {
        /// Where it begins.
        from: Point,
        /// Which way it runs, in radians clockwise from rightwards.
        angle: f64,
        /// How wide it is at its beginning when new, in mm.
        wide: f64,
    },
    /// A ragged piece about a place, its sides along and across the edge.
    Piece {
        /// Its middle, on the edge of the block.
        at: Point,
        /// Inwards from the edge, in radians.
        inwards: f64,
        /// Its depth as a share of its length.
        depth: f64,
    },
}

/// One damage of a block, with its years.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Damage {
    /// Counted through the life of the block.
    pub id: u32,
    /// What kind.
    pub class: DamageClass,
    /// What it takes away.
    pub wound: Wound,
    /// Its size when new, in mm: the length of a gap, crack or piece, the diameter of a hole.
    pub size: f64,
    /// How much it grows in a year, in mm.
    pub growth: f64,
    /// The largest it becomes, in mm.
    pub most: f64,
    /// Year in which it first shows.
    pub onset: f64,
    /// Year in which it was mended or went with a piece of the block; `None` while it stands.
    pub ended: Option<f64>,
}

impl Damage {
    /// Whether the block has it in a year.
    pub fn stands(&self, year: f64) -> bool {
        self.onset <= year && self.ended.is_none_or(|end| year < end)
    }

    /// Its size in a year, in mm; before its onset, its size when new.
    pub fn size_at(&self, year: f64) -> f64 {
        (self.size + self.growth * (year - self.onset).max(0.0)).min(self.most)
    }

    /// Its narrower side in a year, in mm: what ink must not fill.
    pub fn narrow_at(&self, year: f64) -> f64 {
        match self.wound {
            Wound::Gap { .. } | Wound::Hole { .. } => self.size_at(year),
            Wound::Crack { wide, .. } => self.crack_width(wide, year),
            Wound::Piece { depth, .. } => depth.min(1.0) * self.size_at(year),
        }
    }

    /// Where it lies in a year, in mm in the block's frame: the box around what it takes away.
    pub fn box_at(&self, year: f64) -> Rect {
        let size = self.size_at(year);
        match self.wound {
            Wound::Gap { at, .. } => Rect::new(at.x, at.y, 0.0, 0.0).grown(0.5 * size + 0.15),
            Wound::Hole { at } => Rect::new(at.x, at.y, 0.0, 0.0).grown(0.55 * size),
            Wound::Crack { .. } | Wound::Piece { .. } => {
                let ring = self.ring(year);
                Rect::around(ring).unwrap_or(Rect::new(0.0, 0.0, 0.0, 0.0))
            }
        }
    }

    /// Width of a crack at its beginning: it opens by a hundredth of a millimetre in two to three years.
    fn crack_width(&self, wide: f64, year: f64) -> f64 {
        (wide + 0.004 * (year - self.onset).max(0.0)).min(0.45)
    }

    /// The closed line of what it takes away; empty for a gap, which is taken out of its stroke.
    fn ring(&self, year: f64) -> Vec<Point> {
        let size = self.size_at(year);
        let ragged = Noise::new(u64::from(self.id) ^ self.onset.to_bits(), "edge of a wound", 0.8);
        match self.wound {
            Wound::Gap { .. } => Vec::new(),
            Wound::Hole { at } => (0..20)
                .map(|i| {
                    let d = towards(std::f64::consts::TAU * f64::from(i) / 20.0);
                    at + d * (0.5 * size * (1.0 + 0.12 * ragged.at(2.0 * d.x, 2.0 * d.y)))
                })
                .collect(),
            Wound::Crack { from, angle, wide } => {
                let along = towards(angle);
                let side = across(along);
                let slow = Noise::new(u64::from(self.id), "way of a crack", 9.0);
                let steps = (size / 0.5).ceil().max(4.0) as usize;
                let width = self.crack_width(wide, year);
                let place = |i: usize, sign: f64| {
                    let s = size * i as f64 / steps as f64;
                    let open = width * (1.0 - (s / size).powi(2)) * (1.0 + 0.5 * ragged.at(s, sign));
                    from + along * s
                        + side * (0.5 * slow.at(s, 0.0) + 0.08 * ragged.at(s, 5.0) + sign * open / 2.0)
                };
                (0..=steps).map(|i| place(i, -1.0)).chain((0..=steps).rev().map(|i| place(i, 1.0))).collect()
            }
            Wound::Piece { at, inwards, depth } => {
                let (inward, along) = (towards(inwards), across(towards(inwards)));
                let n = 16;
                let arc = (0..=n).map(|i| {
                    let a = std::f64::consts::PI * f64::from(i) / f64::from(n);
                    let r = 1.0 + 0.3 * ragged.at(3.0 * a, 0.0);
                    at + along * (a.cos() * 0.5 * size * r) + inward * (a.sin() * depth * size * r)
                });
                // Beyond the edge as well: rules stand a little out of the design.
                arc.chain([
                    at - along * (0.5 * size) - inward * 1.5,
                    at + along * (0.5 * size) - inward * 1.5,
                ])
                .collect()
            }
        }
    }

    /// Takes it out of the strokes of a block, as it is in a year.
    pub(super) fn strike(&self, strokes: &mut Vec<Stroke>, year: f64) {
        if let Wound::Gap { stroke, at } = self.wound {
            let size = self.size_at(year);
            let away = |s: &Stroke| s.places().iter().map(|p| p.distance(at)).fold(f64::MAX, f64::min);
            // A line that is broken already is several strokes of one number.
            let broken = (0..strokes.len())
                .filter(|&i| strokes[i].id == stroke)
                .min_by(|&a, &b| away(&strokes[a]).total_cmp(&away(&strokes[b])));
            if let Some(i) = broken {
                let parts = parted(&strokes[i], at, size);
                strokes.splice(i..=i, parts);
            }
            return;
        }
        let ring = self.ring(year);
        if ring.len() > 2 {
            strokes.push(Stroke {
                id: u32::MAX,
                kind: StrokeKind::Solid,
                field: 0,
                inks: false,
                path: Path::Area(vec![ring]),
            });
        }
    }
}

/// The parts of a line with a gap of `size` mm about the place of it nearest to `at`.
fn parted(stroke: &Stroke, at: Point, size: f64) -> Vec<Stroke> {
    let Path::Line(knots) = &stroke.path else { return vec![stroke.clone()] };
    let mut run = 0.0;
    let runs: Vec<f64> = (0..knots.len())
        .map(|i| {
            if i > 0 {
                run += knots[i].at.distance(knots[i - 1].at);
            }
            run
        })
        .collect();
    // The nearest place of the line itself, not only of its knots.
    let nearest = knots
        .windows(2)
        .zip(&runs)
        .map(|(k, &start)| {
            let (d, long) = (unit(k[1].at - k[0].at), k[0].at.distance(k[1].at));
            let s = super::curve::dot(at - k[0].at, d).clamp(0.0, long);
            ((k[0].at + d * s).distance(at), start + s)
        })
        .min_by(|a, b| a.0.total_cmp(&b.0));
    let Some((_, middle)) = nearest else { return vec![stroke.clone()] };
    let (from, to) = (middle - size / 2.0, middle + size / 2.0);
    let mut parts = Vec::new();
    for (low, high) in [(f64::MIN, from), (to, f64::MAX)] {
        let mut part: Vec<_> =
            knots.iter().zip(&runs).filter(|&(_, &r)| r >= low && r <= high).map(|(k, _)| *k).collect();
        // The broken end itself, less the round that every end has.
        let edge = if high < f64::MAX { high } else { low };
        if let Some(end) = knot_at(knots, &runs, edge) {
            let blunt = 0.35 * end.width;
            let inner = if high < f64::MAX { edge - blunt } else { edge + blunt };
            part.retain(|k| k.at.distance(end.at) > blunt);
            if let Some(k) = knot_at(knots, &runs, inner) {
                if high < f64::MAX { part.push(k) } else { part.insert(0, k) }
            }
        }
        if part.len() > 1 {
            parts.push(Stroke { path: Path::Line(part), ..stroke.clone() });
        }
    }
    parts
}

fn knot_at(knots: &[super::Knot], runs: &[f64], run: f64) -> Option<super::Knot> {
    let i = runs.windows(2).position(|r| r[0] <= run && run <= r[1])?;
    let t = (run - runs[i]) / (runs[i + 1] - runs[i]).max(1e-9);
    let (a, b) = (knots[i], knots[i + 1]);
    Some(super::Knot { at: a.at + (b.at - a.at) * t, width: a.width + (b.width - a.width) * t })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::block::{Knot, StrokeKind};

    #[test]
    fn a_gap_parts_its_line_and_grows_with_the_years() {
        let knots = (0..=40).map(|i| Knot { at: Point::new(f64::from(i) * 0.25, 0.0), width: 0.3 }).collect();
        let stroke =
            Stroke { id: 7, kind: StrokeKind::Contour, field: 0, inks: true, path: Path::Line(knots) };
        let damage = Damage {
            id: 0,
            class: DamageClass::Break,
            wound: Wound::Gap { stroke: 7, at: Point::new(4.0, 0.05) },
            size: 0.6,
            growth: 0.01,
            most: 1.0,
            onset: 1600.0,
            ended: None,
        };
        let mut strokes = vec![stroke.clone()];
        damage.strike(&mut strokes, 1600.0);
        assert_eq!(strokes.len(), 2);
        let gap = |strokes: &[Stroke]| strokes[1].places()[0].x - strokes[0].places().last().unwrap().x;
        // The ends are round by 0.35 of their width each beyond the last knot.
        assert!((gap(&strokes) - 0.6 - 0.21).abs() < 0.02, "{}", gap(&strokes));
        let mut later = vec![stroke];
        damage.strike(&mut later, 1620.0);
        assert!((gap(&later) - gap(&strokes) - 0.2).abs() < 0.02);
    }
}
