//! Head-pieces.

use std::f64::consts::PI;

use sheet::{Point, Rect};

use crate::block::drawing::{Drawing, Shading};
use crate::block::motif::scroll::Foliage;

pub(super) fn draw(d: &mut Drawing, r: Rect) {
    let style = d.chance.below(4);
    let f = Foliage::drawn(&mut d.chance);
    match style {
        0 => {
            d.on_black = true;
            d.area(vec![r.corners().to_vec()], true);
            let inner = r.grown(-0.9);
            let mut ring = inner.grown(0.4).corners().to_vec();
            ring.push(ring[0]);
            let pen = crate::block::drawing::Pen::new(crate::block::stroke::StrokeKind::Frame, d.hand.fine).white();
            d.line_above(&ring, pen);
            band(d, inner.grown(-0.3), f);
        }
        1 | 2 => {
            let inner = d.framed(r);
            band(d, inner.grown(-0.3), f);
            let shading = Shading {
                angle: *d.chance.pick(&[0.0, 0.0, PI / 2.0, PI / 4.0]),
                bow: 0.0,
                apart: 0.95 * d.hand.apart,
                width: d.hand.fine,
                crossing: false,
            };
            d.shade(&inner.corners(), shading, |_| 0.75);
        }
        _ => band(d, r, f),
    }
}

/// A middle with scrolls to both sides, in mirror pairs that are not quite alike.
fn band(d: &mut Drawing, r: Rect, f: Foliage) {
    let c = r.centre();
    let half = r.h / 2.0;
    let middle = d.chance.below(4);
    let centre = |d: &mut Drawing| match middle {
        0 => d.vase(c + Point::new(0.0, 0.1 * half), 0.55 * half, 1.6 * half),
        1 => d.mask(c, 0.8 * half, f),
        2 => d.charge(1, c, 0.62 * half),
        _ => d.charge(0, c, 0.5 * half),
    };
    if !d.on_black {
        centre(d);
    }
    let room = r.w / 2.0 - 0.75 * half;
    let n = (room / (1.75 * half)).round().max(1.0);
    let pitch = room / n;
    let radius = (0.98 * half).min(0.62 * pitch);
    let plan: Vec<(f64, f64)> = (0..n as usize)
        .map(|i| (0.75 * half + pitch * (i as f64 + 0.5), if i % 2 == 0 { 1.0 } else { -1.0 }))
        .collect();
    for (x, up) in plan {
        for side in [-1.0, 1.0] {
            let at = Point::new(c.x + side * x, c.y - up * 0.04 * half);
            let root = if side > 0.0 { PI - up * 0.9 } else { up * 0.9 };
            d.scroll(at, radius, root, -side * up, f);
            // A leaf in the space between.
            let lower = Point::new(at.x + side * 0.62 * pitch, c.y + up * 0.85 * half);
            let tip = lower + Point::new(-side * 0.45 * pitch, -up * 0.25 * half);
            d.leaf(crate::block::motif::foliage::Leaf { root: lower, tip, bend: 0.2 * side * up, wide: 0.3 * half, lobes: f.lobes });
        }
    }
    if d.on_black {
        centre(d);
    }
}
