//! The likelihood of a line's drifts if it stands, was moved whole, respaced, or set again.

use nalgebra::{Cholesky, DMatrix, DVector, Dyn};

/// One word of a line, followed from the first photograph to the second.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct WordDrift {
    /// Which word of its line it is, those that were not found counted too: so many spaces stand before it.
    pub(crate) number: usize,
    /// Place along the line, in the unit of the drifts.
    pub(crate) along: f64,
    /// Drift along the line against the paper's motion.
    pub(crate) drift: f64,
    /// Standard deviation of finding the word, by its match alone.
    pub(crate) sd: f64,
    /// Standard deviation of the paper's motion there, which neighbours share.
    pub(crate) paper: f64,
    /// Which part of the line it stands in, if folds part it: words of one part may have slid together.
    pub(crate) part: u32,
}

/// How exactly words are placed on this pair of photographs, in the unit of the drifts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Placing {
    /// Error of one word against the next: matching, grain, spread ink.
    pub(crate) white: f64,
    /// Error that neighbouring words share: what is left of cockle and curl.
    pub(crate) smooth: f64,
    /// How far along a line that error is shared.
    pub(crate) reach: f64,
}

/// Steps of care that are tried of a compositor who sets a line again, each the square root of two times the one before.
pub(crate) const CARES: usize = 9;

/// Natural logarithms of likelihoods.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Likelihoods {
    /// The line stands.
    pub(crate) same: f64,
    /// It was shifted whole.
    pub(crate) moved: f64,
    /// It was spaced out anew about one place.
    pub(crate) respaced: f64,
    /// It was set again, for each step of care from the most careful on.
    pub(crate) reset: [f64; CARES],
}

/// How much one space differs from the same space in another setting by the most careful compositor
/// tried, in x-heights: about 0.04 mm on pica. Each further step is the square root of two times it.
const LEAST_SPACE: f64 = 0.025;
/// How far a line is shifted that is moved whole, in x-heights (standard deviation): half an em quad
/// is about one x-height (common practice, no source).
const SHIFT: f64 = 0.6;

/// How a line is spaced out anew about one place, in x-heights (standard deviations): how much the place
/// itself opens or closes and how much every other space does, for a point put in, a letter, and a word; and
/// how unevenly those do, the spaces of the case having but few widths (common practice, no source).
const ONE_PLACE: [f64; 3] = [0.5, 1.2, 3.0];
const EVERY_SPACE: [f64; 3] = [0.06, 0.18, 0.5];
const UNEVENLY: f64 = 0.012;

/// How far the parts of a line that a fold parts may have slid against the paper's motion as it is told, in x-heights
/// (standard deviation): a fold that hides 0.2 mm of print is seldom found as a crease.
const SLID: f64 = 0.1;

/// Weighs the four explanations of a line of words in their order; `x_height` is the line's.
///
/// All are normal distributions of the whole row of drifts. Under *stands* neighbours share the smooth
/// part of the error, and the words to one side of a fold theirs; under *moved* all words share one shift more;
/// under *respaced* the drift grows evenly, space by space, along the line but for one jump, which may be at any space,
/// also before the first word that was found or after the last; under *set again* each space adds a difference of its
/// own, so that the drifts are a random walk (a justified line brings it back to zero at the end, which it need not do
/// in verse or a last line).
pub(crate) fn weigh(words: &[WordDrift], placing: &Placing, x_height: f64) -> Likelihoods {
    let n = words.len();
    let drifts = DVector::from_iterator(n, words.iter().map(|w| w.drift));
    let is_parted = words.iter().any(|w| w.part != words[0].part);
    let slid = if is_parted { SLID * x_height } else { 0.0 };
    let error = DMatrix::from_fn(n, n, |i, j| {
        let apart = (words[i].along - words[j].along) / placing.reach;
        let smooth = |w: &WordDrift| placing.smooth.hypot(w.paper);
        let together = if words[i].part == words[j].part { slid * slid } else { 0.0 };
        let shared = smooth(&words[i]) * smooth(&words[j]) * (-0.5 * apart * apart).exp() + together;
        if i == j { shared + placing.white.powi(2) + words[i].sd.powi(2) } else { shared }
    });
    // Spaces from the first word found to each.
    let spaces: Vec<f64> = words.iter().map(|w| (w.number - words[0].number) as f64).collect();
    let with = |shift: f64, space: f64| {
        let walk = |i: usize, j: usize| space * space * spaces[i].min(spaces[j]);
        let covariance = DMatrix::from_fn(n, n, |i, j| error[(i, j)] + shift * shift + walk(i, j));
        with_strays(&drifts, covariance, x_height)
    };
    let about = |place: usize, k: usize| {
        let (jump, even) = (ONE_PLACE[k] * x_height, EVERY_SPACE[k] * x_height);
        let uneven = UNEVENLY * x_height;
        let covariance = DMatrix::from_fn(n, n, |i, j| {
            let both_after = if i.min(j) >= place { jump * jump } else { 0.0 };
            error[(i, j)]
                + both_after
                + even * even * spaces[i] * spaces[j]
                + uneven * uneven * spaces[i].min(spaces[j])
                + 0.25 * even * even
        });
        with_strays(&drifts, covariance, x_height)
    };
    let places = (0..=n).flat_map(|place| (0..ONE_PLACE.len()).map(move |k| (place, k)));
    // The neighbours tell the paper's motion only so well: a standing line may seem shifted a little.
    let seeming = placing.smooth.max(placing.white) / 2.0;
    Likelihoods {
        same: with(seeming, 0.0),
        moved: with(SHIFT * x_height, 0.0),
        respaced: log_mean(&places.map(|(place, k)| about(place, k)).collect::<Vec<_>>()),
        reset: std::array::from_fn(|k| {
            let space = LEAST_SPACE * x_height * 2f64.powf(k as f64 / 2.0);
            with(space.max(seeming), space)
        }),
    }
}

