//! Invented histories of blocks, for checks of this crate alone: when damage came, when the block was printed from, what was
//! seen of it. The truth stands beside the table.
//!
//! A history is not drawn from the model that it is to check. Damage comes one by one at an even rate, in bursts of a few to
//! dozens in one season, or at a rate that falls to a quarter over the life of the block; impressions come in editions of one
//! to four copies, whose sheets were all printed within a year.

use crate::chance::Chance;
use crate::table::{Damage, Dated, Impression, Sighting, Table};

/// How damage comes in time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pace {
    /// One by one, evenly.
    Even,
    /// In bursts: each brings one to many, half of all damage in the largest few.
    Bursts,
    /// One by one, four times as fast at first as in the end.
    Slowing,
}

/// What is asked of a history.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wanted {
    /// Impressions, at least two.
    pub impressions: usize,
    /// Years from cutting to the last edition.
    pub years: f64,
    /// Damages a year, on the whole.
    pub rate: f64,
    /// How they come.
    pub pace: Pace,
    /// Chance that a damage that is there is not seen.
    pub missed: f64,
    /// Chance that one is seen that is not there, on an impression of a damage that is listed.
    pub false_sight: f64,
    /// Chance that a cell cannot be judged.
    pub unclear: f64,
    /// Share of the impressions of which the year is known.
    pub dated: f64,
    /// The seed.
    pub seed: u64,
}

/// A history: a table as a scholar would have it, and what is true.
#[derive(Debug, Clone)]
pub struct History {
    /// The table.
    pub table: Table,
    /// When each impression was printed, as a point of time: 1590.0 is the middle of 1590.
    pub printed: Vec<f64>,
    /// Which edition each impression is of, counted from 0: copies of one were printed within a year.
    pub edition: Vec<usize>,
    /// When each damage of the table came.
    pub came: Vec<f64>,
}

/// The year in which every block of these histories is cut.
const CUT: f64 = 1560.0;

/// Invents a history; `None` where nothing was damaged, or no damage was seen.
pub fn history(wanted: &Wanted) -> Option<History> {
    let mut chance = Chance::new(wanted.seed, 0);
    let (printed, edition) = printed(wanted, &mut chance);
    let came = came(wanted, &mut chance);
    let mut damages = Vec::new();
    let mut listed = Vec::new();
    for &year in &came {
        let seen: Vec<Sighting> = printed.iter().map(|&t| sighting(wanted, t >= year, &mut chance)).collect();
        // What nobody ever saw is in no table; nor is what no sheet can show, though it may once be "seen".
        if printed.iter().any(|&t| t >= year) && seen.contains(&Sighting::Present) {
            damages.push(Damage { name: format!("damage {}", damages.len() + 1), seen });
            listed.push(year);
        }
    }
    let count = ((wanted.dated * wanted.impressions as f64).round() as usize).min(wanted.impressions);
    let mut dated = vec![false; wanted.impressions];
    let mut left: Vec<usize> = (0..wanted.impressions).collect();
    for _ in 0..count {
        dated[left.swap_remove(chance.below(left.len()))] = true;
    }
    let impressions = printed.iter().zip(&dated).enumerate().map(|(i, (&t, &is_dated))| Impression {
        name: format!("copy {}", i + 1),
        dated: if is_dated { Dated::Exactly { year: t.round() as i32 } } else { Dated::Unknown },
    });
    let table = Table::new(impressions.collect(), damages).ok()?;
    Some(History { table, printed, edition, came: listed })
}

/// When the impressions were printed: editions anywhere in the life, one to four copies of each.
fn printed(wanted: &Wanted, chance: &mut Chance) -> (Vec<f64>, Vec<usize>) {
    let mut out = Vec::new();
    let mut number = 0;
    while out.len() < wanted.impressions {
        let edition = CUT + wanted.years * chance.unit();
        for _ in 0..=chance.below(4) {
            out.push((edition + chance.unit(), number));
        }
        number += 1;
    }
    out.truncate(wanted.impressions);
    out.into_iter().unzip()
}

/// When damages came, in the life of the block.
fn came(wanted: &Wanted, chance: &mut Chance) -> Vec<f64> {
    let Wanted { years, rate, pace, .. } = *wanted;
    let count = chance.poisson(rate * years);
    let mut out = Vec::new();
    match pace {
        Pace::Even => out.extend((0..count).map(|_| CUT + years * chance.unit())),
        // A burst brings a Pareto number of damages (shape 1.5), at most forty: on the whole about 2.3 each.
        Pace::Bursts => {
            while out.len() < count {
                let season = CUT + years * chance.unit();
                let size = libm::pow(1.0 - chance.unit(), -1.0 / 1.5).min(40.0) as usize;
                out.extend((0..size).map(|_| season + 0.5 * chance.unit()));
            }
        }
        Pace::Slowing => {
            while out.len() < count {
                let share = chance.unit();
                if chance.happens(1.0 - 0.75 * share) {
                    out.push(CUT + years * share);
                }
            }
        }
    }
    out
}

fn sighting(wanted: &Wanted, is_there: bool, chance: &mut Chance) -> Sighting {
    if chance.happens(wanted.unclear) {
        return Sighting::Unclear;
    }
    let is_wrong = chance.happens(if is_there { wanted.missed } else { wanted.false_sight });
    if is_there == is_wrong { Sighting::Absent } else { Sighting::Present }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WANTED: Wanted = Wanted {
        impressions: 10,
        years: 60.0,
        rate: 1.0,
        pace: Pace::Even,
        missed: 0.0,
        false_sight: 0.0,
        unclear: 0.0,
        dated: 0.5,
        seed: 3,
    };

    #[test]
    fn a_seed_gives_a_history_and_without_errors_it_is_a_staircase() {
        let (one, two) = (history(&WANTED).unwrap(), history(&WANTED).unwrap());
        assert_eq!(one.table, two.table);
        for (d, &year) in one.came.iter().enumerate() {
            for (i, &t) in one.printed.iter().enumerate() {
                assert_eq!(one.table.cell(d, i) == Sighting::Present, t >= year);
            }
        }
        let dated = one.table.impressions().iter().filter(|i| i.dated != Dated::Unknown);
        assert_eq!(dated.count(), 5);
    }

    #[test]
    fn each_pace_brings_as_much_and_bursts_bring_it_together() {
        for pace in [Pace::Even, Pace::Bursts, Pace::Slowing] {
            let counts =
                (0..60).map(|seed| came(&Wanted { pace, ..WANTED }, &mut Chance::new(seed, 1)).len() as f64);
            let mean = counts.sum::<f64>() / 60.0;
            assert!((55.0..70.0).contains(&mean), "{pace:?}: {mean}");
        }
        let late = came(&Wanted { pace: Pace::Slowing, rate: 50.0, ..WANTED }, &mut Chance::new(1, 1));
        let share = late.iter().filter(|&&t| t > CUT + 30.0).count() as f64 / late.len() as f64;
        // The second half of a rate that falls from 1 to 1/4: (0.625 + 0.25) / 2 of (1 + 0.25).
        assert!((share - 0.35).abs() < 0.03);
    }
}
