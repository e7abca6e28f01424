//! How what was said of a history fares against what is true of it.

use chronology::history::{History, Wanted};
use chronology::{Dated, Dates, Order, OrderMethod, RateTold, YearTold, tau_b};

use crate::bench::report::Share;

/// Lower ends of the bins of stated chances, the higher of the two of a pair.
pub(super) const BINS: [f64; 7] = [0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.99];

/// A chance that was stated, and whether it came true.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stated {
    pub(super) chance: f64,
    pub(super) is_so: bool,
    /// Whether both are copies of one edition.
    pub(super) is_one_edition: bool,
}

/// How one answer about a year fared.
#[derive(Debug, Clone, Copy)]
#[allow(clippy::struct_excessive_bools, reason = "each is counted by itself")]
pub(super) struct Answered {
    pub(super) within_50: bool,
    pub(super) within_95: bool,
    /// Median less truth, years.
    pub(super) off: f64,
    /// Width of the 95 percent interval, years.
    pub(super) width: f64,
    /// Whether it was said to be beyond the dated sheets.
    pub(super) is_beyond: bool,
    /// Whether another copy of its edition is dated.
    pub(super) has_dated_sister: bool,
}

/// One history.
#[derive(Debug, Clone)]
pub(super) struct Outcome {
    pub(super) asked: Wanted,
    /// Kendall's tau-b of the order with the truth; of the true counts of damage with the truth (what a perfect eye could
    /// reach).
    pub(super) tau: Option<f64>,
    pub(super) best_tau: Option<f64>,
    /// Every two impressions.
    pub(super) pairs: Vec<Stated>,
    /// Undated impressions, by the order and with the rate.
    pub(super) by_order: Vec<Answered>,
    pub(super) with_rate: Vec<Answered>,
    /// The plain line with its 95 percent interval: only that is told of `within_50`, which is left false.
    pub(super) plain: Vec<Answered>,
    /// Whether the true rate lies within its 95 percent interval (of histories with one rate alone).
    pub(super) rate_within: Option<bool>,
    /// Whether the chains agreed: order, dates by order, dates with rate.
    pub(super) agreed: [Option<bool>; 3],
    /// Seconds: order, dates.
    pub(super) seconds: [f64; 2],
}

/// Scores one history.
pub(super) fn score(
    asked: &Wanted,
    history: &History,
    order: &Order,
    dates: &Dates,
    seconds: [f64; 2],
) -> Outcome {
    let n = history.printed.len();
    let mut place = vec![0.0; n];
    for p in &order.arrangement.impressions {
        place[p.impression] = p.mean_place;
    }
    let worn: Vec<f64> =
        history.printed.iter().map(|&t| history.came.iter().filter(|&&c| c <= t).count() as f64).collect();
    let pairs = (0..n).flat_map(|a| (a + 1..n).map(move |b| (a, b))).map(|(a, b)| {
        let chance = order.before[a][b];
        let is_so = history.printed[a] < history.printed[b];
        let is_one_edition = history.edition[a] == history.edition[b];
        let (chance, is_so) = if chance >= 0.5 { (chance, is_so) } else { (1.0 - chance, !is_so) };
        Stated { chance, is_so, is_one_edition }
    });
    let is_dated = |i: usize| history.table.impressions()[i].dated != Dated::Unknown;
    let sister = |i: usize| {
        (0..n).any(|other| other != i && is_dated(other) && history.edition[other] == history.edition[i])
    };
    let answers = |pick: &dyn Fn(&chronology::ImpressionDate) -> Option<YearTold>| -> Vec<Answered> {
        let told = dates.impressions.iter();
        told.filter_map(|d| {
            let has_dated_sister = sister(d.impression);
            Some(Answered { has_dated_sister, ..answered(&pick(d)?, history.printed[d.impression]) })
        })
        .collect()
    };
    let plain = dates.impressions.iter().filter_map(|d| {
        let told = d.plain_line?.prediction;
        let [from, to] = told.interval_95_year;
        let truth = history.printed[d.impression];
        let within_95 = (from..=to).contains(&truth);
        Some(Answered {
            within_50: false,
            within_95,
            off: told.year - truth,
            width: to - from,
            is_beyond: false,
            has_dated_sister: sister(d.impression),
        })
    });
    let (rate_agreed, rate_within) = match &dates.rate {
        RateTold::Found { convergence, interval_95_per_year: [from, to], .. } => (
            Some(convergence.is_reached),
            (asked.pace != chronology::history::Pace::Slowing).then(|| (from..=to).contains(&&asked.rate)),
        ),
        RateTold::None { .. } => (None, None),
    };
    Outcome {
        asked: *asked,
        tau: tau_b(&place, &history.printed),
        best_tau: tau_b(&worn, &history.printed),
        pairs: pairs.collect(),
        by_order: answers(&|d| d.by_order.clone()),
        with_rate: answers(&|d| d.with_rate.clone()),
        plain: plain.collect(),
        rate_within,
        agreed: [
            match order.method {
                OrderMethod::Counted => None,
                OrderMethod::Chains(c) => Some(c.is_reached),
            },
            dates.by_order.map(|c| c.is_reached),
            rate_agreed,
        ],
        seconds,
    }
}

fn answered(told: &YearTold, truth: f64) -> Answered {
    let within = |[from, to]: [f64; 2]| (from..=to).contains(&truth);
    Answered {
        within_50: within(told.interval_50_year),
        within_95: within(told.interval_95_year),
        off: told.median_year - truth,
        width: told.interval_95_year[1] - told.interval_95_year[0],
        is_beyond: told.beyond_dated > 0.5,
        has_dated_sister: false,
    }
}

/// By bins of stated chances: how often they came true, and the mean of what was stated.
pub(super) fn by_bins(pairs: impl Iterator<Item = Stated>) -> Vec<(Share, f64)> {
    let mut out = vec![(Share::default(), 0.0); BINS.len()];
    for Stated { chance, is_so, .. } in pairs {
        let bin = BINS.partition_point(|&low| low <= chance).saturating_sub(1);
        out[bin].0.count(is_so);
        out[bin].1 += chance;
    }
    for (share, sum) in &mut out {
        *sum /= share.of.max(1) as f64;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn chances_go_to_their_bins() {
        let stated = [(0.5, true), (0.55, false), (0.995, true), (0.95, true)];
        let bins = by_bins(
            stated.map(|(chance, is_so)| Stated { chance, is_so, is_one_edition: false }).into_iter(),
        );
        let counts: Vec<_> = bins.iter().map(|(s, _)| (s.some, s.of)).collect();
        assert_eq!(counts, [(1, 2), (0, 0), (0, 0), (0, 0), (0, 0), (1, 1), (1, 1)]);
        assert!((bins[0].1 - 0.525).abs() < 1e-12);
    }
}
