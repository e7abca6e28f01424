//! Many impressions of cuts: which are of one block, and what each block has lost.

use super::damage::{Damages, Impressed, damages};
use super::weight::ENOUGH;
use super::{BlockComparison, BlockVerdict, BlocksCompared, Cut, best_of, compare_cuts, lay};
use crate::many::linked;
use rayon::prelude::*;
use register::Laid;
use std::collections::BTreeMap;

/// Two impressions of cuts, compared; the second was laid on the first. Told by their places in the list.
#[derive(Debug, Clone)]
pub struct CutPair {
    /// Both.
    pub cuts: [usize; 2],
    /// What was found.
    pub comparison: BlockComparison,
}

/// The impressions of one block.
#[derive(Debug, Clone)]
pub struct OneBlock {
    /// Its impressions in their order, by their places in the list.
    pub impressions: Vec<usize>,
    /// That on whose frame everything is told.
    pub frame: usize,
    /// Pairs of them that were told to be of two blocks, against what others say.
    pub contradicted: Vec<[usize; 2]>,
    /// The impressions that lie on the frame, it itself first, and how (`None` of itself).
    pub laid: Vec<(usize, Option<Laid>)>,
    /// What it has lost; `None` of a block with one impression.
    pub damages: Option<Damages>,
}

/// What was found of many impressions.
#[derive(Debug, Clone)]
pub struct Studied {
    /// Every two of them.
    pub pairs: Vec<CutPair>,
    /// The blocks, that of most impressions first.
    pub blocks: Vec<OneBlock>,
}

/// Strength of two designs, log10: more than any weight, for no block prints both.
const OF_TWO_DESIGNS: f64 = -3.0;

/// Compares every two impressions, groups them by block, and looks for what each block has lost. After each pair `done` is
/// told how many are done.
///
/// Cost: about half a second a pair for cuts of 600 px, on one core; a tenth an impression for its damage.
pub fn study(cuts: &[Cut], done: &(dyn Fn(usize) + Sync)) -> Studied {
    let count = std::sync::atomic::AtomicUsize::new(0);
    let both: Vec<[usize; 2]> =
        (0..cuts.len()).flat_map(|a| (a + 1..cuts.len()).map(move |b| [a, b])).collect();
    let compared: Vec<(CutPair, Option<Laid>)> = both
        .into_par_iter()
        .map(|[a, b]| {
            let BlocksCompared { comparison, laid, .. } = compare_cuts(&cuts[a], &cuts[b]);
            done(count.fetch_add(1, std::sync::atomic::Ordering::Relaxed) + 1);
            // As in a looking-glass nothing of one block lies on another impression of it.
            let laid = laid.and_then(|l| l.as_given(&cuts[b]));
            (CutPair { cuts: [a, b], comparison }, laid)
        })
        .collect();
    let mut links = BTreeMap::new();
    let mut laid_on = BTreeMap::new();
    let mut pairs = Vec::with_capacity(compared.len());
    for (pair, laid) in compared {
        if let Some(strength) = strength(&pair.comparison) {
            links.insert(pair.cuts, strength);
        }
        laid_on.extend(laid.map(|l| (pair.cuts, l)));
        pairs.push(pair);
    }
    let groups = linked((0..cuts.len()).collect(), &links);
    let blocks = groups.into_iter().map(|group| one_block(cuts, group, &pairs, &mut laid_on)).collect();
    Studied { pairs, blocks }
}

/// How strongly a pair speaks for one block (above 0) or against it; `None` where it says nothing.
fn strength(of: &BlockComparison) -> Option<f64> {
    let weight = of.weight_log10;
    match of.verdict {
        BlockVerdict::SameBlock | BlockVerdict::SameBlockAltered => {
            Some(weight.unwrap_or(ENOUGH).max(ENOUGH))
        }
        BlockVerdict::ReCut => Some(weight.unwrap_or(-ENOUGH).min(-ENOUGH)),
        BlockVerdict::DifferentDesign => Some(OF_TWO_DESIGNS),
        BlockVerdict::Undetermined => None,
    }
}

fn one_block(
    cuts: &[Cut],
    impressions: Vec<usize>,
    pairs: &[CutPair],
    laid_on: &mut BTreeMap<[usize; 2], Laid>,
) -> OneBlock {
    let within = |p: &&CutPair| p.cuts.iter().all(|c| impressions.contains(c));
    let of_two =
        |p: &&CutPair| matches!(p.comparison.verdict, BlockVerdict::ReCut | BlockVerdict::DifferentDesign);
    let contradicted = pairs.iter().filter(within).filter(of_two).map(|p| p.cuts).collect();
    let frame = best_of(cuts, &impressions);
    let others: Vec<usize> = impressions.iter().copied().filter(|&i| i != frame).collect();
    let ready: Vec<Option<Laid>> = others.iter().map(|&i| laid_on.remove(&[frame, i])).collect();
    let laid: Vec<(usize, Option<Laid>)> = others
        .into_par_iter()
        .zip(ready)
        .filter_map(|(i, ready)| {
            let anew = || lay(&cuts[frame], &cuts[i]).ok().and_then(|l| l.as_given(&cuts[i]));
            Some((i, Some(ready.or_else(anew)?)))
        })
        .collect();
    let laid: Vec<(usize, Option<Laid>)> = std::iter::once((frame, None)).chain(laid).collect();
    let damages = (laid.len() > 1)
        .then(|| {
            let all: Vec<Impressed<'_>> = laid
                .iter()
                .map(|(i, laid)| Impressed { number: *i, cut: &cuts[*i], laid: laid.as_ref() })
                .collect();
            damages(&all)
        })
        .flatten();
    OneBlock { impressions, frame, contradicted, laid, damages }
}
