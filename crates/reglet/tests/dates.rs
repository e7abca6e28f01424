//! `reglet date` and `reglet calendar`, as a user runs them.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]
#![allow(clippy::disallowed_methods, reason = "tests write the files that the program reads")]

use serde_json::Value;
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;

fn reglet(arguments: &[&str], folder: &Path) -> Output {
    Command::new(env!("CARGO_BIN_EXE_reglet")).args(arguments).current_dir(folder).output().unwrap()
}

/// What it says, and its exit code.
fn said(arguments: &[&str]) -> (String, i32) {
    let folder = TempDir::new().unwrap();
    let out = reglet(arguments, folder.path());
    let text = [out.stdout, out.stderr].map(|t| String::from_utf8_lossy(&t).into_owned()).concat();
    (text, out.status.code().unwrap())
}

fn record(arguments: &[&str]) -> Value {
    let folder = TempDir::new().unwrap();
    let out = reglet(&[arguments, &["--json", "-"]].concat(), folder.path());
    serde_json::from_slice(&out.stdout)
        .unwrap_or_else(|e| panic!("{e}: {}", String::from_utf8_lossy(&out.stderr)))
}

#[test]
fn an_impossible_year_is_told_with_what_it_probably_meant() {
    let (text, code) = said(&["date", "MDDCI"]);
    assert_eq!(code, 1, "{text}");
    assert!(
        text.starts_with("MDDCI strictly reads 2101.\nNo sheet of the hand press can bear that year"),
        "{text}"
    );
    let (first, second) = (text.find("  1701  MDCCI").unwrap(), text.find("  1601  MDCI").unwrap());
    assert!(first < second, "{text}");
    assert!(text.contains("foul case: D set for C at the 3rd place"), "{text}");
    assert!(text.contains("In a catalogue: MDDCI [that is, 1701?]"), "{text}");
    let told = record(&["date", "MDDCI", "--between", "1640..1720"]);
    assert_eq!(told["numeral"]["strictly"], 2101);
    assert_eq!(told["numeral"]["meant"][0]["year"], 1701);
    assert_eq!(told["numeral"]["between_from"], 1640);
    assert_eq!(told["catalogued"][0], "MDDCI [that is, 1701]");
}

#[test]
fn a_sound_year_stands() {
    let (text, code) = said(&["date", "M. DC. LXXIX."]);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("strictly reads 1679") && !text.contains("In a catalogue"), "{text}");
}

#[test]
fn a_clause_is_turned_into_days() {
    let (text, code) = said(&["date", "Given at Our Court at Merrin the thirtieth day of January, 1648/9"]);
    assert_eq!(code, 0, "{text}");
    assert!(
        text.contains("Tuesday 30 January 1648/9 Old Style (9 February 1649 New Style), 24 Car. 1"),
        "{text}"
    );
    assert!(text.contains("(not read: \"Given at Our Court at Merrin\")"), "{text}");
    let told = record(&["date", "8 January 1599", "--place", "scotland"]);
    assert_eq!(told["can_be"], false, "there was no January in the Scottish year 1599");
    let told = record(&["date", "pridie Kal. Ian. 1600", "--place", "old-style"]);
    assert_eq!(told["days"].as_array().unwrap().len(), 2);
}

const SHEET: [&str; 5] = [
    "date",
    "imprint: MDDCI",
    "text: Thursday the nineteenth day of February 1701",
    "text: the fourteenth year of our reign",
    "event: 12 January 1701",
];

#[test]
fn the_dates_of_a_sheet_are_held_against_each_other() {
    let (text, code) = said(&SHEET);
    assert_eq!(code, 1, "{text}");
    assert!(text.contains("\"MDDCI\" meant MDCCI (1701)"), "{text}");
    assert!(text.contains("then printed: Thursday 19 February 1701/2 Old Style"), "{text}");
    assert!(text.contains("MDDCI [that is, 1702]"), "{text}");
    let told = record(&SHEET);
    assert_eq!(told["conflicts"][0][0], "MDDCI");
    assert_eq!(told["remedies"][0]["slips"].as_array().unwrap().len(), 1);
    let (text, code) = said(&["date", "imprint: 1680", "licence: 3 May 1680", "not after: 1 June 1680"]);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("3 May 1680 to 1 June 1680 Old Style (30 days)"), "{text}");
}

#[test]
fn chronograms_are_added_up() {
    let (text, code) = said(&["date", "--chronogram", "PetrVs AnICh AgrICoLa DoMo OberperfassensIs"]);
    assert_eq!(code, 0);
    assert!(text.starts_with("The capitals that are numerals come to 1758."), "{text}");
}

