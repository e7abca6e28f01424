//! Intervals of 95 percent hold the truth about as often as they say, where what they assume holds.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use trade::survival::laws::{NegativeBinomial, Poisson, fitted};
use trade::survival::{CountOf, Counts, chao1};

const EDITIONS: u32 = 400;
const TRIED: u32 = 150;

/// Copies left of one edition, by a Poisson law.
fn left(rng: &mut ChaCha8Rng, mean: f64) -> u32 {
    let (mut copies, mut waited) = (0, 0.0);
    loop {
        waited -= (1.0 - rng.random::<f64>()).ln();
        if waited > mean {
            return copies;
        }
        copies += 1;
    }
}

/// What is left of all editions, of which each has a mean of its own.
fn counts(rng: &mut ChaCha8Rng, mut mean: impl FnMut(&mut ChaCha8Rng) -> f64) -> Counts {
    let each = (0..EDITIONS).map(|_| {
        let mean = mean(rng);
        CountOf { copies: left(rng, mean), items: 1 }
    });
    // Those of which none is left are not known.
    let known: Vec<CountOf> = each.filter(|c| c.copies > 0).collect();
    Counts::new(known).unwrap()
}

#[test]
fn with_equal_chances_both_intervals_hold() {
    let mut rng = ChaCha8Rng::seed_from_u64(3);
    let (mut poisson, mut chao) = (0, 0);
    for _ in 0..TRIED {
        let counts = counts(&mut rng, |_| 1.2);
        let holds = |low: f64, high: Option<f64>| {
            u32::from(low <= f64::from(EDITIONS) && high.is_none_or(|h| h >= f64::from(EDITIONS)))
        };
        let law = fitted(&[&Poisson], &counts)[0].estimate.interval_95;
        poisson += holds(law.low, law.high);
        let bound = chao1(&counts).interval_95;
        chao += holds(bound.low, bound.high);
    }
    // 142.5 of 150 are to hold; three standard errors are 8.
    assert!((135..=150).contains(&poisson), "{poisson} of {TRIED}");
    assert!((135..=150).contains(&chao), "{chao} of {TRIED}");
}

#[test]
fn with_unlike_chances_poisson_fails_and_the_negative_binomial_law_holds() {
    let mut rng = ChaCha8Rng::seed_from_u64(4);
    let (mut poisson, mut negative) = (0, 0);
    for _ in 0..TRIED {
        // Means spread as a gamma law of shape 1 (an exponential), so the counts are negative binomial with r = 1.
        let counts = counts(&mut rng, |rng| -1.5 * (1.0 - rng.random::<f64>()).ln());
        let told = fitted(&[&Poisson, &NegativeBinomial], &counts);
        let holds = |i: usize| {
            let interval = told[i].estimate.interval_95;
            interval.low <= f64::from(EDITIONS) && interval.high.is_none_or(|h| h >= f64::from(EDITIONS))
        };
        poisson += u32::from(holds(0));
        negative += u32::from(holds(1));
        assert!(told[1].weight > told[0].weight, "the wrong law weighs more");
    }
    assert!(poisson < 15, "{poisson}: a law that does not hold tells too few, as its caution says");
    assert!((132..=150).contains(&negative), "{negative} of {TRIED}");
}
