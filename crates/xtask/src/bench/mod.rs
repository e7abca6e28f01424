//! The benchmark: pairs with known truth, Reglet and the yardstick on the same pairs, and the table
//! of what must be reached (DESIGN §5).

mod answer;
mod blocks;
mod boxed;
mod damage;
mod finder;
mod fit;
mod histories;
mod look;
mod make;
mod measure;
mod pair;
mod press_tree;
mod printed;
mod report;
mod run;
mod score;
mod set;
mod studies;

use std::ops::Range;
use std::path::PathBuf;

use clap::Subcommand;
use evidence::Verdict;
use fit::Fitted;
use set::{Set, root};
use sheet::Rect;

/// What to do with the benchmark.
#[derive(Debug, Subcommand)]
pub(crate) enum Task {
    /// Make a set of pairs, unless it is there.
    Make {
        /// The set.
        #[arg(long, value_enum)]
        set: Set,
        /// How many pairs (simulated sets).
        #[arg(long, default_value_t = 240)]
        pairs: usize,
        /// Of these pairs only those of one setting, with and without differences: what `fit changes` goes by.
        #[arg(long)]
        one_setting: bool,
        /// Print all pairs again, also those that are there.
        #[arg(long)]
        again: bool,
        /// Where the sets are kept; `target/bench` unless said otherwise.
        #[arg(long)]
        out: Option<PathBuf>,
    },
    /// Run Reglet and the yardstick on a set.
    Run {
        /// The set.
        #[arg(long, value_enum)]
        set: Set,
        /// Only pairs FROM..TO (TO left out), or one pair.
        #[arg(long, value_parser = numbers)]
        only: Option<Range<usize>>,
        /// Only pairs of which this is the true verdict.
        #[arg(long, value_parser = verdict)]
        verdict: Option<Verdict>,
        /// Pairs at a time; more than one spoils the seconds.
        #[arg(long, default_value_t = 1)]
        jobs: usize,
        /// Without the yardstick.
        #[arg(long)]
        alone: bool,
        /// Where the sets are kept; `target/bench` unless said otherwise.
        #[arg(long)]
        out: Option<PathBuf>,
    },
    /// Draw a pair with what is true of it and what was said of it.
    Look {
        /// The set.
        #[arg(long, value_enum)]
        set: Set,
        /// The pair's number.
        #[arg(long)]
        pair: usize,
        /// The PNG to write.
        #[arg(long)]
        out: PathBuf,
        /// Only this part of the first photograph, at its own size: X,Y,W,H in pixels.
        #[arg(long, value_parser = part)]
        part: Option<Rect>,
        /// What the yardstick said, not Reglet.
        #[arg(long)]
        yardstick: bool,
        /// Where the sets are kept; `target/bench` unless said otherwise.
        #[arg(long)]
        sets: Option<PathBuf>,
    },
    /// Fit what the program weighs by to a set, and write it into the program.
    Fit {
        /// What is fitted.
        what: Fitted,
        /// The set: pairs of one setting for the changes, pairs of one and of two settings for the weight.
        #[arg(long, value_enum)]
        set: Set,
        /// Only print how well they do; the program stays as it is.
        #[arg(long)]
        dry: bool,
        /// Where the sets are kept; `target/bench` unless said otherwise.
        #[arg(long)]
        out: Option<PathBuf>,
    },
    /// Print the tables of a set's last run; of a whole run, write them into docs/benchmarks.md.
    Report {
        /// The set.
        #[arg(long, value_enum)]
        set: Set,
        /// The last run over a part of the set, not over all of it; the page stays as it is.
        #[arg(long)]
        part: bool,
        /// Where the sets are kept; `target/bench` unless said otherwise.
        #[arg(long)]
        out: Option<PathBuf>,
    },
    /// Print pairs of impressions of blocks, lay each together, and tell how the verdicts fare.
    Blocks {
        /// The set: dev, fit or sealed.
        #[arg(long, value_enum)]
        set: Set,
        /// How many pairs.
        #[arg(long, default_value_t = 300)]
        pairs: usize,
        /// Only pairs FROM..TO (TO left out), or one pair.
        #[arg(long, value_parser = numbers)]
        only: Option<Range<usize>>,
        /// A folder for pictures of both inks of each pair together.
        #[arg(long)]
        look: Option<PathBuf>,
        /// Ask the yardstick about the same pairs.
        #[arg(long)]
        yardstick: bool,
        /// Where the sets are kept; `target/bench` unless said otherwise.
        #[arg(long)]
        out: Option<PathBuf>,
    },
    /// Print histories of blocks, look for their damage, and tell how that fares.
    Damage {
        /// The set: dev, fit or sealed.
        #[arg(long, value_enum)]
        set: Set,
        /// How many histories.
        #[arg(long, default_value_t = 100)]
        histories: usize,
        /// Only histories FROM..TO (TO left out), or one.
        #[arg(long, value_parser = numbers)]
        only: Option<Range<usize>>,
        /// Draw what was missed, and what was told that is not there, into this folder.
        #[arg(long)]
        look: Option<PathBuf>,
        /// Where the sets are kept; `target/bench` unless said otherwise.
        #[arg(long)]
        out: Option<PathBuf>,
    },
    /// Print sheets with and without cuts, unless they are there, find the cuts, and print the tables; of a whole run, write
    /// them into docs/benchmarks.md.
    Finder {
        /// The set: dev or sealed.
        #[arg(long, value_enum)]
        set: Set,
        /// How many sheets.
        #[arg(long, default_value_t = 210)]
        sheets: usize,
        /// Only sheets FROM..TO (TO left out), or one sheet.
        #[arg(long, value_parser = numbers)]
        only: Option<Range<usize>>,
        /// Draw the sheets that did not fare well into this folder.
        #[arg(long)]
        look: Option<PathBuf>,
        /// Where the sets are kept; `target/bench` unless said otherwise.
        #[arg(long)]
        out: Option<PathBuf>,
    },
    /// Print sheets, unless they are there, measure each by itself, and print the tables; of a whole run, write them into
    /// docs/benchmarks.md.
    Measure {
        /// The set: dev, sealed, fit (lines to fit to are written, and no tables), or real (how much is told of real pages).
        #[arg(long, value_enum)]
        set: Set,
        /// How many sheets.
        #[arg(long, default_value_t = 150)]
        sheets: usize,
        /// Only sheets FROM..TO (TO left out), or one sheet.
        #[arg(long, value_parser = numbers)]
        only: Option<Range<usize>>,
        /// Draw what was missed, and what was told and is none, into this folder.
        #[arg(long)]
        look: Option<PathBuf>,
        /// Where the sets are kept; `target/bench` unless said otherwise.
        #[arg(long)]
        out: Option<PathBuf>,
    },
    /// Invent histories of blocks, order and date their impressions, and print the tables; of a whole run, write them into
    /// docs/benchmarks.md.
    Histories {
        /// How many; 162 are every combination once.
        #[arg(long, default_value_t = 216)]
        count: usize,
        /// Only histories FROM..TO (TO left out), or one.
        #[arg(long, value_parser = numbers)]
        only: Option<Range<usize>>,
    },
    /// Print studies of many copies, unless they are there, compare the copies of each, and print the tables; of a whole
    /// run, write them into docs/benchmarks.md.
    Studies {
        /// The set: dev or sealed.
        #[arg(long, value_enum)]
        set: Set,
        /// Only studies FROM..TO (TO left out), or one study.
        #[arg(long, value_parser = numbers)]
        only: Option<Range<usize>>,
        /// Print all copies again, also those that are there.
        #[arg(long)]
        again: bool,
        /// Where the sets are kept; `target/bench` unless said otherwise.
        #[arg(long)]
        out: Option<PathBuf>,
    },
}

