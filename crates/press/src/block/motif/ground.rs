//! Earth, sky and water.

use std::f64::consts::PI;

use sheet::{Point, Rect};

use crate::block::curve::{self, smooth};
use crate::block::drawing::{Drawing, Pen, STEP, Shading};
use crate::block::stroke::StrokeKind;
use crate::noise::Noise;

impl Drawing {
    /// A slope across a box: a contour through heights (shares of the box, from its top), shaded below on the side
    /// away from the light; its ground is taken down to the foot of the box.
    pub(in crate::block) fn slope(&mut self, within: Rect, heights: &[f64], dark: f64) {
        let n = heights.len().max(2);
        let place = |(i, h): (usize, &f64)| {
            Point::new(within.x + within.w * i as f64 / (n - 1) as f64, within.y + within.h * h)
        };
        let crest = smooth(&heights.iter().enumerate().map(place).collect::<Vec<_>>(), STEP);
        let mut ring = crest.clone();
        ring.extend([Point::new(within.right(), within.bottom()), Point::new(within.x, within.bottom())]);
        let reach = 0.2 * within.h.min(within.w);
        // Runs of comb where the slope falls to the right, and some elsewhere.
        let mut t = self.chance.between(0.0, 0.1);
        while t < 0.95 {
            let long = self.chance.between(0.08, 0.26);
            let (_, d) = curve::at(&crest, t + long / 2.0);
            if d.y > 0.05 || self.chance.happens(0.35 * dark) {
                let edge = curve::part(&crest, t, (t + long).min(1.0), STEP);
                let lean = self.chance.between(-0.5, 0.7);
                let long = reach * self.chance.between(0.5, 1.1) * dark;
                self.comb_of(&edge, 1.0, lean, false, self.hand.apart, |u| long * (0.35 + (PI * u).sin()));
            }
            t += long + self.chance.between(0.01, 0.08);
        }
        // Strokes that lie along the ground.
        let patch = Noise::new(self.chance.seed(), "patches of shade", 0.16 * within.w.max(12.0));
        let bow = self.chance.about(1.2);
        let shading = Shading {
            angle: self.chance.about(0.12),
            bow,
            apart: 1.15 * self.hand.apart,
            width: self.hand.fine,
            crossing: false,
        };
        let threshold = 0.42 - 0.5 * dark;
        self.shade(&ring, shading, |p| ((patch.rough(p.x, 1.8 * p.y) - threshold) * 2.2).clamp(0.0, 1.0));
        let pen = self.contour();
        self.line(&crest, pen);
        self.take(&ring, 0.0);
    }

    /// Tufts and stones scattered over a box.
    pub(in crate::block) fn tufts(&mut self, within: Rect, many: usize) {
        for _ in 0..many {
            let at = Point::new(
                within.x + within.w * self.chance.unit(),
                within.y + within.h * self.chance.unit(),
            );
            let size = self.chance.between(2.0, 4.2) * (self.hand.line / 0.34);
            if self.is_taken(at) || self.is_taken(at + Point::new(0.0, -size)) {
                continue;
            }
            if self.chance.happens(0.8) {
                self.tuft(at, size);
            } else {
                let ring = curve::smooth_closed(
                    &[
                        at + Point::new(-0.5 * size, 0.0),
                        at + Point::new(-0.3 * size, -0.4 * size),
                        at + Point::new(0.2 * size, -0.45 * size),
                        at + Point::new(0.5 * size, 0.0),
                    ],
                    STEP,
                );
                let line = 0.8 * self.hand.line;
                let edge = vec![at + Point::new(0.2 * size, -0.45 * size), at + Point::new(0.5 * size, 0.0)];
                self.thing(&ring, line, |d| d.comb(&edge, 1.0, 0.2, false, |_| 0.35 * size));
            }
        }
    }

    /// A sky: level lines that come and go, and clouds.
    pub(in crate::block) fn sky(&mut self, within: Rect, dark: f64) {
        for _ in 0..self.chance.whole(0, 3) {
            let at = Point::new(
                within.x + within.w * self.chance.unit(),
                within.y + within.h * self.chance.between(0.15, 0.6),
            );
            let wide = within.w * self.chance.between(0.1, 0.2);
            self.cloud(at, wide);
        }
        let patch = Noise::new(self.chance.seed(), "lines of the sky", 0.3 * within.w.max(15.0));
        let shading = Shading {
            angle: self.chance.about(0.03),
            bow: self.chance.about(0.15),
            apart: self.hand.apart * self.chance.between(1.1, 1.7),
            width: self.hand.fine,
            crossing: false,
        };
        let (top, high) = (within.y, within.h);
        let ring = within.corners();
        self.shade(&ring, shading, |p| {
            let down = (p.y - top) / high;
            ((patch.rough(0.4 * p.x, p.y) + dark - 0.75 * down) * 2.0).clamp(0.0, 1.0)
        });
    }

