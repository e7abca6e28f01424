//! A ship on the water.

use sheet::Point;

use crate::block::curve::{self, smooth, smooth_closed};
use crate::block::drawing::{Drawing, STEP};

impl Drawing {
    /// A ship, the middle of its water-line at a place.
    pub(in crate::block) fn ship(&mut self, at: Point, long: f64) {
        let way = if self.chance.happens(0.5) { 1.0 } else { -1.0 };
        let place = |x: f64, y: f64| at + Point::new(way * x * long, -y * long);
        let line = self.hand.line;
        // Sails before masts, masts before hull.
        let masts: &[(f64, f64)] = if self.chance.happens(0.5) {
            &[(0.0, 0.78), (-0.28, 0.5)]
        } else {
            &[(-0.15, 0.6), (0.16, 0.74)]
        };
        for &(x, high) in masts {
            for (low, top, wide) in [(0.3, 0.68, 0.2), (0.72, 0.95, 0.13)] {
                let ring = smooth_closed(
                    &[
                        place(x - wide, high * top),
                        place(x + wide, high * top),
                        place(x + wide + 0.09, high * (low + top) / 2.0),
                        place(x + wide, high * low),
                        place(x, high * low + 0.02),
                        place(x - wide, high * low),
                        place(x - wide + 0.09, high * (low + top) / 2.0),
                    ],
                    STEP,
                );
                let right = [
                    place(x + wide, high * top),
                    place(x + wide + 0.09, high * (low + top) / 2.0),
                    place(x + wide, high * low),
                ];
                self.thing(&ring, line, |d| {
                    d.comb(&smooth(&right, STEP), way, 0.0, false, |_| 0.7 * wide * long);
                });
            }
            let flag = smooth(
                &[
                    place(x, high),
                    place(x - 0.08, high + 0.03),
                    place(x - 0.14, high - 0.01),
                    place(x - 0.2, high + 0.02),
                ],
                0.3,
            );
            let pen = self.contour().taper(0.0, 1.0);
            self.line(&flag, pen);
            let mast = curve::resampled(&[place(x, 0.1), place(x, high)], STEP);
            self.band(&mast, |_| 0.011 * long.max(30.0), 0.0);
            for end in [-0.3, -0.22, 0.24, 0.32] {
                let pen = self.sprig().taper(0.0, 0.0);
                self.line(&[place(x, 0.92 * high), place(x + end, 0.14)], pen);
            }
        }
        let hull = smooth_closed(
            &[
                place(-0.5, 0.24),
                place(-0.44, 0.25),
                place(-0.3, 0.13),
                place(0.1, 0.1),
                place(0.34, 0.16),
                place(0.5, 0.26),
                place(0.42, 0.08),
                place(0.34, -0.02),
                place(-0.36, -0.02),
                place(-0.46, 0.1),
            ],
            STEP,
        );
        self.thing(&hull, line, |d| {
            for k in 0..4 {
                let y = 0.02 + 0.035 * f64::from(k);
                let pen = d.sprig();
                d.line(
                    &smooth(
                        &[
                            place(-0.46, y + 0.06),
                            place(-0.1, y - 0.01),
                            place(0.2, y),
                            place(0.46, y + 0.09),
                        ],
                        STEP,
                    ),
                    pen,
                );
            }
            let low = [place(0.4, 0.0), place(-0.38, 0.0)];
            let side = if way > 0.0 { 1.0 } else { -1.0 };
            d.comb_of(&low, side, 0.2, false, 0.8 * d.hand.apart, |_| 0.07 * long);
        });
    }
}
