//! Houses, towers, churches, columns.

use std::f64::consts::PI;

use sheet::{Point, Rect};

use crate::block::curve;
use crate::block::drawing::{Drawing, Shading};

impl Drawing {
    fn window(&mut self, r: Rect) {
        let ring: Vec<Point> = if self.chance.happens(0.5) {
            let mut top =
                curve::arc(Point::new(r.centre().x, r.y + 0.4 * r.h), r.w / 2.0, 0.4 * r.h, -PI, 0.0);
            top.extend([Point::new(r.right(), r.bottom()), Point::new(r.x, r.bottom())]);
            top
        } else {
            r.corners().to_vec()
        };
        self.black(&ring);
    }

    fn wall(&mut self, ring: &[Point], angle: f64, dark: f64, inner: impl FnOnce(&mut Self)) {
        let line = self.hand.line;
        let shading =
            Shading { angle, bow: 0.0, apart: self.hand.apart, width: self.hand.fine, crossing: false };
        self.thing(ring, line, |d| {
            inner(d);
            if dark > 0.0 {
                d.shade(ring, shading, |_| dark);
            }
        });
    }

    /// Courses of bricks or stones, here and there.
    fn courses(&mut self, r: Rect, every: f64) {
        let mut y = r.y + every;
        let mut row = 0;
        while y < r.bottom() - 0.4 {
            let mut x = r.x + self.chance.unit() * every * 2.0;
            while x < r.right() - every {
                if self.chance.happens(0.5) {
                    let pen = self.sprig();
                    self.line(&[Point::new(x, y), Point::new((x + 1.8 * every).min(r.right()), y)], pen);
                    if self.chance.happens(0.6) {
                        self.line(&[Point::new(x, y), Point::new(x, y - 0.85 * every)], pen);
                    }
                }
                x += 2.0 * every;
            }
            row += 1;
            y += every * if row % 2 == 0 { 1.0 } else { 1.1 };
        }
    }

    /// A house seen from a corner, its lower left corner at a place.
    pub(in crate::block) fn house(&mut self, foot: Point, wide: f64, high: f64) {
        let gable = wide * self.chance.between(0.36, 0.5);
        let eaves = high * self.chance.between(0.45, 0.6);
        let drop = 0.05 * high;
        let at = |x: f64, y: f64| foot + Point::new(x, -y);
        let ridge = at(0.5 * gable, high);
        let far = at(wide - 0.22 * gable, high - 0.5 * drop);
        let front = [at(0.0, 0.0), at(0.0, eaves), ridge, at(gable, eaves), at(gable, -drop)];
        let side = [at(gable, -drop), at(gable, eaves), at(wide, eaves), at(wide, 0.0)];
        let roof = [ridge, far, at(wide + 0.04 * wide, eaves - drop), at(gable - 0.02 * wide, eaves - drop)];
        if self.chance.happens(0.7) {
            let x = wide * self.chance.between(0.55, 0.8);
            let stack = [
                at(x, high * 0.86),
                at(x, 1.16 * high),
                at(x + 0.07 * wide, 1.16 * high),
                at(x + 0.07 * wide, high * 0.86),
            ];
            self.wall(&stack, 0.0, 0.7, |_| {});
            if self.chance.happens(0.6) {
                for k in 0..2 {
                    let p = at(x + 0.03 * wide * f64::from(k + 1), 1.18 * high);
                    let s = 0.2 * high;
                    let pen = self.sprig().taper(0.2, 1.5);
                    self.line(
                        &curve::smooth(
                            &[
                                p,
                                p + Point::new(0.2 * s, -0.4 * s),
                                p + Point::new(-0.1 * s, -0.9 * s),
                                p + Point::new(0.5 * s, -1.5 * s),
                            ],
                            0.3,
                        ),
                        pen,
                    );
                }
            }
        }
        let tiles = self.chance.between(1.05, 1.35);
        let line = self.hand.line;
        let shading = Shading {
            angle: tiles,
            bow: 0.0,
            apart: 0.9 * self.hand.apart,
            width: self.hand.fine,
            crossing: false,
        };
        self.thing(&roof, line, |d| d.shade(&roof, shading, |_| 0.75));
        let pane = (0.14 * wide).min(0.26 * eaves);
        let door = Rect::new(foot.x + 0.36 * gable, foot.y - 0.62 * eaves, 0.28 * gable, 0.62 * eaves);
        self.wall(&front, 0.0, 0.0, |d| {
            d.window(door);
            if pane > 1.0 {
                d.window(Rect::new(
                    foot.x + 0.5 * gable - pane / 2.0,
                    foot.y - eaves - 0.8 * pane,
                    pane,
                    pane,
                ));
            }
            d.courses(Rect::new(foot.x, foot.y - eaves, gable, eaves), 1.6 * d.hand.apart);
        });
        self.wall(&side, 0.02, 0.6, |d| {
            for k in 0..2 {
                let x = foot.x + gable + (wide - gable) * (0.2 + 0.42 * f64::from(k));
                d.window(Rect::new(x, foot.y - 0.72 * eaves, pane, 1.2 * pane));
            }
        });
    }

