//! What is borne on a shield, and other emblems.

use std::f64::consts::{PI, TAU};

use sheet::Point;

use super::foliage::Flower;
use super::tree::Crown;
use crate::block::curve::{self, smooth_closed, towards};
use crate::block::drawing::Drawing;

impl Drawing {
    /// A charge by number (0..8) about a place, `half` mm from its middle to its edge.
    pub(in crate::block) fn charge(&mut self, which: usize, at: Point, half: f64) {
        let place = |x: f64, y: f64| at + Point::new(x * half, y * half);
        let line = self.hand.line;
        match which % 9 {
            0 => {
                let rays = 2 * self.chance.whole(5, 6);
                let ring: Vec<Point> = (0..rays)
                    .map(|i| {
                        at + towards(TAU * i as f64 / rays as f64 - PI / 2.0)
                            * (half * if i % 2 == 0 { 1.0 } else { 0.42 })
                    })
                    .collect();
                self.thing(&ring, line, |d| {
                    for i in (0..rays).step_by(2) {
                        let a = TAU * i as f64 / rays as f64 - PI / 2.0;
                        let pen = d.sprig();
                        d.line(&[at, at + towards(a) * (0.8 * half)], pen);
                    }
                });
            }
            1 => self.flower(Flower { at, radius: half, petals: 5, turn: -PI / 2.0 }),
            2 => {
                let outer = curve::arc(at, half, half, 0.9, 0.9 + 1.4 * PI);
                let inner = curve::arc(
                    at + Point::new(0.1 * half, -0.28 * half),
                    0.72 * half,
                    0.72 * half,
                    0.75 + 1.42 * PI,
                    0.9,
                );
                let ring: Vec<Point> = outer.iter().chain(&inner).copied().collect();
                self.thing(&ring, line, |d| d.comb(&outer, -1.0, 0.0, false, |_| 0.25 * half));
            }
            3 => {
                // A cross with widening arms.
                let arm = |q: f64| -> Vec<Point> {
                    [(-0.14, -0.14), (-0.42, -1.0), (0.0, -0.85), (0.42, -1.0), (0.14, -0.14)]
                        .iter()
                        .map(|&(x, y): &(f64, f64)| {
                            let (s, c) = (q * PI / 2.0).sin_cos();
                            place(c * x - s * y, s * x + c * y)
                        })
                        .collect()
                };
                let ring: Vec<Point> = (0..4).flat_map(|q| arm(f64::from(q))).collect();
                self.thing(&ring, line, |_| {});
            }
            4 => self.tower(at + Point::new(0.0, half), 0.9 * half, 1.9 * half),
            5 => self.tree(at + Point::new(0.0, half), 2.1 * half, Crown::Leaves),
            6 => self.lily(at, half),
            7 => self.anchor(at, half),
            _ => {
                // A heart.
                let ring = smooth_closed(
                    &[
                        place(0.0, -0.45),
                        place(0.4, -0.85),
                        place(0.85, -0.5),
                        place(0.6, 0.25),
                        place(0.0, 0.95),
                        place(-0.6, 0.25),
                        place(-0.85, -0.5),
                        place(-0.4, -0.85),
                    ],
                    0.25,
                );
                let edge = curve::smooth(&[place(0.85, -0.5), place(0.6, 0.25), place(0.0, 0.95)], 0.3);
                self.thing(&ring, line, |d| d.comb(&edge, 1.0, 0.2, false, |_| 0.5 * half));
            }
        }
    }

    /// A lily: three petals and a band.
    fn lily(&mut self, at: Point, half: f64) {
        let place = |x: f64, y: f64| at + Point::new(x * half, y * half);
        let line = self.hand.line;
        let band = [place(-0.42, 0.22), place(0.42, 0.22), place(0.42, 0.42), place(-0.42, 0.42)];
        self.thing(&band, line, |_| {});
        let middle = smooth_closed(
            &[
                place(0.0, -1.0),
                place(0.3, -0.45),
                place(0.14, 0.3),
                place(0.12, 0.9),
                place(-0.12, 0.9),
                place(-0.14, 0.3),
                place(-0.3, -0.45),
            ],
            0.25,
        );
        self.thing(&middle, line, |d| {
            d.tick(at + Point::new(0.1 * half, -0.3 * half), PI / 2.0, 0.8 * half);
        });
        for s in [-1.0, 1.0] {
            let side = smooth_closed(
                &[
                    place(s * 0.15, 0.3),
                    place(s * 0.3, -0.3),
                    place(s * 0.75, -0.5),
                    place(s * 0.95, 0.0),
                    place(s * 0.7, 0.15),
                    place(s * 0.66, -0.1),
                    place(s * 0.45, 0.1),
                    place(s * 0.3, 0.8),
                ],
                0.25,
            );
            self.thing(&side, line, |_| {});
        }
    }

    fn anchor(&mut self, at: Point, half: f64) {
        let place = |x: f64, y: f64| at + Point::new(x * half, y * half);
        let line = self.hand.line;
        for (a, b) in [((-0.45, -0.55), (0.45, -0.55)), ((0.0, -0.75), (0.0, 0.85))] {
            let path = curve::resampled(&[place(a.0, a.1), place(b.0, b.1)], 0.3);
            self.band(&path, |_| 0.09 * half, 0.9);
        }
        let fluke = curve::arc(at + Point::new(0.0, 0.1 * half), 0.75 * half, 0.78 * half, 0.15, PI - 0.15);
        self.band(&fluke, |t| half * (0.05 + 0.09 * (PI * t).sin()), 0.9);
        let eye = curve::ellipse(place(0.0, -0.88), 0.14 * half, 0.14 * half);
        self.thing(&eye, line, |_| {});
    }
}
