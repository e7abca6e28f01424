//! What is told of the histories.

use chronology::RateTold;
use chronology::history::Pace;

use super::score::{Answered, BINS, Outcome, by_bins};
use super::{IMPRESSIONS, PACES};
use crate::bench::report::Share;
use crate::bench::report::table::{Table, number, rate};
use crate::bench::score::{median, quantile};

/// How damage comes, in words.
fn pace(pace: Pace) -> &'static str {
    match pace {
        Pace::Even => "even",
        Pace::Bursts => "in bursts",
        Pace::Slowing => "slowing to a quarter",
    }
}

/// A line on the terminal for a history that is done.
pub(super) fn line(o: &Outcome, told: &RateTold) -> String {
    let within =
        |list: &[Answered]| format!("{}/{}", list.iter().filter(|a| a.within_95).count(), list.len());
    let stated = match told {
        RateTold::Found { per_year, interval_95_per_year: [from, to], .. } => {
            format!("{per_year:.2} ({from:.2} to {to:.2})")
        }
        RateTold::None { .. } => "none".to_owned(),
    };
    format!(
        "{:>2} impressions, damage {}, rate {} told {stated}, tau {}, in 95 %: order {} rate {}, agree {:?}, {:.1} and {:.1} s",
        o.asked.impressions,
        pace(o.asked.pace),
        o.asked.rate,
        number(o.tau, 2),
        within(&o.by_order),
        within(&o.with_rate),
        o.agreed,
        o.seconds[0],
        o.seconds[1]
    )
}

/// The tables.
pub(super) fn tables(outcomes: &[Outcome], made_by: &str) -> String {
    let all = |_: &Outcome| true;
    let mut text =
        format!("### Histories of blocks (*simulated*)\n\n{} histories; {made_by}.\n\n", outcomes.len());
    let mut orders = Table::new([
        "order",
        "histories",
        "tau, mean",
        "tau of true damage, mean",
        "chains agree",
        "s, median",
        "s, 95 in 100",
    ]);
    for n in IMPRESSIONS {
        let of: Vec<&Outcome> = outcomes.iter().filter(|o| o.asked.impressions == n).collect();
        let mean = |pick: &dyn Fn(&Outcome) -> Option<f64>| {
            let taus: Vec<f64> = of.iter().filter_map(|o| pick(o)).collect();
            (!taus.is_empty()).then(|| taus.iter().sum::<f64>() / taus.len() as f64)
        };
        let seconds: Vec<f64> = of.iter().map(|o| o.seconds[0]).collect();
        orders.row([
            format!("{n} impressions"),
            of.len().to_string(),
            number(mean(&|o| o.tau), 3),
            number(mean(&|o| o.best_tau), 3),
            rate(agreed(&of, 0)),
            number(median(&seconds), 2),
            number(quantile(&seconds, 0.95), 2),
        ]);
    }
    text += &orders.markdown();
    text += &chances(outcomes);
    let heads = [
        "years of undated impressions",
        "histories",
        "in 50 %",
        "in 95 %",
        "off, median years",
        "95 % wide, median years",
    ];
    for (name, pick) in answers() {
        let mut table =
            Table::new([&format!("{name}: {}", heads[0]), heads[1], heads[2], heads[3], heads[4], heads[5]]);
        table.row(row("all", outcomes, &all, pick, &|_| true));
        for n in IMPRESSIONS {
            table.row(row(
                &format!("{n} impressions"),
                outcomes,
                &|o| o.asked.impressions == n,
                pick,
                &|_| true,
            ));
        }
        for p in PACES {
            table.row(row(&format!("damage {}", pace(p)), outcomes, &|o| o.asked.pace == p, pick, &|_| true));
        }
        for (label, missed) in [("no errors", 0.0), ("3 in 100 missed", 0.03), ("8 in 100 missed", 0.08)] {
            table.row(row(label, outcomes, &|o| (o.asked.missed - missed).abs() < 1e-9, pick, &|_| true));
        }
        // Of the line it is not told on which side of the dated sheets it lies.
        if name != "by the plain line" {
            table.row(row("between the dated", outcomes, &all, pick, &|a| !a.is_beyond));
            table.row(row("beyond the dated", outcomes, &all, pick, &|a| a.is_beyond));
        }
        table.row(row("a copy of its edition is dated", outcomes, &all, pick, &|a| a.has_dated_sister));
        table.row(row("no copy of its edition is dated", outcomes, &all, pick, &|a| !a.has_dated_sister));
        text += &table.markdown();
    }
    let of: Vec<&Outcome> = outcomes.iter().collect();
    let mut rates = Table::new(["", ""]);
    for p in [Pace::Even, Pace::Bursts] {
        let mut share = Share::default();
        for so in outcomes.iter().filter(|o| o.asked.pace == p).filter_map(|o| o.rate_within) {
            share.count(so);
        }
        rates.row([format!("true rate within its 95 % interval, damage {}", pace(p)), rate(share)]);
    }
    rates.row(["chains of the years by order agree".to_owned(), rate(agreed(&of, 1))]);
    rates.row(["chains of the years with the rate agree".to_owned(), rate(agreed(&of, 2))]);
    let seconds: Vec<f64> = outcomes.iter().map(|o| o.seconds[1]).collect();
    rates.row(["seconds for both answers, median".to_owned(), number(median(&seconds), 2)]);
    rates.row(["seconds for both answers, 95 in 100".to_owned(), number(quantile(&seconds, 0.95), 2)]);
    text + &rates.markdown()
}

