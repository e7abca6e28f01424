//! `reglet compare` of many copies, as a user runs it.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]
#![allow(clippy::disallowed_methods, reason = "tests write the files that the program reads")]

use press::Founts;
use press::scenario::{Scenario, ScenarioKind};
use serde_json::{Value, json};
use sheet::Ppi;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;

fn reglet(arguments: &[&str], folder: &Path) -> Output {
    Command::new(env!("CARGO_BIN_EXE_reglet")).args(arguments).current_dir(folder).output().unwrap()
}

/// An invented order: two copies of it, the second corrected at press, and two copies of which the second was set again;
/// the first copies of both are of one setting.
fn order(folder: &Path) -> [PathBuf; 4] {
    let founts = Founts::open().unwrap();
    let [one, two] = [ScenarioKind::SameSettingWithDifferences, ScenarioKind::DifferentSetting].map(|kind| {
        let of = Scenario { kind, level: 0, ppi_a: Ppi(250.0), ppi_b: Ppi(250.0), seed: 10 };
        of.print(&founts).unwrap()
    });
    let pulls = [&one.a, &one.b, &two.a, &two.b];
    std::array::from_fn(|i| {
        let path = folder.join(format!("copy-{}.jpg", i + 1));
        std::fs::write(&path, pulls[i].picture.to_jpeg(92, None).unwrap()).unwrap();
        path
    })
}

/// The copies of each reading of a place, whichever of them is the frame.
fn who_agrees(variant: &Value) -> Vec<Vec<u64>> {
    let list = |copies: &Value| -> Vec<u64> {
        let mut all: Vec<u64> = copies.as_array().unwrap().iter().map(|c| c.as_u64().unwrap()).collect();
        all.sort_unstable();
        all
    };
    let mut all: Vec<_> = variant["readings"].as_array().unwrap().iter().map(list).collect();
    all.sort();
    all
}

fn told(out: &Output) -> Value {
    let text = String::from_utf8_lossy(&out.stdout);
    serde_json::from_str(&text)
        .unwrap_or_else(|e| panic!("{e}: {text}{}", String::from_utf8_lossy(&out.stderr)))
}

#[test]
fn copies_of_two_settings_are_parted_and_a_correction_is_shared_or_not() {
    let folder = TempDir::new().unwrap();
    order(folder.path());
    std::fs::write(folder.path().join("copy-5.png"), b"no picture").unwrap();
    let out = reglet(&["compare", "--ppi", "250", "--json", "-", "."], folder.path());
    assert_eq!(out.status.code(), Some(0));
    let record = told(&out);
    assert_eq!(record["settings"], json!([[0, 1, 2], [3]]), "{:#}", record["pairs"]);
    assert_eq!(record["groups_within"], json!([[[0, 2], [1]], [[3]]]));
    let variants = record["variants"].as_array().unwrap();
    assert!(!variants.is_empty());
    for variant in variants {
        assert_eq!(who_agrees(variant), [vec![0, 2], vec![1]], "{variant:#}");
        let frame = variant["frame"].as_u64().unwrap() as usize;
        assert_eq!(variant["readings"][0][0], frame, "the frame stands first: {variant:#}");
    }
    assert_eq!(record["pairs"].as_array().unwrap().len(), 6);
    assert_eq!(record["contradictions"], json!([]));
    assert_eq!(record["unplaced"][0]["copy"], 4);
    assert!(record["unplaced"][0]["reason"].as_str().unwrap().contains("not a picture"));
    assert!(record["photographs"][4].is_null() && record["photographs"][3]["width_px"].is_u64());

    let words = reglet(&["compare", "--quiet", "--ppi", "250", "copy-*.jpg"], folder.path()).stdout;
    let words = String::from_utf8(words).unwrap();
    for wanted in [
        "2 settings of type.",
        "agree in every place: copy-1.jpg, copy-3.jpg",
        "Where the copies of setting 1 differ",
    ] {
        assert!(words.contains(wanted), "{wanted}\n{words}");
    }

    let schema = reglet(&["schema", "compare-many"], folder.path()).stdout;
    outside::keeps_to_schema("compare of many", &schema, record.to_string().as_bytes());
}

