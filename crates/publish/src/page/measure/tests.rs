use super::*;
use crate::page::{FrameBox, SideModel};
use crate::pictures::Tiled;
use sheet::Plane;

fn model() -> MeasuresModel {
    let frame = FrameBox { x: 0.1, y: 0.2, w: 0.5, h: 0.02 };
    MeasuresModel {
        title: "order <of> merrin.jpg".into(),
        verdict_words: "Twenty lines of the text measure 83.4 ± 0.4 mm: pica, if it is set solid.".into(),
        findings: vec!["2 lines of type in one size.".into()],
        cautions: vec!["This is evidence.".into()],
        warnings: Vec::new(),
        measures: vec![("Scale".into(), "300 ppi, as stated".into())],
        side: SideModel {
            file_name: "order <of> merrin.jpg".into(),
            sha256: Some("ab".repeat(32)),
            size_px: [60, 40],
            scale_words: "300 ppi, as stated".into(),
        },
        picture: Tiled::of_photograph(&Plane::filled(60, 40, [200u8; 3])).unwrap(),
        sizes: vec![SizeModel {
            number: 1,
            lines: 2,
            twenty: "83.4 ± 0.4 mm".into(),
            by_faces: "81.0 ± 0.4 mm".into(),
            from_run: 2,
            x_height: "1.72 ± 0.05 mm".into(),
            extents: "3.01; 3.22; 0.98 mm".into(),
            gap: Some("Of size 1 the gap is 0.3 mm.".into()),
            longest: "118.3 ± 0.6 mm".into(),
            bodies: "pica (English), set solid".into(),
        }],
        lines: vec![LineModel {
            number: 1,
            size: 1,
            words: 7,
            falls: None,
            bow_px: Some(-0.4),
            frame,
            baseline: vec![[0.1, 0.2], [0.6, 0.2]],
        }],
        type_area: Some(frame),
        page: None,
        ink: vec![(frame, 0.4)],
        incidents: Vec::new(),
        program: "reglet 0".into(),
        command: "reglet measure x".into(),
    }
}

#[test]
fn a_page_says_what_was_measured_and_names_stay_text() {
    let html = page(&model());
    for said in
        ["83.4 ± 0.4 mm", "pica (English), set solid", "Nothing was found", "<td>short</td>", "\u{2212}0.4"]
    {
        assert!(html.contains(said), "{said}");
    }
    assert!(html.contains("order &lt;of&gt; merrin.jpg") && !html.contains("order <of>"));
    assert!(html.contains("points=\"0.10000,0.20000 0.60000,0.20000\""));
}

#[test]
fn incidents_are_walked_through_and_boxed() {
    let mut with = model();
    with.incidents = vec![IncidentModel {
        class_words: "a risen space or quad".into(),
        score: 0.87,
        frame: FrameBox { x: 0.5, y: 0.5, w: 0.01, h: 0.02 },
        ends: None,
        where_words: "line 1; 1.0 × 2.1 mm".into(),
    }];
    let html = page(&with);
    assert!(html.contains("a risen space or quad") && html.contains("0.87") && html.contains("id=\"next\""));
    assert_eq!(html.matches("class=\"place\"").count(), 1);
}

#[test]
fn a_side_without_lines_has_no_tables() {
    let mut bare = model();
    (bare.sizes, bare.lines, bare.type_area, bare.ink) = (Vec::new(), Vec::new(), None, Vec::new());
    let html = page(&bare);
    assert!(["sizes", "lines", "ink"].iter().all(|id| !html.contains(&format!("id=\"{id}\""))));
}