    /// A tower with battlements or a pointed roof, the middle of its foot at a place.
    pub(in crate::block) fn tower(&mut self, foot: Point, wide: f64, high: f64) {
        let at = |x: f64, y: f64| foot + Point::new(x * wide / 2.0, -y * high);
        let crowned = self.chance.happens(0.5);
        let mut head: Vec<Point> = vec![at(-1.18, 0.8), at(-1.18, 0.93)];
        if crowned {
            let merlons = 4;
            for i in 0..merlons {
                let (a, b) = (-1.18 + 2.36 * f64::from(i) / f64::from(merlons), 2.36 / f64::from(merlons));
                head.extend([at(a, 0.93), at(a, 1.0), at(a + 0.6 * b, 1.0), at(a + 0.6 * b, 0.93)]);
            }
        } else {
            head.extend([at(-1.3, 0.93), at(0.0, 1.4), at(1.3, 0.93)]);
        }
        head.extend([at(1.18, 0.93), at(1.18, 0.8)]);
        let right = [at(1.18, 0.8), at(1.18, 0.93)];
        let line = self.hand.line;
        let shading = Shading {
            angle: PI / 2.0,
            bow: 0.0,
            apart: self.hand.apart,
            width: self.hand.fine,
            crossing: false,
        };
        self.thing(&head, line, |d| {
            d.comb(&right, -1.0, 0.0, false, |_| 0.45 * wide);
            if !crowned {
                d.shade(
                    &[at(-0.1, 0.93), at(0.0, 1.4), at(1.3, 0.93)],
                    Shading { angle: PI / 2.0 - 0.25, ..shading },
                    |_| 0.8,
                );
            }
        });
        let body = [at(-1.0, 0.0), at(-1.0, 0.8), at(1.0, 0.8), at(1.0, 0.0)];
        let edge = [at(1.0, 0.8), at(1.0, 0.0)];
        self.thing(&body, line, |d| {
            for k in 0..2 {
                let p = at(-0.28 + 0.1 * f64::from(k), 0.62 - 0.3 * f64::from(k));
                d.window(Rect::new(p.x, p.y, 0.14 * wide, (0.1 * high).min(0.4 * wide)));
            }
            let reach = 0.5 * wide;
            d.comb(&edge, 1.0, 0.0, false, |_| reach);
            d.courses(
                Rect::new(foot.x - wide / 2.0, foot.y - 0.8 * high, 0.6 * wide, 0.8 * high),
                1.7 * d.hand.apart,
            );
        });
    }

    /// A wall with battlements between two places of its foot.
    pub(in crate::block) fn rampart(&mut self, left: Point, right: Point, high: f64) {
        let n = (left.distance(right) / (0.8 * high)).round().max(3.0);
        let mut ring = vec![left];
        let at = |u: f64, y: f64| curve::mixed(left, right, u) + Point::new(0.0, -y);
        for i in 0..n as usize {
            let u = i as f64 / n;
            ring.extend([
                at(u, 0.8 * high),
                at(u, high),
                at(u + 0.55 / n, high),
                at(u + 0.55 / n, 0.8 * high),
            ]);
        }
        ring.extend([at(1.0, 0.8 * high), right]);
        let shading = Shading {
            angle: 0.03,
            bow: 0.0,
            apart: 1.1 * self.hand.apart,
            width: self.hand.fine,
            crossing: false,
        };
        let line = self.hand.line;
        let middle = curve::mixed(left, right, 0.5);
        self.thing(&ring, line, |d| {
            d.window(Rect::new(middle.x - 0.2 * high, middle.y - 0.55 * high, 0.4 * high, 0.55 * high));
            let (from, long) = (left.x, right.x - left.x);
            d.shade(&ring, shading, |p| ((p.x - from) / long - 0.1).clamp(0.0, 0.8));
        });
    }

    /// A column, the middle of its foot at a place.
    pub(in crate::block) fn column(&mut self, foot: Point, wide: f64, high: f64) {
        let at = |x: f64, y: f64| foot + Point::new(x * wide, -y * high);
        let line = self.hand.line;
        for (low, top, half) in [(0.93, 1.0, 0.85), (0.88, 0.93, 0.62), (0.0, 0.05, 0.85), (0.05, 0.09, 0.65)]
        {
            let ring = [at(-half, low), at(-half, top), at(half, top), at(half, low)];
            let edge = [at(half, top), at(half, low)];
            self.thing(&ring, line, |d| {
                d.comb_of(&edge, 1.0, 0.0, false, 0.7 * d.hand.apart, |_| 0.6 * wide);
            });
        }
        let shaft = [at(-0.5, 0.09), at(-0.44, 0.88), at(0.44, 0.88), at(0.5, 0.09)];
        let edge = [at(0.44, 0.88), at(0.5, 0.09)];
        self.thing(&shaft, line, |d| {
            d.comb_of(&edge, 1.0, 0.25, false, 0.8 * d.hand.apart, |_| 0.55 * wide);
            let pen = d.sprig();
            d.line(&[at(-0.25, 0.12), at(-0.2, 0.86)], pen);
        });
    }
}
