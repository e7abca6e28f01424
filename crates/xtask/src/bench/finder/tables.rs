//! What is told of the sheets.

use std::collections::BTreeSet;

use sheet::MM_PER_INCH;

use super::score::{FOUND, On, Outcome, Sought};
use crate::bench::report::Share;
use crate::bench::report::table::{Table, number, rate, share};
use crate::bench::score::{median, quantile};
use crate::bench::set::Set;

/// A line on the terminal for a sheet that is not as it should be, or `None`.
pub(super) fn line(o: &Outcome) -> Option<String> {
    let missed: Vec<String> = o
        .sought
        .iter()
        .filter(|s| s.alike < FOUND[1])
        .map(|s| format!("{} {:.0} mm alike {:.2}", s.kind, s.size, s.alike))
        .collect();
    let wrong: Vec<String> =
        o.wrong.iter().map(|w| format!("{} where there is {}", w.said, w.on.name())).collect();
    (!missed.is_empty() || !wrong.is_empty()).then(|| {
        format!(
            "{:>4} {}, {:.0} ppi, level {}: poor [{}], wrong [{}]",
            o.planned.number,
            o.planned.subject.name(),
            o.planned.ppi.0,
            o.planned.level,
            missed.join("; "),
            wrong.join("; ")
        )
    })
}

/// The tables of a set.
pub(super) fn tables(set: Set, outcomes: &[Outcome], made_by: &str) -> String {
    let mut text = format!("### Finding cuts: {}\n\n{} sheets; {made_by}.\n\n", set.label(), outcomes.len());
    let mut table = Table::new([
        "of",
        "found",
        "found well",
        "told that are one",
        "sides off, median and 95 in 100, px",
        "mm",
    ]);
    let mut row = |name: &str, which: &dyn Fn(&Outcome) -> bool, of: &dyn Fn(&Sought) -> bool| {
        let sheets: Vec<&Outcome> = outcomes.iter().filter(|o| which(o)).collect();
        table.row(cells(name, &sheets, of));
    };
    row("all", &|_| true, &|_| true);
    let subjects: BTreeSet<&str> = outcomes.iter().map(|o| o.planned.subject.name()).collect();
    for name in subjects {
        row(name, &|o| o.planned.subject.name() == name, &|_| true);
    }
    for level in 0..5 {
        row(&format!("level {level}"), &|o| o.planned.level == level, &|_| true);
    }
    for (name, from, to) in [
        ("under 200 ppi", 0.0, 199.0),
        ("200 to 299 ppi", 199.0, 299.0),
        ("300 to 399 ppi", 299.0, 399.0),
        ("400 ppi and more", 399.0, 1e9),
    ] {
        row(name, &|o| o.planned.ppi.0 > from && o.planned.ppi.0 <= to, &|_| true);
    }
    for (name, from, to) in [
        ("cuts of 15 to 20 mm", 0.0, 22.0),
        ("cuts of 22 to 45 mm", 22.0, 45.0),
        ("cuts of 45 to 90 mm", 45.0, 90.0),
        ("cuts over 90 mm", 90.0, 1e9),
    ] {
        row(name, &|_| true, &|s| s.size > from && s.size <= to);
    }
    text += &table.markdown();
    text += &kinds(outcomes);
    text += &wrong(outcomes);
    text
}

fn cells(name: &str, sheets: &[&Outcome], of: &dyn Fn(&Sought) -> bool) -> [String; 6] {
    let sought: Vec<(&Outcome, &Sought)> =
        sheets.iter().flat_map(|o| o.sought.iter().map(move |s| (*o, s))).filter(|(_, s)| of(s)).collect();
    let mut found = [Share::default(); 2];
    for (_, s) in &sought {
        for (share, least) in found.iter_mut().zip(FOUND) {
            share.count(s.alike >= least);
        }
    }
    let told: usize = sheets.iter().map(|o| o.told).sum();
    let wrong: usize = sheets.iter().map(|o| o.wrong.len()).sum();
    // Of some cuts only it is not told what was wrong.
    let whole = sheets.iter().map(|o| o.sought.len()).sum::<usize>() == sought.len();
    let right = Share { some: told - wrong, of: told };
    let off = |unit: &dyn Fn(&Outcome) -> f64| -> Vec<f64> {
        sought.iter().filter_map(|(o, s)| Some(s.off?.map(|v| v.abs() * unit(o)))).flatten().collect()
    };
    let two =
        |v: &[f64], places| format!("{}; {}", number(median(v), places), number(quantile(v, 0.95), places));
    [
        name.to_owned(),
        rate(found[0]),
        rate(found[1]),
        if whole { rate(right) } else { "–".to_owned() },
        two(&off(&|_| 1.0), 1),
        two(&off(&|o| MM_PER_INCH / o.planned.ppi.0), 2),
    ]
}

/// What every kind was said to be, and how often a kind is right that was said.
fn kinds(outcomes: &[Outcome]) -> String {
    let sought: Vec<&Sought> = outcomes.iter().flat_map(|o| &o.sought).collect();
    let names: BTreeSet<&str> =
        sought.iter().flat_map(|s| [Some(s.kind.as_str()), s.said.as_deref()]).flatten().collect();
    let heads = ["what it is, and was said to be".to_owned(), "found".to_owned(), "found well".to_owned()];
    let mut table = Table::new(heads.into_iter().chain(names.iter().map(|&n| n.to_owned())));
    for &name in &names {
        let of: Vec<&&Sought> = sought.iter().filter(|s| s.kind == name).collect();
        let found = FOUND
            .map(|least| rate(Share { some: of.iter().filter(|s| s.alike >= least).count(), of: of.len() }));
        let said = names.iter().map(|&n| {
            let count = of.iter().filter(|s| s.said.as_deref() == Some(n)).count();
            if count == 0 { String::new() } else { count.to_string() }
        });
        table.row([name.to_owned()].into_iter().chain(found).chain(said));
    }
    let right = names.iter().map(|&n| {
        let said = sought.iter().filter(|s| s.said.as_deref() == Some(n));
        let so = said.clone().filter(|s| s.kind == n).count();
        let of = said.count();
        if of == 0 { "–".to_owned() } else { format!("{:.2}", so as f64 / of as f64) }
    });
    let blank = ["of those said, so".to_owned(), String::new(), String::new()];
    table.row(blank.into_iter().chain(right));
    let mut letters = Share::default();
    for told in sought.iter().filter_map(|s| s.letter) {
        letters.count(told);
    }
    format!(
        "{}Letters of type told apart in the hole of a factotum: {}.\n\n",
        table.markdown(),
        share(letters)
    )
}

/// What lies where a cut was told and none is.
fn wrong(outcomes: &[Outcome]) -> String {
    let mut table = Table::new(["told and no cut, on", "times"]);
    let all = || outcomes.iter().flat_map(|o| &o.wrong);
    for on in On::ALL {
        table.row([on.name().to_owned(), all().filter(|w| w.on == on).count().to_string()]);
    }
    let seconds: Vec<f64> = outcomes.iter().map(|o| o.seconds).collect();
    table.row(["seconds to lay out a sheet, median".to_owned(), number(median(&seconds), 3)]);
    table.markdown()
}
