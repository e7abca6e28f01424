//! The life of a block: what happened to it, in which year.

use serde::{Deserialize, Serialize};
use sheet::{Point, Rect};

use super::alteration::{Alteration, AlterationKind};
use super::damage::{Damage, DamageClass, Wound};
use super::paint::Painted;
use super::stroke::{Path, Stroke, StrokeKind};
use super::wear::Wear;
use super::{Block, Face, Lie, Material};
use crate::chance::Chance;

/// A block with all that happens to it between two years.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Life {
    /// The block as it was cut.
    pub block: Block,
    /// The year in which it was cut.
    pub cut: f64,
    /// Damage in the order of its onset.
    pub damages: Vec<Damage>,
    /// What was done to it on purpose, in order.
    pub alterations: Vec<Alteration>,
    /// How its lines wear.
    pub wear: Wear,
}

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
const WORMS: [f64; 2] = [1.4, 2.3];
/// A year in thirty brings a fall, a flood or a hard frost: this many times the usual damage.
const BURST: (f64, f64) = (1.0 / 30.0, 6.0);
/// Of what damage would take, this share must have stood in ink, or it would not show.
const SHOWS: f64 = 0.45;
/// Cells to the mm where it is asked what damage takes.
const FINE: f64 = 20.0;

impl Life {
    /// Lets a block live from the year it was cut to another: `rate` is the mean number of damages in a year. Their
    /// numbers are over-dispersed (a gamma rate of shape 2 in each year, and bursts), as line breaks in old blocks are.
    pub fn lived(block: Block, cut: f64, until: f64, rate: f64, seed: u64) -> Self {
        let mut chance = Chance::new(seed, "life of a block");
        let wear = Wear::drawn(block.material == Material::Wood, chance.seed());
        let mut life = Self { block, cut, damages: Vec::new(), alterations: Vec::new(), wear };
        let worm = *chance.pick(&WORMS);
        let years = (until - cut).ceil().max(0.0) as usize;
        // The mean of a year with its bursts is the rate asked for.
        let usual = rate / (1.0 + BURST.0 * (BURST.1 - 1.0));
        for year in 0..years {
            let gamma = -((1.0 - chance.unit()) * (1.0 - chance.unit())).ln() / 2.0;
            let burst = if chance.happens(BURST.0) { BURST.1 } else { 1.0 };
            let count = poisson(usual * gamma * burst, &mut chance);
            let mut onsets: Vec<f64> = (0..count).map(|_| cut + year as f64 + chance.unit()).collect();
            onsets.sort_by(f64::total_cmp);
            for onset in onsets.into_iter().filter(|&o| o < until) {
                life.befall(onset, until, worm, &mut chance);
            }
        }
        life
    }

