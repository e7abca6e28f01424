//! Prints the sheets, with what is true of them.

use std::path::{Path, PathBuf};

use anyhow::Context as _;
use press::{Founts, Pull, Truth};
use serde::{Deserialize, Serialize};

use super::plan::Planned;
use crate::bench::pair::{read_json, write_json};
use crate::bench::press_tree::{press_tree, prints_the_same};

/// Quality of the JPEGs (common practice, no source).
const QUALITY: u8 = 88;

/// What is kept of a sheet beside its photograph.
#[derive(Debug, Serialize, Deserialize)]
struct Made {
    press: String,
    planned: Planned,
    truth: Truth,
}

/// The photograph of a sheet and what is true of it. One that was made by this press from the same plan is not printed again.
pub(super) fn made(planned: &Planned, founts: &Founts, folder: &Path) -> anyhow::Result<(PathBuf, Truth)> {
    let of = |end: &str| folder.join(format!("{:04}.{end}", planned.number));
    let (photograph, file, press) = (of("jpg"), of("json"), press_tree());
    let is_good =
        |made: &Made| prints_the_same(&made.press, &press) && made.planned == *planned && photograph.exists();
    if let Some(made) = read_json::<Made>(&file).ok().filter(is_good) {
        return Ok((photograph, made.truth));
    }
    let (sheet, conditions) = planned.sheet();
    let Pull { picture, truth } = sheet
        .print(founts, &conditions)
        .with_context(|| format!("sheet {} cannot be printed", planned.number))?;
    std::fs::write(&photograph, picture.to_jpeg(QUALITY, None)?)
        .with_context(|| format!("cannot write {}", photograph.display()))?;
    write_json(&file, &Made { press, planned: *planned, truth: truth.clone() })?;
    Ok((photograph, truth))
}