/// Chances of pairs against what is so.
fn chances(outcomes: &[Outcome]) -> String {
    let mut pairs = Table::new([
        "chance stated of a pair",
        "stated, mean",
        "so in truth",
        "so, of two editions",
        "so, of one",
    ]);
    let bins = |wanted: &dyn Fn(bool) -> bool| {
        by_bins(outcomes.iter().flat_map(|o| o.pairs.iter().copied()).filter(|s| wanted(s.is_one_edition)))
    };
    let (every, two, one) = (bins(&|_| true), bins(&|is_one| !is_one), bins(&|is_one| is_one));
    for (bin, low) in BINS.iter().enumerate() {
        pairs.row([
            format!("from {low}"),
            number(Some(every[bin].1), 3),
            rate(every[bin].0),
            rate(two[bin].0),
            rate(one[bin].0),
        ]);
    }
    pairs.markdown()
}

/// Picks the answers of one way from an outcome.
type Pick = fn(&Outcome) -> &[Answered];

fn answers() -> [(&'static str, Pick); 3] {
    [
        ("by the order alone", |o| &o.by_order),
        ("with the rate", |o| &o.with_rate),
        ("by the plain line", |o| &o.plain),
    ]
}

fn row(
    name: &str,
    outcomes: &[Outcome],
    wanted: &dyn Fn(&Outcome) -> bool,
    pick: Pick,
    which: &dyn Fn(&Answered) -> bool,
) -> [String; 6] {
    let of: Vec<&Outcome> = outcomes.iter().filter(|o| wanted(o) && pick(o).iter().any(which)).collect();
    let told: Vec<Answered> = of.iter().flat_map(|o| pick(o)).copied().filter(which).collect();
    let mut shares = [Share::default(); 2];
    for a in &told {
        shares[0].count(a.within_50);
        shares[1].count(a.within_95);
    }
    let off: Vec<f64> = told.iter().map(|a| a.off.abs()).collect();
    let width: Vec<f64> = told.iter().map(|a| a.width).collect();
    let is_plain = shares[0].some == 0;
    [
        name.to_owned(),
        of.len().to_string(),
        if is_plain { "–".to_owned() } else { rate(shares[0]) },
        rate(shares[1]),
        number(median(&off), 1),
        number(median(&width), 1),
    ]
}

/// In how many the chains of one kind agreed.
fn agreed(outcomes: &[&Outcome], kind: usize) -> Share {
    let mut share = Share::default();
    for so in outcomes.iter().filter_map(|o| o.agreed[kind]) {
        share.count(so);
    }
    share
}
