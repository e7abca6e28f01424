//! Fitted by `cargo xtask bench fit` to 145135 letters of 900 simulated pairs of one setting, of which 176 were changed.
//! Not to be edited by hand.

use super::regression::{Regression, knee, line};
use crate::changes::letters::LetterSigns;

pub(super) const EVEN: [f64; 2] = [-0.323, -0.405];

pub(super) const OFF_LINE: Regression<LetterSigns> = Regression {
    constant: -10.517,
    terms: &[
        line(|s| s.itself, 4.041),
        line(|s| s.here, 2.652),
        knee(|s| s.here, -1.5, 0.985),
        knee(|s| s.here, -0.7, -3.925),
        knee(|s| s.gain, 0.1, 6.642),
        knee(|s| s.gain, 0.3, 2.129),
        line(|s| s.aside, -15.916),
        knee(|s| s.aside, 0.05, -21.203),
        knee(|s| s.up_or_down, 0.05, 0.896),
        knee(|s| s.up_or_down, 0.12, 43.536),
        knee(|s| s.up_or_down, 0.2, -70.788),
        knee(|s| s.aside_above, 0.7, -0.846),
        knee(|s| s.up_or_down_above, 0.0, 0.888),
        line(|s| s.others_off, -3.037),
        line(|s| s.usual, -1.362),
        knee(|s| s.next_off, 0.1, 5.002),
        knee(|s| s.letters, 2.0, -0.094),
        knee(|s| s.lean_gain, 0.0, 23.850),
        knee(|s| s.lean_gain, 0.05, 25.094),
        knee(|s| s.lean_gain, 0.1, -45.585),
        line(|s| s.leant, -6.011),
        knee(|s| s.leant, -1.0, 2.965),
        line(|s| s.lean, 2.765),
        knee(|s| s.lean, 0.5, -5.655),
        line(|s| s.like, -0.138),
        knee(|s| s.like, -2.0, -0.141),
        knee(|s| s.ink, 0.0, -0.314),
        line(|s| s.greater, -5.399),
        knee(|s| s.greater, 0.3, -1.822),
        knee(|s| s.lesser, 0.2, -3.642),
        line(|s| s.breadth, 4.090),
        knee(|s| s.breadth, -0.7, -0.573),
        knee(|s| s.breadth, 0.0, -2.597),
        line(|s| s.height, 3.100),
        knee(|s| s.height, 0.4, -0.166),
        line(|s| s.word, 6.127),
        knee(|s| s.word, -0.2, -0.799),
        line(|s| s.lost_about, -2.295),
        knee(|s| s.lost_about, 0.1, 10.159),
        line(|s| s.gained_about, -3.834),
        knee(|s| s.over_and_under, 0.1, -9.041),
        line(|s| s.fold, 0.091),
        knee(|s| s.fold, 3.0, 0.188),
        line(|s| s.noise, -0.198),
        line(|s| s.pixels, 0.271),
    ],
};
