//! The tables of what was found and told of damage.

use evidence::block::{DamageClass, Shows};
use press::block::DamageClass as TrueClass;

use super::Outcome;
use super::truth::Truly;
use crate::bench::report::table::Table;

/// Sizes that are told apart, mm: about those for which figures are asked (DESIGN §5), and beyond.
const SIZES: [(&str, f64, f64); 6] = [
    ("0 to 0.25", 0.0, 0.25),
    ("0.25 to 0.4", 0.25, 0.4),
    ("0.4 to 0.7", 0.4, 0.7),
    ("0.7 to 1.5", 0.7, 1.5),
    ("from 1.5", 1.5, f64::MAX),
    ("all", 0.0, f64::MAX),
];

/// All tables.
pub(super) fn tables(outcomes: &[Outcome], title: &str, made_by: &str) -> String {
    let all: Vec<&Outcome> = outcomes.iter().collect();
    let sound: Vec<&Outcome> = outcomes.iter().filter(|o| o.is_sound()).collect();
    let mut text = format!("### Damage: {title}\n\n{} histories; {made_by}.\n\n", outcomes.len());
    text += &by_size(&sound, "300 ppi and more, levels 0 to 2");
    text += &by_size(&all, "all");
    text += &cells(&all);
    text += &classes(&all);
    text += &orders(&all);
    text
}

impl Outcome {
    fn is_sound(&self) -> bool {
        let h = &self.planned.history;
        h.level <= 2 && h.ppi.iter().all(|p| p.0 >= 300.0)
    }
}

fn share(n: usize, of: usize) -> String {
    if of == 0 { "–".to_owned() } else { format!("{:.3} ({n} of {of})", n as f64 / of as f64) }
}

/// What was found, and how much of what was told is there, by true size; false ones by the size that was told.
fn by_size(some: &[&Outcome], which: &str) -> String {
    let which = format!("{which}: {} histories, size in mm", some.len());
    let mut table = Table::new([which.as_str(), "found", "told that are there", "can be judged somewhere"]);
    for (name, low, high) in SIZES {
        let row = Row::of(some, |mm| mm >= low && mm < high);
        let figures = [(row.found, row.wanted), (row.right, row.told), (row.judgeable, row.all)];
        table.row(std::iter::once(name.to_owned()).chain(figures.map(|(n, of)| share(n, of))));
    }
    table.markdown()
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
                if size(mm) && !o.on_altered[k] {
                    row.told += 1;
                    row.right += usize::from(o.on[k].is_some());
                }
            }
        }
        row
    }
}

/// What was said of single impressions, of damage that was found.
fn cells(some: &[&Outcome]) -> String {
    let mut counts = [[0usize; 3]; 2];
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
                counts[row][column] += 1;
            }
        }
    }
    let mut table =
        Table::new(["of damage found, an impression that", "told to show it", "told whole", "unclear"]);
    for (name, row) in ["shows it", "shows the wood whole"].into_iter().zip(counts) {
        let of = row.iter().sum();
        table.row([name.to_owned(), share(row[0], of), share(row[1], of), share(row[2], of)]);
    }
    table.markdown()
}

/// What damage that was found was called.
fn classes(some: &[&Outcome]) -> String {
    let truly = [
        ("a break", &[TrueClass::Break][..]),
        ("a break of the frame", &[TrueClass::FrameBreak]),
        ("a crack", &[TrueClass::Crack]),
        ("a wormhole", &[TrueClass::Wormhole]),
        ("a chip or a lost corner", &[TrueClass::Chip, TrueClass::LostCorner]),
    ];
    let mut table = Table::new(std::iter::once("called").chain(DamageClass::ALL.map(DamageClass::name)));
    for (name, of) in truly {
        let mut row = [0usize; 6];
        for o in some {
            for (told, on) in o.told.iter().zip(&o.on) {
                if on.is_some_and(|i| of.contains(&o.truth[i].class)) {
                    let at = DamageClass::ALL.iter().position(|c| *c == told.class);
                    row[at.unwrap_or(0)] += 1;
                }
            }
        }
        table.row(std::iter::once(name.to_owned()).chain(row.iter().map(usize::to_string)));
    }
    table.markdown()
}

/// How well impressions are ordered by the damage that was told, and how long it took.
fn orders(some: &[&Outcome]) -> String {
    let mut table = Table::new([
        "impressions",
        "histories",
        "tau of the order, mean",
        "without an order",
        "s an impression, median",
    ]);
    for (name, least, most) in [("2", 2, 2), ("3 to 4", 3, 4), ("5 to 6", 5, 6), ("8 to 12", 8, 12)] {
        let of: Vec<&&Outcome> =
            some.iter().filter(|o| (least..=most).contains(&o.planned.history.impressions)).collect();
        let tau: Vec<f64> = of.iter().filter_map(|o| o.tau).collect();
        let mean = tau.iter().sum::<f64>() / tau.len().max(1) as f64;
        let mut seconds: Vec<f64> =
            of.iter().map(|o| o.seconds / o.planned.history.impressions as f64).collect();
        seconds.sort_by(f64::total_cmp);
        let median = seconds.get(seconds.len() / 2).copied().unwrap_or_default();
        table.row([
            name.to_owned(),
            of.len().to_string(),
            format!("{mean:.3}"),
            (of.len() - tau.len()).to_string(),
            format!("{median:.2}"),
        ]);
    }
    table.markdown()
}
