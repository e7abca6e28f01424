//! Bad input: every kind of it must give an error that says what is wrong and what to do.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop at what should not be")]

mod common;

use std::num::NonZeroU32;

use common::{fixture, fixtures};
use sheet::decode::{DecodeError, DecodeRequest, Format, Limits, Notice, decode};

fn error(bytes: &[u8]) -> DecodeError {
    match decode(bytes, &DecodeRequest::default()) {
        Ok(_) => panic!("this should be refused"),
        Err(e) => e,
    }
}

fn page(number: u32) -> DecodeRequest {
    DecodeRequest { page: NonZeroU32::new(number), ..DecodeRequest::default() }
}

#[test]
fn no_bytes_and_no_picture() {
    assert_eq!(error(b"").to_string(), "the file is empty: fetch or copy it again");
    assert_eq!(
        error(b"Dear Sir, I send you the sheet").to_string(),
        "this is not a picture (it begins with \"Dear Sir, I \"): give a JPEG, PNG, TIFF, WebP, JPEG 2000 or PDF file"
    );
    assert_eq!(
        error(b"GIF89a\x01\0\x01\0").to_string(),
        "GIF files are not read: open it in a program that shows it and save it as a PNG, or as a JPEG of the best \
         quality"
    );
    assert!(
        error(b"\0\0\0\x1cftypheic").to_string().starts_with("HEIC files are not read: set the telephone")
    );
}

/// A header bomb of 30,000 by 30,000 pixels in every kind of file: a real file with its size overwritten.
fn bombs() -> Vec<(Format, Vec<u8>)> {
    let big = 30_000u32;
    let mut bombs = Vec::new();

    let mut jpeg = fixture("420.jpg");
    let frame = jpeg.windows(2).position(|w| w == [0xFF, 0xC0]).unwrap();
    jpeg[frame + 5..frame + 7].copy_from_slice(&(big as u16).to_be_bytes());
    jpeg[frame + 7..frame + 9].copy_from_slice(&(big as u16).to_be_bytes());
    bombs.push((Format::Jpeg, jpeg));

    let mut png = fixture("rgb.png");
    png[16..20].copy_from_slice(&big.to_be_bytes());
    png[20..24].copy_from_slice(&big.to_be_bytes());
    let sum = crc(&png[12..29]);
    png[29..33].copy_from_slice(&sum.to_be_bytes());
    bombs.push((Format::Png, png));

    let mut tiff = fixture("grey-4-bits.tif");
    for tag in [256u16, 257, 278] {
        let entry = tiff.windows(4).position(|w| w[..2] == tag.to_le_bytes() && w[2..] == [3, 0]).unwrap();
        tiff[entry + 8..entry + 12].copy_from_slice(&big.to_le_bytes());
    }
    bombs.push((Format::Tiff, tiff));

    // A WebP cannot be larger than 16,384 pixels a side: 268 megapixels, still above the limit.
    let mut webp = fixture("lossy.webp");
    let frame = webp.windows(3).position(|w| w == [0x9D, 0x01, 0x2A]).unwrap();
    webp[frame + 3..frame + 7].copy_from_slice(&[0xFF, 0x3F, 0xFF, 0x3F]);
    bombs.push((Format::WebP, webp));

    for name in ["bare.j2k", "grey.jp2"] {
        let mut jp2 = fixture(name);
        let size = jp2.windows(4).position(|w| w == [0xFF, 0x4F, 0xFF, 0x51]).unwrap();
        for at in [8, 12, 24, 28] {
            jp2[size + at..size + at + 4].copy_from_slice(&big.to_be_bytes());
        }
        bombs.push((Format::Jpeg2000, jp2));
    }

    bombs.push((Format::Pdf, fixture("bomb.pdf")));
    bombs
}

/// The checksum of a PNG chunk (PNG, annex D).
fn crc(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(u32::MAX, |sum, &b| {
        (0..8).fold(sum ^ u32::from(b), |s, _| if s & 1 == 1 { 0xEDB8_8320 ^ (s >> 1) } else { s >> 1 })
    })
}

#[test]
fn header_bombs_are_refused_from_the_header() {
    for (format, bytes) in bombs() {
        let told = error(&bytes);
        assert!(matches!(told, DecodeError::TooManyPixels { .. }), "{format}: {told}");
        if format == Format::Png {
            assert_eq!(
                told.to_string(),
                "the picture is 30000 by 30000 pixels, more than the 250000000 pixels that are read: crop it or \
                 reduce it"
            );
        }
    }
}

