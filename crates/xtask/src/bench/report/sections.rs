//! The tables of a set.

use std::collections::BTreeMap;

use evidence::Verdict;

use super::summary::{CHANGES_PPI, Scored, Share, Summary, summary};
use super::table::{Table, number, rate, share};
use crate::bench::score::{median, quantile};

/// A tool with its answers.
#[derive(Debug)]
pub(crate) struct Tool<'a> {
    /// Its name in the tables.
    pub name: &'static str,
    /// Its answers, by pair.
    pub scored: Vec<Scored<'a>>,
}

/// A line of the main table: what, what must be reached, and how it is read from the figures.
type Figure = (&'static str, &'static str, fn(&Summary) -> String);

/// Median and largest, or dashes.
fn middle_and_most(values: &[f64], places: usize) -> String {
    format!("{} / {}", number(median(values), places), number(quantile(values, 1.0), places))
}

/// Pixels: median and 95th percentile.
fn middle_and_95(pair: Option<(f64, f64)>) -> String {
    format!("{} / {}", number(pair.map(|p| p.0), 3), number(pair.map(|p| p.1), 3))
}

/// The figures of DESIGN §5, in its order.
const FIGURES: [Figure; 22] = [
    ("pairs", "", |s| s.confusion.all().to_string()),
    ("failures", "0", |s| s.failed.to_string()),
    ("verdicts that are wrong", "0", |s| share(s.wrong)),
    ("undetermined, of pairs of sound photographs", "2 %", |s| share(s.undetermined)),
    ("one setting: with for without differences, or the reverse", "1 %", |s| share(s.differences_wrong)),
    ("changes found, of those that can be judged (≥ 250 ppi)", "0.98", |s| rate(s.changes)),
    ("the same, doubtful places counted", "", |s| rate(s.changes_or_doubtful)),
    ("false places on so many sides (≥ 250 ppi)", "1 on 50", |s| {
        format!("{} on {} (on {} sides)", s.false_places.some, s.false_places.of, s.sides_with_false.some)
    }),
    ("partly reset: lines set again that were found", "", |s| rate(s.reset_lines)),
    ("lines that stood, said to be set again", "", |s| share(s.false_resets)),
    ("calibration cost Cllr, bits", "0.05", |s| number(s.cllr.filter(|_| s.has_weights), 3)),
    ("its least value after recalibration", "", |s| number(s.cllr_min, 3)),
    ("placement error, px of A: median / 95th percentile", "0.1 / 0.4", |s| middle_and_95(s.placement())),
    ("sealed points placed", "", |s| share(s.placed)),
    ("residual in one setting (≥ 300 ppi), mm: median / largest", "0.020 / –", |s| {
        middle_and_most(&s.residuals_mm, 4)
    }),
    ("planted respacing seen: median share, lines", "0.90", |s| {
        format!("{} ({} of {})", number(median(&s.recovered), 3), s.respaced.some, s.respaced.of)
    }),
    ("wall seconds a pair: median / largest", "", |s| middle_and_most(&s.seconds, 2)),
    ("processor seconds a pair: median / largest", "", |s| middle_and_most(&s.cpu_seconds, 2)),
    ("times the bare decoding of both: median", "5", |s| number(median(&s.over_decoding), 1)),
    ("two of about 8 megapixels, wall seconds: median / largest", "", |s| {
        middle_and_most(&s.seconds_8_mp, 2)
    }),
    ("two of about 8 megapixels, times the bare decoding: median", "5", |s| {
        number(median(&s.over_decoding_8_mp), 1)
    }),
    ("largest memory, bytes a pixel of the larger: median / largest", "24", |s| {
        middle_and_most(&s.bytes_a_pixel, 1)
    }),
];

