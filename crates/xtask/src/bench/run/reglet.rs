//! Reglet as its users run it: the release binary, a process a pair.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Duration;

use anyhow::Context as _;
use evidence::Comparison;

use super::process;
use crate::bench::answer::Answer;
use crate::bench::set::root;

/// What takes longer has failed.
const LIMIT: Duration = Duration::from_mins(5);

/// The release binary, and where its answers are kept.
#[derive(Debug)]
pub(crate) struct Reglet {
    binary: PathBuf,
    said: PathBuf,
}

/// Where Reglet's record of a pair is kept.
pub(crate) fn record_file(said: &Path, number: usize) -> PathBuf {
    said.join(format!("{number:03}.json"))
}

impl Reglet {
    /// Builds the binary and makes the folder of its answers.
    pub(crate) fn build(said: &Path) -> anyhow::Result<Self> {
        let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
        let built = Command::new(cargo)
            .args(["build", "--release", "--quiet", "--package", "reglet"])
            .current_dir(root())
            .status()
            .context("cannot start cargo")?;
        anyhow::ensure!(built.success(), "reglet does not build");
        let target =
            std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| root().join("target"), PathBuf::from);
        std::fs::create_dir_all(said).with_context(|| format!("cannot make {}", said.display()))?;
        Ok(Self { binary: target.join("release/reglet"), said: said.to_path_buf() })
    }

    /// Compares photographs and keeps the record.
    pub(crate) fn compare(&self, number: usize, photographs: &[PathBuf]) -> anyhow::Result<process::Ran> {
        let mut command = Command::new(&self.binary);
        command.arg("compare").args(photographs).args(["--json", "-"]);
        let ran = process::run(&mut command, LIMIT)?;
        std::fs::write(record_file(&self.said, number), &ran.output)?;
        Ok(ran)
    }

    /// Its answer on a pair. A failure of Reglet is an answer; a failure to run it is an error.
    pub(crate) fn judge(
        &self,
        number: usize,
        a: &Path,
        b: &Path,
        points: &[[f64; 4]],
    ) -> anyhow::Result<Answer> {
        let ran = self.compare(number, &[a.to_path_buf(), b.to_path_buf()])?;
        let mut answer = match serde_json::from_slice::<Comparison>(&ran.output) {
            Ok(record) => Answer::from_record(&record, points),
            Err(_) if !ran.errors.is_empty() => Answer::failed(ran.errors),
            Err(e) => Answer::failed(format!("no record (exit code {:?}): {e}", ran.code)),
        };
        answer.seconds = ran.seconds;
        answer.cpu_seconds = ran.cpu_seconds;
        answer.peak_bytes = ran.peak_bytes;
        Ok(answer)
    }
}
