//! The years of the impressions of a block, as they are drawn and told.

use crate::page::blocks::{DatesModel, HeldOutModel, YearModel, YearRow};
use crate::record::{BlocksRecord, DatesFound};
use chronology::{Bound, Bounds, Checks, Dated, ImpressionDate, RateTold, YearTold};

/// `impressions` are the places in the photographs, as the page arranges them.
pub(super) fn dates(found: &DatesFound, record: &BlocksRecord, impressions: &[usize]) -> DatesModel {
    let told = &found.told;
    let of_block = &record.blocks[found.block].impressions;
    let photograph = |i: usize| of_block.get(i).copied().unwrap_or(i);
    let rows = impressions.iter().map(|&i| {
        let date = told.impressions.iter().find(|d| photograph(d.impression) == i);
        YearRow {
            impression: i + 1,
            name: record.photographs[i].as_ref().map_or_else(String::new, |p| crate::report::name(&p.file)),
            dated: record.cuts.get(i).and_then(Option::as_ref).map(|c| c.dated).unwrap_or_default(),
            by_order: date.and_then(|d| d.by_order.as_ref()).map(year),
            with_rate: date.and_then(|d| d.with_rate.as_ref()).map(year),
            bounds_words: date.map_or_else(String::new, |d| bounds(&d.bounds, d.impression, photograph)),
            plain_words: date.and_then(plain),
        }
    });
    DatesModel {
        rows: rows.collect(),
        rate_words: rate(&told.rate),
        checks: told.checks.as_ref().map_or_else(Vec::new, checks),
        held_out: told
            .checks
            .iter()
            .flat_map(|c| &c.held_out)
            .map(|h| HeldOutModel {
                impression: photograph(h.impression) + 1,
                known: h.known_year,
                median: h.median_year,
                half: h.interval_50_year,
                nearly_all: h.interval_95_year,
                is_beyond: h.is_beyond,
            })
            .collect(),
        warnings: told.warnings.iter().map(|w| sentence(&w.sentence())).collect(),
        priors: told.priors.clone(),
    }
}

fn year(told: &YearTold) -> YearModel {
    YearModel {
        median: told.median_year,
        half: told.interval_50_year,
        nearly_all: told.interval_95_year,
        rests_on_window: told.rests_on_window,
        beyond: told.beyond_dated,
    }
}

/// With a capital and a full stop.
pub(super) fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    let stop = if words.ends_with(['.', '?', '!']) { "" } else { "." };
    first.chain(letters).chain(stop.chars()).collect()
}

fn bounds(b: &Bounds, asked: usize, photograph: impl Fn(usize) -> usize) -> String {
    let by = |bound: &Bound| {
        if bound.impression == asked {
            "as was said".to_owned()
        } else {
            format!("impression {}", photograph(bound.impression) + 1)
        }
    };
    let from = b.not_before.as_ref().map(|b| format!("not before {} ({})", b.year, by(b)));
    let to = b.not_after.as_ref().map(|b| format!("not after {} ({})", b.year, by(b)));
    let both: Vec<String> = from.into_iter().chain(to).collect();
    if both.is_empty() { "none is sure".to_owned() } else { both.join(", ") }
}

fn plain(d: &ImpressionDate) -> Option<String> {
    d.plain_line.map(|p| {
        let [from, to] = p.prediction.interval_95_year.map(f64::round);
        format!("{:.0}, 95 %: {from:.0} to {to:.0}", p.prediction.year.round())
    })
}

fn rate(told: &RateTold) -> String {
    match told {
        RateTold::Found {
            per_year,
            interval_95_per_year: [low, high],
            burst,
            interval_95_burst,
            dated,
            ..
        } => {
            let [least, most] = interval_95_burst;
            format!(
                "{per_year:.2} damages a year, with 95 percent between {low:.2} and {high:.2}, learnt from {dated} dated \
                 impressions. Burst {burst:.1} ({least:.1} to {most:.1}): counts vary by 1 + burst times their mean."
            )
        }
        RateTold::None { reason, .. } => format!("No rate is given. {}", sentence(reason)),
    }
}

/// How the model fares against the table and the dated sheets.
fn checks(c: &Checks) -> Vec<String> {
    let said = |p: f64, low: &str, high: &str| {
        if p < 0.05 {
            low.to_owned()
        } else if p > 0.95 {
            high.to_owned()
        } else {
            "as the model has it".to_owned()
        }
    };
    let mut out = vec![
        format!(
            "Drawn again from the model, damage is at least as uneven from gap to gap as it was seen in {:.0} of a hundred \
             draws: {}.",
            100.0 * c.as_uneven,
            said(
                c.as_uneven,
                "it came more unevenly than even bursts explain",
                "it came more evenly than chance allows"
            )
        ),
        format!(
            "The same of a rate without any burst, in {:.0} of a hundred: {}.",
            100.0 * c.as_uneven_without_bursts,
            said(
                c.as_uneven_without_bursts,
                "damage came in bursts, and a steady rate would be too sure",
                "it came more evenly than chance allows"
            )
        ),
        format!(
            "Drawn damage lies as early within the years, or earlier, in {:.0} of a hundred: {}.",
            100.0 * c.as_early,
            said(c.as_early, "the rate fell with time", "the rate rose with time")
        ),
    ];
    if let (Some(half), Some(nearly_all)) = (c.within_50, c.within_95) {
        let of = c.held_out.len();
        let hits = |share: f64| (share * of as f64).round();
        out.push(format!(
            "Each dated impression was in turn taken for undated: of {of}, {:.0} lie within their 50 percent interval and {:.0} \
             within their 95 percent interval.",
            hits(half),
            hits(nearly_all)
        ));
    }
    out
}

/// What was said of a year, in words.
pub(crate) fn dated_words(dated: Dated) -> Option<String> {
    Some(match dated {
        Dated::Unknown => return None,
        Dated::Exactly { year } => year.to_string(),
        Dated::Between { from, to } => format!("{from} to {to}"),
        Dated::NotBefore { year } => format!("not before {year}"),
        Dated::NotAfter { year } => format!("not after {year}"),
    })
}
