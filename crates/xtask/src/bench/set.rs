//! The sets of pairs and where they are kept.

use std::path::{Path, PathBuf};

use clap::ValueEnum;
use serde::{Deserialize, Serialize};

/// A set of pairs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Set {
    /// Simulated, for work on the methods.
    Dev,
    /// Simulated, never looked at while a method is worked on; other seeds, texts and layouts.
    Sealed,
    /// Simulated pairs of one setting, many of them corrected in every third word: what `fit` goes by.
    Fit,
    /// Photographs of real sheets, where the folder of them is present.
    Real,
}

impl Set {
    /// Its name, as in `--set`.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Dev => "dev",
            Self::Sealed => "sealed",
            Self::Fit => "fit",
            Self::Real => "real",
        }
    }

    /// Its folder in the folder of the benchmark.
    pub(crate) fn folder(self, out: &Path) -> PathBuf {
        out.join(self.name())
    }

    /// What a table of it must be called.
    pub(crate) fn label(self) -> &'static str {
        match self {
            Self::Dev => "Development set (*simulated*)",
            Self::Sealed => "Sealed set (*simulated*)",
            Self::Fit => "Pairs that are fitted to (*simulated*)",
            Self::Real => "Real photographs",
        }
    }
}

/// The root of the workspace.
pub(crate) fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.ancestors().nth(2).unwrap_or(here).to_path_buf()
}

/// The folder of real photographs: `$REGLET_REAL`, or `shared/real` beside the repository.
pub(crate) fn real_photographs() -> PathBuf {
    std::env::var_os("REGLET_REAL").map_or_else(|| root().join("../shared/real"), PathBuf::from)
}