/// How far off a stray lies, in x-heights (standard deviations): one beside a crease or moved alone, and one that was
/// taken for another word, which may lie as far off as words are looked for. How many words in a hundred are strays, of
/// either kind; and the most strays that a line of so many words is believed to hold, one of three at any rate.
const STRAYS: [f64; 2] = [0.25, 2.0];
const STRAY_SHARE: f64 = 0.03;
const MOST_STRAYS: f64 = 0.3;
const ONE_STRAY_OF: usize = 3;

/// Log density of drifts of which some may be strays: words taken for others, or moved alone, or beside a
/// crease. Each explanation may set aside the words that fit it worst, at the price of their rarity; a
/// line set again would have to set aside nearly all of them to pass for one that stands.
fn with_strays(drifts: &DVector<f64>, covariance: DMatrix<f64>, x_height: f64) -> f64 {
    let n = drifts.len();
    let spreads = covariance.diagonal();
    let Some(factor) = covariance.cholesky() else { return f64::NEG_INFINITY };
    let (kept, aside) = ((1.0 - STRAY_SHARE).ln(), (STRAY_SHARE / STRAYS.len() as f64).ln());
    let price = kept - aside;
    let mut solved = factor.solve(drifts);
    let mut best = log_density(drifts, &solved, &factor) + n as f64 * kept;
    // What a word may bring that is set aside is at most half its own part of the solution, squared, over its
    // precision, and that is no less than one over its spread: mostly none can pay, and no inverse is needed.
    if (0..n).all(|k| 0.5 * solved[k] * solved[k] * spreads[k] <= price) {
        return best;
    }
    let mut inverse = factor.inverse();
    let mut left: Vec<usize> = (0..n).collect();
    let most = ((MOST_STRAYS * n as f64) as usize).max(usize::from(n >= ONE_STRAY_OF));
    for _ in 0..most {
        // The word that the others foretell worst: of a normal density, the one whose own part of the
        // solution is largest against its own precision.
        let off = |k: usize| solved[k] * solved[k] / inverse[(k, k)];
        let Some(at) = (0..left.len()).max_by(|&i, &j| off(left[i]).total_cmp(&off(left[j]))) else { break };
        let worst = left.swap_remove(at);
        // How surely the others foretell it, and what is gained when it may lie farther off by one of the strays.
        let foretold = inverse[(worst, worst)].recip();
        let gain = |stray: f64| {
            let wider = 1.0 + (stray * x_height).powi(2) / foretold;
            0.5 * (off(worst) * (1.0 - 1.0 / wider) - wider.ln())
        };
        let [near, far] = STRAYS.map(gain);
        let (gain, stray) = if far > near { (far, STRAYS[1]) } else { (near, STRAYS[0]) };
        if gain <= price {
            break;
        }
        best += gain - price;
        // The inverse of the covariance with that much more in one place (Sherman & Morrison, *Annals of Mathematical
        // Statistics* 21 (1950), 124-127).
        let more = (stray * x_height).powi(2);
        let column = inverse.column(worst).clone_owned();
        let drawn = more / (1.0 + more * inverse[(worst, worst)]);
        let shift = drawn * solved[worst];
        solved.axpy(-shift, &column, 1.0);
        inverse.ger(-drawn, &column, &column, 1.0);
    }
    best
}

