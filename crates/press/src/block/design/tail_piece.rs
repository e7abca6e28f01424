//! Tail-pieces: ornaments that narrow downwards.

use std::f64::consts::PI;

use sheet::{Point, Rect};

use crate::block::curve::{self, smooth};
use crate::block::drawing::Drawing;
use crate::block::motif::foliage::{Flower, Leaf, Part};
use crate::block::motif::scroll::Foliage;
use crate::block::motif::tree::Crown;

pub(super) fn draw(d: &mut Drawing, r: Rect) {
    let f = Foliage::drawn(&mut d.chance);
    match d.chance.below(5) {
        0 | 1 => hung(d, r, f),
        2 => basket(d, r, f),
        3 => arabesque(d, r, f),
        _ => vignette(d, r),
    }
}

/// A middle with scrolls to both sides and something that hangs from it.
fn hung(d: &mut Drawing, r: Rect, f: Foliage) {
    let c = r.centre();
    let unit = 0.5 * r.h.min(0.9 * r.w);
    let middle = d.chance.below(6);
    let heart = Point::new(c.x, r.y + d.chance.between(0.36, 0.46) * r.h);
    match middle {
        0 => d.vase(heart, 0.36 * unit, 0.95 * unit),
        1 | 2 => d.mask(heart, 0.42 * unit, f),
        3 => d.charge(1, heart, 0.36 * unit),
        other => {
            let which = other + d.chance.below(5);
            d.charge(which, heart, 0.4 * unit);
        }
    }
    let mut parts = Vec::new();
    let plume = d.chance.whole(3, 7);
    for i in 0..plume {
        let k = i as f64 - (plume - 1) as f64 / 2.0;
        let root = heart + Point::new(0.0, -0.35 * unit);
        let tip = root + curve::towards(-PI / 2.0 + 0.42 * k) * (d.chance.between(0.42, 0.56) * unit);
        parts.push(Part::Leaf(Leaf { root, tip, bend: 0.12 * k, wide: 0.22 * unit, lobes: f.lobes }));
    }
    let foot = Point::new(c.x, r.bottom() - 0.1 * r.h);
    parts.push(if d.chance.happens(0.5) {
        Part::Fruit(foot, 0.08 * unit)
    } else {
        Part::Flower(Flower { at: foot, radius: 0.13 * unit, petals: f.petals.max(4), turn: 0.0 })
    });
    for s in [-1.0, 0.0, 1.0] {
        let root = foot + Point::new(0.0, -0.5 * unit);
        let tip = root + Point::new(s * 0.42 * unit, 0.42 * unit - 0.08 * unit * f64::abs(s));
        parts.push(Part::Leaf(Leaf { root, tip, bend: 0.2 * s, wide: 0.22 * unit, lobes: f.lobes }));
    }
    parts.push(Part::Stem(
        curve::resampled(&[heart + Point::new(0.0, 0.3 * unit), foot], 0.35),
        [0.1 * unit, 0.06 * unit],
    ));
    d.parts(parts);
    let (wide, high) = (d.chance.between(0.9, 1.15), d.chance.between(0.85, 1.15));
    let rows = [(0.3 * high, 0.31 * wide, 0.6), (0.62, 0.17 * wide, 0.4)];
    let garlands = d.chance.happens(0.6);
    for side in [-1.0, 1.0] {
        for (k, &(y, x, size)) in rows.iter().enumerate() {
            let at = Point::new(c.x + side * x * r.w, r.y + y * r.h);
            let hand = if k == 0 { -side } else { side };
            let root = if side > 0.0 { PI } else { 0.0 };
            d.scroll(at, size * unit, root, hand, f);
        }
        let outer = Point::new(c.x + side * 0.3 * r.w, r.y + 0.4 * r.h);
        let tip = Point::new(c.x + side * 0.47 * r.w, r.y + 0.08 * r.h);
        let sway = Point::new(c.x + side * 0.45 * r.w, r.y + 0.36 * r.h);
        if garlands {
            d.garland(&smooth(&[outer, sway, tip], 0.4), 0.22 * unit, f);
        } else {
            for k in 0..3 {
                let root = curve::mixed(outer, sway, 0.2 * f64::from(k));
                let end = curve::mixed(tip, sway, 0.3 * f64::from(k));
                d.leaf(Leaf { root, tip: end, bend: 0.2 * side, wide: 0.26 * unit, lobes: f.lobes });
            }
        }
    }
}

/// A basket of flowers and fruit.
fn basket(d: &mut Drawing, r: Rect, f: Foliage) {
    let c = r.centre();
    let unit = 0.41 * r.h.min(0.86 * r.w);
    let at = Point::new(c.x, r.y + 0.66 * r.h);
    d.vase(at, 0.72 * unit, 0.9 * unit);
    let mut parts = Vec::new();
    let rows = d.chance.whole(2, 3);
    for row in 0..rows {
        let n = 4 - row;
        for i in 0..n {
            let k = i as f64 - (n - 1) as f64 / 2.0;
            let p =
                at + Point::new(0.4 * k * unit, (-0.52 - 0.3 * row as f64 - 0.05 * d.chance.unit()) * unit);
            parts.push(match d.chance.below(3) {
                0 => Part::Fruit(p, 0.17 * unit),
                _ => Part::Flower(Flower {
                    at: p,
                    radius: 0.24 * unit,
                    petals: d.chance.whole(4, 7) as u8,
                    turn: d.chance.unit(),
                }),
            });
        }
    }
    for i in 0..11 {
        let k = f64::from(i) - 5.0;
        let root = at + Point::new(0.12 * k * unit, -0.5 * unit);
        let tip = root + curve::towards(-PI / 2.0 + 0.28 * k) * (d.chance.between(0.7, 1.0) * unit);
        parts.push(Part::Leaf(Leaf { root, tip, bend: 0.06 * k, wide: 0.26 * unit, lobes: f.lobes }));
    }
    d.parts(parts);
    for side in [-1.0, 1.0] {
        let at = Point::new(c.x + side * 0.33 * r.w, r.y + 0.66 * r.h);
        d.scroll(at, 0.52 * unit, if side > 0.0 { PI } else { 0.0 }, side, f);
    }
}

