//! Which scale to take, and how far to trust it.

use super::request::PLAUSIBLE;
use super::{ResolutionTag, Scale, ScaleNotice, ScaleRequest, ScaleSource, TagSource};
use crate::Ppi;

/// Relative standard deviation of a scale taken from a file's own tags. The two books in our sample that
/// were photographed with a ruler both have tags that lie, by 45 and by -41 percent; the tags of the others
/// look right but cannot be checked. 0.3 stands for that mixture (a judgement, no source).
pub const METADATA_RELATIVE_SD: f64 = 0.3;

/// Relative standard deviation of a resolution that the user states: someone measured it, or a library
/// guarantees it, to about one percent (common practice, no source).
pub const STATED_RELATIVE_SD: f64 = 0.01;

/// What programs write when they do not know: nothing (1), the screens of two makers (72, 96).
const DEFAULTS: [f64; 3] = [1.0, 72.0, 96.0];

/// Relative difference under which two resolutions are one: tags are rounded to whole numbers of pixels to
/// the inch, centimetre or metre.
const SAME: f64 = 0.01;

/// The scale of a photograph from what the user says, else from what the file says; `None` when neither
/// says anything usable. The notices tell what was found and why it may be wrong.
///
/// A tag is not used when it holds a program's default (1, 72 or 96 ppi), differs between rows and columns,
/// or is implausible; when two usable tags contradict one another, neither is. A JP2's display resolution is
/// heard only in the absence of its capture resolution.
pub fn scale_from(tags: &[ResolutionTag], request: &ScaleRequest) -> (Option<Scale>, Vec<ScaleNotice>) {
    let mut notices = Vec::new();
    let usable = usable(tags, &mut notices);
    let told = match *request {
        ScaleRequest::FromFile => return from_file(&usable, notices),
        ScaleRequest::Ppi(ppi) => {
            Scale { ppi, relative_sd: STATED_RELATIVE_SD, source: ScaleSource::StatedPpi }
        }
        ScaleRequest::KnownLength(length) => Scale {
            ppi: length.ppi(),
            relative_sd: length.relative_sd(),
            source: ScaleSource::KnownLength { px: length.px(), mm: length.mm() },
        },
    };
    // What was wrong with tags that nobody needs now is of no interest; that they contradict the user is.
    notices.clear();
    let differs = |(ppi, _): &&(Ppi, TagSource)| !same(ppi.0, told.ppi.0);
    if let Some(&(left, tag)) = usable.iter().find(differs) {
        notices.push(ScaleNotice::Overridden { taken: told.ppi, left, tag });
    }
    (Some(told), notices)
}

/// The file's own word, if it has one.
fn from_file(
    usable: &[(Ppi, TagSource)],
    mut notices: Vec<ScaleNotice>,
) -> (Option<Scale>, Vec<ScaleNotice>) {
    let Some(&(ppi, tag)) = usable.first() else {
        notices.push(ScaleNotice::Unknown);
        return (None, notices);
    };
    if let Some(&(second, second_tag)) = usable.iter().find(|(other, _)| !same(other.0, ppi.0)) {
        notices.push(ScaleNotice::Conflict { first: ppi, first_tag: tag, second, second_tag });
        notices.push(ScaleNotice::Unknown);
        return (None, notices);
    }
    notices.push(ScaleNotice::Unmeasured { ppi, tag });
    let scale = Scale { ppi, relative_sd: METADATA_RELATIVE_SD, source: ScaleSource::Metadata { tag } };
    (Some(scale), notices)
}

