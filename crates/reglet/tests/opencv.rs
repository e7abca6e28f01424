//! Registration against OpenCV's on the same pairs: where the same windows are found. Needs a Python with
//! OpenCV (`$REGLET_PYTHON` or `target/venv/bin/python`), and for the real pairs `$REGLET_REAL` (or
//! `../shared/real` beside the repository); says so and passes where they lack.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on has failed")]
#![allow(clippy::disallowed_methods, reason = "tests write the files that OpenCV reads")]
#![allow(clippy::print_stdout, reason = "a test says what it measured, or that it was skipped")]

use evidence::Reading;
use outside::{python_with, root, script};
use press::Founts;
use press::scenario::{Scenario, ScenarioKind};
use serde_json::{Value, json};
use sheet::decode::{DecodeRequest, decode};
use sheet::{Plane, Point, Ppi};
use std::path::{Path, PathBuf};

/// Either is confident of a window that it finds so well, and nowhere else nearly as well: a stretch of a rule
/// lies as well a little further on.
const CONFIDENT: f64 = 0.9;
const MARGIN: f64 = 0.2;

fn confident(score: f64, rival: f64) -> bool {
    score >= CONFIDENT && score - rival >= MARGIN
}

/// Within this distance the two must agree, pixels of B.
const WITHIN_PX: f64 = 0.5;

fn read(path: &Path) -> Plane<u8> {
    decode(&std::fs::read(path).unwrap(), &DecodeRequest::default()).unwrap().luminance
}

/// Distances between the places that Reglet and OpenCV give to the same windows, pixels of B, in order.
fn distances(python: &Path, a: &Path, b: &Path) -> Vec<f64> {
    let [first, second] = [a, b].map(|p| Reading::of(&read(p), None));
    let laid = evidence::compare(&first, &second).laid.expect("one setting lies on itself");
    let found: Vec<(Point, Point)> = laid
        .patches
        .iter()
        .filter(|p| p.is_sound() && confident(p.score.into(), p.rival.into()))
        .map(|p| (p.at, laid.map.view.map(p.at + p.shift)))
        .collect();
    let points: Vec<_> = found.iter().map(|(p, _)| [p.x, p.y]).collect();
    let question = json!({"side": laid.patch_side.round(), "points": points}).to_string();
    let files = [a, b].map(|p| p.display().to_string());
    let answer = script(python, "displacements.py", &files, question.as_bytes());
    let answers: Vec<Option<[f64; 4]>> = serde_json::from_slice(&answer).unwrap();
    assert_eq!(answers.len(), found.len());
    let mut apart: Vec<f64> = found
        .iter()
        .zip(answers)
        .filter_map(|((_, ours), theirs)| {
            let [x, y, score, rival] = theirs?;
            confident(score, rival).then(|| ours.distance(Point::new(x, y)))
        })
        .collect();
    apart.sort_by(f64::total_cmp);
    apart
}

/// Every window but two in a hundred must agree (beside a crease each makes its own choice of side), and enough of
/// them be found at all.
fn agree(name: &str, apart: &[f64]) {
    assert!(apart.len() >= 40, "{name}: only {} windows found by both", apart.len());
    let beyond = apart.iter().filter(|&&d| d > WITHIN_PX).count();
    println!(
        "{name}: {} windows, median {:.3} px, largest {:.3}, {beyond} beyond {WITHIN_PX}",
        apart.len(),
        apart[apart.len() / 2],
        apart[apart.len() - 1]
    );
    assert!(beyond * 50 <= apart.len(), "{name}: {beyond} of {} beyond {WITHIN_PX} px", apart.len());
}

#[test]
fn simulated_copies_lie_where_opencv_lays_them() {
    let Some(python) = python_with("cv2") else { return };
    let folder = tempfile::tempdir().unwrap();
    let founts = Founts::open().unwrap();
    for (seed, ppi_a, ppi_b, level) in [(1, 300.0, 300.0, 0), (2, 300.0, 250.0, 2), (7, 400.0, 300.0, 3)] {
        let kind = ScenarioKind::SameSetting;
        let printed =
            Scenario { kind, level, ppi_a: Ppi(ppi_a), ppi_b: Ppi(ppi_b), seed }.print(&founts).unwrap();
        let paths = ["a.jpg", "b.jpg"].map(|n| folder.path().join(n));
        for (path, pull) in paths.iter().zip([&printed.a, &printed.b]) {
            std::fs::write(path, pull.picture.to_jpeg(95, None).unwrap()).unwrap();
        }
        agree(&format!("seed {seed}"), &distances(&python, &paths[0], &paths[1]));
    }
}

#[test]
fn real_copies_lie_where_opencv_lays_them() {
    let folder = std::env::var_os("REGLET_REAL").map_or_else(|| root().join("../shared/real"), PathBuf::from);
    let (Some(python), true) = (python_with("cv2"), folder.is_dir()) else {
        println!("skipped: no real photographs, or no OpenCV");
        return;
    };
    let listed: Value = serde_json::from_slice(&std::fs::read(folder.join("pairs.json")).unwrap()).unwrap();
    let pairs =
        listed.as_array().unwrap().iter().filter(|p| {
            p["kind"] == "same-setting" && p["a"]["file"].as_str().unwrap().starts_with("chapbooks")
        });
    for pair in pairs.take(4) {
        let [a, b] = ["a", "b"].map(|side| folder.join(pair[side]["file"].as_str().unwrap()));
        agree(&format!("pair {}", pair["id"]), &distances(&python, &a, &b));
    }
}
