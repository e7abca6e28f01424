//! What must be on every page, and what must never be.

use super::*;
use crate::pictures::{Level, PatchStroke, PictureSet, ResidualMap, Strips, Tiled};
use evidence::Standing;

fn picture() -> Tiled {
    let fine = Level { size_px: [20, 40], tiles: vec![vec![4, 5, 6]] };
    Tiled { whole: vec![1, 2, 3], whole_px: [10, 20], levels: vec![fine] }
}

fn side(file_name: &str) -> SideModel {
    SideModel {
        file_name: file_name.into(),
        sha256: None,
        size_px: [10, 20],
        scale_words: "scale unknown".into(),
    }
}

fn model() -> PageModel {
    PageModel {
        title: "Two copies".into(),
        verdict_words: "One setting of type".into(),
        verdict_reasons: vec!["Every line stands as it was.".into()],
        cautions: vec!["Cast plates lie together just as well.".into()],
        weight: Some(WeightModel { log10: -2.34, words: "for two settings".into() }),
        residual_words: "median 0.25 px".into(),
        sides: [side("one.jpg"), side("two.jpg")],
        pictures: Some(PictureSet { first: picture(), second: picture(), together: Some(picture()) }),
        no_changes: "None was found.".to_owned(),
        changes: vec![ChangeModel {
            class_words: "sort changed".into(),
            score: 0.9,
            doubtful: true,
            frame: FrameBox { x: 0.25, y: 0.5, w: 0.1, h: 0.05 },
            box_a_px: [2, 10, 1, 1],
            box_b_px: [3, 11, 1, 1],
            size_words: Some("1.0 × 0.5 mm".into()),
        }],
        lines: vec![LineModel {
            number: 1,
            frame: FrameBox { x: 0.1, y: 0.1, w: 0.8, h: 0.1 },
            standing: Standing::Reset,
            sorts_words: "otherwise".into(),
            drift_words: "to 0.5 mm".into(),
            drift: vec![DriftPoint { at: 0.5, drift: 0.5 }, DriftPoint { at: f64::NAN, drift: f64::NAN }],
        }],
        drift_unit: "mm".into(),
        residuals: Some(ResidualMap {
            shape: 1.5,
            print: Some(vec![7, 8, 9]),
            side: 0.1,
            patches: vec![
                PatchStroke { middle: [0.5, 0.5], displacement: Some([0.001, 0.0]) },
                PatchStroke { middle: [0.2, 0.1], displacement: None },
            ],
            drawn_times: 20.0,
            drawn_words: "it is drawn 20 times as long".into(),
        }),
        edges: vec![EdgeModel {
            number: 1,
            words: "In 1 of the 9 lines.".into(),
            strips: Some(Strips { size_px: [4, 30], first: vec![1, 2, 3], second: vec![1, 2, 3] }),
            frame: FrameBox { x: 0.4, y: 0.1, w: 0.1, h: 0.8 },
            crossings: vec![CrossingModel { line: 7, down: 0.25, off_words: "0.31 mm".into(), fails: true }],
        }],
        not_judged: vec!["The foot of the page.".into()],
        warnings: vec!["The tag may lie.".into()],
        program: "reglet 0.1.0".into(),
        command: "reglet compare one.jpg two.jpg".into(),
    }
}

/// The page without its style, script and face.
fn body(model: &PageModel) -> String {
    let page = page(model);
    let start = page.find("<body>").unwrap();
    let end = page.find("<script>").unwrap();
    page[start..end].to_owned()
}

#[test]
fn everything_of_the_model_is_said() {
    let body = body(&model());
    for words in [
        "<h1>One setting of type</h1>",
        "Every line stands as it was.",
        "Cast plates lie together just as well.",
        "<b class=\"weight\">\u{2212}2.3</b> for two settings",
        "median 0.25 px",
        "one.jpg",
        "two.jpg",
        "10 × 20 px; scale unknown",
        "sort changed",
        "0.90, <em>doubtful</em>",
        "2, 10; 1 × 1",
        "3, 11; 1 × 1",
        "set again",
        "to 0.5 mm",
        "The foot of the page.",
        "In 1 of the 9 lines.",
        "line 7: 0.31 mm",
        "it is drawn 20 times as long",
        "1 patches with their displacements, 1 not judged",
        "The tag may lie.",
        "reglet 0.1.0",
        "reglet compare one.jpg two.jpg",
        "neither an authentication nor a valuation",
    ] {
        assert!(body.contains(words), "the page lacks {words:?}");
    }
}

#[test]
fn each_picture_is_in_the_page_once_and_every_place_on_each() {
    let body = body(&model());
    assert_eq!(body.matches("draggable=\"false\" src=\"data:image/jpeg;base64,AQID\"").count(), 3);
    assert_eq!(
        body.matches("style=\"left:25.0000%;top:50.0000%;width:10.0000%;height:5.0000%\" data-number=\"1\"")
            .count(),
        3
    );
}

