//! Scrolls of foliage: a stem that winds in, with leaves along it and a flower or fruit at its heart.

use std::f64::consts::{PI, TAU};

use sheet::Point;

use super::foliage::{Flower, Leaf, Part};
use crate::block::curve::{self, across};
use crate::block::drawing::Drawing;
use crate::chance::Chance;

/// How the foliage of one block is made: all its scrolls agree.
#[derive(Debug, Clone, Copy)]
pub(in crate::block) struct Foliage {
    /// Turns of a scroll.
    pub turns: f64,
    /// Width of the stem at its root, as a share of the scroll's radius.
    pub stem: f64,
    /// Length of a leaf, as a share of the radius.
    pub leaf: f64,
    /// Width of a leaf, as a share of its length.
    pub wide: f64,
    /// Lobes of a leaf.
    pub lobes: u8,
    /// Leaves to a turn.
    pub leaves: u8,
    /// Petals of the flower; 0 for a fruit, 1 for a leaf, 2 for a bare curl.
    pub petals: u8,
    /// How leaves lean back from the stem, in radians.
    pub lean: f64,
}

impl Foliage {
    pub(in crate::block) fn drawn(chance: &mut Chance) -> Self {
        Self {
            turns: chance.between(0.8, 1.5),
            stem: chance.between(0.09, 0.24),
            leaf: chance.between(0.75, 1.2),
            wide: chance.between(0.34, 0.66),
            lobes: *chance.pick(&[1, 1, 2, 3, 4, 5]),
            leaves: chance.whole(4, 8) as u8,
            petals: *chance.pick(&[0, 1, 2, 4, 5, 6, 8]),
            lean: chance.between(0.5, 1.3),
        }
    }
}

impl Drawing {
    /// A scroll about a middle, its root at an angle on its rim; `hand` is 1 (clockwise) or -1.
    pub(in crate::block) fn scroll(&mut self, middle: Point, radius: f64, root: f64, hand: f64, f: Foliage) {
        let parts = self.scroll_parts(middle, radius, root, hand, f);
        self.parts(parts);
    }

    pub(in crate::block) fn scroll_parts(
        &mut self,
        middle: Point,
        radius: f64,
        root: f64,
        hand: f64,
        f: Foliage,
    ) -> Vec<Part> {
        let ring = 0.7 * radius;
        let bare = f.petals == 2;
        let inner = if bare { 0.1 } else { 0.3 };
        let spiral = curve::spiral(middle, ring, inner * radius, root, hand * f.turns);
        // The stem comes in from outside.
        let (start, way) = (spiral[0], curve::unit(spiral[1] - spiral[0]));
        let out = curve::unit(start - middle);
        let lead = curve::smooth(
            &[
                start - way * (0.75 * radius) + out * (0.26 * radius),
                start - way * (0.35 * radius) + out * (0.05 * radius),
                start,
            ],
            0.4,
        );
        let path: Vec<Point> = lead.into_iter().chain(spiral.into_iter().skip(1)).collect();
        let mut parts = Vec::new();
        let heart = 0.36 * radius;
        match f.petals {
            0 => parts.push(Part::Fruit(middle, 0.7 * heart)),
            1 => {
                let d = curve::towards(root + self.chance.about(0.5)) * (1.15 * heart);
                parts.push(Part::Leaf(Leaf {
                    root: middle - d,
                    tip: middle + d,
                    bend: 0.1,
                    wide: 1.1 * heart,
                    lobes: f.lobes,
                }));
            }
            2 => {}
            petals => {
                let turn = root + self.chance.about(0.4);
                parts.push(Part::Flower(Flower { at: middle, radius: heart, petals, turn }));
            }
        }
        let count = (f64::from(f.leaves) * f.turns).round().max(2.0) as usize;
        let mut leaves = Vec::new();
        for i in 0..count {
            let t = (i as f64 + 0.35 + self.chance.about(0.12)) / count as f64;
            let (p, d) = curve::at(&path, t);
            let outer = if i % 3 == 2 && !bare { -0.55 } else { 1.0 };
            let shorter = if outer < 0.0 { 0.45 } else { 0.72 };
            let size = f.leaf * radius * (1.0 - 0.5 * t) * self.chance.between(0.8, 1.12) * shorter;
            let out = across(d) * (-hand * outer);
            let heading = curve::unit(out + d * f.lean);
            let bend = -self.chance.between(0.12, 0.32) * hand * outer;
            leaves.push(Part::Leaf(Leaf {
                root: p + out * (0.02 * radius),
                tip: p + heading * size,
                bend,
                wide: f.wide * size,
                lobes: f.lobes,
            }));
        }
        // A tendril that curls off by itself.
        let (p, d) = curve::at(&path, self.chance.between(0.12, 0.3));
        let out = across(d) * -hand;
        let curl = curve::spiral(
            p + out * (0.3 * radius) + d * (0.2 * radius),
            0.16 * radius,
            0.03 * radius,
            root + 1.2 * hand,
            -hand * 1.3,
        );
        let mut tendril = vec![p];
        tendril.extend(curl);
        leaves.push(Part::Tendril(curve::smooth(&tendril, 0.4)));
        leaves.reverse();
        // The stem lies over the roots of its leaves.
        parts.push(Part::Stem(path, [f.stem * radius, 0.5 * f.stem * radius]));
        parts.extend(leaves);
        parts
    }

