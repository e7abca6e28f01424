//! Creases planted in displacements, and displacements that only look like creases.

use super::{Crease, Line, find};
use crate::lay::LineGuide;
use crate::needed::needed;
use crate::smooth::Sample;
use sheet::Point;

/// Pixels to the millimetre, side of a window and noise, in pixels.
const PX_PER_MM: f64 = 10.0;
const SIDE: f64 = 30.0;
const NOISE: f64 = 0.4;
const LINES: LineGuide = LineGuide { turn: 0.0, pitch: 50.0 };

/// A sheet of 150 by 200 mm in windows 2.5 mm apart, displaced as told, with a cockle and noise.
fn sheet(motion: impl Fn(Point) -> Point) -> Vec<Sample> {
    let rough = |x: f64, k: f64| ((x * k).sin() * 43_758.547).fract() * NOISE;
    (0..60 * 80)
        .map(|i| {
            let at = Point::new(f64::from(i % 60) * 25.0, f64::from(i / 60) * 25.0);
            let cockle = Point::new(3.0 * (at.x / 90.0).sin(), 2.0 * (at.y / 110.0).cos());
            let noise = Point::new(rough(f64::from(i), 12.9898), rough(f64::from(i), 78.233));
            Sample { at, shift: motion(at) + cockle + noise, weight: 1.0 }
        })
        .collect()
}

/// No fold is seen.
fn far(_: Point) -> f64 {
    f64::INFINITY
}

fn still(_: Point) -> Point {
    Point::new(0.0, 0.0)
}

#[test]
fn a_fold_is_found_where_it_is_and_as_wide_as_it_is() {
    // Through (700, 900), 20 degrees off the horizontal, 0.6 mm wide.
    let (sin, cos) = 110f64.to_radians().sin_cos();
    let normal = Point::new(cos, sin);
    let beyond = |p: Point| (p.x - 700.0) * normal.x + (p.y - 900.0) * normal.y;
    let found = find(
        &sheet(|p| if beyond(p) > 0.0 { normal * -6.0 } else { still(p) }),
        PX_PER_MM,
        NOISE,
        SIDE,
        LINES,
        &far,
    );
    assert_eq!(found.len(), 1, "{found:?}");
    let turn = (found[0].normal().x * normal.y - found[0].normal().y * normal.x).abs().asin().to_degrees();
    assert!(turn < 0.7, "off by {turn} degrees");
    for x in [100.0, 700.0, 1300.0] {
        let on = Point::new(x, 900.0 - (x - 700.0) * normal.x / normal.y);
        assert!(found[0].beyond(on).abs() < 12.0, "{} px off at {x}", found[0].beyond(on));
        assert!((found[0].jump_beside(on).abs() - 6.0).abs() < 1.0, "{}", found[0].jump_beside(on));
    }
}

#[test]
fn two_folds_that_cross_are_two() {
    let found = find(
        &sheet(|p| {
            let right = if p.x > 800.0 { -5.0 } else { 0.0 };
            let low = if p.y > 1100.0 + 0.1 * p.x { 7.0 } else { 0.0 };
            Point::new(right, low)
        }),
        PX_PER_MM,
        NOISE,
        SIDE,
        LINES,
        &far,
    );
    assert_eq!(found.len(), 2, "{found:?}");
}

#[test]
fn cockled_paper_has_no_crease() {
    assert!(find(&sheet(still), PX_PER_MM, NOISE, SIDE, LINES, &far).is_empty());
}

#[test]
fn lines_that_were_set_again_are_no_creases() {
    // Rows 5 mm high, every one displaced along itself by its own amount, growing along it.
    let found = find(
        &sheet(|p| {
            let row = (p.y / 50.0).floor();
            let own = (row * 12.9898).sin() * 12.0;
            Point::new(own * (p.x / 1500.0), 0.0)
        }),
        PX_PER_MM,
        NOISE,
        SIDE,
        LINES,
        &far,
    );
    assert!(found.is_empty(), "{found:?}");
}

#[test]
fn one_line_that_was_raised_is_no_pair_of_creases() {
    let found = find(
        &sheet(|p| if (900.0..950.0).contains(&p.y) { Point::new(0.0, 5.0) } else { still(p) }),
        PX_PER_MM,
        NOISE,
        SIDE,
        LINES,
        &far,
    );
    assert!(found.is_empty(), "{found:?}");
}

#[test]
fn the_last_line_was_raised_and_no_crease_runs_before_it() {
    // Below it only the signature and the catchword.
    let foot = |p: Point| (1075.0..1125.0).contains(&p.y) && ((600.0..750.0).contains(&p.x) || p.x > 1200.0);
    let mut samples =
        sheet(|p| if (1000.0..1050.0).contains(&p.y) { Point::new(0.0, 5.0) } else { still(p) });
    samples.retain(|s| s.at.y < 1050.0 || foot(s.at));
    let found = find(&samples, PX_PER_MM, NOISE, SIDE, LINES, &far);
    assert!(found.is_empty(), "{found:?}");
    // A fold that the paper shows there makes it one.
    let found = find(&samples, PX_PER_MM, NOISE, SIDE, LINES, &|p| (p.y - 980.0).abs());
    assert_eq!(found.len(), 1, "{found:?}");
}

/// A crease told of by mistake, or rightly: upright, through (700, 1000).
fn told() -> Crease {
    let line = Line { through: Point::new(700.0, 1000.0), normal: Point::new(1.0, 0.0) };
    Crease { line, jump: 6.0, taper: 0.0 }
}

#[test]
fn a_crease_over_bent_paper_is_not_needed() {
    let samples = sheet(still);
    assert!(needed(&samples, SIDE, vec![told()], 7.0 * PX_PER_MM).is_empty());
}

#[test]
fn a_fold_is_needed_and_what_was_laid_beside_it_is_not() {
    let samples = sheet(|p| if p.x > 700.0 { Point::new(6.0, 0.0) } else { still(p) });
    let low = Line { through: Point::new(700.0, 400.0), normal: Point::new(0.0, 1.0) };
    let other = Crease { line: low, ..told() };
    let kept = needed(&samples, SIDE, vec![other, told()], 7.0 * PX_PER_MM);
    assert_eq!(kept, vec![told()]);
}