/// The main table, and how many times faster the first tool is.
pub(crate) fn figures(tools: &[Tool<'_>]) -> String {
    let sums: Vec<Summary> = tools.iter().map(|t| summary(&t.scored)).collect();
    let mut table = Table::new(["what", "reach"].into_iter().chain(tools.iter().map(|t| t.name)));
    for (what, reach, read) in FIGURES {
        table.row([what.to_owned(), reach.to_owned()].into_iter().chain(sums.iter().map(read)));
    }
    match &sums[..] {
        [first, second] => format!("{}{}", table.markdown(), how_much_faster(tools[0].name, first, second)),
        _ => table.markdown(),
    }
}

/// A sentence on the seconds of the first tool against those of the second.
fn how_much_faster(name: &str, first: &Summary, second: &Summary) -> String {
    let times = |a: &[f64], b: &[f64]| {
        let ratios: Vec<f64> = a.iter().zip(b).map(|(a, b)| b / a).collect();
        number(median(&ratios), 1)
    };
    format!(
        "{name} is {} times as fast as the yardstick (median of the ratios of wall seconds; of processor seconds: {}; \
         for two photographs of about 8 megapixels, wall: {}).\n\n",
        times(&first.seconds, &second.seconds),
        times(&first.cpu_seconds, &second.cpu_seconds),
        times(&first.seconds_8_mp, &second.seconds_8_mp),
    )
}

/// Verdicts told over verdicts true.
pub(crate) fn confusion(tool: &Tool<'_>) -> String {
    let s = summary(&tool.scored).confusion;
    let told = Verdict::ALL.into_iter().map(Some).chain([None]);
    let name = |v: Option<Verdict>| v.map_or("failed", Verdict::code);
    let mut table = Table::new(["truth"].into_iter().chain(told.clone().map(name)));
    for truth in Verdict::ALL.into_iter().filter(|&v| s.of(v) > 0) {
        let cell = |v: Option<Verdict>| match s.times(truth, v) {
            0 => "·".to_owned(),
            n => n.to_string(),
        };
        table.row([truth.code().to_owned()].into_iter().chain(told.clone().map(cell)));
    }
    format!("Verdicts of {} (across) over the truth (down):\n\n{}", tool.name, table.markdown())
}

/// The figures that change with difficulty, for one tool; groups as they are named.
pub(crate) fn by_group(tool: &Tool<'_>, head: &str, group: impl Fn(&Scored<'_>) -> Option<String>) -> String {
    let mut groups: BTreeMap<String, Vec<Scored<'_>>> = BTreeMap::new();
    for one in &tool.scored {
        if let Some(name) = group(one) {
            groups.entry(name).or_default().push(*one);
        }
    }
    let mut table = Table::new([
        head,
        "pairs",
        "wrong",
        "failed or undetermined",
        "with / without wrong",
        "changes found",
        "false places (sides)",
        "placement, px: median / 95 %",
        "residual, mm",
        "Cllr",
        "seconds",
    ]);
    for (name, scored) in groups {
        let s = summary(&scored);
        let silent =
            scored.iter().filter(|o| o.answer.verdict.is_none_or(|v| v == Verdict::Undetermined)).count();
        table.row([
            name,
            s.confusion.all().to_string(),
            s.wrong.some.to_string(),
            silent.to_string(),
            share(s.differences_wrong),
            rate(s.changes),
            format!("{} ({})", s.false_places.some, s.false_places.of),
            middle_and_95(s.placement()),
            number(median(&s.residuals_mm), 4),
            number(s.cllr.filter(|_| s.has_weights), 3),
            number(median(&s.seconds), 2),
        ]);
    }
    format!("{}, by {head}:\n\n{}", tool.name, table.markdown())
}

/// The group of a pair's resolution, both photographs known.
pub(crate) fn resolution(one: &Scored<'_>) -> Option<String> {
    let lower = one.pair.lower_ppi()?;
    let band = match lower {
        p if p < 200.0 => "lower one under 200 ppi",
        p if p < CHANGES_PPI => "lower one 200 to 250 ppi",
        p if p < 350.0 => "lower one 250 to 350 ppi",
        _ => "lower one 350 ppi and more",
    };
    Some(band.to_owned())
}

/// Every pair that was told a wrong verdict, failed, or was mistaken about differences.
pub(crate) fn failures(tool: &Tool<'_>) -> String {
    let mut table = Table::new(["pair", "what", "truth", "told", "weight", "level", "ppi"]);
    for one in &tool.scored {
        let (pair, told) = (one.pair, one.answer.verdict);
        if told.is_some_and(|v| !pair.is_wrong(v)) {
            continue;
        }
        let told = match told {
            Some(v) => v.code().to_owned(),
            None => one.answer.error.as_deref().unwrap_or("failed").replace(['|', '\n'], " "),
        };
        table.row([
            pair.number.to_string(),
            pair.name.clone(),
            pair.verdict.code().to_owned(),
            told,
            number(one.answer.weight_log10, 1),
            pair.level.map_or_else(|| "–".to_owned(), |l| l.to_string()),
            format!("{} / {}", number(pair.ppi_a, 0), number(pair.ppi_b, 0)),
        ]);
    }
    let body = table.markdown();
    if body.is_empty() {
        return format!("No verdict of {} is wrong.\n\n", tool.name);
    }
    format!("Wrong verdicts and failures of {}:\n\n{body}", tool.name)
}

/// How many of the failures are of which truth, for a tool whose list would be long.
pub(crate) fn failures_counted(tool: &Tool<'_>) -> String {
    let s = summary(&tool.scored);
    let list: Vec<String> = s.wrong_pairs.iter().map(usize::to_string).collect();
    let share = share(Share { some: s.wrong.some, of: s.wrong.of });
    format!("{}: {share} wrong; pairs {}.\n\n", tool.name, list.join(", "))
}

/// Verdicts by the kind of a real pair.
pub(crate) fn by_kind(tool: &Tool<'_>) -> String {
    let mut kinds: BTreeMap<&str, Vec<&Scored<'_>>> = BTreeMap::new();
    for one in &tool.scored {
        kinds.entry(&one.pair.kind).or_default().push(one);
    }
    let told = || Verdict::ALL.into_iter().map(Some).chain([None]);
    let heads = told().map(|v| v.map_or("failed", Verdict::code));
    let mut table = Table::new(["kind", "pairs", "wrong"].into_iter().chain(heads).chain(["residual, px"]));
    for (kind, scored) in kinds {
        let wrong = scored.iter().filter(|o| o.answer.verdict.is_some_and(|v| o.pair.is_wrong(v))).count();
        let times = |v: Option<Verdict>| match scored.iter().filter(|o| o.answer.verdict == v).count() {
            0 => "·".to_owned(),
            n => n.to_string(),
        };
        let residuals: Vec<f64> = scored.iter().filter_map(|o| o.answer.residual_px).collect();
        let first = [kind.to_owned(), scored.len().to_string(), wrong.to_string()];
        table.row(first.into_iter().chain(told().map(times)).chain([number(median(&residuals), 3)]));
    }
    format!("{}, by kind of pair:\n\n{}", tool.name, table.markdown())
}
