//! What must be on the page of blocks, and what must never be.

use super::*;
use crate::page::{FrameBox, SideModel};
use crate::pictures::{Overview, Shades, Small};
use chronology::Dated;

fn small(byte: u8) -> Small {
    Small { size_px: [30, 40], jpeg: vec![byte] }
}

fn impression(number: usize) -> ImpressionModel {
    let is_seen = number < 4;
    let overview =
        || Overview { photograph: small(number as u8), ink: Shades { size_px: [30, 40], zlib: vec![2] } };
    ImpressionModel {
        number,
        side: SideModel {
            file_name: format!("sheet-{number}.jpg"),
            sha256: Some(format!("{number}{number}{number}")),
            size_px: [300, 400],
            scale_words: "scale unknown".into(),
        },
        block: is_seen.then_some(1),
        why_not: (number == 4).then(|| "No cut was found on it.".into()),
        cut_words: is_seen.then(|| "200 × 100 px at 10, 20; found".into()),
        dated: if number == 1 { Dated::Exactly { year: 1651 } } else { Dated::Unknown },
        cut: is_seen.then(|| small(50)),
        shown: is_seen.then(overview),
        head: is_seen.then(|| small(60)),
    }
}

fn damage(number: usize, seen: [(usize, Sign); 3], odd: Option<usize>) -> DamageModel {
    let seen = seen.map(|(impression, sign)| SeenModel {
        impression,
        sign,
        because: (sign == Sign::Unclear).then(|| "a fold runs through it".into()),
        chance: (sign == Sign::Unclear).then_some(0.46),
        is_odd: odd == Some(impression),
        crop: Some(small(70)),
    });
    DamageModel {
        number,
        class_words: if number == 1 { "wormhole" } else { "crack" }.into(),
        place_words: "12.0, 30.4 mm".into(),
        size_words: "1.7 mm".into(),
        frame: FrameBox { x: 0.2 * number as f64, y: 0.5, w: 0.1, h: 0.05 },
        seen: seen.into(),
        within: FrameBox { x: 0.4, y: 0.4, w: 0.2, h: 0.2 },
    }
}

/// Impression 2 is the earliest; 1 and 3 are tied.
fn block() -> BlockModel {
    use Sign::{Absent, Present, Unclear};
    let year = |median: f64| YearModel {
        median,
        half: [median - 3.0, median + 3.0],
        nearly_all: [median - 9.0, median + 9.0],
        rests_on_window: true,
        beyond: 0.8,
    };
    let row = |impression: usize| YearRow {
        impression,
        name: format!("sheet-{impression}.jpg"),
        dated: if impression == 1 { Dated::Exactly { year: 1651 } } else { Dated::Unknown },
        by_order: (impression == 2).then(|| year(1640.0)),
        with_rate: (impression == 2).then(|| year(1644.0)),
        bounds_words: if impression == 2 { "not after 1651 (impression 1)" } else { "" }.into(),
        plain_words: None,
    };
    BlockModel {
        number: 1,
        words: "Impressions 1 to 3; 2 damages.".into(),
        impressions: vec![2, 1, 3],
        frame: 1,
        composite: Some(small(80)),
        damages: vec![
            damage(1, [(2, Absent), (1, Present), (3, Present)], None),
            damage(2, [(2, Present), (1, Absent), (3, Unclear)], Some(1)),
        ],
        order: Some(OrderModel {
            states: vec![
                StateModel { rank: 1, impressions: vec![2], new: vec![2] },
                StateModel { rank: 2, impressions: vec![1, 3], new: vec![1] },
            ],
            rows: vec![
                RowModel { damage: 2, came_after: 0, gone_after: None, chance: 0.9 },
                RowModel { damage: 1, came_after: 1, gone_after: None, chance: 0.8 },
            ],
            before: vec![vec![0.5, 0.97, 0.9], vec![0.03, 0.5, 0.5], vec![0.1, 0.5, 0.5]],
            stand: vec![
                vec![None, Some(Stand::Contradicted), Some(Stand::Parted)],
                vec![Some(Stand::Contradicted), None, Some(Stand::Tied)],
                vec![Some(Stand::Parted), Some(Stand::Tied), None],
            ],
            contradictions: vec!["No order explains every place.".into()],
            notes: vec!["The chances were counted out over every order.".into()],
            priors: vec!["One damage in a hundred is made good again.".into()],
        }),
        dates: Some(DatesModel {
            rows: [2, 1, 3].map(row).into(),
            rate_words: "0.14 damages a year.".into(),
            checks: vec!["As the model has it.".into()],
            held_out: vec![HeldOutModel {
                impression: 1,
                known: 1651.0,
                median: 1660.0,
                half: [1655.0, 1664.0],
                nearly_all: [1653.0, 1670.0],
                is_beyond: true,
            }],
            warnings: vec!["One dated impression is few.".into()],
            priors: vec!["Rate: Gamma.".into()],
        }),
        doubts: vec!["Impression 3 does not tell of 1 of 2 damages.".into()],
    }
}

