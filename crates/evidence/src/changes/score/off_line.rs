//! Fitted by `cargo xtask bench fit changes` to 145135 letters of 900 simulated pairs of one setting, of which 176 were changed.
//! Not to be edited by hand.

use super::regression::{Regression, knee, line};
use crate::changes::letters::LetterSigns;

pub(super) const EVEN: [f64; 2] = [-0.069, -0.375];

pub(super) const OFF_LINE: Regression<LetterSigns> = Regression {
    constant: -10.280,
    terms: &[
        line(|s| s.itself, 3.957),
        line(|s| s.here, 2.657),
        knee(|s| s.here, -1.5, 1.008),
        knee(|s| s.here, -0.7, -3.957),
        knee(|s| s.gain, 0.1, 6.461),
        knee(|s| s.gain, 0.3, 2.566),
        line(|s| s.aside, -16.484),
        knee(|s| s.aside, 0.05, -21.202),
        knee(|s| s.up_or_down, 0.05, 0.352),
        knee(|s| s.up_or_down, 0.12, 44.830),
        knee(|s| s.up_or_down, 0.2, -71.678),
        knee(|s| s.aside_above, 0.7, -0.898),
        knee(|s| s.up_or_down_above, 0.0, 0.874),
        line(|s| s.others_off, -2.972),
        line(|s| s.usual, -1.401),
        knee(|s| s.next_off, 0.1, 4.758),
        knee(|s| s.letters, 2.0, -0.099),
        knee(|s| s.lean_gain, 0.0, 24.254),
        knee(|s| s.lean_gain, 0.05, 24.703),
        knee(|s| s.lean_gain, 0.1, -44.880),
        line(|s| s.leant, -6.058),
        knee(|s| s.leant, -1.0, 3.037),
        line(|s| s.lean, 2.789),
        knee(|s| s.lean, 0.5, -5.781),
        knee(|s| s.ink, 0.0, -0.457),
        line(|s| s.greater, -5.500),
        knee(|s| s.greater, 0.3, -1.800),
        knee(|s| s.lesser, 0.2, -3.954),
        line(|s| s.breadth, 4.337),
        knee(|s| s.breadth, -0.7, -0.791),
        knee(|s| s.breadth, 0.0, -2.996),
        line(|s| s.height, 3.060),
        knee(|s| s.height, 0.4, -0.743),
        line(|s| s.word, 6.257),
        knee(|s| s.word, -0.2, -0.996),
        line(|s| s.lost_about, -2.227),
        knee(|s| s.lost_about, 0.1, 10.239),
        line(|s| s.gained_about, -3.631),
        knee(|s| s.over_and_under, 0.1, -9.260),
        line(|s| s.fold, 0.095),
        knee(|s| s.fold, 3.0, 0.188),
        line(|s| s.noise, -0.193),
        line(|s| s.pixels, 0.255),
    ],
};
