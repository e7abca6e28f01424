//! Years across a drawing.

use super::both_ends;
use crate::page::blocks::YearRow;
use chronology::Dated;

/// A scale of years.
#[derive(Debug, Clone, Copy)]
pub(super) struct Axis {
    pub(super) left: f64,
    pub(super) right: f64,
    years: [f64; 2],
    step: i32,
}

/// Years between two that are named.
const STEPS: [i32; 9] = [1, 2, 5, 10, 20, 50, 100, 200, 500];

impl Axis {
    /// Over all that is known or told, with so many years named at most; `None` where nothing is.
    pub(super) fn over(rows: &[YearRow], left: f64, right: f64, named: usize) -> Option<Self> {
        let mut years: Vec<f64> = Vec::new();
        for row in rows {
            years.extend(both_ends(row.dated).into_iter().flatten());
            if let Dated::NotBefore { year } | Dated::NotAfter { year } = row.dated {
                years.push(f64::from(year));
            }
            years.extend(row.by_order.iter().chain(&row.with_rate).flat_map(|y| y.nearly_all));
        }
        years.retain(|y| y.is_finite());
        let (low, high) = (years.iter().copied().reduce(f64::min)?, years.iter().copied().reduce(f64::max)?);
        let margin = (0.03 * (high - low)).max(1.0);
        let (low, high) = (low - margin, high + margin);
        let fits = |step: &&i32| (high - low) / f64::from(**step) <= named as f64;
        let step = STEPS.iter().find(fits).copied().unwrap_or(1000);
        Some(Self { left, right, years: [low, high], step })
    }

    /// Of a legend: a pixel is a year.
    pub(super) fn plain() -> Self {
        Self { left: 0.0, right: 1.0, years: [0.0, 1.0], step: 1 }
    }

    /// Where a year lies.
    pub(super) fn x(&self, year: f64) -> f64 {
        let [low, high] = self.years;
        self.left + (year - low) / (high - low) * (self.right - self.left)
    }

    /// The years that are named.
    pub(super) fn named(&self) -> impl Iterator<Item = i32> + use<> {
        let [low, high] = self.years;
        let step = self.step;
        let first = (low / f64::from(step)).ceil() as i32 * step;
        (0..).map(move |i| first + i * step).take_while(move |&year| f64::from(year) <= high)
    }
}
