//! One impression of a cut laid over another, as it is or as in a looking-glass.

use super::Cut;
use register::{CannotLay, Laid, by_quarters, lay_cut};
use sheet::{Point, Turned};

/// Share of its windows from which a placement is so good that the looking-glass is not asked, if it covers the cut.
const PLAIN: f64 = 0.6;
/// Of the first cut's windows so many must fall on the second for it to cover it.
const COVERED: f64 = 0.6;

/// In a looking-glass so many times as many windows must be found: ornaments are often alike on both sides, and one block never
/// prints the other way round.
const CLEARLY: f64 = 1.3;

/// The second laid over the first.
#[derive(Debug, Clone)]
pub struct LaidCut {
    /// How it lies; of the second as in a looking-glass, or turned by right angles, if that lies better.
    pub laid: Laid,
    /// The second as it was laid.
    pub second: Cut,
    /// Whether that is as in a looking-glass.
    pub is_mirrored: bool,
    /// Right angles it was turned by, clockwise.
    pub quarters: u8,
}

impl LaidCut {
    /// How the second lies as it was given, `b`, and not as it was turned; `None` where it lies as in a looking-glass.
    pub fn as_given(self, b: &Cut) -> Option<Laid> {
        let full = b.ink.full();
        let turned = Turned::new(self.quarters, full.width(), full.height());
        let mut laid = self.laid;
        laid.map.view = turned.map().after(&laid.map.view);
        (!self.is_mirrored).then_some(laid)
    }
}

/// Lays the second over the first.
///
/// # Errors
/// [`CannotLay`] when the two share nothing, either way.
pub fn lay(a: &Cut, b: &Cut) -> Result<LaidCut, CannotLay> {
    let lay = |b: &Cut| lay_cut(&a.ink, &a.features, &b.ink, &b.features, &a.guide(b));
    let plain = lay(b);
    if plain.as_ref().is_ok_and(|l| l.found_share >= PLAIN && covered(a, b, l) >= COVERED) {
        return plain.map(|laid| LaidCut { laid, second: b.clone(), is_mirrored: false, quarters: 0 });
    }
    let otherwise = |second: Cut, is_mirrored: bool, quarters: u8| {
        lay(&second).map(|laid| LaidCut { laid, second, is_mirrored, quarters })
    };
    let glass = otherwise(b.mirrored(), true, 0);
    // Print that shows few places to hold on to is laid by its masses, for which it must stand the right way up.
    let quarters = right_way_up(a, b);
    let turned = (quarters != 0).then(|| otherwise(b.turned(quarters), false, quarters));
    let plain = plain.map(|laid| LaidCut { laid, second: b.clone(), is_mirrored: false, quarters: 0 });
    let mut best = plain;
    for other in turned.into_iter().chain([glass]) {
        let by = if other.as_ref().is_ok_and(|o| o.is_mirrored) { CLEARLY } else { 1.0 };
        best = match (best, other) {
            (Ok(best), Ok(other)) => {
                Ok(if found(&other.laid) > by * found(&best.laid) { other } else { best })
            }
            (Ok(one), Err(_)) | (Err(_), Ok(one)) => Ok(one),
            (Err(why), Err(_)) => Err(why),
        };
    }
    best
}

/// The quarters by which the second must be turned clockwise to be most like the first as a whole; 0 where none is clear.
pub(super) fn right_way_up(a: &Cut, b: &Cut) -> u8 {
    let alike = by_quarters(&a.ink, &b.ink);
    (1..4u8)
        .filter(|q| alike[usize::from(*q)] > alike[0])
        .max_by(|p, q| alike[usize::from(*p)].total_cmp(&alike[usize::from(*q)]))
        .unwrap_or(0)
}

/// Windows that were found. Of a placement by which the two hardly overlap a great share may be, and few are.
fn found(laid: &Laid) -> f64 {
    laid.patches.iter().filter(|p| p.is_sound()).count() as f64
}

/// Share of the first cut that falls on the second.
fn covered(a: &Cut, b: &Cut, laid: &Laid) -> f64 {
    const STEPS: usize = 8;
    let share = |i: usize| (i as f64 + 0.5) / STEPS as f64;
    let places = (0..STEPS * STEPS)
        .map(|i| Point::new(a.body.x + a.body.w * share(i % STEPS), a.body.y + a.body.h * share(i / STEPS)));
    let on = places.filter(|p| b.body.holds(laid.map.to_b(*p))).count();
    on as f64 / (STEPS * STEPS) as f64
}
