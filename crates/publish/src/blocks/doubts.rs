//! What is doubtful, gathered.

use super::dates::sentence;
use super::words::{listed, named};
use crate::record::BlocksRecord;
use evidence::block::{BlockVerdict, Shows, Untold};
use std::collections::BTreeMap;

/// Of pairs over all blocks: those on which the photographs do not allow a verdict, and those of one block whose sizes speak
/// against it.
pub(super) fn of_pairs(record: &BlocksRecord) -> Vec<String> {
    let mut out = undetermined(record);
    let sizes = record.pairs.iter().filter_map(|p| Some((p, p.comparison.size_doubt.as_ref()?)));
    out.extend(sizes.map(|(p, doubt)| format!("Impressions {} and {}: {doubt}", p.a + 1, p.b + 1)));
    out
}

fn undetermined(record: &BlocksRecord) -> Vec<String> {
    let undetermined: Vec<String> = record
        .pairs
        .iter()
        .filter(|p| p.comparison.verdict == BlockVerdict::Undetermined)
        .map(|p| format!("{} and {}", p.a + 1, p.b + 1))
        .collect();
    match undetermined.len() {
        0 => Vec::new(),
        1 => vec![format!(
            "Of one pair the photographs do not allow a verdict: impressions {}.",
            undetermined[0]
        )],
        n => vec![format!(
            "Of {n} pairs the photographs do not allow a verdict: impressions {}.",
            undetermined.join("; ")
        )],
    }
}

/// So large a share of cells that do not tell is said (common practice, no source).
const MANY_UNCLEAR: f64 = 0.25;

/// Of one block.
pub(super) fn of_block(record: &BlocksRecord, block: usize) -> Vec<String> {
    let found = &record.blocks[block];
    let mut out: Vec<String> = found
        .contradicted
        .iter()
        .map(|[a, b]| {
            format!(
                "Impressions {} and {} were found to be of two blocks, but others join them in this one.",
                a + 1,
                b + 1
            )
        })
        .collect();
    out.extend(unclear(record, block));
    if let Some(order) = record.order.iter().find(|o| o.block == block) {
        out.extend(order.told.warnings.iter().map(|w| sentence(w)));
        let tied: Vec<String> =
            order.earliest_first.iter().filter(|tied| tied.len() > 1).map(|tied| named(tied)).collect();
        if !tied.is_empty() {
            out.push(format!("Nothing, or too little, parts {}: they stand as tied.", tied.join("; nor ")));
        }
    }
    if let Some(dates) = record.dates.iter().flatten().find(|d| d.block == block) {
        out.extend(match dates.told.warnings.len() {
            0 => None,
            1 => Some("Of the years one thing is to be heeded, which stands beside them.".to_owned()),
            n => Some(format!("Of the years {n} things are to be heeded, which stand beside them.")),
        });
    }
    out
}

/// Impressions that tell of few damages, and why.
fn unclear(record: &BlocksRecord, block: usize) -> Vec<String> {
    let damages: Vec<_> = record.damage.iter().filter(|d| d.block == block).collect();
    let of = |i: &usize| {
        let seen = damages.iter().flat_map(|d| &d.damage.seen).filter(|s| s.impression == *i);
        let mut why: BTreeMap<Untold, usize> = BTreeMap::new();
        let mut unclear = 0usize;
        for seen in seen.filter(|s| s.shows == Shows::Unclear) {
            unclear += 1;
            if let Some(because) = seen.because {
                *why.entry(because).or_default() += 1;
            }
        }
        if (unclear as f64) < MANY_UNCLEAR * damages.len() as f64 || unclear == 0 {
            return None;
        }
        let why: Vec<String> = why.iter().map(|(why, n)| format!("{} ({n})", why.words())).collect();
        let why = if why.is_empty() { String::new() } else { format!(": {}", listed(&why)) };
        Some(format!("Impression {} does not tell of {unclear} of {} damages{why}.", i + 1, damages.len()))
    };
    record.blocks[block].impressions.iter().filter_map(of).collect()
}
