//! Press figures: what was planted is found, and what chance deals out is not.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use trade::figures::{FormeName, Row, Standing, Table, read};

/// One copy with these figures, outer and inner of each sheet; "" for none.
fn table(sheets: &[[&str; 2]]) -> Table {
    copies(&[("Hallow", sheets)])
}

fn copies(all: &[(&str, &[[&str; 2]])]) -> Table {
    let mut rows = Vec::new();
    for (copy, sheets) in all {
        for (i, figures) in sheets.iter().enumerate() {
            for (forme, figure) in [FormeName::Outer, FormeName::Inner].into_iter().zip(figures) {
                // Two figures in a forme are parted by a plus.
                for one in figure.split('+') {
                    let figure = (!one.is_empty()).then(|| one.to_owned());
                    rows.push(Row { copy: (*copy).into(), sheet: format!("s{i}"), forme, figure });
                }
            }
        }
    }
    Table::new(rows).unwrap()
}

#[test]
fn shares_runs_and_formes_are_counted() {
    let told = read(&table(&[["1", "1"], ["1", "2"], ["2", ""], ["", ""], ["1+2", "1"]]));
    let work: Vec<(&str, f64, u32)> =
        told.work.iter().map(|w| (w.figure.as_str(), w.formes, w.whole_sheets)).collect();
    assert_eq!(work, [("1", 4.5, 1), ("2", 2.5, 0)]);
    assert!((told.work[0].share - 4.5 / 7.0).abs() < 1e-12);
    let runs: Vec<(&str, &str, u32)> =
        told.work[1].runs.iter().map(|r| (r.from.as_str(), r.to.as_str(), r.sheets)).collect();
    assert_eq!(runs, [("s1", "s2", 2), ("s4", "s4", 1)]);
    let f = told.formes;
    assert_eq!((f.sheets, f.same, f.different, f.one_only, f.none), (5, 1, 2, 1, 1));
    assert_eq!((told.parted[0].sheet.as_str(), told.parted[0].forme), ("s4", FormeName::Outer));
    assert!(told.warnings.iter().any(|w| w.contains("one copy")));
}

#[test]
fn copies_that_disagree_are_parted() {
    let one = [["1", "2"], ["3", "3"], ["1", ""]];
    let other = [["1", "2"], ["3", "4"], ["1", "2"]];
    let told = read(&copies(&[("Hallow", &one), ("Merrin", &other), ("Overby", &one)]));
    assert_eq!(told.copies, 3);
    let [first, second] = &told.disagreements[..] else { panic!("{:?}", told.disagreements) };
    assert_eq!((first.sheet.as_str(), first.forme, first.figures_differ), ("s1", FormeName::Inner, true));
    assert_eq!(first.readings[0].copies, ["Hallow", "Overby"]);
    assert_eq!(first.readings[1].figures, ["4"]);
    assert!(!second.figures_differ && second.readings[0].figures.is_empty(), "a figure beside none");
}

#[test]
fn two_presses_at_one_time_are_found() {
    let sheets: Vec<[&str; 2]> = (0..12).map(|i| if i % 2 == 0 { ["1", "2"] } else { ["2", "1"] }).collect();
    let told = read(&table(&sheets));
    let mixed = told.pairs[0].mixed.unwrap();
    assert_eq!((mixed.observed, mixed.of), (12, 12));
    // All twelve mixed: 2^12 of C(24, 12) ways.
    assert!((mixed.chance_of_more - 4096.0 / 2_704_156.0).abs() < 1e-9);
    assert_eq!(told.pairs[0].standing, [Standing::SideBySide]);
}

#[test]
fn turns_and_blocks_are_found() {
    let turns: Vec<[&str; 2]> = (0..14).map(|i| if i % 2 == 0 { ["1", "1"] } else { ["2", "2"] }).collect();
    assert_eq!(read(&table(&turns)).pairs[0].standing, [Standing::SheetsApart, Standing::InTurns]);
    let blocks: Vec<[&str; 2]> = (0..14).map(|i| if i < 7 { ["1", ""] } else { ["2", ""] }).collect();
    assert_eq!(read(&table(&blocks)).pairs[0].standing, [Standing::InBlocks]);
}

#[test]
fn what_chance_deals_out_is_told_seldom() {
    let mut rng = ChaCha8Rng::seed_from_u64(7);
    let (mut told_wrongly, books) = (0, 400);
    for _ in 0..books {
        let mut deal = || ["1", "2", "3"][rng.random_range(0..3_usize)];
        let sheets: Vec<[&str; 2]> = (0..30).map(|_| [deal(), deal()]).collect();
        told_wrongly += u32::from(read(&table(&sheets)).pairs.iter().any(|p| !p.standing.is_empty()));
    }
    // At most 5 of 100 by design, fewer because counts are whole numbers; 400 books leave three standard errors of 13.
    assert!(told_wrongly <= 33, "{told_wrongly} of {books}");
}

#[test]
fn five_figures_in_few_sheets_say_nothing() {
    let told = read(&table(&[["1", "2"], ["3", "4"], ["5", ""]]));
    assert!(told.pairs.is_empty() && told.warnings.iter().any(|w| w.contains("No two figures")));
}
