//! What is said of blocks.

use super::dates::sentence;
use crate::many::numbers;
use crate::record::{BlocksRecord, CutFound};
use evidence::block::{BlockComparison, BlockVerdict};
use std::fmt::Write as _;

/// "a, b and c"; of none "none".
pub(super) fn listed(words: &[String]) -> String {
    match words.split_last() {
        None => "none".to_owned(),
        Some((only, [])) => only.clone(),
        Some((last, others)) => format!("{} and {last}", others.join(", ")),
    }
}

/// Some of a block's impressions: "impression 2", "impressions 2 and 5".
pub(super) fn impressions_words(some: &[usize], of_block: &[usize]) -> String {
    let all: Vec<usize> = some.iter().filter_map(|&i| of_block.get(i)).copied().collect();
    named(&all)
}

/// Impressions by their places in the photographs.
pub(crate) fn named(all: &[usize]) -> String {
    let what = if all.len() == 1 { "impression" } else { "impressions" };
    format!("{what} {}", numbers(all))
}

fn count(n: usize, one: &str, many: &str) -> String {
    if n == 1 { format!("one {one}") } else { format!("{n} {many}") }
}

/// The first and the last file.
pub(super) fn title(record: &BlocksRecord) -> String {
    crate::many::from_to(&record.photographs).unwrap_or_else(|| "Impressions of cuts".to_owned())
}

/// The result in one sentence.
pub(super) fn verdict(record: &BlocksRecord) -> String {
    let placed: usize = record.blocks.iter().map(|b| b.impressions.len()).sum();
    let shared: Vec<usize> = record.blocks.iter().map(|b| b.impressions.len()).filter(|&n| n > 1).collect();
    let alone = record.blocks.len() - shared.len();
    let impressions = count(placed, "impression", "impressions");
    match (&shared[..], alone) {
        (_, 0) if placed == 0 => "No impression of a cut could be placed.".to_owned(),
        ([], 1) => "One impression, of one block.".to_owned(),
        ([], _) => format!("Of {impressions}, no two are of one block."),
        ([_], 0) => format!("All {impressions} agree with one block."),
        ([one], _) => {
            let others =
                if alone == 1 { "one stands alone".to_owned() } else { format!("{alone} stand alone") };
            format!("Of {impressions}, {one} agree with one block; {others}.")
        }
        (many, 0) => format!("{placed} impressions of {} blocks.", many.len()),
        (many, 1) => format!("{placed} impressions: {} blocks, and one that stands alone.", many.len()),
        (many, _) => format!("{placed} impressions: {} blocks, and {alone} that stand alone.", many.len()),
    }
}

/// The blocks, a sentence each, and what was left.
pub(super) fn findings(record: &BlocksRecord) -> Vec<String> {
    let shared = (0..record.blocks.len()).filter(|&b| record.blocks[b].impressions.len() > 1);
    let mut out: Vec<String> = shared.map(|b| format!("Block {}: {}", b + 1, of_block(record, b))).collect();
    let alone: Vec<usize> = record
        .blocks
        .iter()
        .filter(|b| b.impressions.len() == 1)
        .flat_map(|b| b.impressions.iter().copied())
        .collect();
    match &alone[..] {
        [] => {}
        [one] => out.push(format!("Impression {} agrees with no other.", one + 1)),
        _ => out
            .push(format!("Impressions {} agree with no other, each of a block by itself.", numbers(&alone))),
    }
    let mut why: Vec<(&str, Vec<usize>)> = Vec::new();
    for unplaced in &record.unplaced {
        match why.iter_mut().find(|(reason, _)| *reason == unplaced.reason) {
            Some((_, all)) => all.push(unplaced.copy),
            None => why.push((&unplaced.reason, vec![unplaced.copy])),
        }
    }
    out.extend(why.iter().map(|(reason, all)| format!("Not placed: {}. {}", numbers(all), sentence(reason))));
    out
}

