//! `reglet blocks`, as a user runs it.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]
#![allow(clippy::disallowed_methods, reason = "tests write the files that the program reads")]

use press::Founts;
use press::block::{BlockHistory, BlockKind, BlockPair, CutOf, Relation, Surroundings};
use serde_json::Value;
use sheet::{Mm, Ppi};
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;

const PPI: Ppi = Ppi(300.0);

fn reglet(arguments: &[&str], folder: &Path) -> Output {
    Command::new(env!("CARGO_BIN_EXE_reglet")).args(arguments).current_dir(folder).output().unwrap()
}

/// The record that was written, which keeps to the schema that the program prints.
#[track_caller]
fn told(out: &Output) -> Value {
    let text = String::from_utf8_lossy(&out.stdout);
    let record = serde_json::from_str(&text)
        .unwrap_or_else(|e| panic!("{e}: {text}{}", String::from_utf8_lossy(&out.stderr)));
    let schema = reglet(&["schema", "blocks"], &std::env::temp_dir());
    outside::keeps_to_schema("blocks", &schema.stdout, &out.stdout);
    record
}

/// Impressions of one invented block, `impression-1.jpg` the earliest.
fn history(folder: &Path) {
    let of = BlockHistory {
        kind: BlockKind::Arms,
        size: Mm(45.0),
        impressions: 5,
        years: 60.0,
        rate: 0.5,
        plugged: false,
        level: 0,
        ppi: [PPI; 2],
        among: Surroundings::Alone,
        seed: 12,
    };
    let printed = of.print(&Founts::open().unwrap()).unwrap();
    for (i, pull) in printed.pulls.iter().enumerate() {
        let path = folder.join(format!("impression-{}.jpg", i + 1));
        std::fs::write(path, pull.picture.to_jpeg(92, Some(PPI)).unwrap()).unwrap();
    }
}

/// Two impressions that are to each other what is said.
fn pair(folder: &Path, relation: Relation) {
    let of = BlockPair {
        relation,
        cut: CutOf::One { block: BlockKind::Device },
        size: Mm(50.0),
        years: 20.0,
        level: 0,
        ppi_a: PPI,
        ppi_b: PPI,
        among: [Surroundings::Alone; 2],
        seed: 5,
    };
    let printed = of.print(&Founts::open().unwrap()).unwrap();
    for (name, pull) in [("a.jpg", &printed.a), ("b.jpg", &printed.b)] {
        std::fs::write(folder.join(name), pull.picture.to_jpeg(92, Some(PPI)).unwrap()).unwrap();
    }
}

fn numbers(list: &Value) -> Vec<u64> {
    list.as_array().unwrap().iter().map(|v| v.as_u64().unwrap()).collect()
}

#[test]
fn impressions_of_one_block_are_ordered_by_what_the_wood_lost_and_dated() {
    let folder = TempDir::new().unwrap();
    history(folder.path());
    let out =
        reglet(&["blocks", "--dates", "1600,?,..1640,1650..1660,1660", "--json", "-", "."], folder.path());
    assert_eq!(out.status.code(), Some(0), "{}", String::from_utf8_lossy(&out.stderr));
    let record = told(&out);
    assert_eq!(numbers(&record["blocks"][0]["impressions"]), [0, 1, 2, 3, 4], "{:#}", record["pairs"]);
    assert_eq!(record["pairs"].as_array().unwrap().len(), 10);
    let damage = record["damage"].as_array().unwrap();
    assert!(damage.len() >= 5, "{damage:#?}");
    for d in damage {
        let all = ["present", "absent", "unclear"].map(|k| numbers(&d[k]));
        let mut together: Vec<u64> = all.concat();
        together.sort_unstable();
        assert_eq!(together, [0, 1, 2, 3, 4]);
        assert!(!all[0].is_empty() && !all[1].is_empty() && d["size_mm"].as_f64().unwrap() > 0.05);
        assert_eq!(d["box_mm"].as_array().unwrap().len(), 4);
    }
    // The last lost most, and the first nothing that another shows.
    let first = record["order"][0]["earliest_first"][0].as_array().unwrap();
    assert!(first.iter().all(|i| i.as_u64().unwrap() < 2), "{:#}", record["order"][0]["earliest_first"]);
    let years = &record["dates"][0]["told"]["impressions"];
    assert!(years.as_array().unwrap().iter().any(|y| y["impression"] == 1), "{years:#}");
}

