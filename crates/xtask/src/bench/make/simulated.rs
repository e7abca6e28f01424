//! Prints the pairs of a simulated set, those that are not there.

use std::path::{Path, PathBuf};

use anyhow::Context as _;
use press::Founts;
use press::scenario::PrintedPair;
use rayon::prelude::*;
use serde::{Deserialize, Serialize};

use super::Wanted;
use super::plan::{Kept, Planned, plan};
use super::truth::{sound, truth, verdicts};
use crate::bench::pair::{Pair, Truth, read_json, write_json};
use crate::bench::press_tree::{press_tree, prints_the_same};

/// What the photographs in a folder were made from.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
struct Made {
    /// The press that printed them: the git tree of its crate, and "changed" when files differ from it.
    press: String,
    /// The pairs.
    plan: Vec<Planned>,
    /// Their entries in the set.
    pairs: Vec<Pair>,
}

/// The pairs of the set. A pair that was made by this press from the same plan is not printed again,
/// unless it is wanted again.
pub(super) fn pairs(wanted: &Wanted, folder: &Path) -> anyhow::Result<Vec<Pair>> {
    let press = press_tree();
    let file = folder.join("made.json");
    let old = read_json::<Made>(&file).ok().filter(|m| !wanted.again && prints_the_same(&m.press, &press));
    let founts = Founts::open().context("the founts of the press do not open")?;
    let mut plan = plan(wanted.set, wanted.pairs);
    plan.retain(|p| !wanted.one_setting || p.of_one_setting());
    let pairs = plan
        .par_iter()
        .map(|planned| {
            let kept = old.as_ref().and_then(|m| {
                let i = m.plan.iter().position(|p| p == planned)?;
                m.pairs.get(i).filter(|p| folder.join(&p.a).exists() && folder.join(&p.b).exists())
            });
            kept.map_or_else(|| print(planned, &founts, folder), |p| Ok(p.clone()))
        })
        .collect::<anyhow::Result<Vec<Pair>>>()?;
    write_json(&file, &Made { press, plan, pairs: pairs.clone() })?;
    Ok(pairs)
}

/// Prints a pair and writes its photographs and its truth.
fn print(planned: &Planned, founts: &Founts, folder: &Path) -> anyhow::Result<Pair> {
    let Planned { number, scenario, kept } = planned;
    let printed = scenario.print(founts).with_context(|| format!("pair {number} cannot be printed"))?;
    let [a, b] = [("a", &printed.a, kept[0]), ("b", &printed.b, kept[1])].map(|(side, pull, kept)| {
        let (bytes, extension) = match kept {
            Kept::Jpeg { quality, tag } => (pull.picture.to_jpeg(quality, tag.map(sheet::Ppi))?, "jpg"),
            Kept::Png => (pull.picture.to_png()?, "png"),
        };
        let name = PathBuf::from(format!("{number:03}-{side}.{extension}"));
        std::fs::write(folder.join(&name), bytes)?;
        anyhow::Ok(name)
    });
    let known = truth(&printed);
    let name = PathBuf::from(format!("{number:03}-truth.json"));
    write_json(&folder.join(&name), &known)?;
    Ok(entry(planned, &printed, &known, [a?, b?], name))
}

/// The entry of a pair in the set.
fn entry(
    planned: &Planned,
    printed: &PrintedPair,
    known: &Truth,
    [a, b]: [PathBuf; 2],
    file: PathBuf,
) -> Pair {
    let (verdict, right) = verdicts(printed, known);
    let scenario = &planned.scenario;
    let kind = format!("{:?}", scenario.kind);
    let care = printed.truth.care.map_or(String::new(), |c| format!(", {c:?}"));
    Pair {
        number: planned.number,
        name: format!(
            "{kind}{care}, level {}, {}/{} ppi",
            scenario.level, scenario.ppi_a.0, scenario.ppi_b.0
        ),
        a,
        b,
        ppi_a: Some(scenario.ppi_a.0),
        ppi_b: Some(scenario.ppi_b.0),
        verdict,
        right,
        kind: format!("{kind}{care}"),
        level: Some(scenario.level),
        sound: Some(sound(printed)),
        truth: Some(file),
    }
}