#[test]
fn the_calendar_answers() {
    let (text, _) = said(&["calendar", "convert", "30 January 1649"]);
    for wanted in
        ["Tuesday 30 January 1649", "9 February 1649", "30 January 1648/9", "24 Car. 1; 1 Car. 2", "2323385"]
    {
        assert!(text.contains(wanted), "{wanted}: {text}");
    }
    assert!(said(&["calendar", "convert", "0"]).0.contains("1 January 4713 BC"));
    assert!(
        said(&["calendar", "convert", "18 October 1793", "--in", "new-style"])
            .0
            .contains("27 vendémiaire an II")
    );
    assert_eq!(said(&["calendar", "weekday", "2 September 1666"]).0, "2 September 1666 was a Sunday.\n");
    let (text, _) = said(&["calendar", "feasts", "1649"]);
    assert!(text.contains("25 March     Sunday    Easter Day"), "{text}");
    assert!(said(&["calendar", "terms", "1623"]).0.contains("Trinity term     13 June 1623 to 2 July 1623"));
    assert!(said(&["calendar", "reigns", "Car. 2"]).0.contains("12 Car. 2"));
    assert!(said(&["calendar", "reigns", "1 June 1655"]).0.contains("England had no king that day"));
    let (text, code) = said(&["calendar", "new-style", "France"]);
    assert!(
        text.contains("Sunday 9 December 1582 was followed by Monday 20 December 1582") && code == 0,
        "{text}"
    );
    assert_eq!(said(&["calendar", "new-style", "Merrin"]).1, 1);
    // The lists without a name.
    assert!(
        said(&["calendar", "reigns"]).0.contains("Elizabeth (Eliz.): 17 November 1558 to 24 March 1602/3")
    );
    assert!(said(&["calendar", "new-style"]).0.contains("Sweden and Finland"));
}

#[test]
fn errors_teach() {
    let fails = |arguments: &[&str], wanted: &str| {
        let (text, code) = said(arguments);
        assert_eq!(code, 2, "{arguments:?}: {text}");
        assert!(text.contains(wanted), "{arguments:?}: {text}");
    };
    fails(&["date", "MDGCI"], "'G' at character 3 is no part of a numeral");
    fails(&["date", "31 September 1680"], "September has no day 31 (characters 1 to 12); expected 1 to 30");
    fails(&["date", "the 9"], "\"9\" (character 5) is a number");
    fails(&["date", "LorD haVe MerCIe Vpon Vs"], "as a chronogram (--chronogram) its capitals come to 1666");
    fails(&["type", "83.5.1"], "is no length; give millimetres, as 83.5");
    fails(&["date", "60 Eliz."], "the last was the 45");
    fails(&["date", "printed for the author"], "expected a day and a month");
    fails(&["date", "MDCCI", "--between", "1720..1640"], "the earlier first, as 1640..1720");
    fails(&["date", "--chronogram", "none", "of", "these"], "put it in quotation marks");
    fails(&["calendar", "convert", "5 September 1752"], "was never a day there");
    fails(&["calendar", "convert", "29 February 1701"], "ends with the 28");
    fails(&["calendar", "convert", "30-1-1649"], "expected one as 30 January 1649, 1649-01-30");
    fails(&["date", "text: 32 June 1700"], "June has no day 32 (characters 1 to 7)");
    fails(&["calendar", "convert", "99999999999"], "no Julian day number");
    fails(&["calendar", "reigns", "Merrin"], "no king or queen");
}

#[test]
fn a_day_in_both_styles_and_a_year_of_freedom_are_told() {
    let (text, code) = said(&["date", "10/20 June 1650"]);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("one day, 10 June Old Style and 20 June New Style"), "{text}");
    assert!(text.contains("Monday 10 June 1650 Old Style (20 June 1650 New Style)"), "{text}");
    let (text, code) = said(&["date", "10/25 June 1650"]);
    assert_eq!(code, 2, "{text}");
    assert!(text.contains("never one day by both calendars") && text.contains("as 10/20 June"), "{text}");
    let (text, _) = said(&["date", "text: in the first yeare of freedome", "1648"]);
    assert!(text.contains("30 January 1648/9 to 24 March 1648/9"), "{text}");
}

#[test]
fn both_ways_of_counting_a_reign_are_told_where_nobody_is_named() {
    let dates = ["date", "text: the fifteenth of June in the 29th year of our reign", "1755"];
    let (text, code) = said(&dates);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("28 (or 29) Geo. 2"), "{text}");
    assert!(text.contains("George II's years beginning on 11 June throughout"), "{text}");
}

#[test]
fn json_goes_to_a_file_beside_the_words_and_never_over_a_folder() {
    let folder = TempDir::new().unwrap();
    let out = reglet(&["date", "MDCCI", "--json", "told.json"], folder.path());
    let words = String::from_utf8(out.stdout).unwrap();
    assert!(words.contains("strictly reads 1701") && words.contains("The JSON: told.json"), "{words}");
    let written = std::fs::read(folder.path().join("told.json")).unwrap();
    assert_eq!(serde_json::from_slice::<Value>(&written).unwrap()["numeral"]["strictly"], 1701);
    let refused = reglet(&["date", "MDCCI", "--json", "."], folder.path());
    assert_eq!(refused.status.code(), Some(2));
}

#[test]
fn records_keep_to_their_schemas() {
    let folder = TempDir::new().unwrap();
    let asked: [(&str, &[&str]); 8] = [
        ("date", &["date", "MDDCI"]),
        ("date", &SHEET),
        ("date", &["date", "12 Car. 2"]),
        ("date", &["date", "10/20 June 1650"]),
        ("date", &["date", "--chronogram", "DoMo"]),
        ("calendar", &["calendar", "convert", "9 November 1799"]),
        ("calendar", &["calendar", "reigns", "Philip and Mary"]),
        ("calendar", &["calendar", "new-style"]),
    ];
    for (schema, arguments) in asked {
        let schema = reglet(&["schema", schema], folder.path()).stdout;
        outside::keeps_to_schema(&arguments.join(" "), &schema, record(arguments).to_string().as_bytes());
    }
}
