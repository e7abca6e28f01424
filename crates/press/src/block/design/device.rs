//! Devices: an emblem in an oval or cartouche, with a motto.

use std::f64::consts::{PI, TAU};

use sheet::{Point, Rect};

use crate::block::curve::{self, smooth_closed};
use crate::block::drawing::{Drawing, STEP};
use crate::block::motif::foliage::{Flower, Leaf};
use crate::block::motif::scroll::Foliage;
use crate::block::motif::tree::Crown;
use crate::fount::Founts;

pub(super) fn draw(d: &mut Drawing, founts: &Founts, r: Rect) {
    let c = r.centre();
    let band = d.chance.happens(0.6);
    let foot = if band { 0.16 * r.h } else { 0.0 };
    let at = Point::new(c.x, c.y - foot / 2.0);
    let (wide, high) = (d.chance.between(0.27, 0.35), d.chance.between(0.29, 0.35));
    let (rx, ry) = (wide * r.w, high * (r.h - foot));
    if band {
        d.motto(founts, Point::new(c.x, r.bottom() - 0.08 * r.h), 0.96 * r.w, 0.1 * r.h);
    }
    let f = Foliage::drawn(&mut d.chance);
    let around = d.chance.below(4);
    let scrolled = around == 0 || around == 1;
    let outer = if scrolled { (1.2 * rx, 1.2 * ry) } else { (1.42 * rx, 1.42 * ry) };
    // What surrounds the oval is drawn first where it overlaps: rolls of leather, masks.
    if scrolled {
        cartouche(d, at, rx, ry, f);
    }
    let rim = curve::ellipse(at, outer.0.min(r.w / 2.0 - 0.3), outer.1.min(r.h / 2.0 - 0.3));
    let field = curve::ellipse(at, rx, ry);
    if around == 3 {
        return wreathed(d, at, r, (1.1 * rx, 1.1 * ry), f);
    }
    let pen = d.contour();
    d.ring(&field, pen);
    if scrolled {
        d.ring(&curve::ellipse(at, 1.06 * rx, 1.06 * ry), pen);
    } else {
        // The motto runs round the oval.
        d.ring(&rim, pen);
        let (mx, my) = (f64::midpoint(rx, outer.0), f64::midpoint(ry, outer.1));
        let path = curve::arc(at, mx, my, PI * 0.62, PI * 2.38);
        let text = super::arms::motto(d);
        d.lettering(founts, &text, &path, 0.42 * (outer.0 - rx).min(outer.1 - ry));
    }
    let all = r;
    let inside = d.emblem_ground(&field, all);
    emblem(d, at, rx, ry);
    d.restore(inside);
    d.take(&if scrolled { curve::ellipse(at, 1.1 * rx, 1.1 * ry) } else { rim.clone() }, 0.05);
    if scrolled {
        let plate = curve::ellipse(at, 1.24 * rx, 1.24 * ry);
        d.comb(&curve::part(&plate, 0.02, 0.35, STEP), 1.0, 0.0, false, |_| 0.12 * rx);
        d.ring(&plate, pen);
        d.take(&plate, 0.05);
    }
    if !scrolled {
        // Leaves in the corners.
        for (sx, sy) in [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)] {
            let middle = at + Point::new(sx * 0.4 * r.w, sy * 0.4 * (r.h - foot));
            d.scroll(middle, 0.1 * r.w, f64::atan2(-sy, -sx), sx * sy, f);
        }
    }
}

/// An emblem within a wreath.
fn wreathed(d: &mut Drawing, at: Point, r: Rect, (rx, ry): (f64, f64), f: Foliage) {
    let before = d.emblem_ground(&curve::ellipse(at, rx, ry), r);
    emblem(d, at, rx, ry);
    d.restore(before);
    let pen = d.contour();
    d.ring(&curve::ellipse(at, rx, ry), pen);
    d.take(&curve::ellipse(at, rx, ry), 0.1);
    let leaf = 0.24 * rx;
    for side in [-1.0, 1.0] {
        let path = curve::arc(at, 1.17 * rx, 1.17 * ry, PI / 2.0, PI / 2.0 - side * 0.93 * PI);
        d.garland(&path, leaf, f);
    }
    d.flower(Flower { at: at + Point::new(0.0, -1.17 * ry), radius: 0.13 * rx, petals: 6, turn: 0.0 });
}

