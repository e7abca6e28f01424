use super::*;
use crate::Plane;

/// A page of pale stripes of print under a light that falls off to the right, on a dark table.
fn page(width: usize, height: usize, light: impl Fn(f64, f64) -> f64) -> Plane<u8> {
    let mut p = Plane::filled(width, height, 0u8);
    for y in 0..height {
        for x in 0..width {
            let (u, v) = ((x as f64 + 0.5) / width as f64, (y as f64 + 0.5) / height as f64);
            let on_page = (0.1..0.9).contains(&u) && (0.1..0.9).contains(&v);
            let printed = (0.2..0.8).contains(&u) && (0.2..0.8).contains(&v) && x % 24 < 8 && y % 40 < 20;
            let paper = if on_page { 220.0 } else { 25.0 };
            let ink = if printed { 0.25 } else { 1.0 };
            p.row_mut(y)[x] = (paper * ink * light(u, v)) as u8;
        }
    }
    p
}

#[test]
fn print_is_full_and_paper_and_table_are_bare_under_any_light() {
    for light in [|_: f64, _: f64| 1.0, |u: f64, _: f64| 1.0 - 0.5 * u, |u: f64, v: f64| 0.5 + 0.25 * (u + v)]
    {
        let photograph = page(1200, 1600, light);
        let ink = ink(&photograph);
        for y in 0..1600 {
            for x in 0..1200 {
                let printed =
                    (240..960).contains(&x) && (320..1280).contains(&y) && x % 24 < 8 && y % 40 < 20;
                let d = ink.darkness.at(x, y);
                if printed {
                    assert!(d > 200, "print at {x}, {y} has darkness {d}");
                } else {
                    assert!(d < 12, "no print at {x}, {y}, but darkness {d}");
                }
            }
        }
        assert!((ink.full_ink - 0.75).abs() < 0.05);
    }
}

#[test]
fn the_page_is_found_on_the_table_and_is_the_picture_when_there_is_none() {
    let on_table = ink(&page(1200, 1600, |_, _| 1.0)).page;
    assert!((on_table.x - 120.0).abs() <= 8.0 && (on_table.y - 160.0).abs() <= 8.0, "{on_table:?}");
    assert!((on_table.right() - 1080.0).abs() <= 8.0 && (on_table.bottom() - 1440.0).abs() <= 8.0);
    let bare = ink(&Plane::filled(300, 200, 180u8));
    assert_eq!(bare.page, Rect::new(0.0, 0.0, 300.0, 200.0));
    assert!(bare.darkness.data().iter().all(|&d| d == 0));
}

#[test]
fn a_large_black_is_ink_and_a_ruler_on_the_table_is_not() {
    let mut p = page(1200, 1600, |_, _| 1.0);
    for y in 400..480 {
        p.row_mut(y)[300..400].fill(50);
    }
    for y in 300..900 {
        p.row_mut(y)[1120..1180].fill(if y < 600 { 250 } else { 243 });
        p.row_mut(y)[1140..1150].fill(5);
    }
    let ink = ink(&p).darkness;
    assert!((405..475).all(|y| (305..395).all(|x| ink.at(x, y) > 200)));
    assert!((300..900).all(|y| (1100..1200).all(|x| ink.at(x, y) == 0)));
}

#[test]
fn show_through_and_a_gutter_shadow_are_not_ink() {
    // A shadow to half the light over the last tenth; faint marks of 15 percent all over.
    let mut p = page(1200, 1600, |u, _| 1.0 - (u - 0.8).max(0.0) * 5.0);
    for y in 0..1600 {
        for (x, v) in p.row_mut(y).iter_mut().enumerate() {
            if x % 24 >= 12 && x % 24 < 20 && y % 40 >= 20 && *v > 60 {
                *v = (f32::from(*v) * 0.85) as u8;
            }
        }
    }
    let ink = ink(&p).darkness;
    let dirty = (0..1600 * 1200).filter(|i| (i / 1200) % 40 >= 20 && ink.data()[*i] > 16).count();
    assert!(dirty < 200, "{dirty} pixels of shadow and show-through became ink");
}

#[test]
fn a_halved_photograph_has_the_halved_ink() {
    let p = page(1200, 1600, |u, _| 1.0 - 0.4 * u);
    let (whole, half) = (ink(&p).darkness.halved(), ink(&p.halved()).darkness);
    let apart: u64 = whole.data().iter().zip(half.data()).map(|(a, b)| u64::from(a.abs_diff(*b))).sum();
    assert!(
        (apart as f64) < 2.0 * whole.data().len() as f64,
        "mean difference {}",
        apart as f64 / whole.data().len() as f64
    );
}

#[test]
fn tiny_blank_and_black_pictures_are_bare() {
    for (w, h) in [(1, 1), (1, 50), (50, 1), (3, 2), (513, 2)] {
        for v in [0u8, 7, 128, 255] {
            let ink = ink(&Plane::filled(w, h, v));
            assert_eq!((ink.darkness.width(), ink.darkness.height()), (w, h));
            assert!(ink.darkness.data().iter().all(|&d| d == 0), "{w} x {h} of {v}");
        }
    }
}
