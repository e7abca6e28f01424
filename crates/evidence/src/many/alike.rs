//! Whether two copies agree at a place, told from their ink.
//!
//! Copies of a large set are laid on the first of their setting alone. Two that differ from it at a place were never laid
//! on each other; both lie on the first, and so their ink can be compared there.

use sheet::Plane;

/// Ink of a copy in a box of the frame's photograph, as it lies there: all copies in the same box have the same size.
/// `None` where the copy does not show the place.
pub type InkAt<'i> = dyn Fn(usize, [f64; 4]) -> Option<Plane<u8>> + 'i;

/// How far one place may lie off the other, as a share of the height of its box: what laying leaves, and a sort that has
/// worked loose.
const REACH: f64 = 0.08;
/// Least reach, samples.
const LEAST_REACH: usize = 1;
/// Without a copy that agrees with the first, two agree with each other if they are unlike by less than this share of what
/// either is unlike the first.
const CLOSER: f64 = 0.5;
/// Two pulls of one sort are unlike by some hundredths: below, unlikeness says nothing.
const LEAST_UNLIKE: f64 = 0.02;

/// How unlike two impressions of a place are: 0 the same ink, 1 nothing in common; the least over small shifts.
pub(super) fn unlikeness(a: &Plane<u8>, b: &Plane<u8>) -> f64 {
    let reach = ((REACH * a.height() as f64) as usize).max(LEAST_REACH) as isize;
    let shifts = (-reach..=reach).flat_map(|dy| (-reach..=reach).map(move |dx| (dx, dy)));
    let best = shifts.map(|shift| correlation(a, b, shift)).fold(-1.0, f64::max);
    (1.0 - best).clamp(0.0, 1.0)
}

/// Whether two copies that both differ from the frame agree: `between` is how unlike they are, `from_frame` how unlike the
/// one that is nearer to the frame is to it, `usual` how unlike copies are to the frame that agree with it.
pub(super) fn agree(between: f64, from_frame: f64, usual: Option<f64>) -> bool {
    let limit = usual.map_or(CLOSER * from_frame, |usual| (usual.max(LEAST_UNLIKE) * from_frame).sqrt());
    between < limit.max(LEAST_UNLIKE)
}

/// Normalised cross-correlation of `b` shifted by so many samples with `a`, over what both show; -1 where that is nothing.
fn correlation(a: &Plane<u8>, b: &Plane<u8>, (dx, dy): (isize, isize)) -> f64 {
    let (w, h) = (a.width().min(b.width()) as isize, a.height().min(b.height()) as isize);
    let (mut n, mut sa, mut sb, mut aa, mut bb, mut ab) = (0.0f64, 0.0f64, 0.0f64, 0.0f64, 0.0f64, 0.0f64);
    for y in dy.max(0)..(h + dy).min(h) {
        for x in dx.max(0)..(w + dx).min(w) {
            let p = f64::from(a.at(x as usize, y as usize));
            let q = f64::from(b.at((x - dx) as usize, (y - dy) as usize));
            n += 1.0;
            sa += p;
            sb += q;
            aa += p * p;
            bb += q * q;
            ab += p * q;
        }
    }
    let (va, vb) = (aa * n - sa * sa, bb * n - sb * sb);
    if va <= 0.0 || vb <= 0.0 {
        // Bare paper in both is the same; in one it is not.
        return if va <= 0.0 && vb <= 0.0 && n > 0.0 { 1.0 } else { -1.0 };
    }
    (ab * n - sa * sb) / (va * vb).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bar(x: usize, strength: u8) -> Plane<u8> {
        let mut out = Plane::filled(30, 20, 0u8);
        for y in 3..17 {
            out.row_mut(y)[x..x + 5].fill(strength);
        }
        out
    }

    #[test]
    fn the_same_ink_is_like_itself_though_paler_or_shifted() {
        assert!(unlikeness(&bar(10, 220), &bar(10, 120)) < 1e-9);
        assert!(unlikeness(&bar(10, 220), &bar(11, 220)) < 1e-9);
        assert!(unlikeness(&bar(5, 220), &bar(20, 220)) > 0.8);
        let bare = Plane::filled(30, 20, 0u8);
        assert!(unlikeness(&bare, &bare) < 1e-9 && unlikeness(&bare, &bar(9, 200)) > 0.99);
    }

    #[test]
    fn two_agree_if_they_are_as_like_as_those_that_agree() {
        assert!(agree(0.07, 0.5, Some(0.05)) && !agree(0.4, 0.5, Some(0.05)));
        assert!(agree(0.2, 0.5, None) && !agree(0.3, 0.5, None));
    }
}
