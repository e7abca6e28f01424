//! A small picture in every kind of file against the brightness that Pillow reads from it. The files were
//! made by `tests/reference/make_fixtures.py`.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop at what should not be")]

mod common;

use common::{fixture, fixtures, pgm};
use sheet::decode::{DecodeRequest, decode, decode_in_colour, decode_rgb};

/// The bound of the project: at most half a level of mean difference.
const MEAN_BOUND: f64 = 0.5;

#[test]
fn every_fixture_has_the_brightness_that_pillow_reads() {
    let names = fixtures();
    assert!(names.len() > 80, "only {} fixtures", names.len());
    let mut failures = Vec::new();
    for name in names {
        let expected = pgm(&name);
        let found = match decode(&fixture(&name), &DecodeRequest::default()) {
            Ok(photograph) => photograph.luminance,
            Err(e) => {
                failures.push(format!("{name}: {e}"));
                continue;
            }
        };
        if (found.width(), found.height()) != (expected.width(), expected.height()) {
            failures.push(format!("{name}: {} by {} pixels", found.width(), found.height()));
            continue;
        }
        let differences = found.data().iter().zip(expected.data()).map(|(a, b)| a.abs_diff(*b));
        let mean = differences.clone().map(f64::from).sum::<f64>() / found.data().len() as f64;
        let worst = differences.max().unwrap_or(0);
        println!("{name}: mean difference {mean:.3}, worst {worst}");
        if mean > MEAN_BOUND {
            failures.push(format!("{name}: mean difference {mean:.3}, worst {worst}"));
        }
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}

#[test]
fn both_at_once_are_the_same_as_each_alone() {
    for name in fixtures() {
        let bytes = fixture(&name);
        let ask = DecodeRequest::default();
        let (photograph, rgb) = decode_in_colour(&bytes, &ask).unwrap();
        assert_eq!(photograph, decode(&bytes, &ask).unwrap(), "{name}");
        // The decoder of JPEG rounds its conversion otherwise than the formula of the standard.
        let alone = decode_rgb(&bytes, &ask).unwrap().rgb;
        let off = rgb.data().as_flattened().iter().zip(alone.data().as_flattened());
        let worst = off.map(|(p, q)| p.abs_diff(*q)).max().unwrap();
        assert!(worst <= 3, "{name}: {worst}");
    }
}

#[test]
fn colour_has_the_brightness_of_its_luma() {
    for name in fixtures() {
        let bytes = fixture(&name);
        let grey = decode(&bytes, &DecodeRequest::default()).unwrap().luminance;
        let rgb = decode_rgb(&bytes, &DecodeRequest::default()).unwrap().rgb;
        assert_eq!((grey.width(), grey.height()), (rgb.width(), rgb.height()), "{name}");
        // Rec. ITU-R BT.601-7 weights; colours out of gamut are clipped by a JPEG, hence a mean and not each.
        let luma = |[r, g, b]: [u8; 3]| 0.299 * f64::from(r) + 0.587 * f64::from(g) + 0.114 * f64::from(b);
        let differences = grey.data().iter().zip(rgb.data()).map(|(&y, &c)| (f64::from(y) - luma(c)).abs());
        let mean = differences.sum::<f64>() / grey.data().len() as f64;
        assert!(mean <= 1.0, "{name}: mean difference {mean:.3}");
    }
}
