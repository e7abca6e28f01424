//! Why a file could not be decoded, and what to do about it.

use thiserror::Error;

use super::Format;

/// Why a file could not be decoded. The text says what was wrong and, after the colon, what to do; the
/// caller puts the name of the file before it.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum DecodeError {
    /// There are no bytes. The copy or the download failed.
    #[error("the file is empty: fetch or copy it again")]
    Empty,
    /// The bytes are those of no known kind of picture.
    #[error(
        "this is not a picture (it begins with {begins}): give a JPEG, PNG, TIFF, WebP, JPEG 2000 or PDF file"
    )]
    NotAPicture {
        /// The first bytes, as text where they are text, else in hexadecimal.
        begins: String,
    },
    /// A known kind of picture that is not read. Convert it.
    #[error("{name} files are not read: {remedy}")]
    ForeignFormat {
        /// The kind, as people call it.
        name: &'static str,
        /// How to get a file that is read.
        remedy: &'static str,
    },
    /// The file is larger than the limit. Make it smaller, or let the caller raise the limit.
    #[error("the file has {bytes} bytes, more than the {max_bytes} that are read: take a smaller file")]
    TooManyBytes {
        /// Bytes of the file.
        bytes: u64,
        /// The limit.
        max_bytes: u64,
    },
    /// The header promises more pixels than the limit. Make the picture smaller, or let the caller raise the limit.
    #[error(
        "the picture is {width} by {height} pixels, more than the {max_pixels} pixels that are read: crop it or reduce it"
    )]
    TooManyPixels {
        /// Width from the header.
        width: u32,
        /// Height from the header.
        height: u32,
        /// The limit, in pixels of area.
        max_pixels: u64,
    },
    /// The header gives a width or height of zero.
    #[error("the picture has a width or height of zero: fetch or save it again")]
    NoPixels,
    /// The data end before the picture does: a broken download, most often.
    #[error("the {format} data end before the picture does: the file was cut short, fetch or copy it again")]
    CutShort {
        /// The kind of the file.
        format: Format,
    },
    /// The data break the rules of their format.
    #[error(
        "the {format} data are damaged ({reason}): fetch it again, or open it elsewhere and save it anew"
    )]
    Damaged {
        /// The kind of the file.
        format: Format,
        /// What broke, in the words of the decoder.
        reason: String,
    },
    /// A well-formed file of a sort that is not read. Convert it.
    #[error("{format} of this sort is not read ({kind}): save it as 8-bit grey or RGB, TIFF or PNG")]
    KindNotRead {
        /// The kind of the file.
        format: Format,
        /// What about it is not read.
        kind: String,
    },
    /// A page was asked for that the file does not have.
    #[error("page {asked} was asked for, but the file has {}", has_pages(*pages))]
    NoSuchPage {
        /// The page asked for, from 1.
        asked: u32,
        /// How many pages there are.
        pages: u32,
    },
    /// A PDF of several pages was given without saying which.
    #[error("the PDF has {pages} pages: say which one, with #1 to #{pages} after the name of the file")]
    PageNotSaid {
        /// How many pages there are.
        pages: u32,
    },
    /// A page of a PDF holds text or drawing, but no picture.
    #[error(
        "page {page} of the PDF holds no photograph, only type or lines drawn by the PDF itself: \
         give the photograph it was made from, or save the page as a PNG of at least 300 ppi"
    )]
    PageWithoutPicture {
        /// The page, from 1.
        page: u32,
    },
    /// A page of a PDF is put together from several pictures (layers of ink and of paper, or strips).
    #[error(
        "page {page} of the PDF is put together from {pictures} pictures (layers or strips), none of which \
         is the whole page: take the library's own page image (JPEG or JPEG 2000), or save the page as a \
         PNG of at least 300 ppi"
    )]
    PageInPieces {
        /// The page, from 1.
        page: u32,
        /// How many pictures of a considerable size the page has.
        pictures: usize,
    },
    /// The PDF is locked with a password.
    #[error("the PDF is locked with a password: open it with the password and save it unlocked")]
    Locked,
}

/// How many pages there are, and what to ask for.
fn has_pages(pages: u32) -> String {
    match pages {
        1 => "one picture only: name it without a page".to_owned(),
        _ => format!("{pages}: ask for a page from 1 to {pages}"),
    }
}

impl DecodeError {
    /// Damage of `format`, told in the decoder's words.
    pub(super) fn damaged(format: Format, reason: impl Into<String>) -> Self {
        Self::Damaged { format, reason: reason.into() }
    }

    /// A sort of `format` that is not read.
    pub(super) fn kind(format: Format, kind: impl Into<String>) -> Self {
        Self::KindNotRead { format, kind: kind.into() }
    }
}
