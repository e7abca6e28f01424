use super::super::{Pieces, layout, runs};
use super::*;

/// A framed box of crossing strokes, as a picture cut in wood.
fn hatched(ink: &mut Plane<u8>, r: Rect) {
    let (l, t, w, h) = (r.x as usize, r.y as usize, r.w as usize, r.h as usize);
    for y in 0..h {
        for x in 0..w {
            let is_frame = x < 4 || y < 4 || x + 4 >= w || y + 4 >= h;
            if is_frame || (x + 2 * y) % 23 < 5 || (3 * x + h - y) % 41 < 5 {
                ink.row_mut(t + y)[l + x] = 220;
            }
        }
    }
}

fn side<'a>(level: &'a Plane<u8>, pieces: &'a Pieces, x_height: f64) -> Side<'a> {
    Side { level, pieces, x_height, fall: 0.0, lines: &[] }
}

fn found(level: &Plane<u8>, x_height: f64) -> Vec<Rect> {
    let pieces = runs::pieces(level, super::super::DARK);
    let free = vec![true; pieces.parts.len()];
    cuts(&side(level, &pieces, x_height), &free).iter().map(|c| c.bounds).collect()
}

#[test]
fn a_photograph_of_nothing_but_a_cut_is_that_cut() {
    for margin in [0.0, 12.0, 90.0] {
        let place = Rect::new(margin, margin, 500.0, 380.0);
        let mut ink = Plane::filled((500.0 + 2.0 * margin) as usize, (380.0 + 2.0 * margin) as usize, 0u8);
        hatched(&mut ink, place);
        let cuts = layout(&ink, 1.0).cuts;
        assert_eq!(cuts.len(), 1, "{cuts:?}");
        let off = [cuts[0].bounds.x - place.x, cuts[0].bounds.bottom() - place.bottom()];
        assert!(off.iter().all(|d| d.abs() <= 4.0), "{margin}: {cuts:?}");
    }
}

#[test]
fn blank_paper_has_no_cut() {
    assert!(layout(&Plane::filled(400, 300, 0u8), 1.0).cuts.is_empty());
}

#[test]
fn a_large_letter_and_a_stain_are_no_cuts_and_a_picture_beside_a_black_bar_is() {
    let mut ink = Plane::filled(600, 600, 0u8);
    for y in 40..120 {
        // An H and a stain.
        ink.row_mut(y)[60..75].fill(220);
        ink.row_mut(y)[110..125].fill(220);
        ink.row_mut(y)[300..390].fill(220);
    }
    (75..90).for_each(|y| ink.row_mut(y)[75..110].fill(220));
    assert_eq!(found(&ink, 10.0), []);
    (0..600).for_each(|y| ink.row_mut(y)[0..40].fill(220));
    let place = Rect::new(40.0, 250.0, 300.0, 200.0);
    hatched(&mut ink, place);
    let cuts = found(&ink, 10.0);
    assert!(
        cuts.len() == 1 && (cuts[0].y - 250.0).abs() < 1.0 && (cuts[0].right() - 340.0).abs() < 1.0,
        "{cuts:?}"
    );
    assert!((cuts[0].x - 40.0).abs() <= 12.0, "{cuts:?}");
}

#[test]
fn a_band_of_equal_pieces_is_of_ornaments_and_one_of_unequal_pieces_a_cut() {
    let band = |unequal: usize| {
        let mut ink = Plane::filled(700, 200, 0u8);
        for piece in 0..12usize {
            for y in 0..44usize {
                for x in 0..44usize {
                    let turned = if (piece * 7 + 3) % 5 < unequal { (y, x) } else { (x, y) };
                    let shape = (turned.0 + (piece * unequal * 3)) * (turned.1 + 5);
                    if shape % 61 < 25 {
                        ink.row_mut(60 + y)[60 + 44 * piece + x] = 220;
                    }
                }
            }
        }
        ink
    };
    let likeness = |ink: &Plane<u8>| {
        let pieces = runs::pieces(ink, super::super::DARK);
        shape::likeness(&side(ink, &pieces, 10.0), Rect::new(60.0, 60.0, 528.0, 44.0))
    };
    assert!(likeness(&band(0)) > 0.9);
    assert!(likeness(&band(3)) < 0.5 * likeness(&band(0)));
}

#[test]
fn pieces_that_reach_into_each_other_are_one_cut_and_neighbours_are_two() {
    let strokes = |ink: &mut Plane<u8>, r: Rect, is_in: &dyn Fn(usize, usize) -> bool| {
        for y in r.y as usize..r.bottom() as usize {
            for x in r.x as usize..r.right() as usize {
                if is_in(x, y) && ((x + 2 * y) % 23 < 5 || (3 * x + 900 - y) % 41 < 5) {
                    ink.row_mut(y)[x] = 220;
                }
            }
        }
    };
    // Ink failed along a slanting band from corner to corner.
    let mut ink = Plane::filled(600, 600, 0u8);
    let whole = Rect::new(100.0, 100.0, 320.0, 300.0);
    strokes(&mut ink, whole, &|x, y| (x as i64 - 260 + 4 * (y as i64 - 250)).abs() > 130);
    let cuts = found(&ink, 10.0);
    assert_eq!(cuts.len(), 1, "{cuts:?}");
    assert!((cuts[0].h - whole.h).abs() < 25.0, "{cuts:?}");

    let mut ink = Plane::filled(600, 600, 0u8);
    strokes(&mut ink, Rect::new(40.0, 100.0, 200.0, 200.0), &|_, _| true);
    strokes(&mut ink, Rect::new(256.0, 100.0, 200.0, 200.0), &|_, _| true);
    assert_eq!(found(&ink, 10.0).len(), 2);
}
