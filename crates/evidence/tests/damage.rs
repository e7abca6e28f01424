//! Damage planted in drawn impressions of a block is found, and what is no damage is not told.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use evidence::block::{Cut, Damages, Impressed, Shows, damages, lay};
use register::Laid;
use sheet::{Plane, Rect};

const SIDE: usize = 480;

/// A gap: a box of the drawing in which there is no ink.
type Gap = [usize; 4];

/// A square of hatching in a frame, each field of it hatched its own way, with gaps; strokes `more` pixels fatter.
fn drawn(gaps: &[Gap], more: f64) -> Plane<u8> {
    let mut ink = Plane::filled(SIDE, SIDE, 0u8);
    for y in 0..SIDE {
        for x in 0..SIDE {
            let (fx, fy) = (x as f64, y as f64);
            let inside = (40..SIDE - 40).contains(&x) && (40..SIDE - 40).contains(&y);
            let frame = (30..SIDE - 30).contains(&x) && (30..SIDE - 30).contains(&y) && !inside;
            let field = (x / 53 + 2 * (y / 47)) % 5;
            let turn = 0.4 + 0.61 * field as f64;
            let across =
                fx * turn.sin() - fy * turn.cos() + 0.9 * (fy / 31.0).sin() + 2.0 * (fx / 47.0).cos();
            let pitch = 13.0 + field as f64;
            let from_line = (across.rem_euclid(pitch) - pitch / 2.0).abs();
            let cover = (2.2 + more / 2.0 - from_line + 0.5).clamp(0.0, 1.0);
            let gap =
                gaps.iter().any(|g| (g[0]..g[0] + g[2]).contains(&x) && (g[1]..g[1] + g[3]).contains(&y));
            let cover = if frame {
                1.0
            } else if inside {
                cover
            } else {
                0.0
            };
            ink.row_mut(y)[x] = if gap { 0 } else { (220.0 * cover) as u8 };
        }
    }
    ink
}

fn cut(ink: &Plane<u8>) -> Cut {
    let place = Rect::new(30.0, 30.0, (SIDE - 60) as f64, (SIDE - 60) as f64);
    Cut::of(ink, place, None).unwrap()
}

fn found(inks: &[Plane<u8>]) -> Damages {
    let cuts: Vec<Cut> = inks.iter().map(cut).collect();
    let laid: Vec<Laid> = cuts[1..].iter().map(|c| lay(&cuts[0], c).unwrap().as_given(c).unwrap()).collect();
    let mut all = vec![Impressed { number: 0, cut: &cuts[0], laid: None }];
    let others = cuts[1..].iter().zip(&laid).enumerate();
    all.extend(others.map(|(i, (cut, laid))| Impressed { number: i + 1, cut, laid: Some(laid) }));
    damages(&all).unwrap()
}

#[test]
fn a_hole_that_later_impressions_have_is_found_with_who_shows_it() {
    let hole = [200, 180, 26, 24];
    let told = found(&[drawn(&[], 0.0), drawn(&[hole], 0.4), drawn(&[hole], 0.0)]).damages;
    let on_hole =
        |b: [f64; 4]| Rect::new(b[0], b[1], b[2], b[3]).shared(Rect::new(200.0, 180.0, 26.0, 24.0)).is_some();
    let of_hole: Vec<_> = told.iter().filter(|d| on_hole(d.box_px)).collect();
    assert!(!of_hole.is_empty(), "{told:#?}");
    for d in &of_hole {
        assert_eq!((&d.absent[..], &d.present[..]), (&[0][..], &[1, 2][..]), "{d:#?}");
    }
    assert_eq!(of_hole.len(), told.len(), "nothing else was lost: {told:#?}");
}

#[test]
fn a_heavier_impression_has_lost_nothing_and_filled_nothing() {
    for more in [1.0, 2.0] {
        let told = found(&[drawn(&[], 0.0), drawn(&[], more), drawn(&[], 0.5)]).damages;
        assert!(told.is_empty(), "{more}: {told:#?}");
    }
}

#[test]
fn where_an_impression_took_no_ink_it_tells_nothing() {
    let hole = [200, 180, 26, 24];
    let mut pale = drawn(&[], 0.0);
    // Half of it took no ink; towards its rim, as where a ball missed, there is a little more.
    for y in 90..330 {
        for x in 90..330 {
            let within = [x - 90, 329 - x, y - 90, 329 - y].into_iter().min().unwrap();
            let took = 1.0 - (within as f64 / 40.0).min(1.0);
            let ink = &mut pale.row_mut(y)[x];
            *ink = (f64::from(*ink) * took) as u8;
        }
    }
    let [one, another] = [0.0, 0.5].map(|more| drawn(&[hole], more));
    let told = found(&[drawn(&[], 0.0), one, pale, drawn(&[], 0.5), another]).damages;
    let wrongly = told.iter().flat_map(|d| &d.seen).filter(|s| s.impression == 2 && s.shows == Shows::Absent);
    assert_eq!(wrongly.count(), 0, "{told:#?}");
    assert!(told.iter().any(|d| d.present.contains(&1)), "{told:#?}");
}
