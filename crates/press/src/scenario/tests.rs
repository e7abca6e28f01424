use super::*;
use crate::variant::ChangeClass;

fn scenario(kind: ScenarioKind, level: u8, seed: u64) -> Scenario {
    Scenario { kind, level, ppi_a: Ppi(90.0), ppi_b: Ppi(75.0), seed }
}

#[test]
fn every_kind_can_be_printed_and_bears_its_verdict_out() {
    let founts = Founts::open().unwrap();
    for (i, kind) in ScenarioKind::JUDGEABLE.into_iter().enumerate() {
        for level in [i as u8 % 4, 4] {
            let pair = scenario(kind, level, 40 + u64::from(level)).print(&founts).unwrap();
            assert_eq!(pair.truth.verdict, kind.verdict());
            let changed = !pair.truth.changes.is_empty();
            let may = matches!(kind, ScenarioKind::SameSettingWithDifferences | ScenarioKind::PartlyReset);
            assert_eq!(changed, may, "{kind:?} {level}");
            if may {
                assert!(pair.truth.changes.iter().any(|c| c.judgeable), "{kind:?} {level}");
            }
            let same = pair.a.truth.setting.id == pair.b.truth.setting.id;
            let one = matches!(
                kind,
                ScenarioKind::SameSetting
                    | ScenarioKind::SameSettingWithDifferences
                    | ScenarioKind::PartlyReset
            );
            assert_eq!(same, one, "{kind:?}");
        }
    }
}

#[test]
fn one_copy_photographed_twice_has_the_same_accidents_and_another_camera() {
    let founts = Founts::open().unwrap();
    for level in [1, 4] {
        let pair = scenario(ScenarioKind::OneCopy, level, 7).print(&founts).unwrap();
        let (a, b) = (&pair.a.truth, &pair.b.truth);
        assert_eq!(a.warp.laying, b.warp.laying);
        assert_eq!((a.warp.shrinkage, &a.warp.creases), (b.warp.shrinkage, &b.warp.creases));
        assert_ne!(a.warp.lens, b.warp.lens);
        let kinds = |t: &Truth| t.incidents.iter().map(|i| i.kind).collect::<Vec<_>>();
        assert_eq!(kinds(a), kinds(b));
    }
}

#[test]
fn much_corrected_is_one_setting_with_changes_of_sorts_in_half_of_its_lines() {
    let founts = Founts::open().unwrap();
    let pair = scenario(ScenarioKind::MuchCorrected, 1, 3).print(&founts).unwrap();
    let changes = &pair.truth.changes;
    assert_eq!(pair.a.truth.setting.id, pair.b.truth.setting.id);
    assert!(changes.iter().all(|c| ChangeClass::OF_SORTS.contains(&c.class)), "{changes:?}");
    assert!(3 * changes.len() >= pair.a.truth.setting.text_lines().len(), "{}", changes.len());
}

#[test]
fn the_same_scenario_gives_the_same_bytes() {
    let founts = Founts::open().unwrap();
    let one = scenario(ScenarioKind::PartlyReset, 4, 7).print(&founts).unwrap();
    let two = scenario(ScenarioKind::PartlyReset, 4, 7).print(&founts).unwrap();
    assert!(one == two);
}

#[test]
fn different_texts_share_few_words_in_order_and_other_line_ends_share_the_words() {
    let founts = Founts::open().unwrap();
    for seed in 0..6 {
        let (a, b, _) = settings_of(&scenario(ScenarioKind::DifferentText, 0, seed), &founts).unwrap();
        let words = |s: &Setting| -> Vec<String> {
            s.lines
                .iter()
                .filter(|l| matches!(l.role, crate::Role::Body))
                .flat_map(|l| l.words.iter().map(|w| w.text.clone()))
                .collect()
        };
        let (x, y) = (words(&a), words(&b));
        let same = x.iter().zip(&y).filter(|(p, q)| p == q).count();
        assert!(same * 2 <= x.len(), "{same} of {}", x.len());
        let (a, b, _) = settings_of(&scenario(ScenarioKind::OtherLineEnds, 0, seed), &founts).unwrap();
        let ends = |s: &Setting| -> Vec<u32> {
            s.lines
                .iter()
                .filter(|l| l.role == crate::Role::Body)
                .filter_map(|l| l.words.last().map(|w| w.token))
                .collect()
        };
        assert_ne!(ends(&a), ends(&b));
    }
}

#[test]
fn different_texts_have_less_than_six_words_in_ten_in_common_order() {
    let founts = Founts::open().unwrap();
    for seed in 0..40 {
        let (a, b, _) = settings_of(&scenario(ScenarioKind::DifferentText, 0, seed), &founts).unwrap();
        let words = |s: &Setting| -> Vec<String> {
            s.lines.iter().flat_map(|l| l.words.iter().map(|w| w.text.clone())).collect()
        };
        let (x, y) = (words(&a), words(&b));
        // The longest common subsequence by the textbook's table.
        let mut table = vec![vec![0usize; y.len() + 1]; x.len() + 1];
        for (i, p) in x.iter().enumerate() {
            for (j, q) in y.iter().enumerate() {
                table[i + 1][j + 1] =
                    if p == q { table[i][j] + 1 } else { table[i][j + 1].max(table[i + 1][j]) };
            }
        }
        let share = table[x.len()][y.len()] as f64 / x.len().min(y.len()) as f64;
        assert!(share < 0.6, "seed {seed}: {share:.2}");
    }
}

#[test]
fn where_a_word_does_not_fit_the_measure_another_page_is_drawn() {
    let founts = Founts::open().unwrap();
    // This seed draws a word too long for the measure at first.
    assert!(settings_of(&scenario(ScenarioKind::OtherLineEnds, 0, 192), &founts).is_ok());
}
