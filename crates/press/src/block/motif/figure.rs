//! Figures: a man or a woman suggested by a few contours and shaded drapery.

use std::f64::consts::{PI, TAU};

use sheet::Point;

use crate::block::curve::{self, closed, smooth, smooth_closed};
use crate::block::drawing::{Drawing, STEP};

/// What a figure holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Holding {
    Staff,
    Sword,
    Book,
    Nothing,
}

impl Drawing {
    /// A standing figure with its feet at a place, looking right (`way` 1) or left (-1).
    pub(in crate::block) fn figure(&mut self, feet: Point, high: f64, way: f64) {
        let at = |x: f64, y: f64| feet + Point::new(way * x * high, -y * high);
        let holding = *self.chance.pick(&[Holding::Staff, Holding::Sword, Holding::Book, Holding::Nothing]);
        let robed = self.chance.happens(0.6);
        let raised = self.chance.happens(0.5);
        let sway = self.chance.about(0.02);
        let line = self.hand.line;

        // The arm and what it holds stand before everything.
        let shoulder = at(0.07 + sway, 0.78);
        let elbow = at(0.17, if raised { 0.66 } else { 0.6 });
        let hand = if raised { at(0.29, 0.76) } else { at(0.26, 0.55) };
        self.hand_at(hand, 0.035 * high);
        match holding {
            Holding::Staff => {
                let foot = Point::new(hand.x + way * 0.04 * high, feet.y);
                let staff =
                    curve::resampled(&[hand + Point::new(-way * 0.02 * high, -0.36 * high), foot], STEP);
                self.band(&staff, |_| 0.009 * high.max(25.0), 0.0);
            }
            Holding::Sword => {
                let tip = hand + Point::new(way * 0.16 * high, -0.36 * high);
                let blade = curve::resampled(&[hand, tip], STEP);
                self.band(&blade, |t| 0.014 * high * (1.0 - 0.8 * t), 0.0);
                let pen = self.contour();
                let guard = Point::new(way * 0.05, 0.025) * high;
                self.line(&[hand - guard, hand + guard], pen);
            }
            Holding::Book => {
                let s = 0.055 * high;
                let ring = [
                    hand + Point::new(-s, -s),
                    hand + Point::new(s, -1.2 * s),
                    hand + Point::new(s, s),
                    hand + Point::new(-s, 1.2 * s),
                ];
                self.thing(&ring, line, |d| d.comb(&[ring[1], ring[2]], 1.0, 0.0, false, |_| s));
            }
            Holding::Nothing => {}
        }
        self.sleeve(&[shoulder, elbow, hand], 0.058 * high);
        self.head(at(0.01 + sway, 0.905), 0.068 * high, way);

        self.trunk_of(feet, high, way, robed, sway);
        // The other arm, behind.
        let back = [at(-0.09, 0.78), at(-0.16, 0.62), at(-0.1 + self.chance.about(0.05), 0.5)];
        self.hand_at(back[2], 0.03 * high);
        self.sleeve(&back, 0.05 * high);
    }

    /// A robe to the feet, or a doublet and two legs.
    fn trunk_of(&mut self, feet: Point, high: f64, way: f64, robed: bool, sway: f64) {
        let at = |x: f64, y: f64| feet + Point::new(way * x * high, -y * high);
        let line = self.hand.line;
        let neck = [at(-0.035, 0.85), at(0.035, 0.85)];
        if robed {
            let hem = 0.03 + self.chance.between(0.0, 0.03);
            let wide = self.chance.between(0.15, 0.21);
            let left = smooth(
                &[neck[0], at(-0.12, 0.8), at(-0.13, 0.62), at(-0.1 + sway, 0.52), at(-wide, hem)],
                STEP,
            );
            let right = smooth(
                &[neck[1], at(0.12, 0.8), at(0.12, 0.64), at(0.1 + sway, 0.52), at(wide + 0.02, hem)],
                STEP,
            );
            let foot = curve::scalloped(
                &[at(-wide, hem), at(wide + 0.02, hem)],
                0.07 * high,
                0.012 * high,
                &mut || 0.5,
            );
            let ring: Vec<Point> =
                left.iter().copied().chain(foot).chain(right.iter().rev().copied()).collect();
            self.thing(&ring, line, |d| d.drapery(&left, &right, way, at(0.0, 0.53), at(0.0, hem), high));
        } else {
            let skirt = smooth_closed(
                &[
                    neck[0],
                    at(-0.13, 0.79),
                    at(-0.1, 0.55),
                    at(-0.17, 0.42),
                    at(0.0, 0.4),
                    at(0.17, 0.42),
                    at(0.1, 0.55),
                    at(0.13, 0.79),
                    neck[1],
                ],
                STEP,
            );
            let right = smooth(&[at(0.13, 0.79), at(0.1, 0.55), at(0.17, 0.42)], STEP);
            let left = smooth(&[at(-0.13, 0.79), at(-0.1, 0.55), at(-0.17, 0.42)], STEP);
            self.thing(&skirt, line, |d| {
                d.drapery(&left, &right, way, at(0.0, 0.55), at(0.0, 0.41), high);
                let pen = d.contour();
                d.line(&smooth(&[at(-0.1, 0.56), at(0.0, 0.54), at(0.1, 0.56)], STEP), pen);
                for k in 0..4 {
                    d.tick(at(0.015, 0.6 + 0.05 * f64::from(k)), 0.2, 0.02 * high);
                }
            });
            for (x, step) in [(0.05, 0.06), (-0.06, -0.04)] {
                let leg = smooth(&[at(x, 0.45), at(x + 0.3 * step, 0.22), at(x + step, 0.03)], STEP);
                let foot = smooth_closed(
                    &[
                        at(x + step - 0.025, 0.035),
                        at(x + step + 0.02, 0.04),
                        at(x + step + 0.08, 0.0),
                        at(x + step - 0.03, -0.005),
                    ],
                    0.25,
                );
                self.thing(&foot, line, |d| d.tick(at(x + step, 0.015), 0.0, 0.04 * high));
                let half = |t: f64| high * (0.042 - 0.02 * t + 0.008 * (PI * t * 1.6).sin());
                let both = curve::sides(&leg, half);
                self.thing(&closed(&both), line, |d| {
                    let (dark, side) = if way > 0.0 { (&both[0], 1.0) } else { (&both[1], -1.0) };
                    d.comb_of(dark, side, 0.25, false, 0.8 * d.hand.apart, |t| 1.1 * half(t));
                });
            }
        }
    }

