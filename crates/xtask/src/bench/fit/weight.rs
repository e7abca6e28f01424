//! What the lines of a pair say together, with what is true of it.

use evidence::{Compared, MANNERS, Standing};
use serde::Serialize;

use crate::bench::pair::Pair;

/// A pair as the weight is fitted to it; one line of a file.
#[derive(Debug, Serialize)]
struct Told<'c> {
    pair: usize,
    one_setting: bool,
    /// What each of its lines says, log10, by manners of setting again.
    lines: Vec<&'c [f64]>,
    /// Lines that could be judged.
    judged_lines: usize,
}

/// Whether a pair tells of the weight: of one setting, or of two line for line. Between two with other line-ends the
/// spaces say nothing, and *partly reset* has no weight.
pub(super) fn tells(pair: &Pair) -> bool {
    pair.one_setting() || pair.kind.starts_with("DifferentSetting")
}

/// A line of JSON; empty where the two could not be laid together.
pub(super) fn told(pair: &Pair, compared: &Compared) -> anyhow::Result<String> {
    let comparison = &compared.comparison;
    if comparison.lines.is_empty() {
        return Ok(String::new());
    }
    let judged = comparison.lines.iter().filter(|l| l.standing != Standing::Unjudged);
    let told = Told {
        pair: pair.number,
        one_setting: pair.one_setting(),
        lines: compared.weighed.lines.iter().map(<[f64; MANNERS]>::as_slice).collect(),
        judged_lines: judged.count(),
    };
    Ok(serde_json::to_string(&told)? + "\n")
}
