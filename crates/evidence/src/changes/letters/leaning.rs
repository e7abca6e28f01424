//! A letter looked for leaning: the other impression is turned back about its place, and it is looked for there.
//!
//! So only the letter's own box is looked at, leant over: beside it may stand letters that touch.

use super::wanted::{Ground, Wanted};
use sheet::{Plane, Point, StraightMap};

/// How a letter fits best on the second impression, leant over.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Leant {
    /// Correlation.
    pub(super) likeness: f64,
    /// By so many degrees it leans, clockwise.
    pub(super) degrees: f64,
}

/// A letter is asked whether it leans if it is less like itself than this.
pub(super) const ITSELF: f64 = 0.9;
/// Degrees by which a sort may lean: that by which it is tried first, those by which it is tried then, and the most.
const FIRST_TRIED: f64 = 9.0;
const THEN_TRIED: [f64; 3] = [6.0, 12.0, MOST_LEANING];
pub(super) const MOST_LEANING: f64 = 15.0;
/// If it is then so much less like itself than upright, it does not lean by more or less either.
const HOPELESS: f64 = 0.1;
/// How far about its place it is looked for, samples: it may lean about its foot.
const ABOUT: isize = 4;

/// Where a letter fits best leant over, about `step` off its place on `plane`, where upright its likeness is `upright`;
/// `None` off the plane's edge.
pub(super) fn leant(wanted: &Wanted, plane: &Plane<u8>, step: (isize, isize), upright: f64) -> Option<Leant> {
    let about = ABOUT as usize;
    let [x0, y0, x1, y1] = wanted.span();
    let (w, h) = (x1 - x0, y1 - y0);
    let here = wanted.moved_to(about, about);
    let middle = [x0 as f64 + step.0 as f64 + 0.5 * w as f64, y0 as f64 + step.1 as f64 + 0.5 * h as f64];
    let of = |degrees: f64| {
        let turned = turned_back(plane, middle, [w + 2 * about, h + 2 * about], degrees);
        let ground = Ground::of(&turned);
        let (in_place, _) = here.at(&ground, 0, 0)?;
        Some(Leant { likeness: here.best(&ground, in_place, ABOUT).0, degrees })
    };
    let liker = |p: Leant, q: Leant| if q.likeness > p.likeness { q } else { p };
    let first = [-FIRST_TRIED, FIRST_TRIED].into_iter().filter_map(of).reduce(liker)?;
    if first.likeness < upright - HOPELESS {
        return Some(first);
    }
    Some(THEN_TRIED.into_iter().flat_map(|d| [-d, d]).filter_map(of).fold(first, liker))
}

/// A part of a plane about `middle`, turned back by so many degrees: what leans clockwise stands upright.
fn turned_back(plane: &Plane<u8>, middle: [f64; 2], [w, h]: [usize; 2], degrees: f64) -> Plane<u8> {
    let (sin, cos) = degrees.to_radians().sin_cos();
    let map = StraightMap { centre: Point::new(middle[0], middle[1]), slope: [[cos, -sin], [sin, cos]] };
    plane.through(&map, w, h)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A post with a bar at its head to the right, and beside it another post that touches neither.
    fn upright() -> Plane<u8> {
        let mut p = Plane::filled(60, 50, 0u8);
        for y in 12..36 {
            p.row_mut(y)[24..28].fill(255);
        }
        (12..15).for_each(|y| p.row_mut(y)[24..35].fill(255));
        p
    }

    #[test]
    fn a_letter_that_leans_is_like_itself_leant_over() {
        let first = upright();
        let wanted = Wanted::new(&first, [24, 12, 35, 36]).unwrap();
        for degrees in [9.0, -12.0] {
            // What turns it back by so much the other way leans it over, about a middle that is not its own.
            let second = turned_back(&first, [30.0, 25.0], [60, 50], -degrees);
            let ground = Ground::of(&second);
            let (here, _) = wanted.at(&ground, 0, 0).unwrap();
            let (best, step) = wanted.best(&ground, here, 6);
            let leant = leant(&wanted, &second, step, best).unwrap();
            assert!((leant.degrees - degrees).abs() < 0.1, "{leant:?}");
            assert!(leant.likeness > 0.93 && leant.likeness > best + 0.1, "{leant:?} {best}");
        }
        let still = leant(&wanted, &first, (0, 0), 1.0).unwrap();
        assert!(still.likeness < 0.95, "{still:?}");
    }
}