    fn hand_at(&mut self, at: Point, size: f64) {
        let line = 0.8 * self.hand.line;
        let ring = curve::ellipse(at, size, 0.8 * size);
        self.thing(&ring, line, |d| {
            if size > 0.9 {
                d.tick(at + Point::new(0.2 * size, 0.1 * size), 0.3, size);
            }
        });
    }

    fn sleeve(&mut self, joints: &[Point; 3], half: f64) {
        let path = smooth(joints, STEP);
        let wide = |t: f64| half * (0.75 + 0.35 * (PI * t).sin() + 0.25 * t);
        let both = curve::sides(&path, wide);
        let line = self.hand.line;
        self.thing(&closed(&both), line, |d| {
            // The lower edge is in shade.
            let low = usize::from(both[1][both[1].len() / 2].y > both[0][both[0].len() / 2].y);
            let side = if low == 1 { -1.0 } else { 1.0 };
            d.comb_of(&both[low], side, 0.4, false, 0.85 * d.hand.apart, |t| 1.1 * wide(t));
            let (elbow, _) = curve::at(&path, 0.48);
            d.tick(elbow, 1.2, half);
        });
    }

    /// Folds between the two sides of a garment, from the girdle to the hem.
    fn drapery(&mut self, left: &[Point], right: &[Point], way: f64, girdle: Point, hem: Point, high: f64) {
        let folds = self.chance.whole(3, 6);
        let shadowed = if way > 0.0 { right } else { left };
        // `right` runs down; its inside is to its right-hand side when it lies at the right of the picture.
        self.comb(shadowed, 1.0, 0.3, false, |t| high * (0.03 + 0.09 * t));
        for i in 0..folds {
            let u = (i as f64 + 0.5 + self.chance.about(0.25)) / folds as f64;
            let (a, b) = (curve::at(left, 0.45).0, curve::at(right, 0.45).0);
            let (c, e) = (left[left.len() - 1], right[right.len() - 1]);
            let top = curve::mixed(a, b, 0.25 + 0.5 * u);
            let low = curve::mixed(c, e, u);
            let from = Point::new(top.x, girdle.y + (hem.y - girdle.y) * self.chance.between(0.0, 0.3));
            let to = curve::mixed(low, top, self.chance.between(0.02, 0.25));
            let bow = Point::new(self.chance.about(0.02) * high, 0.0);
            let fold = smooth(&[from, curve::mixed(from, to, 0.5) + bow, to], STEP);
            let pen = self.contour().taper(1.0, 0.25 * high);
            self.comb(&fold, if way > 0.0 { -1.0 } else { 1.0 }, 0.5, false, |t| {
                high * 0.045 * (0.3 + (PI * t).sin())
            });
            self.line(&fold, pen);
        }
        // Folds at the breast.
        for k in 0..3 {
            let (p, _) = curve::at(right, 0.12 + 0.08 * f64::from(k));
            let (q, _) = curve::at(left, 0.2 + 0.1 * f64::from(k));
            let mid = curve::mixed(p, q, 0.4) + Point::new(0.0, 0.03 * high);
            let pen = self.sprig().taper(0.2, 0.08 * high);
            self.line(&smooth(&[p, mid, curve::mixed(p, q, 0.75)], STEP), pen);
        }
    }

