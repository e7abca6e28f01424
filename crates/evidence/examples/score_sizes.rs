//! Scores how far lines of type stand apart against the ground truth of the real photographs, page by page:
//! `score_sizes [dev|held|all] [PART OF A NAME]`. A run is scored by those of its lines that the truth has, five at least.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a tool for the people who build this"
)]

#[path = "../../sheet/tests/support/mod.rs"]
mod support;

use evidence::Reading;
use evidence::measure::{finely, type_sizes};
use sheet::Point;

/// Fewest lines of a run that are scored, and places along them.
const FEWEST: usize = 5;
const PLACES: u32 = 9;

fn main() {
    let args: Vec<String> = std::env::args().collect();
    let which = args.get(1).map_or("dev", String::as_str);
    let part = args.get(2).map_or("", String::as_str);
    let folder = support::real().unwrap();
    let mut off: Vec<f64> = Vec::new();
    let mut told: Vec<f64> = Vec::new();
    for page in support::pages(&folder) {
        let held = support::is_held_out(&page.file);
        if (which == "dev" && held) || (which == "held" && !held) || !page.file.contains(part) {
            continue;
        }
        let Some(luminance) = support::luminance(&folder.join(&page.file)) else { continue };
        let reading = Reading::of(&luminance, None);
        let truth: Vec<Vec<Point>> = page
            .lines
            .iter()
            .map(|l| l.baseline.iter().map(|p| reading.turned.upright(*p)).collect())
            .collect();
        let found = finely(reading.ink.full(), &reading.layout);
        let sizes = type_sizes(&found);
        let Some((size, pitch)) = sizes.iter().find_map(|s| Some((s, s.pitch.as_ref()?))) else { continue };
        let upright = found.skew.radians().cos();
        let (mut sum, mut weights, mut lines) = (0.0, 0.0, 0);
        for run in &pitch.runs {
            let ends = |i: usize| {
                let b = &reading.layout.lines[i].baseline;
                (b[0].x, b[b.len() - 1].x)
            };
            let from = run.iter().map(|&i| ends(i).0).fold(f64::MIN, f64::max);
            let to = run.iter().map(|&i| ends(i).1).fold(f64::MAX, f64::min);
            let at = |k: u32| from + (to - from) * (f64::from(k) + 0.5) / f64::from(PLACES);
            // The place of the true line on which this one lies.
            let place = |i: usize| -> Option<f64> {
                let middle = at(PLACES / 2);
                let here = support::y_at(&reading.layout.lines[i].baseline, middle)?;
                let mut near = truth.iter().filter(|t| {
                    support::y_at(t, middle).is_some_and(|y| (y - here).abs() < 0.4 * size.x_height_px.value)
                });
                near.find_map(|t| (0..PLACES).map(|k| support::y_at(t, at(k))).sum::<Option<f64>>())
            };
            let places: Vec<(f64, f64)> = run
                .iter()
                .enumerate()
                .filter_map(|(k, &i)| Some((k as f64, place(i)? / f64::from(PLACES))))
                .collect();
            if places.len() < FEWEST {
                continue;
            }
            let n = places.len() as f64;
            let mean = |of: fn(&(f64, f64)) -> f64| places.iter().map(of).sum::<f64>() / n;
            let (k, y) = (mean(|p| p.0), mean(|p| p.1));
            let spread: f64 = places.iter().map(|p| (p.0 - k).powi(2)).sum();
            sum += places.iter().map(|p| (p.0 - k) * (p.1 - y)).sum::<f64>();
            weights += spread;
            lines += places.len();
        }
        if weights == 0.0 {
            println!("{:60} none of five lines", tail(&page.file));
            continue;
        }
        let truly = sum / weights * upright;
        let by = pitch.px.value / truly - 1.0;
        println!(
            "{:60} {lines:3} lines: {:8.3} px, truly {truly:8.3}, off {:6.3} percent, told {:.3}",
            tail(&page.file),
            pitch.px.value,
            100.0 * by,
            100.0 * pitch.px.sd / truly
        );
        off.push(by.abs());
        told.push(by.abs() / (pitch.px.sd / truly));
    }
    off.sort_by(f64::total_cmp);
    let within = off.iter().filter(|o| **o <= 0.005).count();
    let sure = told.iter().filter(|t| **t <= 1.96).count();
    println!(
        "{} pages: half within {:.3} percent, {within} within 0.5 percent, {sure} within 1.96 standard deviations as told",
        off.len(),
        100.0 * off[off.len() / 2]
    );
}

fn tail(file: &str) -> &str {
    &file[file.len().saturating_sub(60)..]
}
