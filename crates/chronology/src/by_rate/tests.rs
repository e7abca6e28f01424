//! The chain against laws in closed form, and against sums over a fine grid.

use statrs::distribution::{ContinuousCDF, Gamma};

use super::with_counts::LEAST_BURST;
use super::*;
use crate::chains::{Draws, run};
use crate::quantile::{quantile, sorted};
use crate::table::tests::table;

/// Rows of three impressions: so many by the first, then between first and second, and between second and third.
fn rows(counts: [usize; 3]) -> Vec<&'static str> {
    let of = |count: usize, row| std::iter::repeat_n(row, count);
    of(counts[0], "111").chain(of(counts[1], "011")).chain(of(counts[2], "001")).collect()
}

fn draws(counts: [usize; 3], windows: &[Window], burst: Option<f64>, count: usize) -> Draws {
    let table = table(&rows(counts));
    let cells = Cells::new(&table, &table.seen_damages());
    let errors = Some(Rates { missed: 1e-9, false_sight: 1e-9 });
    let priors = Priors { burst, errors, ..Priors::HOUSE };
    let draws = run(5, count, |number, chance| {
        ByRate::new(&cells, Known { windows, editions: 1 }, priors, number, chance)
    });
    assert!(draws.convergence.is_reached, "{:?}", draws.convergence);
    draws
}

fn just(year: f64) -> Window {
    [year - 1e-6, year + 1e-6]
}

#[test]
fn the_rate_of_dated_sheets_without_bursts_is_the_gamma_law_of_the_textbook() {
    // Gamma(1/2 + counts, 0.1 + years): the conjugate law of a Poisson rate (Gelman et al. 2013, § 2.6).
    let draws = draws([4, 11, 6], &[just(1600.0), just(1612.0), just(1620.0)], Some(LEAST_BURST), 6000);
    let wanted = Gamma::new(0.5 + 17.0, 0.1 + 20.0).unwrap();
    let rate = sorted(draws.of(6 + at::RATE).iter().copied());
    for share in [0.025, 0.25, 0.5, 0.75, 0.975] {
        let got = wanted.cdf(quantile(&rate, share).unwrap());
        assert!((got - share).abs() < 0.015, "{share}: {got}");
    }
}

/// The year's distribution by summing over a grid of years, rates and bursts.
fn by_grid(counts: [usize; 3], dated: [f64; 2], burst: Option<f64>, window: Window) -> Vec<(f64, f64)> {
    let ln_count = |count: usize, years: f64, rate: f64, burst: f64| {
        let (count, shape) = (count as f64, rate * years / burst);
        libm::lgamma(shape + count) - libm::lgamma(shape) + count * libm::log(burst)
            - (shape + count) * libm::log1p(burst)
    };
    let steps = 400;
    let grid =
        (0..steps).map(|k| window[0] + (window[1] - window[0]) * (f64::from(k) + 0.5) / f64::from(steps));
    let mut out: Vec<(f64, f64)> = grid
        .map(|year| {
            let mut sum = 0.0;
            for r in 0..120 {
                // Even steps of the logarithm of the rate.
                let rate = libm::exp(-5.0 + 9.0 * f64::from(r) / 120.0);
                for b in 0..60 {
                    let share = (f64::from(b) + 0.5) / 60.0;
                    let burst = burst.unwrap_or((1.0 - share) / share);
                    let ln = ln_count(counts[1], year - dated[0], rate, burst)
                        + ln_count(counts[2], dated[1] - year, rate, burst);
                    sum += libm::exp(ln + 0.5 * libm::log(rate) - 0.1 * rate);
                }
            }
            (year, sum)
        })
        .collect();
    let all: f64 = out.iter().map(|(_, w)| w).sum();
    let mut below = 0.0;
    for (_, w) in &mut out {
        below += *w / all;
        *w = below;
    }
    out
}

#[test]
fn the_year_between_two_dated_sheets_is_that_of_a_fine_grid() {
    for (counts, burst) in [([3, 8, 4], None), ([3, 8, 4], Some(LEAST_BURST)), ([2, 1, 9], None)] {
        let draws = draws(counts, &[just(1600.0), [1600.0, 1630.0], just(1630.0)], burst, 8000);
        let grid = by_grid(counts, [1600.0, 1630.0], burst, [1600.0, 1630.0]);
        let year = sorted(draws.of(3 + 1).iter().copied());
        for (wanted_year, share) in grid.iter().step_by(40) {
            let got = year.partition_point(|y| y < wanted_year) as f64 / year.len() as f64;
            assert!((got - share).abs() < 0.02, "{counts:?} {wanted_year}: {got} for {share}");
        }
    }
}

#[test]
fn without_bursts_the_year_is_where_the_counts_put_it() {
    // A Poisson rate cancels: given the sum, the first count is binomial, and the year Beta(counts + 1) between the sheets.
    let draws = draws([3, 8, 4], &[just(1600.0), [1600.0, 1630.0], just(1630.0)], Some(LEAST_BURST), 8000);
    let mean = draws.of(4).iter().sum::<f64>() / draws.count() as f64;
    assert!((mean - (1600.0 + 30.0 * 9.0 / 14.0)).abs() < 0.25, "{mean}");
}