    /// Adds one damage.
    fn befall(&mut self, onset: f64, until: f64, worm: f64, chance: &mut Chance) {
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
        Damage { id: self.damages.len() as u32, class, wound, size, growth, most, onset, ended: None }
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

    /// The strokes in a year, with those damages that are wanted.
    pub(crate) fn strokes(&self, year: f64, wanted: impl Fn(&Damage) -> bool) -> Vec<Stroke> {
        self.strokes_in(year, None, wanted)
    }

    /// Of those, the ones that may reach into a box (mm), in their order.
    pub(crate) fn strokes_in(
        &self,
        year: f64,
        within: Option<Rect>,
        wanted: impl Fn(&Damage) -> bool,
    ) -> Vec<Stroke> {
        let near = |b: Rect| within.is_none_or(|w| b.grown(1.0).shared(w).is_some());
        let mut strokes: Vec<Stroke> =
            self.block.strokes.iter().filter(|s| s.bounds().is_some_and(near)).cloned().collect();
        self.wear.on(&mut strokes, year - self.cut);
        let made = |a: &&Alteration| a.year <= year;
        // Lines cut anew come before what befell them later; a strip sawn off takes all with it.
        for alteration in self.alterations.iter().filter(made).filter(|a| a.kind != AlterationKind::CutDown) {
            alteration.make(&mut strokes);
        }
        for damage in self.damages.iter().filter(|d| wanted(d) && near(d.box_at(year))) {
            damage.strike(&mut strokes, year);
        }
        for alteration in self.alterations.iter().filter(made).filter(|a| a.kind == AlterationKind::CutDown) {
            alteration.make(&mut strokes);
        }
        strokes
    }

    /// The printing surface in a year: `damp` is how much wider across the grain it is by the weather, as a share.
    pub fn face(&self, year: f64, damp: f64) -> Face {
        self.face_with(year, damp, |d| d.stands(year))
    }

    /// The printing surface in a year with other damage than it has: for asking what one damage takes away.
    pub fn face_with(&self, year: f64, damp: f64, wanted: impl Fn(&Damage) -> bool) -> Face {
        let lie = Lie {
            grain: self.block.grain,
            shrinkage: [0.02 * self.wear.shrunk(year - self.cut), self.wear.shrunk(year - self.cut) - damp],
            ..Lie::plain(self.block.bounds(), Point::new(0.0, 0.0))
        };
        Face { strokes: self.strokes(year, wanted), lie, knife: self.block.knife, uneven: self.block.uneven }
    }

    /// What is left of the block's outline in a year, mm in its own frame.
    pub fn outline(&self, year: f64) -> Rect {
        let whole = self.block.bounds();
        let sawn = |r: Rect, a: &Alteration| {
            let p = a.place;
            if p.h >= whole.h {
                if p.x <= 0.0 {
                    Rect::new(p.right(), r.y, r.right() - p.right(), r.h)
                } else {
                    Rect::new(r.x, r.y, p.x - r.x, r.h)
                }
            } else if p.y <= 0.0 {
                Rect::new(r.x, p.bottom(), r.w, r.bottom() - p.bottom())
            } else {
                Rect::new(r.x, r.y, r.w, p.y - r.y)
            }
        };
        self.alterations
            .iter()
            .filter(|a| a.kind == AlterationKind::CutDown && a.year <= year)
            .fold(whole, sawn)
    }

    /// Alters the block in a year, in a place that the seed chooses. Damage that lies wholly where a plug is let in, or
    /// where a strip is sawn off, ends.
    pub fn altered(&mut self, kind: AlterationKind, year: f64, seed: u64) {
        let mut chance = Chance::new(seed, "an alteration");
        let r = self.outline(year);
        let place = match kind {
            AlterationKind::CutDown => {
                let deep = chance.between(0.05, 0.16) * r.w.min(r.h);
                let (x, y, far) = (r.x - 3.0, r.y - 3.0, 6.0);
                match chance.below(4) {
                    0 => Rect::new(x, y, deep + 3.0, r.h + far),
                    1 => Rect::new(r.right() - deep, y, deep + 3.0, r.h + far),
                    2 => Rect::new(x, y, r.w + far, deep + 3.0),
                    _ => Rect::new(x, r.bottom() - deep, r.w + far, deep + 3.0),
                }
            }
            AlterationKind::Plug | AlterationKind::ReEntered => {
                let share = if kind == AlterationKind::Plug { (0.12, 0.25) } else { (0.35, 0.7) };
                let (w, h) = (r.w * chance.between(share.0, share.1), r.h * chance.between(share.0, share.1));
                // A plug is let in where the block had suffered.
                let hurt: Vec<Point> =
                    self.damages.iter().filter(|d| d.stands(year)).map(|d| d.box_at(year).centre()).collect();
                let c = if hurt.is_empty() || kind == AlterationKind::ReEntered {
                    Point::new(r.x + r.w * chance.unit(), r.y + r.h * chance.unit())
                } else {
                    *chance.pick(&hurt)
                };
                Rect::new(
                    (c.x - w / 2.0).clamp(r.x, r.right() - w),
                    (c.y - h / 2.0).clamp(r.y, r.bottom() - h),
                    w,
                    h,
                )
            }
        };
        if kind != AlterationKind::ReEntered {
            for d in self.damages.iter_mut().filter(|d| d.stands(year)) {
                let b = d.box_at(year);
                if b.corners().iter().all(|&c| place.holds(c)) {
                    d.ended = Some(year);
                }
            }
        }
        // Nothing can befall what is gone.
        if kind == AlterationKind::CutDown {
            self.damages.retain(|d| d.onset < year || !place.holds(d.box_at(d.onset).centre()));
        }
        self.alterations.push(Alteration { kind, place, year, hand: chance.seed() });
    }

    /// A cast of the block in metal made in a year, with the damage of that year and a life of its own until another.
    #[must_use]
    pub fn cast_off(&self, year: f64, until: f64, rate: f64, seed: u64) -> Self {
        let mut chance = Chance::new(seed, "casting off");
        let as_it_was = Block { strokes: self.strokes(year, |d| d.stands(year)), ..self.block.clone() };
        // The plank had shrunk before it was cast.
        let lie = self.face(year, 0.0).lie;
        let strokes = as_it_was.strokes.iter().map(|s| s.mapped(|p| lie.to_forme(p))).collect();
        let moved = Block { strokes, ..as_it_was };
        let mut numbered = moved.cast(chance.between(0.005, 0.01), chance.seed());
        // Parted lines are lines of their own in the metal.
        numbered.strokes.iter_mut().enumerate().for_each(|(i, s)| s.id = i as u32);
        Self::lived(numbered, year, until, rate, chance.seed())
    }
}

/// A number with this mean (Knuth 1969).
fn poisson(mean: f64, chance: &mut Chance) -> usize {
    let limit = (-mean).exp();
    let mut product = chance.unit();
    let mut n = 0;
    while product > limit && n < 500 {
        product *= chance.unit();
        n += 1;
    }
    n
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::block::BlockKind;
    use crate::fount::Founts;
    use sheet::Mm;

    fn life(seed: u64) -> Life {
        let founts = Founts::open().unwrap();
        let block = Block::cut(&founts, BlockKind::Pictorial, (Mm(70.0), Mm(55.0)), seed);
        Life::lived(block, 1600.0, 1660.0, 0.8, seed)
    }

    #[test]
    fn damage_only_gathers_but_for_repairs() {
        let mut life = life(4);
        assert!(life.damages.len() > 15, "{}", life.damages.len());
        let count = |life: &Life, year: f64| life.damages.iter().filter(|d| d.stands(year)).count();
        let counts: Vec<usize> = (0..=60).map(|y| count(&life, 1600.0 + f64::from(y))).collect();
        assert!(counts.windows(2).all(|w| w[0] <= w[1]) && counts[0] == 0);
        for d in &life.damages {
            assert!(d.size_at(d.onset + 30.0) >= d.size_at(d.onset));
        }
        let before = count(&life, 1650.0);
        life.altered(AlterationKind::Plug, 1650.0, 9);
        let ended = life.damages.iter().filter(|d| d.ended == Some(1650.0)).count();
        assert!(ended > 0 && before == count(&life, 1650.0) + ended, "{ended} of {before}");
    }

    #[test]
    fn the_number_of_damages_is_over_dispersed_about_the_rate() {
        let founts = Founts::open().unwrap();
        let block = Block::cut(&founts, BlockKind::Initial { letter: 'E' }, (Mm(25.0), Mm(25.0)), 1);
        let counts: Vec<f64> = (0..60)
            .map(|seed| Life::lived(block.clone(), 1600.0, 1610.0, 1.0, seed).damages.len() as f64)
            .collect();
        let mean = counts.iter().sum::<f64>() / 60.0;
        let variance = counts.iter().map(|c| (c - mean).powi(2)).sum::<f64>() / 59.0;
        // Sixty lives of ten years: the mean has a standard error of about 0.6.
        assert!((mean - 10.0).abs() < 2.0, "{mean}");
        assert!(variance > 1.3 * mean, "{variance} about {mean}");
    }

    #[test]
    fn a_block_shrinks_across_its_grain_and_hardly_along_it() {
        let life = life(2);
        let lie = life.face(1660.0, 0.0).lie;
        let r = life.block.bounds();
        let wide = |d: Point| lie.to_forme(r.centre() + d).distance(lie.to_forme(r.centre() - d));
        let (s, c) = life.block.grain.radians().sin_cos();
        let along = 1.0 - wide(Point::new(c, s)) / 2.0;
        let across = 1.0 - wide(Point::new(-s, c)) / 2.0;
        assert!(across > 0.0015 && across < 0.0095 && along < 0.0003, "{across} {along}");
    }
}
