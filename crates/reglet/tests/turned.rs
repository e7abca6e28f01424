//! Photographs that were taken on their sides, or upside down.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on has failed")]

use evidence::{Reading, Verdict, compare};
use press::Founts;
use press::scenario::{Scenario, ScenarioKind};
use sheet::decode::{DecodeRequest, decode};
use sheet::{Plane, Ppi, Rect, Turned};

/// Two clean simulated copies at 250 ppi.
fn pair(kind: ScenarioKind, seed: u64) -> [Plane<u8>; 2] {
    let scenario = Scenario { kind, level: 0, ppi_a: Ppi(250.0), ppi_b: Ppi(250.0), seed };
    let printed = scenario.print(&Founts::open().unwrap()).unwrap();
    [printed.a, printed.b].map(|pull| {
        let bytes = pull.picture.to_jpeg(92, None).unwrap();
        decode(&bytes, &DecodeRequest::default()).unwrap().luminance
    })
}

#[test]
fn a_side_has_the_same_lines_and_words_whichever_way_it_was_taken() {
    for seed in [3, 4, 10] {
        for side in pair(ScenarioKind::SameSetting, seed) {
            let count = |r: &Reading| {
                let words: usize = r.layout.lines.iter().map(|l| l.words.len()).sum();
                (r.layout.lines.len() as f64, words as f64)
            };
            let upright = Reading::of(&side, None);
            let (lines, words) = count(&upright);
            assert_eq!(upright.turned.quarters(), 0);
            for quarters in 1..4 {
                let turned = Reading::of(&side.turned(quarters), None);
                let (l, w) = count(&turned);
                assert_eq!(turned.turned.quarters(), 4 - quarters, "seed {seed}, by {quarters}");
                assert!(
                    (l - lines).abs() <= 0.04 * lines,
                    "seed {seed}, by {quarters}: {l} lines of {lines}"
                );
                assert!(
                    (w - words).abs() <= 0.04 * words,
                    "seed {seed}, by {quarters}: {w} words of {words}"
                );
            }
        }
    }
}

#[test]
fn places_are_told_on_the_photographs_as_they_were_taken() {
    let [a, b] = pair(ScenarioKind::SameSettingWithDifferences, 10);
    let told =
        |a: &Plane<u8>, b: &Plane<u8>| compare(&Reading::of(a, None), &Reading::of(b, None)).comparison;
    let upright = told(&a, &b);
    let rect = |[x, y, w, h]: [f64; 4]| Rect::new(x, y, w, h);
    let near = |p: Rect, q: Rect| p.centre().distance(q.centre()) < 12.0 && (p.w - q.w).abs() < 24.0;
    for (by_a, by_b) in [(1, 0), (0, 3), (2, 1), (3, 3)] {
        let (turned_a, turned_b) = (a.turned(by_a), b.turned(by_b));
        let found = told(&turned_a, &turned_b);
        assert_eq!(found.verdict, Verdict::SameSettingWithDifferences, "{:#?}", found.reasons);
        let on_a = Turned::new(4 - by_a, turned_a.width(), turned_a.height());
        let on_b = Turned::new(4 - by_b, turned_b.width(), turned_b.height());
        for change in &upright.changes {
            let (p, q) = (rect(change.box_a_px), rect(change.box_b_px));
            let (p, q) = (on_a.box_on_photograph(p), on_b.box_on_photograph(q));
            let is_told =
                found.changes.iter().any(|c| near(rect(c.box_a_px), p) && near(rect(c.box_b_px), q));
            assert!(is_told, "turned by {by_a} and {by_b}: {change:?} is not among {:#?}", found.changes);
        }
        let (first, place) = (found.placement.as_ref().unwrap(), upright.placement.as_ref().unwrap());
        let turn = place.turn_degrees + 90.0 * (f64::from(by_b) - f64::from(by_a));
        let off = (first.turn_degrees - turn + 180.0).rem_euclid(360.0) - 180.0;
        assert!(off.abs() < 0.2, "turned by {by_a} and {by_b}: {} degrees", first.turn_degrees);
        // The plane view and the grid are told of the same photographs.
        let view = sheet::Homography::from_rows(first.view);
        for node in first.grid.iter().step_by(50) {
            let q = view.map(sheet::Point::new(node[0], node[1]));
            assert!(q.distance(sheet::Point::new(node[2], node[3])) < 60.0, "{node:?} {q:?}");
        }
    }
}
