//! Pictures: figures, trees, houses, hills, ships.

use sheet::{Point, Rect};

use crate::block::drawing::{Drawing, Shading};
use crate::block::motif::tree::Crown;

pub(super) fn draw(d: &mut Drawing, r: Rect) {
    let inner = if d.chance.happens(0.85) { d.framed(r) } else { r };
    d.only_within(&inner.grown(-0.02).corners(), r);
    if d.chance.happens(0.25) {
        return room(d, inner);
    }
    let at = |x: f64, y: f64| Point::new(inner.x + x * inner.w, inner.y + y * inner.h);
    let horizon = d.chance.between(0.42, 0.6);
    let at_sea = d.chance.happens(0.18);

    // What stands nearest comes first.
    let people = if at_sea { 0 } else { d.chance.whole(0, 3) };
    let mut left = d.chance.between(0.14, 0.3);
    for i in 0..people {
        let high = inner.h * d.chance.between(0.42, 0.66) * if i == 0 { 1.0 } else { 0.94 };
        let foot = at(left, d.chance.between(0.9, 0.97));
        let way = if (i == 0 && people > 1) || d.chance.happens(0.5) { 1.0 } else { -1.0 };
        d.figure(foot, high.min(0.75 * inner.w), way);
        left += d.chance.between(0.24, 0.34);
    }
    if at_sea {
        let (x, long) = (d.chance.between(0.35, 0.65), d.chance.between(0.5, 0.75));
        let low = d.chance.between(0.7, 0.8);
        d.ship(at(x, low), (long * inner.w).min(0.85 * inner.h));
        if d.chance.happens(0.6) {
            let x = if x > 0.5 { 0.16 } else { 0.84 };
            d.ship(at(x, horizon + 0.06), 0.18 * inner.w);
        }
        d.water(Rect::new(inner.x, inner.y + horizon * inner.h, inner.w, (1.0 - horizon) * inner.h));
        if d.chance.happens(0.7) {
            d.tower(at(0.85, horizon + 0.01), 0.07 * inner.w, 0.24 * inner.h);
            d.slope(
                Rect::new(inner.x, inner.y + (horizon - 0.12) * inner.h, inner.w, 0.12 * inner.h),
                &[0.9, 0.8, 0.95, 0.6, 0.2, 0.4],
                0.8,
            );
        }
    } else {
        let crowns = [Crown::Clumps, Crown::Clumps, Crown::Leaves, Crown::Spindle, Crown::Bare];
        if d.chance.happens(0.75) {
            let side = if d.chance.happens(0.5) { 0.1 } else { 0.88 };
            let crown = *d.chance.pick(&crowns[..3]);
            let foot = at(side + d.chance.about(0.05), d.chance.between(0.82, 0.92));
            let high = inner.h * d.chance.between(0.65, 0.88);
            d.tree(foot, high, crown);
        }
        let near = Rect::new(inner.x, inner.y + 0.76 * inner.h, inner.w, 0.24 * inner.h);
        d.tufts(near, 8);
        let heights: Vec<f64> = (0..6).map(|_| d.chance.between(0.0, 0.4)).collect();
        d.slope(near, &heights, 0.75);
        // The middle ground.
        let built = d.chance.below(4);
        let x = d.chance.between(0.3, 0.75);
        match built {
            0 => d.house(at(x - 0.15, 0.78), 0.34 * inner.w, 0.3 * inner.h),
            1 => {
                d.tower(at(x, 0.74), 0.1 * inner.w, 0.38 * inner.h);
                d.tower(at(x + 0.16, 0.76), 0.08 * inner.w, 0.28 * inner.h);
                d.rampart(at(x - 0.12, 0.76), at((x + 0.3).min(1.0), 0.76), 0.14 * inner.h);
            }
            2 => {
                d.house(at(x - 0.2, 0.76), 0.2 * inner.w, 0.2 * inner.h);
                d.house(at(x + 0.06, 0.78), 0.22 * inner.w, 0.22 * inner.h);
                d.tower(at(x, 0.74), 0.07 * inner.w, 0.36 * inner.h);
            }
            _ => {}
        }
        for _ in 0..d.chance.whole(1, 4) {
            let foot = at(d.chance.unit(), d.chance.between(0.66, 0.78));
            let crown = *d.chance.pick(&crowns);
            let high = inner.h * d.chance.between(0.16, 0.3);
            d.tree(foot, high, crown);
        }
        let middle = Rect::new(
            inner.x,
            inner.y + (horizon + 0.12) * inner.h,
            inner.w,
            (0.8 - horizon - 0.12).max(0.1) * inner.h,
        );
        let heights: Vec<f64> = (0..5).map(|_| d.chance.between(0.0, 0.6)).collect();
        d.slope(middle, &heights, 0.6);
        let far = Rect::new(inner.x, inner.y + (horizon - 0.14) * inner.h, inner.w, 0.3 * inner.h);
        let heights: Vec<f64> = (0..7).map(|_| d.chance.between(0.0, 0.8)).collect();
        d.slope(far, &heights, 0.5);
    }
    let air = Rect::new(inner.x, inner.y, inner.w, horizon * inner.h);
    if d.chance.happens(0.3) {
        let x = d.chance.between(0.2, 0.8);
        d.sun(at(x, 0.14), 0.045 * inner.w);
    }
    if d.chance.happens(0.4) {
        d.birds(Rect::new(air.x, air.y + 0.1 * air.h, air.w, 0.5 * air.h));
    }
    let dark = d.chance.between(0.1, 0.6);
    d.sky(air, dark);
}

