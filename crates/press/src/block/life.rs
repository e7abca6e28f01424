//! The life of a block: what happened to it, in which year.

use serde::{Deserialize, Serialize};
use sheet::{Point, Rect};

use super::alteration::{Alteration, AlterationKind};
use super::befall::WORMS;
use super::damage::Damage;
use super::stroke::Stroke;
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

/// A year in thirty brings a fall, a flood or a hard frost: this many times the usual damage.
const BURST: (f64, f64) = (1.0 / 30.0, 6.0);
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
        // Pieces glued back are the only ones that go.
        let mended = |year: i32| {
            let years = 1600.0 + f64::from(year)..1601.0 + f64::from(year);
            life.damages.iter().filter(|d| d.ended.is_some_and(|e| years.contains(&e))).count()
        };
        assert!((0..60).all(|y| counts[y as usize + 1] + mended(y) >= counts[y as usize]) && counts[0] == 0);
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
