//! `reglet measure`, as a user runs it.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]
#![allow(clippy::disallowed_methods, reason = "tests write the files that the program reads")]

use press::Founts;
use press::scenario::Sheet;
use serde_json::Value;
use sheet::Ppi;
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;

fn reglet(arguments: &[&str], folder: &Path) -> Output {
    Command::new(env!("CARGO_BIN_EXE_reglet")).args(arguments).current_dir(folder).output().unwrap()
}

/// The record that was written, which keeps to the schema that the program prints.
#[track_caller]
fn told(out: &Output, schema: &str) -> Value {
    let text = String::from_utf8_lossy(&out.stdout);
    let record = serde_json::from_str(&text)
        .unwrap_or_else(|e| panic!("{e}: {text}{}", String::from_utf8_lossy(&out.stderr)));
    let printed = reglet(&["schema", schema], &std::env::temp_dir());
    outside::keeps_to_schema(schema, &printed.stdout, &out.stdout);
    record
}

/// A photograph of an invented sheet; from baseline to baseline of its text, millimetres, and whether that is without leads.
fn sheet(path: &Path, ppi: Ppi, seed: u64) -> (f64, bool) {
    let sheet = Sheet { level: 0, ppi, seed };
    let pull = sheet.print(&Founts::open().unwrap(), &sheet.conditions()).unwrap();
    std::fs::write(path, pull.picture.to_jpeg(92, None).unwrap()).unwrap();
    let layout = &pull.truth.setting.layout;
    (layout.pitch().0, layout.lead.0 == 0.0)
}

#[test]
fn a_sheet_of_known_scale_is_measured_in_millimetres() {
    let folder = TempDir::new().unwrap();
    let (pitch, is_solid) = sheet(&folder.path().join("order.jpg"), Ppi(250.0), 41);
    let out = reglet(&["measure", "--ppi", "250", "--json", "-", "order.jpg"], folder.path());
    assert_eq!(out.status.code(), Some(0), "{}", String::from_utf8_lossy(&out.stderr));
    let record = told(&out, "measure");
    let types = record["types"].as_array().unwrap();
    let text = types.iter().find(|t| !t["twenty_lines_mm"].is_null()).unwrap();
    let [twenty, sd] = ["twenty_lines_mm", "sd_mm"].map(|k| text[k].as_f64().unwrap());
    // Paper has shrunk by a few hundredths at most.
    assert!((0.965..1.005).contains(&(twenty / (20.0 * pitch))), "{twenty} mm of {pitch}");
    assert!(sd > 0.0 && sd < 0.02 * twenty, "{sd}");
    assert!(!is_solid || text["bodies"].as_array().unwrap().iter().any(|b| b["fits"] == true), "{text:#}");
    assert_eq!(record["scale"]["from"], Value::Null, "{}", record["scale"]);
    assert!(record["skew_degrees"].as_f64().unwrap().abs() < 5.0);
    let lines = record["lines"].as_array().unwrap();
    assert!(lines.len() > 10 && lines.iter().all(|l| l["baseline_px"].as_array().unwrap().len() >= 2));
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1, "nothing else is written");
}

#[test]
fn without_a_scale_there_are_pixels_and_no_body() {
    let folder = TempDir::new().unwrap();
    sheet(&folder.path().join("order.jpg"), Ppi(200.0), 42);
    let out = reglet(&["measure", "--json", "-", "order.jpg"], folder.path());
    let record = told(&out, "measure");
    assert!(record["scale"].is_null());
    let text = &record["types"][0];
    assert!(text["twenty_lines_mm"].is_null() && text["bodies"].as_array().unwrap().is_empty());
    assert!(
        record["types"]
            .as_array()
            .unwrap()
            .iter()
            .any(|t| t["twenty_lines_px"]["value"].as_f64() > Some(100.0))
    );
    assert!(record["cautions"].to_string().contains("scale of the photograph is unknown"));
}

#[test]
fn a_page_and_plates_are_written_and_say_the_same() {
    let folder = TempDir::new().unwrap();
    sheet(&folder.path().join("order.jpg"), Ppi(200.0), 43);
    let out =
        reglet(&["measure", "--known-length", "200=25.4", "--plates", "plates", "order.jpg"], folder.path());
    let said = String::from_utf8_lossy(&out.stdout);
    assert_eq!(out.status.code(), Some(0), "{said}{}", String::from_utf8_lossy(&out.stderr));
    assert!(
        said.contains("Twenty lines of the text measure") && said.contains("order-measured.html"),
        "{said}"
    );
    let page = std::fs::read_to_string(folder.path().join("order-measured.html")).unwrap();
    assert!(page.contains("reglet measure --known-length 200=25.4 order.jpg"));
    let first = said.lines().nth(1).unwrap();
    assert!(page.contains(first), "{first}");
    let list = std::fs::read_to_string(folder.path().join("plates/plates.txt")).unwrap();
    assert!(list.contains("side.png") && list.contains("baselines traced"), "{list}");
}

#[test]
fn of_several_what_cannot_be_read_is_told_and_the_rest_measured() {
    let folder = TempDir::new().unwrap();
    sheet(&folder.path().join("a.jpg"), Ppi(200.0), 44);
    std::fs::write(folder.path().join("b.jpg"), b"no photograph").unwrap();
    let out = reglet(&["measure", "--ppi", "200", "--json", "-", "a.jpg", "b.jpg"], folder.path());
    assert_eq!(out.status.code(), Some(0), "{}", String::from_utf8_lossy(&out.stderr));
    let record = told(&out, "measure-many");
    assert_eq!(record["sides"].as_array().unwrap().len(), 1);
    assert_eq!(record["unread"][0]["file"], "b.jpg");
    let none = reglet(&["measure", "--json", "-", "b.jpg"], folder.path());
    assert_eq!(none.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&none.stderr).contains("b.jpg"));
    let one_page = reglet(&["measure", "--page", "x.html", "a.jpg", "a.jpg"], folder.path());
    assert_eq!(one_page.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&one_page.stderr).contains("a page is of one side"));
}

#[test]
fn a_side_without_type_is_no_error() {
    let folder = TempDir::new().unwrap();
    let blank = publish::pictures::Small::photograph(&sheet::Plane::filled(300, 200, [230u8; 3])).unwrap();
    std::fs::write(folder.path().join("blank.jpg"), blank.jpeg).unwrap();
    let out = reglet(&["measure", "--json", "-", "blank.jpg"], folder.path());
    assert_eq!(out.status.code(), Some(1), "{}", String::from_utf8_lossy(&out.stderr));
    let record = told(&out, "measure");
    assert!(record["lies"].is_null() && record["lines"].as_array().unwrap().is_empty());
}
