//! A border pieced together from type ornaments, with odd sorts to make it fit.

use sheet::{Mm, Point, Rect};

use crate::chance::{Chance, mixed};
use crate::setting::{Cut, CutKind};

/// Ornaments on a body of `body` mm round a box; also the box that holds them all.
///
/// The sides are whole numbers of ornaments; what is left over is filled by one odd sort or by spaces.
pub(crate) fn around(inner: Rect, body: f64, stock: u64, chance: &mut Chance) -> (Vec<Cut>, Rect) {
    let mut house = Chance::new(stock, "border");
    let (main, odd, corner) = (house.below(4) as u8, 4 + house.below(2) as u8, house.below(6) as u8);
    let outer = inner.grown(body);
    let mut cuts = Vec::new();
    let mut put = |design: u8, centre: Point, quarter: f64, chance: &mut Chance| {
        let serial = cuts.len() as u64;
        // One in sixty is set the wrong way round.
        let wrong = if chance.happens(1.0 / 60.0) { 180.0 } else { 0.0 };
        cuts.push(Cut {
            kind: CutKind::Ornament { design },
            place: Rect::new(
                centre.x - body / 2.0 + chance.normal(0.03),
                centre.y - body / 2.0 + chance.normal(0.03),
                body,
                body,
            ),
            turn: quarter + wrong + chance.normal(0.6),
            piece: mixed(stock ^ serial, "ornament") ^ chance.seed(),
            height: Mm(chance.normal(0.018)),
            face: None,
        });
    };
    let sides = [
        (Point::new(inner.x, inner.y - body / 2.0), Point::new(1.0, 0.0), inner.w, 0.0),
        (Point::new(inner.right() + body / 2.0, inner.y), Point::new(0.0, 1.0), inner.h, 90.0),
        (Point::new(inner.right(), inner.bottom() + body / 2.0), Point::new(-1.0, 0.0), inner.w, 180.0),
        (Point::new(inner.x - body / 2.0, inner.bottom()), Point::new(0.0, -1.0), inner.h, 270.0),
    ];
    for (start, along, length, quarter) in sides {
        let whole = (length / body).floor() as usize;
        let left = length - whole as f64 * body;
        // The rest of the side is white at one place, beside which an odd sort often stands.
        let break_at = if whole > 4 { chance.whole(2, whole - 2) } else { whole };
        let mut reach = 0.0;
        for i in 0..whole {
            if i == break_at {
                reach += left;
            }
            let design = if i + 1 == break_at && left > 0.3 * body { odd } else { main };
            put(design, start + along * (reach + body / 2.0), quarter, chance);
            reach += body;
        }
        let at = start + along * -(body / 2.0);
        put(corner, at, quarter, chance);
    }
    (cuts, outer)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_border_goes_all_round_and_no_two_settings_of_it_agree() {
        let inner = Rect::new(0.0, 0.0, 100.0, 150.0);
        let (a, outer) = around(inner, 5.0, 1, &mut Chance::new(1, "a"));
        let (b, _) = around(inner, 5.0, 1, &mut Chance::new(2, "b"));
        assert_eq!(a.len(), 2 * (20 + 30) + 4);
        assert!(a.iter().all(|c| outer.grown(0.3).holds(c.place.centre())));
        assert_ne!(a, b);
    }
}