/// Logarithm of the mean of exponentials; minus infinity of none.
fn log_mean(logs: &[f64]) -> f64 {
    let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if top.is_finite() {
        top + (logs.iter().map(|v| (v - top).exp()).sum::<f64>() / logs.len() as f64).ln()
    } else {
        top
    }
}

/// Log density of a normal distribution of mean zero, by the factor of its covariance; `solved` is the covariance's
/// inverse times `x`.
fn log_density(x: &DVector<f64>, solved: &DVector<f64>, factor: &Cholesky<f64, Dyn>) -> f64 {
    let half_log_det: f64 = factor.l_dirty().diagonal().iter().map(|v| v.ln()).sum();
    -0.5 * solved.dot(x) - half_log_det - 0.5 * x.len() as f64 * std::f64::consts::TAU.ln()
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLACING: Placing = Placing { white: 0.015, smooth: 0.01, reach: 20.0 };

    fn line(drifts: &[f64]) -> Vec<WordDrift> {
        drifts
            .iter()
            .enumerate()
            .map(|(number, &drift)| {
                let along = number as f64 * 9.0;
                WordDrift { number, along, drift, sd: 0.005, paper: 0.0, part: 0 }
            })
            .collect()
    }

    fn weighed(drifts: &[f64]) -> (f64, f64, f64) {
        let l = weigh(&line(drifts), &PLACING, 1.7);
        (l.same, l.moved, l.reset.iter().copied().fold(f64::NEG_INFINITY, f64::max))
    }

    #[test]
    fn a_line_that_stands_is_weighed_as_standing() {
        let (same, moved, reset) = weighed(&[0.01, -0.02, 0.0, 0.015, -0.01, 0.02, -0.005]);
        assert!(same > moved + 1.0 && same > reset, "{same} {moved} {reset}");
    }

    #[test]
    fn smooth_paper_is_no_resetting() {
        let (same, _, reset) = weighed(&[-0.02, -0.012, -0.004, 0.004, 0.011, 0.018, 0.02]);
        assert!(same > reset, "{same} {reset}");
    }

    #[test]
    fn a_line_shifted_whole_is_weighed_as_moved() {
        let (same, moved, reset) = weighed(&[0.41, 0.38, 0.4, 0.42, 0.39, 0.4]);
        assert!(moved > same + 5.0 && moved > reset + 1.0, "{same} {moved} {reset}");
    }

    #[test]
    fn a_careful_resetting_is_weighed_as_reset() {
        let (same, moved, reset) = weighed(&[0.0, 0.09, 0.02, 0.11, 0.18, 0.1, 0.0]);
        assert!(reset > same + 5.0 && reset > moved + 5.0, "{same} {moved} {reset}");
    }

    #[test]
    fn room_shared_out_about_a_correction_is_respacing() {
        let drifts = [0.0, -0.1, -0.19, -0.29, 0.75, 0.61, 0.45, 0.3, 0.16, 0.0];
        let l = weigh(&line(&drifts), &PLACING, 1.7);
        let reset = l.reset.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        assert!(l.respaced > reset + 3.0 && l.respaced > l.same + 5.0, "{l:?}");
        let walk = [0.0, 0.2, 0.05, 0.4, 0.75, 0.5, 0.62, 0.3, 0.41, 0.0];
        let l = weigh(&line(&walk), &PLACING, 1.7);
        let reset = l.reset.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        assert!(reset > l.respaced + 2.0, "{l:?}");
    }

    #[test]
    fn room_is_shared_out_over_words_that_are_not_found_too() {
        let found = [(0, 0.0), (1, -0.4), (3, -1.2), (4, -1.62), (8, 0.42), (9, 0.0)];
        let of = |numbers: fn(usize, usize) -> usize| -> Likelihoods {
            let words = found
                .iter()
                .enumerate()
                .map(|(i, &(number, drift))| WordDrift { number: numbers(i, number), ..line(&[drift])[0] });
            weigh(&words.collect::<Vec<_>>(), &PLACING, 1.7)
        };
        let reset = |l: &Likelihoods| l.reset.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let counted = of(|_, number| number);
        assert!(counted.respaced > reset(&counted) + 2.0, "{counted:?}");
        let uncounted = of(|i, _| i);
        assert!(uncounted.respaced < reset(&uncounted), "{uncounted:?}");
        // What was put right stands beyond the words that were found.
        let before = weigh(&line(&[-0.4, -0.8, -1.2, -1.61]), &PLACING, 1.7);
        assert!(before.respaced > reset(&before) + 1.0, "{before:?}");
    }

    /// A stray's gain, and the next one's after it, against the densities themselves.
    #[test]
    fn strays_bring_what_the_densities_say() {
        let drifts = DVector::from_vec(vec![0.01, 0.9, -0.02, 0.0, 3.1, 0.02, -0.01]);
        let covariance =
            DMatrix::from_fn(
                7,
                7,
                |i, j| if i == j { 0.0004 } else { 0.0001 / (1.0 + i.abs_diff(j) as f64) },
            );
        let of = |strays: &[(usize, f64)]| {
            let mut covariance = covariance.clone();
            for &(k, stray) in strays {
                covariance[(k, k)] += stray * stray;
            }
            let factor = covariance.cholesky().unwrap();
            let price = (STRAY_SHARE / 2.0).ln() * strays.len() as f64;
            log_density(&drifts, &factor.solve(&drifts), &factor)
                + price
                + (7 - strays.len()) as f64 * (1.0 - STRAY_SHARE).ln()
        };
        let given = with_strays(&drifts, covariance.clone(), 1.0);
        let near_or_far = [STRAYS[0], STRAYS[1]];
        let two = near_or_far.map(|s| near_or_far.map(|t| of(&[(4, s), (1, t)])));
        let best = two.as_flattened().iter().copied().fold(f64::NEG_INFINITY, f64::max);
        assert!((given - best).abs() < 1e-6, "{given} {best}");
        assert!(given > of(&[(4, STRAYS[1])]) && of(&[(4, STRAYS[1])]) > of(&[]));
    }

    #[test]
    fn one_stray_word_is_set_aside_and_a_walk_is_not() {
        let (same, _, reset) = weighed(&[0.01, -0.02, 0.0, 0.9, -0.01, 0.02, -0.005, 0.01, 0.01]);
        assert!(same > reset + 1.0, "{same} {reset}");
        let (same, _, reset) = weighed(&[0.0, 0.2, 0.3, 0.6, 0.5, 0.9]);
        assert!(reset > same + 5.0, "{same} {reset}");
        // Of three words two stand to a hundredth, and one was taken for another far off.
        let (same, _, reset) = weighed(&[3.2, 0.0, 0.01]);
        assert!(same > reset, "{same} {reset}");
        let (same, _, reset) = weighed(&[0.0, 0.3, 0.5]);
        assert!(reset > same + 2.0, "{same} {reset}");
    }

    /// A hand check of the density: two independent standard normals at (1, 2) have the log density
    /// -(1 + 4) / 2 - ln(2 pi).
    #[test]
    fn the_density_is_that_of_the_formula() {
        let x = DVector::from_vec(vec![1.0, 2.0]);
        let factor = DMatrix::identity(2, 2).cholesky().unwrap();
        let d = log_density(&x, &factor.solve(&x), &factor);
        assert!((d + 2.5 + std::f64::consts::TAU.ln()).abs() < 1e-12);
    }

    #[test]
    fn a_line_that_slid_into_a_fold_stands_and_one_set_again_does_not() {
        let step = [0.01, -0.02, 0.0, 0.01, 0.15, 0.13, 0.16, 0.15];
        let parted = |drifts: &[f64]| -> Vec<WordDrift> {
            line(drifts)
                .into_iter()
                .enumerate()
                .map(|(i, w)| WordDrift { part: u32::from(i > 3), ..w })
                .collect()
        };
        let least = |l: &Likelihoods| l.reset.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let seen = weigh(&parted(&step), &PLACING, 1.0);
        assert!(seen.same > least(&seen), "{seen:?}");
        let unseen = weigh(&line(&step), &PLACING, 1.0);
        assert!(unseen.same < least(&unseen), "{unseen:?}");
        let walk = weigh(&parted(&[0.0, 0.09, 0.02, 0.11, 0.18, 0.1, 0.0, -0.12]), &PLACING, 1.0);
        assert!(walk.same < least(&walk), "{walk:?}");
    }
}
