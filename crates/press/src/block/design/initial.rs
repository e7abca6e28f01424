//! Initials.

use std::f64::consts::PI;

use sheet::{Point, Rect};

use crate::block::curve;
use crate::block::drawing::{Drawing, Pen, Shading};
use crate::block::motif::letters::letter_in;
use crate::block::motif::scroll::Foliage;
use crate::block::motif::tree::Crown;
use crate::block::stroke::StrokeKind;
use crate::fount::{Founts, Outline};

pub(super) fn draw(d: &mut Drawing, founts: &Founts, letter: char, r: Rect) {
    match d.chance.below(5) {
        0 | 1 => white_on_black(d, founts, letter, r),
        2 => dotted(d, founts, letter, r),
        3 => hatched(d, founts, letter, r),
        _ => arabesque(d, founts, letter, r),
    }
}

fn letter_box(d: &mut Drawing, inner: Rect) -> Rect {
    let less = d.chance.between(0.05, 0.1);
    Rect::new(
        inner.x + less * inner.w,
        inner.y + less * inner.h,
        (1.0 - 2.0 * less) * inner.w,
        (1.0 - 2.0 * less) * inner.h,
    )
}

fn shape_of(founts: &Founts, letter: char, r: Rect, fatter: f64) -> Outline {
    let outline = letter_in(founts, letter, r).unwrap_or_else(|| Outline::rectangle(r));
    outline.spread(fatter)
}

/// Combs along the right-hand edges of a letter.
fn letter_shade(d: &mut Drawing, shape: &Outline, reach: f64) {
    let inwards = if shape.area() > 0.0 { 1.0 } else { -1.0 };
    for ring in &shape.0 {
        let n = ring.len();
        let mut edge: Vec<Point> = Vec::new();
        for i in 0..=n {
            let (a, b) = (ring[i % n], ring[(i + 1) % n]);
            let normal = curve::across(curve::unit(b - a)) * -inwards;
            // The side away from the light.
            if normal.x > 0.35 && i < n {
                edge.push(a);
                edge.push(b);
            } else if !edge.is_empty() {
                let done = std::mem::take(&mut edge);
                if curve::length(&done) > 2.0 * d.hand.apart {
                    d.comb_of(&done, inwards, 0.4, false, 0.7 * d.hand.apart, |_| reach);
                }
            }
        }
    }
}

/// Foliage in the corners and in the counters of the letter, drawn over the whole box.
fn foliage(d: &mut Drawing, inner: Rect, many: usize) {
    let f = Foliage::drawn(&mut d.chance);
    let c = inner.centre();
    let radius = 0.3 * inner.w.min(inner.h);
    let (dx, dy) = (0.27 * inner.w, 0.27 * inner.h);
    let places = [(-1.0, -1.0), (1.0, 1.0), (1.0, -1.0), (-1.0, 1.0)];
    for &(sx, sy) in places.iter().take(many) {
        let at = c + Point::new(
            sx * dx + d.chance.about(0.04) * inner.w,
            sy * dy + d.chance.about(0.04) * inner.h,
        );
        let root = f64::atan2(-sy, -sx) + d.chance.about(0.6);
        let size = radius * d.chance.between(0.8, 1.05);
        d.scroll(at, size, root, if sx * sy > 0.0 { 1.0 } else { -1.0 }, f);
    }
}

fn white_on_black(d: &mut Drawing, founts: &Founts, letter: char, r: Rect) {
    d.on_black = true;
    d.area(vec![r.corners().to_vec()], true);
    let lined = d.chance.happens(0.6);
    let inner = if lined {
        // A white line within the edge.
        let gap = d.chance.between(0.6, 1.1);
        let path: Vec<Point> = {
            let mut c = r.grown(-gap).corners().to_vec();
            c.push(c[0]);
            c
        };
        let pen = Pen::new(StrokeKind::Frame, 1.1 * d.hand.fine).white();
        d.line_above(&path, pen);
        r.grown(-gap - 0.5)
    } else {
        r.grown(-0.7)
    };
    foliage(d, inner, 4);
    // Small white strokes that fill the ground.
    for _ in 0..(inner.area() / 9.0) as usize {
        let p = Point::new(inner.x + inner.w * d.chance.unit(), inner.y + inner.h * d.chance.unit());
        let a = d.chance.between(0.0, PI);
        let long = d.chance.between(0.3, 1.1);
        let t = curve::towards(a) * long;
        let pen = d.sprig().taper(0.2, 0.4).white();
        d.line_above(&curve::smooth(&[p, p + t * 0.5 + curve::across(t) * 0.15, p + t], 0.25), pen);
    }
    let place = letter_box(d, inner);
    let shape = shape_of(founts, letter, place, 0.012 * r.w);
    let rim = shape.spread(0.9 * d.hand.line);
    d.area(rim.0, true);
    d.area_of(StrokeKind::Letter, shape.0.clone(), false);
    if d.chance.happens(0.7) {
        letter_shade(d, &shape, 0.06 * r.w);
    }
}

