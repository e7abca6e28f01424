//! How a block comes to harm: which damage, where, how large.

use sheet::Point;

use super::Material;
use super::damage::{Damage, DamageClass, Wound};
use super::life::Life;
use super::paint::Painted;
use super::stroke::{Path, Stroke, StrokeKind};
use crate::chance::Chance;

/// Chances of each class for a piece of damage to wood, then to metal, which neither cracks along a grain nor feeds
/// worms. Common practice, no source: breaks are by far the most frequent.
const CLASSES: [(DamageClass, [f64; 2]); 6] = [
    (DamageClass::Break, [0.63, 0.72]),
    (DamageClass::FrameBreak, [0.15, 0.16]),
    (DamageClass::Crack, [0.04, 0.0]),
    (DamageClass::Wormhole, [0.09, 0.0]),
    (DamageClass::Chip, [0.075, 0.1]),
    (DamageClass::LostCorner, [0.015, 0.02]),
];
/// Diameters of wormholes, mm: of north-east and of south-west Europe (Hedges 2013, *Biology Letters* 9).
pub(super) const WORMS: [f64; 2] = [1.4, 2.3];
/// Share of the pieces broken off the edge that are glued back some day. Common practice, no source.
const GLUED: f64 = 0.06;
/// Of what damage would take, this share must have stood in ink, or it would not show.
const SHOWS: f64 = 0.45;
/// Cells to the mm where it is asked what damage takes.
const FINE: f64 = 20.0;

impl Life {
    /// Adds one damage.
    pub(super) fn befall(&mut self, onset: f64, until: f64, worm: f64, chance: &mut Chance) {
        let wood = usize::from(self.block.material == Material::Metal);
        let mut draw = chance.unit();
        let class = CLASSES
            .iter()
            .find(|(_, p)| {
                draw -= p[wood];
                draw < 0.0
            })
            .map_or(DamageClass::Break, |c| c.0);
        for attempt in 0..40 {
            // A block without a frame, or without ink at its corners, suffers another way.
            let class = if attempt < 20 { class } else { DamageClass::Break };
            let Some(wound) = self.wound(class, worm, chance) else { continue };
            let damage = self.sized(class, wound, onset, until, worm, chance);
            if self.would_show(&damage) {
                self.damages.push(damage);
                return;
            }
        }
    }

    fn sized(
        &self,
        class: DamageClass,
        wound: Wound,
        onset: f64,
        until: f64,
        worm: f64,
        chance: &mut Chance,
    ) -> Damage {
        let left = (until - onset).max(1.0);
        let (size, growth, most) = match class {
            DamageClass::Break => {
                let size = 0.2 + chance.unit().powf(1.6);
                (size, if chance.happens(0.3) { chance.between(0.0, 0.3) / left } else { 0.0 }, 1.6)
            }
            DamageClass::FrameBreak => (chance.between(0.25, 1.8), 0.0, 2.5),
            DamageClass::Wormhole => {
                let size = worm * (1.0 + chance.normal(0.08));
                (size, 0.0, size)
            }
            DamageClass::Chip => (chance.between(1.0, 5.0), chance.between(0.0, 0.02), 8.0),
            DamageClass::LostCorner => (chance.between(3.0, 9.0), chance.between(0.0, 0.01), 12.0),
            DamageClass::Crack => {
                let whole = self.block.size.0.0.max(self.block.size.1.0);
                let most = whole * chance.between(0.2, 1.05);
                let size = most * chance.between(0.15, 0.5);
                (size, (most - size) / chance.between(10.0, 80.0), most)
            }
        };
        let loose = matches!(class, DamageClass::Chip | DamageClass::LostCorner);
        let mended = onset + chance.between(1.0, 15.0);
        let ended = (loose && chance.happens(GLUED) && mended < until).then_some(mended);
        Damage { id: self.damages.len() as u32, class, wound, size, growth, most, onset, ended }
    }

