//! Factotums: an ornament about a square hole.

use sheet::{Point, Rect};

use super::frame::reversed;
use crate::block::drawing::{Drawing, Shading};
use crate::block::motif::scroll::Foliage;

/// Draws the ornament; also the hole, mm.
pub(super) fn draw(d: &mut Drawing, r: Rect) -> Rect {
    let share = d.chance.between(0.42, 0.54);
    let side = share * r.w.min(r.h);
    let c = r.centre();
    let hole = Rect::new(c.x - side / 2.0, c.y - side / 2.0 + d.chance.about(0.03) * r.h, side, side);
    let rim = hole.grown(0.25);
    if d.chance.happens(0.45) {
        d.on_black = true;
        d.area(vec![r.corners().to_vec(), reversed(&rim.corners())], true);
        ornaments(d, r.grown(-0.8), hole);
        // Ornaments stop at a black rule round the hole; the hole itself is open.
        d.area(vec![rim.grown(0.5).corners().to_vec(), reversed(&rim.corners())], true);
        d.area(vec![rim.corners().to_vec()], false);
        return hole;
    }
    let inner = d.framed(r);
    let line = d.hand.line;
    d.rule_round(rim.grown(line), line);
    d.take(&rim.grown(line + 0.15).corners(), 0.0);
    ornaments(d, inner, hole);
    let shading = Shading {
        angle: *d.chance.pick(&[0.0, 0.0, 1.571, 0.785]),
        bow: 0.0,
        apart: 0.95 * d.hand.apart,
        width: d.hand.fine,
        crossing: false,
    };
    d.shade(&inner.corners(), shading, |_| 0.8);
    hole
}

fn ornaments(d: &mut Drawing, inner: Rect, hole: Rect) {
    let f = Foliage::drawn(&mut d.chance);
    let arm = (hole.x - inner.x).min(hole.y - inner.y).max(1.0);
    let c = inner.centre();
    let pick = d.chance.below(3);
    for (sx, sy) in [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)] {
        let at = c + Point::new(sx * (inner.w / 2.0 - 0.62 * arm), sy * (inner.h / 2.0 - 0.62 * arm));
        d.scroll(at, 0.62 * arm, f64::atan2(-sy, -sx), sx * sy, f);
    }
    for (dx, dy) in [(0.0, -1.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0)] {
        let at = c + Point::new(dx * (inner.w / 2.0 - 0.5 * arm), dy * (inner.h / 2.0 - 0.5 * arm));
        match pick {
            0 => d.mask(at, 0.42 * arm, f),
            1 => d.scroll(at, 0.52 * arm, 0.4, 1.0, Foliage { turns: 0.9, ..f }),
            _ => {
                let along = Point::new(-dy, dx);
                let reach = 0.28 * inner.w;
                d.garland(&[at - along * reach, at + along * reach], 0.42 * arm, f);
            }
        }
    }
}