#[test]
fn the_limits_are_the_callers() {
    let limits = Limits { max_pixels: 550, max_bytes: 100 };
    let few = |limits| DecodeRequest { limits, ..DecodeRequest::default() };
    let told = decode(&fixture("rgb.png"), &few(limits)).unwrap_err();
    assert!(told.to_string().ends_with("more than the 100 that are read: take a smaller file"), "{told}");
    let limits = Limits { max_pixels: 550, ..Limits::default() };
    for name in fixtures() {
        let told = decode(&fixture(&name), &few(limits)).unwrap_err();
        assert!(matches!(told, DecodeError::TooManyPixels { .. }), "{name}: {told}");
    }
}

/// However many bytes are missing at the end, there is an error and never half a picture. What stands
/// behind the picture may go: the directory or the tags that come last in some files.
#[test]
fn no_part_of_a_file_is_taken_for_the_whole() {
    for name in fixtures() {
        let bytes = fixture(&name);
        let whole = decode(&bytes, &DecodeRequest::default()).unwrap();
        for kept in 0..bytes.len() {
            if let Ok(part) = decode(&bytes[..kept], &DecodeRequest::default()) {
                assert!(part.luminance == whole.luminance, "{name}: {kept} of {} bytes", bytes.len());
            }
        }
    }
}

#[test]
fn a_file_cut_in_half_is_said_to_be_cut_short() {
    for name in [
        "420.jpg",
        "progressive.jpg",
        "rgb.png",
        "lzw.tif",
        "group4.tif",
        "lossless.webp",
        "lossless.jp2",
        "bare.j2k",
    ] {
        let bytes = fixture(name);
        let told = error(&bytes[..bytes.len() / 2]);
        let format = Format::of(&bytes).unwrap();
        let end = "data end before the picture does: the file was cut short, fetch or copy it again";
        assert_eq!(told.to_string(), format!("the {format} {end}"), "{name}");
    }
}

/// Some programs put an end marker behind whatever they received of a JPEG.
#[test]
fn a_jpeg_that_ends_too_early_with_an_end_marker_is_cut_short() {
    // Of a progressive file that is told by the scans that are missing, so not when it is cut in the last,
    // which begins after 35 percent of this one.
    for (name, shares) in [("tall.jpg", 40..99), ("tall-progressive.jpg", 15..36)] {
        let bytes = fixture(name);
        assert!(decode(&bytes, &DecodeRequest::default()).is_ok());
        for share in shares {
            let cut = [&bytes[..bytes.len() * share / 100], &[0xFF, 0xD9]].concat();
            let told = error(&cut);
            assert!(
                matches!(told, DecodeError::CutShort { .. } | DecodeError::Damaged { .. }),
                "{name}: {told}"
            );
        }
    }
}

#[test]
fn kinds_of_jpeg_that_are_not_read_are_named() {
    let bytes = fixture("420.jpg");
    let frame = bytes.windows(2).position(|w| w == [0xFF, 0xC0]).unwrap();
    for (marker, bits, kind) in [
        (0xC3, 8, "lossless JPEG"),
        (0xC5, 8, "hierarchical coding"),
        (0xC9, 8, "arithmetic coding"),
        (0xC1, 12, "12 bits a sample"),
    ] {
        let mut other = bytes.clone();
        (other[frame + 1], other[frame + 4]) = (marker, bits);
        assert_eq!(
            error(&other).to_string(),
            format!("JPEG of this sort is not read ({kind}): save it as 8-bit grey or RGB, TIFF or PNG")
        );
    }
}

#[test]
fn what_the_jpeg_library_gets_wrong_is_refused() {
    for name in ["apart-420.jpg", "apart-440.jpg"] {
        let told = error(&fixture(name)).to_string();
        assert!(told.contains("coarse colour in scans of its own"), "{name}: {told}");
    }
}

#[test]
fn a_wrong_extension_is_noticed_and_goes_on() {
    let named =
        |extension: &str| DecodeRequest { extension: Some(extension.into()), ..DecodeRequest::default() };
    let notices = |e: &str| decode(&fixture("420.jpg"), &named(e)).unwrap().file.notices;
    assert_eq!(notices("jpg"), []);
    assert_eq!(notices(".JPEG"), []);
    assert_eq!(notices(""), []);
    assert_eq!(notices("tif"), [Notice::WrongExtension { extension: "tif".into(), format: Format::Jpeg }]);
    assert_eq!(
        notices("tif")[0].to_string(),
        "The name ends in .tif but the file is JPEG; it was read as JPEG"
    );
}