fn dotted(d: &mut Drawing, founts: &Founts, letter: char, r: Rect) {
    d.on_black = true;
    let inner = r.grown(-2.6 * d.hand.line - 0.5);
    d.rule_round(r, 1.6 * d.hand.line);
    d.area(vec![inner.corners().to_vec()], true);
    // A ground of white dots in rough rows.
    let apart = 1.15 * d.hand.apart;
    let mut y = inner.y + 0.5 * apart;
    let mut row = 0;
    while y < inner.bottom() - 0.3 * apart {
        let mut x = inner.x + apart * if row % 2 == 0 { 0.5 } else { 1.0 };
        while x < inner.right() - 0.3 * apart {
            let p = Point::new(x + d.chance.normal(0.08) * apart, y + d.chance.normal(0.08) * apart);
            let pen = Pen::new(StrokeKind::Sprig, 0.42 * apart).white();
            d.line_above(&[p - Point::new(0.16, 0.0), p, p + Point::new(0.16, 0.05)], pen);
            x += apart;
        }
        row += 1;
        y += 0.88 * apart;
    }
    let vines = d.chance.whole(1, 3);
    foliage(d, inner.grown(-0.4), vines);
    let place = letter_box(d, inner);
    let shape = shape_of(founts, letter, place, 0.02 * r.w);
    let rim = shape.spread(1.1 * d.hand.line);
    d.area(rim.0, true);
    d.area_of(StrokeKind::Letter, shape.0, false);
}

fn hatched(d: &mut Drawing, founts: &Founts, letter: char, r: Rect) {
    let inner = d.framed(r);
    let place = letter_box(d, inner);
    let shape = shape_of(founts, letter, place, 0.01 * r.w);
    letter_shade(d, &shape, 0.05 * r.w);
    for ring in &shape.0 {
        let pen = d.contour();
        d.ring(ring, pen);
    }
    let whole = shape.spread(0.1);
    d.take_all(&whole.0);
    if d.chance.happens(0.45) {
        // A small landscape behind.
        let ground = Rect::new(inner.x, inner.y + 0.62 * inner.h, inner.w, 0.38 * inner.h);
        let crowns = [Crown::Clumps, Crown::Spindle, Crown::Leaves];
        for _ in 0..d.chance.whole(1, 3) {
            let foot = Point::new(
                inner.x + inner.w * d.chance.between(0.15, 0.85),
                ground.y + ground.h * d.chance.between(0.2, 0.7),
            );
            let crown = *d.chance.pick(&crowns);
            let high = inner.h * d.chance.between(0.3, 0.6);
            d.tree(foot, high, crown);
        }
        d.slope(ground, &[0.3, 0.1, 0.3, 0.15], 0.8);
    } else {
        foliage(d, inner.grown(-0.3), 4);
    }
    let shading = Shading {
        angle: if d.chance.happens(0.75) { d.chance.about(0.04) } else { PI / 4.0 },
        bow: d.chance.about(0.2),
        apart: d.hand.apart * d.chance.between(0.8, 1.0),
        width: d.hand.fine,
        crossing: false,
    };
    d.shade(&inner.corners(), shading, |_| 0.8);
    if d.chance.happens(0.3) {
        let c = inner.centre();
        let far = inner.w.hypot(inner.h) / 2.0;
        d.shade(&inner.corners(), Shading { angle: shading.angle + 1.0, crossing: true, ..shading }, |p| {
            (p.distance(c) / far * 1.6 - 0.75).clamp(0.0, 0.8)
        });
    }
}

fn arabesque(d: &mut Drawing, founts: &Founts, letter: char, r: Rect) {
    let place = Rect::new(r.x + 0.14 * r.w, r.y + 0.12 * r.h, 0.72 * r.w, 0.76 * r.h);
    let shape = shape_of(founts, letter, place, 0.012 * r.w);
    let filled = d.chance.happens(0.4);
    if filled {
        d.area_of(StrokeKind::Letter, shape.0.clone(), true);
    } else {
        letter_shade(d, &shape, 0.07 * r.w);
        for ring in &shape.0 {
            let pen = d.contour();
            d.ring(ring, pen);
        }
    }
    let whole = shape.spread(0.25);
    d.take_all(&whole.0);
    let f = Foliage::drawn(&mut d.chance);
    foliage(d, r.grown(-0.2), 4);
    // Leaves round the edge.
    let inset = 0.06 * r.w;
    let c = r.grown(-inset).corners();
    for i in 0..4 {
        d.garland(&[c[i], c[(i + 1) % 4]], 0.1 * r.w, Foliage { lobes: 1, ..f });
    }
}