fn model() -> BlocksModel {
    BlocksModel {
        title: "sheet-1.jpg to sheet-4.jpg".into(),
        verdict_words: "All 3 impressions agree with one block.".into(),
        findings: vec!["Block 1: impressions 1 to 3.".into()],
        cautions: vec!["Casts lie together just as well.".into()],
        warnings: vec!["The tag may lie.".into()],
        measures: vec![("Compared".into(), "3 pairs".into())],
        impressions: (1..=4).map(impression).collect(),
        blocks: vec![block()],
        pairs: vec![CutPairModel {
            impressions: [1, 2],
            verdict_words: "Both impressions agree with one block.".into(),
            weight_log10: Some(1.25),
            likeness_words: "0.93; 99.3 × 100.4 %".into(),
            reasons: vec!["None wanders.".into()],
        }],
        doubts: vec!["Of one pair the photographs do not allow a verdict.".into()],
        program: "reglet 0.1.0".into(),
        command: "reglet blocks sheets/".into(),
    }
}

#[test]
fn everything_of_the_model_is_said() {
    let page = page(&model());
    for words in [
        "<h1>All 3 impressions agree with one block.</h1>",
        "Block 1: impressions 1 to 3.",
        "Casts lie together just as well.",
        "The tag may lie.",
        "Of one pair the photographs do not allow a verdict.",
        "<h2>Block 1</h2>",
        "<td>12.0, 30.4 mm</td><td>1.7 mm</td><td>1 and 3</td><td>2</td><td>none</td>",
        "<td>3 <span class=\"why\">(a fold runs through it)</span></td>",
        "<th scope=\"colgroup\" colspan=\"2\" class=\"tied\"><span class=\"unseen\">state </span>II<span> tied</span></th>",
        "there from the first, 90\u{a0}%",
        "new in II, 80\u{a0}%",
        "No order explains every place.",
        "<td>97<b class=\"dagger\">†</b>",
        "<td class=\"even\">50<span class=\"unseen\">, tied</span></td>",
        "The chances were counted out over every order.",
        "there from the first: <a class=\"ring\" href=\"#damage-1-2\">",
        "Scholars disagree about the second",
        "<b>1640</b><span>50\u{a0}%: 1637–1643</span><span>95\u{a0}%: 1631–1649</span>",
        "<b>1644</b>",
        "beyond the dated (80\u{a0}%)",
        "rests on an assumed end",
        "not after 1651 (impression 1)",
        "0.14 damages a year.",
        "<td>1653–1670</td><td>missed, beyond the others</td>",
        "One dated impression is few.",
        "Rate: Gamma.",
        "Impression 3 does not tell of 1 of 2 damages.",
        "200 × 100 px at 10, 20; found",
        "No cut was found on it.",
        "<th scope=\"row\">1 and 2</th>",
        "<td>+1.2</td><td>0.93; 99.3 × 100.4 %</td>",
        "None wanders.",
        "data-readings=\"1:b 2:a 3:b\"",
        "data-readings=\"1:a 2:b 3:?\"",
        "SHA-256 444",
        "neither an authentication nor a valuation",
    ] {
        assert!(page.contains(words), "the page lacks {words:?}");
    }
}

