//! The tables of what was found and told of damage.

use std::fmt::Write as _;

use evidence::block::Shows;

use super::Outcome;
use super::truth::Truly;

/// Sizes that are told apart, mm.
const SIZES: [(f64, f64); 5] = [(0.0, 0.25), (0.25, 0.4), (0.4, 0.7), (0.7, 1.5), (1.5, 1000.0)];

/// The tables of some histories.
pub(super) fn table(outcomes: &[Outcome]) -> String {
    let mut out = String::new();
    let sets: [(&str, &dyn Fn(&Outcome) -> bool); 3] = [
        ("all", &|_| true),
        ("300 ppi and more, levels 0 to 2", &|o| is_sound(o)),
        ("two impressions", &|o| o.planned.history.impressions == 2),
    ];
    for (name, wanted) in sets {
        let some: Vec<&Outcome> = outcomes.iter().filter(|o| wanted(o)).collect();
        writeln!(out, "\n{name}: {} histories", some.len()).ok();
        writeln!(out, "| size, mm | recall | precision | judgeable |").ok();
        writeln!(out, "| --- | --- | --- | --- |").ok();
        for (low, high) in SIZES {
            let row = Row::of(&some, |mm| mm >= low && mm < high);
            writeln!(out, "| {low} to {high} | {} |", row.words()).ok();
        }
        writeln!(out, "| all | {} |", Row::of(&some, |_| true).words()).ok();
        let cells = cells(&some);
        writeln!(
            out,
            "cells: present told present {}, absent {}, unclear {}; absent told absent {}, present {}, unclear {}",
            cells[0][0], cells[0][1], cells[0][2], cells[1][1], cells[1][0], cells[1][2]
        )
        .ok();
        let mut seconds: Vec<f64> =
            some.iter().map(|o| o.seconds / o.planned.history.impressions as f64).collect();
        seconds.sort_by(f64::total_cmp);
        if let Some(s) = seconds.get(seconds.len() / 2) {
            writeln!(out, "seconds an impression, median: {s:.2}").ok();
        }
    }
    out
}

fn is_sound(o: &Outcome) -> bool {
    let h = &o.planned.history;
    h.level <= 2 && h.ppi.iter().all(|p| p.0 >= 300.0)
}

struct Row {
    found: usize,
    wanted: usize,
    right: usize,
    told: usize,
    judgeable: usize,
    all: usize,
}

impl Row {
    fn of(some: &[&Outcome], size: impl Fn(f64) -> bool) -> Self {
        let mut row = Self { found: 0, wanted: 0, right: 0, told: 0, judgeable: 0, all: 0 };
        for o in some {
            for (i, d) in o.truth.iter().enumerate().filter(|(_, d)| size(d.size_mm)) {
                row.all += 1;
                row.judgeable += usize::from(d.truly.iter().any(|t| *t != Truly::Untold));
                if d.is_told() {
                    row.wanted += 1;
                    row.found += usize::from(o.on.contains(&Some(i)));
                }
            }
            for (k, d) in o.told.iter().enumerate() {
                let mm = o.on[k].map_or(d.size_mm.unwrap_or(0.0), |i| o.truth[i].size_mm);
                if !size(mm) || o.on_altered[k] {
                    continue;
                }
                row.told += 1;
                row.right += usize::from(o.on[k].is_some());
            }
        }
        row
    }

    fn words(&self) -> String {
        let share = |n: usize, of: usize| {
            if of == 0 { "–".to_owned() } else { format!("{:.3} ({n} of {of})", n as f64 / of as f64) }
        };
        format!(
            "{} | {} | {}",
            share(self.found, self.wanted),
            share(self.right, self.told),
            share(self.judgeable, self.all)
        )
    }
}

/// What was said of cells of damages that were found, by what is true: present and absent, as present, absent, unclear.
fn cells(some: &[&Outcome]) -> [[usize; 3]; 2] {
    let mut out = [[0; 3]; 2];
    for o in some {
        for (told, on) in o.told.iter().zip(&o.on) {
            let Some(truth) = on.map(|i| &o.truth[i]) else { continue };
            for seen in &told.seen {
                let row = match truth.truly[seen.impression] {
                    Truly::Present => 0,
                    Truly::Absent => 1,
                    Truly::Untold => continue,
                };
                let column = match seen.shows {
                    Shows::Present => 0,
                    Shows::Absent => 1,
                    Shows::Unclear => 2,
                };
                out[row][column] += 1;
            }
        }
    }
    out
}
