//! `reglet compare` as a user runs it: sheets from the virtual press, and files that are not sheets.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on has failed")]
#![allow(clippy::disallowed_methods, reason = "tests write the files that the program reads")]

use press::Founts;
use press::scenario::{Scenario, ScenarioKind};
use serde_json::Value;
use sheet::{Plane, Ppi};
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;

fn reglet(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_reglet")).args(arguments).output().unwrap()
}

/// Compares and gives the record and the exit code.
fn compared(a: &Path, b: &Path) -> (Value, i32) {
    let out = reglet(&["compare", "--ppi", "250", "--json", "-", a.to_str().unwrap(), b.to_str().unwrap()]);
    let text = String::from_utf8(out.stdout).unwrap();
    let record = serde_json::from_str(&text)
        .unwrap_or_else(|e| panic!("{e}: {text} {}", String::from_utf8_lossy(&out.stderr)));
    (record, out.status.code().unwrap())
}

/// What the program says of files that cannot be compared.
fn refused(a: &Path, b: &Path) -> String {
    let out = reglet(&["compare", "--json", "-", a.to_str().unwrap(), b.to_str().unwrap()]);
    assert_eq!(out.status.code(), Some(2), "{}", String::from_utf8_lossy(&out.stdout));
    assert!(out.stdout.is_empty(), "nothing half said");
    String::from_utf8(out.stderr).unwrap()
}

/// Two clean simulated copies at 250 ppi.
fn pair(folder: &TempDir, kind: ScenarioKind, seed: u64) -> [PathBuf; 2] {
    printed(folder, Scenario { kind, level: 0, ppi_a: Ppi(250.0), ppi_b: Ppi(250.0), seed })
}

/// A pair from the press.
fn printed(folder: &TempDir, scenario: Scenario) -> [PathBuf; 2] {
    let printed = scenario.print(&Founts::open().unwrap()).unwrap();
    let paths = ["a", "b"].map(|n| folder.path().join(format!("{n}.jpg")));
    for (path, pull) in paths.iter().zip([&printed.a, &printed.b]) {
        std::fs::write(path, pull.picture.to_jpeg(92, None).unwrap()).unwrap();
    }
    paths
}

/// A grey picture as a PNG.
fn png(folder: &TempDir, name: &str, picture: &Plane<u8>) -> PathBuf {
    use image::ImageEncoder as _;
    let path = folder.path().join(name);
    let mut bytes = Vec::new();
    image::codecs::png::PngEncoder::new(&mut bytes)
        .write_image(
            picture.data(),
            picture.width() as u32,
            picture.height() as u32,
            image::ExtendedColorType::L8,
        )
        .unwrap();
    std::fs::write(&path, bytes).unwrap();
    path
}

#[test]
fn clean_copies_get_the_verdict_that_the_press_knows() {
    for (kind, seed) in [
        (ScenarioKind::SameSetting, 10),
        (ScenarioKind::SameSettingWithDifferences, 10),
        (ScenarioKind::DifferentSetting, 10),
        (ScenarioKind::DifferentText, 4),
    ] {
        let folder = TempDir::new().unwrap();
        let [a, b] = pair(&folder, kind, seed);
        let (record, code) = compared(&a, &b);
        assert_eq!(record["verdict"], kind.verdict(), "seed {seed}: {:#?}", record["reasons"]);
        assert_eq!(code, 0);
        let weight = record["weight_log10"].as_f64();
        match kind {
            ScenarioKind::SameSetting | ScenarioKind::SameSettingWithDifferences => {
                assert!(weight.unwrap() > 0.5);
            }
            ScenarioKind::DifferentSetting => assert!(weight.unwrap() < -0.5),
            _ => assert_eq!(weight, None),
        }
        let differs = !record["changes"].as_array().unwrap().is_empty();
        assert_eq!(differs, kind == ScenarioKind::SameSettingWithDifferences, "{:#?}", record["changes"]);
    }
}

#[test]
fn one_setting_lies_within_hundredths_of_a_millimetre() {
    let folder = TempDir::new().unwrap();
    let [a, b] = pair(&folder, ScenarioKind::SameSetting, 4);
    let (record, _) = compared(&a, &b);
    let residual = record["residual"]["median_mm"].as_f64().unwrap();
    assert!(residual > 0.0 && residual < 0.02, "{residual} mm");
}

#[test]
fn the_same_file_twice_is_said() {
    let folder = TempDir::new().unwrap();
    let [a, _] = pair(&folder, ScenarioKind::SameSetting, 4);
    let (record, _) = compared(&a, &a);
    assert_eq!(record["verdict"], "same-setting");
    assert!(record["warnings"][0].as_str().unwrap().contains("with itself"), "{:#?}", record["warnings"]);
}