/// The tags that could be true, with a notice on every one that could not.
fn usable(tags: &[ResolutionTag], notices: &mut Vec<ScaleNotice>) -> Vec<(Ppi, TagSource)> {
    let captured = tags.iter().any(|t| t.source == TagSource::Jp2Capture);
    let mut usable = Vec::new();
    for tag in tags.iter().filter(|t| !(captured && t.source == TagSource::Jp2Display)) {
        let (x, y, source) = (tag.ppi_x(), tag.ppi_y(), tag.source);
        let ppi = Ppi((x * y).sqrt());
        if !same(x, y) {
            notices.push(ScaleNotice::Unequal { x: Ppi(x), y: Ppi(y), tag: source });
        } else if DEFAULTS.iter().any(|&d| same(ppi.0, d)) {
            notices.push(ScaleNotice::Default { ppi, tag: source });
        } else if PLAUSIBLE.contains(&ppi.0) {
            usable.push((ppi, source));
        } else {
            notices.push(ScaleNotice::Implausible { ppi, tag: source });
        }
    }
    usable
}

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() <= SAME * a.max(b)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scale::{KnownLength, ResolutionUnit};

    fn tag(x: f64, y: f64, source: TagSource) -> ResolutionTag {
        ResolutionTag::new(x, y, ResolutionUnit::Inch, source).unwrap()
    }

    #[test]
    fn a_tag_is_taken_with_a_large_doubt_and_a_warning() {
        let (scale, notices) = scale_from(&[tag(300.0, 300.0, TagSource::Jfif)], &ScaleRequest::FromFile);
        let scale = scale.unwrap();
        assert!((scale.ppi.0 - 300.0).abs() < 1e-9 && scale.relative_sd >= 0.3);
        assert_eq!(scale.source, ScaleSource::Metadata { tag: TagSource::Jfif });
        assert_eq!(notices.len(), 1);
        let told = notices[0].to_string();
        assert!(told.contains("nobody measured it") && told.contains("45 and 41 percent"), "{told}");
        // The doubt covers both of the books that lie.
        assert!([434.0f64 / 300.0, 176.0 / 300.0].iter().all(|r| r.ln().abs() < 2.0 * scale.relative_sd));
    }

    #[test]
    fn defaults_unequal_and_impossible_tags_are_not_used() {
        for (x, y, expected) in [
            (72.0, 72.0, "which programs write when they do not know"),
            (96.012, 96.012, "which programs write when they do not know"),
            (1.0, 1.0, "which programs write when they do not know"),
            (300.0, 600.0, "300 ppi along and 600 ppi down"),
            (7.0, 7.0, "which no photograph of a sheet has"),
            (1e9, 1e9, "which no photograph of a sheet has"),
        ] {
            let (scale, notices) = scale_from(&[tag(x, y, TagSource::Exif)], &ScaleRequest::FromFile);
            assert_eq!(scale, None);
            assert!(notices[0].to_string().contains(expected), "{}", notices[0]);
            assert_eq!(notices[1], ScaleNotice::Unknown);
        }
        assert_eq!(scale_from(&[], &ScaleRequest::FromFile), (None, vec![ScaleNotice::Unknown]));
    }

    #[test]
    fn a_default_beside_a_real_tag_does_not_hide_it() {
        let tags = [tag(72.0, 72.0, TagSource::Jfif), tag(400.0, 400.0, TagSource::Exif)];
        let (scale, notices) = scale_from(&tags, &ScaleRequest::FromFile);
        assert_eq!(scale.unwrap().source, ScaleSource::Metadata { tag: TagSource::Exif });
        assert!(matches!(notices[..], [ScaleNotice::Default { .. }, ScaleNotice::Unmeasured { .. }]));
    }

    #[test]
    fn tags_that_contradict_one_another_give_no_scale() {
        let tags = [tag(300.0, 300.0, TagSource::Jfif), tag(400.0, 400.0, TagSource::Exif)];
        let (scale, notices) = scale_from(&tags, &ScaleRequest::FromFile);
        assert_eq!(scale, None);
        assert!(notices[0].to_string().starts_with("The file contradicts itself: 300 ppi"), "{}", notices[0]);
        let close = [tag(300.0, 300.0, TagSource::Jfif), tag(299.72, 299.72, TagSource::Exif)];
        assert!(scale_from(&close, &ScaleRequest::FromFile).0.is_some());
    }

    #[test]
    fn how_a_jp2_wishes_to_be_shown_yields_to_how_it_was_captured() {
        let tags = [tag(150.0, 150.0, TagSource::Jp2Display), tag(400.0, 400.0, TagSource::Jp2Capture)];
        let (scale, notices) = scale_from(&tags, &ScaleRequest::FromFile);
        assert!((scale.unwrap().ppi.0 - 400.0).abs() < 1e-9);
        assert_eq!(notices.len(), 1);
        assert!(scale_from(&tags[..1], &ScaleRequest::FromFile).0.is_some());
    }

    #[test]
    fn the_user_comes_first() {
        let tags = [tag(300.0, 300.0, TagSource::Jfif)];
        let length: KnownLength = "683=40".parse().unwrap();
        let (scale, notices) = scale_from(&tags, &ScaleRequest::KnownLength(length));
        let scale = scale.unwrap();
        assert!((scale.ppi.0 - 433.7).abs() < 0.01 && (scale.relative_sd - 0.002_07).abs() < 1e-5);
        assert_eq!(
            notices[0].to_string(),
            "The scale given, 434 ppi, was taken; the file says 300 ppi (the JFIF density)"
        );

        let (scale, notices) = scale_from(&tags, &ScaleRequest::ppi(301.0).unwrap());
        assert_eq!(scale.unwrap().source, ScaleSource::StatedPpi);
        assert!(notices.is_empty());
    }
}
