//! Statistics of our own against SciPy.

use chronology::{line, tau_b};

/// What the reference program answers to these numbers; `None` where there is no Python with SciPy.
fn scipy(what: &str, n: usize, numbers: &[f64]) -> Option<Vec<f64>> {
    let python = outside::python_with("scipy")?;
    let input: Vec<u8> = numbers.iter().flat_map(|x| x.to_le_bytes()).collect();
    let answer = outside::script(&python, "statistics.py", &[what.to_owned(), n.to_string()], &input);
    Some(answer.as_chunks::<8>().0.iter().map(|&b| f64::from_le_bytes(b)).collect())
}

#[track_caller]
fn near(got: f64, wanted: f64) {
    assert!((got - wanted).abs() <= 1e-7 * wanted.abs().max(1.0), "{got} for {wanted}");
}

#[test]
fn inverse_prediction_agrees_with_the_band_of_scipy() {
    let sets: [(&[f64], &[f64], f64); 5] = [
        (&[1590.0, 1600.0, 1610.0, 1620.0], &[12.0, 31.0, 52.0, 69.0], 60.0),
        (&[1528.0, 1534.0, 1547.0], &[40.0, 55.0, 79.0], 110.0),
        (&[1701.0, 1703.0, 1709.0, 1710.0, 1722.0, 1731.0], &[3.0, 3.0, 9.0, 7.0, 15.0, 24.0], 12.0),
        (&[1480.0, 1480.0, 1490.0, 1495.0], &[90.0, 84.0, 66.0, 50.0], 70.0),
        (&[1.0, 2.0, 4.0, 8.0, 16.0, 32.0, 64.0], &[1.0, 0.0, 3.0, 2.0, 9.0, 14.0, 33.0], 50.0),
    ];
    for (years, counts, count) in sets {
        let numbers = [years, counts, &[count]].concat();
        let Some(theirs) = scipy("inverse", years.len(), &numbers) else { return };
        let line = line(years, counts).unwrap();
        let told = line.year_of(count).unwrap();
        near(line.per_year, theirs[0]);
        near(line.count_at_mean, theirs[1]);
        near(told.year, theirs[2]);
        let fieller = told.fieller_95_year.unwrap();
        near(fieller[0], theirs[3]);
        near(fieller[1], theirs[4]);
    }
}

#[test]
fn kendalls_tau_agrees_with_scipy() {
    // Whole numbers of a small range, so that there are ties in both lists.
    for (n, range) in [(5_u64, 3_u64), (12, 5), (40, 7), (40, 1000)] {
        let list = |salt: u64| {
            (0..n).map(|i| ((i * 2_654_435_761 + salt) % 1009 % range) as f64).collect::<Vec<_>>()
        };
        let (first, second) = (list(17), list(400));
        let Some(theirs) = scipy("tau", n as usize, &[first.clone(), second.clone()].concat()) else {
            return;
        };
        near(tau_b(&first, &second).unwrap(), theirs[0]);
    }
}
