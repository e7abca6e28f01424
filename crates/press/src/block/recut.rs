//! A block cut again after another, by another hand.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use sheet::{Degrees, Mm, Point, Rect};

use super::curve::{across, unit};
use super::fields::{self, Run};
use super::stroke::{Knot, Path, Stroke, StrokeKind};
use super::{Block, Material};
use crate::chance::Chance;
use crate::noise::Noise;

/// How carefully a block is copied.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CopyCare {
    /// By eye, in haste: lines wander by one to two millimetres.
    Coarse,
    /// By eye.
    Usual,
    /// By eye and compasses.
    Close,
    /// Traced on the wood: lines wander by a twentieth to a seventh of a millimetre.
    Traced,
}

/// What a degree of care leaves. Lengths in mm; the wanderings span what is seen between real copies (1 mm and more,
/// one traced copy at 0.1 mm), the rest is common practice without a source.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Figures {
    /// How far a line lies from where it lay, root mean square after size and shape are fitted: least and most.
    wander: [f64; 2],
    /// Spread of the width of a line, as a share.
    width: f64,
    /// Spread of where a line ends.
    end: f64,
    /// Spread of the number of lines in a field, as a share.
    count: f64,
    /// How far the lines of a field are shifted, as a share of their distance: spread.
    phase: f64,
    /// Spread of the slope of a field, in degrees.
    slope: f64,
    /// Share of the small strokes that are left out; as many again are added.
    missing: f64,
    /// Spread of the size, as a share.
    size: f64,
}

impl CopyCare {
    /// Every degree of care.
    pub const ALL: [Self; 4] = [Self::Coarse, Self::Usual, Self::Close, Self::Traced];

    /// How far lines lie from where they lay in the first block, root mean square after an affine fit: least and most.
    pub fn wander(self) -> [Mm; 2] {
        self.figures().wander.map(Mm)
    }

    fn figures(self) -> Figures {
        match self {
            Self::Coarse => Figures {
                wander: [1.0, 1.8],
                width: 0.24,
                end: 0.9,
                count: 0.22,
                phase: 0.5,
                slope: 7.0,
                missing: 0.14,
                size: 0.035,
            },
            Self::Usual => Figures {
                wander: [0.45, 0.8],
                width: 0.18,
                end: 0.5,
                count: 0.14,
                phase: 0.4,
                slope: 4.0,
                missing: 0.08,
                size: 0.02,
            },
            Self::Close => Figures {
                wander: [0.2, 0.35],
                width: 0.14,
                end: 0.3,
                count: 0.09,
                phase: 0.3,
                slope: 2.0,
                missing: 0.05,
                size: 0.01,
            },
            Self::Traced => Figures {
                wander: [0.06, 0.14],
                width: 0.11,
                end: 0.16,
                count: 0.05,
                phase: 0.16,
                slope: 0.8,
                missing: 0.02,
                size: 0.003,
            },
        }
    }
}

/// Shares of the wandering's square: slow (over 30 mm), middling (13 mm), quick (3.4 mm), and line by line.
const SHARES: [f64; 4] = [0.3, 0.28, 0.17, 0.25];
/// A hand draws each line cleanly however far it is off: of the quick wandering and of the line's own no more than this,
/// root mean square in mm. What is over goes to the slow ones.
const MOST: [f64; 2] = [0.14, 0.34];
/// Spread of [`Noise::at`].
const NOISE_SPREAD: f64 = 0.42;

/// The way of the copyist's hand.
struct Wandering {
    fields: Vec<([Noise; 2], f64)>,
    own: f64,
}

impl Wandering {
    fn new(seed: u64, wander: f64) -> Self {
        let quick = (wander * SHARES[2].sqrt()).min(MOST[0]);
        let own = (wander * SHARES[3].sqrt()).min(MOST[1]);
        let rest = (wander * wander - quick * quick - own * own).max(0.0);
        let slow = |share: f64| (rest * share / (SHARES[0] + SHARES[1])).sqrt();
        let sizes = [(30.0, slow(SHARES[0])), (13.0, slow(SHARES[1])), (3.4, quick)];
        // Half of each square goes across and half goes down.
        let each = std::f64::consts::FRAC_1_SQRT_2;
        let fields = sizes
            .iter()
            .map(|&(grain, size)| {
                let noise = |salt: u64| Noise::new(seed ^ salt, "wandering of a copy", grain);
                ([noise(grain as u64), noise(0x77 + grain as u64)], size * each / NOISE_SPREAD)
            })
            .collect();
        Self { fields, own: own * each }
    }

