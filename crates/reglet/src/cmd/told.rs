//! How the commands that reckon write and say what they found.

use super::outputs;
use crate::files::write_whole;
use crate::say;
use anyhow::{Context as _, Result};
use clap::Args;
use serde::Serialize;
use std::path::{Path, PathBuf};

/// Where results go.
#[derive(Debug, Args)]
pub(in crate::cmd) struct Answers {
    /// Write the whole result as JSON to FILE, or to standard output with "-" in place of the words.
    #[arg(long, value_name = "FILE")]
    json: Option<PathBuf>,
    /// Draw the result into FILE, as SVG.
    #[arg(long, value_name = "FILE.svg")]
    picture: Option<PathBuf>,
}

impl Answers {
    /// Refuses to write over what is read, before anything is computed.
    pub(in crate::cmd) fn check(&self, read: Option<&Path>) -> Result<()> {
        let read: Vec<&Path> = read.into_iter().collect();
        let written: Vec<&Path> =
            [&self.json, &self.picture].into_iter().flatten().map(PathBuf::as_path).collect();
        outputs::check_written(&read, &written)
    }

    /// Whether a picture is wanted.
    pub(in crate::cmd) fn wants_picture(&self) -> bool {
        self.picture.is_some()
    }

    /// Writes and says everything: files first, so that what is said to be written is.
    pub(in crate::cmd) fn tell<R: Serialize>(
        &self,
        record: &R,
        words: &str,
        picture: Option<&str>,
    ) -> Result<()> {
        let goes_out = self.json.as_deref() == Some(Path::new("-"));
        let json = || serde_json::to_string_pretty(record).context("the result cannot be written as JSON");
        if let (Some(path), Some(svg)) = (&self.picture, picture) {
            write_whole(path, svg.as_bytes())?;
        }
        if goes_out {
            return say::result(&json()?);
        }
        if let Some(path) = &self.json {
            write_whole(path, json()?.as_bytes())?;
        }
        say::result(words)?;
        for (what, path) in [("picture", &self.picture), ("JSON", &self.json)] {
            if let Some(path) = path {
                say::result(&format!("\nThe {what}: {}", path.display()))?;
            }
        }
        Ok(())
    }
}

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

/// A number with its thousands parted by commas, without decimals.
pub(in crate::cmd) fn whole(x: f64) -> String {
    let digits = format!("{:.0}", x.max(0.0));
    let mut out = String::new();
    for (i, c) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i) % 3 == 0 {
            out.push(',');
        }
        out.push(c);
    }
    out
}

/// A number with one decimal, and thousands parted; none where it is whole.
pub(in crate::cmd) fn tenth(x: f64) -> String {
    let tenths = (x.max(0.0) * 10.0).round();
    let of_ten = tenths % 10.0;
    if of_ten < 0.5 {
        whole(tenths / 10.0)
    } else {
        format!("{}.{of_ten:.0}", whole((tenths / 10.0).floor()))
    }
}

/// So many of something: "1 sheet", "2 sheets".
pub(in crate::cmd) fn of(n: u32, one: &str, more: &str) -> String {
    format!("{} {}", whole(f64::from(n)), if n == 1 { one } else { more })
}

/// A chance as a reader takes it: "less than 1 in 1,000", "3 in 100".
pub(in crate::cmd) fn chance(p: f64) -> String {
    if p < 0.001 {
        "less than 1 in 1,000".to_owned()
    } else if p < 0.01 {
        format!("{:.0} in 1,000", p * 1000.0)
    } else {
        format!("{:.0} in 100", p * 100.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_said_as_they_are_read() {
        assert_eq!((whole(1_234_567.4), whole(999.0)), ("1,234,567".into(), "999".into()));
        assert_eq!((tenth(20.25), tenth(81.0), tenth(9.96)), ("20.3".into(), "81".into(), "10".into()));
        assert_eq!(
            (of(1, "sheet", "sheets"), of(2, "sheet", "sheets")),
            ("1 sheet".into(), "2 sheets".into())
        );
        assert_eq!(
            (chance(0.0002), chance(0.0042), chance(0.25)),
            ("less than 1 in 1,000".into(), "4 in 1,000".into(), "25 in 100".into())
        );
    }
}
