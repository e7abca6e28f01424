//! Coats of arms.

use std::f64::consts::PI;

use sheet::{Point, Rect};

use crate::block::curve::{self, smooth, smooth_closed};
use crate::block::drawing::{Drawing, STEP, Shading};
use crate::block::motif::foliage::Leaf;
use crate::block::motif::scroll::Foliage;
use crate::fount::Founts;

/// Angles of the lines that stand for colours: across, down, slanting either way; the last two are white and dots.
const TINCTURES: [Option<f64>; 6] = [Some(0.0), Some(PI / 2.0), Some(PI / 4.0), Some(-PI / 4.0), None, None];

pub(super) fn draw(d: &mut Drawing, founts: &Founts, r: Rect) {
    let inner = if d.chance.happens(0.5) { d.framed(r).grown(-0.5) } else { r };
    let c = inner.centre();
    let with_band = d.chance.happens(0.65);
    let foot = inner.bottom() - if with_band { 0.17 * inner.h } else { 0.04 * inner.h };
    // Shield and crest fill the height between them.
    let tall = (foot - inner.y) * d.chance.between(0.58, 0.68);
    let half = (tall / 2.4).min(0.27 * inner.w);
    let tall = tall.min(2.6 * half);
    let room = ((foot - inner.y) - tall).min(1.7 * half);
    let top = foot - tall - 0.01 * inner.h;
    if with_band {
        let level = inner.bottom() - 0.075 * inner.h;
        d.motto(founts, Point::new(c.x, level), 0.92 * inner.w, 0.11 * inner.h);
    }
    crest(d, Point::new(c.x, top), half, room);
    shield(d, Point::new(c.x, top), half, tall);
    let f = Foliage::drawn(&mut d.chance);
    match d.chance.below(4) {
        0 => mantling(d, Point::new(c.x, top), half, tall, inner.w / 2.0, Foliage { lobes: 4, ..f }),
        1 => {
            // Supporters.
            let level = top + tall + 0.02 * inner.h;
            let high = (0.95 * tall + 0.3 * room).min(1.9 * (inner.w / 2.0 - half));
            let reach = half + 0.5 * (inner.w / 2.0 - half);
            d.figure(Point::new(c.x - reach, level), high, 1.0);
            d.figure(Point::new(c.x + reach, level), high, -1.0);
            let ground = Rect::new(inner.x, level - 0.02 * inner.h, inner.w, 0.06 * inner.h);
            d.tufts(ground, 6);
        }
        2 => {
            // A wreath of two boughs.
            for side in [-1.0, 1.0] {
                let at = |x: f64, y: f64| Point::new(c.x + side * x * half, top + y * tall);
                let path = smooth(
                    &[at(0.1, 1.08), at(1.2, 0.9), at(1.6, 0.4), at(1.35, -0.05), at(0.9, -0.3)],
                    STEP,
                );
                let leaf = (0.34 * tall).min(0.62 * (inner.w / 2.0 - half));
                d.garland(&path, leaf, f);
            }
        }
        _ => {
            for side in [-1.0, 1.0] {
                for (dx, dy, size) in [(1.5, -0.12, 0.42), (1.6, 0.38, 0.38), (1.4, 0.82, 0.3)] {
                    let at = Point::new(c.x + side * dx * half, top + dy * tall);
                    let size = (size * tall).min(inner.w / 2.0 - dx * half + 0.12 * inner.w);
                    let root = if side > 0.0 { PI } else { 0.0 } + d.chance.about(0.3);
                    d.scroll(at, size, root, side * if dy < 0.4 { -1.0 } else { 1.0 }, f);
                }
            }
        }
    }
}

/// Torn cloth that falls from the helmet to both sides, as large leaves.
fn mantling(d: &mut Drawing, top: Point, half: f64, tall: f64, most: f64, f: Foliage) {
    for side in [-1.0, 1.0] {
        let at = |x: f64, y: f64| top + Point::new(side * (x * half).min(most - 0.5), y * tall);
        let tips = [
            ((0.35, -0.2), (1.35, -0.42)),
            ((0.6, -0.12), (1.9, -0.2)),
            ((1.0, 0.05), (1.95, 0.22)),
            ((1.02, 0.3), (1.8, 0.56)),
            ((0.98, 0.5), (1.5, 0.86)),
            ((0.7, 0.74), (0.9, 1.08)),
        ];
        for (i, (root, tip)) in tips.into_iter().enumerate() {
            let slip = d.chance.about(0.06);
            let (root, tip) = (at(root.0, root.1), at(tip.0, tip.1 + slip));
            let bend = side * if i < 2 { 0.28 } else { 0.2 };
            d.leaf(Leaf { root, tip, bend, wide: 0.34 * tall, lobes: f.lobes });
            // A curl at the tip.
            let curl =
                curve::spiral(tip, 0.08 * tall, 0.02 * tall, if side > 0.0 { 2.0 } else { 1.1 }, side * 1.2);
            let pen = d.contour().taper(0.3, 1.0);
            d.line(&curl, pen);
        }
    }
}