    fn wound(&self, class: DamageClass, worm: f64, chance: &mut Chance) -> Option<Wound> {
        let r = self.block.bounds();
        let inside = |chance: &mut Chance| Point::new(r.w * chance.unit(), r.h * chance.unit());
        Some(match class {
            DamageClass::Break => self.gap(|k| k != StrokeKind::Frame && k != StrokeKind::Letter, chance)?,
            DamageClass::FrameBreak => self.gap(|k| k == StrokeKind::Frame, chance)?,
            DamageClass::Wormhole => {
                // Worms bore where worms have bored.
                let earlier: Vec<Point> = self
                    .damages
                    .iter()
                    .filter_map(|d| match d.wound {
                        Wound::Hole { at } => Some(at),
                        _ => None,
                    })
                    .collect();
                let at = if earlier.is_empty() || chance.happens(0.4) {
                    inside(chance)
                } else {
                    let near = *chance.pick(&earlier);
                    near + Point::new(chance.normal(5.0 * worm), chance.normal(5.0 * worm))
                };
                Wound::Hole { at }
            }
            DamageClass::Crack => {
                let grain = self.block.grain.radians();
                let from_edge = chance.happens(0.7);
                let back = chance.happens(0.5);
                let angle = grain + if back { std::f64::consts::PI } else { 0.0 } + chance.normal(0.02);
                let along = super::curve::towards(angle);
                let start = inside(chance);
                // Back along the grain to the edge of the block.
                let reach = |p: f64, d: f64, far: f64| {
                    if d > 1e-6 {
                        p / d
                    } else if d < -1e-6 {
                        (p - far) / d
                    } else {
                        f64::MAX
                    }
                };
                let to_edge = reach(start.x, along.x, r.w).min(reach(start.y, along.y, r.h));
                let from = if from_edge { start - along * to_edge } else { start };
                Wound::Crack { from, angle, wide: chance.between(0.1, 0.22) }
            }
            DamageClass::Chip | DamageClass::LostCorner => {
                let corner = class == DamageClass::LostCorner;
                let side = chance.below(4);
                let c = r.corners();
                let (a, b) = (c[side], c[(side + 1) % 4]);
                let edge = super::curve::unit(b - a);
                let inward = super::curve::across(edge);
                let angle = inward.y.atan2(inward.x);
                if corner {
                    let inwards = angle - std::f64::consts::FRAC_PI_4;
                    Wound::Piece { at: a, inwards, depth: chance.between(0.3, 0.5) }
                } else {
                    let at = super::curve::mixed(a, b, chance.between(0.06, 0.94));
                    Wound::Piece { at, inwards: angle + chance.about(0.3), depth: chance.between(0.18, 0.5) }
                }
            }
        })
    }

    /// A gap in some line, likelier in long and in thin ones.
    fn gap(&self, wanted: impl Fn(StrokeKind) -> bool, chance: &mut Chance) -> Option<Wound> {
        let weight = |s: &Stroke| match &s.path {
            Path::Line(knots) if s.inks && wanted(s.kind) && s.length() > 1.2 => {
                let mean = knots.iter().map(|k| k.width).sum::<f64>() / knots.len() as f64;
                s.length() / mean.max(0.12)
            }
            _ => 0.0,
        };
        let weights: Vec<f64> = self.block.strokes.iter().map(weight).collect();
        let whole: f64 = weights.iter().sum();
        let mut draw = chance.unit() * whole;
        let i = weights.iter().position(|w| {
            draw -= w;
            draw < 0.0
        })?;
        let stroke = &self.block.strokes[i];
        let places = stroke.places();
        let (at, _) = super::curve::at(&places, chance.between(0.12, 0.88));
        Some(Wound::Gap { stroke: stroke.id, at })
    }

    /// Whether what it takes away stood in ink until then.
    fn would_show(&self, damage: &Damage) -> bool {
        let place = damage.box_at(damage.onset).grown(0.2);
        let Some(place) = place.shared(self.block.bounds().grown(0.6)) else { return false };
        let near = self.strokes_in(damage.onset, Some(place), |d| d.stands(damage.onset));
        let mut after = near.clone();
        damage.strike(&mut after, damage.onset);
        let per_mm = FINE.min(60.0 * FINE / place.w.max(place.h).max(1.0));
        let area = |s: &[Stroke]| Painted::of(s, self.block.knife, place, per_mm).area();
        let lost = area(&near) - area(&after);
        let size = damage.size;
        let whole = match &damage.wound {
            Wound::Gap { stroke, at } => {
                let wide = near.iter().filter(|s| s.id == *stroke).find_map(|s| match &s.path {
                    Path::Line(knots) => knots
                        .iter()
                        .min_by(|a, b| a.at.distance(*at).total_cmp(&b.at.distance(*at)))
                        .map(|k| k.width),
                    Path::Area(_) => None,
                });
                size * wide.unwrap_or(0.2)
            }
            Wound::Hole { .. } => 0.6 * size * size,
            Wound::Crack { wide, .. } => 0.35 * size * wide,
            Wound::Piece { depth, .. } => 0.25 * size * size * depth,
        };
        lost > SHOWS * whole && lost > 0.02
    }
}
