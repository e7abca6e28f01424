//! Laws fitted here against SciPy and statsmodels.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use trade::survival::laws::{Binomial, Fitted, Law, NegativeBinomial, Poisson, fitted};
use trade::survival::{CountOf, Counts};

/// What `survival.py` answers.
fn asked(what: &str, edition: u32, counts: &Counts) -> Option<Vec<f64>> {
    let python = outside::python_with("scipy, statsmodels")?;
    let input: Vec<u8> = counts
        .each()
        .flat_map(|c| [f64::from(c.copies), c.items as f64])
        .flat_map(f64::to_le_bytes)
        .collect();
    let answer = outside::script(&python, "survival.py", &[what.to_owned(), edition.to_string()], &input);
    Some(answer.as_chunks::<8>().0.iter().map(|&b| f64::from_le_bytes(b)).collect())
}

#[track_caller]
fn near(got: f64, wanted: f64, share: f64) {
    assert!((got - wanted).abs() <= share * wanted.abs().max(1.0), "{got} for {wanted}");
}

fn one(law: &dyn Law, counts: &Counts) -> Fitted {
    fitted(&[law], counts).remove(0)
}

/// Invented: a little stock of ballads; many alike; and a library's long tail.
fn sets() -> Vec<Counts> {
    let tail = [1, 2, 3, 5, 9, 17, 40, 80, 150]
        .map(|copies| CountOf { copies, items: 400 / u64::from(copies + 1) + 1 });
    vec![
        Counts::parse("30,12,5,2,1").unwrap(),
        Counts::parse("120,44,25,17,9,11,6,4,2,3,1,2").unwrap(),
        Counts::parse("90,80,61,33,12,6,2").unwrap(),
        Counts::new(tail).unwrap(),
    ]
}

#[test]
fn the_poisson_law_agrees_with_statsmodels_and_its_interval_with_scipy() {
    for counts in sets() {
        let Some(theirs) = asked("poisson", 0, &counts) else { return };
        let ours = one(&Poisson, &counts);
        near(ours.parameters[0].value, theirs[0], 1e-5);
        near(ours.ln_likelihood.unwrap(), theirs[1], 1e-8);
        near(ours.estimate.total.unwrap(), theirs[2], 1e-5);
        // The profile is found by another way there: by bracketing of SciPy on the whole likelihood.
        near(ours.estimate.interval_95.low, theirs[3], 1e-4);
        near(ours.estimate.interval_95.high.unwrap(), theirs[4], 1e-4);
        match ours.fit {
            Some(fit) => {
                near(fit.statistic, theirs[5], 1e-5);
                near(fit.chance, theirs[6], 1e-5);
            }
            None => assert!(theirs[5].is_nan()),
        }
    }
}

#[test]
fn the_negative_binomial_law_agrees_with_scipy_and_statsmodels() {
    let mut without_end = 0;
    for counts in sets() {
        let Some(theirs) = asked("negative-binomial", 0, &counts) else { return };
        let ours = one(&NegativeBinomial, &counts);
        near(ours.estimate.interval_95.low, theirs[3], 2e-3);
        match ours.estimate.interval_95.high {
            Some(high) => near(high, theirs[4], 2e-3),
            None => assert!(theirs[4].is_infinite(), "{}", theirs[4]),
        }
        // Where r falls to nothing there is no best number of items, and none is told.
        if theirs[0] < 1e-3 {
            assert_eq!(ours.estimate.total, None);
            without_end += 1;
            continue;
        }
        // The likelihood is flat where r is large: it is what must agree, to the sixth digit.
        near(ours.ln_likelihood.unwrap(), theirs[1], 1e-6);
        near(ours.estimate.total.unwrap(), theirs[2], 2e-3);
    }
    assert_eq!(without_end, 1, "of the sets the last has a tail without end");
}

#[test]
fn the_binomial_law_agrees_with_scipy_and_goes_over_into_poisson() {
    let counts = Counts::parse("30,12,5,2,1").unwrap();
    for edition in [5, 40, 1000] {
        let Some(theirs) = asked("binomial", edition, &counts) else { return };
        let ours = one(&Binomial::new(edition, &counts).unwrap(), &counts);
        near(ours.parameters[0].value, theirs[0], 1e-6);
        near(ours.ln_likelihood.unwrap(), theirs[1], 1e-9);
        near(ours.estimate.total.unwrap(), theirs[2], 1e-6);
    }
    let large = one(&Binomial::new(1_000_000, &counts).unwrap(), &counts);
    near(large.estimate.total.unwrap(), one(&Poisson, &counts).estimate.total.unwrap(), 1e-5);
    assert!(Binomial::new(4, &counts).is_none(), "five copies are left of one");
}