fn shield(d: &mut Drawing, top: Point, half: f64, tall: f64) {
    let at = |x: f64, y: f64| top + Point::new(x * half, y * tall);
    let ring = match d.chance.below(3) {
        0 => {
            let mut ring = vec![at(-1.0, 0.0), at(1.0, 0.0)];
            ring.extend(smooth(&[at(1.0, 0.0), at(0.98, 0.45), at(0.6, 0.82), at(0.0, 1.0)], STEP));
            ring.extend(smooth(&[at(0.0, 1.0), at(-0.6, 0.82), at(-0.98, 0.45), at(-1.0, 0.0)], STEP));
            ring
        }
        1 => smooth_closed(
            &[
                at(-1.0, 0.04),
                at(-0.5, 0.0),
                at(0.0, 0.05),
                at(0.5, 0.0),
                at(1.0, 0.04),
                at(0.88, 0.3),
                at(1.0, 0.6),
                at(0.7, 0.9),
                at(0.0, 1.0),
                at(-0.7, 0.9),
                at(-1.0, 0.6),
                at(-0.88, 0.3),
            ],
            STEP,
        ),
        _ => smooth_closed(
            &[
                at(-0.8, 0.1),
                at(0.0, 0.0),
                at(0.8, 0.1),
                at(1.0, 0.5),
                at(0.7, 0.9),
                at(0.0, 1.0),
                at(-0.7, 0.9),
                at(-1.0, 0.5),
            ],
            STEP,
        ),
    };
    let field = *d.chance.pick(&TINCTURES);
    let other = *d.chance.pick(&TINCTURES);
    let first = d.chance.below(9);
    let second = d.chance.below(9);
    let line = 1.3 * d.hand.line;
    let tinct = |d: &mut Drawing, region: &[Point], angle: Option<f64>| {
        if let Some(angle) = angle {
            let shading =
                Shading { angle, bow: 0.0, apart: d.hand.apart, width: d.hand.fine, crossing: false };
            d.shade(region, shading, |_| 0.7);
        }
    };
    let division = d.chance.below(5);
    d.thing(&ring, line, |d| {
        let before = d.emblem_ground(&ring, d.bounds);
        let pen = d.contour();
        match division {
            // Quarterly.
            0 => {
                for (k, (x, y)) in
                    [(-0.46, 0.25), (0.46, 0.25), (-0.4, 0.68), (0.4, 0.68)].into_iter().enumerate()
                {
                    d.charge(if k == 0 || k == 3 { first } else { second }, at(x, y), 0.3 * half);
                }
                d.line(&[at(0.0, 0.0), at(0.0, 1.0)], pen);
                d.line(&[at(-1.0, 0.46), at(1.0, 0.46)], pen);
                tinct(d, &[at(-1.1, -0.1), at(0.0, -0.1), at(0.0, 0.46), at(-1.1, 0.46)], field);
                tinct(d, &[at(0.0, 0.46), at(1.1, 0.46), at(1.1, 1.1), at(0.0, 1.1)], other);
            }
            // A chevron or bend between charges.
            1 | 2 => {
                for (x, y) in [(-0.55, 0.2), (0.5, 0.2), (0.0, 0.78)] {
                    d.charge(first, at(x, y), 0.24 * half);
                }
                let band = if division == 1 {
                    [at(-1.1, 0.72), at(0.0, 0.3), at(1.1, 0.72), at(1.1, 0.9), at(0.0, 0.5), at(-1.1, 0.9)]
                        .to_vec()
                } else {
                    [at(-1.1, 0.33), at(1.1, 0.33), at(1.1, 0.56), at(-1.1, 0.56)].to_vec()
                };
                d.thing(&band, pen.width, |d| tinct(d, &band, other));
            }
            // A chief with charges, and one below.
            3 => {
                for x in [-0.6, 0.0, 0.6] {
                    d.charge(second, at(x, 0.15), 0.2 * half);
                }
                d.charge(first, at(0.0, 0.62), 0.46 * half);
                d.line(&[at(-1.1, 0.3), at(1.1, 0.3)], pen);
                tinct(d, &[at(-1.1, -0.1), at(1.1, -0.1), at(1.1, 0.3), at(-1.1, 0.3)], other);
            }
            _ => d.charge(first, at(0.0, 0.48), 0.66 * half),
        }
        if division != 0 {
            let mut lower = ring.clone();
            if division == 3 {
                lower = vec![at(-1.1, 0.3), at(1.1, 0.3), at(1.1, 1.1), at(-1.1, 1.1)];
            }
            tinct(d, &lower, field);
        }
        d.restore(before);
    });
}

