//! Trees, bushes, tufts.

use std::f64::consts::PI;

use sheet::Point;

use super::foliage::{Leaf, Part};
use crate::block::curve::{self, across, closed, smooth, towards};
use crate::block::drawing::{Drawing, STEP};

/// How a tree is cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::block) enum Crown {
    /// Clumps with scalloped edges, shaded by rows of small leaves.
    Clumps,
    /// Single leaves on boughs.
    Leaves,
    /// A cypress or fir: a spindle of short strokes.
    Spindle,
    /// Bare boughs.
    Bare,
}

impl Drawing {
    /// A tree with its foot at a place.
    pub(in crate::block) fn tree(&mut self, foot: Point, high: f64, crown: Crown) {
        if crown == Crown::Spindle {
            return self.spindle(foot, high);
        }
        let lean = self.chance.about(0.08) * high;
        let fork = foot + Point::new(lean, -0.46 * high);
        let thick = high * self.chance.between(0.07, 0.11);
        let mut boughs = Vec::new();
        let n = self.chance.whole(3, 4);
        for i in 0..n {
            let spread = (i as f64 + 0.5) / n as f64 - 0.5;
            let a = -PI / 2.0 + spread * 2.1 + self.chance.about(0.2);
            let long = high * self.chance.between(0.26, 0.42);
            let mid = fork + towards(a + self.chance.about(0.3)) * (0.5 * long);
            boughs.push(smooth(
                &[fork + Point::new(spread * thick, 0.15 * high), fork, mid, fork + towards(a) * long],
                STEP,
            ));
        }
        match crown {
            Crown::Clumps => self.clumps(fork + Point::new(0.0, -0.2 * high), high),
            Crown::Leaves => {
                let mut parts = Vec::new();
                for bough in &boughs {
                    self.spray(bough, 0.105 * high, &mut parts);
                }
                self.parts(parts);
            }
            _ => {}
        }
        self.trunk(foot, fork, lean, thick, high);
        for bough in &boughs {
            if crown == Crown::Bare {
                let (tip, d) = curve::at(bough, 0.8);
                for side in [-1.0, 1.0] {
                    let twig = smooth(
                        &[
                            tip,
                            tip + (d + across(d) * side) * (0.06 * high),
                            tip + (d * 0.6 + across(d) * side) * (0.15 * high),
                        ],
                        STEP,
                    );
                    let pen = self.contour().taper(0.0, 2.0);
                    self.line(&twig, pen);
                }
            }
            let tip = if crown == Crown::Bare { 0.97 } else { 0.72 };
            self.band(bough, |t| thick * 0.34 * (1.0 - tip * t), 0.6);
        }
    }

    /// A trunk with its roots, open above where the boughs come out of it.
    fn trunk(&mut self, foot: Point, fork: Point, lean: f64, thick: f64, high: f64) {
        let trunk = smooth(
            &[
                foot,
                foot + Point::new(0.6 * lean + self.chance.about(0.02) * high, -0.2 * high),
                fork + Point::new(0.0, 0.05 * high),
            ],
            STEP,
        );
        let half = |t: f64| thick * (0.5 + 0.28 * (1.0 - t).powi(5) + 0.05 * (9.0 * t).sin());
        let both = curve::sides(&trunk, half);
        let ring = closed(&both);
        self.inside(&ring, |d| {
            let apart = 0.75 * d.hand.apart;
            d.comb_of(&both[1], -1.0, 0.35, false, apart, |_| 0.62 * thick);
            if thick > 2.5 {
                let bark = curve::part(&trunk, 0.1, 0.9, STEP);
                let pen = d.sprig().taper(1.0, 2.0);
                d.line(&bark, pen);
            }
        });
        for side in &both {
            let pen = self.contour().taper(0.0, 0.6);
            self.line(side, pen);
        }
        self.take(&ring, 0.08);
        for side in [-1.0, 1.0] {
            let root = smooth(
                &[
                    foot + Point::new(side * 0.6 * thick, -0.6 * thick),
                    foot + Point::new(side * 1.0 * thick, 0.0),
                    foot + Point::new(side * 1.7 * thick, 0.3 * thick),
                ],
                STEP,
            );
            let pen = self.contour().taper(0.0, 1.2);
            self.line(&root, pen);
        }
    }

    fn spray(&mut self, bough: &[Point], leaf: f64, parts: &mut Vec<Part>) {
        for i in 0..9 {
            let t = 0.35 + 0.65 * f64::from(i) / 8.0;
            let (p, d) = curve::at(bough, t);
            let side = if i % 2 == 0 { 1.0 } else { -1.0 };
            let twig = p + curve::unit(d * 0.5 + across(d) * side) * (leaf * self.chance.between(0.3, 1.5));
            for _ in 0..3 {
                let a = (d.y).atan2(d.x) + side * 0.7 + self.chance.about(1.2);
                let size = leaf * self.chance.between(0.75, 1.2);
                parts.push(Part::Leaf(Leaf {
                    root: twig,
                    tip: twig + towards(a) * size,
                    bend: self.chance.about(0.2),
                    wide: 0.45 * size,
                    lobes: 1,
                }));
            }
            parts.push(Part::Tendril(vec![twig, p]));
        }
    }

