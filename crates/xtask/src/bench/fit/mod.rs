//! Fits what the program weighs by: the regressions on places and letters that differ, and the weight of the evidence.

mod changes;
mod weight;

use std::path::Path;
use std::process::Command;
use std::sync::atomic::{AtomicUsize, Ordering};

use anyhow::Context as _;
use clap::ValueEnum;
use evidence::{Compared, Reading, Verdict};
use rayon::prelude::*;
use sheet::decode::{DecodeRequest, decode};
use sheet::scale::{ScaleRequest, scale_from};

use super::pair::{Pair, read_json};
use super::set::{Set, root};

/// What is fitted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Fitted {
    /// What a place looks like: the network that sees both impressions about it. Then the changes must be fitted anew,
    /// to other pairs.
    View,
    /// How surely places and letters that differ were changed.
    Changes,
    /// The weight of the evidence.
    Weight,
    /// The weight of two impressions of a cut, from the last run of `bench blocks` over the set.
    Blocks,
    /// How likely wood is gone at a place, from the last run of `bench damage` over the set.
    Damage,
    /// What a damage is called by its shape, from the same.
    DamageClass,
    /// What went wrong at press, from the lines that `bench measure` wrote of the set.
    Incidents,
}

impl Fitted {
    /// The files of what was weighed that are written.
    fn files(self) -> &'static [&'static str] {
        match self {
            Self::View | Self::Changes => &["places.jsonl", "letters.jsonl", "views.u8"],
            Self::Weight => &["weight.jsonl"],
            Self::Blocks | Self::Damage | Self::DamageClass | Self::Incidents => &[],
        }
    }

    /// The scripts that fit to them, what they need, and the folder that they write to.
    fn scripts(self) -> (&'static [&'static str], &'static str, &'static str) {
        let regressions = "numpy and scikit-learn";
        match self {
            Self::View => (&["view"], "numpy, scikit-learn and torch", "crates/evidence/src/changes/view"),
            Self::Changes => (&["places", "letters"], regressions, "crates/evidence/src/changes/score"),
            Self::Weight => (&["weight"], regressions, "crates/evidence/src/setting"),
            Self::Blocks => {
                (&["blocks_sight", "blocks"], "numpy, scikit-learn and torch", "crates/evidence/src/block")
            }
            Self::Damage => (
                &["damage", "damage_view"],
                "numpy, scikit-learn and torch",
                "crates/evidence/src/block/damage",
            ),
            Self::DamageClass => (&["damage_class"], regressions, "crates/evidence/src/block/damage"),
            Self::Incidents => (&["incidents"], "numpy and torch", "crates/evidence/src/measure/incidents"),
        }
    }

    /// Whether a pair tells of it.
    fn goes_by(self, pair: &Pair) -> bool {
        match self {
            Self::View | Self::Changes => pair.one_setting() && pair.truth.is_some(),
            Self::Weight => weight::tells(pair),
            Self::Blocks | Self::Damage | Self::DamageClass | Self::Incidents => false,
        }
    }

    /// The verdicts on a pair of one setting whose places and letters are fitted to. One corrected in many lines may be
    /// called partly reset: its lines that stand show changes as good as any to learn from, but in use none would be told.
    fn verdicts(self) -> &'static [Verdict] {
        let all = &[Verdict::SameSetting, Verdict::SameSettingWithDifferences, Verdict::PartlyReset];
        if self == Self::View { all } else { &all[..2] }
    }

    /// What one pair adds to each of the files.
    fn told(self, pair: &Pair, folder: &Path, compared: Compared) -> anyhow::Result<Vec<Vec<u8>>> {
        match self {
            Self::View | Self::Changes => {
                let told = changes::told(pair, folder, compared, self.verdicts())?;
                Ok(vec![told.places.into_bytes(), told.letters.into_bytes(), told.views])
            }
            Self::Weight => Ok(vec![weight::told(pair, &compared)?.into_bytes()]),
            Self::Blocks | Self::Damage | Self::DamageClass | Self::Incidents => Ok(Vec::new()),
        }
    }
}

/// Weighs the pairs of a set, writes beside the set what was weighed, and fits to it.
pub(crate) fn fit(what: Fitted, set: Set, out: &Path, dry: bool) -> anyhow::Result<()> {
    let of_blocks = match what {
        Fitted::Blocks => Some("blocks"),
        Fitted::Damage | Fitted::DamageClass => Some("damage"),
        Fitted::Incidents => Some("measure"),
        _ => None,
    };
    if let Some(bench) = of_blocks {
        return fitted(what, &out.join(format!("{bench}-{}", set.name())), dry);
    }
    let folder = set.folder(out);
    let pairs: Vec<Pair> = read_json(&folder.join("pairs.json"))
        .with_context(|| format!("make the set first: cargo xtask bench make --set {}", set.name()))?;
    let wanted: Vec<&Pair> = pairs.iter().filter(|p| what.goes_by(p)).collect();
    let done = AtomicUsize::new(0);
    let told: Vec<Vec<Vec<u8>>> = wanted
        .par_iter()
        .map(|pair| {
            let told = compared(pair, &folder)
                .and_then(|compared| what.told(pair, &folder, compared))
                .with_context(|| format!("pair {}", pair.number))?;
            let n = done.fetch_add(1, Ordering::Relaxed) + 1;
            if n.is_multiple_of(20) {
                println!("{n} of {} pairs", wanted.len());
            }
            Ok(told)
        })
        .collect::<anyhow::Result<_>>()?;
    for (k, name) in what.files().iter().enumerate() {
        let file = folder.join(name);
        let all: Vec<u8> = told.iter().flat_map(|t| t[k].iter().copied()).collect();
        std::fs::write(&file, all).with_context(|| format!("cannot write {}", file.display()))?;
    }
    fitted(what, &folder, dry)
}

/// Fits to what lies in a folder.
fn fitted(what: Fitted, folder: &Path, dry: bool) -> anyhow::Result<()> {
    let (scripts, needs, to) = what.scripts();
    for script in scripts {
        let mut command = Command::new(outside::python());
        command.arg(root().join(format!("crates/xtask/fit/{script}.py"))).arg(folder);
        if !dry {
            command.arg(root().join(to));
        }
        let fitted = command.status().context("cannot start Python")?;
        anyhow::ensure!(fitted.success(), "{script}.py failed (Python needs {needs})");
    }
    Ok(())
}

fn compared(pair: &Pair, folder: &Path) -> anyhow::Result<Compared> {
    Ok(evidence::compare(&reading(&folder.join(&pair.a))?, &reading(&folder.join(&pair.b))?))
}

fn reading(path: &Path) -> anyhow::Result<Reading> {
    let bytes = std::fs::read(path).with_context(|| format!("cannot read {}", path.display()))?;
    let photograph = decode(&bytes, &DecodeRequest::default())
        .with_context(|| format!("cannot decode {}", path.display()))?;
    let (scale, _) = scale_from(&photograph.file.resolution_tags, &ScaleRequest::FromFile);
    Ok(Reading::of(&photograph.luminance, scale))
}