    fn cloud(&mut self, at: Point, wide: f64) {
        let mut vary = {
            let mut own = self.chance.clone();
            move || own.unit()
        };
        let rim = curve::arc(at, wide / 2.0, 0.22 * wide, PI, 2.0 * PI + 0.6);
        let top = curve::scalloped(&rim, 0.2 * wide, 0.09 * wide, &mut vary);
        self.chance.unit();
        let pen = self.contour().taper(1.0, 1.5);
        self.line(&top, pen);
        let low: Vec<Point> =
            curve::arc(at + Point::new(0.04 * wide, 0.05 * wide), 0.42 * wide, 0.14 * wide, 0.0, PI);
        self.comb_of(
            &top,
            1.0,
            0.2,
            false,
            1.2 * self.hand.apart,
            |t| if t > 0.55 { 0.09 * wide } else { 0.0 },
        );
        let ring: Vec<Point> = top.iter().chain(&low).copied().collect();
        self.take(&ring, 0.2);
    }

    /// The sun, with rays.
    pub(in crate::block) fn sun(&mut self, at: Point, radius: f64) {
        let ring = curve::ellipse(at, radius, radius);
        let line = self.hand.line;
        self.thing(&ring, line, |_| {});
        let rays = self.chance.whole(14, 24);
        for i in 0..rays {
            let a = std::f64::consts::TAU * i as f64 / rays as f64;
            let d = curve::towards(a);
            let long = radius * if i % 2 == 0 { 1.1 } else { 0.6 };
            let pen = Pen::new(StrokeKind::Sprig, self.hand.line).taper(0.0, long);
            self.line(&[at + d * (1.25 * radius), at + d * (1.25 * radius + long)], pen);
        }
        self.take(&curve::ellipse(at, 1.9 * radius, 1.9 * radius), 0.0);
    }

    /// Water: wavy lines, closer towards the far shore.
    pub(in crate::block) fn water(&mut self, within: Rect) {
        let field = self.field();
        let mut y = within.y + 0.5;
        while y < within.bottom() {
            let down = (y - within.y) / within.h.max(1e-6);
            let apart = self.hand.apart * (1.0 + 1.1 * down);
            let long = within.w * self.chance.between(0.05, 0.09) * (0.6 + down);
            let phase = self.chance.between(0.0, 6.0);
            let mut x = within.x;
            while x < within.right() {
                let to = (x + within.w * self.chance.between(0.1, 0.5)).min(within.right());
                let n = ((to - x) / STEP) as usize + 2;
                let wave: Vec<Point> = (0..=n)
                    .map(|i| {
                        let u = x + (to - x) * i as f64 / n as f64;
                        Point::new(u, y + 0.42 * apart * (std::f64::consts::TAU * u / long + phase).sin())
                    })
                    .collect();
                let mut pen =
                    Pen::new(StrokeKind::Hatch, self.hand.fine * (0.85 + 0.4 * down)).taper(1.2, 1.6);
                pen.field = field;
                self.line(&wave, pen);
                x = to + self.chance.between(0.4, 2.0);
            }
            y += 1.15 * apart;
        }
        self.take(&within.corners(), 0.0);
    }

    /// Birds far off.
    pub(in crate::block) fn birds(&mut self, within: Rect) {
        for _ in 0..self.chance.whole(2, 5) {
            let at = Point::new(
                within.x + within.w * self.chance.unit(),
                within.y + within.h * self.chance.unit(),
            );
            let s = self.chance.between(0.8, 1.6);
            let pen = self.sprig().taper(0.6, 0.6);
            self.line(
                &smooth(
                    &[
                        at + Point::new(-s, -0.5 * s),
                        at + Point::new(-0.4 * s, -0.6 * s),
                        at,
                        at + Point::new(0.4 * s, -0.6 * s),
                        at + Point::new(s, -0.4 * s),
                    ],
                    0.25,
                ),
                pen,
            );
        }
    }
}