/// Does it.
pub(crate) fn run(task: Task) -> anyhow::Result<()> {
    let folder = |out: Option<PathBuf>| out.unwrap_or_else(|| root().join("target/bench"));
    match task {
        Task::Make { set, pairs, one_setting, again, out } => {
            make::make(&make::Wanted { set, pairs, one_setting, again }, &folder(out))
        }
        Task::Run { set, only, verdict, jobs, alone, out } => {
            let out = folder(out);
            if set == Set::Real {
                make::make(&make::Wanted { set, pairs: 0, one_setting: false, again: false }, &out)?;
            }
            run::run(&run::Wanted { set, out, only, verdict, jobs, alone }).map(|_| ())
        }
        Task::Look { set, pair, out, part, yardstick, sets } => {
            look::look(&look::Wanted { set, bench: folder(sets), pair, part, yardstick, to: out })
        }
        Task::Fit { what, set, dry, out } => fit::fit(what, set, &folder(out), dry),
        Task::Blocks { set, pairs, only, look, yardstick, out } => {
            blocks::run(&blocks::Wanted { set, pairs, only, look, yardstick, out: folder(out) })
        }
        Task::Damage { set, histories, only, look, out } => {
            damage::run(&damage::Wanted { set, histories, only, look, out: folder(out) })
        }
        Task::Finder { set, sheets, only, look, out } => {
            finder::run(&finder::Wanted { set, sheets, only, look, out: folder(out) })
        }
        Task::Measure { set, sheets, only, look, out } => {
            measure::run(&measure::Wanted { set, sheets, only, look, out: folder(out) })
        }
        Task::Studies { set, only, again, out } => {
            studies::run(&studies::Wanted { set, only, again, out: folder(out) })
        }
        Task::Histories { count, only } => histories::run(count, only.as_ref()),
        Task::Report { set, part, out } => {
            println!("{}", report::report(set, &folder(out), part)?);
            Ok(())
        }
    }
}

/// "3..9" or "3".
fn numbers(text: &str) -> Result<Range<usize>, String> {
    let number = |t: &str| t.trim().parse::<usize>().map_err(|_| format!("\"{t}\" is no number of a pair"));
    match text.split_once("..") {
        Some((from, to)) => Ok(number(from)?..number(to)?),
        None => number(text).map(|n| n..n + 1),
    }
}

/// "X,Y,W,H".
fn part(text: &str) -> Result<Rect, String> {
    let numbers: Result<Vec<f64>, _> = text.split(',').map(|t| t.trim().parse::<f64>()).collect();
    match numbers.as_deref() {
        Ok(&[x, y, w, h]) if x >= 0.0 && y >= 0.0 && w >= 1.0 && h >= 1.0 => Ok(Rect::new(x, y, w, h)),
        _ => Err(format!("\"{text}\" is not X,Y,W,H in pixels")),
    }
}

/// A verdict by its code.
fn verdict(text: &str) -> Result<Verdict, String> {
    let codes = || Verdict::ALL.map(Verdict::code).join(", ");
    Verdict::ALL.into_iter().find(|v| v.code() == text).ok_or_else(|| format!("not one of {}", codes()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranges_are_read() {
        assert_eq!(numbers("3..9"), Ok(3..9));
        assert_eq!(numbers("7"), Ok(7..8));
        assert_eq!(part("3, 4,50,60"), Ok(Rect::new(3.0, 4.0, 50.0, 60.0)));
        assert!(part("3,4,0,60").is_err() && part("3,4,50").is_err());
        assert!(numbers("x..9").unwrap_err().contains("\"x\""));
        assert_eq!(verdict("partly-reset"), Ok(Verdict::PartlyReset));
        assert!(verdict("reset").unwrap_err().contains("partly-reset"));
    }
}