impl Drawing {
    /// A ribbon with a motto, its middle at a place.
    pub(super) fn motto(&mut self, founts: &Founts, at: Point, wide: f64, high: f64) {
        let bow = high * self.chance.between(-0.5, 0.5);
        let path = smooth(&[at + Point::new(-0.38 * wide, bow), at, at + Point::new(0.38 * wide, bow)], STEP);
        let text = motto(self);
        let line = self.hand.line;
        let half = 0.42 * high;
        let [upper, lower] = curve::sides(&path, |_| half);
        let ring: Vec<Point> = upper.iter().chain(lower.iter().rev()).copied().collect();
        self.thing(&ring, line, |d| d.lettering(founts, &text, &path, 0.95 * half));
        for side in [-1.0, 1.0] {
            let end = at + Point::new(side * 0.38 * wide, bow);
            let fold = |x: f64, y: f64| end + Point::new(side * x * 0.12 * wide, y * high);
            let tail = [
                fold(-0.35, 0.1),
                fold(-0.3, 0.75),
                fold(1.0, 0.6),
                fold(0.75, 0.25),
                fold(1.0, -0.1),
                fold(0.0, 0.1),
            ];
            self.thing(&tail, line, |d| {
                d.comb(&[fold(-0.35, 0.2), fold(-0.3, 0.75)], -side, 0.0, false, |_| 0.07 * wide);
            });
        }
    }
}

/// An invented motto: dog Latin of two or three words.
pub(super) fn motto(d: &mut Drawing) -> String {
    let first = ["SPE", "FIDE", "LABORE", "VIRTVTE", "NEC METV", "CAVTE", "SINE LITE", "LVCE"];
    let last = ["CRESCO", "ET CVRA", "NON VENTIS", "TVTVS", "SEMPER", "MANEO", "RESVRGO", "NVNQVAM"];
    format!("{} {}", d.chance.pick(&first), d.chance.pick(&last))
}

fn crest(d: &mut Drawing, foot: Point, half: f64, room: f64) {
    let high = (0.85 * room).min(1.5 * half);
    let at = |x: f64, y: f64| foot + Point::new(x * half, -y * high);
    let line = d.hand.line;
    if d.chance.happens(0.5) {
        // A coronet.
        let rim = [at(-0.62, 0.04), at(0.62, 0.04), at(0.66, 0.24), at(-0.66, 0.24)];
        d.thing(&rim, line, |d| {
            for k in 0..7 {
                d.tick(at(-0.5 + 0.17 * f64::from(k), 0.14), 0.6, 0.1 * high);
            }
        });
        for k in -2..=2 {
            let x = 0.28 * f64::from(k);
            d.fruit(at(1.05 * x, 0.62), 0.09 * half);
            let ring =
                [at(x - 0.1, 0.24), at(1.05 * x - 0.03, 0.56), at(1.05 * x + 0.03, 0.56), at(x + 0.1, 0.24)];
            d.thing(&ring, line, |_| {});
        }
    } else {
        // A helmet, with a plume.
        for k in 0..4 {
            let a = -PI / 2.0 + (f64::from(k) - 1.5) * 0.45;
            let root = at(0.0, 0.62);
            d.leaf(Leaf {
                root,
                tip: root + curve::towards(a) * (0.42 * high),
                bend: 0.2 * (f64::from(k) - 1.5),
                wide: 0.2 * high,
                lobes: 1,
            });
        }
        let ring = smooth_closed(
            &[at(-0.4, 0.02), at(-0.42, 0.4), at(-0.2, 0.64), at(0.2, 0.64), at(0.42, 0.4), at(0.4, 0.02)],
            STEP,
        );
        let edge = smooth(&[at(0.2, 0.64), at(0.42, 0.4), at(0.4, 0.02)], STEP);
        d.thing(&ring, line, |d| {
            for k in 0..4 {
                let x = -0.24 + 0.12 * f64::from(k);
                let pen = d.contour();
                d.line(&[at(x, 0.18), at(x, 0.44)], pen);
            }
            d.comb(&edge, 1.0, 0.2, false, |_| 0.25 * half);
            let pen = d.contour();
            d.line(&smooth(&[at(-0.42, 0.16), at(0.0, 0.1), at(0.42, 0.16)], STEP), pen);
        });
    }
}
