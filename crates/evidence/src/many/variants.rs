//! The places at which copies of one setting differ, and which of them agree there.

use super::Pair;
use super::alike::{InkAt, Seen};
use super::readings::{Found, Readings, settle};
use crate::record::{Change, ChangeClass, rect};
use crate::standing::Standing;
use rayon::prelude::*;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use sheet::Rect;
use std::collections::BTreeMap;

/// What the copies of one setting share and do not share.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct SharedDifferences {
    /// The places that differ, down the frame's page.
    pub variants: Vec<Variant>,
    /// The copies grouped so that those of a group agree at every place that could be judged in them.
    pub groups: Vec<Vec<usize>>,
}

/// A place at which copies of one setting differ.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Variant {
    /// The copy on whose photograph the place is told.
    pub frame: usize,
    /// The place: x, y, w, h in pixels of that photograph.
    pub box_px: [f64; 4],
    /// The line of that copy it lies in, counted from 1; null outside the lines.
    pub line: Option<usize>,
    /// What kind of difference, from the frame to the copy that shows it most surely.
    pub class: ChangeClass,
    /// How surely, 0 to 1.
    pub score: f64,
    /// Copies that agree there with each other, each list one reading; the frame's comes first.
    pub readings: Vec<Vec<usize>>,
    /// Copies in which it is not clear, or could not be judged.
    pub unclear: Vec<usize>,
}

/// Small places so near to each other, x-heights, are the strokes of one letter: in one copy both were found, in another one.
const ONE_LETTER: f64 = 0.3;
/// Breadth of a letter, x-heights.
const LETTER: f64 = 1.2;
/// Places are one if they share this much of the smaller.
const ONE_PLACE: f64 = 0.3;

/// What differs among the copies of one setting, of which the first is the frame; the pairs of the frame with the others
/// must have it first. Whether two copies that both differ from the frame and were not laid together agree is told from
/// their ink; where `ink` shows none it is taken that they do if what differs is of one kind.
pub fn shared_differences(setting: &[usize], pairs: &[Pair], ink: &InkAt<'_>) -> SharedDifferences {
    let Some((&frame, others)) = setting.split_first() else { return SharedDifferences::default() };
    let with_frame: Vec<&Pair> =
        others.iter().filter_map(|&copy| pairs.iter().find(|p| p.copies == [frame, copy])).collect();
    let mut variants: Vec<Variant> = Vec::new();
    for pair in &with_frame {
        for change in &pair.comparison.changes {
            note(&mut variants, frame, change);
        }
    }
    variants.par_iter_mut().for_each(|variant| read(variant, &with_frame, others, pairs, ink));
    variants.sort_by(|p, q| p.line.cmp(&q.line).then(p.box_px[0].total_cmp(&q.box_px[0])));
    let groups = groups(setting, &variants);
    SharedDifferences { variants, groups }
}

fn is_there(place: Rect, change: &Change) -> bool {
    let at = rect(change.box_a_px);
    place.shared(at).is_some_and(|s| s.area() > ONE_PLACE * place.area().min(at.area()))
}

/// x-height of the frame, pixels, as the size of a change tells it; 0 where it is not known.
fn x_height(change: &Change) -> f64 {
    change.size_x_heights.filter(|size| size[1] > 0.0).map_or(0.0, |size| change.box_a_px[3] / size[1])
}

/// Whether a change is of one letter at most.
fn is_small(at: Rect, change: &Change) -> bool {
    at.w < LETTER * x_height(change)
}

/// Adds a change to the place it lies in, or as a place of its own.
fn note(variants: &mut Vec<Variant>, frame: usize, change: &Change) {
    let at = rect(change.box_a_px);
    let near = at.grown(ONE_LETTER * x_height(change));
    let is_one = |v: &&mut Variant| {
        v.line == change.line
            && (is_there(rect(v.box_px), change)
                || near.shared(rect(v.box_px)).is_some() && is_small(at, change))
    };
    match variants.iter_mut().find(is_one) {
        Some(variant) => {
            let all = rect(variant.box_px).united(rect(change.box_a_px));
            variant.box_px = [all.x, all.y, all.w, all.h];
            if change.score > variant.score {
                (variant.score, variant.class) = (change.score, change.class);
            }
        }
        None => variants.push(Variant {
            frame,
            box_px: change.box_a_px,
            line: change.line,
            class: change.class,
            score: change.score,
            readings: Vec::new(),
            unclear: Vec::new(),
        }),
    }
}

