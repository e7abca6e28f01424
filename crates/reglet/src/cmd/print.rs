//! `reglet print`: two photographs from the virtual press, with the truth beside them.

use crate::files::write_whole;
use crate::say::{self, Progress};
use anyhow::{Context as _, Result};
use clap::{Args, ValueEnum};
use press::Founts;
use press::scenario::{PrintedPair, Scenario, ScenarioKind};
use sheet::Ppi;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Print two copies of an invented sheet on the virtual press, with the truth beside them.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  reglet print --kind same-setting-with-differences copies
  reglet print --kind different-setting --level 4 --ppi 400,150 --seed 12 copies")]
pub struct Print {
    /// The folder that takes the two photographs and truth.json.
    folder: PathBuf,
    /// What the two copies are to each other.
    #[arg(long, value_enum, default_value_t = Kind::SameSettingWithDifferences)]
    kind: Kind,
    /// Difficulty, from 0 (clean) to 4 (a quarter of the ink missing, creases, curl).
    #[arg(long, default_value_t = 1, value_parser = clap::value_parser!(u8).range(0..=4))]
    level: u8,
    /// Pixels to the inch of both photographs, or FIRST,SECOND; 100 to 800.
    #[arg(long, value_name = "N[,N]", default_value = "300", value_parser = resolutions)]
    ppi: [Ppi; 2],
    /// Everything left to chance: the same seed gives the same bytes.
    #[arg(long, default_value_t = 1)]
    seed: u64,
}

/// What two copies are to each other, as it is asked for.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum Kind {
    SameSetting,
    SameSettingWithDifferences,
    PartlyReset,
    DifferentSetting,
    OtherLineEnds,
    DifferentText,
    TooLittleShared,
    OneCopy,
}

impl From<Kind> for ScenarioKind {
    fn from(kind: Kind) -> Self {
        match kind {
            Kind::SameSetting => Self::SameSetting,
            Kind::SameSettingWithDifferences => Self::SameSettingWithDifferences,
            Kind::PartlyReset => Self::PartlyReset,
            Kind::DifferentSetting => Self::DifferentSetting,
            Kind::OtherLineEnds => Self::OtherLineEnds,
            Kind::DifferentText => Self::DifferentText,
            Kind::TooLittleShared => Self::TooLittleShared,
            Kind::OneCopy => Self::OneCopy,
        }
    }
}

fn resolutions(text: &str) -> Result<[Ppi; 2], String> {
    let one = |t: &str| match t.trim().parse::<f64>() {
        Ok(v) if (100.0..=800.0).contains(&v) => Ok(Ppi(v)),
        _ => Err(format!("\"{t}\" is not from 100 to 800 pixels to the inch")),
    };
    match text.split_once(',') {
        Some((a, b)) => Ok([one(a)?, one(b)?]),
        None => one(text).map(|p| [p, p]),
    }
}

/// Quality of the JPEGs: what a library's camera writes (common practice, no source).
const JPEG_QUALITY: u8 = 90;

impl Print {
    /// Prints, photographs and writes.
    ///
    /// # Errors
    /// A folder that cannot be written to; a photograph too large for its resolution.
    pub fn run(&self) -> Result<ExitCode> {
        let progress = Progress::new(false);
        progress.step("Composing and pulling two copies");
        let [ppi_a, ppi_b] = self.ppi;
        let scenario = Scenario { kind: self.kind.into(), level: self.level, ppi_a, ppi_b, seed: self.seed };
        let founts = Founts::open().context("the founts of the press cannot be opened")?;
        let printed = scenario.print(&founts).context("the two copies cannot be printed")?;
        let paths = write_pair(&printed, &self.folder, ["copy-a", "copy-b"], self.ppi)?;
        let truth = self.folder.join("truth.json");
        let whole = serde_json::json!({
            "scenario": scenario, "pair": printed.truth, "a": printed.a.truth, "b": printed.b.truth,
        });
        write_whole(&truth, serde_json::to_string(&whole)?.as_bytes())?;
        progress.end();
        for path in paths.iter().chain([&truth]) {
            say::result(&path.display().to_string())?;
        }
        Ok(ExitCode::SUCCESS)
    }
}

/// Writes both photographs as JPEG with their resolution; where they lie.
pub(super) fn write_pair(
    printed: &PrintedPair,
    folder: &Path,
    names: [&str; 2],
    ppi: [Ppi; 2],
) -> Result<[PathBuf; 2]> {
    let paths = names.map(|n| folder.join(format!("{n}.jpg")));
    for ((path, pull), ppi) in paths.iter().zip([&printed.a, &printed.b]).zip(ppi) {
        write_whole(path, &pull.picture.to_jpeg(JPEG_QUALITY, Some(ppi))?)?;
    }
    Ok(paths)
}
