//! How a named file is decoded, and what is told of the photograph in it.

use crate::files::Named;
use publish::record::Photographed;
use sha2::{Digest as _, Sha256};
use sheet::decode::{DecodeRequest, Photograph};
use sheet::scale::{Scale, ScaleNotice};
use std::fmt::Write as _;

/// How the file is to be decoded.
pub(super) fn request(named: &Named) -> DecodeRequest {
    DecodeRequest { page: named.page, extension: named.extension(), ..DecodeRequest::default() }
}

/// What is told of a photograph in a file of these `bytes`, which was turned clockwise by so many right angles to stand upright.
pub(super) fn photographed(
    named: &Named,
    bytes: &[u8],
    photograph: &Photograph,
    quarters_turned: u8,
    (scale, told): (Option<Scale>, &[ScaleNotice]),
) -> Photographed {
    let notices = photograph.file.notices.iter().map(ToString::to_string);
    Photographed {
        file: named.text(),
        sha256: hexadecimal(&Sha256::digest(bytes)),
        width_px: photograph.luminance.width(),
        height_px: photograph.luminance.height(),
        quarters_turned,
        format: photograph.file.format,
        scale,
        notices: notices.chain(told.iter().map(ToString::to_string)).collect(),
    }
}

fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |mut out, b| {
        write!(out, "{b:02x}").ok();
        out
    })
}
