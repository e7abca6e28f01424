//! Calibration over invented histories, in small: `cargo xtask bench histories` does it at length, with tables.

use chronology::history::{Pace, Wanted, history};
use chronology::{DatesOptions, dates, order, tau_b};

/// Histories; with about four undated impressions each, which stand or fall together where the rate is wrong.
const HISTORIES: u64 = 15;

#[test]
fn intervals_and_chances_come_true_about_as_often_as_they_say() {
    let (mut asked, mut within_50, mut within_95) = ([0; 2], [0; 2], [0; 2]);
    let (mut pairs, mut stated, mut so) = (0, 0.0, 0.0);
    let mut taus = Vec::new();
    for seed in 0..HISTORIES {
        let paces = [Pace::Even, Pace::Bursts, Pace::Slowing];
        let wanted = Wanted {
            impressions: 8,
            years: 60.0,
            rate: [0.4, 1.0][seed as usize % 2],
            pace: paces[seed as usize % 3],
            missed: 0.03,
            false_sight: 0.01,
            unclear: 0.1,
            dated: 0.5,
            seed,
        };
        let Some(history) = history(&wanted) else { continue };
        let order = order(&history.table, seed);
        let options = DatesOptions { seed, hold_out: 0, ..DatesOptions::default() };
        for date in dates(&history.table, &order, &options).impressions {
            let truth = history.printed[date.impression];
            // There is no rate where all dated sheets are of one year.
            for (k, told) in [date.by_order, date.with_rate].into_iter().enumerate() {
                let Some(told) = told else { continue };
                asked[k] += 1;
                let within = |[from, to]: [f64; 2]| usize::from((from..=to).contains(&truth));
                within_50[k] += within(told.interval_50_year);
                within_95[k] += within(told.interval_95_year);
            }
        }
        let place: Vec<f64> = (0..8)
            .map(|i| order.arrangement.impressions.iter().find(|p| p.impression == i).unwrap().mean_place)
            .collect();
        taus.extend(tau_b(&place, &history.printed));
        for a in 0..8 {
            for b in a + 1..8 {
                let (chance, is_so) = (order.before[a][b], history.printed[a] < history.printed[b]);
                pairs += 1;
                stated += chance.max(1.0 - chance);
                so += f64::from(u8::from(if chance >= 0.5 { is_so } else { !is_so }));
            }
        }
    }
    // Two standard errors of as many answers as there are histories: 0.26 about 0.5, 0.11 about 0.95; the answers of one
    // history stand or fall together where its rate is wrong.
    let share = |counts: [usize; 2], k: usize| counts[k] as f64 / f64::from(asked[k]);
    assert!(asked[0] >= 50 && asked[1] >= 40, "{asked:?}");
    for k in 0..2 {
        assert!((0.24..=0.76).contains(&share(within_50, k)), "50 percent: {}", share(within_50, k));
        assert!(share(within_95, k) >= 0.84, "95 percent: {}", share(within_95, k));
    }
    let (stated, so) = (stated / f64::from(pairs), so / f64::from(pairs));
    assert!((stated - so).abs() < 0.04, "pairs: {so} for {stated}");
    let tau = taus.iter().sum::<f64>() / taus.len() as f64;
    println!("{within_50:?} {within_95:?} of {asked:?}; pairs {so:.3} for {stated:.3}; tau {tau:.3}");
    // Copies of one edition have an order in truth that no damage shows: 0.78 is the mean of ten impressions (benchmarks).
    assert!(tau > 0.6, "tau {tau}");
}