#[test]
fn the_page_of_many_shows_each_place_in_every_copy_of_its_setting() {
    let folder = TempDir::new().unwrap();
    order(folder.path());
    let out = reglet(
        &["compare", "--quiet", "--page", "all.html", "--json", "all.json", "copy-*.jpg"],
        folder.path(),
    );
    assert_eq!(out.status.code(), Some(0), "{}", String::from_utf8_lossy(&out.stderr));
    let page = std::fs::read_to_string(folder.path().join("all.html")).unwrap();
    let record: Value =
        serde_json::from_slice(&std::fs::read(folder.path().join("all.json")).unwrap()).unwrap();
    let variants = record["variants"].as_array().unwrap();
    let places = variants.len();
    assert!(places > 0);
    assert_eq!(page.matches("<article class=\"variant\"").count(), places);
    assert_eq!(page.matches("alt=\"The place in copy ").count(), 3 * places);
    assert_eq!(page.matches("class=\"take\"").count(), 4);
    for variant in variants {
        let on = variant["on_copies"].as_array().unwrap();
        assert_eq!(on.iter().map(|o| o["copy"].as_u64().unwrap()).collect::<Vec<_>>(), [0, 1, 2]);
        let of_frame = on.iter().find(|o| o["copy"] == variant["frame"]).unwrap();
        assert_eq!(of_frame["box_px"], variant["box_px"]);
        // The copies have other crops, and one is turned a little: a place moves, but by no more than they do.
        let far = |k: usize| on[1]["box_px"][k].as_f64().unwrap() - on[0]["box_px"][k].as_f64().unwrap();
        assert!(far(0).abs() < 150.0 && far(1).abs() < 150.0 && far(2).abs() < 12.0, "{variant:#}");
    }
    let out = reglet(&["compare", "--quiet", "--no-page", "--plates", "plates", "copy-*.jpg"], folder.path());
    assert!(String::from_utf8_lossy(&out.stdout).ends_with("The plates: plates\n"));
    let list = std::fs::read_to_string(folder.path().join("plates/plates.txt")).unwrap();
    assert_eq!(std::fs::read_dir(folder.path().join("plates")).unwrap().count(), places + 1);
    let groups = ["copies 1 and 3 | 2, each", "copies 3 and 1 | 2, each", "copies 2 | 1 and 3, each"];
    assert!(
        list.contains("place-001.png  place 1, line") && groups.iter().any(|g| list.contains(g)),
        "{list}"
    );
    assert!(list.contains("\ncopy 4: copy-4.jpg\n"), "{list}");
    // Without a page being asked for none is written beside JSON, and one is where words are said.
    reglet(&["compare", "--quiet", "--json", "-", "copy-*.jpg"], folder.path());
    assert!(!folder.path().join("copy-1-and-3-more.html").exists());
    reglet(&["compare", "--quiet", "copy-*.jpg"], folder.path());
    assert!(folder.path().join("copy-1-and-3-more.html").exists());
}

#[test]
fn states_of_a_setting_are_told_apart_and_joined_by_their_ink() {
    // Fourteen copies: each is laid on the first of its setting alone, so that two states which both differ from it were
    // never laid on each other.
    let folder = TempDir::new().unwrap();
    let printed = ["print", "--copies", "14", "--level", "0", "--ppi", "250", "--seed", "4", "copies"];
    assert_eq!(reglet(&printed, folder.path()).status.code(), Some(0));
    let truth: Value =
        serde_json::from_slice(&std::fs::read(folder.path().join("copies/truth.json")).unwrap()).unwrap();
    let state = |copy: usize| {
        let of = &truth["copies"][copy];
        (of["setting"].as_u64().unwrap(), of["state"].as_u64().unwrap())
    };
    let record = told(&reglet(&["compare", "--json", "-", "copies"], folder.path()));
    let (mut all, mut with_their_state) = (0, 0);
    for groups in record["groups_within"].as_array().unwrap() {
        let mut largest = std::collections::BTreeMap::new();
        for group in groups.as_array().unwrap() {
            let copies: Vec<usize> =
                group.as_array().unwrap().iter().map(|c| c.as_u64().unwrap() as usize).collect();
            assert!(
                copies.iter().all(|&c| state(c) == state(copies[0])),
                "two states in one group: {groups:?}"
            );
            all += copies.len();
            let most = largest.entry(state(copies[0])).or_insert(0);
            *most = copies.len().max(*most);
        }
        with_their_state += largest.values().sum::<usize>();
    }
    assert_eq!(all, 14);
    // Now and then poor ink parts a copy from its state (docs/benchmarks.md); most stand with theirs.
    assert!(with_their_state >= 12, "{:#}", record["groups_within"]);
}

#[test]
fn of_very_many_copies_each_is_laid_on_the_first_of_each_setting() {
    let folder = TempDir::new().unwrap();
    let copies = order(folder.path());
    for i in 5..=14 {
        std::fs::copy(
            &copies[if i % 2 == 0 { 0 } else { 3 }],
            folder.path().join(format!("copy-{i:02}.jpg")),
        )
        .unwrap();
    }
    let record = told(&reglet(&["compare", "--json", "-", "."], folder.path()));
    let sizes: Vec<usize> =
        record["settings"].as_array().unwrap().iter().map(|s| s.as_array().unwrap().len()).collect();
    assert_eq!(sizes, [8, 6], "{:#}", record["settings"]);
    // On the first copy of the setting that comes first all are laid, on that of the other its own.
    let pairs = record["pairs"].as_array().unwrap();
    let first = &pairs[0]["copies"][0];
    let on_first = pairs.iter().filter(|p| p["copies"][0] == *first).count();
    let its_setting =
        record["settings"].as_array().unwrap().iter().position(|s| s.as_array().unwrap().contains(first));
    assert_eq!((on_first, pairs.len()), (13, 13 + [5, 7][its_setting.unwrap()]));
    assert!(record["warnings"].to_string().contains("byte for byte"));
}

#[test]
fn what_cannot_be_asked_of_many_is_said() {
    let folder = TempDir::new().unwrap();
    order(folder.path());
    for (arguments, said) in [
        (&["compare", "--plates", ".", "."][..], "a photograph lies in this folder"),
        (&["compare", "--ppi", "300,300", "."], "2 resolutions for 4 photographs"),
        (&["compare", "copy-1.jpg"], "one photograph alone"),
        (&["compare", "--json", "copy-2.jpg", "."], "one of the photographs"),
    ] {
        let out = reglet(arguments, folder.path());
        assert_eq!(out.status.code(), Some(2));
        assert!(
            String::from_utf8_lossy(&out.stderr).contains(said),
            "{}",
            String::from_utf8_lossy(&out.stderr)
        );
    }
}
