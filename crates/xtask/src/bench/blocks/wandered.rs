//! Real impressions as a copyist's hand would have left them: pairs cut again, and pairs of one block, on real ink.
//!
//! Of close copies there are few real pairs. So the second impression of a pair of one block is drawn anew with its strokes moved
//! aside as those of a copy wander (shares and grains after `press::block::recut`, in pixels, as no scale is known), and once more
//! with nothing but a slow bend, so that being drawn anew tells nothing.

use evidence::block::Cut;
use press::Noise;
use rand::{RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use sheet::{Plane, Point, Rect};

/// What a real impression is drawn anew as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum DrawnAs {
    /// The same block.
    ItWas,
    /// A copy.
    ACopy,
}

/// How far the strokes of a copy wander, pixels, root mean square: least and most. Traced copies wander by 0.06 to 0.14 mm, close ones by
/// 0.2 to 0.35, at 200 to 400 ppi.
const WANDERS: [f64; 2] = [0.6, 5.0];
/// Its shares of the square and their grains, pixels: slow, middling, quick, and line by line.
const SHARES: [(f64, f64); 4] = [(0.3, 300.0), (0.28, 130.0), (0.17, 36.0), (0.25, 11.0)];
/// Of the quick and the line's own no more than this, pixels.
const MOST: [f64; 2] = [1.6, 3.6];
/// Slow bend of what stays as it was, pixels.
const BEND: f64 = 1.0;
/// Spread of the darkness, by which the edges of strokes move: of a copy line by line, of both slowly.
const DARKER: [f64; 2] = [0.16, 0.12];
/// Spread of [`Noise::at`].
const NOISE_SPREAD: f64 = 0.42;

struct Field {
    noise: [Noise; 2],
    size: f64,
}

impl Field {
    fn new(seed: u64, grain: f64, size: f64) -> Self {
        let noise = [1, 2].map(|k| Noise::new(seed ^ (k * 0x9E37 + grain as u64), "a real copy", grain));
        Self { noise, size: size / NOISE_SPREAD }
    }

    fn at(&self, p: Point) -> Point {
        let [x, y] = &self.noise;
        Point::new(x.at(p.x, p.y), y.at(p.x, p.y)) * self.size
    }
}

/// The cut in a box of an ink, drawn anew; `seed` tells how.
pub(super) fn drawn(ink: &Plane<u8>, place: Rect, what: DrawnAs, seed: u64) -> Option<Cut> {
    let mut chance = ChaCha8Rng::seed_from_u64(seed);
    let each = std::f64::consts::FRAC_1_SQRT_2;
    let [least, most] = WANDERS.map(f64::ln);
    let wander = chance.random_range(least..most).exp();
    let is_copy = what == DrawnAs::ACopy;
    let mut fields = vec![Field::new(seed, 400.0, BEND * each)];
    if is_copy {
        let of = |(share, grain): (f64, f64)| (wander * share.sqrt(), grain);
        let [slow, middling, quick, own] = SHARES.map(of);
        let held = [(quick.0.min(MOST[0]), quick.1), (own.0.min(MOST[1]), own.1)];
        fields.extend(
            [slow, middling]
                .into_iter()
                .chain(held)
                .map(|(size, grain)| Field::new(seed, grain, size * each)),
        );
    }
    let darker: Vec<Field> = [(is_copy, 11.0), (true, 300.0)]
        .into_iter()
        .zip(DARKER)
        .filter(|((is, _), _)| *is)
        .map(|((_, grain), by)| Field::new(seed ^ 0xDA, grain, by))
        .collect();
    let near = place.grown(0.1 * place.w.max(place.h));
    let mut out = ink.clone();
    for y in near.y.max(0.0) as usize..(near.bottom() as usize).min(ink.height()) {
        for x in near.x.max(0.0) as usize..(near.right() as usize).min(ink.width()) {
            let p = Point::new(x as f64, y as f64);
            let from = fields.iter().map(|f| f.at(p)).fold(p, |p, d| p + d);
            let gain: f64 = 1.0 + darker.iter().map(|f| f.at(p).x).sum::<f64>();
            out.row_mut(y)[x] = (between(ink, from) * gain).clamp(0.0, 255.0) as u8;
        }
    }
    Cut::of(&out, place, None)
}

/// The ink at a place, between four pixels.
fn between(ink: &Plane<u8>, p: Point) -> f64 {
    let (w, h) = (ink.width() as f64 - 1.001, ink.height() as f64 - 1.001);
    let (x, y) = (p.x.clamp(0.0, w), p.y.clamp(0.0, h));
    let (i, j) = (x as usize, y as usize);
    let (u, v) = (x - i as f64, y - j as f64);
    let at = |i: usize, j: usize| f64::from(ink.at(i, j));
    let row = |j: usize| at(i, j) * (1.0 - u) + at(i + 1, j) * u;
    row(j) * (1.0 - v) + row(j + 1) * v
}
