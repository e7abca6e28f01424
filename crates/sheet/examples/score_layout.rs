//! Scores the layout against the ground truth of the real photographs, page by page:
//! `score_layout [dev|held|all] [PART OF A NAME] [lines]`. Last, how far the x-height of pages is from that of
//! half of their marked lines.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a tool for the people who build this"
)]

#[path = "../tests/support/mod.rs"]
mod support;

use std::collections::BTreeMap;
use std::time::Instant;
use support::Score;

fn main() {
    let args: Vec<String> = std::env::args().collect();
    let which = args.get(1).map_or("dev", String::as_str);
    let part = args.get(2).map_or("", String::as_str);
    let folder = support::real().unwrap();
    let mut sets: BTreeMap<String, Score> = BTreeMap::new();
    let mut text_sizes: Vec<f64> = Vec::new();
    for page in support::pages(&folder) {
        let held = support::is_held_out(&page.file);
        if (which == "dev" && held) || (which == "held" && !held) || !page.file.contains(part) {
            continue;
        }
        let Some(luminance) = support::luminance(&folder.join(&page.file)) else {
            println!("unreadable {}", page.file);
            continue;
        };
        let ink = sheet::ink(&luminance).darkness;
        let half = ink.halved();
        let start = Instant::now();
        let layout = if ink.width().max(ink.height()) > 2600 {
            sheet::layout(&half, 2.0)
        } else {
            sheet::layout(&ink, 1.0)
        };
        let ms = start.elapsed().as_secs_f64() * 1e3;
        let (score, _, right) = support::score(&page, &layout);
        if args.get(3).is_some_and(|a| a == "lines") {
            for (line, right) in layout.lines.iter().zip(&right) {
                let size = line.x_height.0 / layout.x_height.map_or(1.0, |p| p.0);
                let long = (line.baseline[line.baseline.len() - 1].x - line.baseline[0].x) / line.x_height.0;
                let (x, y) = (line.baseline[0].x, line.baseline[0].y);
                println!(
                    "line {} contrast {:.2} size {size:.2} length {long:.1} words {} at {x:.0} {y:.0} {}",
                    u8::from(*right),
                    line.contrast,
                    line.words.len(),
                    page.file
                );
            }
        }
        println!(
            "{:70} recall {:3}/{:3} precision {:3}/{:3}  x {:5.1} words {}/{} off {}  {:.0} ms",
            &page.file[page.file.len().saturating_sub(70)..],
            score.found_lines,
            score.true_lines,
            score.right_lines,
            score.given_lines,
            layout.x_height.map_or(0.0, |p| p.0),
            score.given_words,
            score.true_words,
            score.word_count_off,
            ms
        );
        let mut marked: Vec<f64> = page.lines.iter().filter_map(|l| l.x_height).collect();
        marked.sort_by(f64::total_cmp);
        if let (Some(x_height), Some(text)) = (layout.x_height, marked.get(marked.len() / 2)) {
            text_sizes.push(x_height.0 / text);
        }
        let set = page.file.split('/').next().unwrap().to_owned();
        sets.entry(set).or_default().add(&score);
        sets.entry("~ all".to_owned()).or_default().add(&score);
    }
    for (name, mut s) in sets {
        s.apart.sort_by(f64::total_cmp);
        s.size.sort_by(f64::total_cmp);
        let median = |v: &[f64]| v.get(v.len() / 2).copied().unwrap_or(0.0);
        println!(
            "{name:24} recall {:.3} precision {:.3} lines {}; baseline {:.3} x; size {:+.3} ({}); words {}/{} off {}; spaces recall {:.3} precision {:.3}",
            s.recall(),
            s.precision(),
            s.true_lines,
            median(&s.apart),
            median(&s.size),
            s.size.len(),
            s.given_words,
            s.true_words,
            s.word_count_off,
            s.found_spaces as f64 / s.true_spaces.max(1) as f64,
            s.found_spaces as f64 / s.given_spaces.max(1) as f64
        );
    }
    text_sizes.sort_by(f64::total_cmp);
    println!("x-heights of pages over those of their text: {text_sizes:.2?}");
}