    /// A wreath of leaves along a path, in pairs that lean forward.
    pub(in crate::block) fn garland(&mut self, path: &[Point], leaf: f64, f: Foliage) {
        let n = (curve::length(path) / (0.55 * leaf)).round().max(2.0) as usize;
        let mut parts = Vec::new();
        for i in 0..n {
            let (p, d) = curve::at(path, (i as f64 + 0.5) / n as f64);
            for side in [-1.0, 1.0] {
                let heading = curve::unit(d + across(d) * (side * 0.75));
                let size = leaf * self.chance.between(0.85, 1.15);
                parts.push(Part::Leaf(Leaf {
                    root: p,
                    tip: p + heading * size,
                    bend: 0.15 * side,
                    wide: f.wide * size,
                    lobes: f.lobes,
                }));
            }
        }
        parts.push(Part::Tendril(path.to_vec()));
        self.parts(parts);
    }

    /// A bowl or vase: profile from the rim to the foot, as shares of half its width and its height.
    pub(in crate::block) fn vase(&mut self, middle: Point, half: f64, high: f64) {
        let shapes: [&[(f64, f64)]; 3] = [
            &[
                (0.95, -0.5),
                (0.7, -0.42),
                (0.62, -0.3),
                (0.9, -0.05),
                (0.7, 0.22),
                (0.25, 0.34),
                (0.2, 0.4),
                (0.55, 0.5),
            ],
            &[(0.6, -0.5), (0.34, -0.4), (0.34, -0.25), (0.85, 0.0), (0.8, 0.2), (0.4, 0.4), (0.55, 0.5)],
            &[(1.0, -0.3), (0.95, -0.2), (0.75, 0.1), (0.4, 0.25), (0.14, 0.3), (0.14, 0.42), (0.5, 0.5)],
        ];
        let profile = *self.chance.pick(&shapes);
        let place = |sign: f64| move |&(x, y): &(f64, f64)| middle + Point::new(sign * x * half, y * high);
        let right = curve::smooth(&profile.iter().map(place(1.0)).collect::<Vec<_>>(), 0.3);
        let left = curve::smooth(&profile.iter().map(place(-1.0)).collect::<Vec<_>>(), 0.3);
        let ring: Vec<Point> = left.iter().copied().chain(right.iter().rev().copied()).collect();
        let width = self.hand.line;
        self.thing(&ring, width, |d| {
            let reach = 0.75 * half;
            d.comb(&right, 1.0, 0.25, false, |t| reach * (0.4 + 0.6 * (PI * t).sin()));
            for level in [-0.32, 0.02] {
                let path = curve::arc(
                    middle + Point::new(0.0, level * high),
                    0.62 * half,
                    0.06 * high,
                    0.1,
                    PI - 0.1,
                );
                let pen = d.sprig();
                d.line(&path, pen);
            }
        });
    }

