//! How what was said of a study fares against what is true of it.

use std::collections::BTreeMap;

use super::Said;
use super::truth::{PlaceTruth, StudyTruth};
use crate::bench::report::{Share, rect};
use crate::bench::score::meets;
use evidence::many::Variant;

/// The counts of one study, or of all.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Counts {
    /// Pairs of copies joined in a setting that are of two, or parted that are of one.
    pub(super) wrong_setting: Share,
    /// Copies that are in no setting.
    pub(super) unplaced: Share,
    /// Pairs of copies of one state that are said to differ somewhere.
    pub(super) parted: Share,
    /// Pairs of copies of two states said to agree everywhere, which differ at a place that both show.
    pub(super) joined: Share,
    /// Places that copies of both readings show, and that were found.
    pub(super) found: Share,
    /// The same by what was done.
    pub(super) found_by_class: BTreeMap<String, Share>,
    /// Places said to differ where nothing does.
    pub(super) false_places: Share,
    /// Copies at places found, which show them, with the reading of most in their list.
    pub(super) astray: Share,
    /// Pairs of copies of one reading that were given two.
    pub(super) two_readings: Share,
    /// Copies that show a place found, and in which it is said not to be clear.
    pub(super) unclear: Share,
}

/// Counts what was said of a study.
pub(super) fn count(truth: &StudyTruth, said: &Said) -> Counts {
    let mut counts = Counts::default();
    let copies = truth.copies.len();
    let setting_of = by_copy(copies, said.settings.iter().map(Vec::as_slice));
    let group_of = by_copy(copies, said.groups_within.iter().flatten().map(Vec::as_slice));
    for a in 0..copies {
        counts.unplaced.count(setting_of[a].is_none());
        for b in a + 1..copies {
            let is_one = truth.of_one_setting(a, b);
            let Some((p, q)) = setting_of[a].zip(setting_of[b]) else { continue };
            counts.wrong_setting.count((p == q) != is_one);
            if p != q || !is_one {
                continue;
            }
            let is_parted = group_of[a] != group_of[b];
            if truth.copies[a] == truth.copies[b] {
                counts.parted.count(is_parted);
            } else if truth.differ_visibly(a, b) {
                counts.joined.count(!is_parted);
            }
        }
    }
    count_places(truth, said, &mut counts);
    counts
}

/// In which of the lists each copy is.
fn by_copy<'l>(copies: usize, lists: impl Iterator<Item = &'l [usize]>) -> Vec<Option<usize>> {
    let mut out = vec![None; copies];
    for (i, list) in lists.enumerate() {
        for &copy in list {
            out[copy] = Some(i);
        }
    }
    out
}

fn count_places(truth: &StudyTruth, said: &Said, counts: &mut Counts) {
    let met = |variant: &Variant| -> Vec<&PlaceTruth> {
        let there = |place: &&PlaceTruth| {
            let word = place.boxes.get(variant.frame).copied().flatten();
            word.is_some_and(|word| meets(rect(word), rect(variant.box_px)))
        };
        truth.places.iter().filter(there).collect()
    };
    let all: Vec<(&Variant, Vec<&PlaceTruth>)> = said.variants.iter().map(|v| (v, met(v))).collect();
    for place in truth.places.iter().filter(|p| p.is_done) {
        let shows = |later: bool| {
            let mut copies = truth.copies.iter().zip(&place.is_shown);
            copies.any(|(&copy, &shown)| shown && place.reading(copy) == later)
        };
        if shows(false) && shows(true) {
            let found = all.iter().any(|(_, met)| met.contains(&place));
            counts.found.count(found);
            counts.found_by_class.entry(place.class.clone()).or_default().count(found);
        }
    }
    for (variant, met) in &all {
        counts.false_places.count(met.is_empty());
        if !met.is_empty() {
            count_readings(truth, variant, met, counts);
        }
    }
}

