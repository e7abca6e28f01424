//! Writes what a run found into the page of benchmarks, between the marks of its set.

mod reliability;
mod sections;
mod summary;
pub(crate) mod table;

use std::path::Path;

use anyhow::Context as _;

use super::answer::Outcome;
use super::pair::{Truth, read_json};
use super::run::{Results, results_file};
use super::set::{Set, root};
use sections::Tool;
use summary::Scored;
pub(crate) use summary::{Share, rect};

/// The page.
const PAGE: &str = "docs/benchmarks.md";

/// Reads the results of a set and gives the tables; a whole run also goes into the page, with its plot.
pub(crate) fn report(set: Set, out: &Path, part: bool) -> anyhow::Result<String> {
    let folder = set.folder(out);
    let results: Results = read_json(&results_file(&folder, part))
        .with_context(|| format!("run the set first: cargo xtask bench run --set {}", set.name()))?;
    let truths = truths(&folder, &results.outcomes)?;
    let tools = tools(&results.outcomes, &truths);
    let mut text = tables(set, &results, &tools);
    if !part {
        let weights = summary::summary(&tools[0].scored).weights;
        if let Some(svg) = reliability::plot(&weights, set.label().trim_end_matches('*')) {
            let file = format!("reliability-{}.svg", set.name());
            std::fs::write(root().join("docs").join(&file), svg)
                .with_context(|| format!("cannot write docs/{file}"))?;
            let alt = format!("Weights stated against weights supported, {}", set.name());
            text = format!("{text}![{alt}]({file})\n\n");
        }
        write_between_marks(set.name(), &text)?;
    }
    Ok(text)
}

/// Writes a text into the page between the marks of this name.
pub(crate) fn write_between_marks(name: &str, text: &str) -> anyhow::Result<()> {
    let path = root().join(PAGE);
    let page = std::fs::read_to_string(&path).unwrap_or_else(|_| "# Benchmarks\n".to_owned());
    std::fs::write(&path, placed(&page, name, text)).with_context(|| format!("cannot write {PAGE}"))
}

/// The truth of every pair that has one.
fn truths(folder: &Path, outcomes: &[Outcome]) -> anyhow::Result<Vec<Option<Truth>>> {
    outcomes.iter().map(|o| o.pair.truth.as_ref().map(|t| read_json(&folder.join(t))).transpose()).collect()
}

/// Reglet, and the yardstick when it ran on every pair.
fn tools<'a>(outcomes: &'a [Outcome], truths: &'a [Option<Truth>]) -> Vec<Tool<'a>> {
    let scored = |pick: fn(&Outcome) -> Option<&super::answer::Answer>| -> Option<Vec<Scored<'a>>> {
        let both = outcomes.iter().zip(truths);
        both.map(|(outcome, truth)| {
            Some(Scored { pair: &outcome.pair, answer: pick(outcome)?, truth: truth.as_ref(), outcome })
        })
        .collect()
    };
    let named = [("Reglet", scored(|o| Some(&o.reglet))), ("yardstick", scored(|o| o.yardstick.as_ref()))];
    named.into_iter().filter_map(|(name, scored)| Some(Tool { name, scored: scored? })).collect()
}

/// All tables of a set.
fn tables(set: Set, results: &Results, tools: &[Tool<'_>]) -> String {
    let mut text = format!(
        "### {}\n\n{} pairs; Reglet of commit {}; {}; {} at a time.\n\n",
        set.label(),
        results.outcomes.len(),
        results.commit,
        results.machine,
        results.jobs,
    );
    text += &sections::figures(tools);
    for tool in tools {
        text += &sections::confusion(tool);
    }
    let reglet = &tools[0];
    if set == Set::Real {
        for tool in tools {
            text += &sections::by_kind(tool);
        }
    } else {
        for tool in tools {
            text += &sections::by_group(tool, "level", |o| Some(o.pair.level?.to_string()));
        }
        text += &sections::by_group(reglet, "resolution", sections::resolution);
        text += &sections::by_group(reglet, "kind", |o| Some(o.pair.kind.clone()));
    }
    text += &sections::failures(reglet);
    if let [_, yardstick] = tools {
        text += &sections::failures_counted(yardstick);
    }
    text
}

/// The page with the text between the marks of the set; the marks are added at the end of a page
/// that lacks them.
fn placed(page: &str, set: &str, text: &str) -> String {
    let (open, close) = (format!("<!-- bench:{set} -->"), format!("<!-- /bench:{set} -->"));
    let between = format!("{open}\n{}\n{close}", text.trim_end());
    match (page.find(&open), page.find(&close)) {
        (Some(from), Some(to)) if from < to => {
            format!("{}{between}{}", &page[..from], &page[to + close.len()..])
        }
        _ => format!("{}\n\n{between}\n", page.trim_end()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prose_about_the_tables_stays() {
        let page = placed("# Benchmarks\n\nProse.\n", "dev", "one\n\n");
        assert_eq!(page, "# Benchmarks\n\nProse.\n\n<!-- bench:dev -->\none\n<!-- /bench:dev -->\n");
        let again = placed(&format!("{page}\nMore prose.\n"), "dev", "two");
        assert!(again.contains("two") && !again.contains("one\n<") && again.ends_with("More prose.\n"));
        let both = placed(&again, "sealed", "three");
        assert!(both.contains("two\n<!-- /bench:dev -->") && both.contains("three"));
    }
}