#[test]
fn of_an_animation_the_first_picture_is_taken() {
    for (name, format) in [("animated.png", Format::Png), ("animated.webp", Format::WebP)] {
        let file = decode(&fixture(name), &DecodeRequest::default()).unwrap().file;
        assert_eq!(file.notices, [Notice::Animated { format, pictures: 2 }]);
    }
}

#[test]
fn pages_of_a_tiff() {
    let bytes = fixture("pages.tif");
    let largest = decode(&bytes, &DecodeRequest::default()).unwrap();
    assert_eq!(
        (largest.file.page, &largest.file.notices[..]),
        (Some(2), &[Notice::PageChosen { page: 2, pages: 3 }][..])
    );
    let third = decode(&bytes, &page(3)).unwrap();
    assert_eq!((third.luminance.width(), third.luminance.height(), third.file.page), (5, 7, Some(3)));
    assert!(third.file.notices.is_empty());
    assert_eq!(
        decode(&bytes, &page(4)).unwrap_err().to_string(),
        "page 4 was asked for, but the file has 3: ask for a page from 1 to 3"
    );
    let of_one = decode(&fixture("rgb.png"), &page(7)).unwrap_err().to_string();
    assert_eq!(of_one, "page 7 was asked for, but the file has one picture only: name it without a page");
    assert!(decode(&fixture("rgb.png"), &page(1)).is_ok());
    // The levels of a pyramid are no pages.
    let pyramid = decode(&fixture("pyramid.tif"), &DecodeRequest::default()).unwrap();
    assert_eq!((pyramid.file.page, pyramid.file.notices.len(), pyramid.luminance.width()), (None, 0, 29));
}

#[test]
fn pages_of_a_pdf() {
    let bytes = fixture("pages-2.pdf");
    assert_eq!(
        error(&bytes).to_string(),
        "the PDF has 2 pages: say which one, with #1 to #2 after the name of the file"
    );
    assert_eq!(decode(&bytes, &page(2)).unwrap().file.page, Some(2));
    assert_eq!(decode(&bytes, &page(3)).unwrap_err(), DecodeError::NoSuchPage { asked: 3, pages: 2 });
    assert!(
        error(&fixture("lines-only.pdf")).to_string().starts_with("page 1 of the PDF holds no photograph")
    );
    assert_eq!(error(&fixture("layers.pdf")), DecodeError::PageInPieces { page: 1, pictures: 2 });
    assert_eq!(
        error(&fixture("locked.pdf")).to_string(),
        "the PDF is locked with a password: open it with the password and save it unlocked"
    );
    // A file that only forbids printing can be read.
    let free = decode(&fixture("flate.pdf"), &DecodeRequest::default()).unwrap();
    assert_eq!(
        decode(&fixture("unprintable.pdf"), &DecodeRequest::default()).unwrap().luminance,
        free.luminance
    );
    let stamped = decode(&fixture("with-stamp.pdf"), &DecodeRequest::default()).unwrap();
    assert_eq!(stamped.file.notices, [Notice::PageHasMore { page: 1 }]);
}

#[test]
fn kinds_of_tiff_that_are_not_read() {
    assert_eq!(
        error(&fixture("camera-raw.tif")).to_string(),
        "Camera raw files are not read: develop it in the camera's own program and save it as a TIFF or JPEG"
    );
    let mut float = fixture("plain.tif");
    let entry = float.windows(4).position(|w| w == [0x02, 0x01, 3, 0]).unwrap();
    float[entry + 8] = 12;
    assert_eq!(
        error(&float).to_string(),
        "TIFF of this sort is not read (12 bits a sample): save it as 8-bit grey or RGB, TIFF or PNG"
    );
}

#[test]
fn one_pixel_and_blank_pictures_are_decoded() {
    for name in ["one-pixel.png", "one-pixel.jpg", "one-pixel.tif", "one-pixel.jp2", "one-pixel.webp"] {
        let plane = decode(&fixture(name), &DecodeRequest::default()).unwrap().luminance;
        assert_eq!((plane.width(), plane.height()), (1, 1), "{name}");
    }
    for (name, value) in [("white.png", 255), ("black.jpg", 0)] {
        let plane = decode(&fixture(name), &DecodeRequest::default()).unwrap().luminance;
        assert!(plane.data().iter().all(|&v| v == value), "{name}");
    }
}
