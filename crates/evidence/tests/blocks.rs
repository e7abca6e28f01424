//! Impressions of blocks from the virtual press, whose relation is known, laid on each other.

#![allow(clippy::unwrap_used, reason = "a test that cannot print its impressions has failed")]

use evidence::block::{AlteredHow, BlockComparison, BlockVerdict, Cut, compare_cuts};
use press::Founts;
use press::block::{
    AlterationKind, BlockKind, BlockPair, BlockPull, CopyCare, CutOf, Relation, Surroundings,
};
use sheet::{Mm, Plane, Ppi, Rect};

fn cut(pull: &BlockPull) -> Cut {
    let place = Rect::around(pull.truth.cuts.iter().flat_map(|c| c.box_px.corners())).unwrap();
    Cut::of(&sheet::ink(&pull.picture.luminance()).darkness, place, None).unwrap()
}

fn printed(relation: Relation, block: BlockKind) -> [Cut; 2] {
    printed_of(relation, CutOf::One { block }, 42.0)
}

fn printed_of(relation: Relation, of: CutOf, size: f64) -> [Cut; 2] {
    let pair = BlockPair {
        relation,
        cut: of,
        size: Mm(size),
        years: 30.0,
        level: 1,
        ppi_a: Ppi(300.0),
        ppi_b: Ppi(250.0),
        among: [Surroundings::Alone; 2],
        seed: 11,
    };
    let printed = pair.print(&Founts::open().unwrap()).unwrap();
    [cut(&printed.a), cut(&printed.b)]
}

fn compared(relation: Relation, block: BlockKind) -> BlockComparison {
    let [a, b] = printed(relation, block);
    compare_cuts(&a, &b).comparison
}

#[test]
fn one_block_thirty_years_later_is_one_block() {
    for block in [BlockKind::Device, BlockKind::Pictorial, BlockKind::TailPiece] {
        let said = compared(Relation::SameBlock, block);
        assert_eq!(said.verdict, BlockVerdict::SameBlock, "{block:?}: {said:?}");
        assert!(said.weight_log10.is_some_and(|w| w > 0.7) && !said.is_mirrored);
        // Each sheet shrank by up to two and a half percent (common practice, no source).
        let [across, down] = said.size_ratio.unwrap();
        let is_near = |ratio: f64| (ratio / (250.0 / 300.0) - 1.0).abs() < 0.05;
        assert!(is_near(across) && is_near(down), "{across} {down}");
    }
}

/// A photograph may have been taken or saved turned: what is told is the same, and the edges lie where they lay.
#[test]
fn a_photograph_that_is_turned_is_of_the_same_block() {
    let [a, b] = printed(Relation::SameBlock, BlockKind::Device);
    for quarters in 1..4 {
        let said = compare_cuts(&a, &b.turned(quarters)).comparison;
        assert_eq!(said.verdict, BlockVerdict::SameBlock, "{quarters}: {said:?}");
        let edges = said.edges_per_mille.unwrap();
        assert!(edges.iter().all(|e| e.abs() < 25.0), "{quarters}: {edges:?}");
    }
}

#[test]
fn a_copy_by_eye_is_not_the_block() {
    for block in [BlockKind::Device, BlockKind::Pictorial, BlockKind::TailPiece] {
        let said = compared(Relation::ReCut { care: CopyCare::Usual }, block);
        assert!(!said.verdict.is_one_block(), "{block:?}: {said:?}");
        assert_ne!(said.verdict, BlockVerdict::DifferentDesign, "{block:?}: {said:?}");
    }
}

/// Masses alone do not part every two designs of one kind from copies made in haste: none may be told a copy, most are told
/// apart.
#[test]
fn another_design_is_no_copy() {
    let kinds = [
        BlockKind::Device,
        BlockKind::Pictorial,
        BlockKind::TailPiece,
        BlockKind::HeadPiece,
        BlockKind::Arms,
    ];
    let said = kinds.map(|block| compared(Relation::OtherDesign, block));
    for (block, said) in kinds.iter().zip(&said) {
        let is_none = matches!(said.verdict, BlockVerdict::DifferentDesign | BlockVerdict::Undetermined);
        assert!(is_none, "{block:?}: {said:?}");
        assert_eq!(said.weight_log10, None);
    }
    let told: Vec<BlockVerdict> = said.iter().map(|s| s.verdict).collect();
    let apart = told.iter().filter(|v| **v == BlockVerdict::DifferentDesign).count();
    assert!(apart >= 3, "{told:?}");
}

#[test]
fn of_a_composite_the_shared_part_is_one_block_and_the_other_is_not() {
    let of = CutOf::Composite { pieces: 2 };
    let [a, b] = printed_of(Relation::OtherDesign, of, 60.0);
    let said = compare_cuts(&a, &b).comparison;
    assert_eq!(said.verdict, BlockVerdict::SameBlockAltered, "{said:?}");
    assert!(said.pieces.iter().any(|p| p.verdict.is_one_block()), "{said:?}");
    let [a, b] = printed_of(Relation::SameBlock, of, 60.0);
    let said = compare_cuts(&a, &b).comparison;
    assert_eq!((said.verdict, said.pieces.len()), (BlockVerdict::SameBlock, 0), "{said:?}");
}

#[test]
fn a_strip_that_was_sawn_off_is_found() {
    let what = AlterationKind::CutDown;
    let [a, b] = printed(Relation::SameBlockAltered { what }, BlockKind::Device);
    for (a, b, what) in [(&a, &b, AlteredHow::SawnOff), (&b, &a, AlteredHow::SawnOffTheFirst)] {
        let said = compare_cuts(a, b).comparison;
        assert_eq!(said.verdict, BlockVerdict::SameBlockAltered, "{said:?}");
        assert_eq!(said.altered.iter().map(|a| a.what).collect::<Vec<_>>(), [what], "{said:?}");
    }
}

#[test]
fn what_reads_the_other_way_round_is_laid_and_said_and_not_called_one_block() {
    let [a, b] = printed(Relation::SameBlock, BlockKind::Device);
    let said = compare_cuts(&a, &b.mirrored()).comparison;
    assert!(said.is_mirrored, "{said:?}");
    assert!(!said.verdict.is_one_block());
    let reason = said.reasons.iter().find(|r| r.contains("other way round")).unwrap();
    assert!(
        reason.contains("mirrored") && reason.contains("set off") && reason.contains("traced"),
        "{reason}"
    );
}

#[test]
fn a_place_off_the_photograph_is_no_cut_and_bare_paper_is_not_judged() {
    let bare = Plane::filled(400, 300, 0u8);
    assert!(Cut::of(&bare, Rect::new(500.0, 0.0, 50.0, 50.0), None).is_none());
    let cut = Cut::of(&bare, Rect::new(50.0, 50.0, 200.0, 200.0), None).unwrap();
    let said = compare_cuts(&cut, &cut).comparison;
    assert_eq!(said.verdict, BlockVerdict::Undetermined);
    assert_eq!(said.weight_log10, None);
}
