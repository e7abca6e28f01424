//! The photograph on a page of a PDF, by way of `lopdf`. Nothing is drawn: the picture that the page places
//! is taken as it is stored, at its full resolution, and turned as the page shows it.

mod colour;
mod drawn;
mod picture;

use std::num::NonZeroU32;

use lopdf::{Document, Error, LoadOptions, ObjectId};

use super::canvas::{Canvas, Keep};
use super::photograph::FileFacts;
use super::request::Limits;
use super::{DecodeError, Format, Notice, Turning};
use crate::scale::{ResolutionTag, ResolutionUnit, TagSource};
use drawn::{Drawn, Shown, inherited, page_area, shown};

/// Points to the inch (ISO 32000-1, 8.3.2.3).
const POINTS: f64 = 72.0;

/// Decodes the picture of a page.
pub(super) fn decode(
    bytes: &[u8],
    page: Option<NonZeroU32>,
    keep: Keep,
    limits: Limits,
) -> Result<(Canvas, FileFacts), DecodeError> {
    // A file that was cut short has lost its last line, and with it the table of its objects.
    let ended = bytes[bytes.len().saturating_sub(1024)..].windows(5).any(|w| w == b"%%EOF");
    let cut = |e| match e {
        DecodeError::Damaged { .. } if !ended => DecodeError::CutShort { format: Format::Pdf },
        other => other,
    };
    let document = open(bytes).map_err(cut)?;
    let (number, pages, id) = choose(&document, page).map_err(cut)?;
    let shown = shown(&document, id);
    let (main, others) = main_picture(&shown, page_area(&document, id), number)?;
    let canvas = picture::decode(&document, main.stream, keep, limits).map_err(inside)?;

    let mut facts = FileFacts::new(Format::Pdf, canvas.width as u32, canvas.height as u32);
    facts.page = (pages > 1).then_some(number);
    if others {
        facts.notices.push(Notice::PageHasMore { page: number });
    }
    let Turning { mirrored, quarters } = main.matrix.turning();
    let page_turn = inherited(&document, id, b"Rotate").and_then(|o| o.as_i64().ok()).unwrap_or(0);
    facts.turned = Turning { mirrored, quarters: (i64::from(quarters) + page_turn / 90).rem_euclid(4) as u8 };
    let unit = inherited(&document, id, b"UserUnit").and_then(|o| o.as_float().ok()).map_or(1.0, f64::from);
    let (w, h) = main.matrix.size();
    let ppi = |pixels: usize, points: f64| pixels as f64 * POINTS / (points * unit);
    let tag =
        ResolutionTag::new(ppi(canvas.width, w), ppi(canvas.height, h), ResolutionUnit::Inch, TagSource::Pdf);
    facts.resolution_tags.extend(tag);
    Ok((canvas, facts))
}

fn open(bytes: &[u8]) -> Result<Document, DecodeError> {
    /// Far above the catalogues of any book: what a hostile file may unpack to.
    const MOST_BYTES: usize = 64 << 20;
    let options = LoadOptions { max_decompressed_size: Some(MOST_BYTES), ..LoadOptions::default() };
    let document = Document::load_mem_with_options(bytes, options).map_err(|e| match e {
        Error::InvalidPassword | Error::Decryption(_) => DecodeError::Locked,
        other => DecodeError::damaged(Format::Pdf, other.to_string()),
    })?;
    // Files that only forbid printing open with the empty password, and lopdf has opened them.
    if document.is_encrypted() && document.encryption_state.is_none() {
        return Err(DecodeError::Locked);
    }
    Ok(document)
}

/// The number of the page, how many there are, and its object.
fn choose(document: &Document, asked: Option<NonZeroU32>) -> Result<(u32, u32, ObjectId), DecodeError> {
    let pages = document.get_pages();
    let count = pages.len() as u32;
    let number = match asked {
        Some(asked) => asked.get(),
        None if count > 1 => return Err(DecodeError::PageNotSaid { pages: count }),
        None => 1,
    };
    if count == 0 {
        return Err(DecodeError::damaged(Format::Pdf, "no pages"));
    }
    let id = pages.get(&number).ok_or(DecodeError::NoSuchPage { asked: number, pages: count })?;
    Ok((number, count, *id))
}

/// The picture that is the page, and whether there are small ones beside it. `area` is that of the page.
fn main_picture<'a>(
    shown: &'a Shown<'a>,
    area: f64,
    page: u32,
) -> Result<(&'a Drawn<'a>, bool), DecodeError> {
    /// A picture of this share of the largest is part of the page and no ornament on it, and a picture of
    /// less than this share of a page of type is an ornament and not the page: below are marks that
    /// digitisers put into a corner, above are layers and strips (a judgement, no source).
    const PART: f64 = 0.1;
    let largest = shown.pictures.iter().max_by(|a, b| a.area().total_cmp(&b.area()));
    let main = largest.filter(|d| !shown.text || d.area() >= PART * area);
    let main = main.ok_or(DecodeError::PageWithoutPicture { page })?;
    let parts = shown.pictures.iter().filter(|d| d.area() >= PART * main.area()).count();
    if parts > 1 {
        return Err(DecodeError::PageInPieces { page, pictures: parts });
    }
    Ok((main, shown.pictures.len() > 1))
}

/// The error of a picture inside as one of the PDF around it.
fn inside(error: DecodeError) -> DecodeError {
    let format = Format::Pdf;
    match error {
        DecodeError::CutShort { .. } => DecodeError::CutShort { format },
        DecodeError::Damaged { format: Format::Pdf, .. }
        | DecodeError::KindNotRead { format: Format::Pdf, .. } => error,
        DecodeError::Damaged { format: inner, reason } => {
            DecodeError::Damaged { format, reason: format!("its {inner} picture: {reason}") }
        }
        DecodeError::KindNotRead { format: inner, kind } => {
            DecodeError::KindNotRead { format, kind: format!("its {inner} picture: {kind}") }
        }
        other => other,
    }
}