#[test]
fn one_copy_photographed_twice_may_be_one_and_two_copies_are_two() {
    for kind in [ScenarioKind::OneCopy, ScenarioKind::SameSetting] {
        let folder = TempDir::new().unwrap();
        // Paper with some grain: that of level 0 is too clean to be known again.
        let of = Scenario { kind, level: 2, ppi_a: Ppi(250.0), ppi_b: Ppi(250.0), seed: 113 };
        let [a, b] = printed(&folder, of);
        let (record, _) = compared(&a, &b);
        assert_eq!(record["verdict"], "same-setting");
        let said = record["perhaps_one_copy"].as_str();
        assert_eq!(said.is_some(), kind == ScenarioKind::OneCopy, "{said:?}");
        let names = [&a, &b].map(|p| p.to_str().unwrap());
        let words = reglet(&["compare", "--quiet", "--no-page", names[0], names[1]]).stdout;
        let words = String::from_utf8(words).unwrap();
        assert_eq!(words.contains("Perhaps one copy"), said.is_some(), "{words}");
    }
}

#[test]
fn pictures_without_print_are_undetermined_with_a_reason() {
    let folder = TempDir::new().unwrap();
    let [a, _] = pair(&folder, ScenarioKind::SameSetting, 4);
    let blank = [
        png(&folder, "dot.png", &Plane::filled(1, 1, 128u8)),
        png(&folder, "white.png", &Plane::filled(900, 700, 255u8)),
        png(&folder, "black.png", &Plane::filled(900, 700, 0u8)),
    ];
    for other in &blank {
        for (first, second) in [(&a, other), (other, &a), (other, other)] {
            let (record, code) = compared(first, second);
            assert_eq!(
                (record["verdict"].as_str().unwrap(), code),
                ("undetermined", 1),
                "{}",
                other.display()
            );
            assert!(
                record["reasons"][0].as_str().unwrap().contains("too little print"),
                "{}",
                record["reasons"]
            );
        }
    }
}

#[test]
fn a_picture_of_something_else_is_no_setting() {
    let folder = TempDir::new().unwrap();
    let [a, _] = pair(&folder, ScenarioKind::SameSetting, 4);
    // Hills: smooth light and shade without a letter.
    let mut hills = Plane::filled(1000, 800, 0u8);
    for y in 0..800 {
        for (x, v) in hills.row_mut(y).iter_mut().enumerate() {
            let (x, y) = (x as f64 / 90.0, y as f64 / 70.0);
            *v = (128.0 + 60.0 * (x + (y * 1.3).sin()).sin() + 50.0 * (y - x * 0.4).cos()) as u8;
        }
    }
    let (record, code) = compared(&a, &png(&folder, "hills.png", &hills));
    assert_eq!((record["verdict"].as_str().unwrap(), code), ("undetermined", 1));
}

#[test]
fn what_is_no_photograph_is_refused_with_its_name_and_the_remedy() {
    let folder = TempDir::new().unwrap();
    let [a, b] = pair(&folder, ScenarioKind::SameSetting, 4);
    let text = folder.path().join("notes.jpg");
    std::fs::write(&text, b"The said inhabitants shall sweep before their doors.").unwrap();
    let short = folder.path().join("short.jpg");
    let whole = std::fs::read(&a).unwrap();
    std::fs::write(&short, &whole[..whole.len() / 2]).unwrap();
    let empty = folder.path().join("empty.png");
    std::fs::write(&empty, b"").unwrap();
    let missing = folder.path().join("missing.tif");
    let bare = folder.path().join("bare");
    std::fs::create_dir(&bare).unwrap();
    for (bad, word) in [
        (&text, "notes.jpg"),
        (&short, "short.jpg"),
        (&empty, "empty.png"),
        (&missing, "no such file"),
        (&bare, "no photograph in this folder"),
    ] {
        let said = refused(bad, &b);
        assert!(said.contains(word) && said.starts_with("reglet: "), "{said}");
        assert!(!said.contains("panicked"), "{said}");
    }
}

#[test]
fn a_wrong_extension_is_a_warning_and_the_work_goes_on() {
    let folder = TempDir::new().unwrap();
    let [a, b] = pair(&folder, ScenarioKind::SameSetting, 4);
    let renamed = folder.path().join("copy.tif");
    std::fs::rename(&b, &renamed).unwrap();
    let (record, code) = compared(&a, &renamed);
    assert_eq!((record["verdict"].as_str().unwrap(), code), ("same-setting", 0));
    let warned =
        record["warnings"].as_array().unwrap().iter().any(|w| w.as_str().unwrap().contains("copy.tif"));
    assert!(warned, "{:#?}", record["warnings"]);
}

#[test]
fn the_record_keeps_to_its_schema() {
    let folder = TempDir::new().unwrap();
    let [a, b] = pair(&folder, ScenarioKind::SameSettingWithDifferences, 10);
    let (record, _) = compared(&a, &b);
    let out = reglet(&["schema"]);
    let schema: Value = serde_json::from_slice(&out.stdout).unwrap();
    let wanted = schema["required"].as_array().unwrap();
    for name in ["verdict", "weight_log10", "residual", "changes", "lines", "warnings"] {
        assert!(schema["properties"].get(name).is_some(), "{name} is not in the schema");
        assert!(record.get(name).is_some(), "{name} is not in the record");
    }
    for name in wanted {
        assert!(record.get(name.as_str().unwrap()).is_some(), "{name} is not in the record");
    }
    for name in record.as_object().unwrap().keys() {
        assert!(schema["properties"].get(name).is_some(), "{name} is not in the schema");
    }
    let blank = png(&folder, "white.png", &Plane::filled(900, 700, 255u8));
    for record in [record, compared(&a, &blank).0] {
        outside::keeps_to_schema("compare", &out.stdout, record.to_string().as_bytes());
    }
}

