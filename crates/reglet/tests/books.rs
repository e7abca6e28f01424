//! `reglet type`, `format`, `gatherings` and `imposition`, as a user runs them.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]
#![allow(clippy::disallowed_methods, reason = "tests look at the files that the program writes")]

use serde_json::Value;
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;

fn reglet(arguments: &[&str], folder: &Path) -> Output {
    Command::new(env!("CARGO_BIN_EXE_reglet")).args(arguments).current_dir(folder).output().unwrap()
}

/// What is said on standard output, and the exit code.
fn said(arguments: &[&str]) -> (String, i32) {
    let folder = TempDir::new().unwrap();
    let out = reglet(arguments, folder.path());
    assert!(out.status.code() != Some(2), "{arguments:?}: {}", String::from_utf8_lossy(&out.stderr));
    (String::from_utf8(out.stdout).unwrap(), out.status.code().unwrap())
}

/// What is said on standard error of something that cannot be done.
fn refused(arguments: &[&str]) -> String {
    let folder = TempDir::new().unwrap();
    let out = reglet(arguments, folder.path());
    assert_eq!(out.status.code(), Some(2), "{arguments:?}");
    assert!(out.stdout.is_empty(), "{arguments:?}");
    String::from_utf8(out.stderr).unwrap()
}

fn told(arguments: &[&str]) -> Value {
    let (text, _) = said(&[arguments, &["--json", "-"]].concat());
    serde_json::from_str(&text).unwrap()
}

#[test]
fn a_measure_of_pica_is_told_with_every_name_that_fits() {
    let (text, code) = said(&["type", "83.5"]);
    assert_eq!(code, 0);
    assert!(text.starts_with("Twenty lines of 83.5 mm, give or take 1 mm: "), "{text}");
    for part in [
        "pica (English name)",
        "cicéro (French name, 12 points of Fournier)",
        "Cicero (German name",
        "Cautions",
    ] {
        assert!(text.contains(part), "{part}: {text}");
    }
    let (ten, _) = said(&["type", "41.75", "--lines", "10"]);
    assert_eq!(ten, text);
    let record = told(&["type", "83.5", "--gap", "0.7"]);
    assert!(record["found"]["leaded"].as_array().unwrap().is_empty());
    let (_, none) = said(&["type", "262", "--gap", "0.5"]);
    assert_eq!(none, 1);
    let (table, _) = said(&["type", "--list"]);
    assert!(table.contains("pica: 81.3 to 85.3") && table.contains("Moxon 1683 81.3"), "{table}");
}

#[test]
fn a_leaf_of_the_hallow_press_is_an_octavo_on_foolscap() {
    let leaf = [
        "format",
        "--leaf",
        "166x104",
        "--chains",
        "vertical",
        "--watermark",
        "spine-head",
        "--year",
        "1690",
    ];
    let (text, code) = said(&leaf);
    assert_eq!(code, 0);
    assert!(text.starts_with("The evidence agrees with one format: 8°."), "{text}");
    assert!(text.contains("foolscap (17th and 18th century, England)"), "{text}");
    let record = told(&leaf);
    assert_eq!(record["found"]["formats"], serde_json::json!(["8°"]));
    let (alone, code) = said(&["format", "--chains", "horizontal"]);
    assert_eq!(code, 1);
    assert!(alone.contains("cannot be told") && alone.contains("Chain-lines alone never"), "{alone}");
}

#[test]
fn a_sheet_is_told_with_every_leaf_it_makes() {
    let (text, _) = said(&["format", "--sheet", "432x343"]);
    assert!(
        text.contains(
            "8°: leaf 172 by 108 mm; chain-lines vertical; watermark in the spine fold, at the head"
        ),
        "{text}"
    );
    let (named, _) = said(&["format", "--sheet", "foolscap", "--year", "1690"]);
    assert!(named.contains("(from memory)"), "{named}");
}

#[test]
fn a_formula_is_counted_and_its_statements_are_checked() {
    let (text, code) = said(&["gatherings", "8o: A^4 B-O^8; $4(-A3,4) signed; pp. [8] 1-205 [3]"]);
    assert_eq!(code, 0);
    for part in [
        "8°: A⁴ B-O⁸; $4(−A3,4) signed; pp. [8] 1-205 [3]",
        "14 gatherings, 108 leaves, 216 pages, 13 1/2 sheets",
        "pages: 216 stated, 216 counted: they agree",
        "54 leaves are signed",
        "A: 4 leaves, a half-sheet, one forme",
    ] {
        assert!(text.contains(part), "{part}: {text}");
    }
    let (wrong, code) = said(&["gatherings", "A-Z⁴; 104 leaves"]);
    assert_eq!(code, 1);
    assert!(wrong.contains("DO NOT agree") && wrong.contains("26 letters"), "{wrong}");
    let (leaves, _) = said(&["gatherings", "--leaves", "4°: A⁴(±A2)"]);
    assert!(leaves.contains("A3       its fellow A2 was cut away"), "{leaves}");
}

