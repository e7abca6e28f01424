//! Copies whose settings are known, and what must be told of them.

use super::*;
use crate::record::{Change, ChangeClass, LineFinding, Residual};
use crate::standing::Standing;
use crate::verdict::Verdict;
use proptest::prelude::*;
use sheet::Plane;

fn pair(copies: [usize; 2], verdict: Verdict, weight_log10: Option<f64>) -> Pair {
    let comparison = Comparison {
        verdict,
        weight_log10,
        weight_basis: None,
        residual: Residual::default(),
        changes: Vec::new(),
        doubtful: Vec::new(),
        lines: Vec::new(),
        straight_edge: Vec::new(),
        words_matched: None,
        lines_begin_alike: None,
        perhaps_one_copy: None,
        reasons: Vec::new(),
        cautions: Vec::new(),
        warnings: Vec::new(),
        placement: None,
    };
    Pair { copies, comparison }
}

fn told(of: &[usize]) -> Vec<Pair> {
    let mut out = Vec::new();
    for b in 0..of.len() {
        for a in 0..b {
            let one = of[a] == of[b];
            let verdict = if one { Verdict::SameSetting } else { Verdict::DifferentSetting };
            out.push(pair([a, b], verdict, Some(if one { 2.0 } else { -2.0 })));
        }
    }
    out
}

proptest! {
    #[test]
    fn settings_that_are_told_rightly_are_found(of in prop::collection::vec(0usize..4, 2..12)) {
        let found = group(of.len(), &told(&of));
        for a in 0..of.len() {
            for b in 0..of.len() {
                let together = found.settings.iter().any(|s| s.contains(&a) && s.contains(&b));
                prop_assert_eq!(together, of[a] == of[b]);
            }
        }
        prop_assert!(found.contradictions.is_empty() && found.unplaced.is_empty());
        prop_assert!(found.settings.windows(2).all(|w| w[0].len() >= w[1].len()));
    }

    #[test]
    fn every_copy_is_in_one_place_whatever_is_told(
        copies in 1usize..9,
        pairs in prop::collection::vec((0usize..9, 0usize..9, 0usize..6, -3.0f64..3.0), 0..30),
    ) {
        let pairs: Vec<Pair> = pairs
            .into_iter()
            .filter(|&(a, b, ..)| a != b && a < copies && b < copies)
            .map(|(a, b, v, w)| pair([a, b], Verdict::ALL[v], Some(w)))
            .collect();
        let found = group(copies, &pairs);
        let mut all: Vec<usize> = found.settings.iter().flatten().chain(&found.unplaced).copied().collect();
        all.sort_unstable();
        prop_assert_eq!(all, (0..copies).collect::<Vec<_>>());
    }
}

#[test]
fn one_wrong_verdict_among_many_does_not_part_a_setting_and_is_shown() {
    let mut pairs = told(&[0, 0, 0, 0]);
    pairs[0] = pair([0, 1], Verdict::DifferentSetting, Some(-0.6));
    let found = group(4, &pairs);
    assert_eq!(found.settings, [vec![0, 1, 2, 3]]);
    let shown: Vec<_> = found.contradictions.iter().map(|c| (c.copy, c.of_one_setting_with)).collect();
    assert_eq!(shown, [(2, [0, 1]), (3, [0, 1])]);
}

#[test]
fn a_copy_without_a_verdict_is_not_placed_and_one_of_another_text_stands_alone() {
    let pairs = [
        pair([0, 1], Verdict::SameSettingWithDifferences, Some(2.0)),
        pair([0, 2], Verdict::Undetermined, None),
        pair([1, 2], Verdict::Undetermined, None),
        pair([0, 3], Verdict::DifferentText, None),
        pair([1, 3], Verdict::PartlyReset, None),
    ];
    let found = group(4, &pairs);
    assert_eq!((found.settings, found.unplaced), (vec![vec![0, 1], vec![3]], vec![2]));
}

/// A bar of ink so far from the left.
fn bar(at: usize) -> Plane<u8> {
    let mut plane = Plane::filled(30, 20, 0u8);
    for y in 3..17 {
        plane.row_mut(y)[at..at + 5].fill(200);
    }
    plane
}

/// Whether a box is that of the change at 100, and not what stands beside it.
fn is_the_place([x, ..]: [f64; 4]) -> bool {
    (x - 100.0).abs() < 1.0
}

/// Of no copy any ink is seen.
fn unseen(_: usize, _: [f64; 4]) -> Option<Plane<u8>> {
    None
}

