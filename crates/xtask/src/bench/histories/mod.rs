//! Invented histories of blocks with known truth: how well impressions are ordered and dated from their wear.

mod score;
mod tables;

use std::ops::Range;
use std::time::Instant;

use chronology::history::{Pace, Wanted as Asked, history};
use chronology::{DatesOptions, dates, order};
use rayon::prelude::*;

use super::report::write_between_marks;
use super::run::{commit, machine};
use score::Outcome;

/// Impressions of a history.
const IMPRESSIONS: [usize; 3] = [5, 10, 20];
/// How damage comes.
const PACES: [Pace; 3] = [Pace::Even, Pace::Bursts, Pace::Slowing];
/// Share of the impressions that are dated.
const DATED: [f64; 2] = [0.4, 0.7];
/// Damages a year.
const RATES: [f64; 3] = [0.3, 0.8, 2.0];
/// Years from cutting to the last edition.
const YEARS: [f64; 3] = [30.0, 60.0, 90.0];
/// Damages missed, and seen where there are none: a perfect eye, a good one, a poor one.
const ERRORS: [[f64; 2]; 3] = [[0.0, 0.0], [0.03, 0.01], [0.08, 0.03]];
/// Share of cells that cannot be judged.
const UNCLEAR: [f64; 2] = [0.05, 0.2];
/// Every combination of the above but those of years and of unclear cells, which go along.
const ALL: usize = 3 * 3 * 2 * 3 * 3;

/// The history with this number: in turn all sizes, paces, shares, rates and errors.
fn plan(number: usize) -> Asked {
    let mut left = number;
    let mut of = |n: usize| {
        let at = left % n;
        left /= n;
        at
    };
    let (impressions, pace, dated, rate, errors) = (of(3), of(3), of(2), of(3), of(3));
    let [missed, false_sight] = ERRORS[errors];
    Asked {
        impressions: IMPRESSIONS[impressions],
        years: YEARS[(number / 3 + number / ALL) % YEARS.len()],
        rate: RATES[rate],
        pace: PACES[pace],
        missed,
        false_sight,
        unclear: UNCLEAR[(number / 5) % UNCLEAR.len()],
        dated: DATED[dated],
        seed: 0x0b10_c500_0000 + number as u64,
    }
}

/// Invents `count` histories, or only those with some numbers, orders and dates them, and prints the tables; of a whole run
/// also writes them into the page.
pub(crate) fn run(count: usize, only: Option<&Range<usize>>) -> anyhow::Result<()> {
    let numbers = only.cloned().unwrap_or(0..count);
    // One thread each: the chains of one history go on beside each other, but a history is soon done.
    let outcomes: Vec<Outcome> = numbers
        .into_par_iter()
        .filter_map(|number| {
            let asked = plan(number);
            let history = history(&asked)?;
            let started = Instant::now();
            let order = order(&history.table, number as u64);
            let ordered = started.elapsed().as_secs_f64();
            let options = DatesOptions { seed: number as u64, hold_out: 0, ..DatesOptions::default() };
            let dates = dates(&history.table, &order, &options);
            let seconds = [ordered, started.elapsed().as_secs_f64() - ordered];
            let outcome = score::score(&asked, &history, &order, &dates, seconds);
            eprintln!("{number:>4} {}", tables::line(&outcome, &dates.rate));
            Some(outcome)
        })
        .collect();
    anyhow::ensure!(!outcomes.is_empty(), "no history of these numbers has a damage");
    let text = tables::tables(&outcomes, &format!("Reglet of commit {}; {}", commit(), machine()));
    println!("{text}");
    if only.is_none() {
        write_between_marks("histories", &text)?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_combination_comes_once_in_a_round() {
        let key = |n: usize| {
            let a = plan(n);
            (a.impressions, format!("{:?}", a.pace), a.dated.to_bits(), a.rate.to_bits(), a.missed.to_bits())
        };
        let keys: std::collections::BTreeSet<_> = (0..ALL).map(key).collect();
        assert_eq!(keys.len(), ALL);
        assert!((0..ALL).all(|n| key(n) == key(n + ALL)));
    }
}
