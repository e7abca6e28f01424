//! What is known of the years of the impressions, as points of time, and what that allows to be told.

use super::YearTold;
use crate::by_order::{Known, Window};
use crate::quantile::{quantile, sorted};
use crate::table::Table;

/// Quantiles that are told for a drawing: every fortieth part.
const PARTS: usize = 40;
/// Most years past the known ones that are allowed.
const FARTHEST: f64 = 1000.0;

/// What is known of the years, as points of time.
#[derive(Debug, Clone)]
pub(super) struct Windows {
    /// Of each impression.
    pub(super) of: Vec<Window>,
    /// Whether the early and the late end of each are assumed.
    pub(super) is_assumed: Vec<[bool; 2]>,
    /// Impressions with both ends known.
    pub(super) dated: Vec<usize>,
    /// Impressions with one end known.
    pub(super) half_dated: usize,
    /// The whole of what `dated` allow.
    span: Option<Window>,
    /// How many editions the impressions are taken to be of.
    editions: usize,
}

impl Windows {
    pub(super) fn of(table: &Table, beyond: f64) -> Self {
        let years: Vec<_> = table.impressions().iter().map(crate::Impression::years).collect();
        // An end there must be, and one that can be reckoned with.
        let beyond = if beyond.is_finite() { beyond.clamp(1.0, FARTHEST) } else { FARTHEST };
        let known = || years.iter().flat_map(|(a, b)| [*a, *b]).flatten().map(f64::from);
        // Without any year there is nothing to date; some window must be, and it is never told.
        let first = known().fold(f64::MAX, f64::min).min(9999.0) - beyond - 0.5;
        let last = known().fold(f64::MIN, f64::max).max(1.0) + beyond + 0.5;
        let (first, last) = (first.min(last - 1.0), last);
        let of = years.iter().map(|(from, to)| {
            [from.map_or(first, |y| f64::from(y) - 0.5), to.map_or(last, |y| f64::from(y) + 0.5)]
        });
        let of: Vec<Window> = of.collect();
        let is_assumed: Vec<[bool; 2]> = years.iter().map(|(a, b)| [a.is_none(), b.is_none()]).collect();
        let dated: Vec<usize> = (0..of.len()).filter(|&i| is_assumed[i] == [false, false]).collect();
        let half_dated = is_assumed.iter().filter(|a| a[0] != a[1]).count();
        let widest = |s: Window, &i: &usize| [s[0].min(of[i][0]), s[1].max(of[i][1])];
        let span = (!dated.is_empty()).then(|| dated.iter().fold([f64::MAX, f64::MIN], widest));
        let editions = editions(&of, &dated);
        Self { of, is_assumed, dated, half_dated, span, editions }
    }

    pub(super) fn known(&self) -> Known<'_> {
        Known { windows: &self.of, editions: self.editions }
    }

    /// With one impression taken for undated; `None` where too few stay for a rate.
    pub(super) fn without(&self, i: usize) -> Option<Self> {
        let first = self.of.iter().map(|w| w[0]).fold(f64::MAX, f64::min);
        let last = self.of.iter().map(|w| w[1]).fold(f64::MIN, f64::max);
        let dated: Vec<usize> = self.dated.iter().copied().filter(|&d| d != i).collect();
        let widest = |s: Window, &i: &usize| [s[0].min(self.of[i][0]), s[1].max(self.of[i][1])];
        let span = dated.iter().fold([f64::MAX, f64::MIN], widest);
        // What nothing is known of reaches as far past the known years as for the others; where all are dated, half a span.
        let is_open = self.is_assumed.iter().any(|a| a[0] || a[1]);
        let past = if is_open { 0.0 } else { (last - first) / 2.0 };
        let mut out = Self { dated, span: Some(span), ..self.clone() };
        out.of[i] = [first - past, last + past];
        out.is_assumed[i] = [true, true];
        out.editions = editions(&out.of, &out.dated);
        out.no_rate(1).is_none().then_some(out)
    }

    /// Why there can be no rate.
    pub(super) fn no_rate(&self, damages: usize) -> Option<String> {
        let middles = || self.dated.iter().map(|&i| f64::midpoint(self.of[i][0], self.of[i][1]));
        let apart = middles().fold(f64::MIN, f64::max) - middles().fold(f64::MAX, f64::min);
        if damages == 0 {
            return Some("No impression shows any damage".to_owned());
        }
        match self.dated.len() {
            0 => Some("No impression is dated: a rate needs two of different years".to_owned()),
            1 => Some("One impression is dated: a rate needs two of different years".to_owned()),
            _ if apart < 1.0 => {
                Some("All dated impressions are of one year: a rate needs two of different years".to_owned())
            }
            _ => None,
        }
    }

    pub(super) fn is_exact(&self, i: usize) -> bool {
        self.of[i][1] - self.of[i][0] <= 1.0
    }

    /// What is told of the year of an impression from draws of it.
    pub(super) fn told(&self, i: usize, draws: &[f64]) -> Option<YearTold> {
        let years = sorted(draws.iter().copied());
        let at = |share| quantile(&years, share);
        let [from, to] = [at(0.025)?, at(0.975)?];
        let near = (self.of[i][1] - self.of[i][0]) / 10.0;
        let [early, late] = self.is_assumed[i];
        let outside =
            self.span.map_or(0, |[first, last]| years.iter().filter(|&&y| y < first || y > last).count());
        Some(YearTold {
            median_year: at(0.5)?,
            interval_50_year: [at(0.25)?, at(0.75)?],
            interval_95_year: [from, to],
            quantiles_year: (0..=PARTS).filter_map(|k| at(k as f64 / PARTS as f64)).collect(),
            beyond_dated: outside as f64 / years.len() as f64,
            rests_on_window: (early && from < self.of[i][0] + near) || (late && to > self.of[i][1] - near),
        })
    }
}

/// Dated impressions that are dated alike count once, as copies of one edition; every undated one counts.
fn editions(of: &[Window], dated: &[usize]) -> usize {
    let is_first = |at: &usize| {
        // Ends of whole years and a half: the same year gives the same bits.
        let bits = |i: usize| of[i].map(f64::to_bits);
        dated[..*at].iter().all(|&other| bits(other) != bits(dated[*at]))
    };
    of.len() - dated.len() + (0..dated.len()).filter(is_first).count()
}