#[test]
fn errors_point_at_the_place_and_teach() {
    let told = refused(&["gatherings", "A4 B-C4"]);
    assert!(told.contains("write A^4") && told.contains("\nA4 B-C4\n^"), "{told}");
    let told = refused(&["gatherings", "A⁴ B-C⁴(−B7)"]);
    assert!(told.contains("gathering B has 4 leaves") && told.contains('^'), "{told}");
    assert!(refused(&["format"]).contains("--leaf HxW"));
    assert!(refused(&["format", "--leaf", "166"]).contains("172x108"));
    assert!(refused(&["format", "--watermark", "gutter"]).contains("spine-head"));
    assert!(refused(&["format", "--sheet", "legal"]).contains("foolscap"));
    assert!(refused(&["type", "--", "-4"]).contains("above 0"));
    assert!(refused(&["type", "nan"]).contains("above 0"));
    assert!(refused(&["imposition", "9"]).contains("known are 1, 2, 4, 8"));
    assert!(refused(&["imposition", "1", "--half"]).contains("single leaf of half the size"));
    assert!(refused(&["imposition", "8", "--way", "long"]).contains("one way only"));
    assert!(refused(&["imposition", "12", "--gathered", "6,6"]).contains("12 or 8,4"));
}

#[test]
fn an_octavo_is_laid_on_the_stone_and_drawn() {
    let folder = TempDir::new().unwrap();
    let out =
        reglet(&["imposition", "8vo", "--picture", "octavo.svg", "--json", "octavo.json"], folder.path());
    assert_eq!(out.status.code(), Some(0), "{}", String::from_utf8_lossy(&out.stderr));
    let picture = std::fs::read_to_string(folder.path().join("octavo.svg")).unwrap();
    assert!(picture.starts_with("<svg xmlns=") && picture.contains(">16</text>"));
    let json = std::fs::read(folder.path().join("octavo.json")).unwrap();
    let record: Value = serde_json::from_slice(&json).unwrap();
    let row: Vec<u64> = record["formes"][0]["rows"][1]
        .as_array()
        .unwrap()
        .iter()
        .map(|p| p["page"].as_u64().unwrap())
        .collect();
    assert_eq!(row, [1, 16, 13, 4]);
    let (text, _) = said(&["imposition", "octavo"]);
    assert!(text.contains("|  1 ^  | 16 ^  | 13 ^  |  4 ^  |"), "{text}");
    assert!(text.contains("leaf 1 in the spine fold, at the head"), "{text}");
    let same = reglet(&["imposition", "8", "--picture", "a", "--json", "a"], folder.path());
    assert_eq!(same.status.code(), Some(2));
}

#[test]
fn half_a_sheet_of_eighteens_says_which_pages_are_moved() {
    let (text, code) = said(&["imposition", "18", "--half"]);
    assert_eq!(code, 0);
    for part in [
        "18°, a half-sheet: one gathering of 9 leaves, 18 pages.",
        "The same, with pages moved for the second side",
        "then the pages are moved in the forme",
    ] {
        assert!(text.contains(part), "{part}: {text}");
    }
}

#[test]
fn every_other_way_that_is_named_can_be_asked_for() {
    for format in ["1", "2", "4", "8", "12", "16", "18", "24", "32", "64"] {
        let others = told(&["imposition", format])["others"].clone();
        for other in others.as_array().unwrap() {
            let typed: Vec<&str> = other.as_str().unwrap().split(' ').skip(1).collect();
            let (text, code) = said(&typed);
            assert!(code == 0 && text.contains("stone"), "{other}");
        }
    }
}

#[test]
fn the_records_keep_to_their_schemas() {
    let folder = TempDir::new().unwrap();
    let records: [(&str, &[&str]); 7] = [
        ("type", &["type", "96"]),
        ("type", &["type", "--list"]),
        ("format", &["format", "--leaf", "166x104", "--chains", "vertical"]),
        ("format", &["format", "--sheet", "crown"]),
        ("gatherings", &["gatherings", "4°: π² A⁴(A1+χ²) B-C⁸ D⁴(±D2); $3 signed; pp. [4] 1-52"]),
        ("imposition", &["imposition", "12"]),
        ("imposition", &["imposition", "18", "--half"]),
    ];
    for (which, command) in records {
        let schema = reglet(&["schema", which], folder.path());
        let record = reglet(&[command, &["--json", "-"]].concat(), folder.path()).stdout;
        outside::keeps_to_schema(&command.join(" "), &schema.stdout, &record);
    }
}