    fn at(&self, p: Point) -> Point {
        self.fields
            .iter()
            .map(|([x, y], size)| Point::new(x.at(p.x, p.y), y.at(p.x, p.y)) * *size)
            .fold(Point::new(0.0, 0.0), |a, b| a + b)
    }
}

impl Block {
    /// The block cut again after a print of this one: every line drawn anew, shading with another count, the frame ruled
    /// afresh, small strokes left out or added, the size a little other. `mirrored` when the print was traced on the
    /// wood without being turned. Strokes that answer to one of this block keep its number.
    #[must_use]
    pub fn recut(&self, care: CopyCare, mirrored: bool, seed: u64) -> Self {
        let figures = care.figures();
        let mut chance = Chance::new(seed, "a copy");
        let size = 1.0 + chance.normal(figures.size);
        let stretch = [
            size * (1.0 + chance.normal(0.25 * figures.size)),
            size * (1.0 + chance.normal(0.25 * figures.size)),
        ];
        let wandering = Wandering::new(chance.seed(), chance.between(figures.wander[0], figures.wander[1]));
        let heavier = 1.0 + chance.normal(figures.width * 0.6);
        let mut copyist = Copyist {
            figures,
            wandering,
            heavier,
            next: self.strokes.iter().map(|s| s.id + 1).max().unwrap_or(0),
            extent: self.size.1.0,
            chance,
        };
        let copied = copyist.all(&self.strokes);
        let wide = self.size.0.0 * stretch[0];
        let placed = |p: Point| {
            let q = Point::new(p.x * stretch[0], p.y * stretch[1]);
            if mirrored { Point::new(wide - q.x, q.y) } else { q }
        };
        let strokes: Vec<Stroke> = copied
            .iter()
            .map(|s| s.mapped(placed))
            .map(|s| if mirrored { turned_over(s) } else { s })
            .collect();
        let hole = self.hole.and_then(|h| Rect::around(h.corners().map(placed)));
        // The wood is as large as the design has become: its corner is where the outermost lines are.
        let whole = Rect::new(0.0, 0.0, wide, self.size.1.0 * stretch[1]);
        let bounds = strokes.iter().filter_map(Stroke::bounds).fold(whole, Rect::united);
        let corner = Point::new(bounds.x, bounds.y);
        let strokes = strokes.iter().map(|s| s.mapped(|p| p - corner)).collect();
        let hole = hole.map(|h| Rect::new(h.x - corner.x, h.y - corner.y, h.w, h.h));
        let mut chance = copyist.chance;
        Self {
            kind: self.kind,
            size: (Mm(bounds.w), Mm(bounds.h)),
            material: Material::Wood,
            grain: Degrees(
                if chance.happens(0.75) { self.grain.0 } else { 90.0 - self.grain.0 } + chance.normal(2.5),
            ),
            strokes,
            hole,
            knife: chance.seed(),
            uneven: chance.between(0.01, 0.05),
        }
    }

    /// A cast of this block in type metal: all of it a little smaller, the same edges, later damage of its own.
    /// `shrinkage` as a share: 0.005 to 0.01.
    #[must_use]
    pub fn cast(&self, shrinkage: f64, seed: u64) -> Self {
        let k = 1.0 - shrinkage;
        Self {
            size: (Mm(self.size.0.0 * k), Mm(self.size.1.0 * k)),
            material: Material::Metal,
            strokes: self.strokes.iter().map(|s| s.mapped(|p| p * k)).collect(),
            hole: self.hole.map(|h| Rect::new(h.x * k, h.y * k, h.w * k, h.h * k)),
            uneven: Chance::new(seed, "a cast").between(0.005, 0.02),
            ..self.clone()
        }
    }
}

