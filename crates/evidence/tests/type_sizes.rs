//! Twenty lines of type on simulated sheets, against where the press has the same lines.

#![allow(clippy::unwrap_used, reason = "a test that cannot print its sheets has failed")]

use evidence::Reading;
use evidence::measure::{finely, skew, type_sizes};
use press::scenario::{Scenario, ScenarioKind};
use press::{Founts, Truth};
use sheet::scale::{Scale, ScaleSource};
use sheet::{Line, Point, Ppi};
use trade::bodies::bodies;

/// The slope of places by their numbers, and the weight of it.
fn slope(places: &[f64]) -> [f64; 2] {
    let n = places.len() as f64;
    let mean = places.iter().sum::<f64>() / n;
    let numbered = || places.iter().enumerate().map(|(i, y)| (i as f64 - (n - 1.0) / 2.0, y - mean));
    let weight: f64 = numbered().map(|(i, _)| i * i).sum();
    [numbered().map(|(i, y)| i * y).sum::<f64>() / weight, weight]
}

/// The baselines that the press set, millimetres of the forme.
fn feet(truth: &Truth) -> Vec<f64> {
    truth.setting.lines.iter().filter_map(|l| Some(l.words.first()?.sorts.first()?.at.y)).collect()
}

fn nearest(feet: &[f64], y: f64) -> f64 {
    *feet.iter().min_by(|p, q| (*p - y).abs().total_cmp(&(*q - y).abs())).unwrap()
}

/// From baseline to baseline of the lines of these runs, pixels of the photograph, as the press has them there.
fn true_pitch(truth: &Truth, lines: &[Line], runs: &[Vec<usize>], upright: f64) -> f64 {
    let feet = feet(truth);
    let (mut sum, mut weights) = (0.0, 0.0);
    for run in runs {
        let ends = |i: usize| (lines[i].baseline[0].x, lines[i].baseline.last().unwrap().x);
        let from = run.iter().map(|&i| ends(i).0).fold(f64::MIN, f64::max);
        let to = run.iter().map(|&i| ends(i).1).fold(f64::MAX, f64::min);
        let place = |i: usize, x: f64| {
            let near = lines[i].baseline.iter().min_by(|p, q| (p.x - x).abs().total_cmp(&(q.x - x).abs()));
            let here = truth.to_forme(Point::new(x, near.unwrap().y)).unwrap();
            truth.to_photograph(Point::new(here.x, nearest(&feet, here.y))).y
        };
        let at = |k: i32| from + (to - from) * (f64::from(k) + 0.5) / 9.0;
        let places: Vec<f64> =
            run.iter().map(|&i| (0..9).map(|k| place(i, at(k))).sum::<f64>() / 9.0).collect();
        let [slope, weight] = slope(&places);
        (sum, weights) = (sum + slope * weight, weights + weight);
    }
    sum / weights * upright
}

/// How far these lines fall to the right as the press has them on the photograph, degrees.
fn true_skew(truth: &Truth, lines: &[Line]) -> f64 {
    let feet = feet(truth);
    let as_set = |l: &Line| {
        let place = |p: &Point| {
            let here = truth.to_forme(*p).unwrap();
            truth.to_photograph(Point::new(here.x, nearest(&feet, here.y)))
        };
        Line { baseline: l.baseline.iter().map(place).collect(), ..l.clone() }
    };
    skew(&lines.iter().map(as_set).collect::<Vec<_>>()).unwrap().value
}

/// Twenty lines are to be measured to within 0.2 mm where the scale is known, and the slope of the lines to 0.05 degrees (simulated).
#[test]
fn twenty_lines_measure_what_the_press_set() {
    let founts = Founts::open().unwrap();
    let mut off = Vec::new();
    for n in 0..9u64 {
        let (level, ppi) = ((n % 3) as u8, Ppi([200.0, 300.0, 400.0][(n / 3 % 3) as usize]));
        let scenario =
            Scenario { kind: ScenarioKind::SameSetting, level, ppi_a: ppi, ppi_b: ppi, seed: 900 + n };
        let pull = scenario.print(&founts).unwrap().a;
        let reading = Reading::of(&pull.picture.luminance(), None);
        let found = finely(reading.ink.full(), &reading.layout);
        let sizes = type_sizes(&found);
        let pitch = sizes.iter().find_map(|s| s.pitch.as_ref()).unwrap();
        let upright = found.skew.radians().cos();
        let truly = true_pitch(&pull.truth, &reading.layout.lines, &pitch.runs, upright);
        let lies_truly = true_skew(&pull.truth, &found.lines);
        let [lies, by_layout] = [&found, &reading.layout].map(|l| l.skew.0 - lies_truly);
        println!("{n}: lies {lies:.3} degrees off; by the layout {by_layout:.3}");
        assert!(lies.abs() <= 0.05, "{n}: {lies} degrees");
        let [by, told] = [pitch.px.value - truly, pitch.px.sd].map(|px| 20.0 * px / ppi.px_per_mm());
        println!(
            "{n}: level {level}, {} ppi: {by:.3} mm off, {told:.3} told, runs {:?}",
            ppi.0,
            pitch.runs.iter().map(Vec::len).collect::<Vec<_>>()
        );
        off.push(by.abs());
        let layout = &pull.truth.setting.layout;
        let scale = Scale { ppi, relative_sd: 0.002, source: ScaleSource::StatedPpi };
        if layout.lead.0 == 0.0 {
            // As the press has it, and no more than paper shrinks and a camera is off.
            let fits = sizes.iter().find_map(|s| s.bodies(&scale)).unwrap();
            let set = 20.0 * layout.body.0;
            let all = bodies();
            let name = all.iter().min_by(|p, q| {
                let far = |b: &trade::bodies::Body| (b.twenty_lines.middle().0 - set).abs();
                far(p).total_cmp(&far(q))
            });
            assert!(
                fits.solid.iter().any(|f| f.fits && f.name == name.unwrap().name),
                "{n}: {set} mm, {fits:?}"
            );
        }
    }
    let within = off.iter().filter(|by| **by <= 0.2).count();
    assert!(within >= 8, "{within} of {}", off.len());
}

/// As scikit-image's Radon transform has it, of sheets that lie flat, on ink of less than 1600 pixels. It adds up whole rows: what it can tell is
/// a row over the length of a line.
#[test]
fn lines_fall_as_the_radon_transform_of_scikit_image_has_them() {
    let founts = Founts::open().unwrap();
    for n in [0, 3, 6] {
        let ppi = Ppi(200.0);
        let scenario =
            Scenario { kind: ScenarioKind::SameSetting, level: 0, ppi_a: ppi, ppi_b: ppi, seed: 900 + n };
        let reading = Reading::of(&scenario.print(&founts).unwrap().a.picture.luminance(), None);
        let found = finely(reading.ink.full(), &reading.layout);
        let ours = found.skew.0;
        let plane = reading.ink.level(reading.ink.level_within(1600));
        let size = [plane.width(), plane.height()].map(|v| v.to_string());
        let arguments = ["slope", &size[0], &size[1], "1"].map(str::to_owned);
        let Some(theirs) = outside::kernel(&arguments, plane.data()) else { return };
        println!("{n}: {ours:.3} and {:.3} degrees", theirs[0]);
        let long = found.lines.iter().map(|l| l.bounds.w).fold(0.0, f64::max);
        let row = reading.ink.full().width() as f64 / plane.width() as f64;
        let told = (row / long).atan().to_degrees();
        assert!((ours - f64::from(theirs[0])).abs() <= told, "{n}: {ours} and {theirs:?}, to {told}");
    }
}
