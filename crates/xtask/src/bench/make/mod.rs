//! Makes the sets.

mod plan;
mod real;
mod simulated;
mod truth;

use std::path::Path;
use std::time::Instant;

use anyhow::Context as _;

use super::pair::write_json;
use super::set::{Set, real_photographs};

/// What is to be made.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Wanted {
    pub(crate) set: Set,
    /// How many pairs the plan of a simulated set goes on for.
    pub(crate) pairs: usize,
    /// Of these only those of one setting.
    pub(crate) one_setting: bool,
    /// Also those that are there and still good.
    pub(crate) again: bool,
}

/// Makes a set in its folder under `out`; what is there and still good stays, unless it is wanted again.
pub(crate) fn make(wanted: &Wanted, out: &Path) -> anyhow::Result<()> {
    let folder = wanted.set.folder(out);
    std::fs::create_dir_all(&folder).with_context(|| format!("cannot make {}", folder.display()))?;
    let start = Instant::now();
    let pairs = match wanted.set {
        Set::Real => real::pairs(&real_photographs(), &folder)?,
        Set::Dev | Set::Sealed | Set::Fit => simulated::pairs(wanted, &folder)?,
    };
    write_json(&folder.join("pairs.json"), &pairs)?;
    eprintln!("{} pairs in {} ({:.0} s)", pairs.len(), folder.display(), start.elapsed().as_secs_f64());
    Ok(())
}