/// A mirrored area runs the other way round, and would print as its own hole.
fn turned_over(stroke: Stroke) -> Stroke {
    match stroke.path {
        Path::Area(lines) => {
            let path = Path::Area(lines.into_iter().map(|l| l.into_iter().rev().collect()).collect());
            Stroke { path, ..stroke }
        }
        Path::Line(_) => stroke,
    }
}

struct Copyist {
    figures: Figures,
    wandering: Wandering,
    heavier: f64,
    next: u32,
    extent: f64,
    chance: Chance,
}

impl Copyist {
    fn all(&mut self, strokes: &[Stroke]) -> Vec<Stroke> {
        let runs = fields::runs(strokes);
        // A run is drawn where its first line stood, so that white stays above the black it is cut into.
        let first: BTreeMap<usize, &Run> = runs.iter().filter_map(|r| Some((*r.0.first()?, r))).collect();
        let mut out = Vec::with_capacity(strokes.len());
        for (i, stroke) in strokes.iter().enumerate() {
            if fields::is_shading(stroke) {
                if let Some(run) = first.get(&i) {
                    self.run(strokes, run, &mut out);
                }
                continue;
            }
            match stroke.kind {
                StrokeKind::Sprig if self.chance.happens(self.figures.missing) => {
                    // Left out, or cut where it never was.
                    if self.chance.happens(0.5) {
                        let by = Point::new(self.chance.about(1.2), self.chance.about(1.2));
                        out.push(self.stroke(stroke, stroke.id));
                        let id = self.number();
                        let added = self.stroke(&stroke.mapped(|p| p + by), id);
                        out.push(added);
                    }
                }
                StrokeKind::Frame => out.push(self.rule(stroke)),
                StrokeKind::Letter => out.push(self.letter(stroke)),
                _ => out.push(self.stroke(stroke, stroke.id)),
            }
        }
        out
    }

    fn number(&mut self) -> u32 {
        self.next += 1;
        self.next - 1
    }

    /// A shift that is the line's own.
    fn own(&mut self) -> Point {
        let by = self.wandering.own;
        Point::new(self.chance.normal(by), self.chance.normal(by))
    }

    fn stroke(&mut self, stroke: &Stroke, id: u32) -> Stroke {
        let own = if stroke.kind == StrokeKind::Solid { Point::new(0.0, 0.0) } else { self.own() };
        let moved = stroke.mapped(|p| p + self.wandering.at(p) + own);
        let path = match moved.path {
            Path::Line(knots) => Path::Line(self.line(knots)),
            area @ Path::Area(_) => area,
        };
        Stroke { id, path, ..moved }
    }

    /// Other widths and other ends.
    fn line(&mut self, knots: Vec<Knot>) -> Vec<Knot> {
        let heavier = self.heavier * (1.0 + self.chance.normal(self.figures.width));
        let mut knots: Vec<Knot> =
            knots.into_iter().map(|k| Knot { width: (k.width * heavier).max(0.08), ..k }).collect();
        let long: f64 = knots.windows(2).map(|k| k[0].at.distance(k[1].at)).sum();
        let closed = knots.first().zip(knots.last()).is_some_and(|(a, b)| a.at.distance(b.at) < 0.6);
        if closed {
            return knots;
        }
        for _ in 0..2 {
            let by = self.chance.normal(self.figures.end.min(0.25 * long));
            ended(&mut knots, by);
            knots.reverse();
        }
        knots
    }

    /// A line of shading: its ends go where things have gone, and between them it is drawn in one go.
    fn shaded(&mut self, knots: Vec<Knot>) -> Vec<Knot> {
        let (Some(first), Some(last)) = (knots.first(), knots.last()) else { return knots };
        let own = self.own() * 0.6;
        let (start, end) = (self.wandering.at(first.at) + own, self.wandering.at(last.at) + own);
        let n = (knots.len() - 1).max(1) as f64;
        let moved = knots
            .iter()
            .enumerate()
            .map(|(i, k)| Knot { at: k.at + start + (end - start) * (i as f64 / n), ..*k })
            .collect();
        self.line(moved)
    }

