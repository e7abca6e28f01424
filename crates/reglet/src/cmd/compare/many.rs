//! Many photographs: each read once, laid together in pairs, grouped into settings.

use super::opened::Opened;
use crate::files::Named;
use crate::say::Progress;
use evidence::many::{Pair, group, shared_differences};
use evidence::{Comparison, Verdict};
use publish::record::{ManyRecord, PROGRAM, PairFound, Photographed, Unplaced};
use rayon::prelude::*;
use sheet::scale::ScaleRequest;

/// So many copies are all laid on each other, every two. Of more, each is laid on the first copy of every setting found so
/// far, and on no other.
const ALL_PAIRS: usize = 12;
/// Pixels of the photographs whose readings are in memory at once, at most: about ten bytes a pixel, so 1.5 GB.
const MOST_PIXELS: usize = 150_000_000;

/// Compares many photographs. What cannot be read is named with the reason, and the rest goes on.
pub(super) fn record(named: &[Named], asked: &[ScaleRequest], progress: &Progress) -> ManyRecord {
    let mut study = Study::new(named);
    progress.step(&format!("Reading {} photographs", named.len()));
    // Photographs of one study are about of one size.
    let first = Opened::open(&named[0], &asked[0]);
    let pixels = named.len() * first.as_ref().map_or(0, Opened::pixels);
    if named.len() <= ALL_PAIRS && pixels <= MOST_PIXELS {
        study.every_pair(first, asked, progress);
    } else {
        study.by_first_copies(first, asked, progress);
    }
    study.told()
}

/// What is known of the copies so far.
struct Study<'n> {
    named: &'n [Named],
    about: Vec<Option<Photographed>>,
    unread: Vec<Unplaced>,
    pairs: Vec<Pair>,
    warnings: Vec<String>,
}

impl<'n> Study<'n> {
    fn new(named: &'n [Named]) -> Self {
        let about = vec![None; named.len()];
        Self { named, about, unread: Vec::new(), pairs: Vec::new(), warnings: Vec::new() }
    }

    /// Keeps what a file says of itself; `None`, and the reason noted, of one that could not be read.
    fn noted(&mut self, copy: usize, opened: anyhow::Result<Opened>) -> Option<Opened> {
        match opened {
            Ok(opened) => {
                self.about[copy] = Some(opened.about.clone());
                Some(opened.without_bytes())
            }
            Err(error) => {
                self.unread.push(self.unplaced(copy, format!("{error:#}")));
                None
            }
        }
    }

    fn unplaced(&self, copy: usize, reason: String) -> Unplaced {
        Unplaced { copy, file: self.named[copy].text(), reason }
    }

    /// Lays every two together, the first copy being read already.
    fn every_pair(&mut self, first: anyhow::Result<Opened>, asked: &[ScaleRequest], progress: &Progress) {
        let others: Vec<_> = self.named[1..]
            .par_iter()
            .zip(&asked[1..])
            .map(|(named, scale)| Opened::open(named, scale))
            .collect();
        let opened: Vec<(usize, Opened)> = std::iter::once(first)
            .chain(others)
            .enumerate()
            .filter_map(|(copy, opened)| Some((copy, self.noted(copy, opened)?)))
            .collect();
        let all = opened.len() * opened.len().saturating_sub(1) / 2;
        for (i, (a, first)) in opened.iter().enumerate() {
            for (b, second) in &opened[i + 1..] {
                progress.step(&format!("Laying every two together: {} of {all}", self.pairs.len() + 1));
                self.lay([*a, *b], first, second);
            }
        }
    }