/// Leaves in pairs along an upright stem, shorter and shorter.
fn arabesque(d: &mut Drawing, r: Rect, f: Foliage) {
    let c = r.centre();
    let n = d.chance.whole(4, 7);
    let mut parts = Vec::new();
    let curled = d.chance.happens(0.6);
    for i in 0..n {
        let t = (i as f64 + 0.4) / n as f64;
        let at = Point::new(c.x, r.y + (0.1 + 0.82 * t) * r.h);
        let reach = 0.46 * r.w * (1.0 - t).powf(0.7) + 0.05 * r.w;
        for side in [-1.0, 1.0] {
            let tip = at + Point::new(side * reach, -0.12 * r.h * (1.0 - t) + 0.02 * r.h);
            let wide = (0.75 * r.h / n as f64).min(0.5 * reach);
            if curled && i % 2 == 0 && reach > 6.0 {
                let radius = (0.42 * reach).min(0.85 * r.h / n as f64);
                let middle = at + Point::new(side * (reach - 0.9 * radius), -0.03 * r.h);
                parts.extend(d.scroll_parts(middle, radius, if side > 0.0 { PI } else { 0.0 }, side, f));
                let stem = smooth(
                    &[
                        at,
                        at + Point::new(side * 0.3 * reach, 0.03 * r.h),
                        middle + Point::new(-side * 0.7 * radius, 0.0),
                    ],
                    0.4,
                );
                parts.push(Part::Stem(stem, [0.12 * radius, 0.16 * radius]));
            } else {
                parts.push(Part::Leaf(Leaf { root: at, tip, bend: -0.2 * side, wide, lobes: f.lobes }));
            }
        }
        parts.push(if i % 2 == 0 {
            Part::Flower(Flower { at, radius: 0.05 * r.w, petals: f.petals.max(4), turn: 0.0 })
        } else {
            Part::Fruit(at, 0.026 * r.w)
        });
    }
    let tail = Point::new(c.x, r.bottom() - 0.03 * r.h);
    parts.push(Part::Leaf(Leaf {
        root: Point::new(c.x, r.y + 0.86 * r.h),
        tip: tail,
        bend: 0.0,
        wide: 0.05 * r.w,
        lobes: 1,
    }));
    parts.push(Part::Stem(
        curve::resampled(&[Point::new(c.x, r.y + 0.04 * r.h), tail], 0.4),
        [0.02 * r.w, 0.012 * r.w],
    ));
    // Flowers stand before the leaves.
    parts.sort_by_key(|p| match p {
        Part::Flower(_) | Part::Fruit(..) => 0,
        Part::Leaf(_) => 1,
        _ => 2,
    });
    d.parts(parts);
}

/// A small prospect without a frame, that ends in grass.
fn vignette(d: &mut Drawing, r: Rect) {
    let at = |x: f64, y: f64| Point::new(r.x + x * r.w, r.y + y * r.h);
    let crowns = [Crown::Clumps, Crown::Leaves, Crown::Bare];
    if d.chance.happens(0.6) {
        let way = if d.chance.happens(0.5) { 1.0 } else { -1.0 };
        let x = d.chance.between(0.3, 0.7);
        d.figure(at(x, 0.84), 0.55 * r.h, way);
    }
    let crown = *d.chance.pick(&crowns);
    let x = d.chance.between(0.15, 0.35);
    d.tree(at(x, 0.78), 0.76 * r.h, crown);
    match d.chance.below(3) {
        0 => d.house(at(0.5, 0.74), 0.3 * r.w, 0.36 * r.h),
        1 => {
            d.tower(at(0.62, 0.74), 0.1 * r.w, 0.5 * r.h);
            d.tower(at(0.74, 0.75), 0.07 * r.w, 0.34 * r.h);
            d.rampart(at(0.5, 0.75), at(0.88, 0.75), 0.16 * r.h);
        }
        _ => {
            let crown = *d.chance.pick(&crowns);
            d.tree(at(0.72, 0.76), 0.5 * r.h, crown);
        }
    }
    let near = Rect::new(r.x + 0.1 * r.w, r.y + 0.8 * r.h, 0.8 * r.w, 0.16 * r.h);
    d.tufts(near, 9);
    // An island of ground, narrower below.
    let crest = smooth(&[at(0.02, 0.86), at(0.2, 0.75), at(0.45, 0.72), at(0.75, 0.74), at(0.98, 0.86)], 0.4);
    let pen = d.contour();
    let reach = 0.2 * r.h;
    d.comb(&crest, 1.0, 0.9, false, |t| reach * (PI * t).sin());
    d.line(&crest, pen);
    for k in 0..4 {
        let y = 0.84 + 0.04 * f64::from(k);
        let inset = 0.06 + 0.08 * f64::from(k);
        let sway = d.chance.about(0.03);
        let path = smooth(&[at(inset, y), at(0.5, y + 0.03 + sway), at(1.0 - inset, y)], 0.4);
        let pen = d.contour().taper(4.0, 6.0);
        d.line(&path, pen);
    }
}