    fn rule(&mut self, stroke: &Stroke) -> Stroke {
        let Path::Line(knots) = &stroke.path else { return self.stroke(stroke, stroke.id) };
        let (Some(a), Some(b)) = (knots.first(), knots.last()) else { return stroke.clone() };
        if a.at.distance(b.at) < 0.5 * stroke.length() {
            return self.stroke(stroke, stroke.id);
        }
        let (own, other) = (self.own(), self.own());
        let (start, end) = (a.at + self.wandering.at(a.at) + own, b.at + self.wandering.at(b.at) + other);
        let bent = across(unit(end - start)) * self.chance.normal(0.15);
        let mean = knots.iter().map(|k| k.width).sum::<f64>() / knots.len() as f64;
        let weight = Noise::new(self.chance.seed(), "a rule cut again", 2.2);
        let n = knots.len();
        let knots = (0..n)
            .map(|i| {
                let t = i as f64 / (n - 1).max(1) as f64;
                let at = start + (end - start) * t + bent * (std::f64::consts::PI * t).sin();
                Knot { at, width: mean * self.heavier * (1.0 + 0.25 * weight.at(at.x, at.y)) }
            })
            .collect();
        let path = Path::Line(self.line(knots));
        Stroke { path, ..stroke.clone() }
    }

    /// A letter is set apart from its fellows anew, and now and then turned the wrong way (N and S above all).
    fn letter(&mut self, stroke: &Stroke) -> Stroke {
        let Some(bounds) = stroke.bounds() else { return stroke.clone() };
        let small = bounds.h < 0.25 * self.extent;
        if !small {
            return self.stroke(stroke, stroke.id);
        }
        let space = Point::new(
            self.chance.normal(1.5 * self.wandering.own),
            self.chance.normal(0.7 * self.wandering.own),
        );
        let c = bounds.centre();
        let reversed = self.chance.happens(0.6 * self.figures.missing);
        let grow = 1.0 + self.chance.normal(0.5 * self.figures.width);
        let at = c + self.wandering.at(c) + space;
        let moved = stroke.mapped(|p| {
            let q = (p - c) * grow;
            at + if reversed { Point::new(-q.x, q.y) } else { q }
        });
        if reversed { turned_over(moved) } else { moved }
    }

    /// A field of shading drawn again.
    fn run(&mut self, strokes: &[Stroke], run: &Run, out: &mut Vec<Stroke>) {
        let n = run.0.len();
        let first = &strokes[run.0[0]];
        if n < 4 {
            for &i in &run.0 {
                if !self.chance.happens(self.figures.missing) {
                    let again = self.stroke(&strokes[i], strokes[i].id);
                    out.push(again);
                }
            }
            return;
        }
        let count = ((n as f64 * (1.0 + self.chance.normal(self.figures.count))).round() as usize).max(3);
        let phase = self.chance.normal(self.figures.phase).clamp(-0.5, 0.5);
        let slope = self.chance.normal(self.figures.slope).to_radians();
        let apart = (n - 1) as f64 / (count - 1) as f64;
        for k in 0..count {
            let place = (k as f64 + phase) * apart + self.chance.normal(0.06);
            let place = place.clamp(-0.45, n as f64 - 0.55);
            let knots = fields::between(strokes, run, place);
            // Each line leans about the end at which it starts.
            let hinge = knots[0].at;
            let (s, c) = slope.sin_cos();
            let leant = knots
                .into_iter()
                .map(|k| {
                    let q = k.at - hinge;
                    Knot { at: hinge + Point::new(c * q.x - s * q.y, s * q.x + c * q.y), ..k }
                })
                .collect();
            // The nearest line of the first block keeps its number where the count is the same.
            let id = if count == n { strokes[run.0[k]].id } else { self.number() };
            let path = Path::Line(self.shaded(leant));
            out.push(Stroke { id, path, ..first.clone() });
        }
    }
}