    /// A mask: a face with a crown of leaves.
    pub(in crate::block) fn mask(&mut self, middle: Point, half: f64, f: Foliage) {
        let at = |x: f64, y: f64| middle + Point::new(x * half, y * half);
        let face = curve::smooth_closed(
            &[
                at(-0.55, -0.5),
                at(0.0, -0.68),
                at(0.55, -0.5),
                at(0.62, 0.05),
                at(0.42, 0.6),
                at(0.0, 0.92),
                at(-0.42, 0.6),
                at(-0.62, 0.05),
            ],
            0.3,
        );
        let width = self.hand.line;
        let leaf_parts = |d: &mut Self| -> Vec<Part> {
            (0..7)
                .map(|i| {
                    let a = PI + PI * (f64::from(i) + 0.5) / 7.0;
                    let root = at(0.5 * a.cos(), -0.3 + 0.4 * a.sin());
                    let size = half * d.chance.between(0.5, 0.65);
                    Part::Leaf(Leaf {
                        root,
                        tip: root + curve::towards(a) * size,
                        bend: d.chance.about(0.15),
                        wide: 0.5 * size,
                        lobes: f.lobes,
                    })
                })
                .collect()
        };
        let features = |d: &mut Self| {
            let fine = 0.9 * d.hand.fine;
            for side in [-1.0, 1.0] {
                let mut pen = d.contour();
                pen.width = 1.3 * fine;
                d.line(
                    &curve::smooth(
                        &[at(side * 0.12, -0.26), at(side * 0.28, -0.34), at(side * 0.46, -0.22)],
                        0.2,
                    ),
                    pen.taper(0.1, 0.5),
                );
                d.line(&curve::arc(at(side * 0.28, -0.1), 0.13 * half, 0.08 * half, 0.0, TAU), pen);
                d.line(&[at(side * 0.28 - 0.02, -0.12), at(side * 0.28 + 0.02, -0.06)], pen);
                d.line(
                    &curve::smooth(&[at(side * 0.12, 0.3), at(side * 0.3, 0.2), at(side * 0.4, 0.42)], 0.2),
                    pen.taper(0.2, 0.6),
                );
            }
            let mut pen = d.contour();
            pen.width = 1.4 * fine;
            d.line(
                &curve::smooth(
                    &[at(0.06, -0.2), at(0.1, 0.1), at(0.14, 0.22), at(-0.02, 0.27), at(-0.12, 0.2)],
                    0.2,
                ),
                pen,
            );
            d.line(
                &curve::smooth(
                    &[at(-0.24, 0.42), at(-0.08, 0.4), at(0.0, 0.43), at(0.08, 0.4), at(0.24, 0.42)],
                    0.2,
                ),
                pen,
            );
            d.line(
                &curve::smooth(&[at(-0.12, 0.52), at(0.0, 0.56), at(0.12, 0.52)], 0.2),
                pen.taper(0.3, 0.3),
            );
            let jaw: Vec<Point> = face
                .iter()
                .copied()
                .filter(|p| p.x > middle.x + 0.2 * half && p.y > middle.y - 0.2 * half)
                .collect();
            d.comb_of(&jaw, 1.0, 0.3, false, 0.8 * d.hand.apart, |_| 0.26 * half);
        };
        let leaves = leaf_parts(self);
        if self.on_black {
            self.parts(leaves);
            self.thing(&face, width, features);
        } else {
            self.thing(&face, width, features);
            self.parts(leaves);
        }
    }
}
