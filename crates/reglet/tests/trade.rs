//! `reglet presswork`, `figures` and `survival`, as a user runs them.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]
#![allow(clippy::disallowed_methods, reason = "tests write the files that the program reads")]

use serde_json::Value;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;

fn reglet(arguments: &[&str], folder: &Path) -> Output {
    Command::new(env!("CARGO_BIN_EXE_reglet")).args(arguments).current_dir(folder).output().unwrap()
}

#[track_caller]
fn said(arguments: &[&str], folder: &Path) -> String {
    let out = reglet(arguments, folder);
    assert_eq!(out.status.code(), Some(0), "{}", String::from_utf8_lossy(&out.stderr));
    String::from_utf8(out.stdout).unwrap()
}

#[track_caller]
fn refused(arguments: &[&str], folder: &Path) -> String {
    let out = reglet(arguments, folder);
    assert_eq!(out.status.code(), Some(2), "{arguments:?}: {}", String::from_utf8_lossy(&out.stdout));
    assert!(out.stdout.is_empty(), "nothing is said where nothing is done");
    String::from_utf8(out.stderr).unwrap()
}

/// Whether the JSON keeps to the schema that the program prints.
fn keeps_to_schema(which: &str, json: &str, folder: &Path) {
    outside::keeps_to_schema(which, said(&["schema", which], folder).as_bytes(), json.as_bytes());
}

const FIGURES: &str = "copy,sheet,forme,figure\nHallow,B,o,1\nHallow,B,i,2\nHallow,C,o,2\nHallow,C,i,1\nHallow,D,o,1\n\
    Hallow,D,i,\nHallow,E,o,1\nHallow,E,o,3\nHallow,E,i,2\nMerrin,B,o,1\nMerrin,B,i,3\n";

#[test]
fn an_urgent_order_is_reckoned_in_words_and_as_json() {
    let folder = TempDir::new().unwrap();
    let urgent = [
        "presswork",
        "--copies",
        "3000",
        "--sheets",
        "1",
        "--one-side",
        "--drying",
        "0",
        "--day",
        "12",
        "--by",
        "12h",
    ];
    let rates =
        ["--impressions", "200", "--make-ready", "1", "--to", "Hallow=1200@1", "--to", "Merrin=800@2..3"];
    let all = [&urgent[..], &rates[..]].concat();
    let words = said(&all, folder.path());
    for wanted in [
        "3,000 copies, each of 1 sheet, printed on one side.",
        "3,000 impressions in 1 forme: 12 tokens of 250",
        "6.2 reams of 500",
        "set once     not in time, even with 24 presses",
        "set twice    2 presses and 1 compositor: out day 1, 14:30",
        "Hallow   1,200 copies",
        "Why this could be wrong:",
    ] {
        assert!(words.contains(wanted), "{wanted:?} is not in\n{words}");
    }
    let json = said(&[&all[..], &["--json", "-"]].concat(), folder.path());
    let record: Value = serde_json::from_str(&json).unwrap();
    assert_eq!(record["needed"][1]["presses"], 2);
    assert_eq!(record["arrivals"][1]["place"], "Merrin");
    assert!(record["program"].as_str().unwrap().starts_with("reglet"));
    keeps_to_schema("presswork", &json, folder.path());
    assert_eq!(json, said(&[&all[..], &["--json", "-"]].concat(), folder.path()), "one seed, one answer");
}

#[test]
fn a_plan_is_read_changed_by_options_and_drawn() {
    let folder = TempDir::new().unwrap();
    let plan = said(&["presswork", "--example-plan"], folder.path());
    fs::write(folder.path().join("plan.toml"), &plan).unwrap();
    let words = said(
        &["presswork", "plan.toml", "--picture", "p.svg", "--json", "p.json", "--runs", "500"],
        folder.path(),
    );
    assert!(
        words.contains("750 copies, each of 13 sheets and 1 half-sheet") && words.contains("The bill: £"),
        "{words}"
    );
    assert!(words.contains("The picture: p.svg"));
    let svg = fs::read_to_string(folder.path().join("p.svg")).unwrap();
    assert!(svg.starts_with("<svg") && svg.contains("Compositor 2") && svg.trim_end().ends_with("</svg>"));
    let record: Value =
        serde_json::from_str(&fs::read_to_string(folder.path().join("p.json")).unwrap()).unwrap();
    assert_eq!(record["sums"]["impressions"], 20_250);
    let words = said(&["presswork", "plan.toml", "--copies", "1500", "--to", "Overby=10@1"], folder.path());
    assert!(
        words.contains("1,500 copies") && words.contains("Overby") && !words.contains("Merrin"),
        "{words}"
    );
}

#[test]
fn an_edition_is_found_from_its_paper() {
    let folder = TempDir::new().unwrap();
    let job = ["presswork", "--sheets", "13", "--half-sheets", "1", "--waste", "0"];
    let words = said(&[&job[..], &["--known-paper", "20.25reams"]].concat(), folder.path());
    assert!(words.contains("the paper: 750 copies"), "{words}");
    let paid =
        said(&[&job[..], &["--known-paper", "£10 2s 6d", "--ream-price", "10s"]].concat(), folder.path());
    assert!(paid.contains("the paper: 750 copies"), "{paid}");
}