#[cfg(unix)]
#[test]
fn stopped_while_it_works_it_leaves_nothing_half_written() {
    use std::time::Duration;
    let folder = TempDir::new().unwrap();
    let [a, b] = pair(&folder, ScenarioKind::SameSettingWithDifferences, 10);
    // The second photograph comes through a pipe that nobody fills: there the program waits, however fast the machine.
    let pipe = folder.path().join("pipe.jpg");
    assert!(Command::new("mkfifo").arg(&pipe).status().unwrap().success());
    let stopped = |second: &Path, after: Duration| {
        let page = folder.path().join("page.html");
        let mut child = Command::new(env!("CARGO_BIN_EXE_reglet"))
            .args(["compare", "--quiet", "--page"])
            .args([&page, &a])
            .arg(second)
            .stdout(std::process::Stdio::null())
            .spawn()
            .unwrap();
        std::thread::sleep(after);
        Command::new("kill").args(["-INT", &child.id().to_string()]).status().unwrap();
        let code = child.wait().unwrap().code();
        let names: Vec<_> =
            std::fs::read_dir(folder.path()).unwrap().map(|e| e.unwrap().file_name()).collect();
        assert!(!names.iter().any(|n| n.to_string_lossy().starts_with(".reglet")), "{names:?}");
        let text = std::fs::read_to_string(&page).unwrap_or_default();
        assert!(text.is_empty() || text.trim_end().ends_with("</html>"), "a page is whole or is not there");
        std::fs::remove_file(&page).ok();
        code
    };
    assert_eq!(stopped(&pipe, Duration::from_millis(300)), Some(130));
    for ms in [20, 60, 120, 200, 300, 420, 560] {
        let code = stopped(&b, Duration::from_millis(ms));
        assert!([Some(0), Some(130)].contains(&code), "{code:?}");
    }
}

#[test]
fn one_photograph_may_be_named_by_page_and_is_known_again() {
    let folder = TempDir::new().unwrap();
    let [a, _] = pair(&folder, ScenarioKind::SameSetting, 4);
    let again = PathBuf::from(format!("{}#1", a.display()));
    let (record, _) = compared(&a, &again);
    assert!(record["warnings"][0].as_str().unwrap().contains("with itself"), "{:#?}", record["warnings"]);
    let said = refused(&a, Path::new(&format!("{}#7", a.display())));
    assert!(said.contains("one picture only"), "{said}");
}

#[test]
fn nothing_is_written_over_a_photograph_or_another_page() {
    let folder = TempDir::new().unwrap();
    let [a, b] = pair(&folder, ScenarioKind::SameSetting, 4);
    let before = std::fs::read(&a).unwrap();
    for option in ["--page", "--json"] {
        let names = [&a, &a, &b].map(|p| p.to_str().unwrap());
        let out = reglet(&["compare", option, names[0], names[1], names[2]]);
        assert_eq!(out.status.code(), Some(2));
        assert!(String::from_utf8_lossy(&out.stderr).contains("one of the photographs"));
        assert_eq!(std::fs::read(&a).unwrap(), before);
    }
    // Two pairs of photographs of the same names: two pages. The same pair again: the same page.
    let other = TempDir::new().unwrap();
    let [c, d] = pair(&other, ScenarioKind::SameSetting, 5);
    for (first, second, pages) in [(&a, &b, 1), (&c, &d, 2), (&a, &b, 2)] {
        let out = Command::new(env!("CARGO_BIN_EXE_reglet"))
            .current_dir(folder.path())
            .args(["compare", "--quiet"])
            .args([first, second])
            .output()
            .unwrap();
        assert_eq!(out.status.code(), Some(0), "{}", String::from_utf8_lossy(&out.stderr));
        let found = ["a-with-b.html", "a-with-b-2.html"].map(|n| folder.path().join(n).exists());
        assert_eq!(found.into_iter().filter(|there| *there).count(), pages);
    }
}

#[test]
fn what_cannot_be_written_out_is_an_error() {
    let full = Path::new("/dev/full");
    if !full.exists() {
        println!("skipped: no /dev/full");
        return;
    }
    let folder = TempDir::new().unwrap();
    let [a, b] = pair(&folder, ScenarioKind::SameSetting, 4);
    let out = Command::new(env!("CARGO_BIN_EXE_reglet"))
        .args(["compare", "--json", "-"])
        .args([a, b])
        .stdout(std::fs::OpenOptions::new().write(true).open(full).unwrap())
        .output()
        .unwrap();
    assert_eq!(out.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&out.stderr).contains("standard output"));
}
