//! Head-pieces.

use std::f64::consts::PI;

use sheet::{Point, Rect};

use crate::block::curve::{self, smooth};
use crate::block::drawing::{Drawing, Pen, Shading};
use crate::block::motif::foliage::{Flower, Leaf, Part};
use crate::block::motif::scroll::Foliage;
use crate::block::motif::tree::Crown;
use crate::block::stroke::StrokeKind;

pub(super) fn draw(d: &mut Drawing, r: Rect) {
    let f = Foliage::drawn(&mut d.chance);
    let what = d.chance.below(6);
    match d.chance.below(4) {
        0 if what != 4 => {
            d.on_black = true;
            d.area(vec![r.corners().to_vec()], true);
            let inner = r.grown(-0.9);
            let mut ring = inner.grown(0.4).corners().to_vec();
            ring.push(ring[0]);
            let pen = Pen::new(StrokeKind::Frame, d.hand.fine).white();
            d.line_above(&ring, pen);
            filled(d, inner.grown(-0.3), f, what);
        }
        1 | 2 => {
            let inner = d.framed(r);
            d.only_within(&inner.grown(-0.02).corners(), r);
            filled(d, inner.grown(-0.3), f, what);
            if what == 4 {
                return;
            }
            let shading = Shading {
                angle: *d.chance.pick(&[0.0, 0.0, PI / 2.0, PI / 4.0]),
                bow: 0.0,
                apart: 0.95 * d.hand.apart,
                width: d.hand.fine,
                crossing: false,
            };
            if d.chance.happens(0.75) {
                d.shade(&inner.corners(), shading, |_| 0.75);
            }
        }
        _ => filled(d, r, f, what),
    }
}

fn filled(d: &mut Drawing, r: Rect, f: Foliage, what: usize) {
    match what {
        0 | 1 => band(d, r, f),
        2 => wave(d, r, f),
        3 => festoons(d, r, f),
        4 => prospect(d, r),
        _ => arcade(d, r, f),
    }
}

fn centre(d: &mut Drawing, c: Point, half: f64, f: Foliage, which: usize) {
    match which {
        0 => d.vase(c + Point::new(0.0, 0.1 * half), 0.6 * half, 1.7 * half),
        1 => d.mask(c, 0.85 * half, f),
        2 => d.charge(1, c, 0.8 * half),
        3 => d.charge(6, c, 0.75 * half),
        _ => d.charge(0, c, 0.65 * half),
    }
}

/// A middle with scrolls to both sides, in mirror pairs that are not quite alike.
fn band(d: &mut Drawing, r: Rect, f: Foliage) {
    let c = r.centre();
    let half = r.h / 2.0;
    let middle = d.chance.below(5);
    if !d.on_black {
        centre(d, c, half, f, middle);
    }
    let room = r.w / 2.0 - 0.75 * half;
    let n = (room / (1.72 * half)).round().max(1.0);
    let pitch = room / n;
    let radius = (1.12 * half).min(0.72 * pitch);
    for i in 0..n as usize {
        let (x, up) = (0.75 * half + pitch * (i as f64 + 0.5), if i % 2 == 0 { 1.0 } else { -1.0 });
        for side in [-1.0, 1.0] {
            let at = Point::new(c.x + side * x, c.y - up * 0.06 * half);
            let root = if side > 0.0 { PI - up * 0.9 } else { up * 0.9 };
            d.scroll(at, radius, root, -side * up, f);
            // Leaves in the spaces between.
            for low in [-1.0, 1.0] {
                let from = Point::new(at.x + side * 0.5 * pitch, c.y + low * 0.15 * half);
                let tip = Point::new(at.x + side * (0.5 + 0.14 * low * up) * pitch, c.y + low * 0.94 * half);
                d.leaf(Leaf { root: from, tip, bend: 0.2 * side * up, wide: 0.36 * half, lobes: f.lobes });
            }
        }
    }
    if d.on_black {
        centre(d, c, half, f, middle);
    }
}

/// One stem that runs in waves from end to end, a scroll in each bend.
fn wave(d: &mut Drawing, r: Rect, f: Foliage) {
    let half = r.h / 2.0;
    let n = (r.w / (1.55 * half)).round().max(2.0);
    let pitch = r.w / n;
    let place = |i: f64, y: f64| Point::new(r.x + pitch * i, r.centre().y + y * half);
    let stem: Vec<Point> = (0..=(8 * n as usize))
        .map(|k| {
            let t = k as f64 / 8.0;
            place(t, -0.82 * (PI * (t - 0.5)).sin())
        })
        .collect();
    let mut parts = Vec::new();
    for i in 0..n as usize {
        let up = if i % 2 == 0 { 1.0 } else { -1.0 };
        let at = place(i as f64 + 0.5, 0.12 * up);
        let inner = Foliage { turns: 0.7 * f.turns, ..f };
        parts.extend(d.scroll_parts(at, 0.78 * half.min(pitch), -up * PI / 2.0 + PI, up, inner));
        let root = place(i as f64 + 0.05, 0.2 * up);
        parts.push(Part::Leaf(Leaf {
            root,
            tip: place(i as f64 - 0.12, 0.95 * up),
            bend: 0.2,
            wide: 0.4 * half,
            lobes: f.lobes,
        }));
    }
    parts.push(Part::Stem(smooth(&stem, 0.4), [0.16 * half, 0.16 * half]));
    d.parts(parts);
}

