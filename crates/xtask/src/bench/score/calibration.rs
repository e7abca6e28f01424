//! Does a weight of evidence mean what it says? The log-likelihood-ratio cost and its least value.
//!
//! Brümmer & du Preez, "Application-independent evaluation of speaker detection", Computer Speech
//! & Language 20 (2006), 230-275.

/// A weight as stated, with the truth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Weighed {
    /// Log10 of the likelihood ratio stated; any real number, infinite ones too.
    pub log10: f64,
    /// Whether the two stand from one setting.
    pub same: bool,
}

/// The cost of the stated weights in bits: 0 perfect, 1 as good as saying nothing, above 1
/// misleading. The mean of log2(1 + 1/LR) over the same ones and that of log2(1 + LR) over the
/// different ones, halved. `None` unless there is one of each.
pub(crate) fn cllr(weights: &[Weighed]) -> Option<f64> {
    let mean = |same: bool| {
        let costs: Vec<f64> = weights
            .iter()
            .filter(|w| w.same == same)
            .map(|w| bits(if same { -w.log10 } else { w.log10 }))
            .collect();
        (!costs.is_empty()).then(|| costs.iter().sum::<f64>() / costs.len() as f64)
    };
    Some(0.5 * (mean(true)? + mean(false)?))
}

/// log2(1 + 10^x), without overflow.
fn bits(x: f64) -> f64 {
    let natural = x * std::f64::consts::LN_10;
    let soft = if natural > 0.0 { natural + (-natural).exp().ln_1p() } else { natural.exp().ln_1p() };
    soft / std::f64::consts::LN_2
}

/// A run of pairs that the best monotone calibration gives one weight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Step {
    /// Smallest stated weight of the run.
    pub from: f64,
    /// Largest stated weight of the run.
    pub to: f64,
    /// Pairs of one setting in it.
    pub same: usize,
    /// Pairs of two settings in it.
    pub different: usize,
    /// The weight that the counts support: log10 of (same here / same in all) over (different here
    /// / different in all); infinite where one is missing.
    pub log10: f64,
}

/// The best monotone calibration, found by pooling adjacent violators: rising in the stated weight.
/// Equal stated weights are never parted. `None` unless there is a pair of each kind.
pub(crate) fn pooled(weights: &[Weighed]) -> Option<Vec<Step>> {
    let all_same = weights.iter().filter(|w| w.same).count();
    let all_different = weights.len() - all_same;
    if all_same == 0 || all_different == 0 {
        return None;
    }
    let mut sorted = weights.to_vec();
    sorted.sort_by(|a, b| a.log10.total_cmp(&b.log10));
    let mut steps: Vec<Step> = Vec::new();
    for w in sorted {
        let (same, different) = (usize::from(w.same), usize::from(!w.same));
        steps.push(Step { from: w.log10, to: w.log10, same, different, log10: 0.0 });
        while let [.., left, right] = steps[..] {
            let violates = left.same * right.different >= right.same * left.different;
            if !violates && left.to < right.from {
                break;
            }
            steps.pop();
            steps.pop();
            steps.push(Step {
                from: left.from,
                to: right.to,
                same: left.same + right.same,
                different: left.different + right.different,
                log10: 0.0,
            });
        }
    }
    for step in &mut steps {
        let same = step.same as f64 / all_same as f64;
        let different = step.different as f64 / all_different as f64;
        step.log10 = (same / different).log10();
    }
    Some(steps)
}

/// The cost that would remain if the weights were recalibrated as well as can be: what is lost
/// because the two kinds overlap. Never more than [`cllr`] nor more than 1.
pub(crate) fn cllr_min(weights: &[Weighed]) -> Option<f64> {
    let mut again = Vec::with_capacity(weights.len());
    for step in pooled(weights)? {
        again.extend((0..step.same).map(|_| Weighed { log10: step.log10, same: true }));
        again.extend((0..step.different).map(|_| Weighed { log10: step.log10, same: false }));
    }
    cllr(&again)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn weighed(same: &[f64], different: &[f64]) -> Vec<Weighed> {
        let one = |same: bool| move |&log10: &f64| Weighed { log10, same };
        same.iter().map(one(true)).chain(different.iter().map(one(false))).collect()
    }

    #[test]
    fn by_hand() {
        // LR 3 and 1 for the same, 1/3 for the different one:
        // 1/2 [ (log2(4/3) + log2(2)) / 2 + log2(4/3) ] = 1/2 [0.70752 + 0.41504] = 0.56128
        let w = weighed(&[3f64.log10(), 0.0], &[-(3f64.log10())]);
        assert!((cllr(&w).unwrap() - 0.561_278).abs() < 1e-6);
    }

    #[test]
    fn perfect_useless_misleading() {
        let perfect = weighed(&[f64::INFINITY; 3], &[f64::NEG_INFINITY; 2]);
        assert_eq!(cllr(&perfect), Some(0.0));
        let useless = weighed(&[0.0; 4], &[0.0; 7]);
        assert!((cllr(&useless).unwrap() - 1.0).abs() < 1e-12);
        assert!((cllr_min(&useless).unwrap() - 1.0).abs() < 1e-12);
        let misleading = weighed(&[-2.0], &[2.0]);
        assert!(cllr(&misleading).unwrap() > 6.0);
        assert!((cllr_min(&misleading).unwrap() - 1.0).abs() < 1e-12, "a reversed order is pooled away");
        assert_eq!(cllr(&weighed(&[1.0], &[])), None);
    }

    #[test]
    fn separated_pairs_cost_nothing_once_recalibrated() {
        let w = weighed(&[0.2, 0.3], &[0.05, 0.1]);
        assert!(cllr(&w).unwrap() > 0.8);
        assert_eq!(cllr_min(&w), Some(0.0));
    }

    #[test]
    fn pooling_by_hand() {
        // Rising order D S D S: the middle two violate and share one step.
        let steps = pooled(&weighed(&[1.0, 3.0], &[0.0, 2.0])).unwrap();
        let counts: Vec<_> = steps.iter().map(|s| (s.different, s.same)).collect();
        assert_eq!(counts, [(1, 0), (1, 1), (0, 1)]);
        assert!(steps[1].log10.abs() < 1e-12);
        // Cost: of each kind one pair is free and one costs a bit; half of (1/2 + 1/2).
        assert!((cllr_min(&weighed(&[1.0, 3.0], &[0.0, 2.0])).unwrap() - 0.5).abs() < 1e-12);
    }

    #[test]
    fn ties_are_never_parted() {
        let steps = pooled(&weighed(&[1.0, 1.0], &[1.0, 0.0])).unwrap();
        assert_eq!(steps.len(), 2);
        assert_eq!((steps[1].same, steps[1].different), (2, 1));
    }

    proptest! {
        #[test]
        fn recalibration_never_costs_more(
            same in proptest::collection::vec(-4.0..4.0f64, 1..30),
            different in proptest::collection::vec(-4.0..4.0f64, 1..30),
        ) {
            let w = weighed(&same, &different);
            let (cost, least) = (cllr(&w).unwrap(), cllr_min(&w).unwrap());
            prop_assert!(least <= cost + 1e-9 && (0.0..=1.0 + 1e-9).contains(&least));
            let steps = pooled(&w).unwrap();
            prop_assert!(steps.windows(2).all(|s| s[0].to < s[1].from && s[0].log10 < s[1].log10));
        }
    }
}
