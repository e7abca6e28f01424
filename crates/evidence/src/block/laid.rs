//! One impression of a cut laid over another, as it is or as in a looking-glass.

use super::Cut;
use register::{CannotLay, Laid, lay_cut};
use sheet::Point;

/// Share of its windows from which a placement is so good that the looking-glass is not asked, if it covers the cut.
const PLAIN: f64 = 0.6;
/// Of the first cut's windows so many must fall on the second for it to cover it.
const COVERED: f64 = 0.6;

/// The second laid over the first.
#[derive(Debug, Clone)]
pub struct LaidCut {
    /// How it lies; of the second as in a looking-glass, if that lies better.
    pub laid: Laid,
    /// The second as it was laid.
    pub second: Cut,
    /// Whether that is as in a looking-glass.
    pub is_mirrored: bool,
}

/// Lays the second over the first.
///
/// # Errors
/// [`CannotLay`] when the two share nothing, either way.
pub fn lay(a: &Cut, b: &Cut) -> Result<LaidCut, CannotLay> {
    let lay = |b: &Cut| lay_cut(&a.ink, &a.features, &b.ink, &b.features, &a.guide());
    let plain = lay(b);
    if plain.as_ref().is_ok_and(|l| l.found_share >= PLAIN && covered(a, b, l) >= COVERED) {
        return plain.map(|laid| LaidCut { laid, second: b.clone(), is_mirrored: false });
    }
    let other = b.mirrored();
    match (plain, lay(&other)) {
        (Ok(plain), Ok(glass)) if found(&glass) > found(&plain) => {
            Ok(LaidCut { laid: glass, second: other, is_mirrored: true })
        }
        (Ok(laid), _) => Ok(LaidCut { laid, second: b.clone(), is_mirrored: false }),
        (Err(_), Ok(laid)) => Ok(LaidCut { laid, second: other, is_mirrored: true }),
        (Err(why), Err(_)) => Err(why),
    }
}

/// Windows that were found. Of a placement by which the two hardly overlap a great share may be, and few are.
fn found(laid: &Laid) -> usize {
    laid.patches.iter().filter(|p| p.is_sound()).count()
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