#[test]
fn what_is_finer_is_kept_tile_by_tile_beside_the_page() {
    let page = page(&model());
    assert_eq!(page.matches("data-sizes=\"10x20 20x40\"").count(), 3);
    for name in ["first", "second", "both"] {
        let block = format!(
            "<script type=\"text/plain\" class=\"tiles\" data-of=\"{name}\" data-side=\"512\">BAUG\n</script>"
        );
        assert_eq!(page.matches(&block).count(), 1, "{name}");
    }
}

#[test]
fn words_from_outside_never_become_markup() {
    let evil = "</script><script>alert(1)</script>\"'&";
    let mut model = model();
    model.title = evil.into();
    model.verdict_words = evil.into();
    model.verdict_reasons = vec![evil.into()];
    model.cautions = vec![evil.into()];
    model.weight = Some(WeightModel { log10: 0.0, words: evil.into() });
    model.residual_words = evil.into();
    for side in &mut model.sides {
        side.file_name = evil.into();
        side.scale_words = evil.into();
        side.sha256 = Some(evil.into());
    }
    model.changes[0].class_words = evil.into();
    model.lines[0].drift_words = evil.into();
    model.drift_unit = evil.into();
    model.edges[0].words = evil.into();
    model.edges[0].crossings[0].off_words = evil.into();
    if let Some(map) = &mut model.residuals {
        map.drawn_words = evil.into();
    }
    model.not_judged = vec![evil.into()];
    model.warnings = vec![evil.into()];
    model.program = evil.into();
    model.command = evil.into();
    let page = page(&model);
    assert_eq!(page.matches("<script>").count(), 1, "a word became a script");
    assert_eq!(page.matches("<script").count(), page.matches("</script>").count());
    assert!(!page.contains("\"'&"), "a quote got out of its attribute");
}

#[test]
fn nothing_is_asked_of_the_network() {
    let page = page(&model());
    assert!(page.contains("default-src 'none'"));
    for address in ["http://", "https://", "src=\"//", "@import"] {
        assert!(!page.contains(address), "the page asks for {address}");
    }
}

#[test]
fn two_that_could_not_be_laid_together_stand_apart() {
    let mut model = model();
    model.weight = None;
    model.changes.clear();
    model.lines.clear();
    if let Some(set) = &mut model.pictures {
        set.together = None;
    }
    let body = body(&model);
    assert!(body.contains("data-way=\"apart\"") && !body.contains("class=\"ways\""));
    assert!(body.contains("could not be laid together"));
    assert!(body.contains("none is given with this verdict"));
    assert!(!body.contains("Line by line"));
}

#[test]
fn a_page_without_pictures_is_still_a_page() {
    let mut model = model();
    model.pictures = None;
    model.edges[0].strips = None;
    let body = body(&model);
    assert!(body.contains("There is nothing to look at") && !body.contains("<img"));
    assert!(body.contains("<h1>One setting of type</h1>"));
}

#[test]
fn measuring_error_does_not_fill_a_chart() {
    let mut model = model();
    assert!(body(&model).contains("share one scale, ±0.50 mm"), "the largest drift sets the scale");
    model.lines[0].drift = vec![DriftPoint { at: 0.0, drift: 0.01 }, DriftPoint { at: 1.0, drift: -0.01 }];
    let body = body(&model);
    assert!(body.contains("share one scale, ±0.15 mm"));
    // Half a chart is 14 high; 3 are kept free: 14 -+ 0.01 / 0.15 * 11.
    assert!(body.contains("cy=\"13.3\"") && body.contains("cy=\"14.7\""));
}

#[test]
fn lines_that_could_not_be_judged_are_set_aside_and_do_not_set_the_scale() {
    let mut model = model();
    let stray = LineModel {
        number: 2,
        standing: Standing::Unjudged,
        drift: vec![DriftPoint { at: 0.5, drift: 4.0 }],
        ..model.lines[0].clone()
    };
    model.lines.push(stray);
    let body = body(&model);
    let (above, below) = body.split_once("<summary>Not judged: 1</summary>").unwrap();
    assert!(above.contains("data-line=\"1\"") && !above.contains("data-line=\"2\""));
    assert!(below.contains("data-line=\"2\""));
    assert!(above.contains("share one scale, ±0.50 mm"));
    model.lines.remove(0);
    assert!(page(&model).contains("No line could be judged."));
}

#[test]
fn the_same_model_gives_the_same_bytes() {
    assert_eq!(page(&model()), page(&model()));
}

#[test]
fn apostrophes_are_those_of_print() {
    assert_eq!(typeset("the paper's motion of 'a b'"), "the paper\u{2019}s motion of 'a b'");
}