    fn clumps(&mut self, middle: Point, high: f64) {
        let mut places: Vec<(Point, f64)> = Vec::new();
        let n = self.chance.whole(5, 8);
        let r = 0.3 * high;
        for i in 0..n {
            let a = std::f64::consts::TAU * i as f64 / n as f64 + self.chance.about(0.3);
            let p = middle + Point::new(a.cos() * r * self.chance.between(0.75, 1.15), a.sin() * 0.8 * r);
            places.push((p, high * self.chance.between(0.13, 0.19)));
        }
        places.push((middle, 0.2 * high));
        // Lower clumps stand before higher ones.
        places.sort_by(|a, b| b.0.y.total_cmp(&a.0.y));
        for (p, radius) in places {
            self.clump(p, radius);
        }
    }

    /// One clump of leaves.
    pub(in crate::block) fn clump(&mut self, at: Point, radius: f64) {
        let bump = (1.35 * self.hand.apart).max(0.16 * radius);
        let turn = self.chance.unit();
        let mut vary = {
            let mut own = self.chance.clone();
            move || own.unit()
        };
        let rim = curve::arc(at, radius, 0.82 * radius, turn, turn + std::f64::consts::TAU);
        let ring = curve::scalloped(&rim, bump, 0.5 * bump, &mut vary);
        self.chance.unit();
        let line = 0.9 * self.hand.line;
        self.thing(&ring, line, |d| {
            let field = d.field();
            let row = 1.5 * d.hand.apart;
            let rows = (1.5 * radius / row) as i32;
            for j in 0..=rows {
                let y = -0.7 * radius + f64::from(j) * row;
                let wide = (radius.powi(2) - (y / 0.82).powi(2)).max(0.0).sqrt() * 0.9;
                let mut x = -wide + d.chance.unit() * row;
                while x < wide {
                    // More leaves on the shaded side, below and to the right.
                    let dark = 0.25 + 0.45 * (x + y) / radius + 0.35;
                    if d.chance.happens(dark.clamp(0.12, 0.95)) {
                        let size = 0.55 * bump * d.chance.between(0.8, 1.3);
                        let c = at + Point::new(x, y);
                        let path =
                            curve::arc(c, size, size, 0.25 + d.chance.about(0.3), 2.6 + d.chance.about(0.3));
                        let mut pen = d.sprig().taper(0.3 * size, size);
                        pen.width *= 0.8 + 0.5 * dark.clamp(0.0, 1.0);
                        pen.field = field;
                        d.line(&path, pen);
                    }
                    x += 1.25 * bump;
                }
            }
        });
    }

    fn spindle(&mut self, foot: Point, high: f64) {
        let path = [foot, foot + Point::new(0.0, -high)];
        let wide = high * self.chance.between(0.13, 0.22);
        let half = |t: f64| wide * (PI * (0.08 + 0.92 * t)).sin().powf(0.7);
        let spine = curve::resampled(&path, 0.3);
        let mut vary = {
            let mut own = self.chance.clone();
            move || own.unit()
        };
        let both = curve::sides(&spine, half);
        let bump = 1.6 * self.hand.apart;
        let left = curve::scalloped(&both[0], bump, 0.45 * bump, &mut vary);
        let right: Vec<Point> = both[1].iter().rev().copied().collect();
        let right = curve::scalloped(&right, bump, 0.45 * bump, &mut vary);
        let ring: Vec<Point> = left.iter().chain(&right).copied().collect();
        self.chance.unit();
        let line = 0.9 * self.hand.line;
        self.thing(&ring, line, |d| {
            let apart = 0.8 * d.hand.apart;
            d.comb_of(&both[1], -1.0, 0.9, false, apart, |t| 1.35 * half(t));
        });
        let pen = self.contour();
        self.line(&[foot, foot + Point::new(0.0, 0.08 * high)], pen);
    }

    /// A tuft of grass.
    pub(in crate::block) fn tuft(&mut self, at: Point, size: f64) {
        for k in -2..=2 {
            let a = -PI / 2.0 + f64::from(k) * 0.28 + self.chance.about(0.1);
            let long = size * self.chance.between(0.6, 1.1);
            let from = at + Point::new(f64::from(k) * 0.16 * size, 0.0);
            let path = smooth(
                &[from, from + towards(a) * (0.5 * long), from + towards(a + f64::from(k) * 0.12) * long],
                STEP,
            );
            let pen = self.sprig().taper(0.0, 0.8 * long);
            self.line(&path, pen);
        }
    }
}