/// What is said of a block over its pictures.
pub(super) fn of_block(record: &BlocksRecord, block: usize) -> String {
    let found = &record.blocks[block];
    if found.impressions.len() == 1 {
        return format!("impression {} alone.", found.impressions[0] + 1);
    }
    let damages = record.damage.iter().filter(|d| d.block == block).count();
    let lost = match damages {
        0 => "no damage was found that some show and others lack".to_owned(),
        n => count(n, "damage", "damages"),
    };
    let ranks = record.order.iter().find(|o| o.block == block).map(|o| o.earliest_first.len());
    let order = match ranks {
        None => String::new(),
        Some(1) => ", by which nothing parts them".to_owned(),
        Some(n) => format!(", by which they stand in {n} states"),
    };
    format!("{}; {lost}{order}.", named(&found.impressions))
}

/// Terms and what they are.
pub(super) fn measures(record: &BlocksRecord) -> Vec<(String, String)> {
    let mut out = vec![("Compared".to_owned(), count(record.pairs.len(), "pair", "pairs"))];
    let told =
        |verdict: BlockVerdict| record.pairs.iter().filter(|p| p.comparison.verdict == verdict).count();
    let mut words: Vec<String> = Vec::new();
    for (verdict, what) in [
        (BlockVerdict::SameBlock, "of one block"),
        (BlockVerdict::SameBlockAltered, "of one block, altered"),
        (BlockVerdict::ReCut, "of a design cut again"),
        (BlockVerdict::DifferentDesign, "of different designs"),
        (BlockVerdict::Undetermined, "undetermined"),
    ] {
        if told(verdict) > 0 {
            words.push(format!("{} {what}", told(verdict)));
        }
    }
    if !words.is_empty() {
        out.push(("Of these".to_owned(), listed(&words)));
    }
    let one = record.pairs.iter().filter(|p| p.comparison.verdict.is_one_block());
    let mut weights: Vec<f64> = one.filter_map(|p| p.comparison.weight_log10).collect();
    weights.sort_by(f64::total_cmp);
    if let (Some(least), Some(most)) = (weights.first(), weights.last()) {
        let range =
            if most - least < 0.05 { format!("{most:.1}") } else { format!("{least:.1} to {most:.1}") };
        out.push(("Weight within the blocks, log10".to_owned(), range));
    }
    out
}

/// Where the cut is on its photograph and how large.
pub(super) fn of_cut(cut: &CutFound) -> String {
    let [x, y, w, h] = cut.box_px;
    let size = cut.size_mm.map_or_else(String::new, |[w, h]| format!(", {w:.1} × {h:.1} mm"));
    let found = if cut.named { "named" } else { "found" };
    let hole = if cut.hole_px.is_some() { "; a factotum, with a hole for a letter" } else { "" };
    format!("{w:.0} × {h:.0} px at {x:.0}, {y:.0}{size}; {found}{hole}")
}

/// How alike two impressions are, and the size of the second by that of the first.
pub(super) fn likeness(c: &BlockComparison) -> String {
    let mut out =
        c.signs.map_or_else(|| format!("as wholes {:.2}", c.composition), |s| format!("{:.2}", s.likeness));
    if let Some([w, h]) = c.size_ratio {
        let of = if c.size_is_true { "" } else { " in px" };
        let _ = write!(out, "; {:.1} × {:.1} %{of}", 100.0 * w, 100.0 * h);
    }
    if c.is_mirrored {
        out += "; the other way round";
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_are_told_as_one_reads_them() {
        let words =
            |n: usize| listed(&["a", "b", "c"][..n].iter().map(|w| (*w).to_owned()).collect::<Vec<_>>());
        assert_eq!([words(0), words(1), words(2), words(3)], ["none", "a", "a and b", "a, b and c"]);
        assert_eq!(impressions_words(&[1], &[4, 6]), "impression 7");
        assert_eq!(impressions_words(&[0, 1], &[4, 6]), "impressions 5 and 7");
    }
}
