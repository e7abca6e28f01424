//! Runs Reglet and the yardstick on the same pairs, one after the other, and keeps all they said.

mod decoding;
pub(crate) mod process;
pub(crate) mod reglet;
mod yardstick;

use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

use anyhow::Context as _;
use evidence::Verdict;
use serde::{Deserialize, Serialize};

use super::answer::{Answer, Outcome};
use super::pair::{Pair, Truth, read_json, write_json};
use super::set::{Set, root};
use reglet::Reglet;
pub(super) use yardstick::Yardstick;

/// What to run.
#[derive(Debug)]
pub(crate) struct Wanted {
    /// The set.
    pub set: Set,
    /// The folder of the benchmark.
    pub out: PathBuf,
    /// Only pairs with these numbers.
    pub only: Option<Range<usize>>,
    /// Only pairs whose truth is this.
    pub verdict: Option<Verdict>,
    /// Pairs at a time; more than one makes the seconds worthless.
    pub jobs: usize,
    /// Without the yardstick.
    pub alone: bool,
}

/// A run as it is kept.
#[derive(Debug, Serialize, Deserialize)]
pub(crate) struct Results {
    /// The set.
    pub set: Set,
    /// The commit that Reglet was built from, and whether files had been changed since.
    pub commit: String,
    /// The processor, the cores, and the load before and after.
    pub machine: String,
    /// Pairs at a time.
    pub jobs: usize,
    /// One a pair, by number.
    pub outcomes: Vec<Outcome>,
}

/// The file of results: a run over part of a set is kept apart from one over all of it.
pub(crate) fn results_file(folder: &Path, part: bool) -> PathBuf {
    folder.join(if part { "results-part.json" } else { "results.json" })
}

/// Runs what is wanted, writes the results, and gives them.
pub(crate) fn run(wanted: &Wanted) -> anyhow::Result<Results> {
    let folder = wanted.set.folder(&wanted.out);
    let pairs_file = folder.join("pairs.json");
    let all: Vec<Pair> = read_json(&pairs_file)
        .with_context(|| format!("make the set first: cargo xtask bench make --set {}", wanted.set.name()))?;
    let pairs: Vec<Pair> = all
        .iter()
        .filter(|p| wanted.only.as_ref().is_none_or(|only| only.contains(&p.number)))
        .filter(|p| wanted.verdict.is_none_or(|v| v == p.verdict))
        .cloned()
        .collect();
    anyhow::ensure!(!pairs.is_empty(), "no pair of the set is wanted");
    let part = pairs.len() < all.len();
    let reglet = Reglet::build(&folder.join("said"))?;
    let load_before = load();

    let next = AtomicUsize::new(0);
    let done = Mutex::new(Vec::with_capacity(pairs.len()));
    let worker = || -> anyhow::Result<()> {
        let mut yardstick = if wanted.alone { None } else { Some(Yardstick::start(&root())?) };
        while let Some(pair) = pairs.get(next.fetch_add(1, Ordering::Relaxed)) {
            let outcome = judge(pair, &folder, &reglet, yardstick.as_mut())?;
            tell(&outcome);
            done.lock().map_err(|_| anyhow::anyhow!("another worker failed"))?.push(outcome);
        }
        Ok(())
    };
    std::thread::scope(|scope| {
        let workers: Vec<_> = (0..wanted.jobs.max(1)).map(|_| scope.spawn(worker)).collect();
        workers.into_iter().try_for_each(|w| w.join().map_err(|_| anyhow::anyhow!("a worker panicked"))?)
    })?;

    let mut outcomes = done.into_inner().map_err(|_| anyhow::anyhow!("a worker failed"))?;
    outcomes.sort_by_key(|o| o.pair.number);
    let machine = format!("{}; load {load_before} before, {} after", machine(), load());
    let results = Results { set: wanted.set, commit: commit(), machine, jobs: wanted.jobs.max(1), outcomes };
    write_json(&results_file(&folder, part), &results)?;
    Ok(results)
}

/// Both tools on one pair; which goes first alternates.
fn judge(
    pair: &Pair,
    folder: &Path,
    reglet: &Reglet,
    yardstick: Option<&mut Yardstick>,
) -> anyhow::Result<Outcome> {
    let (a, b) = (folder.join(&pair.a), folder.join(&pair.b));
    let truth: Option<Truth> = pair.truth.as_ref().map(|t| read_json(&folder.join(t))).transpose()?;
    let points = truth.map(|t| t.points).unwrap_or_default();
    let bare = decoding::time(&a, &b)?;
    let by_yardstick = |y: &mut Yardstick| y.judge((&a, &b), (pair.ppi_a, pair.ppi_b), &points);
    let by_reglet = || reglet.judge(pair.number, &a, &b, &points);
    let (said, yardstick): (Answer, Option<Answer>) = match yardstick {
        None => (by_reglet()?, None),
        Some(y) if pair.number.is_multiple_of(2) => {
            let said = by_reglet()?;
            (said, Some(by_yardstick(y)?))
        }
        Some(y) => {
            let other = by_yardstick(y)?;
            (by_reglet()?, Some(other))
        }
    };
    Ok(Outcome {
        pair: pair.clone(),
        reglet: said,
        yardstick,
        decode_seconds: bare.seconds,
        larger_pixels: bare.larger_pixels,
        smaller_pixels: bare.smaller_pixels,
    })
}

/// A line on the terminal for a pair that is done.
fn tell(o: &Outcome) {
    let told = |a: &Answer| match (&a.verdict, &a.error) {
        (Some(v), _) if o.pair.is_wrong(*v) => format!("{} (WRONG)", v.code()),
        (Some(v), _) => v.code().to_owned(),
        (None, why) => format!("failed: {}", why.as_deref().unwrap_or("no verdict")),
    };
    let other = o
        .yardstick
        .as_ref()
        .map_or(String::new(), |y| format!(" | yardstick {} {:.2} s", told(y), y.seconds));
    eprintln!(
        "{:>4} {:<40} {} {:.2} s{other}",
        o.pair.number,
        o.pair.name,
        told(&o.reglet),
        o.reglet.seconds
    );
}

/// The commit at hand, with a mark when files differ from it.
pub(crate) fn commit() -> String {
    let git = |args: &[&str]| {
        let out = std::process::Command::new("git").args(args).current_dir(root()).output().ok()?;
        out.status.success().then(|| String::from_utf8_lossy(&out.stdout).trim().to_owned())
    };
    let hash = git(&["rev-parse", "--short", "HEAD"]).unwrap_or_else(|| "unknown".to_owned());
    let changed = git(&["status", "--porcelain", "--untracked-files=no"]).is_some_and(|s| !s.is_empty());
    if changed { format!("{hash} with changes") } else { hash }
}

/// The processor and its cores.
pub(crate) fn machine() -> String {
    let info = std::fs::read_to_string("/proc/cpuinfo").unwrap_or_default();
    let model = info
        .lines()
        .find_map(|l| l.strip_prefix("model name"))
        .map(|l| l.trim_start_matches([' ', '\t', ':']));
    let cores = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    format!("{}, {cores} cores", model.unwrap_or("unknown processor"))
}

/// Load of the last minute.
fn load() -> String {
    let text = std::fs::read_to_string("/proc/loadavg").unwrap_or_default();
    text.split_whitespace().next().unwrap_or("unknown").to_owned()
}