/// A change in the line `line`, at `x` on the first and `x + 5` on the second.
fn change(line: usize, x: f64, class: ChangeClass) -> Change {
    Change {
        class,
        score: 0.9,
        box_a_px: [x, 40.0 * line as f64, 20.0, 20.0],
        box_b_px: [x + 5.0, 40.0 * line as f64, 20.0, 20.0],
        size_mm: None,
        size_x_heights: None,
        line: Some(line),
    }
}

/// Two copies of one setting of three lines with these changes.
fn differing(copies: [usize; 2], changes: Vec<Change>) -> Pair {
    let mut out = pair(copies, Verdict::SameSettingWithDifferences, Some(2.0));
    out.comparison.changes = changes;
    out.comparison.lines = (1..=3)
        .map(|number| LineFinding {
            number,
            standing: Standing::Same,
            weight_log10: Some(5.0),
            box_a_px: [0.0, 40.0 * number as f64, 500.0, 30.0],
            words_found: 8,
            words: 8,
            likeness: Some(0.0),
            sorts: None,
            drift: Vec::new(),
        })
        .collect();
    out
}

/// What these copies share, the first of them being the frame; on its photograph all lies 5 pixels further left.
fn shared(copies: &[usize], pairs: &[Pair], ink: &InkAt<'_>) -> SharedDifferences {
    shared_differences(&OneSetting {
        frame: copies.first().copied().unwrap_or(0),
        copies,
        pairs,
        ink,
        on_frame: &|_, [x, y, w, h]| Some([x - 5.0, y, w, h]),
    })
}

#[test]
fn copies_that_share_a_correction_agree_there() {
    use ChangeClass::SortChanged;
    // 0 and 3 as set; 1 and 2 with one letter corrected; 2 with a second.
    let pairs = [
        differing([0, 1], vec![change(1, 100.0, SortChanged)]),
        differing([0, 2], vec![change(1, 101.0, SortChanged), change(3, 300.0, SortChanged)]),
        differing([0, 3], Vec::new()),
        differing([1, 2], vec![change(3, 305.0, SortChanged)]),
    ];
    let found = shared(&[0, 1, 2, 3], &pairs, &unseen);
    let readings: Vec<_> = found.variants.iter().map(|v| (v.line, v.readings.clone())).collect();
    assert_eq!(readings, [(Some(1), vec![vec![0, 3], vec![1, 2]]), (Some(3), vec![vec![0, 1, 3], vec![2]])]);
    assert_eq!(found.groups, [vec![0, 3], vec![1], vec![2]]);
}

#[test]
fn two_corrections_of_one_place_are_two_readings() {
    use ChangeClass::SortChanged;
    let pairs = [
        differing([0, 1], vec![change(1, 100.0, SortChanged)]),
        differing([0, 2], vec![change(1, 100.0, SortChanged)]),
        // Told on the photograph of 1, where the place lies five pixels further.
        differing([1, 2], vec![change(1, 105.0, SortChanged)]),
    ];
    let found = shared(&[0, 1, 2], &pairs, &unseen);
    assert_eq!(found.variants[0].readings, [vec![0], vec![1], vec![2]]);
}

#[test]
fn what_could_not_be_judged_is_not_clear_and_parts_no_group() {
    use ChangeClass::SortLost;
    let mut unread = differing([0, 2], Vec::new());
    unread.comparison.lines[0].standing = Standing::Unjudged;
    let mut doubtful = differing([0, 3], Vec::new());
    doubtful.comparison.doubtful = vec![change(1, 100.0, SortLost)];
    let pairs = [differing([0, 1], vec![change(1, 100.0, SortLost)]), unread, doubtful];
    let found = shared(&[0, 1, 2, 3, 4], &pairs, &unseen);
    assert_eq!(found.variants[0].unclear, [2, 3, 4]);
    assert_eq!(found.groups, [vec![0, 2, 3, 4], vec![1]]);
    assert!(shared(&[], &pairs, &unseen).variants.is_empty());
}

#[test]
fn copies_that_were_not_laid_together_agree_by_their_ink() {
    use ChangeClass::SortChanged;
    let pairs: Vec<Pair> = [1, 2, 3].map(|b| differing([0, b], vec![change(1, 100.0, SortChanged)])).into();
    // The first, and a fourth that agrees with it, have one bar; 1 and 2 another; 3 a third.
    let pairs: Vec<Pair> = pairs.into_iter().chain([differing([0, 4], Vec::new())]).collect();
    let ink = |copy: usize, place: [f64; 4]| {
        Some(bar(if is_the_place(place) { [4, 12, 12, 21, 4][copy] } else { 9 }))
    };
    let found = shared(&[0, 1, 2, 3, 4], &pairs, &ink);
    assert_eq!(found.variants[0].readings, [vec![0, 4], vec![1, 2], vec![3]]);
    // Seen by nobody, changes of one kind are taken for one.
    let found = shared(&[0, 1, 2, 3, 4], &pairs, &unseen);
    assert_eq!(found.variants[0].readings, [vec![0, 4], vec![1, 2, 3]]);
}

