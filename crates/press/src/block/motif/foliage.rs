//! Leaves, flowers and fruit.

use std::f64::consts::{PI, TAU};

use sheet::Point;

use crate::block::curve::{self, across, closed, smooth, towards};
use crate::block::drawing::{Drawing, STEP};

/// A leaf: from its root to its tip, bent sideways by a share of its length, so wide, with so many lobes to a side
/// (1 for a plain one).
#[derive(Debug, Clone, Copy)]
pub(in crate::block) struct Leaf {
    pub root: Point,
    pub tip: Point,
    pub bend: f64,
    pub wide: f64,
    pub lobes: u8,
}

/// A flower: its middle, its radius, its petals.
#[derive(Debug, Clone, Copy)]
pub(in crate::block) struct Flower {
    pub at: Point,
    pub radius: f64,
    pub petals: u8,
    pub turn: f64,
}

/// A part of a plant, so that parts can be drawn in the order that the ground wants.
#[derive(Debug, Clone)]
pub(in crate::block) enum Part {
    Leaf(Leaf),
    Flower(Flower),
    /// A round fruit: middle and radius.
    Fruit(Point, f64),
    /// A stem along a path, so wide at its start and its end.
    Stem(Vec<Point>, [f64; 2]),
    /// A single line.
    Tendril(Vec<Point>),
}

impl Drawing {
    /// Draws parts that are given from the front to the back.
    pub(in crate::block) fn parts(&mut self, mut parts: Vec<Part>) {
        if self.on_black {
            parts.reverse();
        }
        for part in parts {
            match part {
                Part::Leaf(leaf) => self.leaf(leaf),
                Part::Flower(flower) => self.flower(flower),
                Part::Fruit(at, radius) => self.fruit(at, radius),
                Part::Stem(path, [a, b]) => self.stem(&path, a, b),
                Part::Tendril(path) => {
                    let pen = self.contour().taper(0.2, 1.5);
                    if self.on_black {
                        self.line_above(&path, pen.white());
                    } else {
                        self.line(&path, pen);
                    }
                }
            }
        }
    }

    fn stem(&mut self, path: &[Point], from: f64, to: f64) {
        let half = |t: f64| 0.5 * (from + (to - from) * t);
        if from.max(to) < 2.2 * self.hand.line && !self.on_black {
            let mut pen = self.contour();
            pen.width = from.max(1.2 * self.hand.line);
            self.line(path, pen.taper(0.0, 2.0));
            let ring = closed(&curve::sides(path, half));
            self.take(&ring, 0.15);
        } else {
            self.band(path, half, 0.8);
        }
    }

    pub(in crate::block) fn leaf(&mut self, leaf: Leaf) {
        let Leaf { root, tip, bend, wide, lobes } = leaf;
        let d = tip - root;
        let middle = root + d * 0.55 + across(d) * bend;
        let spine = smooth(&[root, middle, tip], STEP * 0.6);
        let lobes = f64::from(lobes.max(1));
        let half = |t: f64| {
            let belly = (PI * t.powf(0.85)).sin().max(0.0).powf(0.75);
            // Each lobe swells slowly and falls back at once, so that it points to the tip.
            let saw = if lobes > 1.5 { 0.58 + 0.55 * (t * lobes).fract().powf(1.4) } else { 1.0 };
            wide / 2.0 * belly * saw
        };
        let both = curve::sides(&spine, half);
        let ring = closed(&both);
        let small = d.length() < 2.6;
        let width = if small { 0.8 * self.hand.line } else { self.hand.line };
        self.thing(&ring, width, |drawing| {
            let vein = drawing.sprig().taper(0.0, 0.5 * d.length());
            if wide > 1.3 * drawing.hand.apart {
                drawing.line(&curve::part(&spine, 0.05, 0.86, STEP), vein);
            }
            if wide > 2.2 * drawing.hand.apart && !small {
                let apart = 0.9 * drawing.hand.apart;
                drawing.comb_of(&both[1], -1.0, -0.6, false, apart, |t| 0.85 * half(t));
                if lobes > 1.5 && wide > 5.0 * drawing.hand.apart {
                    drawing.comb_of(
                        &curve::part(&spine, 0.15, 0.8, STEP),
                        -1.0,
                        -0.7,
                        false,
                        apart * 1.7,
                        |t| 0.9 * half(0.15 + 0.65 * t),
                    );
                }
            }
        });
    }

    pub(in crate::block) fn flower(&mut self, flower: Flower) {
        let Flower { at, radius, petals, turn } = flower;
        let n = usize::from(petals.max(3));
        let heart = 0.28 * radius;
        let eye = |d: &mut Self| {
            let ring = curve::ellipse(at, heart, heart);
            d.thing(&ring, 0.8 * d.hand.line, |d| {
                if heart > 0.8 {
                    for k in 0..5 {
                        let p = at + towards(f64::from(k) * 1.3) * (0.45 * heart);
                        d.tick(p, f64::from(k), 0.35);
                    }
                }
            });
        };
        if !self.on_black {
            eye(self);
        }
        for i in 0..n {
            let a = turn + TAU * i as f64 / n as f64;
            let half = 0.92 * PI / n as f64;
            let rim = |k: f64, r: f64| at + towards(a + k * half) * (r * radius);
            let ring = curve::smooth_closed(
                &[
                    rim(-0.5, 0.3),
                    rim(-1.0, 0.75),
                    rim(-0.55, 1.0),
                    rim(0.0, 0.92),
                    rim(0.55, 1.0),
                    rim(1.0, 0.75),
                    rim(0.5, 0.3),
                ],
                STEP,
            );
            let width = 0.85 * self.hand.line;
            self.thing(&ring, width, |d| {
                let marks = if radius > 3.0 { 3 } else { 1 };
                for k in 0..marks {
                    let off = (f64::from(k) - f64::from(marks - 1) / 2.0) * 0.35;
                    let pen = d.sprig().taper(0.0, 0.4 * radius);
                    d.line(&[rim(off, 0.34), rim(off * 1.2, 0.34 + 0.3 * shade_of(k))], pen);
                }
            });
        }
        if self.on_black {
            eye(self);
        }
    }

    pub(in crate::block) fn fruit(&mut self, at: Point, radius: f64) {
        let ring = curve::ellipse(at, radius, radius * 1.05);
        let width = self.hand.line;
        self.thing(&ring, width, |d| {
            let n = (1.6 * radius / d.hand.apart) as i32;
            for k in 0..n {
                // Curved lines of shade on the right-hand side.
                let r = 0.92 - 0.8 * f64::from(k) / f64::from(n.max(1));
                let path = curve::arc(at, radius * r, radius * 0.9, -0.9, 1.1);
                let pen = d.sprig().taper(0.5 * radius, 0.5 * radius);
                if k < n / 2 + 1 {
                    d.line(&path, pen);
                }
            }
        });
    }
}

fn shade_of(k: i32) -> f64 {
    if k == 1 { 1.3 } else { 0.8 }
}