/// Settles which copies agree at a place.
fn read(variant: &mut Variant, with_frame: &[&Pair], others: &[usize], pairs: &[Pair], ink: &InkAt<'_>) {
    let place = rect(variant.box_px);
    let mut of_pairs = Found { frame: variant.frame, ..Found::default() };
    let mut changes: BTreeMap<usize, &Change> = BTreeMap::new();
    for &copy in others {
        let Some(pair) = with_frame.iter().find(|p| p.copies[1] == copy) else {
            of_pairs.open.push(copy);
            continue;
        };
        let found = &pair.comparison;
        if let Some(change) = found.changes.iter().find(|c| is_there(place, c)) {
            changes.insert(copy, change);
            of_pairs.differing.push(copy);
        } else if found.doubtful.iter().any(|c| is_there(place, c)) || !is_judged(variant.line, pair) {
            of_pairs.open.push(copy);
        } else {
            of_pairs.like.push(copy);
        }
    }
    let line = with_frame.iter().find_map(|p| p.comparison.lines.get(variant.line? - 1));
    let mut seen = Seen::new(place, line.map_or(place, |l| rect(l.box_a_px)), ink);
    let agree = |a: usize, b: usize| {
        let theirs = [changes[&a], changes[&b]];
        by_their_pair([a, b], theirs, pairs).unwrap_or(theirs[0].class == theirs[1].class)
    };
    let Readings { readings, unclear } = settle(of_pairs, &mut seen, agree);
    (variant.readings, variant.unclear) = (readings, unclear);
}

/// Whether the line of a place could be judged.
fn is_judged(line: Option<usize>, pair: &Pair) -> bool {
    let standing = line.and_then(|n| pair.comparison.lines.get(n - 1)).map(|l| l.standing);
    standing.is_none_or(|s| s != Standing::Unjudged)
}

/// Whether two copies that both differ from the frame at a place, by these changes, agree there with each other, as their
/// own pair says; `None` of two that were not laid together.
fn by_their_pair(copies: [usize; 2], changes: [&Change; 2], pairs: &[Pair]) -> Option<bool> {
    let (pair, own) = pairs.iter().find_map(|p| {
        let forward = p.copies == copies;
        let backward = p.copies == [copies[1], copies[0]];
        (forward || backward).then_some((p, changes[usize::from(backward)]))
    })?;
    // Told on the photograph of that pair's frame, which is the second of the pair with the setting's.
    let place = rect(own.box_b_px);
    Some(!pair.comparison.changes.iter().any(|c| is_there(place, c)))
}

/// Copies that agree wherever both could be judged, those with most to judge first.
fn groups(setting: &[usize], variants: &[Variant]) -> Vec<Vec<usize>> {
    let reading = |copy: usize, v: &Variant| v.readings.iter().position(|r| r.contains(&copy));
    let mut order: Vec<usize> = setting.to_vec();
    order.sort_by_key(|&copy| (variants.iter().filter(|v| v.unclear.contains(&copy)).count(), copy));
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for copy in order {
        let disagrees = |other: usize| {
            variants.iter().any(|v| {
                let both = reading(copy, v).zip(reading(other, v));
                both.is_some_and(|(own, theirs)| own != theirs)
            })
        };
        match groups.iter_mut().find(|group| !group.iter().any(|&other| disagrees(other))) {
            Some(group) => group.push(copy),
            None => groups.push(vec![copy]),
        }
    }
    for group in &mut groups {
        group.sort_unstable();
    }
    groups.sort();
    groups
}
