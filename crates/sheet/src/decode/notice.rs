//! What the user should know about a file that was decoded all the same.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::fmt;

use super::Format;

/// What the user should know about a file that was decoded all the same.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case", tag = "notice")]
pub enum Notice {
    /// The extension names another kind of file than the content is.
    WrongExtension {
        /// The extension as the user wrote it, in lower case.
        extension: String,
        /// What the content is.
        format: Format,
    },
    /// The file is animated; its first picture was taken.
    Animated {
        /// The kind of the file.
        format: Format,
        /// How many pictures it holds.
        pictures: u32,
    },
    /// The file has several pages, none was asked for, and one was taken.
    PageChosen {
        /// The page taken, from 1.
        page: u32,
        /// How many there are.
        pages: u32,
    },
    /// The page of the PDF has other, much smaller pictures, or its own type and lines, that were left out.
    PageHasMore {
        /// The page, from 1.
        page: u32,
    },
}

impl fmt::Display for Notice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::WrongExtension { extension, format } => {
                write!(f, "The name ends in .{extension} but the file is {format}; it was read as {format}")
            }
            Self::Animated { format, pictures } => {
                write!(f, "The {format} file holds {pictures} pictures in turn; the first was taken")
            }
            Self::PageChosen { page, pages } => write!(
                f,
                "The file has {pages} pages; page {page}, the largest, was taken. Put #1 to #{pages} after the \
                 name of the file for another"
            ),
            Self::PageHasMore { page } => write!(
                f,
                "Page {page} of the PDF has smaller pictures beside the one that was taken; they were left out"
            ),
        }
    }
}
