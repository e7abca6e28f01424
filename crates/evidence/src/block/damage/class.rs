//! What kind of damage a place is, by its shape and where it lies.

use super::DamageClass;
use super::class_net::{MIDDLE, OFFSETS, SPREAD, WEIGHTS};
use super::frame::OnFrame;
use super::signs::Place;
use sheet::Point;

/// What is told by shape, in the order of the fitted weights.
const CLASSES: [DamageClass; 5] = [
    DamageClass::Break,
    DamageClass::FrameNick,
    DamageClass::Crack,
    DamageClass::Wormhole,
    DamageClass::LostEdge,
];
/// A gap so many times as long as broad, and so long in units, which lies within this of the way strokes run there (the cosine of 25
/// degrees), is a line that has gone. The press that classes are fitted to prints none: common practice, no source.
const SLENDER: f64 = 3.5;
const LONG: f64 = 2.2;
const ALONG: f64 = 0.906;

/// Classes a damage of so many pieces: by a regression on its [`shapes`], and the products of every two of these
/// (`cargo xtask bench fit damage-class`).
pub(super) fn class(
    shapes: &[f32; SHAPES],
    place: &Place,
    pieces: usize,
    frame: &OnFrame<'_>,
) -> DamageClass {
    let even: [f32; SHAPES] = std::array::from_fn(|i| (shapes[i] - MIDDLE[i]) / SPREAD[i]);
    let products = (0..SHAPES).flat_map(|i| (i..SHAPES).map(move |j| even[i] * even[j]));
    let measured: Vec<f32> = even.into_iter().chain(products).collect();
    let says = |k: usize| WEIGHTS[k].iter().zip(&measured).map(|(w, v)| w * v).sum::<f32>() + OFFSETS[k];
    let best = (0..CLASSES.len()).max_by(|&p, &q| says(p).total_cmp(&says(q))).unwrap_or(0);
    let shape = Shape::of(place);
    let is_along = (shape.way.x * place.along.x + shape.way.y * place.along.y).abs() > ALONG;
    let is_slender = shape.long > SLENDER * shape.broad && shape.long > LONG * frame.unit;
    match CLASSES[best] {
        DamageClass::Break if pieces == 1 && is_slender && is_along => DamageClass::WornLine,
        class => class,
    }
}

/// How many things are measured of the shape of a damage.
pub const SHAPES: usize = 12;

/// What is measured of the shape of a damage and of where it lies, from which its class is fitted.
pub(super) fn shapes(place: &Place, pieces: usize, frame: &OnFrame<'_>) -> [f32; SHAPES] {
    let unit = frame.unit;
    let shape = Shape::of(place);
    let (body, b) = (frame.body, place.bounds);
    let edges = [
        (b.x - body.x, b.right() - body.x),
        (body.right() - b.right(), body.right() - b.x),
        (b.y - body.y, b.bottom() - body.y),
        (body.bottom() - b.bottom(), body.bottom() - b.y),
    ];
    // By how much it lies within the two nearest edges, and how deep it reaches from the nearest.
    let mut within = edges.map(|e| e.0 / unit);
    within.sort_by(f64::total_cmp);
    let deep = edges.into_iter().min_by(|p, q| p.0.total_cmp(&q.0)).map_or(0.0, |e| e.1 / unit);
    let along = (shape.way.x * place.along.x + shape.way.y * place.along.y).abs();
    let filled = place.samples.len() as f64 / (std::f64::consts::FRAC_PI_4 * shape.long * shape.long);
    // Without a scale a photograph is taken to be of a usual resolution.
    let per_mm = frame.all[0].of.cut.scale.as_ref().map_or(USUAL_PER_MM, |s| s.ppi.px_per_mm());
    let mm = |samples: f64| (samples * frame.unit_px / per_mm + 0.05).ln();
    [
        mm(shape.long),
        mm(shape.broad),
        (shape.long / unit + 0.05).ln(),
        (shape.broad / unit + 0.05).ln(),
        (shape.broad / shape.long).min(1.0),
        along * place.one_way,
        filled.min(1.5),
        within[0].clamp(-1.0, 3.0),
        within[1].clamp(-1.0, 3.0),
        deep.clamp(0.0, 6.0),
        (pieces as f64).ln(),
        place.solid,
    ]
    .map(|v| v as f32)
}

/// Pixels to the millimetre of a photograph of 300 to the inch.
const USUAL_PER_MM: f64 = 300.0 / 25.4;

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
