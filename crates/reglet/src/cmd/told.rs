//! A result told once: in words on standard output, or as JSON where that is asked for.

use crate::files::write_whole;
use crate::say;
use anyhow::{Context as _, Result};
use serde::Serialize;
use std::path::Path;

/// Writes the record as JSON to a file, or to standard output with "-"; says the words where no JSON is asked for.
///
/// # Errors
/// A file that cannot be written.
pub(in crate::cmd) fn tell(
    json: Option<&Path>,
    record: &impl Serialize,
    words: impl FnOnce() -> String,
) -> Result<()> {
    let Some(path) = json else { return say::result(&words()) };
    let text = serde_json::to_string_pretty(record).context("the result cannot be written as JSON")?;
    if path == Path::new("-") { say::result(&text) } else { write_whole(path, text.as_bytes()) }
}

/// "2 leaves", "1 leaf".
pub(in crate::cmd) fn counted(n: u32, one: &str, many: &str) -> String {
    format!("{n} {}", if n == 1 { one } else { many })
}