    /// Lays each copy on the first copies of the settings found before it.
    fn by_first_copies(
        &mut self,
        first: anyhow::Result<Opened>,
        asked: &[ScaleRequest],
        progress: &Progress,
    ) {
        let mut firsts: Vec<(usize, Opened)> = Vec::new();
        let mut in_memory = 0;
        let mut already = Some(first);
        for (copy, (named, scale)) in self.named.iter().zip(asked).enumerate() {
            progress.step(&format!("Reading and laying copy {} of {}", copy + 1, self.named.len()));
            let opened = already.take().unwrap_or_else(|| Opened::open(named, scale));
            let Some(opened) = self.noted(copy, opened) else { continue };
            let is_placed = firsts
                .iter()
                .any(|(first, of_first)| self.lay([*first, copy], of_first, &opened).is_one_setting());
            if is_placed {
                continue;
            }
            if firsts.is_empty() || in_memory + opened.pixels() <= MOST_PIXELS {
                in_memory += opened.pixels();
                firsts.push((copy, opened));
            } else {
                self.warnings.push(format!(
                    "{} agrees with none of the {} settings found before it, and there was no room to keep it: later \
                     copies were not laid on it. Compare fewer settings at once.",
                    named.short(),
                    firsts.len()
                ));
            }
        }
    }

    /// Lays two copies together and keeps what was found; the verdict.
    fn lay(&mut self, copies: [usize; 2], first: &Opened, second: &Opened) -> Verdict {
        let mut comparison = evidence::compare(&first.reading, &second.reading).comparison;
        if first.is_the_same_as(second) {
            let [a, b] = copies.map(|c| self.named[c].short());
            self.warnings.push(format!("{a} and {b} are the same file, byte for byte."));
        }
        let verdict = comparison.verdict;
        // Of hundreds of pairs nobody asks for each node and each word.
        comparison.placement = None;
        comparison.straight_edge = Vec::new();
        for line in &mut comparison.lines {
            line.drift = Vec::new();
        }
        self.pairs.push(Pair { copies, comparison });
        verdict
    }

    /// All that was found out.
    fn told(mut self) -> ManyRecord {
        let grouped = group(self.named.len(), &self.pairs);
        let differences: Vec<_> =
            grouped.settings.iter().map(|setting| shared_differences(setting, &self.pairs)).collect();
        let read = |copy: &usize| self.about[*copy].is_some();
        let mut unplaced: Vec<Unplaced> =
            grouped.unplaced.iter().copied().filter(read).map(|c| self.unplaced(c, self.why(c))).collect();
        unplaced.append(&mut self.unread);
        unplaced.sort_by_key(|u| u.copy);
        for (about, named) in self.about.iter().zip(self.named) {
            let notices = about.iter().flat_map(|a| &a.notices);
            self.warnings.extend(notices.map(|n| format!("{}: {n}.", named.short())));
        }
        ManyRecord {
            groups_within: differences.iter().map(|d| d.groups.clone()).collect(),
            variants: differences.into_iter().flat_map(|d| d.variants).collect(),
            settings: grouped.settings,
            contradictions: grouped.contradictions,
            unplaced,
            cautions: cautions(self.pairs.iter().map(|p| &p.comparison)),
            pairs: self.pairs.iter().map(|p| PairFound::of(p.copies, &p.comparison)).collect(),
            warnings: self.warnings,
            photographs: self.about,
            program: PROGRAM.to_owned(),
        }
    }

    /// Why no verdict was reached on a copy: the last reason of its first pair says what stood in the way.
    fn why(&self, copy: usize) -> String {
        let pair = self.pairs.iter().find(|p| p.copies.contains(&copy));
        let reason = pair.and_then(|p| p.comparison.reasons.last());
        reason.cloned().unwrap_or_else(|| "No other photograph could be laid on it.".to_owned())
    }
}

/// What is to be heeded, each said once.
fn cautions<'c>(all: impl Iterator<Item = &'c Comparison>) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for caution in all.flat_map(|c| &c.cautions) {
        // Of single pairs: how like those behind the weight they are, and which of the two is too small.
        let is_of_one_pair =
            caution.starts_with("The weight was") || caution.contains("photograph the letters");
        if !is_of_one_pair && !out.contains(caution) {
            out.push(caution.clone());
        }
    }
    out
}