/// Counts the readings of a place that is one.
fn count_readings(truth: &StudyTruth, variant: &Variant, met: &[&PlaceTruth], counts: &mut Counts) {
    let key = |copy: usize| -> Vec<bool> { met.iter().map(|p| p.reading(truth.copies[copy])).collect() };
    let is_shown = |copy: usize| met.iter().filter(|p| p.is_done).all(|p| p.is_shown[copy]);
    for reading in &variant.readings {
        let mut votes: BTreeMap<Vec<bool>, usize> = BTreeMap::new();
        for &copy in reading {
            *votes.entry(key(copy)).or_default() += 1;
        }
        // Of as many the one is as good as the other.
        let most = votes.into_iter().max_by_key(|(_, n)| *n).map(|(key, _)| key);
        for &copy in reading.iter().filter(|&&copy| is_shown(copy)) {
            counts.astray.count(Some(key(copy)) != most);
            counts.unclear.count(false);
        }
    }
    for _ in variant.unclear.iter().filter(|&&copy| is_shown(copy)) {
        counts.unclear.count(true);
    }
    let reading_of = by_copy(truth.copies.len(), variant.readings.iter().map(Vec::as_slice));
    for a in 0..truth.copies.len() {
        for b in a + 1..truth.copies.len() {
            let Some((p, q)) = reading_of[a].zip(reading_of[b]) else { continue };
            if is_shown(a) && is_shown(b) && key(a) == key(b) {
                counts.two_readings.count(p != q);
            }
        }
    }
}

impl Counts {
    /// Adds those of another study.
    pub(super) fn add(&mut self, other: &Self) {
        let pairs = [
            (&mut self.wrong_setting, other.wrong_setting),
            (&mut self.unplaced, other.unplaced),
            (&mut self.parted, other.parted),
            (&mut self.joined, other.joined),
            (&mut self.found, other.found),
            (&mut self.false_places, other.false_places),
            (&mut self.astray, other.astray),
            (&mut self.two_readings, other.two_readings),
            (&mut self.unclear, other.unclear),
        ];
        for (own, theirs) in pairs {
            own.add(theirs);
        }
        for (class, share) in &other.found_by_class {
            self.found_by_class.entry(class.clone()).or_default().add(*share);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::truth::CopyTruth;
    use super::*;
    use evidence::ChangeClass;

    /// Four copies of one setting in two states, which differ at one word, and one of another setting.
    fn truth() -> StudyTruth {
        let copy = |(setting, state)| CopyTruth { setting, state };
        let place = PlaceTruth {
            setting: 0,
            state: 1,
            class: "LetterChanged".to_owned(),
            is_done: true,
            boxes: vec![Some([100.0, 100.0, 60.0, 20.0]); 5],
            is_shown: vec![true, true, true, true, false],
        };
        StudyTruth { copies: [(0, 0), (0, 0), (0, 1), (0, 1), (1, 0)].map(copy).into(), places: vec![place] }
    }

    fn variant(x: f64, readings: Vec<Vec<usize>>, unclear: Vec<usize>) -> Variant {
        Variant {
            frame: 0,
            box_px: [x, 102.0, 10.0, 15.0],
            line: Some(1),
            class: ChangeClass::SortChanged,
            score: 0.9,
            readings,
            unclear,
        }
    }

    fn share(some: usize, of: usize) -> Share {
        Share { some, of }
    }

    #[test]
    fn what_is_right_counts_nothing_against_it() {
        let said = Said {
            settings: vec![vec![0, 1, 2, 3], vec![4]],
            groups_within: vec![vec![vec![0, 1], vec![2, 3]], vec![vec![4]]],
            variants: vec![variant(110.0, vec![vec![0, 1], vec![2, 3]], vec![])],
        };
        let counts = count(&truth(), &said);
        assert_eq!((counts.wrong_setting, counts.unplaced), (share(0, 10), share(0, 5)));
        assert_eq!((counts.parted, counts.joined), (share(0, 2), share(0, 4)));
        assert_eq!((counts.found, counts.false_places), (share(1, 1), share(0, 1)));
        assert_eq!(
            (counts.astray, counts.two_readings, counts.unclear),
            (share(0, 4), share(0, 2), share(0, 4))
        );
    }

    #[test]
    fn what_is_wrong_is_counted_where_it_is_wrong() {
        let said = Said {
            settings: vec![vec![0, 1, 2], vec![4]],
            groups_within: vec![vec![vec![0, 2], vec![1]], vec![vec![4]]],
            variants: vec![
                variant(110.0, vec![vec![0, 1, 2]], vec![]),
                variant(110.0, vec![vec![0], vec![1]], vec![2]),
                variant(500.0, vec![vec![0], vec![1]], vec![]),
            ],
        };
        let counts = count(&truth(), &said);
        assert_eq!((counts.wrong_setting, counts.unplaced), (share(0, 6), share(1, 5)));
        assert_eq!((counts.parted, counts.joined), (share(1, 1), share(1, 2)));
        assert_eq!((counts.found, counts.false_places), (share(1, 1), share(1, 3)));
        assert_eq!(
            (counts.astray, counts.two_readings, counts.unclear),
            (share(1, 5), share(1, 2), share(1, 6))
        );
    }
}
