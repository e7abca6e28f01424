//! `reglet print`: photographs from the virtual press, with the truth beside them.

use crate::files::write_whole;
use crate::say::{self, Progress};
use anyhow::{Context as _, Result};
use clap::{Args, ValueEnum};
use press::scenario::{PrintedPair, Scenario, ScenarioKind, Study};
use press::{Founts, Picture, Pull};
use sheet::Ppi;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Print copies of an invented sheet on the virtual press, with the truth beside them.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  reglet print --kind same-setting-with-differences copies
  reglet print --kind different-setting --level 4 --ppi 400,150 --seed 12 copies
  reglet print --copies 20 --level 2 copies")]
pub struct Print {
    /// The folder that takes the photographs and truth.json.
    folder: PathBuf,
    /// Many copies, as a study has them: of two settings, corrected at press in several states.
    #[arg(long, value_name = "N", conflicts_with = "kind", value_parser = clap::value_parser!(u16).range(2..=1000))]
    copies: Option<u16>,
    /// What the two copies are to each other.
    #[arg(long, value_enum, default_value_t = Kind::SameSettingWithDifferences)]
    kind: Kind,
    /// Difficulty, from 0 (clean) to 4 (a quarter of the ink missing, creases, curl).
    #[arg(long, default_value_t = 1, value_parser = clap::value_parser!(u8).range(0..=4))]
    level: u8,
    /// Pixels to the inch of both photographs, or FIRST,SECOND; 100 to 800. Many copies have one and the other in turn.
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
        let founts = Founts::open().context("the founts of the press cannot be opened")?;
        if let Some(copies) = self.copies {
            return self.study(copies.into(), &founts, &progress);
        }
        progress.step("Composing and pulling two copies");
        let [ppi_a, ppi_b] = self.ppi;
        let scenario = Scenario { kind: self.kind.into(), level: self.level, ppi_a, ppi_b, seed: self.seed };
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

impl Print {
    /// Prints many copies.
    fn study(&self, copies: usize, founts: &Founts, progress: &Progress) -> Result<ExitCode> {
        progress.step("Composing");
        let study = Study { copies, level: self.level, ppi: self.ppi, seed: self.seed };
        let stock = study.compose(founts).context("the copies cannot be composed")?;
        let width = copies.to_string().len();
        let mut truths = Vec::new();
        for copy in 0..copies {
            progress.step(&format!("Pulling copy {} of {copies}", copy + 1));
            let pull = study.pull(founts, &stock, copy).context("a copy cannot be pulled")?;
            let name = format!("copy-{:0width$}.jpg", copy + 1);
            write_copy(&pull, &self.folder.join(&name), study.ppi_of(copy))?;
            let state = &stock.states[stock.of_copy[copy]];
            truths.push(serde_json::json!({
                "file": name, "setting": state.setting, "state": state.state, "truth": pull.truth,
            }));
        }
        let states: Vec<_> = stock
            .states
            .iter()
            .map(|s| serde_json::json!({ "setting": s.setting, "state": s.state, "changes": s.changes }))
            .collect();
        let whole = serde_json::json!({ "study": study, "states": states, "copies": truths });
        let truth = self.folder.join("truth.json");
        write_whole(&truth, serde_json::to_string(&whole)?.as_bytes())?;
        progress.end();
        say::result(&format!("{} copies: {}", copies, self.folder.display()))?;
        Ok(ExitCode::SUCCESS)
    }
}

/// Writes a photograph as JPEG with its resolution.
pub(super) fn write_copy(pull: &Pull, path: &Path, ppi: Ppi) -> Result<()> {
    write_picture(&pull.picture, path, ppi)
}

/// The same of a picture.
pub(super) fn write_picture(picture: &Picture, path: &Path, ppi: Ppi) -> Result<()> {
    write_whole(path, &picture.to_jpeg(JPEG_QUALITY, Some(ppi))?)
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
        write_copy(pull, path, ppi)?;
    }
    Ok(paths)
}
