//! What kind of damage a place is, by its shape and where it lies.

use super::DamageClass;
use super::frame::OnFrame;
use super::signs::Place;
use sheet::Point;

/// Nearer to the edge of the cut than this, units, a place touches the frame or what stands at the edge.
const AT_EDGE: f64 = 0.9;
/// From so deep on, units, a piece is out of the edge and not out of the frame alone: frames are rules of half a millimetre to
/// two (common practice, no source).
const DEEP: f64 = 1.6;
/// What is so many times as long as broad, and so long in units, is a crack, or a line that has gone.
const SLENDER: f64 = 3.5;
const LONG: f64 = 2.2;
/// It is a line that has gone if it lies within this of the way strokes run there (the cosine of 25 degrees).
const ALONG: f64 = 0.906;
/// What is so nearly round, its shorter by its longer side, so large in units, and has lost so much of a round of its size, is
/// a hole. Insects bore 1.4 to 2.3 mm wide (Hedges 2013, *Biology Letters* 9).
const ROUND: f64 = 0.62;
const HOLE: f64 = 0.85;
const FILLED: f64 = 0.2;

/// Classes a place that is of so many pieces.
pub(super) fn class(place: &Place, pieces: usize, frame: &OnFrame<'_>) -> DamageClass {
    let unit = frame.unit;
    let shape = Shape::of(place);
    let (body, b) = (frame.body, place.bounds);
    // How far it reaches inwards from the edge that it is nearest to.
    let depths = [
        (b.x - body.x, b.right() - body.x),
        (body.right() - b.right(), body.right() - b.x),
        (b.y - body.y, b.bottom() - body.y),
        (body.bottom() - b.bottom(), body.bottom() - b.y),
    ];
    let nearest = depths.into_iter().min_by(|p, q| p.0.total_cmp(&q.0));
    if let Some((from, deep)) = nearest.filter(|n| n.0 < AT_EDGE * unit) {
        return if deep - from.max(0.0) > DEEP * unit {
            DamageClass::LostEdge
        } else {
            DamageClass::FrameNick
        };
    }
    if shape.long > SLENDER * shape.broad && shape.long > LONG * unit {
        // Several lines are broken in a row: not one of them is gone.
        let is_along =
            pieces == 1 && (shape.way.x * place.along.x + shape.way.y * place.along.y).abs() > ALONG;
        return if is_along { DamageClass::WornLine } else { DamageClass::Crack };
    }
    let round = std::f64::consts::FRAC_PI_4 * shape.long * shape.long;
    let is_filled = place.samples.len() as f64 > FILLED * round;
    if shape.broad > ROUND * shape.long && shape.broad > HOLE * unit && is_filled {
        return DamageClass::Wormhole;
    }
    DamageClass::Break
}

/// Length and breadth of a place, samples, and the way its length lies.
struct Shape {
    long: f64,
    broad: f64,
    way: Point,
}

impl Shape {
    /// By its second moments: of an even bar of a length they are its square by twelve.
    fn of(place: &Place) -> Self {
        let n = place.samples.len().max(1) as f64;
        let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
        for &(x, y) in &place.samples {
            let d = Point::new(f64::from(x) + 0.5, f64::from(y) + 0.5) - place.middle;
            xx += d.x * d.x;
            xy += d.x * d.y;
            yy += d.y * d.y;
        }
        let (half, mid) = (((xx - yy) / 2.0).hypot(xy) / n, f64::midpoint(xx, yy) / n);
        let turn = 0.5 * (2.0 * xy).atan2(xx - yy);
        let side = |moment: f64| (12.0 * moment.max(0.0)).sqrt().max(1.0);
        Self { long: side(mid + half), broad: side(mid - half), way: Point::new(turn.cos(), turn.sin()) }
    }
}
