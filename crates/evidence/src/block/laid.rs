//! One impression of a cut laid over another, as it is or as in a looking-glass.

use super::Cut;
use register::{CannotLay, Laid, lay_cut};

/// Share of its windows from which a placement is so good that the looking-glass is not asked.
const PLAIN: f64 = 0.6;

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
    if plain.as_ref().is_ok_and(|l| l.found_share >= PLAIN) {
        return plain.map(|laid| LaidCut { laid, second: b.clone(), is_mirrored: false });
    }
    let other = b.mirrored();
    match (plain, lay(&other)) {
        (Ok(plain), Ok(glass)) if glass.found_share > plain.found_share => {
            Ok(LaidCut { laid: glass, second: other, is_mirrored: true })
        }
        (Ok(laid), _) => Ok(LaidCut { laid, second: b.clone(), is_mirrored: false }),
        (Err(_), Ok(laid)) => Ok(LaidCut { laid, second: other, is_mirrored: true }),
        (Err(why), Err(_)) => Err(why),
    }
}