#[test]
fn every_cell_has_its_sign_and_what_stands_against_the_order_is_marked() {
    let page = page(&model());
    let picture = &page[page.find("<table class=\"staircase").unwrap()..];
    let picture = &picture[..picture.find("</table>").unwrap()];
    let count = |what: &str| picture.matches(what).count();
    assert_eq!(count("class=\"sign present\""), 3);
    assert_eq!(count("class=\"sign absent\""), 2);
    assert_eq!(count("class=\"sign unclear\""), 1);
    assert_eq!((count("against the order"), count("<td class=\"absent worn odd\"")), (1, 1));
    // The heavy line stands at the first impression for what was there from the first, at the second for what came then.
    assert_eq!(count("class=\"present worn came\""), 2);
    assert!(picture.find("<b>2</b>") < picture.find("<b>1</b>"), "the earliest stands first");
}

#[test]
fn each_impression_is_in_the_page_once_as_it_lies_and_once_as_ink() {
    let page = page(&model());
    for (coded, impression) in [("AQ==", 1), ("Ag==", 2), ("Aw==", 3)] {
        let picture = format!("src=\"data:image/jpeg;base64,{coded}\"");
        assert_eq!(page.matches(&picture).count(), 1);
        assert_eq!(page.matches(&format!("id=\"ink-{impression}\"")).count(), 1);
    }
    assert!(!page.contains("id=\"ink-4\""));
}

#[test]
fn a_ring_is_drawn_only_where_the_damage_shows() {
    let mut model = model();
    model.blocks[0].damages[0].seen[1].sign = Sign::Absent;
    let page = page(&model);
    // Of the tied impressions 1 and 3 only the latter shows damage 1.
    assert_eq!(page.matches("class=\"ringed\"").count(), 2);
}

#[test]
fn links_between_the_picture_and_the_table_lead_somewhere() {
    let page = page(&model());
    for link in page.split("href=\"#").skip(1).filter_map(|rest| rest.split('"').next()) {
        assert!(page.contains(&format!("id=\"{link}\"")), "{link} leads nowhere");
    }
    let mut ids: Vec<&str> = page.split(" id=\"").skip(1).filter_map(|r| r.split('"').next()).collect();
    let all = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), all, "an id is given twice");
}

#[test]
fn words_from_outside_never_become_markup() {
    let evil = "</script><script>alert(1)</script>\"'&";
    let mut model = model();
    model.title = evil.into();
    model.verdict_words = evil.into();
    model.findings = vec![evil.into()];
    model.doubts = vec![evil.into()];
    model.measures = vec![(evil.into(), evil.into())];
    for impression in &mut model.impressions {
        impression.side.file_name = evil.into();
        impression.cut_words = Some(evil.into());
        impression.why_not = Some(evil.into());
    }
    let block = &mut model.blocks[0];
    block.words = evil.into();
    block.doubts = vec![evil.into()];
    for damage in &mut block.damages {
        damage.class_words = evil.into();
        damage.place_words = evil.into();
        damage.size_words = evil.into();
        damage.seen.iter_mut().for_each(|s| s.because = Some(evil.into()));
    }
    let order = block.order.as_mut().unwrap();
    order.contradictions = vec![evil.into()];
    order.notes = vec![evil.into()];
    let dates = block.dates.as_mut().unwrap();
    dates.rate_words = evil.into();
    dates.warnings = vec![evil.into()];
    for row in &mut dates.rows {
        row.name = evil.into();
        row.bounds_words = evil.into();
        row.plain_words = Some(evil.into());
    }
    model.pairs[0].verdict_words = evil.into();
    model.pairs[0].reasons = vec![evil.into()];
    model.pairs[0].likeness_words = evil.into();
    model.command = evil.into();
    let page = page(&model);
    assert_eq!(page.matches("<script>").count(), 1, "a word became a script");
    assert!(!page.contains("\"'&"), "a quote got out of its attribute");
}

#[test]
fn without_order_years_or_pictures_the_page_says_what_there_is() {
    let mut model = model();
    let block = &mut model.blocks[0];
    block.order = None;
    block.dates = None;
    block.composite = None;
    for damage in &mut block.damages {
        damage.seen.iter_mut().for_each(|s| s.crop = None);
    }
    for impression in &mut model.impressions {
        impression.shown = None;
    }
    let page = page(&model);
    assert!(!page.contains("id=\"looking\"") && !page.contains("<h3>The years</h3>"));
    for words in ["No picture could be drawn.", "No order is given.", "<h3>The impressions</h3>"] {
        assert!(page.contains(words), "the page lacks {words:?}");
    }
    assert!(!page.contains("class=\"see\""), "nothing can be laid together");
}
