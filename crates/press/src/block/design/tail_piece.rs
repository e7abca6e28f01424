//! Tail-pieces: ornaments that narrow downwards.

use std::f64::consts::PI;

use sheet::{Point, Rect};

use crate::block::curve;
use crate::block::drawing::Drawing;
use crate::block::motif::foliage::{Leaf, Part};
use crate::block::motif::scroll::Foliage;

pub(super) fn draw(d: &mut Drawing, r: Rect) {
    let f = Foliage::drawn(&mut d.chance);
    let c = r.centre();
    let unit = 0.5 * r.h.min(0.9 * r.w);
    let middle = d.chance.below(4);
    let heart = Point::new(c.x, r.y + 0.42 * r.h);
    match middle {
        0 => d.vase(heart, 0.34 * unit, 0.95 * unit),
        1 => d.mask(heart, 0.42 * unit, f),
        2 => d.charge(4 + d.chance.clone().below(4), heart, 0.4 * unit),
        _ => {
            d.charge(1, heart, 0.36 * unit);
        }
    }
    // Fruit or leaves above and below the middle.
    let mut parts = Vec::new();
    for i in 0..5 {
        let a = -PI / 2.0 + (f64::from(i) - 2.0) * 0.5;
        let root = heart + Point::new(0.0, -0.35 * unit);
        parts.push(Part::Leaf(Leaf { root, tip: root + curve::towards(a) * (0.5 * unit), bend: 0.1 * (f64::from(i) - 2.0), wide: 0.2 * unit, lobes: f.lobes }));
    }
    let foot = Point::new(c.x, r.bottom() - 0.1 * r.h);
    parts.push(Part::Fruit(foot, 0.08 * unit));
    for s in [-1.0, 0.0, 1.0] {
        let root = foot + Point::new(0.0, -0.5 * unit);
        parts.push(Part::Leaf(Leaf { root, tip: root + Point::new(s * 0.42 * unit, 0.42 * unit - 0.08 * unit * f64::abs(s)), bend: 0.2 * s, wide: 0.22 * unit, lobes: f.lobes }));
    }
    parts.push(Part::Stem(curve::resampled(&[heart + Point::new(0.0, 0.3 * unit), foot], 0.35), [0.1 * unit, 0.06 * unit]));
    d.parts(parts);
    let rows = [(0.3, 0.36, 0.46), (0.62, 0.64, 0.32)];
    for side in [-1.0, 1.0] {
        for (k, &(x, y, size)) in rows.iter().enumerate() {
            let at = Point::new(c.x + side * (0.5 - 0.5 * x) * 0.62 * r.w, r.y + y * r.h);
            let hand = if k == 0 { -side } else { side };
            let root = if side > 0.0 { PI } else { 0.0 };
            d.scroll(at, size * unit, root, hand, f);
        }
        let outer = Point::new(c.x + side * 0.3 * r.w, r.y + 0.35 * r.h);
        let tip = Point::new(c.x + side * 0.49 * r.w, r.y + 0.1 * r.h);
        let sway = Point::new(c.x + side * 0.42 * r.w, r.y + 0.36 * r.h);
        d.garland(&curve::smooth(&[outer, sway, tip], 0.4), 0.2 * unit, f);
    }
}
