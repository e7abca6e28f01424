//! Two inks on one frame, in their colours.

use rayon::prelude::*;
use sheet::Plane;

/// DESIGN §3: ink only in the first, only in the second, in both; and bare paper.
const ONLY_FIRST: [f32; 3] = [180.0, 97.0, 15.0];
const ONLY_SECOND: [f32; 3] = [11.0, 100.0, 112.0];
pub(super) const BOTH: [f32; 3] = [42.0, 38.0, 35.0];
pub(super) const PAPER: [f32; 3] = [252.0, 250.0, 244.0];

/// The steps of ink that are told apart when it is coloured: the eye sees no more, and the table stays in the
/// processor's nearest memory.
const STEPS: usize = 64;

/// Both inks in their colours: where they agree black, where one stands alone its own.
///
/// # Panics
/// When the two are not of one size.
pub(super) fn both(a: &Plane<u8>, b: &Plane<u8>) -> Plane<[u8; 3]> {
    assert_eq!((a.width(), a.height()), (b.width(), b.height()), "two inks on one frame have one size");
    let table: Vec<[u8; 3]> = (0..STEPS * STEPS).map(|i| mixed(i / STEPS, i % STEPS)).collect();
    let step = |ink: u8| usize::from(ink) * (STEPS - 1) / 255;
    let width = a.width();
    let mut out = Plane::filled(width, a.height(), [0u8; 3]);
    let inks = a.data().par_chunks(width).zip(b.data().par_chunks(width));
    out.data_mut().par_chunks_mut(width).zip(inks).for_each(|(out, (a, b))| {
        for ((pixel, &p), &q) in out.iter_mut().zip(a).zip(b) {
            *pixel = table[step(p) * STEPS + step(q)];
        }
    });
    out
}

/// The colour of so much ink in the first and so much in the second, in steps.
fn mixed(first: usize, second: usize) -> [u8; 3] {
    let share = |step: usize| step as f32 / (STEPS - 1) as f32;
    let (p, q) = (share(first), share(second));
    let shared = p.min(q);
    let (first, second, paper) = (p - shared, q - shared, 1.0 - p.max(q));
    std::array::from_fn(|k| {
        (paper * PAPER[k] + shared * BOTH[k] + first * ONLY_FIRST[k] + second * ONLY_SECOND[k]).round() as u8
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn full_inks_have_the_colours_of_the_legend() {
        let plane = |v: [u8; 4]| Plane::from_vec(4, 1, v.to_vec()).unwrap();
        let drawn = both(&plane([255, 0, 255, 0]), &plane([0, 255, 255, 0]));
        let of = |c: [f32; 3]| c.map(|v| v as u8);
        assert_eq!(drawn.data(), [of(ONLY_FIRST), of(ONLY_SECOND), of(BOTH), of(PAPER)]);
    }
}
