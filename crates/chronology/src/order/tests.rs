use super::*;
use crate::chance::Chance;
use crate::table::tests::table;

fn chains(cells: &Cells, draws: usize) -> Posterior {
    let draws = run(11, draws, |number, chance| ByOrder::new(cells, None, number, chance));
    assert!(draws.convergence.is_reached, "{:?}", draws.convergence);
    Posterior::of(&draws, cells.impressions())
}

#[test]
fn chains_give_what_counting_out_gives() {
    for rows in [
        &["0011", "0111", "0101", "0001"][..],
        &["001", "010", "011", "0?1", "011", "100"],
        &["00111", "0?011", "01111", "10101"],
        &["01", "01", "10", "11"],
    ] {
        let table = table(rows);
        let cells = Cells::new(&table, &table.seen_damages());
        let (counted, drawn) = (exact::posterior(&cells, 16), chains(&cells, 8000));
        for (a, b) in counted.before.iter().flatten().zip(drawn.before.iter().flatten()) {
            // 32 000 draws of some ten each to an independent one: 0.01 is one standard error.
            assert!((a - b).abs() < 0.025, "{rows:?}: {a} {b}");
        }
        assert!((counted.missed.mean - drawn.missed.mean).abs() < 0.004);
    }
}

#[test]
fn an_order_comes_out_with_ties_as_one_rank() {
    // C is the first, then A and D, which nothing parts, then B.
    let told = order(&table(&["1101", "1101", "1101", "0100", "0100", "0100"]), 1);
    let ranks: Vec<_> = told.arrangement.impressions.iter().map(|p| (p.impression, p.rank)).collect();
    assert_eq!(ranks, [(2, 1), (0, 2), (3, 2), (1, 3)]);
    assert!((told.before[0][3] - 0.5).abs() < 0.03);
    assert!(told.before[2][1] > 0.95);
    let came: Vec<_> = told.arrangement.damages.iter().map(|d| d.came_after).collect();
    assert_eq!(came, [1, 1, 1, 3, 3, 3]);
    assert!(told.contradictions.cells.is_empty());
}

#[test]
fn a_larger_table_with_errors_is_put_right() {
    let mut chance = Chance::new(4, 0);
    let (n, m) = (12, 40);
    let row = |chance: &mut Chance| -> String {
        let gap = chance.below(n);
        (0..n).map(|i| if (i >= gap) == chance.happens(0.03) { '0' } else { '1' }).collect()
    };
    let rows: Vec<String> = (0..m).map(|_| row(&mut chance)).collect();
    let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
    let told = order(&table(&rows), 1);
    let place: Vec<f64> = told.arrangement.impressions.iter().map(|p| p.impression as f64).collect();
    let truth: Vec<f64> = (0..n).map(|i| i as f64).collect();
    assert!(crate::tau_b(&place, &truth).unwrap() > 0.9);
    assert!(told.warnings.is_empty(), "{:?}", told.warnings);
    assert_eq!(told, order(&table(&rows), 1));
}

#[test]
fn a_plugged_hole_is_said_to_be_perhaps_repaired() {
    let stairs: Vec<String> = (1..10).flat_map(|k| vec!["0".repeat(k) + &"1".repeat(10 - k); 3]).collect();
    let mut rows: Vec<&str> = stairs.iter().map(String::as_str).collect();
    rows.push("0111100000");
    let told = order(&table(&rows), 1);
    let order: Vec<usize> = told.arrangement.impressions.iter().map(|p| p.impression).collect();
    assert_eq!(order, (0..10).collect::<Vec<_>>());
    let repair = &told.contradictions.repairs[0];
    assert_eq!((repair.damage, repair.shown_by.len(), repair.lacked_by.len()), (27, 4, 5));
    assert!(repair.chance > 0.9 && repair.order_chance > 0.9);
    assert_eq!(told.contradictions.cells.len(), 4);
    assert!(told.warnings.iter().any(|w| w.starts_with(
        "Perhaps repaired or plugged: 28 is shown by B, C, D, E and lacked by F, G, H, I, J, which are later"
    )));
}

#[test]
fn without_damage_there_is_no_order_and_that_is_said() {
    let told = order(&table(&["0?0", "000"]), 1);
    assert!(told.warnings.iter().any(|w| w.contains("no order to be found")));
    assert!(told.arrangement.impressions.iter().all(|p| p.rank == 1));
}

#[test]
fn thirty_impressions_and_sixty_damages_are_ordered() {
    let mut chance = Chance::new(9, 0);
    let rows: Vec<String> = (0..60)
        .map(|_| {
            let gap = chance.below(30);
            (0..30)
                .map(|i| {
                    if chance.happens(0.1) {
                        '?'
                    } else if (i >= gap) != chance.happens(0.03) {
                        '1'
                    } else {
                        '0'
                    }
                })
                .collect()
        })
        .collect();
    let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
    let told = order(&table(&rows), 1);
    let place: Vec<f64> = told.arrangement.impressions.iter().map(|p| p.impression as f64).collect();
    let truth: Vec<f64> = (0..30).map(f64::from).collect();
    assert!(crate::tau_b(&place, &truth).unwrap() > 0.85);
    let OrderMethod::Chains(c) = told.method else { panic!("counted") };
    assert!(c.is_reached, "{c:?}");
}

#[test]
fn two_blocks_under_one_name_are_said_to_be_so() {
    let rows = [
        "11110000", "01110000", "01110000", "00110000", "00110000", "00010000", "11110000", "00110000",
        "00000111", "00000111", "00001111", "00000011", "00000001", "00001111", "00000011", "00000111",
    ];
    let told = order(&table(&rows), 1);
    assert!(told.contradictions.two_blocks.is_some());
    assert!(
        told.warnings.iter().any(|w| w.starts_with("Perhaps two blocks under one name: ")),
        "{:?}",
        told.warnings
    );
}