/// Lengthens a line at its last end by so many mm, or shortens it.
fn ended(knots: &mut Vec<Knot>, by: f64) {
    let n = knots.len();
    if n < 2 {
        return;
    }
    let (last, before) = (knots[n - 1], knots[n - 2]);
    let along = unit(last.at - before.at);
    if by > 0.0 {
        let steps = (by / 0.35).ceil() as usize;
        knots.extend((1..=steps).map(|k| {
            let t = k as f64 / steps as f64;
            Knot { at: last.at + along * (by * t), width: last.width * (1.0 - 0.3 * t) }
        }));
        return;
    }
    let mut left = -by;
    while knots.len() > 3 && left > 0.0 {
        let k = knots.len();
        left -= knots[k - 1].at.distance(knots[k - 2].at);
        knots.pop();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::block::{BlockKind, affine_rest};
    use crate::fount::{Founts, Outline};

    /// Middles of closed contours, which have no ends that could be cut otherwise.
    fn pairs(a: &Block, b: &Block) -> Vec<(Point, Point)> {
        let there: BTreeMap<u32, &Stroke> = b.strokes.iter().map(|s| (s.id, s)).collect();
        let middle = |s: &Stroke| s.bounds().map(Rect::centre);
        let closed = |s: &&Stroke| {
            let p = s.places();
            p.first().zip(p.last()).is_some_and(|(a, b)| a.distance(*b) < 0.3)
        };
        a.strokes
            .iter()
            .filter(|s| s.kind == StrokeKind::Contour)
            .filter(closed)
            .filter_map(|s| Some((middle(s)?, middle(there.get(&s.id)?)?)))
            .collect()
    }

    #[test]
    fn the_strokes_of_a_copy_wander_by_what_its_care_says() {
        let founts = Founts::open().unwrap();
        for kind in [BlockKind::TailPiece, BlockKind::HeadPiece, BlockKind::Arms] {
            // A design with enough leaves and flowers that are wholly seen.
            let (block, wholes) = (0..40)
                .map(|seed| Block::cut(&founts, kind, kind.size(Mm(80.0), seed), seed))
                .map(|b| (pairs(&b, &b).len(), b))
                .max_by_key(|(n, _)| *n)
                .map(|(n, b)| (b, n))
                .unwrap();
            assert!(wholes >= 25, "{kind:?}: {wholes}");
            for care in CopyCare::ALL {
                let [least, most] = care.wander();
                let rests: Vec<f64> = (0..8)
                    .map(|seed| affine_rest(&pairs(&block, &block.recut(care, false, seed))).unwrap())
                    .collect();
                let mean = rests.iter().sum::<f64>() / 8.0;
                // The fit takes a part of the slowest wandering: up to a third of all.
                let range = 0.62 * least.0..=1.05 * most.0;
                assert!(range.contains(&mean), "{kind:?} {care:?}: {mean} mm of {least:?} to {most:?}");
                assert!(rests.iter().all(|r| *r > 0.4 * least.0 && *r < 1.4 * most.0), "{rests:?}");
            }
        }
    }

    #[test]
    fn a_copy_has_other_counts_of_hatching_and_a_knife_of_its_own() {
        let founts = Founts::open().unwrap();
        let block = Block::cut(&founts, BlockKind::Pictorial, (Mm(80.0), Mm(60.0)), 5);
        let copy = block.recut(CopyCare::Usual, false, 1);
        let count = |b: &Block| b.strokes.iter().filter(|s| s.kind == StrokeKind::Hatch).count() as f64;
        assert!((count(&copy) / count(&block) - 1.0).abs() < 0.2);
        assert!(count(&copy) as i64 != count(&block) as i64 && copy.knife != block.knife);
        assert_eq!(copy, block.recut(CopyCare::Usual, false, 1));
    }

    #[test]
    fn a_cast_is_smaller_all_ways_and_keeps_every_stroke() {
        let founts = Founts::open().unwrap();
        let block = Block::cut(&founts, BlockKind::HeadPiece, (Mm(90.0), Mm(24.0)), 5);
        let cast = block.cast(0.008, 1);
        assert_eq!((cast.strokes.len(), cast.knife), (block.strokes.len(), block.knife));
        let lines = |b: &Block| Outline(b.strokes.iter().map(Stroke::places).collect()).bounds().unwrap().w;
        assert!((lines(&cast) / lines(&block) - 0.992).abs() < 1e-9);
    }
}
