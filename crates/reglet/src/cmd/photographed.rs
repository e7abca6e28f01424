//! How a named file is decoded, and what is told of the photograph in it.

use crate::files::Named;
use anyhow::{Context as _, Result};
use publish::record::Photographed;
use sha2::{Digest as _, Sha256};
use sheet::Plane;
use sheet::decode::{DecodeRequest, Photograph, decode, decode_in_colour};
use sheet::scale::{Scale, ScaleNotice};
use std::fmt::Write as _;

/// How the file is to be decoded.
pub(super) fn request(named: &Named) -> DecodeRequest {
    DecodeRequest { page: named.page, extension: named.extension(), ..DecodeRequest::default() }
}

/// The photograph in a file of these `bytes`; in colour as well where that is wanted, from one decoding.
///
/// # Errors
/// A file that cannot be decoded, with its name and the remedy.
pub(super) fn decoded(
    named: &Named,
    bytes: &[u8],
    in_colour: bool,
) -> Result<(Photograph, Option<Plane<[u8; 3]>>)> {
    let request = request(named);
    if in_colour {
        let (photograph, colour) = decode_in_colour(bytes, &request).with_context(|| named.text())?;
        Ok((photograph, Some(colour)))
    } else {
        Ok((decode(bytes, &request).with_context(|| named.text())?, None))
    }
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