    fn head(&mut self, at: Point, half: f64, way: f64) {
        let place = |x: f64, y: f64| at + Point::new(way * x * half, y * half);
        let line = self.hand.line;
        let face = smooth_closed(
            &[
                place(-0.55, -0.6),
                place(0.3, -0.75),
                place(0.62, -0.3),
                place(0.8, 0.12),
                place(0.6, 0.22),
                place(0.62, 0.6),
                place(0.3, 0.92),
                place(-0.2, 0.75),
                place(-0.6, 0.2),
            ],
            0.25,
        );
        // Hat, hood, hair, or halo.
        let headgear = self.chance.below(4);
        let bearded = self.chance.happens(0.4);
        self.headgear(at, half, way, headgear);
        self.thing(&face, 0.85 * line, |d| {
            let fine = (0.9 * d.hand.fine).min(0.3 * half);
            let mut pen = d.contour();
            pen.width = fine;
            d.line(
                &smooth(&[place(-0.05, -0.3), place(0.18, -0.38), place(0.4, -0.28)], 0.2),
                pen.taper(0.1, 0.4),
            );
            d.line(&smooth(&[place(0.05, -0.12), place(0.2, -0.18), place(0.36, -0.1)], 0.2), pen);
            d.line(&smooth(&[place(0.48, -0.3), place(0.62, 0.1), place(0.48, 0.2)], 0.2), pen);
            d.line(&smooth(&[place(0.25, 0.48), place(0.42, 0.45), place(0.55, 0.48)], 0.2), pen);
            let cheek = [place(-0.6, 0.2), place(-0.2, 0.75), place(0.3, 0.92)];
            d.comb_of(&smooth(&cheek, 0.25), -way, 0.2, false, 0.75 * d.hand.apart, |_| 0.42 * half);
            if bearded {
                for i in 0..8 {
                    let u = f64::from(i) / 7.0;
                    let root = place(-0.2 + 0.75 * u, 0.55 - 0.05 * (u * TAU).sin());
                    d.line(
                        &smooth(
                            &[
                                root,
                                root + Point::new(way * 0.05 * half, 0.35 * half),
                                root + Point::new(-way * 0.05 * half, 0.75 * half),
                            ],
                            0.25,
                        ),
                        pen.taper(0.1, 0.5),
                    );
                }
            }
        });
        if headgear == 3 {
            let pen = self.contour();
            self.line(
                &curve::arc(at + Point::new(0.0, -0.1 * half), 1.5 * half, 1.5 * half, PI * 0.85, PI * 2.15),
                pen,
            );
            self.take(&curve::ellipse(at, 1.4 * half, 1.4 * half), 0.0);
        }
        let neck = [place(-0.35, 0.6), place(0.2, 0.8), place(0.25, 1.4), place(-0.45, 1.4)];
        self.thing(&neck, 0.8 * line, |_| {});
    }

    /// A hat, a hood, or hair.
    fn headgear(&mut self, at: Point, half: f64, way: f64, headgear: usize) {
        let place = |x: f64, y: f64| at + Point::new(way * x * half, y * half);
        let line = self.hand.line;
        match headgear {
            0 => {
                let hat = smooth_closed(
                    &[
                        place(-1.25, -0.45),
                        place(-0.7, -0.72),
                        place(-0.6, -1.3),
                        place(0.1, -1.5),
                        place(0.62, -1.2),
                        place(0.66, -0.72),
                        place(1.3, -0.5),
                        place(0.2, -0.42),
                    ],
                    0.25,
                );
                self.thing(&hat, line, |d| {
                    d.comb_of(
                        &[place(0.62, -1.25), place(0.66, -0.6)],
                        way,
                        0.2,
                        false,
                        0.7 * d.hand.apart,
                        |_| 0.8 * half,
                    );
                });
            }
            1 => {
                let hood = smooth(
                    &[
                        place(0.45, -0.7),
                        place(-0.1, -1.15),
                        place(-0.85, -0.6),
                        place(-0.95, 0.4),
                        place(-0.6, 1.1),
                        place(-0.1, 1.0),
                    ],
                    0.25,
                );
                let inner = smooth(
                    &[place(-0.1, 0.8), place(-0.55, 0.2), place(-0.45, -0.45), place(0.3, -0.72)],
                    0.25,
                );
                let ring: Vec<Point> = hood.iter().chain(&inner).copied().collect();
                self.thing(&ring, line, |d| {
                    d.comb_of(&hood, way, 0.3, false, 0.7 * d.hand.apart, |_| 0.3 * half);
                });
            }
            _ => {
                let locks = self.chance.whole(7, 12);
                for i in 0..locks {
                    let a = -0.3 - 2.9 * (i as f64 + 0.5) / locks as f64;
                    let root = place(0.55 * a.cos(), -0.1 + 0.62 * a.sin());
                    let tip = place(
                        1.0 * a.cos() - 0.1,
                        0.05 + 0.95 * a.sin() + 0.35 * (1.0 - (a + PI / 2.0).cos()),
                    );
                    let bulge = curve::mixed(root, tip, 0.6) + Point::new(-way * 0.12 * half, 0.0);
                    let pen = self.contour().taper(0.2, 0.7);
                    self.line(&smooth(&[root, bulge, tip], 0.25), pen);
                }
            }
        }
    }
}
