//! Copies grouped into settings by what was found of pairs of them.

use super::Pair;
use crate::verdict::Verdict;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};

/// Copies grouped into settings.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Grouped {
    /// The settings, the largest first, each with its copies in their order; a copy that agrees with no other is a setting
    /// by itself.
    pub settings: Vec<Vec<usize>>,
    /// Copies of which no pair allowed a verdict.
    pub unplaced: Vec<usize>,
    /// What contradicts itself.
    pub contradictions: Vec<Contradiction>,
}

/// One copy agrees with two others, and these do not agree: one of the three verdicts is wrong, or the middle copy holds
/// print of two settings.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Contradiction {
    /// The copy that agrees with both.
    pub copy: usize,
    /// The two that it is of one setting with.
    pub of_one_setting_with: [usize; 2],
    /// What was found of these two.
    pub but_these: Verdict,
}

/// Least strength of a verdict, log10, either way: below, none is given (Kass & Raftery, as for a single pair).
const LEAST: f64 = 0.5;
/// Strength of two texts, log10: more than any weight of one setting, for no type can print both.
const OF_TWO_TEXTS: f64 = -3.0;
/// Strength of a setting partly reset: it is another, though some of its type is the same.
const OF_PARTLY_RESET: f64 = -1.0;

/// How strongly a pair speaks for one setting (above 0) or against it; `None` where it says nothing.
fn strength(pair: &Pair) -> Option<f64> {
    let weight = pair.comparison.weight_log10;
    match pair.comparison.verdict {
        Verdict::SameSetting | Verdict::SameSettingWithDifferences => {
            Some(weight.unwrap_or(LEAST).max(LEAST))
        }
        Verdict::DifferentSetting => Some(weight.unwrap_or(-LEAST).min(-LEAST)),
        Verdict::PartlyReset => Some(OF_PARTLY_RESET),
        Verdict::DifferentText => Some(OF_TWO_TEXTS),
        Verdict::Undetermined => None,
    }
}

/// Groups `copies` copies by their pairs: two groups become one as long as their pairs speak for it in the mean, those
/// that do so most first (average linkage; R. R. Sokal and C. D. Michener, *Univ. Kansas Science Bull.* 38 (1958),
/// 1409-1438, from memory).
pub fn group(copies: usize, pairs: &[Pair]) -> Grouped {
    let mut links: BTreeMap<[usize; 2], f64> = BTreeMap::new();
    for pair in pairs {
        if let Some(strength) = strength(pair) {
            links.insert(in_order(pair.copies), strength);
        }
    }
    let told = |copy: usize| links.keys().any(|pair| pair.contains(&copy));
    let (placed, unplaced): (Vec<usize>, Vec<usize>) = (0..copies).partition(|&copy| told(copy));
    Grouped { settings: linked(placed, &links), unplaced, contradictions: contradictions(pairs) }
}

/// Groups what is linked, the largest group first, each in its order; a link speaks for one group (above 0) or against it.
pub(crate) fn linked(all: Vec<usize>, links: &BTreeMap<[usize; 2], f64>) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = all.into_iter().map(|one| vec![one]).collect();
    while let Some([one, other]) = nearest(&groups, links) {
        let joined = groups.remove(other);
        groups[one].extend(joined);
    }
    for one in &mut groups {
        one.sort_unstable();
    }
    groups.sort_by(|p, q| q.len().cmp(&p.len()).then(p.cmp(q)));
    groups
}

fn in_order([a, b]: [usize; 2]) -> [usize; 2] {
    [a.min(b), a.max(b)]
}

/// The two groups whose pairs speak most for one setting, if any do; the later one last.
fn nearest(groups: &[Vec<usize>], links: &BTreeMap<[usize; 2], f64>) -> Option<[usize; 2]> {
    let mean = |p: &[usize], q: &[usize]| {
        let found = p.iter().flat_map(|&a| q.iter().filter_map(move |&b| links.get(&in_order([a, b]))));
        let (sum, n) = found.fold((0.0, 0usize), |(sum, n), strength| (sum + strength, n + 1));
        (n > 0).then(|| sum / n as f64)
    };
    let mut best: Option<([usize; 2], f64)> = None;
    for other in 1..groups.len() {
        for one in 0..other {
            let Some(mean) = mean(&groups[one], &groups[other]).filter(|&mean| mean > 0.0) else { continue };
            if best.is_none_or(|(_, most)| mean > most) {
                best = Some(([one, other], mean));
            }
        }
    }
    best.map(|(pair, _)| pair)
}

/// Every copy that is of one setting with two that are not.
fn contradictions(pairs: &[Pair]) -> Vec<Contradiction> {
    let told: BTreeMap<[usize; 2], Verdict> =
        pairs.iter().map(|p| (in_order(p.copies), p.comparison.verdict)).collect();
    let one_setting = |a: usize, b: usize| told.get(&in_order([a, b])).is_some_and(|v| v.is_one_setting());
    let copies: BTreeSet<usize> = told.keys().flatten().copied().collect();
    let mut out = Vec::new();
    for (&[p, q], &verdict) in &told {
        if verdict.is_one_setting() || verdict == Verdict::Undetermined {
            continue;
        }
        let both = copies.iter().filter(|&&copy| one_setting(copy, p) && one_setting(copy, q));
        out.extend(both.map(|&copy| Contradiction { copy, of_one_setting_with: [p, q], but_these: verdict }));
    }
    out
}