/// A room: figures on a floor of tiles, columns, a window, a wall in shade.
fn room(d: &mut Drawing, r: Rect) {
    let at = |x: f64, y: f64| Point::new(r.x + x * r.w, r.y + y * r.h);
    let floor = d.chance.between(0.62, 0.74);
    let people = d.chance.whole(2, 4);
    let mut left = d.chance.between(0.1, 0.2);
    for i in 0..people {
        let high = r.h * d.chance.between(0.52, 0.7);
        let way = if 2 * i < people { 1.0 } else { -1.0 };
        let foot = at(left, d.chance.between(0.88, 0.97));
        d.figure(foot, high.min(0.8 * r.w), way);
        left += d.chance.between(0.18, 0.3);
    }
    for x in [0.04, 0.96] {
        if d.chance.happens(0.7) {
            d.column(at(x, 0.98), 0.07 * r.w, 0.9 * r.h);
        }
    }
    if d.chance.happens(0.6) {
        // A table with a cloth.
        let x = d.chance.between(0.35, 0.65);
        let top = [
            at(x - 0.16, floor + 0.02),
            at(x + 0.16, floor + 0.02),
            at(x + 0.2, floor + 0.09),
            at(x - 0.2, floor + 0.09),
        ];
        let line = d.hand.line;
        d.thing(&top, line, |_| {});
        let cloth = [
            at(x - 0.2, floor + 0.09),
            at(x + 0.2, floor + 0.09),
            at(x + 0.19, floor + 0.24),
            at(x - 0.19, floor + 0.24),
        ];
        d.thing(&cloth, line, |d| {
            let shading =
                Shading { angle: 1.57, bow: 0.0, apart: d.hand.apart, width: d.hand.fine, crossing: false };
            d.shade(&cloth, shading, |p| 0.35 + 0.6 * ((p.x - r.x) / r.w));
        });
    }
    tiles(d, r, floor);
    window(d, r);
    let wall = [at(0.0, 0.0), at(1.0, 0.0), at(1.0, floor), at(0.0, floor)];
    let upright = d.chance.happens(0.4);
    let shading = Shading {
        angle: if upright { 1.57 } else { 0.0 },
        bow: 0.0,
        apart: d.hand.apart,
        width: d.hand.fine,
        crossing: false,
    };
    let dark = d.chance.between(0.2, 0.6);
    d.shade(&wall, shading, |p| (dark + 0.8 * ((p.x - r.x) / r.w - 0.4)).clamp(0.0, 0.95));
    if d.chance.happens(0.5) {
        let across = Shading { angle: shading.angle + 0.9, crossing: true, ..shading };
        d.shade(&wall, across, |p| (1.6 * ((p.x - r.x) / r.w) - 0.9).clamp(0.0, 0.8));
    }
}

/// Tiles, black and white, towards a point behind the wall; `floor` is where they begin, as a share of the height.
fn tiles(d: &mut Drawing, r: Rect, floor: f64) {
    let at = |x: f64, y: f64| Point::new(r.x + x * r.w, r.y + y * r.h);
    let away = at(0.5, 0.35);
    let rows = 5;
    let level = |k: usize| floor + (1.0 - floor) * (k as f64 / rows as f64).powf(1.4);
    let columns = d.chance.whole(7, 10);
    for k in 0..rows {
        for c in 0..columns {
            let corner = |c: usize, k: usize| {
                let y = level(k);
                let foot = -0.35 + 1.7 * c as f64 / columns as f64;
                let reach = (r.y + y * r.h - away.y) / (r.bottom() - away.y);
                Point::new(away.x + (r.x + foot * r.w - away.x) * reach, r.y + y * r.h)
            };
            let tile = [corner(c, k), corner(c + 1, k), corner(c + 1, k + 1), corner(c, k + 1)];
            if (c + k) % 2 == 0 {
                let shading = Shading {
                    angle: 0.05,
                    bow: 0.0,
                    apart: 0.62 * d.hand.apart,
                    width: 1.2 * d.hand.fine,
                    crossing: false,
                };
                d.shade(&tile, shading, |_| 0.9);
            } else {
                let pen = d.sprig();
                d.line(&[tile[0], tile[1], tile[2]], pen);
            }
        }
    }
    let pen = d.contour();
    d.line(&[at(0.0, floor), at(1.0, floor)], pen);
    d.take(&[at(0.0, floor), at(1.0, floor), at(1.0, 1.0), at(0.0, 1.0)], 0.0);
}

/// A window in the wall, with bars or a prospect.
fn window(d: &mut Drawing, r: Rect) {
    let x = d.chance.between(0.25, 0.65);
    let window = Rect::new(r.x + x * r.w, r.y + 0.1 * r.h, 0.22 * r.w, 0.3 * r.h);
    let line = d.hand.line;
    let bars = d.chance.happens(0.6);
    d.thing(&window.corners(), 1.3 * line, |d| {
        let before = d.emblem_ground(&window.corners(), d.bounds);
        if bars {
            for k in 1..4 {
                let pen = d.sprig();
                let x = window.x + window.w * f64::from(k) / 4.0;
                d.line(&[Point::new(x, window.y), Point::new(x, window.bottom())], pen);
                let y = window.y + window.h * f64::from(k) / 4.0;
                d.line(&[Point::new(window.x, y), Point::new(window.right(), y)], pen);
            }
        } else {
            let foot = Point::new(window.x + 0.3 * window.w, window.bottom() - 0.2 * window.h);
            d.tree(foot, 0.6 * window.h, Crown::Clumps);
            d.slope(
                Rect::new(window.x, window.y + 0.6 * window.h, window.w, 0.4 * window.h),
                &[0.2, 0.5, 0.1, 0.4],
                0.7,
            );
            d.sky(window, 0.3);
        }
        d.restore(before);
    });
}