/// Rolls and straps about an oval: how many, how large and where is the block's own.
fn cartouche(d: &mut Drawing, at: Point, rx: f64, ry: f64, f: Foliage) {
    let over = at + Point::new(0.0, -1.26 * ry);
    match d.chance.below(4) {
        0 => d.mask(over, 0.24 * ry, f),
        1 => d.flower(Flower { at: over, radius: 0.17 * ry, petals: f.petals.max(4), turn: 0.2 }),
        2 => d.fruit(over, 0.12 * ry),
        _ => {
            for k in -2..=2 {
                let k = f64::from(k);
                let root = at + Point::new(0.1 * k * rx, -1.12 * ry);
                let tip = root + curve::towards(-PI / 2.0 + 0.42 * k) * (0.3 * ry);
                d.leaf(Leaf { root, tip, bend: 0.1 * k, wide: 0.13 * ry, lobes: f.lobes });
            }
        }
    }
    let rolls: Vec<(f64, f64)> = {
        let n = d.chance.whole(1, 4);
        let first = -d.chance.between(0.7, 1.15);
        let last = d.chance.between(0.7, 1.15);
        (0..n)
            .map(|i| {
                let t = if n == 1 { d.chance.unit() } else { i as f64 / (n - 1) as f64 };
                (first + (last - first) * t, d.chance.between(0.15, 0.28))
            })
            .collect()
    };
    let (strapped, inwards, turns) = (d.chance.below(3), d.chance.happens(0.5), d.chance.between(1.0, 1.8));
    let waist = d.chance.between(1.22, 1.46);
    let shoulder = d.chance.between(1.3, 1.5);
    let line = d.hand.line;
    for side in [-1.0, 1.0] {
        for &(angle, size) in &rolls {
            let p = at + Point::new(side * 1.3 * rx * angle.cos(), 1.28 * ry * angle.sin());
            let radius = size * rx;
            let way = if inwards { angle.signum() } else { -angle.signum() };
            let roll = curve::spiral(
                p,
                radius,
                0.25 * radius,
                if side > 0.0 { PI } else { 0.0 },
                side * way * turns,
            );
            let pen = d.contour();
            let rim = curve::arc(p, radius, radius, 0.0, TAU * 0.6);
            d.comb_of(&rim, 1.0, 0.0, false, 0.8 * d.hand.apart, |_| 0.4 * radius);
            d.line(&roll, pen);
            let ring = curve::ellipse(p, radius, radius);
            d.thing(&ring, line, |_| {});
        }
        let place = |x: f64, y: f64| at + Point::new(side * x * rx, y * ry);
        match strapped {
            0 => {
                let strap = smooth_closed(
                    &[
                        place(1.0, -0.8),
                        place(shoulder, -0.5),
                        place(waist, 0.0),
                        place(shoulder, 0.5),
                        place(1.0, 0.8),
                    ],
                    STEP,
                );
                let edge: Vec<Point> =
                    strap.iter().copied().filter(|p| (p.x - at.x) * side > 1.1 * rx).collect();
                d.thing(&strap, line, |d| d.comb(&edge, side, 0.0, false, |_| 0.16 * rx));
            }
            1 => {
                let root = if side > 0.0 { PI } else { 0.0 };
                d.scroll(place(1.28, -0.35), 0.3 * rx, root, -side, f);
                d.scroll(place(1.28, 0.4), 0.3 * rx, root, side, f);
            }
            _ => {
                let path = curve::smooth(
                    &[place(0.95, -0.95), place(waist, -0.3), place(waist, 0.3), place(0.95, 0.95)],
                    STEP,
                );
                d.garland(&path, 0.24 * rx, f);
            }
        }
    }
    let foot = at + Point::new(0.0, 1.15 * ry);
    if d.chance.happens(0.5) {
        let tip = at + Point::new(0.0, 1.44 * ry);
        d.leaf(Leaf { root: foot, tip, bend: 0.0, wide: 0.4 * rx, lobes: 3 });
    } else {
        d.fruit(foot + Point::new(0.0, 0.12 * ry), 0.1 * ry);
    }
}

fn emblem(d: &mut Drawing, at: Point, rx: f64, ry: f64) {
    let p = |x: f64, y: f64| at + Point::new(x * rx, y * ry);
    let earth = Rect::new(at.x - rx, at.y + 0.35 * ry, 2.0 * rx, 0.7 * ry);
    match d.chance.below(6) {
        0 => {
            if d.chance.happens(0.5) {
                d.figure(p(0.38, 0.75), 0.95 * ry, -1.0);
            }
            let crown = *d.chance.pick(&[Crown::Clumps, Crown::Leaves]);
            d.tree(p(-0.1, 0.7), 1.5 * ry, crown);
            d.slope(earth, &[0.3, 0.1, 0.25, 0.15, 0.3], 0.9);
        }
        1 => {
            d.ship(p(0.0, 0.35), 1.25 * rx);
            d.water(Rect::new(at.x - rx, at.y + 0.3 * ry, 2.0 * rx, 0.75 * ry));
        }
        2 => {
            d.column(p(0.0, 0.7), 0.24 * rx, 1.35 * ry);
            d.slope(earth, &[0.35, 0.2, 0.3, 0.4], 0.9);
        }
        3 => {
            d.tower(p(-0.28, 0.55), 0.36 * rx, 1.05 * ry);
            d.tower(p(0.4, 0.6), 0.3 * rx, 0.8 * ry);
            d.rampart(p(-0.75, 0.62), p(0.8, 0.62), 0.35 * ry);
            d.slope(earth, &[0.25, 0.15, 0.3, 0.2], 0.9);
        }
        4 => {
            d.charge(7, p(0.0, 0.05), 0.66 * ry);
            d.water(Rect::new(at.x - rx, at.y + 0.45 * ry, 2.0 * rx, 0.6 * ry));
        }
        _ => {
            let way = if d.chance.happens(0.5) { 1.0 } else { -1.0 };
            d.figure(p(-0.1 * way, 0.78), 1.45 * ry, way);
            d.tree(p(0.62 * way, 0.6), 0.95 * ry, Crown::Clumps);
            d.slope(earth, &[0.2, 0.3, 0.15, 0.3], 0.9);
        }
    }
    if d.chance.happens(0.4) {
        d.sun(p(0.45, -0.6), 0.12 * ry);
    }
    d.sky(Rect::new(at.x - rx, at.y - ry, 2.0 * rx, 1.4 * ry), 0.3);
}
