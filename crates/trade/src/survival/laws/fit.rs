//! A fitted law, how well it fits, and how it stands beside the others.

use schemars::JsonSchema;
use serde::Serialize;
use statrs::distribution::{ChiSquared, ContinuousCDF as _};

use super::{Law, profile};
use crate::survival::{Counts, Estimate};

/// A number that was fitted.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Parameter {
    /// Its letter in the formula.
    pub name: &'static str,
    /// Its value.
    pub value: f64,
}

impl Parameter {
    pub(super) fn new(name: &'static str, value: f64) -> Self {
        Self { name, value }
    }

    /// The value of one of them; 0 where there is none.
    pub(super) fn value(of: &[Self], place: usize) -> f64 {
        of.get(place).map_or(0.0, |p| p.value)
    }
}

/// Pearson's test of the counts against what the law expects, counts of few put together.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct ChiSquare {
    /// Σ (observed − expected)²/expected.
    pub statistic: f64,
    /// Counts that were compared, less one, less the numbers fitted.
    pub degrees_of_freedom: u32,
    /// The chance of fitting this badly or worse, were the law true.
    pub chance: f64,
}

/// A law, fitted.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Fitted {
    /// The law.
    pub law: &'static str,
    /// What was fitted; empty where the likelihood has no highest place.
    pub parameters: Vec<Parameter>,
    /// How many items there were.
    #[serde(flatten)]
    pub estimate: Estimate,
    /// The logarithm of the likelihood of the counts seen; null where nothing was fitted.
    pub ln_likelihood: Option<f64>,
    /// Akaike's criterion, 2 × numbers fitted − 2 ln likelihood: the smaller, the better.
    pub aic: Option<f64>,
    /// The weight of the law among those fitted, by Akaike's criterion; they add up to 1.
    pub weight: Option<f64>,
    /// How well it fits; null where there are too few counts to tell.
    pub fit: Option<ChiSquare>,
    /// Items expected for each of the counts of `counts`.
    pub expected: Vec<f64>,
    /// What it takes for granted, and when it misleads.
    pub caution: &'static str,
}

/// Fits laws, and weighs them against each other (Akaike 1974; weights: Burnham & Anderson 2002, from memory).
pub fn fitted(laws: &[&dyn Law], counts: &Counts) -> Vec<Fitted> {
    let mut all: Vec<Fitted> = laws.iter().map(|law| one(*law, counts)).collect();
    let best = all.iter().filter_map(|f| f.aic).fold(f64::INFINITY, f64::min);
    let worth = |f: &Fitted| f.aic.map(|aic| libm::exp((best - aic) / 2.0));
    let sum: f64 = all.iter().filter_map(worth).sum();
    for law in &mut all {
        law.weight = worth(law).map(|w| w / sum);
    }
    all
}

fn one(law: &dyn Law, counts: &Counts) -> Fitted {
    let known = counts.items() as f64;
    let interval_95 = profile::interval(law, counts);
    let Some(parameters) = law.fit(counts) else {
        return Fitted {
            law: law.name(),
            parameters: Vec::new(),
            estimate: Estimate { total: None, standard_error: None, interval_95 },
            ln_likelihood: None,
            aic: None,
            weight: None,
            fit: None,
            expected: Vec::new(),
            caution: law.caution(),
        };
    };
    let seen = -libm::expm1(law.ln_chance(&parameters, 0));
    let chance = |copies: u32| libm::exp(law.ln_chance(&parameters, copies)) / seen;
    let ln_likelihood: f64 = counts
        .each()
        .map(|c| c.items as f64 * (law.ln_chance(&parameters, c.copies) - libm::log(seen)))
        .sum();
    Fitted {
        law: law.name(),
        estimate: Estimate { total: Some(known / seen), standard_error: None, interval_95 },
        ln_likelihood: Some(ln_likelihood),
        aic: Some(2.0 * f64::from(law.parameters()) - 2.0 * ln_likelihood),
        weight: None,
        fit: chi_square(counts, law.parameters(), &chance),
        expected: counts.each().map(|c| known * chance(c.copies)).collect(),
        parameters,
        caution: law.caution(),
    }
}

/// The least that may be expected of a count that is compared by itself (common practice after Cochran 1954).
const LEAST_EXPECTED: f64 = 5.0;

/// Counts 1, 2, … by themselves as long as 5 are expected of each and of all beyond; the rest together.
fn chi_square(counts: &Counts, parameters: u32, chance: &dyn Fn(u32) -> f64) -> Option<ChiSquare> {
    let all = counts.items() as f64;
    let (mut statistic, mut compared) = (0.0, 0_u32);
    let (mut left, mut left_expected) = (all, all);
    let mut add = |observed: f64, expected: f64| {
        statistic += (observed - expected) * (observed - expected) / expected;
        compared += 1;
    };
    for copies in 1..=counts.most_copies() {
        let (observed, expected) = (counts.of(copies) as f64, all * chance(copies));
        if expected < LEAST_EXPECTED || left_expected - expected < LEAST_EXPECTED {
            break;
        }
        add(observed, expected);
        left -= observed;
        left_expected -= expected;
    }
    add(left, left_expected);
    let degrees_of_freedom = compared.checked_sub(1 + parameters).filter(|&d| d > 0)?;
    let law = ChiSquared::new(f64::from(degrees_of_freedom)).ok()?;
    Some(ChiSquare { statistic, degrees_of_freedom, chance: law.sf(statistic) })
}
