//! Prints the studies.

use std::path::{Path, PathBuf};

use anyhow::Context as _;
use press::Founts;
use press::scenario::Study;
use rayon::prelude::*;
use serde::{Deserialize, Serialize};
use sheet::Ppi;

use super::truth::StudyTruth;
use crate::bench::pair::{read_json, write_json};
use crate::bench::press_tree::{press_tree, prints_the_same};
use crate::bench::set::Set;

/// A study to be printed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub(super) struct Planned {
    /// Its number in the set, from 0.
    pub(super) number: usize,
    /// What is asked of the press.
    pub(super) study: Study,
}

impl Planned {
    /// What it is, in a few words.
    pub(super) fn name(&self) -> String {
        let Study { copies, level, ppi, .. } = self.study;
        let ppi = if ppi[0] == ppi[1] { ppi[0].0.to_string() } else { format!("{}/{}", ppi[0].0, ppi[1].0) };
        format!("{copies} copies, level {level}, {ppi} ppi")
    }
}

/// Studies of the development set, and of the sealed one.
const STUDIES: [usize; 2] = [30, 15];
/// Copies of a study: few enough that every two are laid together, and more.
const COPIES: [usize; 4] = [20, 8, 16, 24];
/// Resolutions: what libraries deliver, alike or not.
const RESOLUTIONS: [[f64; 2]; 5] =
    [[300.0, 300.0], [250.0, 250.0], [300.0, 200.0], [400.0, 300.0], [250.0, 300.0]];
/// Quality of the JPEGs (common practice, no source).
const QUALITY: u8 = 90;

/// The studies of a set; the sets share no seed.
pub(super) fn plan(set: Set) -> Vec<Planned> {
    let (first_seed, count) = match set {
        Set::Sealed => (0x5EA1_57D1_0000_0000, STUDIES[1]),
        _ => (0x0DE7_57D1_0000_0000, STUDIES[0]),
    };
    (0..count)
        .map(|number| {
            // Rounds of the five levels, each level with other counts of copies and resolutions.
            let copies = COPIES[number % COPIES.len()];
            let ppi = RESOLUTIONS[(number + number / 5) % RESOLUTIONS.len()].map(Ppi);
            let study = Study { copies, level: (number % 5) as u8, ppi, seed: first_seed + number as u64 };
            Planned { number, study }
        })
        .collect()
}

/// What is kept of a study beside its photographs.
#[derive(Debug, Serialize, Deserialize)]
struct Made {
    press: String,
    planned: Planned,
    files: Vec<PathBuf>,
    truth: StudyTruth,
}

/// The photographs of a study and what is true of it. One that was made by this press from the same plan is not printed
/// again, unless that is wanted.
pub(super) fn study(
    planned: &Planned,
    folder: &Path,
    again: bool,
) -> anyhow::Result<(Vec<PathBuf>, StudyTruth)> {
    let folder = folder.join(format!("{:02}", planned.number));
    let (file, press) = (folder.join("made.json"), press_tree());
    let is_good = |made: &Made| {
        !again
            && prints_the_same(&made.press, &press)
            && made.planned == *planned
            && made.files.iter().all(|f| folder.join(f).exists())
    };
    let made = if let Some(made) = read_json::<Made>(&file).ok().filter(is_good) {
        made
    } else {
        std::fs::create_dir_all(&folder).with_context(|| format!("cannot make {}", folder.display()))?;
        let made = printed(planned, press, &folder)?;
        write_json(&file, &made)?;
        made
    };
    Ok((made.files.iter().map(|f| folder.join(f)).collect(), made.truth))
}

/// Prints a study.
fn printed(planned: &Planned, press: String, folder: &Path) -> anyhow::Result<Made> {
    let founts = Founts::open().context("the founts of the press do not open")?;
    let Planned { study, .. } = planned;
    let stock = study.compose(&founts).context("the copies cannot be composed")?;
    let pulled = (0..study.copies)
        .into_par_iter()
        .map(|copy| {
            let pull = study.pull(&founts, &stock, copy)?;
            let name = PathBuf::from(format!("copy-{:02}.jpg", copy + 1));
            let bytes = pull.picture.to_jpeg(QUALITY, Some(study.ppi_of(copy)))?;
            std::fs::write(folder.join(&name), bytes)?;
            anyhow::Ok((name, pull.truth))
        })
        .collect::<anyhow::Result<Vec<_>>>()?;
    let (files, truths): (Vec<_>, Vec<_>) = pulled.into_iter().unzip();
    let truth = StudyTruth::of(&stock, &truths);
    Ok(Made { press, planned: *planned, files, truth })
}
