//! What must be on the page of many copies, and what must never be.

use super::*;
use crate::page::{FrameBox, SideModel};
use crate::pictures::{Overview, Shades, Small};

fn small(byte: u8) -> Small {
    Small { size_px: [30, 40], jpeg: vec![byte] }
}

fn copy(number: usize) -> CopyModel {
    CopyModel {
        number,
        side: SideModel {
            file_name: format!("copy-{number}.jpg"),
            sha256: Some(format!("{number}{number}{number}")),
            size_px: [300, 400],
            scale_words: "scale unknown".into(),
        },
        setting: (number < 4).then_some(1),
        why_not: (number == 4).then(|| "It holds too little print.".into()),
        shown: Some(Overview { photograph: small(1), ink: Shades { size_px: [30, 40], zlib: vec![2] } }),
    }
}

fn model() -> ManyModel {
    let place = PlaceModel {
        class_words: "other sorts".into(),
        line: Some(7),
        score: 0.97,
        box_px: [10, 20, 5, 6],
        on: 1,
        frame: FrameBox { x: 0.25, y: 0.5, w: 0.1, h: 0.05 },
        within: Some(FrameBox { x: 0.4, y: 0.4, w: 0.2, h: 0.2 }),
        readings: vec![vec![(1, Some(small(3)))], vec![(2, Some(small(4)))]],
        unclear: vec![(3, None)],
    };
    ManyModel {
        title: "copy-1.jpg to copy-4.jpg".into(),
        verdict_words: "Of 4 copies, 3 are of one setting.".into(),
        findings: vec!["Setting 1: copies 1, 2 and 3.".into()],
        cautions: vec!["Cast plates lie together just as well.".into()],
        warnings: vec!["The tag may lie.".into()],
        contradictions: vec!["Copy 1 is of one setting with both.".into()],
        measures: vec![("Laid together".into(), "6 pairs".into())],
        copies: (1..=4).map(copy).collect(),
        settings: vec![SettingModel {
            number: 1,
            words: "None agree in every place.".into(),
            copies: vec![0, 1, 2],
            groups: vec![vec![0, 2], vec![1]],
            places: vec![place],
        }],
        pairs: vec![PairModel {
            copies: [1, 2],
            verdict_words: "One setting, with differences.".into(),
            weight_log10: Some(2.2),
            places: 1,
        }],
        program: "reglet 0.1.0".into(),
        command: "reglet compare copies/".into(),
    }
}

#[test]
fn everything_of_the_model_is_said() {
    let page = page(&model());
    for words in [
        "<h1>Of 4 copies, 3 are of one setting.</h1>",
        "Setting 1: copies 1, 2 and 3.",
        "Cast plates lie together just as well.",
        "The tag may lie.",
        "Copy 1 is of one setting with both.",
        "<dt>Laid together</dt>\n<dd>6 pairs</dd>",
        "<td class=\"what\">line 7 <span>other sorts</span></td>",
        "<td class=\"reading opens\">a</td><td class=\"reading unsure\">",
        "<td class=\"reading other opens\">b</td>",
        "score 0.97. On copy 1: 5 × 6 px at 10, 20.",
        "not to be seen",
        "It holds too little print.",
        "data-readings=\"1:a 2:b 3:?\"",
        "<th scope=\"row\">1 and 2</th><td>One setting, with differences.</td><td>+2.2</td><td>1</td>",
        "SHA-256 444",
        "reglet compare copies/",
        "neither an authentication nor a valuation",
    ] {
        assert!(page.contains(words), "the page lacks {words:?}");
    }
}

#[test]
fn each_copy_is_in_the_page_once_with_its_ink() {
    let page = page(&model());
    assert_eq!(page.matches("src=\"data:image/jpeg;base64,AQ==\"").count(), 4);
    for copy in 1..=4 {
        let ink = format!("id=\"ink-{copy}\" data-width=\"30\" data-height=\"40\">Ag==</script>");
        assert_eq!(page.matches(&ink).count(), 1);
    }
}

#[test]
fn words_from_outside_never_become_markup() {
    let evil = "</script><script>alert(1)</script>\"'&";
    let mut model = model();
    model.title = evil.into();
    model.verdict_words = evil.into();
    model.findings = vec![evil.into()];
    model.cautions = vec![evil.into()];
    model.contradictions = vec![evil.into()];
    model.measures = vec![(evil.into(), evil.into())];
    for copy in &mut model.copies {
        copy.side.file_name = evil.into();
        copy.why_not = Some(evil.into());
    }
    model.settings[0].words = evil.into();
    model.settings[0].places[0].class_words = evil.into();
    model.pairs[0].verdict_words = evil.into();
    model.command = evil.into();
    let page = page(&model);
    assert_eq!(page.matches("<script>").count(), 1, "a word became a script");
    assert!(!page.contains("\"'&"), "a quote got out of its attribute");
}

#[test]
fn copies_of_no_common_setting_have_nothing_to_be_laid_together() {
    let mut model = model();
    model.settings[0].copies = vec![0];
    model.settings[0].groups = vec![vec![0]];
    model.settings[0].places.clear();
    let page = page(&model);
    assert!(!page.contains("id=\"looking\"") && !page.contains("Where the copies"));
    assert!(page.contains("<h3>Setting 1</h3>") && page.contains("<h3>Not placed</h3>"));
}