#[test]
fn presswork_refuses_with_the_remedy_and_writes_nothing() {
    let folder = TempDir::new().unwrap();
    fs::write(folder.path().join("plan.toml"), "copies = 10\nshets = 3\n").unwrap();
    let told = |arguments: &[&str]| refused(&[&["presswork"], arguments].concat(), folder.path());
    assert!(told(&[]).contains("how many copies?"));
    assert!(told(&["--copies", "10"]).contains("how many sheets of paper"));
    let typo = told(&["plan.toml", "--json", "out.json"]);
    assert!(typo.contains("plan.toml: line 2, column 1: unknown field `shets`"), "{typo}");
    assert!(!folder.path().join("out.json").exists());
    assert!(told(&["none.toml"]).contains("no such file"));
    assert!(told(&["plan.toml", "--json", "plan.toml"]).contains("this is the file that is read"));
    assert!(
        told(&["--copies", "9", "--sheets", "1", "--json", "a", "--picture", "a"]).contains("two results")
    );
    assert!(
        told(&["--copies", "9", "--sheets", "1", "--impressions", "250..1"]).contains("rise from the least")
    );
    assert!(
        told(&["--copies", "9", "--sheets", "1", "--to", "Merrin=10@2"]).contains("to have 10 copies, but 9")
    );
    assert!(told(&["--copies", "9", "--sheets", "1", "--token-price", "14d"]).contains("three prices"));
    assert!(told(&["--copies", "9", "--sheets", "1", "--token-price", "14"]).contains("no sum of money"));
    assert!(told(&["--sheets", "1", "--known-paper", "£5"]).contains("--ream-price"));
}

#[test]
fn figures_are_told_and_drawn() {
    let folder = TempDir::new().unwrap();
    fs::write(folder.path().join("f.csv"), FIGURES).unwrap();
    let words = said(&["figures", "f.csv", "--picture", "f.svg"], folder.path());
    for wanted in [
        "4 sheets in 2 copies.",
        "E outer: 1 and 3",
        "B inner: 2 in Hallow; 3 in Merrin",
        "found in B-E",
        "Shops used figures differently",
    ] {
        assert!(words.contains(wanted), "{wanted:?} is not in\n{words}");
    }
    assert!(fs::read_to_string(folder.path().join("f.svg")).unwrap().contains("sheet B, outer forme: 1"));
    let json = said(&["figures", "f.csv", "--json", "-"], folder.path());
    keeps_to_schema("figures", &json, folder.path());
    fs::write(folder.path().join("g.csv"), "sheet,forme,figure\nB,x,1\n").unwrap();
    assert!(refused(&["figures", "g.csv"], folder.path()).contains("g.csv: line 2: \"x\" is no forme"));
    fs::write(folder.path().join("h.csv"), b"sheet,forme,figure\nB,o,\xe7\n").unwrap();
    assert!(refused(&["figures", "h.csv"], folder.path()).contains("h.csv: byte 23 is not text"));
}

#[test]
fn what_is_lost_is_told_and_drawn() {
    let folder = TempDir::new().unwrap();
    let words = said(&["survival", "--counts", "30,12,5,2,1", "--picture", "s.svg"], folder.path());
    for wanted in [
        "50 items are known, in 82 copies.",
        "At least, by Chao (Chao1): 87 (95 percent: 65 to 143)",
        "lambda 1.0869",
        "not a finding of any lost edition",
    ] {
        assert!(words.contains(wanted), "{wanted:?} is not in\n{words}");
    }
    assert!(fs::read_to_string(folder.path().join("s.svg")).unwrap().contains("Zelterman"));
    let json = said(
        &[
            "survival",
            "--counts",
            "30,12,5,2,1",
            "--edition-size",
            "300",
            "--further",
            "0.5,1",
            "--json",
            "-",
        ],
        folder.path(),
    );
    let record: Value = serde_json::from_str(&json).unwrap();
    assert_eq!(
        (
            record["study"]["laws"].as_array().unwrap().len(),
            record["study"]["further"].as_array().unwrap().len()
        ),
        (3, 2)
    );
    keeps_to_schema("survival", &json, folder.path());
    let everyman = said(&["survival", "--counts", "4"], folder.path());
    assert!(everyman.contains("as likely as not is 10 (as Greg reckoned for Everyman)"), "{everyman}");
    let sums = said(
        &["survival", "--recapture", "18,15,9", "--likeness", "0.002,200", "--sorts", "40,0.5,2"],
        folder.path(),
    );
    assert!(
        sums.contains("about 29.4 (Chapman)")
            && sums.contains("33 in 100")
            && sums.contains("seen by then: 30."),
        "{sums}"
    );
    fs::write(folder.path().join("t.csv"), "item,copies\nOrder,2\nBallad,1\nBill,0\n").unwrap();
    let table = said(&["survival", "t.csv"], folder.path());
    assert!(
        table.contains("2 items are known, in 3 copies.") && table.contains("Besides, 1 without a copy"),
        "{table}"
    );
}

#[test]
fn survival_refuses_with_the_remedy() {
    let folder = TempDir::new().unwrap();
    let told = |arguments: &[&str]| refused(&[&["survival"], arguments].concat(), folder.path());
    assert!(told(&[]).contains("what is known?"));
    assert!(told(&["--counts", "30,x"]).contains("character 4: \"x\""));
    assert!(told(&["--recapture", "3,2,9"]).contains("9 found in both"));
    assert!(told(&["--recapture", "3,2"]).contains("not 3 numbers"));
    assert!(told(&["--counts", "3", "--further", "2"]).contains("beyond as much searching again"));
    assert!(told(&["--likeness", "2,2", "--picture", "x.svg"]).contains("no chance between"));
    assert!(told(&["--likeness", "0.1,2", "--picture", "x.svg"]).contains("nothing to draw"));
}