#[test]
fn a_copy_that_lost_its_ink_there_does_not_agree() {
    let pairs =
        [differing([0, 1], vec![change(1, 100.0, ChangeClass::SortChanged)]), differing([0, 2], Vec::new())];
    let pairs: Vec<Pair> = pairs.into_iter().chain([3, 4].map(|b| differing([0, b], Vec::new()))).collect();
    let ink = |copy: usize, place: [f64; 4]| match copy {
        3 => Some(Plane::filled(30, 20, 0u8)),
        1 if is_the_place(place) => Some(bar(12)),
        _ => Some(bar(4)),
    };
    let found = shared(&[0, 1, 2, 3, 4], &pairs, &ink);
    assert_eq!(
        (&found.variants[0].readings, &found.variants[0].unclear),
        (&vec![vec![0, 2, 4], vec![1]], &vec![3])
    );
}

#[test]
fn what_the_frame_does_not_show_is_found_by_the_others() {
    use ChangeClass::SortLost;
    let mut unread = [1, 2, 3, 4].map(|b| differing([0, b], Vec::new()));
    for pair in &mut unread {
        pair.comparison.lines[0].standing = Standing::Unjudged;
    }
    // 1 and 2 have the letter, 3 and 4 lost it.
    let found =
        [[1, 3], [1, 4], [2, 3], [2, 4]].map(|both| differing(both, vec![change(1, 105.0, SortLost)]));
    let alike = [[1, 2], [3, 4]].map(|both| differing(both, Vec::new()));
    let pairs: Vec<Pair> = unread.into_iter().chain(found).chain(alike).collect();
    let found = shared(&[0, 1, 2, 3, 4], &pairs, &unseen);
    let variant = &found.variants[0];
    assert_eq!((variant.frame, variant.box_px[0], variant.line), (0, 100.0, Some(1)));
    assert_eq!((&variant.readings, &variant.unclear), (&vec![vec![1, 2], vec![3, 4]], &vec![0]));
    // Of one pair alone it is not taken.
    let pairs: Vec<Pair> = pairs.into_iter().filter(|p| !matches!(p.copies, [1 | 2, 4] | [2, 3])).collect();
    assert!(shared(&[0, 1, 2, 3, 4], &pairs, &unseen).variants.is_empty());
}

#[test]
fn a_doubtful_place_counts_where_copies_share_it_and_their_ink_bears_it_out() {
    let mut pairs = [1, 2, 3, 4].map(|b| differing([0, b], Vec::new()));
    for pair in &mut pairs[2..] {
        pair.comparison.doubtful = vec![change(1, 100.0, ChangeClass::SortChanged)];
    }
    let ink = |at: [usize; 5]| {
        move |copy: usize, place: [f64; 4]| Some(bar(if is_the_place(place) { at[copy] } else { 9 }))
    };
    let found = shared(&[0, 1, 2, 3, 4], &pairs, &ink([4, 4, 4, 20, 20]));
    assert_eq!(found.variants[0].readings, [vec![0, 1, 2], vec![3, 4]]);
    assert!(shared(&[0, 1, 2, 3, 4], &pairs, &ink([4, 4, 4, 4, 4])).variants.is_empty());
    pairs[2].comparison.doubtful.clear();
    assert!(shared(&[0, 1, 2, 3, 4], &pairs, &ink([4, 4, 4, 20, 20])).variants.is_empty());
}

#[test]
fn a_difference_no_larger_than_those_of_one_reading_is_not_clear() {
    let pairs: Vec<Pair> = [1, 2, 3].map(|b| differing([0, b], Vec::new())).into();
    let lone = differing([0, 4], vec![change(1, 100.0, ChangeClass::SortChanged)]);
    let pairs: Vec<Pair> = pairs.into_iter().chain([lone]).collect();
    // All are as unlike each other as the one that is said to differ: one bar, spotted otherwise in each copy.
    let ink = |copy: usize, place: [f64; 4]| {
        let mut plane = bar(9);
        let spots = (0..60)
            .map(|i| (i * i * 7 + i * (copy * 31 + 3) + copy * 101) % 600)
            .filter(|_| is_the_place(place));
        for at in spots {
            plane.row_mut(at / 30)[at % 30] = 200;
        }
        Some(plane)
    };
    let found = shared(&[0, 1, 2, 3, 4], &pairs, &ink);
    let variant = &found.variants[0];
    assert_eq!(variant.readings.len(), 1, "{variant:?}");
    assert!(variant.unclear.contains(&4), "{variant:?}");
}