#[test]
fn another_design_is_told_and_nothing_is_ordered() {
    let folder = TempDir::new().unwrap();
    pair(folder.path(), Relation::Unrelated);
    let out = reglet(&["blocks", "--json", "-", "a.jpg", "b.jpg"], folder.path());
    let record = told(&out);
    let verdict = record["pairs"][0]["verdict"].as_str().unwrap();
    assert!(["different-design", "undetermined"].contains(&verdict), "{verdict}");
    assert!(
        record["damage"].as_array().unwrap().is_empty() && record["order"].as_array().unwrap().is_empty()
    );
    assert_eq!(record["blocks"].as_array().unwrap().len(), 2);
    assert!(record["dates"].is_null());
}

#[test]
fn a_page_is_written_whole_and_says_what_it_is() {
    let folder = TempDir::new().unwrap();
    pair(folder.path(), Relation::SameBlock);
    let out = reglet(&["blocks", "--page", "p.html", "--plates", "plates", "a.jpg", "b.jpg"], folder.path());
    assert!(out.status.code().is_some_and(|c| c < 2), "{}", String::from_utf8_lossy(&out.stderr));
    let page = std::fs::read_to_string(folder.path().join("p.html")).unwrap();
    assert!(page.contains("not authentication or valuation") && page.trim_end().ends_with("</html>"));
    let list = std::fs::read_to_string(folder.path().join("plates/plates.txt")).unwrap();
    assert!(list.contains("reglet blocks"), "{list}");
}

#[test]
fn errors_name_the_file_and_the_remedy_and_write_nothing() {
    let folder = TempDir::new().unwrap();
    pair(folder.path(), Relation::SameBlock);
    let blank = image_of(255);
    std::fs::write(folder.path().join("blank.png"), blank).unwrap();
    let fails = |arguments: &[&str]| {
        let mut all = vec!["blocks", "--page", "p.html"];
        all.extend(arguments);
        let out = reglet(&all, folder.path());
        assert_eq!(out.status.code(), Some(2), "{arguments:?}");
        assert!(!folder.path().join("p.html").exists());
        String::from_utf8_lossy(&out.stderr).into_owned()
    };
    assert!(fails(&["a.jpg"]).contains("name two or more"));
    let none = fails(&["a.jpg", "blank.png"]);
    assert!(none.contains("blank.png: no cut was found") && none.contains("--region"), "{none}");
    let outside = fails(&["--region", "5,5,90000,20", "a.jpg", "b.jpg"]);
    assert!(outside.contains("a.jpg: the region 5,5,90000,20 reaches beyond the photograph"), "{outside}");
    assert!(fails(&["--dates", "1650..1640,?", "a.jpg", "b.jpg"]).contains("1650 comes after 1640"));
    assert!(fails(&["--dates", "1650", "a.jpg", "b.jpg"]).contains("1 dates for 2 photographs"));
    assert!(fails(&["--region", "1,2,3", "a.jpg", "b.jpg"]).contains("120,80,600,600"));
}

/// A photograph of one grey.
fn image_of(grey: u8) -> Vec<u8> {
    let mut out = std::io::Cursor::new(Vec::new());
    image::GrayImage::from_pixel(400, 300, image::Luma([grey]))
        .write_to(&mut out, image::ImageFormat::Png)
        .unwrap();
    out.into_inner()
}

#[test]
fn a_photograph_without_a_cut_among_more_is_named_and_the_rest_goes_on() {
    let folder = TempDir::new().unwrap();
    pair(folder.path(), Relation::SameBlock);
    std::fs::write(folder.path().join("c.png"), image_of(230)).unwrap();
    let out = reglet(&["blocks", "--json", "-", "."], folder.path());
    let record = told(&out);
    assert_eq!(record["unplaced"][0]["copy"], 2);
    assert!(record["unplaced"][0]["reason"].as_str().unwrap().contains("no cut was found"));
    assert_eq!(record["pairs"].as_array().unwrap().len(), 1);
    assert!(record["cuts"][2].is_null());
}
