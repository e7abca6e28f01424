//! TIFF, by way of the `tiff` crate for directories and most codings; fax and JPEG strips are decoded
//! here, by the same code that reads them in other files.

mod directory;
mod mend;
mod samples;

use std::io::Cursor;
use std::num::NonZeroU32;

use tiff::decoder::Decoder;
use tiff::decoder::ifd::Value;
use tiff::tags::Tag;
use tiff::{TiffError, TiffFormatError};

use super::canvas::{Canvas, Keep};
use super::photograph::FileFacts;
use super::request::Limits;
use super::{DecodeError, Format, Notice};
use directory::{Directory, Reader, told};
use mend::mend;

/// More directories than any book has leaves: a loop or an attack (common practice, no source).
const MOST_PAGES: usize = 16_384;

/// Decodes one picture of a TIFF: the page asked for, else the largest. The smaller levels of a pyramid
/// and masks are not pages.
pub(super) fn decode(
    bytes: &[u8],
    page: Option<NonZeroU32>,
    keep: Keep,
    limits: Limits,
) -> Result<(Canvas, FileFacts), DecodeError> {
    let mended = mend(bytes, MOST_PAGES);
    let mut reader = open(&mended.file)?;
    let pages = pages(&mut reader)?;
    let (number, index) = choose(&pages, page)?;
    reader.seek_to_image(index).map_err(|e| told(&e))?;
    let indexed = reader.ifd_pointer().is_some_and(|p| mended.indexed.contains(&p.0));
    let directory = Directory::read(&mut reader, &mended.file, indexed, limits)?;
    let mut canvas = Canvas::new(keep, directory.width, directory.height, limits)?;
    samples::decode(&mut reader, &mended.file, &directory, limits, &mut canvas)?;

    let mut facts = FileFacts::new(Format::Tiff, directory.width, directory.height);
    facts.turned = directory.turning;
    facts.resolution_tags.extend(directory.resolution);
    if pages.len() > 1 {
        facts.page = Some(number);
        if page.is_none() {
            facts.notices.push(Notice::PageChosen { page: number, pages: pages.len() as u32 });
        }
    }
    Ok((canvas, facts))
}

fn open(bytes: &[u8]) -> Result<Reader<'_>, DecodeError> {
    // The values of a tag, held as `Value`s, cannot be more than the file has bytes. Strips are decoded into
    // buffers of our own, bounded by the size of the picture.
    let mut limits = tiff::decoder::Limits::unlimited();
    limits.ifd_value_size = bytes.len();
    limits.decoding_buffer_size = bytes.len().saturating_mul(size_of::<Value>());
    Ok(Decoder::new(Cursor::new(bytes)).map_err(|e| told(&e))?.with_limits(limits))
}

/// A page: its place in the chain of directories, and its area.
struct Page {
    index: usize,
    area: u64,
}

/// The pages of the file, in order.
fn pages(reader: &mut Reader<'_>) -> Result<Vec<Page>, DecodeError> {
    let mut pages = Vec::new();
    let mut last_error = None;
    for index in 0..MOST_PAGES {
        match reader.seek_to_image(index) {
            Ok(()) => {
                let kind: u32 = reader.find_tag_unsigned(Tag::NewSubfileType).ok().flatten().unwrap_or(0);
                let old: u32 = reader.find_tag_unsigned(Tag::SubfileType).ok().flatten().unwrap_or(1);
                // Bit 0 and old kind 2: a reduced copy of another picture. Bit 2: a mask.
                if kind & 0b101 == 0 && old != 2 {
                    let (w, h) = reader.dimensions().map_err(|e| told(&e))?;
                    pages.push(Page { index, area: u64::from(w) * u64::from(h) });
                }
            }
            Err(TiffError::FormatError(
                TiffFormatError::ImageFileDirectoryNotFound | TiffFormatError::CycleInOffsets,
            )) => break,
            Err(e) => match told(&e) {
                // What comes after cannot be known: it may be the page.
                cut @ DecodeError::CutShort { .. } => return Err(cut),
                // One directory of a kind that is unknown, as camera files have them, hides no other.
                other => last_error = Some(other),
            },
        }
        if !reader.more_images() {
            break;
        }
    }
    if pages.is_empty() {
        return Err(last_error.unwrap_or_else(|| DecodeError::damaged(Format::Tiff, "no picture in it")));
    }
    Ok(pages)
}

/// The number of a page, from 1, and its place in the chain of directories.
fn choose(pages: &[Page], asked: Option<NonZeroU32>) -> Result<(u32, usize), DecodeError> {
    if let Some(asked) = asked {
        let page = pages.get(asked.get() as usize - 1);
        let page = page.ok_or(DecodeError::NoSuchPage { asked: asked.get(), pages: pages.len() as u32 })?;
        return Ok((asked.get(), page.index));
    }
    let mut best = 0;
    for (i, page) in pages.iter().enumerate() {
        if page.area > pages[best].area {
            best = i;
        }
    }
    Ok((best as u32 + 1, pages[best].index))
}
