use proptest::prelude::*;

use super::*;

fn warp(creases: Vec<Crease>) -> Warp {
    Warp {
        laying: Laying {
            about: Point::new(60.0, 90.0),
            turn: Degrees(0.7),
            shear: 0.002,
            shift: Point::new(14.0, 16.0),
        },
        shrinkage: [0.018, 0.007],
        waves: vec![Wave {
            direction: Point::new(0.8, 0.6),
            length: 55.0,
            phase: 0.4,
            sway: Point::new(0.3, 0.4),
        }],
        creases,
        curl: Some(Curl { gutter: -6.0, to_the_right: true, steepness: Degrees(38.0), reach: 22.0 }),
        lens: Lens {
            aims_at: Point::new(75.0, 100.0),
            middle: Point::new(900.0, 1200.0),
            px_per_mm: 11.8,
            distance: 700.0,
            roll: Degrees(91.5),
            pitch: Degrees(2.0),
            yaw: Degrees(-1.5),
            distortion: -0.006,
            unit: 1500.0,
        },
    }
}

fn crease(fold: Fold) -> Crease {
    Crease { through: Point::new(70.0, 80.0), normal: Degrees(80.0), jump: 0.8, taper: 0.004, fold }
}

proptest! {
    #[test]
    fn there_and_back_is_the_same_place(x in 0.0f64..120.0, y in 0.0f64..180.0) {
        for creases in [vec![], vec![crease(Fold::BeforePrinting)], vec![crease(Fold::AfterPrinting)]] {
            let warp = warp(creases);
            let p = Point::new(x, y);
            if warp.shows(p) {
                let back = warp.to_forme(warp.to_photograph(p)).unwrap();
                prop_assert!(back.distance(p) < 1e-6, "{p:?} came back as {back:?}");
            }
        }
    }
}

#[test]
fn a_flat_sheet_under_an_upright_camera_is_a_scale() {
    let mut warp = warp(vec![]);
    warp.laying = Laying { turn: Degrees(0.0), shear: 0.0, ..warp.laying };
    warp.waves.clear();
    warp.curl = None;
    warp.shrinkage = [0.02, 0.01];
    warp.lens =
        Lens { roll: Degrees(0.0), pitch: Degrees(0.0), yaw: Degrees(0.0), distortion: 0.0, ..warp.lens };
    let (a, b) = (warp.to_photograph(Point::new(10.0, 10.0)), warp.to_photograph(Point::new(110.0, 110.0)));
    assert!((b.x - a.x - 100.0 * 0.98 * 11.8).abs() < 1e-9 && (b.y - a.y - 100.0 * 0.99 * 11.8).abs() < 1e-9);
}

#[test]
fn an_opened_crease_shows_paper_that_no_forme_touched() {
    let warp = warp(vec![crease(Fold::BeforePrinting)]);
    let fold = crease(Fold::BeforePrinting);
    let inside = fold.through + Point::new(0.4 * 80f64.to_radians().cos(), 0.4 * 80f64.to_radians().sin());
    assert!(warp.to_forme(warp.way().lying_to_photograph(inside)).is_none());
}

#[test]
fn positive_pitch_brings_the_foot_nearer() {
    let mut warp = warp(vec![]);
    warp.lens = Lens { roll: Degrees(0.0), pitch: Degrees(5.0), yaw: Degrees(0.0), ..warp.lens };
    let width = |y: f64| {
        let (l, r) = (
            warp.way().lying_to_photograph(Point::new(60.0, y)),
            warp.way().lying_to_photograph(Point::new(90.0, y)),
        );
        r.x - l.x
    };
    assert!(width(190.0) > width(10.0));
}
