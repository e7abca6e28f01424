//! How the commands that reckon write and say what they found.

use super::outputs;
use crate::files::write_whole;
use crate::say;
use anyhow::{Context as _, Result};
use clap::Args;
use serde::Serialize;
use std::path::{Path, PathBuf};

/// Where the JSON goes.
#[derive(Debug, Args)]
pub(in crate::cmd) struct Json {
    /// Write the whole result as JSON to FILE, or to standard output with "-" in place of the words.
    #[arg(long, value_name = "FILE", global = true)]
    json: Option<PathBuf>,
}

impl Json {
    /// Refuses to write over what is read, over a folder or over another result, before anything is computed.
    pub(in crate::cmd) fn check(&self, read: Option<&Path>, others: Option<&Path>) -> Result<()> {
        let read: Vec<&Path> = read.into_iter().collect();
        let written: Vec<&Path> = self.json.as_deref().into_iter().chain(others).collect();
        outputs::check_written(&read, &written)
    }

    /// Writes the record, and says the words unless the record goes where they would.
    pub(in crate::cmd) fn tell(&self, record: &impl Serialize, words: &str) -> Result<()> {
        let text = || serde_json::to_string_pretty(record).context("the result cannot be written as JSON");
        match self.json.as_deref() {
            None => say::result(words),
            Some(path) if path == Path::new("-") => say::result(&text()?),
            Some(path) => {
                // The file first, so that what is said to be written is.
                write_whole(path, format!("{}\n", text()?).as_bytes())?;
                say::result(words)?;
                say::result(&format!("\nThe JSON: {}", path.display()))
            }
        }
    }

    /// Whether the record is said in place of the words.
    fn goes_out(&self) -> bool {
        self.json.as_deref() == Some(Path::new("-"))
    }
}

/// Where results go of what can be drawn.
#[derive(Debug, Args)]
pub(in crate::cmd) struct Answers {
    #[command(flatten)]
    json: Json,
    /// Draw the result into FILE, as SVG.
    #[arg(long, value_name = "FILE.svg")]
    picture: Option<PathBuf>,
}

impl Answers {
    /// Refuses to write over what is read, before anything is computed.
    pub(in crate::cmd) fn check(&self, read: Option<&Path>) -> Result<()> {
        self.json.check(read, self.picture.as_deref())
    }

    /// Whether a picture is wanted.
    pub(in crate::cmd) fn wants_picture(&self) -> bool {
        self.picture.is_some()
    }

    /// Writes and says everything: files first, so that what is said to be written is.
    pub(in crate::cmd) fn tell(
        &self,
        record: &impl Serialize,
        words: &str,
        picture: Option<&str>,
    ) -> Result<()> {
        if let (Some(path), Some(svg)) = (&self.picture, picture) {
            write_whole(path, svg.as_bytes())?;
        }
        self.json.tell(record, words)?;
        match &self.picture {
            Some(path) if !self.json.goes_out() => say::result(&format!("\nThe picture: {}", path.display())),
            _ => Ok(()),
        }
    }
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