/// Swags that hang from masks or flowers, with fruit.
fn festoons(d: &mut Drawing, r: Rect, f: Foliage) {
    let half = r.h / 2.0;
    let n = (r.w / (3.0 * half)).round().max(2.0);
    let pitch = r.w / n;
    let mask = d.chance.happens(0.5);
    let mut swags = Vec::new();
    for i in 0..n as usize {
        let a = Point::new(r.x + pitch * (i as f64 + 0.1), r.y + 0.5 * half);
        let b = Point::new(r.x + pitch * (i as f64 + 0.9), r.y + 0.5 * half);
        let low = (a + b) * 0.5 + Point::new(0.0, 0.95 * half);
        swags.push(smooth(
            &[
                a,
                curve::mixed(a, low, 0.6) + Point::new(0.0, 0.12 * half),
                low,
                curve::mixed(b, low, 0.6) + Point::new(0.0, 0.12 * half),
                b,
            ],
            0.4,
        ));
    }
    for i in 0..=n as usize {
        let at = Point::new(r.x + (pitch * i as f64).clamp(0.5 * half, r.w - 0.5 * half), r.y + 0.55 * half);
        if mask && i % 2 == 0 {
            d.mask(at, 0.52 * half, f);
        } else {
            d.flower(Flower { at, radius: 0.45 * half, petals: f.petals.max(5), turn: 0.3 });
        }
        let hang = at + Point::new(0.0, 0.5 * half);
        let end = Point::new(at.x, r.bottom() - 0.1 * half);
        d.garland(&[hang, end], 0.36 * half, f);
    }
    for swag in swags {
        let (low, _) = curve::at(&swag, 0.5);
        for k in [-1.0, 0.0, 1.0] {
            d.fruit(low + Point::new(k * 0.3 * half, -0.05 * half * k * k), 0.19 * half);
        }
        d.garland(&swag, 0.42 * half, f);
    }
}

/// A row of arches with a flower or leaf in each.
fn arcade(d: &mut Drawing, r: Rect, f: Foliage) {
    let half = r.h / 2.0;
    let n = (r.w / (1.35 * half)).round().max(3.0);
    let pitch = r.w / n;
    let both = d.chance.happens(0.5);
    for i in 0..n as usize {
        let c = Point::new(r.x + pitch * (i as f64 + 0.5), r.centre().y);
        if i % 2 == 0 || !both {
            let petals = f.petals.max(4);
            d.flower(Flower {
                at: c + Point::new(0.0, -0.1 * half),
                radius: 0.36 * pitch.min(half),
                petals,
                turn: 0.0,
            });
            for side in [-1.0, 1.0] {
                let root = c + Point::new(0.0, 0.75 * half);
                let tip = c + Point::new(side * 0.36 * pitch, 0.2 * half);
                d.leaf(Leaf { root, tip, bend: -0.2 * side, wide: 0.24 * pitch, lobes: f.lobes });
            }
        } else {
            for k in -1..=1 {
                let root = c + Point::new(0.0, 0.8 * half);
                let tip =
                    c + Point::new(f64::from(k) * 0.3 * pitch, -0.5 * half + 0.3 * half * f64::from(k * k));
                d.leaf(Leaf { root, tip, bend: 0.15 * f64::from(k), wide: 0.34 * pitch, lobes: f.lobes });
            }
        }
        let arch = curve::arc(c + Point::new(0.0, 0.1 * half), 0.47 * pitch, 0.92 * half, PI, 2.0 * PI);
        let mut path = vec![Point::new(c.x - 0.47 * pitch, r.bottom())];
        path.extend(arch);
        path.push(Point::new(c.x + 0.47 * pitch, r.bottom()));
        d.band(&curve::resampled(&path, 0.4), |_| 0.07 * half, 0.9);
    }
}

/// A prospect: trees, houses and hills along a plain.
fn prospect(d: &mut Drawing, r: Rect) {
    let crowns = [Crown::Clumps, Crown::Leaves, Crown::Spindle, Crown::Clumps];
    let n = d.chance.whole(4, 8);
    for i in 0..n {
        let foot = Point::new(
            r.x + r.w * (i as f64 + d.chance.between(0.2, 0.8)) / n as f64,
            r.y + r.h * d.chance.between(0.74, 0.86),
        );
        let high = r.h * d.chance.between(0.35, 0.68);
        match d.chance.below(5) {
            0 => d.house(foot, 1.3 * high, 0.8 * high),
            1 => d.tower(foot, 0.36 * high, high),
            2 => {
                let way = if d.chance.happens(0.5) { 1.0 } else { -1.0 };
                d.figure(foot, high, way);
            }
            _ => {
                let crown = *d.chance.pick(&crowns);
                d.tree(foot, high, crown);
            }
        }
    }
    let heights: Vec<f64> = (0..8).map(|_| d.chance.between(0.0, 0.5)).collect();
    d.slope(Rect::new(r.x, r.y + 0.68 * r.h, r.w, 0.32 * r.h), &heights, 0.9);
    let heights: Vec<f64> = (0..10).map(|_| d.chance.between(0.0, 0.9)).collect();
    d.slope(Rect::new(r.x, r.y + 0.4 * r.h, r.w, 0.5 * r.h), &heights, 0.5);
    d.sky(Rect::new(r.x, r.y, r.w, 0.7 * r.h), 0.3);
}
