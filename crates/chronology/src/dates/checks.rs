//! How the model fares: its own draws against the counts of the table (Gelman et al., *Bayesian Data Analysis*, 3rd ed. 2013,
//! § 6.3), and dated sheets taken for undated.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::YearTold;
use crate::by_order::Window;
use crate::by_rate::at;
use crate::chains::Draws;

/// How the model of a rate fares.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Checks {
    /// How often counts drawn from the model are at least as uneven, from gap to gap, as those of the table. Near 0.5 is well;
    /// under 0.05 the damage came more unevenly than even bursts explain; over 0.95 more evenly than chance allows.
    pub as_uneven: f64,
    /// The same of a rate without any burst. Under 0.05: damage came in bursts, and a plain Poisson rate would be too sure.
    pub as_uneven_without_bursts: f64,
    /// How often drawn damage lies as early within the years as that of the table, or earlier. Near 0.5 is well; over 0.95 the
    /// rate rose with time, under 0.05 it fell, and the rate is none for years beyond the dated ones.
    pub as_early: f64,
    /// Dated impressions taken for undated.
    pub held_out: Vec<HeldOut>,
    /// Share of these whose year lies within their 50 percent interval; null where none was held out.
    pub within_50: Option<f64>,
    /// Share of these whose year lies within their 95 percent interval; null where none was held out.
    pub within_95: Option<f64>,
}

/// A dated impression that was taken for undated.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HeldOut {
    /// Its number in the table, from 0.
    pub impression: usize,
    /// The middle of what is known of its year.
    pub known_year: f64,
    /// What the model says of it: the median.
    pub median_year: f64,
    /// Between these with 50 percent.
    pub interval_50_year: [f64; 2],
    /// Between these with 95 percent.
    pub interval_95_year: [f64; 2],
    /// How likely the model makes it earlier than the known year, 0 to 1; even in 0..1 over many where all is well.
    pub earlier: f64,
    /// Whether it lies beyond the dated impressions that are left.
    pub is_beyond: bool,
}

impl HeldOut {
    /// What is told of a held-out impression whose year is within a window.
    pub(super) fn of(impression: usize, known: Window, told: &YearTold, draws: &[f64]) -> Option<Self> {
        let known_year = f64::midpoint(known[0], known[1]);
        let earlier = draws.iter().filter(|&&year| year < known_year).count();
        (!draws.is_empty()).then(|| Self {
            impression,
            known_year,
            median_year: told.median_year,
            interval_50_year: told.interval_50_year,
            interval_95_year: told.interval_95_year,
            earlier: earlier as f64 / draws.len() as f64,
            is_beyond: told.beyond_dated > 0.5,
        })
    }

    /// Whether the known year lies within a central interval of this share.
    fn is_within(&self, share: f64) -> bool {
        (self.earlier - 0.5).abs() <= share / 2.0
    }
}

pub(super) fn checks(draws: &Draws, n: usize, held_out: Vec<HeldOut>) -> Checks {
    let mean = |what: usize| draws.of(2 * n + what).iter().sum::<f64>() / draws.count() as f64;
    let within = |share: f64| {
        let hits = held_out.iter().filter(|h| h.is_within(share)).count();
        (!held_out.is_empty()).then(|| hits as f64 / held_out.len() as f64)
    };
    let (within_50, within_95) = (within(0.5), within(0.95));
    Checks {
        as_uneven: mean(at::AS_UNEVEN),
        as_uneven_without_bursts: mean(at::AS_UNEVEN_STEADY),
        as_early: mean(at::AS_EARLY),
        held_out,
        within_50,
        within_95,
    }
}
