//! What is sent to others: the record of a comparison as JSON, one page that stands by itself, and plates.
//!
//! Values in, bytes out: nothing is read or written here, and nothing is measured. [`record`] is what is written as
//! JSON, [`report`] puts it into words, [`pictures`] draws, [`page`] sets
//! both as HTML, [`plates`] are for a publication.

pub mod blocks;
pub mod many;
pub mod measure;
pub mod page;
pub mod pictures;
pub mod plates;
pub mod record;
pub mod report;
