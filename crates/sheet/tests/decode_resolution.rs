//! Resolutions as other programs write them (Pillow, tifffile, img2pdf; see `tests/reference`), read back.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop at what should not be")]

mod common;

use common::fixture;
use sheet::decode::{DecodeRequest, Turning, decode};
use sheet::scale::{ResolutionTag, ResolutionUnit, ScaleRequest, TagSource, scale_from};

fn tags(name: &str) -> Vec<ResolutionTag> {
    decode(&fixture(name), &DecodeRequest::default()).unwrap().file.resolution_tags
}

#[test]
fn resolutions_written_by_other_programs() {
    use {ResolutionUnit as Unit, TagSource as Source};
    for (name, source, unit, x, ppi) in [
        ("grey.jpg", Source::Jfif, Unit::Inch, 300.0, 300.0),
        ("420.jpg", Source::Jfif, Unit::Inch, 400.0, 400.0),
        // 300 ppi in a whole number of pixels to the metre.
        ("palette-8.png", Source::Png, Unit::Metre, 11_811.0, 299.9994),
        ("plain.tif", Source::Tiff, Unit::Inch, 300.0, 300.0),
        ("lzw.tif", Source::Tiff, Unit::Centimetre, 118.0, 299.72),
        ("deep.tif", Source::Tiff, Unit::Inch, 400.0, 400.0),
        ("jpeg.pdf", Source::Pdf, Unit::Inch, 300.0, 300.0),
        ("turned-page.pdf", Source::Pdf, Unit::Inch, 300.0, 300.0),
        ("form.pdf", Source::Pdf, Unit::Inch, 300.0, 300.0),
    ] {
        let found = tags(name);
        assert_eq!(found.len(), 1, "{name}: {found:?}");
        let tag = found[0];
        assert_eq!((tag.source, tag.unit), (source, unit), "{name}");
        assert!((tag.x - x).abs() < 0.01, "{name}: {tag:?}");
        assert!((tag.ppi_x() - ppi).abs() < 0.01 && (tag.ppi_y() - ppi).abs() < 0.01, "{name}: {tag:?}");
        let (scale, _) = scale_from(&found, &ScaleRequest::FromFile);
        assert!((scale.unwrap().ppi.0 - ppi).abs() < 0.01, "{name}");
    }
}

#[test]
fn a_file_that_says_nothing_or_only_the_shape_of_a_pixel_has_no_tag() {
    for name in ["444.jpg", "rgb.png", "tiled.tif", "lossless.jp2", "lossless.webp"] {
        assert_eq!(tags(name), [], "{name}");
    }
}

#[test]
fn a_quarter_turn_exchanges_the_resolutions_too() {
    for orientation in 1..=8 {
        let file =
            decode(&fixture(&format!("turned-{orientation}.jpg")), &DecodeRequest::default()).unwrap().file;
        assert_eq!((file.stored_width, file.stored_height), (29, 19));
        assert_eq!(file.turned, Turning::from_tag(orientation));
        let tag = file.resolution_tags[0];
        let (x, y) = if orientation < 5 { (118.11, 236.22) } else { (236.22, 118.11) };
        assert!((tag.x - x).abs() < 1e-3 && (tag.y - y).abs() < 1e-3, "{orientation}: {tag:?}");
        assert_eq!((tag.source, tag.unit), (TagSource::Exif, ResolutionUnit::Centimetre));
    }
}
